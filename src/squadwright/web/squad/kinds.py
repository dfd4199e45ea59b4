"""The kinds of entries an athlete has: what each is called, shown as, read from and filled with."""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date
from typing import Any

from squadwright.errors import NotFound
from squadwright.model.athlete import (
    Athlete,
    Consent,
    Event,
    JumpTest,
    MassReading,
    Priority,
    StrengthTest,
)
from squadwright.planning.restriction_words import day_words
from squadwright.services.squad_entries import Entry, EntryPart, entries_of
from squadwright.units import MassUnit
from squadwright.web.forms import Form, FormView
from squadwright.web.squad.contexts import EntryRow, EntrySection
from squadwright.web.squad.forms import (
    as_day,
    read_consent,
    read_event,
    read_jump,
    read_mass,
    read_strength,
)
from squadwright.web.squad.words import athlete_path, days_words
from squadwright.web.wording import capital, number_text
from squadwright.words import mass_words

SHOWN_AT_FIRST = 5
PRIORITY_WORDS = {Priority.A: "A, to peak for", Priority.B: "B, to take part"}


@dataclass(frozen=True)
class Kind:
    """One kind: ``key`` stands in addresses, ``part`` is the field of the model."""

    key: str
    part: EntryPart
    one: str
    heading: str
    heads: tuple[str, ...]
    none_words: str
    day_of: Callable[[Any], date]
    cells: Callable[[Any, date], tuple[str, ...]]
    read: Callable[[Form], Entry]
    values: Callable[[Any], dict[str, object]]
    fresh: Callable[[Athlete, date], dict[str, object]]


def kind_of(key: str) -> Kind:
    """The kind of a key; raises NotFound."""
    for kind in KINDS:
        if kind.key == key:
            return kind
    raise NotFound(f"There is nothing called {key!r} about an athlete")


def kind_path(athlete: Athlete, kind: Kind) -> str:
    """Where all entries of one kind are."""
    return f"{athlete_path(athlete.id)}/{kind.key}"


def numbered(athlete: Athlete, kind: Kind, today: date) -> list[tuple[int, Entry]]:
    """Entries with their places: events to come in order, then what has been, newest first."""
    held = list(enumerate(entries_of(athlete, kind.part)))
    coming = [pair for pair in held if kind.day_of(pair[1]) >= today] if kind is EVENT else []
    rest = [pair for pair in held if pair not in coming]
    coming.sort(key=lambda pair: kind.day_of(pair[1]))
    rest.sort(key=lambda pair: (kind.day_of(pair[1]), pair[0]), reverse=True)
    return [*coming, *rest]


def section_of(
    athlete: Athlete, kind: Kind, today: date, *, first: int = 0, most: int = SHOWN_AT_FIRST
) -> EntrySection:
    """Entries of one kind as rows, from one place in their order on."""
    entries = numbered(athlete, kind, today)
    path = kind_path(athlete, kind)
    rows = []
    for index, entry in entries[first : first + most]:
        head, *cells = kind.cells(entry, today)
        words = f"{kind.one}, {day_words(kind.day_of(entry))}"
        rows.append(EntryRow(head, tuple(cells), f"{path}/{index}", words))
    has_more = len(entries) > len(rows)
    return EntrySection(
        heading=kind.heading,
        id=kind.key,
        heads=kind.heads,
        rows=tuple(rows),
        none_words=kind.none_words,
        add_path=f"{path}/new",
        add_words=f"Add {_article(kind.one)} {kind.one}",
        all_path=path if has_more else "",
        all_words=f"All {len(entries)}" if has_more else "",
    )


def filled(kind: Kind, entry: Entry) -> FormView:
    """The form of an entry as it is kept."""
    return FormView.of(**kind.values(entry))


def empty(kind: Kind, athlete: Athlete, today: date) -> FormView:
    """The form of a new entry, with what is usually so."""
    return FormView.of(**kind.fresh(athlete, today))


def _article(words: str) -> str:
    return "an" if words[0] in "aeiou" else "a"


def _mass_cells(reading: MassReading, today: date) -> tuple[str, ...]:
    return (
        day_words(reading.taken_on),
        mass_words(reading.reading),
        reading.note or "none",
    )


def _strength_cells(test: StrengthTest, today: date) -> tuple[str, ...]:
    load = f"{mass_words(test.load)} for {test.repetitions}"
    return (capital(test.lift.value), load, day_words(test.taken_on), test.method)


def _jump_cells(jump: JumpTest, today: date) -> tuple[str, ...]:
    height = f"{number_text(jump.height_m * 100)} cm"
    return (capital(jump.kind), height, day_words(jump.taken_on), jump.method)


def _event_cells(event: Event, today: date) -> tuple[str, ...]:
    days = days_words((event.starts_on - today).days)
    limit = mass_words(event.mass_limit) if event.mass_limit else "none"
    return (event.name, f"{day_words(event.starts_on)}, {days}", event.priority.value, limit)


def _consent_cells(consent: Consent, today: date) -> tuple[str, ...]:
    return (capital(consent.purpose), consent.given_by, day_words(consent.given_on))


def _height(metres: float) -> dict[str, object]:
    return {"height_m": number_text(metres * 100, 2), "height_m_unit": "cm"}


def _fresh_event(athlete: Athlete, today: date) -> dict[str, object]:
    last = max(athlete.events, key=lambda e: e.starts_on, default=None)
    return {"priority": Priority.B, "mass_limit": last.mass_limit if last else None}


def _fresh_consent(athlete: Athlete, today: date) -> dict[str, object]:
    is_minor = athlete.is_minor_on(today)
    given_by = athlete.guardian.name if is_minor and athlete.guardian else athlete.name
    return {
        "purpose": "training as a minor" if is_minor else "keeping training and health data",
        "given_by": "" if is_minor and athlete.guardian is None else given_by,
        "given_on": as_day(today),
    }


def _fresh_mass(athlete: Athlete, today: date) -> dict[str, object]:
    last = max(athlete.body_mass, key=lambda r: r.taken_on, default=None)
    unit = last.reading.unit if last else MassUnit.KILOGRAM
    return {"reading_unit": unit, "taken_on": as_day(today)}


BODY_MASS = Kind(
    key="body-mass",
    part="body_mass",
    one="body mass",
    heading="Body mass",
    heads=("Day", "Body mass", "Note"),
    none_words="No reading yet: balls and boxes are chosen by body mass.",
    day_of=lambda reading: reading.taken_on,
    cells=_mass_cells,
    read=read_mass,
    values=lambda r: {"reading": r.reading, "taken_on": r.taken_on, "note": r.note},
    fresh=_fresh_mass,
)
STRENGTH = Kind(
    key="strength-test",
    part="tests",
    one="strength test",
    heading="Strength tests",
    heads=("Lift", "Load and repetitions", "Day", "How"),
    none_words="No strength test yet: until there is one, the technique bar.",
    day_of=lambda test: test.taken_on,
    cells=_strength_cells,
    read=read_strength,
    values=lambda t: {
        "lift": t.lift,
        "load": t.load,
        "repetitions": t.repetitions,
        "taken_on": t.taken_on,
        "method": t.method,
    },
    fresh=lambda athlete, today: {"taken_on": as_day(today), "method": "best set"},
)
JUMP = Kind(
    key="jump-test",
    part="jump_tests",
    one="jump test",
    heading="Jump tests",
    heads=("Jump", "Height", "Day", "How it was measured"),
    none_words="No jump test yet.",
    day_of=lambda jump: jump.taken_on,
    cells=_jump_cells,
    read=read_jump,
    values=lambda j: {
        "kind": j.kind,
        **_height(j.height_m),
        "taken_on": j.taken_on,
        "method": j.method,
    },
    fresh=lambda athlete, today: {
        "kind": "countermovement jump",
        "height_m_unit": "cm",
        "taken_on": as_day(today),
    },
)
EVENT = Kind(
    key="event",
    part="events",
    one="event",
    heading="Events",
    heads=("Event", "Day", "Kind", "Weight limit"),
    none_words="No event yet.",
    day_of=lambda event: event.starts_on,
    cells=_event_cells,
    read=read_event,
    values=lambda e: {
        "name": e.name,
        "starts_on": e.starts_on,
        "priority": e.priority,
        "mass_limit": e.mass_limit,
        "weigh_in_rule": e.weigh_in_rule,
        "bouts_expected": e.bouts_expected,
        "bout_minutes": e.bout_minutes,
    },
    fresh=_fresh_event,
)
CONSENT = Kind(
    key="consent",
    part="consents",
    one="consent",
    heading="Consents",
    heads=("What for", "Given by", "Day"),
    none_words="Nobody has agreed to anything yet.",
    day_of=lambda consent: consent.given_on,
    cells=_consent_cells,
    read=read_consent,
    values=lambda c: {"purpose": c.purpose, "given_by": c.given_by, "given_on": c.given_on},
    fresh=_fresh_consent,
)
KINDS = (BODY_MASS, STRENGTH, JUMP, EVENT, CONSENT)
