"""Variability of the heartbeat from RR intervals, with each divisor and the artefact rule stated.

It is a number to follow in one athlete at rest. It diagnoses nothing: an irregular pulse is for
medical staff.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from statistics import median

from squadwright.formulas.published import PROGRAM_LIMIT, Range, Series, published
from squadwright.formulas.reliability import standard_deviation

SHORTEST_MS = 300
LONGEST_MS = 2000
LARGEST_CHANGE_FRACTION = 0.2
NEIGHBOURS = 5
MOST_LEFT_OUT_FRACTION = 0.05
"""Our artefact rule: see keep_normal_intervals. No source was read for its numbers."""

INTERVAL = Range(low=SHORTEST_MS, high=LONGEST_MS, reason=PROGRAM_LIMIT)
INTERVALS = Series(INTERVAL, at_least=3)
POSITIVE = Range(low=0, is_low_open=True)
LN_RMSSD = Range(low=0.5, high=8, reason=PROGRAM_LIMIT)
WEEK = Series(LN_RMSSD, at_least=3, at_most=7)


def _root_mean_square(changes: Sequence[float]) -> float:
    return math.sqrt(math.fsum(change**2 for change in changes) / len(changes))


def _changes(intervals_ms: Sequence[float]) -> list[float]:
    return [after - before for before, after in pairwise(intervals_ms)]


@published(intervals_ms=INTERVALS)
def rmssd(intervals_ms: Sequence[float]) -> float:
    """Root mean square of successive differences of RR intervals.

    Parameters
    ----------
    intervals_ms : RR intervals in their order, artefacts left out [ms],
        3 or more numbers, each 300 to 2000

    Returns
    -------
    RMSSD [ms]

    Raises
    ------
    OutsidePublishedRange : an interval outside its range
    InvalidInput : fewer than three intervals

    Notes
    -----
    Root of the mean of the squared differences, of which there are n - 1. Divided by n it reads
    too low.

    References
    ----------
    plews_2014 rmssd_recalled
    """
    return _root_mean_square(_changes(intervals_ms))


@published(intervals_ms=INTERVALS)
def ln_rmssd(intervals_ms: Sequence[float]) -> float:
    """Natural logarithm of RMSSD in milliseconds.

    Parameters
    ----------
    intervals_ms : RR intervals in their order, artefacts left out [ms],
        3 or more numbers, each 300 to 2000

    Returns
    -------
    ln RMSSD [1]

    Raises
    ------
    OutsidePublishedRange : an interval outside its range, or intervals all alike
    InvalidInput : fewer than three intervals

    Notes
    -----
    ln(RMSSD / 1 ms).

    References
    ----------
    plews_2014 rmssd_recalled
    """
    value = _root_mean_square(_changes(intervals_ms))
    POSITIVE.check("RMSSD", value, lambda: "the logarithm needs intervals that differ")
    return math.log(value)


@published(intervals_ms=INTERVALS)
def sdnn(intervals_ms: Sequence[float]) -> float:
    """Standard deviation of RR intervals.

    Parameters
    ----------
    intervals_ms : RR intervals in their order, artefacts left out [ms],
        3 or more numbers, each 300 to 2000

    Returns
    -------
    SDNN [ms]

    Raises
    ------
    OutsidePublishedRange : an interval outside its range
    InvalidInput : fewer than three intervals

    Notes
    -----
    Divided by n - 1.

    References
    ----------
    heartbeat_definitions
    """
    return standard_deviation(intervals_ms)


@published(intervals_ms=INTERVALS)
def pnn50(intervals_ms: Sequence[float]) -> float:
    """Share of successive differences of RR intervals above 50 ms.

    Parameters
    ----------
    intervals_ms : RR intervals in their order, artefacts left out [ms],
        3 or more numbers, each 300 to 2000

    Returns
    -------
    share of the differences [%]

    Raises
    ------
    OutsidePublishedRange : an interval outside its range
    InvalidInput : fewer than three intervals

    Notes
    -----
    Differences of more than 50 ms over all differences, n - 1. Some programs divide by the n
    intervals.

    References
    ----------
    heartbeat_definitions
    """
    changes = _changes(intervals_ms)
    return 100 * sum(abs(change) > 50 for change in changes) / len(changes)


@published(days=WEEK)
def ln_rmssd_week_mean(days: Sequence[float]) -> float:
    """Mean ln RMSSD of a week.

    Parameters
    ----------
    days : ln RMSSD of each valid day [1],
        3 to 7 numbers, each 0.5 to 8

    Returns
    -------
    mean [1]

    Raises
    ------
    OutsidePublishedRange : a value outside its range
    InvalidInput : fewer than three days, or more than seven

    Notes
    -----
    Three valid days a week or more, in trained athletes; five days agree with seven.

    References
    ----------
    plews_2014 five_of_seven_days
    """
    return math.fsum(days) / len(days)


@published(days=WEEK)
def ln_rmssd_week_variation(days: Sequence[float]) -> float:
    """Variation of ln RMSSD within a week.

    Parameters
    ----------
    days : ln RMSSD of each valid day [1],
        3 to 7 numbers, each 0.5 to 8

    Returns
    -------
    coefficient of variation [%]

    Raises
    ------
    OutsidePublishedRange : a value outside its range
    InvalidInput : fewer than three days, or more than seven

    Notes
    -----
    100 SD / mean, SD with n - 1.

    References
    ----------
    plews_2014
    """
    return 100 * standard_deviation(days) / ln_rmssd_week_mean(days)


@published(days=WEEK)
def ln_rmssd_band(days: Sequence[float]) -> float:
    """Half width of the usual band of ln RMSSD.

    Parameters
    ----------
    days : ln RMSSD of each valid day [1],
        3 to 7 numbers, each 0.5 to 8

    Returns
    -------
    half width [1]

    Raises
    ------
    OutsidePublishedRange : a value outside its range
    InvalidInput : fewer than three days, or more than seven

    Notes
    -----
    0.5 SD, from memory: an assumption the coach may change.

    References
    ----------
    heartbeat_band_recalled
    """
    return 0.5 * standard_deviation(days)


def is_normal_interval(intervals_ms: Sequence[float], place: int) -> bool:
    """Whether the interval at a place is no artefact, by the rule of ``keep_normal_intervals``."""
    around = intervals_ms[max(0, place - NEIGHBOURS // 2) : place + NEIGHBOURS // 2 + 1]
    middle = median(around)
    interval = intervals_ms[place]
    return (
        SHORTEST_MS <= interval <= LONGEST_MS
        and abs(interval - middle) <= LARGEST_CHANGE_FRACTION * middle
    )


def keep_normal_intervals(intervals_ms: Sequence[float]) -> list[list[float]]:
    """The intervals without artefacts, in runs that no artefact breaks.

    An interval is left out if it is shorter than 300 ms or longer than 2000 ms, or more than 20 %
    from the median of itself and up to two on each side. Differences are taken within a run only,
    never across a gap. This is our rule, stated with the result.
    """
    runs: list[list[float]] = [[]]
    for place, interval in enumerate(intervals_ms):
        if is_normal_interval(intervals_ms, place):
            runs[-1].append(interval)
        elif runs[-1]:
            runs.append([])
    return [run for run in runs if run]


@dataclass(frozen=True)
class Variability:
    """Variability of one recording, with how much of it was used; None where it is not given."""

    intervals: int
    left_out: int
    rmssd_ms: float | None = None
    sdnn_ms: float | None = None
    pnn50_percent: float | None = None
    why_not: str = ""


def summarise_intervals(intervals_ms: Sequence[float]) -> Variability:
    """RMSSD, SDNN and pNN50 of a recording; not given if more than 5 % had to be left out."""
    runs = keep_normal_intervals(intervals_ms)
    kept = [interval for run in runs for interval in run]
    left_out = len(intervals_ms) - len(kept)
    changes = [change for run in runs for change in _changes(run)]
    if len(changes) < 2:
        why_not = "not given: fewer than two differences without artefacts"
        return Variability(len(intervals_ms), left_out, why_not=why_not)
    if left_out > MOST_LEFT_OUT_FRACTION * len(intervals_ms):
        why_not = f"not given: {left_out} of {len(intervals_ms)} intervals are artefacts"
        return Variability(len(intervals_ms), left_out, why_not=why_not)
    return Variability(
        len(intervals_ms),
        left_out,
        _root_mean_square(changes),
        standard_deviation(kept),
        100 * sum(abs(change) > 50 for change in changes) / len(changes),
    )
