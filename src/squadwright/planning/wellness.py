"""Wellness against an athlete's own usual: five items, and two charts with their false alarms.

The items are asked against his usual, so that one tap answers all of them: 3 is as usual, 5 much
better, 1 much worse. The scale is ours. A chart says that something changed, not why.
"""

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from functools import lru_cache
from typing import TypeVar

from squadwright.formulas.control_chart import (
    LEAST_EARLIER_DAYS,
    CusumPoint,
    EwmaPoint,
    cusum_chart,
    ewma_chart,
)
from squadwright.formulas.reliability import standard_deviation
from squadwright.formulas.run_length import run_length_cusum, run_length_ewma
from squadwright.formulas.wellness_score import FIVE_STEPS, WellnessScale
from squadwright.model.diary import Answer, DiaryEntry, WellnessAnswers

Point = TypeVar("Point")
AS_USUAL = 3
ITEMS = ("sleep", "freshness", "muscles", "calm", "mood")
SCALE = WellnessScale("against his usual", ITEMS, FIVE_STEPS, is_high_good=True)
STEP_WORDS = ("much worse", "worse", "as usual", "better", "much better")

SMOOTHING, WIDTH = 0.25, 2.998
SLACK, DECISION = 0.5, 5.0
"""Settings of both charts, in standard deviations: common practice."""
WATCHED = 7
"""The latest answers, which the charts run over; those before are his usual."""
MOST_USUAL = 28
LEAST_SPREAD = 1.0
"""Least standard deviation of a total that is divided by: our judgement, since few steps and flat
answers would make every change unusual."""
MONTH_DAYS = 28
YEAR_DAYS = 365


@dataclass(frozen=True)
class Limits:
    """What the charts of one athlete are measured by."""

    usual: float
    spread: float
    answers: int


@dataclass(frozen=True)
class WellnessChart:
    """Totals of an athlete with both charts over the latest of them.

    ``limits`` is None while there are too few answers, and ``why_not`` says so. ``far`` is how far
    the worse of the two charts has gone on the worse side, 1 at its limit.
    ``false_alarms_a_year`` is for as many answers as in the last four weeks, if they were
    independent of each other.
    """

    scale: str
    is_high_good: bool
    totals: tuple[tuple[date, int], ...]
    limits: Limits | None = None
    why_not: str = ""
    means: tuple[EwmaPoint, ...] = ()
    sums: tuple[CusumPoint, ...] = ()
    far: float = 0.0
    false_alarms_a_year: float = 0.0

    @property
    def is_worse(self) -> bool:
        """Whether a chart has left its limit on the worse side."""
        return self.far > 1


def as_usual() -> WellnessAnswers:
    """Everything as usual, by one tap."""
    return answers_of(dict.fromkeys(ITEMS, AS_USUAL))


def answers_of(steps: dict[str, int]) -> WellnessAnswers:
    """Answers to the five items."""
    return WellnessAnswers(
        SCALE.name,
        tuple(Answer(item, steps[item]) for item in ITEMS),
        lowest=int(FIVE_STEPS.low or 1),
        highest=int(FIVE_STEPS.high or 5),
        is_high_good=SCALE.is_high_good,
    )


def total_of(answers: WellnessAnswers) -> int | None:
    """The sum of every item; None while one of the scale's is missing."""
    given = {answer.item: answer.value for answer in answers.answers}
    if answers.scale == SCALE.name:
        return SCALE.total(given)
    return sum(given.values())


def wellness_chart(entries: Iterable[DiaryEntry], *, today: date) -> WellnessChart:
    """The chart of one athlete, of the questionnaire he answered last; others are not mixed in."""
    told = [e for e in entries if isinstance(e.content, WellnessAnswers) and e.day <= today]
    told.sort(key=lambda entry: (entry.day, entry.written_at))
    if not told:
        return WellnessChart(SCALE.name, SCALE.is_high_good, (), why_not="nothing is answered yet")
    last = told[-1].content
    assert isinstance(last, WellnessAnswers)
    by_day: dict[date, int] = {}
    for entry in told:
        answers = entry.content
        assert isinstance(answers, WellnessAnswers)
        if (answers.scale, answers.is_high_good) == (last.scale, last.is_high_good):
            total = total_of(answers)
            if total is not None:
                by_day[entry.day] = total
    return _charted(last, tuple(sorted(by_day.items())), today)


def _charted(
    last: WellnessAnswers, totals: tuple[tuple[date, int], ...], today: date
) -> WellnessChart:
    values = [float(total) for _, total in totals]
    usual = values[:-WATCHED][-MOST_USUAL:]
    if len(usual) < LEAST_EARLIER_DAYS:
        least = LEAST_EARLIER_DAYS + WATCHED
        why_not = f"not given: {len(values)} answers, fewer than {least}"
        return WellnessChart(last.scale, last.is_high_good, totals, why_not=why_not)
    middle = math.fsum(usual) / len(usual)
    spread = max(standard_deviation(usual), LEAST_SPREAD)
    latest = values[-WATCHED:]
    means = _whole(
        ewma_chart(
            latest, target=middle, standard_deviation=spread, smoothing=SMOOTHING, width=WIDTH
        )
    )
    sums = _whole(
        cusum_chart(latest, target=middle, slack=SLACK * spread, decision=DECISION * spread)
    )
    return WellnessChart(
        last.scale,
        last.is_high_good,
        totals,
        Limits(middle, spread, len(usual)),
        means=means,
        sums=sums,
        far=_far(means[-1], sums[-1], middle, is_high_good=last.is_high_good),
        false_alarms_a_year=_false_alarms(totals, today),
    )


def _far(mean: EwmaPoint, gathered: CusumPoint, middle: float, *, is_high_good: bool) -> float:
    """How far the worse chart has gone on the worse side, 1 at its limit."""
    below = (middle - mean.mean) / (middle - mean.low)
    above = (mean.mean - middle) / (mean.high - middle)
    slow = gathered.low if is_high_good else gathered.high
    return max(below if is_high_good else above, slow / gathered.decision, 0.0)


def _false_alarms(totals: Sequence[tuple[date, int]], today: date) -> float:
    since = today - timedelta(days=MONTH_DAYS - 1)
    answers = sum(day >= since for day, _ in totals) * YEAR_DAYS / MONTH_DAYS
    return answers * false_alarms_an_answer()


@lru_cache(maxsize=1)
def false_alarms_an_answer() -> float:
    """At most so many false alarms an answer: both charts, on the worse side alone."""
    fast = 2 * run_length_ewma(SMOOTHING, WIDTH)
    slow = run_length_cusum(SLACK, DECISION, sides="high")
    return 1 / fast + 1 / slow


def _whole(points: Iterable[Point | None]) -> tuple[Point, ...]:
    return tuple(point for point in points if point is not None)
