"""The day of a competition on paper: weigh-ins, bouts to tick, what to do between two of them."""

from dataclasses import dataclass
from datetime import datetime

from squadwright.model.athlete import Event
from squadwright.planning.mat_side import BETWEEN_BOUTS, CallSettings
from squadwright.printing.typesetting import Heading, Settled, largest_size_on
from squadwright.services.event_day import Competitor, EventDay
from squadwright.words import kilogram_text, weekday_and_day

SIZES_PT = (10.0, 9.5, 9.0, 8.5, 8.0, 7.5, 7.0, 6.6)
TEMPLATE = "event_day_sheet.typ"
FEWEST_BOUTS = 4
MOST_BOUTS = 8
MOST_PAGES = 2
CAUTION = (
    "Pain, dizziness or a knock on the head: out, and medical staff decide. The rules of the event "
    "and local rules come first. Nobody loses weight by this sheet."
)


@dataclass(frozen=True)
class CompetitorRow:
    """One athlete: his weigh-in, and a box for each bout he may have."""

    name: str
    event: str
    weigh_in: str
    bouts: tuple[int, ...]
    barred: str = ""


@dataclass(frozen=True)
class SheetStep:
    """One step between two bouts."""

    name: str
    when: str
    words: str


@dataclass(frozen=True)
class EventDaySheet:
    """Context of ``event_day_sheet.typ``."""

    heading: Heading
    rows: tuple[CompetitorRow, ...]
    steps: tuple[SheetStep, ...]
    bouts_ahead: int
    minutes_a_bout: int


def event_day_sheet(found: EventDay) -> EventDaySheet:
    """The context of the sheet."""
    usual = CallSettings()
    return EventDaySheet(
        heading=Heading(
            club=found.club.name,
            session="At the mats",
            held_on=found.day.isoformat(),
            cautions=(CAUTION,),
        ),
        rows=tuple(_row(competitor) for competitor in found.competitors),
        steps=tuple(
            SheetStep(
                step.name,
                f"first {step.after_minutes} min"
                if step.after_minutes
                else f"{step.before_minutes} min before the call"
                if step.before_minutes
                else "in between",
                step.words,
            )
            for step in BETWEEN_BOUTS
        ),
        bouts_ahead=usual.bouts_ahead,
        minutes_a_bout=usual.minutes_a_bout,
    )


def set_event_day_sheet(found: EventDay) -> bytes:
    """The sheet as PDF, in the largest text that keeps it to two sides of one paper."""
    document = Settled(TEMPLATE, event_day_sheet(found))
    return document.pdf(largest_size_on(document, SIZES_PT, most_pages=MOST_PAGES))


def weigh_in_words(event: Event) -> str:
    """Limit, rule and times of a weigh-in: "Weigh-in: 74 kg, Sat 14 Mar 07:00 to 07:30"."""
    said = [kilogram_text(event.mass_limit.kg) if event.mass_limit else "no limit on file"]
    known = event.weigh_in
    if known is not None and known.opens_at is not None:
        times = _moment(known.opens_at)
        if known.closes_at is not None:
            times += f" to {known.closes_at:%H:%M}"
        said.append(f"{times} ({known.zone})")
    if known is not None and known.second_at is not None:
        said.append(f"again {_moment(known.second_at)}")
    said += [event.weigh_in_rule] if event.weigh_in_rule else []
    said += [known.standing] if known is not None and not event.weigh_in_rule else []
    return f"Weigh-in: {', '.join(said)}"


def weighs_at(event: Event) -> str:
    """The hour at which the weigh-in opens on the day of the event: "07:00"; else empty."""
    known = event.weigh_in
    if known is None or known.opens_at is None or known.opens_at.date() != event.starts_on:
        return ""
    return f"{known.opens_at:%H:%M}"


def _moment(moment: datetime) -> str:
    return f"{weekday_and_day(moment)} {moment:%H:%M}"


def bouts_words(event: Event) -> str:
    """How many bouts are expected; empty where nobody has said."""
    bouts = event.bouts_expected
    return f"About {bouts} bout{'' if bouts == 1 else 's'}." if bouts else ""


def _row(competitor: Competitor) -> CompetitorRow:
    event = competitor.event
    bouts = max(FEWEST_BOUTS, min(MOST_BOUTS, event.bouts_expected or FEWEST_BOUTS))
    return CompetitorRow(
        competitor.name,
        event.name,
        weigh_in_words(event),
        () if competitor.barred else tuple(range(1, bouts + 1)),
        competitor.barred,
    )
