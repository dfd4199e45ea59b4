"""Load of sessions and weeks from the effort an athlete reports: what was done, and how evenly.

A day nobody reported is not a day of rest. A week with fewer than seven known days has a sum of
what is known, and no monotony and no strain unless the gaps are filled and marked. The numbers
describe; they forecast neither injury nor illness.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from squadwright.errors import InvalidInput, OutsidePublishedRange
from squadwright.formulas.published import PROGRAM_LIMIT, Choice, Range, Series, published

DAYS_IN_A_WEEK = 7
SAMPLE = "sample"
POPULATION = "population"
DEVIATIONS = (SAMPLE, POPULATION)

EFFORT = Range(low=0, high=10, reason="the scale of effort goes from 0, rest, to 10, maximal")
DURATION = Range(low=0, is_low_open=True, high=1440, reason=PROGRAM_LIMIT)
LOAD = Range(low=0, high=20_000, reason=PROGRAM_LIMIT)
WEEK = Series(LOAD, at_least=DAYS_IN_A_WEEK, at_most=DAYS_IN_A_WEEK)
DEVIATION = Choice(DEVIATIONS)

ALL_ALIKE = "not defined: all seven days are alike"


@published(effort=EFFORT, duration_min=DURATION)
def session_load_foster(effort: float, duration_min: float) -> float:
    """Load of a session from its effort and its length.

    Parameters
    ----------
    effort : effort of the whole session as the athlete reports it [1], 0 to 10
    duration_min : length of the session [min], more than 0 and at most 1440

    Returns
    -------
    load in arbitrary units [AU]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    Effort times minutes. The load of a day is the sum of its sessions. Effort is asked about
    30 min after; asked from 1 min to 14 days after it changes little. Planned and reported
    effort are kept apart: judo athletes rated every session harder than their coaches planned.

    References
    ----------
    foster_1998 foster_2021
    """
    return effort * duration_min


@published(day_loads=WEEK)
def week_load(day_loads: Sequence[float]) -> float:
    """Load of a week.

    Parameters
    ----------
    day_loads : load of each day, rest days as 0 [AU],
        7 numbers, each 0 to 20000

    Returns
    -------
    load in arbitrary units [AU]

    Raises
    ------
    OutsidePublishedRange : a value outside its range
    InvalidInput : fewer or more than seven days

    Notes
    -----
    Sum of seven days. A day that is not known is not 0.

    References
    ----------
    foster_1998
    """
    return math.fsum(day_loads)


def _spread(day_loads: Sequence[float], deviation: str) -> float:
    if min(day_loads) == max(day_loads):
        return 0.0
    middle = math.fsum(day_loads) / len(day_loads)
    squares = math.fsum((load - middle) ** 2 for load in day_loads)
    return math.sqrt(squares / (len(day_loads) - (deviation == SAMPLE)))


@published(day_loads=WEEK, deviation=DEVIATION)
def monotony_foster(day_loads: Sequence[float], deviation: str = SAMPLE) -> float:
    """Monotony of a week: how little its days differ.

    Parameters
    ----------
    day_loads : load of each day, rest days as 0 [AU],
        7 numbers, each 0 to 20000
    deviation : which standard deviation [word], one of sample, population

    Returns
    -------
    monotony [1]

    Raises
    ------
    OutsidePublishedRange : a value outside its range, or seven days alike
    InvalidInput : fewer or more than seven days

    Notes
    -----
    Mean of the day loads over their standard deviation. Foster's abstract does not say which
    standard deviation: sample divides by n - 1, population by n and reads 1.0801 times higher.
    Seven days alike have no monotony (never infinity, never a cap). One session in the week
    gives 0.378 (sample) or 0.408 (population), whatever its size.

    References
    ----------
    foster_1998
    """
    spread = _spread(day_loads, deviation)
    if spread == 0:
        raise OutsidePublishedRange(
            "standard deviation of day_loads", 0, 0, None, ALL_ALIKE, is_low_open=True
        )
    return math.fsum(day_loads) / len(day_loads) / spread


@published(day_loads=WEEK, deviation=DEVIATION)
def strain_foster(day_loads: Sequence[float], deviation: str = SAMPLE) -> float:
    """Strain of a week: its load times its monotony.

    Parameters
    ----------
    day_loads : load of each day, rest days as 0 [AU],
        7 numbers, each 0 to 20000
    deviation : which standard deviation [word], one of sample, population

    Returns
    -------
    strain in arbitrary units [AU]

    Raises
    ------
    OutsidePublishedRange : a value outside its range, or seven days alike
    InvalidInput : fewer or more than seven days

    Notes
    -----
    Week load times monotony, which is W^2 / (7 SD). Seven days alike have none. In the study
    illness went with thresholds of each athlete's own (n = 25): there is no common limit.

    References
    ----------
    foster_1998
    """
    return math.fsum(day_loads) * monotony_foster(day_loads, deviation)


def load_of_day(
    session_loads: Sequence[float | None], *, is_rest_confirmed: bool = False
) -> float | None:
    """The load of a day, or None where it is not known.

    A session without effort or length leaves the day unknown, and so does a day without sessions
    until the athlete or coach confirms that there was no training.
    """
    known = [load for load in session_loads if load is not None]
    if len(known) < len(session_loads) or (not session_loads and not is_rest_confirmed):
        return None
    return math.fsum(known)


@dataclass(frozen=True)
class WeekSummary:
    """A week with how much of it is known.

    ``load`` is the sum of known and filled days; ``monotony`` and ``strain`` are None where they
    are not defined, and ``why_not`` says why. ``deviation`` says which standard deviation.
    """

    load: float
    known_days: int
    filled_days: int
    deviation: str
    monotony: float | None = None
    strain: float | None = None
    why_not: str = ""


def summarise_week(
    days: Sequence[float | None], *, deviation: str = SAMPLE, fill: float | None = None
) -> WeekSummary:
    """Load, monotony and strain of seven days, None for a day that is not known.

    ``fill`` stands in for each unknown day and is counted in ``filled_days``. The best simple one
    in the studies is the team's mean of the same session (benson_2021).
    """
    DEVIATION.check("deviation", deviation, str)
    if len(days) != DAYS_IN_A_WEEK:
        raise InvalidInput("days", f"holds {len(days)} days", "Give seven, None for unknown")
    known = [load for load in days if load is not None]
    gaps = DAYS_IN_A_WEEK - len(known)
    if fill is None and gaps:
        why_not = f"not given: {len(known)} of {DAYS_IN_A_WEEK} days are known"
        return WeekSummary(math.fsum(known), len(known), 0, deviation, why_not=why_not)
    loads = known if fill is None else [fill if load is None else load for load in days]
    total = week_load(loads)
    if _spread(loads, deviation) == 0:
        return WeekSummary(total, len(known), gaps, deviation, why_not=ALL_ALIKE)
    monotony = monotony_foster(loads, deviation)
    return WeekSummary(total, len(known), gaps, deviation, monotony, total * monotony)
