"""What the daily loads of an athlete come to: weeks, and recent load beside usual load."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from squadwright.formulas.acute_chronic import RecentLoad, compare_recent_load
from squadwright.formulas.session_load import DAYS_IN_A_WEEK, SAMPLE, WeekSummary, summarise_week
from squadwright.planning.daily_load import LoadDay


@dataclass(frozen=True)
class LoadWeek:
    """Seven days from a Monday: what was told, what was planned, and what the days come to.

    ``planned`` is None where an effort of it is not said.
    """

    days: tuple[LoadDay, ...]
    planned: float | None
    summary: WeekSummary

    @property
    def monday(self) -> date:
        """Its first day."""
        return self.days[0].day

    @property
    def told(self) -> float:
        """The sum of what was told, unknown days left out."""
        return math.fsum(day.told_load for day in self.days)


@dataclass(frozen=True)
class Bias:
    """How much harder the sessions were told than planned, in points of effort."""

    sessions: int
    mean: float


@dataclass(frozen=True)
class LoadHistory:
    """Everything told of an athlete up to a day.

    ``begun_on`` is the first day anything was told; None: nothing ever was. ``as_of`` is the last
    day the recent load runs to.
    """

    days: tuple[LoadDay, ...]
    weeks: tuple[LoadWeek, ...]
    begun_on: date | None
    as_of: date
    recent: RecentLoad
    bias: Bias | None


def week_of(days: Sequence[LoadDay], *, deviation: str = SAMPLE) -> LoadWeek:
    """Seven days as a week."""
    plans = [day.planned for day in days]
    sums = [plan for plan in plans if plan is not None]
    return LoadWeek(
        tuple(days),
        math.fsum(sums) if len(sums) == len(plans) else None,
        summarise_week([day.load for day in days], deviation=deviation),
    )


def weeks_of(days: Sequence[LoadDay], *, deviation: str = SAMPLE) -> tuple[LoadWeek, ...]:
    """Whole weeks from Monday; days before the first Monday and after the last Sunday are not in.

    ``days`` follow each other.
    """
    start = next((i for i, day in enumerate(days) if day.day.weekday() == 0), len(days))
    return tuple(
        week_of(days[i : i + DAYS_IN_A_WEEK], deviation=deviation)
        for i in range(start, len(days) - DAYS_IN_A_WEEK + 1, DAYS_IN_A_WEEK)
    )


def history_of(days: Sequence[LoadDay], *, today: date, deviation: str = SAMPLE) -> LoadHistory:
    """What days that follow each other come to; they begin on a Monday and end on a Sunday."""
    begun_on = next((day.day for day in days if is_told(day)), None)
    is_today_known = any(day.day == today and day.load is not None for day in days)
    as_of = today if is_today_known else today - timedelta(days=1)
    begun = [d for d in days if begun_on is not None and begun_on <= d.day <= as_of]
    return LoadHistory(
        days=tuple(days),
        weeks=weeks_of(days, deviation=deviation),
        begun_on=begun_on,
        as_of=as_of,
        recent=compare_recent_load([day.load for day in begun]),
        bias=_bias(days),
    )


def is_told(day: LoadDay) -> bool:
    """Whether anything was said of a day, more than an absence at a check-in."""
    return bool(day.rest_entry) or any(each.entry or each.effort for each in day.told)


def _bias(days: Sequence[LoadDay]) -> Bias | None:
    gaps = [
        each.effort - each.planned_effort
        for day in days
        for each in day.told
        if each.effort and each.planned_effort is not None
    ]
    return Bias(len(gaps), math.fsum(gaps) / len(gaps)) if gaps else None
