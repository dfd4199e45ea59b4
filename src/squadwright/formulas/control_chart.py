"""Is this reading unusual for this athlete? Charts and z against his own earlier days.

A chart says that something changed, not why, and no flag is a diagnosis: what it may mean is for
the coach to ask and for medical staff to judge. ``run_length`` says how often each rule alarms
without cause.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from statistics import median

from squadwright.errors import OutsidePublishedRange
from squadwright.formulas.published import PROGRAM_LIMIT, Range, Series, published
from squadwright.formulas.reliability import standard_deviation

LEAST_EARLIER_DAYS = 14
"""Earlier days that z needs: our judgement."""
MAD_TO_DEVIATION = 1.4826
"""Makes the median distance of normal readings as large as their standard deviation."""

VALUE = Range(low=-1e6, high=1e6, reason=PROGRAM_LIMIT)
SPREAD = Range(low=0, is_low_open=True, high=1e6, reason=PROGRAM_LIMIT)
FLOOR = Range(low=0, high=1e6, reason=PROGRAM_LIMIT)
SMOOTHING = Range(low=0, is_low_open=True, high=1, reason="a share of the latest reading")
WIDTH = Range(low=0, is_low_open=True, high=10, reason=PROGRAM_LIMIT)
PLACE = Range(low=1, high=1_000_000, is_whole=True, reason=PROGRAM_LIMIT)
EARLIER = Series(VALUE, at_least=LEAST_EARLIER_DAYS)


@published(standard_deviation=SPREAD, smoothing=SMOOTHING, width=WIDTH, reading=PLACE)
def ewma_limit_distance(
    standard_deviation: float, smoothing: float, width: float = 3.0, *, reading: int
) -> float:
    """Distance of the limits of an exponential-mean chart at one reading.

    Parameters
    ----------
    standard_deviation : standard deviation of a reading [unit of the reading],
        more than 0 and at most 1000000
    smoothing : share of the latest reading [1], more than 0 and at most 1
    width : distance in standard deviations of the mean [1], more than 0 and at most 10
    reading : place of the reading since the chart began [1], whole, 1 to 1000000

    Returns
    -------
    distance from the target [unit of the reading]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    K s sqrt(lambda / (2 - lambda) (1 - (1 - lambda)^(2 t))). Readings taken as independent; answers
    of following days are not, so false alarms come more often: use wider limits.

    References
    ----------
    statistics_handbook_recalled sands_2019 west_2026
    """
    begun = 1 - (1 - smoothing) ** (2 * reading)
    return ewma_limit_distance_settled(standard_deviation, smoothing, width) * math.sqrt(begun)


@published(standard_deviation=SPREAD, smoothing=SMOOTHING, width=WIDTH)
def ewma_limit_distance_settled(
    standard_deviation: float, smoothing: float, width: float = 3.0
) -> float:
    """Distance of the limits of an exponential-mean chart after many readings.

    Parameters
    ----------
    standard_deviation : standard deviation of a reading [unit of the reading],
        more than 0 and at most 1000000
    smoothing : share of the latest reading [1], more than 0 and at most 1
    width : distance in standard deviations of the mean [1], more than 0 and at most 10

    Returns
    -------
    distance from the target [unit of the reading]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    K s sqrt(lambda / (2 - lambda)).

    References
    ----------
    statistics_handbook_recalled
    """
    return width * standard_deviation * math.sqrt(smoothing / (2 - smoothing))


def _mean(values: Sequence[float]) -> float:
    return math.fsum(values) / len(values)


def _over(distance: float, spread: float, name: str) -> float:
    if spread == 0:
        ground = "earlier readings all alike; give a floor"
        raise OutsidePublishedRange(name, 0, 0, None, ground, is_low_open=True)
    return distance / spread


@published(value=VALUE, earlier=EARLIER, floor=FLOOR)
def z_against_earlier(value: float, earlier: Sequence[float], floor: float = 0.0) -> float:
    """Distance of a reading from an athlete's earlier ones, in their standard deviations.

    Parameters
    ----------
    value : today's reading [unit of the reading], -1000000 to 1000000
    earlier : readings of earlier days, without today's [unit of the reading],
        14 or more numbers, each -1000000 to 1000000
    floor : least standard deviation to divide by [unit of the reading], 0 to 1000000

    Returns
    -------
    z [1]

    Raises
    ------
    OutsidePublishedRange : a value outside its range, or earlier readings all alike and no floor
    InvalidInput : fewer than 14 earlier readings

    Notes
    -----
    (x - mean) / SD with n - 1. Today's reading is not among the earlier ones. On scales of few
    steps a floor, for example 0.5, keeps flat answers from making every change unusual. Fourteen
    days and the floor are our judgement.

    References
    ----------
    spread_arithmetic
    """
    spread = max(standard_deviation(earlier), floor)
    return _over(value - _mean(earlier), spread, "standard deviation of earlier")


@published(value=VALUE, earlier=EARLIER, floor=FLOOR)
def robust_z_against_earlier(value: float, earlier: Sequence[float], floor: float = 0.0) -> float:
    """Distance of a reading from the median of earlier ones, in scaled median distances.

    Parameters
    ----------
    value : today's reading [unit of the reading], -1000000 to 1000000
    earlier : readings of earlier days, without today's [unit of the reading],
        14 or more numbers, each -1000000 to 1000000
    floor : least spread to divide by [unit of the reading], 0 to 1000000

    Returns
    -------
    robust z [1]

    Raises
    ------
    OutsidePublishedRange : a value outside its range, or no median distance and no floor
    InvalidInput : fewer than 14 earlier readings

    Notes
    -----
    (x - median) / (1.4826 MAD). One odd day among the earlier ones hardly moves it.

    References
    ----------
    spread_arithmetic
    """
    middle = median(earlier)
    spread = MAD_TO_DEVIATION * median([abs(one - middle) for one in earlier])
    return _over(value - middle, max(spread, floor), "median distance of earlier")


@dataclass(frozen=True)
class EwmaPoint:
    """One reading of an exponential-mean chart: the mean and its limits."""

    mean: float
    low: float
    high: float

    @property
    def is_outside(self) -> bool:
        """Whether the mean has left its limits."""
        return not self.low <= self.mean <= self.high


def ewma_chart(
    readings: Sequence[float | None],
    *,
    target: float,
    standard_deviation: float,
    smoothing: float,
    width: float = 3.0,
) -> list[EwmaPoint | None]:
    """The exponential mean of each reading with its limits; None where there is no reading.

    The mean begins at ``target``. A day without a reading moves neither mean nor limits.
    """
    mean, count = target, 0
    points: list[EwmaPoint | None] = []
    for reading in readings:
        if reading is None:
            points.append(None)
            continue
        count += 1
        mean = smoothing * reading + (1 - smoothing) * mean
        distance = ewma_limit_distance(standard_deviation, smoothing, width, reading=count)
        points.append(EwmaPoint(mean, target - distance, target + distance))
    return points


@dataclass(frozen=True)
class CusumPoint:
    """One reading of a cumulative-sum chart: what has gathered above and below the target."""

    high: float
    low: float
    decision: float

    @property
    def is_outside(self) -> bool:
        """Whether either sum is above the height of the alarm."""
        return max(self.high, self.low) > self.decision


def cusum_chart(
    readings: Sequence[float | None], *, target: float, slack: float, decision: float
) -> list[CusumPoint | None]:
    """Both cumulative sums at each reading; None where there is no reading.

    ``slack`` and ``decision`` are in the unit of the reading. H_t = max(0, x - (target + slack) +
    H_(t-1)), and L_t the same below (textbook_cusum).
    """
    SPREAD.check("decision", decision, lambda: PROGRAM_LIMIT)
    FLOOR.check("slack", slack, lambda: PROGRAM_LIMIT)
    high = low = 0.0
    points: list[CusumPoint | None] = []
    for reading in readings:
        if reading is None:
            points.append(None)
            continue
        high = max(0.0, reading - (target + slack) + high)
        low = max(0.0, (target - slack) - reading + low)
        points.append(CusumPoint(high, low, decision))
    return points


@dataclass(frozen=True)
class Judged:
    """Today's reading against earlier days; z is None where there are too few of them."""

    known_earlier_days: int
    change: float | None = None
    z: float | None = None
    robust_z: float | None = None
    is_unusual: bool = False
    why_not: str = ""


def judge_reading(
    value: float,
    earlier: Sequence[float | None],
    *,
    z_limit: float,
    floor: float,
    least_change: float,
) -> Judged:
    """Judge a reading: unusual if both z reach ``z_limit`` and the change is large enough to mean.

    ``floor`` is the least spread and ``least_change`` the least change from the mean that counts,
    both in the unit of the reading (for one item of a questionnaire for example 0.5 and 1, for a
    total 2: our judgement). None among ``earlier`` is a day without an answer.
    """
    SPREAD.check("floor", floor, lambda: PROGRAM_LIMIT)
    known = [reading for reading in earlier if reading is not None]
    if len(known) < LEAST_EARLIER_DAYS:
        why_not = f"not given: {len(known)} earlier days, fewer than {LEAST_EARLIER_DAYS}"
        return Judged(len(known), why_not=why_not)
    z = z_against_earlier(value, known, floor)
    robust_z = robust_z_against_earlier(value, known, floor)
    change = value - _mean(known)
    is_far = min(abs(z), abs(robust_z)) >= z_limit and z * robust_z > 0
    return Judged(len(known), change, z, robust_z, is_far and abs(change) >= least_change)
