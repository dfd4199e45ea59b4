"""Training load and performance: each load lifts fitness for long and brings fatigue for short.

Performance is that before the session of a day: the load of the day itself does not count yet.
Some authors count it, which shifts every value by one day. Gains depend on the unit of load, so
those of one study never carry over to another; the day that suits best depends only on the two
time constants and the ratio of the gains.
"""

import math
from collections.abc import Sequence

from squadwright.errors import OutsidePublishedRange
from squadwright.formulas.published import PROGRAM_LIMIT, Range, Series, published
from squadwright.formulas.session_load import LOAD

LOADS = Series(LOAD, at_least=1)
LEVEL = Range(reason=PROGRAM_LIMIT)
CONSTANT = Range(low=0.5, high=200, reason=PROGRAM_LIMIT)
GAIN = Range(low=0, is_low_open=True, high=1000, reason=PROGRAM_LIMIT)
DAYS_BEFORE = Range(low=0, high=730, reason=PROGRAM_LIMIT)

NO_DAY = "there is such a day only where fitness lasts longer and fatigue weighs more"


def decay(days: float, constant_d: float) -> float:
    """What is left after some days of something that falls to 37 % in ``constant_d`` days [1]."""
    return math.exp(-days / constant_d)


def _trace(day_loads: Sequence[float], constant_d: float) -> float:
    level = 0.0
    for load in day_loads:
        level = (level + load) * decay(1, constant_d)
    return level


@published(
    day_loads=LOADS,
    start=LEVEL,
    fitness_d=CONSTANT,
    fatigue_d=CONSTANT,
    fitness_gain=GAIN,
    fatigue_gain=GAIN,
)
def performance_banister(
    day_loads: Sequence[float],
    *,
    start: float = 0.0,
    fitness_d: float = 42.0,
    fatigue_d: float = 15.0,
    fitness_gain: float = 1.0,
    fatigue_gain: float = 2.0,
) -> float:
    """Performance on the day after the last of a series of days, before its session.

    Parameters
    ----------
    day_loads : load of each day, the latest last, rest days as 0 [AU],
        1 or more numbers, each 0 to 20000
    start : performance without training [1], any number
    fitness_d : days in which fitness falls to 37 % [d], 0.5 to 200
    fatigue_d : days in which fatigue falls to 37 % [d], 0.5 to 200
    fitness_gain : gain of fitness for a unit of load [1], more than 0 and at most 1000
    fatigue_gain : gain of fatigue for a unit of load [1], more than 0 and at most 1000

    Returns
    -------
    performance in the unit of start [1]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    p(n) = p* + k1 SUM w(i) exp(-(n - i)/T1) - k2 SUM w(i) exp(-(n - i)/T2), i from 1 to n - 1.
    Constants and gains are badly told apart from one person's tests: in nine swimmers T1 was
    38 d with a range of 17 to 59 (hellard_2006), in skaters the fatigue term did not improve the
    forecast (marchal_2025). An aid for comparing plans, not a forecast of a result.

    References
    ----------
    imbach_2022 hellard_2006 marchal_2025
    """
    fitness = fitness_gain * _trace(day_loads, fitness_d)
    return start + fitness - fatigue_gain * _trace(day_loads, fatigue_d)


@published(
    days_before=DAYS_BEFORE,
    fitness_d=CONSTANT,
    fatigue_d=CONSTANT,
    fitness_gain=GAIN,
    fatigue_gain=GAIN,
)
def influence_of_load(
    days_before: float,
    *,
    fitness_d: float = 42.0,
    fatigue_d: float = 15.0,
    fitness_gain: float = 1.0,
    fatigue_gain: float = 2.0,
) -> float:
    """What a unit of load so many days before an event adds to performance on that day.

    Parameters
    ----------
    days_before : days from the load to the event [d], 0 to 730
    fitness_d : days in which fitness falls to 37 % [d], 0.5 to 200
    fatigue_d : days in which fatigue falls to 37 % [d], 0.5 to 200
    fitness_gain : gain of fitness for a unit of load [1], more than 0 and at most 1000
    fatigue_gain : gain of fatigue for a unit of load [1], more than 0 and at most 1000

    Returns
    -------
    change of performance for a unit of load, below 0 where it costs [1]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    L(u) = k1 exp(-u/T1) - k2 exp(-u/T2). Performance on the day is p* plus the sum of load times
    L, so it is linear in the loads. Taken alone it calls for weeks of rest, against what is
    known of tapers: floors, ramps and limits belong to a plan.

    References
    ----------
    fitz_clarke_1991_recalled impulse_response_arithmetic
    """
    return fitness_gain * decay(days_before, fitness_d) - fatigue_gain * decay(
        days_before, fatigue_d
    )


def _days(numerator: float, fitness_d: float, fatigue_d: float, gain_ratio: float) -> float:
    if fitness_d <= fatigue_d:
        raise OutsidePublishedRange(
            "fitness_d", fitness_d, fatigue_d, None, NO_DAY, is_low_open=True
        )
    if numerator <= 0:
        raise OutsidePublishedRange("gain_ratio", gain_ratio, 1, None, NO_DAY, is_low_open=True)
    return fitness_d * fatigue_d / (fitness_d - fatigue_d) * numerator


@published(fitness_d=CONSTANT, fatigue_d=CONSTANT, gain_ratio=GAIN)
def days_load_still_costs(fitness_d: float, fatigue_d: float, gain_ratio: float) -> float:
    """Days before an event from which on a load lowers performance on the day.

    Parameters
    ----------
    fitness_d : days in which fitness falls to 37 % [d], 0.5 to 200
    fatigue_d : days in which fatigue falls to 37 % [d], 0.5 to 200
    gain_ratio : gain of fatigue over gain of fitness [1], more than 0 and at most 1000

    Returns
    -------
    days before the event [d]

    Raises
    ------
    OutsidePublishedRange : a value outside its range, fitness no longer than fatigue, or a
        ratio of at most 1

    Notes
    -----
    tn = T1 T2/(T1 - T2) ln(k2/k1). In nine swimmers 19 d with a range of 7 to 35
    (hellard_2006). It is not the length of a taper: it says nothing of what keeps an athlete
    sharp.

    References
    ----------
    fitz_clarke_1991_recalled impulse_response_arithmetic hellard_2006
    """
    return _days(math.log(gain_ratio), fitness_d, fatigue_d, gain_ratio)


@published(fitness_d=CONSTANT, fatigue_d=CONSTANT, gain_ratio=GAIN)
def days_load_helps_most(fitness_d: float, fatigue_d: float, gain_ratio: float) -> float:
    """Days before an event on which a load raises performance on the day the most.

    Parameters
    ----------
    fitness_d : days in which fitness falls to 37 % [d], 0.5 to 200
    fatigue_d : days in which fatigue falls to 37 % [d], 0.5 to 200
    gain_ratio : gain of fatigue over gain of fitness [1], more than 0 and at most 1000

    Returns
    -------
    days before the event [d]

    Raises
    ------
    OutsidePublishedRange : a value outside its range, fitness no longer than fatigue, or a
        ratio of at most the ratio of the constants

    Notes
    -----
    tg = T1 T2/(T1 - T2) ln(k2 T1/(k1 T2)). In nine swimmers 43 d with a range of 25 to 61
    (hellard_2006).

    References
    ----------
    fitz_clarke_1991_recalled impulse_response_arithmetic hellard_2006
    """
    return _days(math.log(gain_ratio * fitness_d / fatigue_d), fitness_d, fatigue_d, gain_ratio)


@published(constant_d=CONSTANT)
def steady_trace(constant_d: float) -> float:
    """Where fitness or fatigue comes to rest when the same load is done every day.

    Parameters
    ----------
    constant_d : days in which it falls to 37 % [d], 0.5 to 200

    Returns
    -------
    level for a unit of daily load, before the session [1]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    1/(exp(1/T) - 1), the sum of exp(-n/T) over all days n from 1 on.

    References
    ----------
    impulse_response_arithmetic
    """
    return 1 / math.expm1(1 / constant_d)
