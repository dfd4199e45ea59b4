"""How often a control chart alarms: the mean number of readings to an alarm, false or true.

Every result takes the readings as independent and normal. Answers of the same athlete on following
days are neither, so false alarms come more often than these numbers say.
"""

import math
from typing import TYPE_CHECKING

from squadwright.errors import InvalidInput
from squadwright.formulas.published import PROGRAM_LIMIT, Choice, Range, published

if TYPE_CHECKING:
    from numpy import float64
    from numpy.typing import NDArray

    Points = NDArray[float64]

NODES = 200
"""Points of the Gauss-Legendre rule: ten digits at the ends of the ranges below."""

SMOOTHING = Range(low=0.02, high=1, reason=PROGRAM_LIMIT)
WIDTH = Range(low=0.5, high=5, reason=PROGRAM_LIMIT)
SHIFT = Range(low=-6, high=6, reason=PROGRAM_LIMIT)
SLACK = Range(low=0, high=3, reason=PROGRAM_LIMIT)
DECISION = Range(low=0.1, high=20, reason=PROGRAM_LIMIT)
LONGEST = 1e9
"""Readings beyond which a chart is said never to alarm: the sums below lose their digits there."""
Z_LIMIT = Range(low=0, is_low_open=True, high=10, reason=PROGRAM_LIMIT)
EARLIER = Range(low=2, high=10_000, is_whole=True, reason=PROGRAM_LIMIT)
SIDES = Choice(("both", "high"))


def _nodes(low: float, high: float) -> "tuple[Points, Points]":
    import numpy as np

    places, weights = np.polynomial.legendre.leggauss(NODES)
    half = (high - low) / 2
    return low + half * (places + 1), half * weights


def _bell(z: "Points") -> "Points":
    import numpy as np

    return np.exp(-(z**2) / 2) / math.sqrt(2 * math.pi)


@published(smoothing=SMOOTHING, width=WIDTH, shift=SHIFT)
def run_length_ewma(smoothing: float, width: float, shift: float = 0.0) -> float:
    """Mean number of readings to an alarm of an exponential-mean chart.

    Parameters
    ----------
    smoothing : share of the latest reading [1], 0.02 to 1
    width : distance of the limits in standard deviations of the mean [1], 0.5 to 5
    shift : true change in standard deviations of a reading, 0 for false alarms [1], -6 to 6

    Returns
    -------
    readings to the alarm [readings]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    Integral equation of the run length, fixed limits on both sides, the mean begun on target,
    readings independent and normal. Readings of following days are not independent: false alarms
    come more often.

    References
    ----------
    crowder_1987 lucas_saccucci_1990
    """
    import numpy as np

    limit = width * math.sqrt(smoothing / (2 - smoothing))
    places, weights = _nodes(-limit, limit)

    def onwards(begin: "Points") -> "Points":
        steps = (places - (1 - smoothing) * begin[:, None]) / smoothing - shift
        return _bell(steps) / smoothing * weights

    lengths = np.linalg.solve(np.eye(NODES) - onwards(places), np.ones(NODES))
    return float(1 + (onwards(np.zeros(1)) @ lengths)[0])


def _run_length_one_side(slack: float, decision: float, shift: float) -> float:
    import numpy as np
    from scipy.special import ndtr

    places, weights = _nodes(0, decision)
    begins = np.concatenate(([0.0], places))
    onwards = np.empty((NODES + 1, NODES + 1))
    onwards[:, 0] = ndtr(slack - begins - shift)
    onwards[:, 1:] = _bell(places + slack - begins[:, None] - shift) * weights
    lengths = np.linalg.solve(np.eye(NODES + 1) - onwards, np.ones(NODES + 1))
    length = float(lengths[0])
    return length if 0 < length <= LONGEST else math.inf


@published(slack=SLACK, decision=DECISION, shift=SHIFT, sides=SIDES)
def run_length_cusum(
    slack: float, decision: float, shift: float = 0.0, *, sides: str = "both"
) -> float:
    """Mean number of readings to an alarm of a cumulative-sum chart.

    Parameters
    ----------
    slack : allowance taken off each reading, in standard deviations [1], 0 to 3
    decision : height of the alarm, in standard deviations [1], 0.1 to 20
    shift : true change in standard deviations of a reading, 0 for false alarms [1], -6 to 6
    sides : which changes alarm [word], one of both, high

    Returns
    -------
    readings to the alarm [readings]

    Raises
    ------
    OutsidePublishedRange : a value outside its range
    InvalidInput : less than one alarm in 1000000000 readings

    Notes
    -----
    Integral equation of the run length of one side begun at 0; both sides by
    1/L = 1/L_high + 1/L_low. Readings independent and normal. Readings of following days are not
    independent: false alarms come more often.

    References
    ----------
    lucas_crosier_1982 vance_1986 waldmann_1986
    """
    alarms = 1 / _run_length_one_side(slack, decision, shift)
    if sides == "both":
        alarms += 1 / _run_length_one_side(slack, decision, -shift)
    if alarms == 0:
        raise InvalidInput(
            "decision",
            f"{decision:g} with slack {slack:g} alarms less than once in {LONGEST:.0f} readings",
            "Lower one of the two",
        )
    return 1 / alarms


@published(z_limit=Z_LIMIT, earlier_readings=EARLIER)
def false_alarm_fraction_z(z_limit: float, earlier_readings: int) -> float:
    """Share of readings that a limit on z flags although nothing changed.

    Parameters
    ----------
    z_limit : size of z from which a reading is flagged [1], more than 0 and at most 10
    earlier_readings : readings the mean and standard deviation are from [1], whole, 2 to 10000

    Returns
    -------
    share of readings, 0 to 1 [1]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    Both tails of Student's t with n - 1 degrees beyond z / sqrt(1 + 1/n): the mean and the
    standard deviation of few days are uncertain themselves. Readings independent and normal.

    References
    ----------
    spread_arithmetic
    """
    from scipy.special import stdtr

    beyond = z_limit / math.sqrt(1 + 1 / earlier_readings)
    return float(2 * stdtr(earlier_readings - 1, -beyond))
