"""Query: what a change between two tests may be called, and what the error behind it rests on.

The error comes from the squad itself where three or more were tested twice within a week by one
method; else from a paper about other people; else it is not known, and no change is judged.
"""

from collections.abc import Iterable
from dataclasses import dataclass

from squadwright.errors import InvalidInput, OutsidePublishedRange
from squadwright.formulas.detectable_change import (
    noise_free_standard_deviation,
    smallest_worthwhile_change,
)
from squadwright.formulas.honest_change import (
    Change,
    TestError,
    change_between,
    own_error,
    published_error,
)
from squadwright.formulas.reliability import standard_deviation
from squadwright.formulas.trial_table import FEWEST_ATHLETES, TrialTable, trial_table
from squadwright.model.fitness_test import FitnessTest
from squadwright.services.test_results import Result, ResultLine, lines_of_results

RETEST_DAYS = 7
"""Two tests within so many days are taken as one state tested twice: our default."""
PERCENT = "CV %"


@dataclass(frozen=True)
class Judged:
    """A line of results and what may be said of its last step."""

    line: ResultLine
    error: TestError | None
    worthwhile: float | None
    change: Change | None


def judged(test: FitnessTest | None, line: ResultLine, squad: Iterable[Result]) -> Judged:
    """Judge the last two results of a line; ``squad`` are results of the same kind."""
    same = tuple(squad)
    table = retested(same)
    last = line.results[-1]
    earlier = line.results[-2] if len(line.results) > 1 else last
    error = _error(test, table, earlier)
    worthwhile = _worthwhile(table, same, error)
    change = None
    if error is not None and test is not None and earlier is not last:
        change = change_between(
            earlier.measured,
            last.measured,
            error,
            better=test.better,
            smallest_worthwhile=worthwhile,
        )
    return Judged(line, error, worthwhile, change)


def retested(squad: Iterable[Result]) -> TrialTable | None:
    """Athletes by two trials within a week, the last two of each; None of too few athletes."""
    by_athlete: dict[str, list[Result]] = {}
    for result in squad:
        by_athlete.setdefault(result.athlete, []).append(result)
    rows = [row for own in by_athlete.values() if (row := _last_pair(own))]
    if len(rows) < FEWEST_ATHLETES:
        return None
    try:
        table = trial_table(rows)
    except (InvalidInput, OutsidePublishedRange):
        return None
    return table if table.error > 0 else None


def latest_of_each(squad: Iterable[Result]) -> tuple[Result, ...]:
    """The last result of each athlete."""
    return tuple({r.athlete: r for r in sorted(squad, key=lambda r: r.day)}.values())


def _last_pair(own: list[Result]) -> list[float]:
    (line,) = lines_of_results(own)
    pairs = [
        [before.measured.value, after.measured.value]
        for before, after in zip(line.results, line.results[1:], strict=False)
        if 0 < (after.day - before.day).days <= RETEST_DAYS
    ]
    return pairs[-1] if pairs else []


def _error(test: FitnessTest | None, table: TrialTable | None, earlier: Result) -> TestError | None:
    measured = earlier.measured
    if table is not None:
        return own_error(table, unit=measured.unit, method=measured.method)
    known = [r for r in test.reliability if r.measure == PERCENT] if test else []
    if not known or not measured.value:
        return None
    largest = max(known, key=lambda r: r.high or r.low)
    return published_error(largest.high or largest.low, measured, source=largest.source)


def _worthwhile(
    table: TrialTable | None, squad: tuple[Result, ...], error: TestError | None
) -> float | None:
    """A fifth of what athletes differ by, the noise taken out; None where noise is all there is."""
    if table is not None:
        return table.smallest_worthwhile or None
    values = [r.measured.value for r in latest_of_each(squad)]
    if error is None or len(values) < FEWEST_ATHLETES:
        return None
    try:
        between = noise_free_standard_deviation(standard_deviation(values), error.typical_error)
    except OutsidePublishedRange:
        return None
    return smallest_worthwhile_change(between) or None
