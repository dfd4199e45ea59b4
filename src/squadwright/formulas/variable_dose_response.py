"""Training load and performance where a load tires more the more there was just before it."""

import math
from collections.abc import Sequence

from squadwright.formulas.impulse_response import CONSTANT, LEVEL, LOADS, decay, steady_trace
from squadwright.formulas.published import PROGRAM_LIMIT, Range, published

SMALL_GAIN = Range(low=0, is_low_open=True, high=10, reason=PROGRAM_LIMIT)


@published(
    day_loads=LOADS,
    start=LEVEL,
    fitness_d=CONSTANT,
    fatigue_d=CONSTANT,
    recent_d=CONSTANT,
    fitness_gain=SMALL_GAIN,
    recent_gain=SMALL_GAIN,
)
def performance_busso(
    day_loads: Sequence[float],
    *,
    start: float = 0.0,
    fitness_d: float = 30.8,
    fatigue_d: float = 16.8,
    recent_d: float = 2.3,
    fitness_gain: float = 0.031,
    recent_gain: float = 0.000035,
) -> float:
    """Performance on the day after a series of days, fatigue rising with recent load.

    Parameters
    ----------
    day_loads : load of each day, the latest last, rest days as 0 [AU],
        1 or more numbers, each 0 to 20000
    start : performance without training [1], any number
    fitness_d : days in which fitness falls to 37 % [d], 0.5 to 200
    fatigue_d : days in which fatigue falls to 37 % [d], 0.5 to 200
    recent_d : days in which the weight of recent load falls to 37 % [d], 0.5 to 200
    fitness_gain : gain of fitness for a unit of load [1], more than 0 and at most 10
    recent_gain : gain of fatigue for a unit of load and of recent load [1],
        more than 0 and at most 10

    Returns
    -------
    performance in the unit of start [1]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    k2(i) = k3 SUM w(j) exp(-(i - j)/T3), j up to and with day i;
    p(n) = p* + k1 SUM w exp(-(n - i)/T1) - SUM k2(i) w(i) exp(-(n - i)/T2). The study: six
    untrained people, 15 weeks, error 6.47 W against 9.20 to 10.31 W for older models. Equations
    and parameters come from memory. In rats that lifted, the extra term was no better.

    References
    ----------
    busso_2003 busso_2003_recalled philippe_2015
    """
    fitness = fatigue = recent = 0.0
    for load in day_loads:
        recent = recent * decay(1, recent_d) + load
        fitness = (fitness + load) * decay(1, fitness_d)
        fatigue = (fatigue + recent_gain * recent * load) * decay(1, fatigue_d)
    return start + fitness_gain * fitness - fatigue


@published(
    fitness_d=CONSTANT,
    fatigue_d=CONSTANT,
    recent_d=CONSTANT,
    fitness_gain=SMALL_GAIN,
    recent_gain=SMALL_GAIN,
)
def best_daily_load_busso(
    *,
    fitness_d: float = 30.8,
    fatigue_d: float = 16.8,
    recent_d: float = 2.3,
    fitness_gain: float = 0.031,
    recent_gain: float = 0.000035,
) -> float:
    """The same load every day that leads to the highest performance in the end.

    Parameters
    ----------
    fitness_d : days in which fitness falls to 37 % [d], 0.5 to 200
    fatigue_d : days in which fatigue falls to 37 % [d], 0.5 to 200
    recent_d : days in which the weight of recent load falls to 37 % [d], 0.5 to 200
    fitness_gain : gain of fitness for a unit of load [1], more than 0 and at most 10
    recent_gain : gain of fatigue for a unit of load and of recent load [1],
        more than 0 and at most 10

    Returns
    -------
    load of a day [AU]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    w* = k1 S1/(2 k3 S2 S3) with S1 = 1/(exp(1/T1) - 1), S2 alike, S3 = 1/(1 - exp(-1/T3)); the
    gain there is k1 S1 w*/2.

    References
    ----------
    impulse_response_arithmetic busso_2003_recalled
    """
    recent = 1 / -math.expm1(-1 / recent_d)
    lasting = fitness_gain * steady_trace(fitness_d)
    return lasting / (2 * recent_gain * steady_trace(fatigue_d) * recent)
