"""Step tests: aerobic capacity or an index from the pulse after stepping.

Nobody who must not train hard steps hard: restrictions and medical advice come first.
"""

import math
from collections.abc import Sequence

from squadwright.formulas.heart_rate import HEART_RATE
from squadwright.formulas.published import PROGRAM_LIMIT, Range, Series, published

STEPPING = Range(low=0, is_low_open=True, high=300, reason="the test ends after five minutes")
BEATS = Range(low=10, high=120, reason=PROGRAM_LIMIT)
THREE_COUNTS = Series(BEATS, at_least=3, at_most=3)


@published(heart_rate_bpm=HEART_RATE)
def aerobic_capacity_queens_step_men(heart_rate_bpm: float) -> float:
    """Aerobic capacity from the Queens step test, men.

    Parameters
    ----------
    heart_rate_bpm : beats from 5 to 20 s after the last step, times 4 [beats/min], 30 to 240

    Returns
    -------
    greatest oxygen uptake [ml/kg/min]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    111.33 - 0.42 HR. Step 41.3 cm, 3 min, 24 steps a minute. The page gives no error.

    References
    ----------
    queens_step_page
    """
    return 111.33 - 0.42 * heart_rate_bpm


@published(heart_rate_bpm=HEART_RATE)
def aerobic_capacity_queens_step_women(heart_rate_bpm: float) -> float:
    """Aerobic capacity from the Queens step test, women.

    Parameters
    ----------
    heart_rate_bpm : beats from 5 to 20 s after the last step, times 4 [beats/min], 30 to 240

    Returns
    -------
    greatest oxygen uptake [ml/kg/min]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    65.81 - 0.1847 HR. Step 41.3 cm, 3 min, 22 steps a minute. The page gives no error.

    References
    ----------
    queens_step_page
    """
    return 65.81 - 0.1847 * heart_rate_bpm


@published(stepping_s=STEPPING, counts=THREE_COUNTS)
def step_index_harvard(stepping_s: float, counts: Sequence[float]) -> float:
    """Index of the Harvard step test.

    Parameters
    ----------
    stepping_s : time stepped [s], more than 0 and at most 300
    counts : beats in three counts of 30 s after stepping [beats],
        3 numbers, each 10 to 120

    Returns
    -------
    index [1]

    Raises
    ------
    OutsidePublishedRange : a value outside its range
    InvalidInput : fewer or more than three counts

    Notes
    -----
    100 s / (2 times the sum of the three counts). From memory.

    References
    ----------
    harvard_step_recalled
    """
    return 100 * stepping_s / (2 * math.fsum(counts))
