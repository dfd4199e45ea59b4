"""A day of testing on paper: each athlete's way, then one score sheet a test in its order."""

from dataclasses import dataclass

from squadwright.library.test_columns import written
from squadwright.printing.typesetting import Heading, Settled
from squadwright.services.test_day import PlannedDay

TEMPLATE = "test_day_sheet.typ"
SIZE_PT = 10.5
CAUTION = (
    "Warm up before the first test. Stop on pain, dizziness or loss of form; all-out efforts not "
    "below 18 years. Medical staff, local rules and licensed practice come first. It names "
    "people: give it only to whom they agreed to."
)


@dataclass(frozen=True)
class Way:
    """One athlete and his tests in his order."""

    name: str
    tests: tuple[str, ...]


@dataclass(frozen=True)
class ScoreRow:
    """One turn at a test: when, who, and which test of his day it is."""

    at: str
    name: str
    place: int


@dataclass(frozen=True)
class ScoreSheet:
    """One test: how it is done, what is written down, and who comes when."""

    name: str
    protocol: str
    about: str
    columns: tuple[str, ...]
    rows: tuple[ScoreRow, ...]


@dataclass(frozen=True)
class TestDaySheet:
    """Context of ``test_day_sheet.typ``."""

    __test__ = False

    heading: Heading
    ways: tuple[Way, ...]
    warnings: tuple[str, ...]
    scores: tuple[ScoreSheet, ...]


def sheet_of_test_day(found: PlannedDay) -> TestDaySheet:
    """The context of the sheets."""
    names = found.known.club.shown_names()
    tests = {t.id: t.name for t in found.tests}
    athletes = {v.athlete for v in found.plan.visits}
    return TestDaySheet(
        heading=_heading(found),
        ways=tuple(
            Way(names[a], way_words(found, a, tests))
            for a in sorted(athletes, key=lambda a: names[a].casefold())
        ),
        warnings=tuple(
            f"{names[each.athlete]} has another order than last time."
            for each in found.other_orders
        ),
        scores=tuple(_scores(found, test.id, names) for test in found.tests),
    )


def set_test_day_sheet(found: PlannedDay) -> bytes:
    """The sheets as PDF."""
    return Settled(TEMPLATE, sheet_of_test_day(found)).pdf(SIZE_PT)


def clock_at(found: PlannedDay, seconds: int) -> str:
    """The time of day so many seconds after the start."""
    start = found.wanted.starts_at
    minutes = (start.hour * 60 + start.minute + seconds // 60) % (24 * 60)
    return f"{minutes // 60:02d}:{minutes % 60:02d}"


def way_words(found: PlannedDay, athlete: str, tests: dict[str, str]) -> tuple[str, ...]:
    """His tests in his order, each with its time."""
    return tuple(
        f"{clock_at(found, v.start_s)} {tests[v.station]}" for v in found.visits_of(athlete)
    )


def _scores(found: PlannedDay, test_id: str, names: dict[str, str]) -> ScoreSheet:
    test = next(t for t in found.tests if t.id == test_id)
    columns = written(test).columns
    unit = f"{test.quantity} [{test.unit}]" if written(test).are_attempts else "as headed"
    return ScoreSheet(
        name=test.name,
        protocol=test.protocol,
        about=f"Writes down: {unit}. Method: {' or '.join(test.methods)}: mark the one used.",
        columns=tuple(c.label for c in columns),
        rows=tuple(
            ScoreRow(
                clock_at(found, v.start_s), names[v.athlete], found.place_of(v.athlete, test_id)
            )
            for v in found.visits_at(test_id)
        ),
    )


def _heading(found: PlannedDay) -> Heading:
    return Heading(
        club=found.known.club.name,
        session="A day of testing",
        routine="",
        aim="",
        style="",
        held_on=found.wanted.day.isoformat(),
        starts_at=clock_at(found, 0),
        ends_at=clock_at(found, found.plan.length_s),
        minutes=found.plan.length_s // 60,
        room="",
        staff=(),
        cautions=(CAUTION,),
    )
