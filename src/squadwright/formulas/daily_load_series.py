"""Week load, monotony, strain and exponential means of many athletes over years, in one pass.

One row a day, one column an athlete; a day that is not known is not a number (NaN). Every value is
the one that ``session_load`` and ``acute_chronic`` give for the same days. A day is worked out for
all athletes at once while its week is still in the processor's near memory, so the time is close to
that of writing the results down.
"""

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from squadwright.errors import InvalidInput
from squadwright.formulas.acute_chronic import RECENT_DAYS, USUAL_DAYS, smoothing_fraction
from squadwright.formulas.session_load import DAYS_IN_A_WEEK, DEVIATION, LOAD, SAMPLE

Numbers = NDArray[np.float64]
ATHLETES_AT_ONCE = 10_000
"""A week of so many athletes is 560 kB."""


@dataclass(frozen=True)
class LoadSeries:
    """Arrays of one row a day and one column an athlete.

    ``week_load`` sums the known days of the last seven and ``known_days`` counts them;
    ``monotony`` and ``strain`` are NaN unless all seven are known and not all alike.
    ``recent_mean`` and ``usual_mean`` are exponential means of 7 and 28 days, NaN before the first
    known day. ``deviation`` says which standard deviation.
    """

    week_load: Numbers
    known_days: NDArray[np.int8]
    monotony: Numbers
    strain: Numbers
    recent_mean: Numbers
    usual_mean: Numbers
    deviation: str


def recompute_loads(daily_loads: ArrayLike, *, deviation: str = SAMPLE) -> LoadSeries:
    """Every number of every day from daily loads, one row a day and one column an athlete."""
    DEVIATION.check("deviation", deviation, str)
    loads = _read(daily_loads)
    week_load, monotony, strain, recent, usual = (np.empty_like(loads) for _ in range(5))
    known_days = np.empty(loads.shape, np.int8)
    series = LoadSeries(week_load, known_days, monotony, strain, recent, usual, deviation)
    for athletes in _groups(loads.shape[1]):
        _fill_weeks(loads[:, athletes], series, athletes)
        for span_d, means in ((RECENT_DAYS, series.recent_mean), (USUAL_DAYS, series.usual_mean)):
            _fill_means(loads[:, athletes], span_d, means[:, athletes])
    return series


def _read(daily_loads: ArrayLike) -> Numbers:
    loads = np.asarray(daily_loads, dtype=np.float64)
    if loads.ndim != 2:
        raise InvalidInput(
            "daily_loads", f"has {loads.ndim} dimensions", "Give one row a day, one column each"
        )
    if loads.size:
        low, high = float(np.fmin.reduce(loads, None)), float(np.fmax.reduce(loads, None))
        for extreme in (low, high):
            if not np.isnan(extreme):
                LOAD.check("daily_loads", extreme, lambda: "daily load")
    return loads


def _groups(athletes: int) -> Iterator[slice]:
    for begin in range(0, athletes, ATHLETES_AT_ONCE):
        yield slice(begin, begin + ATHLETES_AT_ONCE)


def _fill_weeks(loads: Numbers, series: LoadSeries, athletes: slice) -> None:
    days, people = loads.shape
    known = np.zeros((DAYS_IN_A_WEEK, people), np.int8)
    filled = np.zeros((DAYS_IN_A_WEEK, people))
    spread = np.empty(people)
    for day in range(days):
        place = day % DAYS_IN_A_WEEK
        np.logical_not(np.isnan(loads[day]), out=known[place], casting="unsafe")
        filled[place] = loads[day]
        if not known[place].all():
            filled[place][known[place] == 0] = 0
        week = series.week_load[day, athletes]
        np.add.reduce(filled, axis=0, out=week)
        np.add.reduce(known, axis=0, out=series.known_days[day, athletes])
        monotony = series.monotony[day, athletes]
        strain = series.strain[day, athletes]
        if day < DAYS_IN_A_WEEK - 1:
            monotony.fill(np.nan)
        else:
            _spread_of_week(loads[day - DAYS_IN_A_WEEK + 1 : day + 1], series.deviation, spread)
            np.divide(week, spread, out=monotony)
            monotony /= DAYS_IN_A_WEEK
        np.multiply(week, monotony, out=strain)


def _spread_of_week(week: Numbers, deviation: str, spread: Numbers) -> None:
    """Standard deviation of seven rows; NaN where a day is unknown or all days are alike.

    Distances are taken from the last day, so that days alike give exactly nothing.
    """
    last = week[-1]
    total = np.zeros_like(last)
    squares = np.zeros_like(last)
    distance = np.empty_like(last)
    for loads in week[:-1]:
        np.subtract(loads, last, out=distance)
        total += distance
        distance *= distance
        squares += distance
    total *= total
    total /= DAYS_IN_A_WEEK
    squares -= total
    squares /= DAYS_IN_A_WEEK - (deviation == SAMPLE)
    squares[squares <= 0] = np.nan
    np.sqrt(squares, out=spread)


def _fill_means(loads: Numbers, span_d: int, means: Numbers) -> None:
    share = smoothing_fraction(span_d)
    mean = np.full(loads.shape[1], np.nan)
    step = np.empty_like(mean)
    everybody_has_begun = False
    for day, load in enumerate(loads):
        if not everybody_has_begun:
            np.copyto(mean, load, where=np.isnan(mean))
            everybody_has_begun = not np.isnan(mean).any()
        np.subtract(load, mean, out=step)
        step *= share
        unknown = np.isnan(step)
        if unknown.any():
            step[unknown] = 0
        mean += step
        means[day] = mean
