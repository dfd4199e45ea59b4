"""The forms of the first day, read into what the use cases ask for."""

from dataclasses import dataclass
from datetime import date, time, timedelta

from squadwright.library.starting_stores import StartingStore
from squadwright.services.first_run import RoomEntry
from squadwright.units import MassUnit
from squadwright.web.forms import Form

LONGEST_SQUAD = 20_000
MOST_OF_A_KIND = 500
INDOORS, OUTDOORS = "indoors", "outdoors"
TODAY, TOMORROW, OTHER_DAY = "today", "tomorrow", "other"
SIDE_M, CEILING_M = (2.0, 100.0), (2.0, 20.0)


@dataclass(frozen=True)
class TypedSquad:
    """The box as it was sent, and whether it is to be taken."""

    text: str
    sport: str
    unit: MassUnit
    code: str


@dataclass(frozen=True)
class When:
    """Day, hour, length and coach of the first session."""

    held_on: date
    starts_at: time
    minutes: int
    coach: str


def read_club_name(form: Form) -> str:
    """The name of the club."""
    name = form.text("name", "Name of the club")
    form.done()
    return name


def read_typed_squad(form: Form) -> TypedSquad:
    """The box of names; the code goes along where the squad is to be taken."""
    typed = TypedSquad(
        text=form.text("squad", "Squad", longest=LONGEST_SQUAD),
        sport=form.text("sport", "Sport"),
        unit=form.member("unit", "Masses without a unit", MassUnit),
        code=form.raw("code") if form.raw("do") == "take" else "",
    )
    form.done()
    return typed


def read_counts(form: Form, store: StartingStore) -> dict[str, int]:
    """Counts by row; an empty field is none."""
    counts = {}
    for row in store.rows:
        label = f"{row.kind.value}, {row.words}"
        counts[row.id] = form.maybe_whole(row.id, label, low=0, high=MOST_OF_A_KIND) or 0
    form.done()
    return counts


def read_room(form: Form) -> RoomEntry:
    """The room as typed; outdoors has no ceiling."""
    where = form.choice("where", "Where", (INDOORS, OUTDOORS))
    ceiling_m = None
    if where != OUTDOORS:
        ceiling_m = form.number("ceiling", "Ceiling", low=CEILING_M[0], high=CEILING_M[1], unit="m")
    low, high = SIDE_M
    column = None
    if form.choice("column", "Column", ("no", "yes")) == "yes":
        column = (
            form.number("column_along", "Column, along", low=0, high=high, unit="m"),
            form.number("column_across", "Column, across", low=0, high=high, unit="m"),
        )
    entry = RoomEntry(
        name=form.text("name", "Name"),
        length_m=form.number("length", "Length", low=low, high=high, unit="m"),
        width_m=form.number("width", "Width", low=low, high=high, unit="m"),
        ceiling_m=ceiling_m,
        column=column,
    )
    form.done()
    return entry


def read_when(form: Form, today: date) -> When:
    """When the first session is."""
    chosen = form.choice("day", "Day", (TODAY, TOMORROW, OTHER_DAY))
    held_on = today + timedelta(days=1 if chosen == TOMORROW else 0)
    if chosen == OTHER_DAY:
        held_on = form.day("held_on", "Other day")
    when = When(
        held_on=held_on,
        starts_at=form.clock("starts_at", "Start"),
        minutes=form.whole("minutes", "Minutes", low=5, high=300, unit="minutes"),
        coach=form.text("coach", "Who coaches", is_required=False),
    )
    form.done()
    return when
