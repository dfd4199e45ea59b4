"""Load from heart rate by author. The method stays with the number: two methods never add up."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from squadwright.errors import InvalidInput
from squadwright.formulas.heart_rate import HEART_RATE, MAXIMUM, RESTING, reserve_fraction
from squadwright.formulas.published import PROGRAM_LIMIT, Range, Series, published
from squadwright.formulas.session_load import DURATION

ZONE_MINUTES = Range(low=0, high=1440, reason=PROGRAM_LIMIT)
FIVE_ZONES = Series(ZONE_MINUTES, at_least=5, at_most=5)
THREE_ZONES = Series(ZONE_MINUTES, at_least=3, at_most=3)
INTERVAL_S = Range(low=0, is_low_open=True, high=3600, reason=PROGRAM_LIMIT)
EDWARDS_LIMITS = (0.5, 0.6, 0.7, 0.8, 0.9)
"""Lower ends of the five zones as shares of the greatest heart rate: [50, 60) to [90, 100] %."""


@published(
    duration_min=DURATION, heart_rate_bpm=HEART_RATE, resting_bpm=RESTING, maximum_bpm=MAXIMUM
)
def training_impulse_banister_men(
    duration_min: float, heart_rate_bpm: float, *, resting_bpm: float, maximum_bpm: float
) -> float:
    """Training impulse of a session by Banister, men.

    Parameters
    ----------
    duration_min : length of the session [min], more than 0 and at most 1440
    heart_rate_bpm : mean heart rate of the session [beats/min], 30 to 240
    resting_bpm : resting heart rate [beats/min], 25 to 120
    maximum_bpm : greatest heart rate [beats/min], 100 to 240

    Returns
    -------
    training impulse [TRIMP]

    Raises
    ------
    OutsidePublishedRange : a value outside its range, or a heart rate outside resting to maximum

    Notes
    -----
    min x 0.64 e^(1.92 x), x = (HR - rest) / (max - rest).

    References
    ----------
    banister_pages
    """
    share = reserve_fraction(heart_rate_bpm, resting_bpm, maximum_bpm)
    return duration_min * share * 0.64 * math.exp(1.92 * share)


@published(
    duration_min=DURATION, heart_rate_bpm=HEART_RATE, resting_bpm=RESTING, maximum_bpm=MAXIMUM
)
def training_impulse_banister_women(
    duration_min: float, heart_rate_bpm: float, *, resting_bpm: float, maximum_bpm: float
) -> float:
    """Training impulse of a session by Banister, women.

    Parameters
    ----------
    duration_min : length of the session [min], more than 0 and at most 1440
    heart_rate_bpm : mean heart rate of the session [beats/min], 30 to 240
    resting_bpm : resting heart rate [beats/min], 25 to 120
    maximum_bpm : greatest heart rate [beats/min], 100 to 240

    Returns
    -------
    training impulse [TRIMP]

    Raises
    ------
    OutsidePublishedRange : a value outside its range, or a heart rate outside resting to maximum

    Notes
    -----
    min x 0.86 e^(1.67 x), x = (HR - rest) / (max - rest). A page that keeps the men's 0.64 here
    is wrong.

    References
    ----------
    banister_pages
    """
    share = reserve_fraction(heart_rate_bpm, resting_bpm, maximum_bpm)
    return duration_min * share * 0.86 * math.exp(1.67 * share)


@published(zones_min=FIVE_ZONES)
def training_impulse_edwards(zones_min: Sequence[float]) -> float:
    """Training impulse of a session by Edwards.

    Parameters
    ----------
    zones_min : minutes at 50-60, 60-70, 70-80, 80-90 and 90-100 % of the maximum [min],
        5 numbers, each 0 to 1440

    Returns
    -------
    training impulse [TRIMP]

    Raises
    ------
    OutsidePublishedRange : a value outside its range
    InvalidInput : fewer or more than five zones

    Notes
    -----
    Minutes times 1 to 5. A zone holds its lower end, the last one both; minutes under 50 % score
    nothing (our rule for the ends).

    References
    ----------
    edwards_pages
    """
    return math.fsum(weight * minutes for weight, minutes in enumerate(zones_min, start=1))


@published(zones_min=THREE_ZONES)
def training_impulse_lucia(zones_min: Sequence[float]) -> float:
    """Training impulse of a session by Lucia.

    Parameters
    ----------
    zones_min : minutes below the first, between both, above the second threshold [min],
        3 numbers, each 0 to 1440

    Returns
    -------
    training impulse [TRIMP]

    Raises
    ------
    OutsidePublishedRange : a value outside its range
    InvalidInput : fewer or more than three zones

    Notes
    -----
    Minutes times 1, 2, 3; the weights are from memory. The ventilatory thresholds need a test.

    References
    ----------
    lucia_pages lucia_recalled
    """
    return math.fsum(weight * minutes for weight, minutes in enumerate(zones_min, start=1))


@dataclass(frozen=True)
class TrainingImpulse:
    """A training impulse with the method behind it."""

    value: float
    method: str


def add_impulses(impulses: Sequence[TrainingImpulse]) -> TrainingImpulse:
    """The sum of impulses of one method; refuse to add two methods."""
    methods = sorted({impulse.method for impulse in impulses})
    if len(methods) != 1:
        raise InvalidInput(
            "impulses",
            f"come from {len(methods)} methods ({', '.join(methods) or 'none'})",
            "Add up impulses of one method only",
        )
    return TrainingImpulse(math.fsum(impulse.value for impulse in impulses), methods[0])


@dataclass(frozen=True)
class ZoneMinutes:
    """Minutes in each zone, with those that no zone takes."""

    zones_min: tuple[float, ...]
    below_min: float
    above_maximum_min: float
    unknown_min: float


def minutes_in_edwards_zones(
    heart_rates_bpm: Sequence[float | None], *, interval_s: float, maximum_bpm: float
) -> ZoneMinutes:
    """Minutes in the five zones from readings ``interval_s`` apart; None is a lost reading.

    Readings above the maximum are counted apart and score nothing: either the reading is wrong or
    the maximum is.
    """
    INTERVAL_S.check("interval_s", interval_s, lambda: PROGRAM_LIMIT)
    MAXIMUM.check("maximum_bpm", maximum_bpm, lambda: PROGRAM_LIMIT)
    zones = [0] * len(EDWARDS_LIMITS)
    below = above = unknown = 0
    limits = [limit * maximum_bpm for limit in EDWARDS_LIMITS]
    for reading in heart_rates_bpm:
        if reading is None:
            unknown += 1
        elif reading > maximum_bpm:
            above += 1
        elif reading < limits[0]:
            below += 1
        else:
            zones[sum(reading >= limit for limit in limits) - 1] += 1
    minutes = interval_s / 60
    return ZoneMinutes(
        tuple(count * minutes for count in zones),
        below * minutes,
        above * minutes,
        unknown * minutes,
    )
