"""Query: results of tests, those of the diary and the older ones kept with the athlete, by method.

No two methods stand in one line. A set of several repetitions becomes a maximum by Epley's line,
and says so in its method.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date

from squadwright.errors import OutsidePublishedRange
from squadwright.formulas.measured import Measured, MeasuredLine
from squadwright.formulas.one_rep_max import one_rep_max_epley
from squadwright.library.fitness_tests import fitness_tests
from squadwright.library.test_columns import (
    FIVE,
    ONE_REPETITION_MAXIMUM,
    in_unit,
    methods_of,
    shown_unit,
)
from squadwright.model.athlete import Athlete, JumpTest, StrengthTest
from squadwright.model.club import Club
from squadwright.model.diary import DiaryEntry, DiaryKind, TestResult
from squadwright.model.fitness_test import FitnessTest
from squadwright.services.unit_of_work import Keeper


@dataclass(frozen=True)
class Result:
    """One result; ``test`` is empty for one that is not of the battery.

    ``entry`` is its id in the diary, empty where it is kept with the athlete. ``typed`` is the
    number as it was written, with its unit.
    """

    athlete: str
    test: str
    day: date
    measured: Measured
    typed: str
    entry: str = ""
    content: TestResult | None = None

    @property
    def place(self) -> int | None:
        """Its place in the order of its day, where there was one."""
        return self.content.place if self.content else None


@dataclass(frozen=True)
class ResultLine:
    """Results of one athlete by one method in order of their days."""

    test: str
    results: tuple[Result, ...]

    @property
    def measured(self) -> MeasuredLine:
        """The same as numbers, which refuses two methods."""
        return MeasuredLine(tuple((r.day, r.measured) for r in self.results))

    @property
    def method(self) -> str:
        """The one method of the line."""
        return self.results[0].measured.method


@dataclass(frozen=True)
class Results:
    """Every result of the club by athlete, in order of the days."""

    club: Club
    by_athlete: Mapping[str, tuple[Result, ...]]

    def of_test(self, test_id: str) -> tuple[Result, ...]:
        """All results of a test, by whomever and by whatever method."""
        return tuple(r for own in self.by_athlete.values() for r in own if r.test == test_id)

    def of_kind(self, result: Result) -> tuple[Result, ...]:
        """All results of the squad by the test, unit and method of one."""
        return tuple(
            r
            for own in self.by_athlete.values()
            for r in own
            if (r.test, r.measured.kind) == (result.test, result.measured.kind)
        )


def results_of_tests(keeper: Keeper, *, until: date | None = None) -> Results | None:
    """Everything that was tested, up to a day; None without a club."""
    with keeper.reading() as store:
        club = store.load_club()
        if club is None:
            return None
        entries = store.diary.entries(kinds=(DiaryKind.TEST,), until=until)
    of_diary: dict[str, list[Result]] = {}
    for entry in entries:
        of_diary.setdefault(entry.athlete, []).append(result_of(entry))
    return Results(
        club,
        {a.id: _of_athlete(a, of_diary.get(a.id, []), until) for a in club.athletes},
    )


def lines_of_results(results: Iterable[Result]) -> tuple[ResultLine, ...]:
    """One line for each test, quantity, unit and method, in the order they first appear."""
    apart: dict[tuple[str, tuple[str, str, str]], list[Result]] = {}
    for result in results:
        apart.setdefault((result.test, result.measured.kind), []).append(result)
    return tuple(
        ResultLine(test, tuple(sorted(line, key=lambda r: r.day)))
        for (test, _), line in apart.items()
    )


def result_of(entry: DiaryEntry) -> Result:
    """A result as the diary holds it, in the unit its test is shown in."""
    content = entry.content
    assert isinstance(content, TestResult)
    test = _battery().get(content.test)
    typed = f"{content.value:.4g} {content.unit}"
    if test is None:
        measured = Measured(content.test, content.value, content.unit, content.method)
    else:
        unit = shown_unit(test)
        value = in_unit(test, content.value, content.unit, unit)
        measured = Measured(test.quantity, value, unit, content.method)
    return Result(entry.athlete, content.test, entry.day, measured, typed, entry.id, content)


def _of_athlete(athlete: Athlete, of_diary: list[Result], until: date | None) -> tuple[Result, ...]:
    older = [
        *(_of_strength(athlete.id, test) for test in athlete.tests),
        *(_of_jump(athlete.id, jump) for jump in athlete.jump_tests),
    ]
    known = [r for r in older if until is None or r.day <= until]
    return tuple(sorted([*known, *of_diary], key=lambda r: r.day))


def _of_strength(athlete: str, test: StrengthTest) -> Result:
    """A set as the maximum it stands for; as its load where no equation reaches so far."""
    lift, count = test.lift.value, test.repetitions
    typed = f"{test.load} for {count}"
    how = "lifted once" if count == 1 else f"estimated from {_number(count)} repetitions"
    try:
        value = test.load.kg if count == 1 else one_rep_max_epley(test.load.kg, count)
    except OutsidePublishedRange:
        value, how = test.load.kg, f"load of {count} repetitions"
    measured = Measured("load", value, "kg", f"{lift}, {how}")
    return Result(athlete, ONE_REPETITION_MAXIMUM, test.taken_on, measured, typed)


def _number(count: int) -> str:
    return "five" if count == FIVE else str(count)


def _of_jump(athlete: str, jump: JumpTest) -> Result:
    """A jump under the test of its name, and under its method as the battery calls it."""
    test = _by_name().get(_plain(jump.kind))
    method = jump.method
    if test is not None:
        known = {_plain(each): each for each in methods_of(test)}
        method = known.get(_plain(jump.method), jump.method)
    quantity = test.quantity if test is not None else jump.kind
    measured = Measured(quantity, jump.height_m * 100, "cm", method)
    typed = f"{jump.height_m * 100:.4g} cm"
    return Result(athlete, test.id if test else "", jump.taken_on, measured, typed)


def _battery() -> dict[str, FitnessTest]:
    return {test.id: test for test in fitness_tests()}


def _by_name() -> dict[str, FitnessTest]:
    return {_plain(test.name): test for test in fitness_tests() if test.unit == "m"}


def _plain(words: str) -> str:
    return " ".join(words.casefold().replace("-", " ").split())
