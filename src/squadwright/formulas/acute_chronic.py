"""Recent load against usual load: a description of this week, and nothing more.

No band is called safe. The ratios stay hidden for an athlete's first 28 days and wherever fewer
than four in five days are known; ``LIMITS`` holds what a page that shows one has to say.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from squadwright.errors import OutsidePublishedRange
from squadwright.formulas.published import PROGRAM_LIMIT, Range, Series, published
from squadwright.formulas.session_load import LOAD

RECENT_DAYS = 7
USUAL_DAYS = 28
LEAST_KNOWN_FRACTION = 0.8
"""Below this share of known days no ratio is given: our judgement (load_ratio_gaps)."""

WARNING = "Describes how this week compares with recent weeks. It does not predict injury."
LIMITS = (
    ("Recent load is part of usual load, which makes the two agree by itself.", "windt_2019"),
    (
        "Divided by a random usual load, recent load went with injury as well as divided by "
        "the real one.",
        "impellizzeri_2021",
    ),
    ("Nothing shows that training changed by such numbers prevents injury.", "impellizzeri_2020"),
    ("Days left out make very low and very high ratios appear more often.", "load_ratio_gaps"),
    ("Recent and usual load say more side by side than divided.", "bache_mathiesen_2024"),
)
"""Each limit in a sentence, with the key of its source."""

MONTH = Series(LOAD, at_least=USUAL_DAYS, at_most=USUAL_DAYS)
DAYS = Series(LOAD, at_least=1)
SPAN = Range(low=2, high=365, is_whole=True, reason=PROGRAM_LIMIT)
RATIO = Range(low=0, high=1000, reason=PROGRAM_LIMIT)


def _over(recent: float, usual: float, name: str) -> float:
    if usual == 0:
        raise OutsidePublishedRange(name, 0, 0, None, "without load no ratio", is_low_open=True)
    return recent / usual


def _mean(loads: Sequence[float]) -> float:
    return math.fsum(loads) / len(loads)


@published(day_loads=MONTH)
def load_ratio_coupled(day_loads: Sequence[float]) -> float:
    """Ratio of the last 7 days to the last 28, the 7 being part of the 28.

    Parameters
    ----------
    day_loads : load of each day, the latest last, rest days as 0 [AU],
        28 numbers, each 0 to 20000

    Returns
    -------
    ratio of two means [1]

    Raises
    ------
    OutsidePublishedRange : a value outside its range, or 28 days without load
    InvalidInput : fewer or more than 28 days

    Notes
    -----
    mean(last 7) / mean(last 28), always at most 4. Describes how this week compares with recent
    weeks. It does not predict injury.

    References
    ----------
    windt_2019
    """
    return _over(_mean(day_loads[-RECENT_DAYS:]), _mean(day_loads), "mean of the 28 days")


@published(day_loads=MONTH)
def load_ratio_uncoupled(day_loads: Sequence[float]) -> float:
    """Ratio of the last 7 days to the 21 days before them.

    Parameters
    ----------
    day_loads : load of each day, the latest last, rest days as 0 [AU],
        28 numbers, each 0 to 20000

    Returns
    -------
    ratio of two means [1]

    Raises
    ------
    OutsidePublishedRange : a value outside its range, or 21 earlier days without load
    InvalidInput : fewer or more than 28 days

    Notes
    -----
    mean(last 7) / mean(the 21 before). Describes how this week compares with recent weeks. It
    does not predict injury.

    References
    ----------
    windt_2019
    """
    earlier = _mean(day_loads[:-RECENT_DAYS])
    return _over(_mean(day_loads[-RECENT_DAYS:]), earlier, "mean of the 21 days before")


@published(uncoupled=RATIO)
def load_ratio_coupled_from_uncoupled(uncoupled: float) -> float:
    """Coupled ratio of recent to usual load from the uncoupled one.

    Parameters
    ----------
    uncoupled : last 7 days over the 21 before [1], 0 to 1000

    Returns
    -------
    ratio of two means [1]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    C = U / (0.25 U + 0.75), exact when all 28 days are known.

    References
    ----------
    load_arithmetic
    """
    return uncoupled / (0.25 * uncoupled + 0.75)


@published(span_d=SPAN)
def smoothing_fraction(span_d: int) -> float:
    """Share of today's load in an exponential mean.

    Parameters
    ----------
    span_d : days the mean is named after [d], whole, 2 to 365

    Returns
    -------
    share of the latest day [1]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    lambda = 2 / (N + 1), as recalled. N is not a time constant: see smoothing_fold_time.

    References
    ----------
    williams_2017 williams_2017_recalled
    """
    return 2 / (span_d + 1)


@published(span_d=SPAN)
def smoothing_fold_time(span_d: int) -> float:
    """Days after which an exponential mean has kept 1/e of a load.

    Parameters
    ----------
    span_d : days the mean is named after [d], whole, 2 to 365

    Returns
    -------
    e-folding time [d]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    -1 / ln(1 - lambda). A mean named after 42 days forgets twice as fast as a model with a time
    constant of 42 days.

    References
    ----------
    load_arithmetic
    """
    return -1 / math.log1p(-smoothing_fraction(span_d))


@published(span_d=SPAN)
def smoothing_half_life(span_d: int) -> float:
    """Days after which an exponential mean has kept half of a load.

    Parameters
    ----------
    span_d : days the mean is named after [d], whole, 2 to 365

    Returns
    -------
    half-life [d]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    -ln 2 / ln(1 - lambda).

    References
    ----------
    load_arithmetic
    """
    return math.log(2) * smoothing_fold_time(span_d)


@published(day_loads=DAYS, span_d=SPAN)
def exponential_mean_load(day_loads: Sequence[float], span_d: int) -> float:
    """Exponential mean of daily loads on the last day.

    Parameters
    ----------
    day_loads : load of each day, the latest last, rest days as 0 [AU],
        1 or more numbers, each 0 to 20000
    span_d : days the mean is named after [d], whole, 2 to 365

    Returns
    -------
    mean daily load [AU]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    E_t = lambda load_t + (1 - lambda) E_(t-1), lambda = 2 / (N + 1), begun with the first day's
    load. A mean that divides by the sum of the weights so far is another filter.

    References
    ----------
    williams_2017 williams_2017_recalled
    """
    last = exponential_means(day_loads, span_d)[-1]
    assert last is not None
    return last


def exponential_means(
    days: Sequence[float | None], span_d: int, *, seed: float | None = None
) -> list[float | None]:
    """The exponential mean on each day; None before the first known day.

    An unknown day leaves the mean where it was. ``seed`` is the mean before the first day; without
    one the first known load begins the mean, which a day of rest there pulls down for weeks.
    """
    share = smoothing_fraction(span_d)
    mean = seed
    means: list[float | None] = []
    for load in days:
        if load is not None:
            mean = load if mean is None else share * load + (1 - share) * mean
        means.append(mean)
    return means


@dataclass(frozen=True)
class RecentLoad:
    """Recent load beside usual load, with how many days of each are known.

    A ratio is None where it is not given, and ``why_not`` says why. ``warning`` goes with them.
    """

    known_recent_days: int
    known_usual_days: int
    recent_mean: float | None = None
    earlier_mean: float | None = None
    coupled: float | None = None
    uncoupled: float | None = None
    exponential: float | None = None
    why_not: str = ""
    warning: str = WARNING


def compare_recent_load(days: Sequence[float | None]) -> RecentLoad:
    """Compare the last 7 days with the last 28 of an athlete's days since he began.

    ``days`` runs from his first day to today, None for a day that is not known. Means are those of
    the known days.
    """
    recent = [load for load in days[-RECENT_DAYS:] if load is not None]
    month = [load for load in days[-USUAL_DAYS:] if load is not None]
    counts = len(recent), len(month)
    why_not = _why_hidden(len(days), *counts)
    if why_not:
        return RecentLoad(*counts, why_not=why_not)
    earlier = [load for load in days[-USUAL_DAYS:-RECENT_DAYS] if load is not None]
    fast, slow = (exponential_means(days, span)[-1] for span in (RECENT_DAYS, USUAL_DAYS))
    assert fast is not None
    assert slow is not None
    has_earlier = math.fsum(earlier) > 0
    return RecentLoad(
        *counts,
        recent_mean=_mean(recent),
        earlier_mean=_mean(earlier),
        coupled=_mean(recent) / _mean(month) if math.fsum(month) > 0 else None,
        uncoupled=_mean(recent) / _mean(earlier) if has_earlier else None,
        exponential=fast / slow if slow > 0 else None,
        why_not="" if has_earlier else "not defined: no load in the three weeks before",
    )


def _why_hidden(days: int, known_recent: int, known_usual: int) -> str:
    if days <= USUAL_DAYS:
        return f"hidden for the first {USUAL_DAYS} days: this is day {days}"
    for known, all_days in ((known_recent, RECENT_DAYS), (known_usual, USUAL_DAYS)):
        if known < LEAST_KNOWN_FRACTION * all_days:
            return f"not given: {known} of the last {all_days} days are known, fewer than 80 %"
    return ""
