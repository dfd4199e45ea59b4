"""Heart rate: its greatest value from age, its reserve, and how fast it comes down.

A greatest heart rate from age is a guess: athletes of one age differ by tens of beats. One that was
measured in a hard test is used before any of these.
"""

from squadwright.errors import OutsidePublishedRange
from squadwright.formulas.published import PROGRAM_LIMIT, Range, published

AGE = Range(low=10, high=90, reason=PROGRAM_LIMIT)
HEART_RATE = Range(low=30, high=240, reason=PROGRAM_LIMIT)
RESTING = Range(low=25, high=120, reason=PROGRAM_LIMIT)
MAXIMUM = Range(low=100, high=240, reason=PROGRAM_LIMIT)
RESERVE_FRACTION = Range(low=0, high=1, reason="a share of the reserve")


@published(age_years=AGE)
def heart_rate_maximum_tanaka(age_years: float) -> float:
    """Greatest heart rate from age by Tanaka.

    Parameters
    ----------
    age_years : age [years], 10 to 90

    Returns
    -------
    greatest heart rate [beats/min]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    208 - 0.7 age. Another page prints 217 - 0.85 age under this name, which is wrong.

    References
    ----------
    tanaka_page
    """
    return 208 - 0.7 * age_years


@published(age_years=AGE)
def heart_rate_maximum_gellish(age_years: float) -> float:
    """Greatest heart rate from age by Gellish, straight line.

    Parameters
    ----------
    age_years : age [years], 10 to 90

    Returns
    -------
    greatest heart rate [beats/min]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    207 - 0.7 age.

    References
    ----------
    gellish_page
    """
    return 207 - 0.7 * age_years


@published(age_years=AGE)
def heart_rate_maximum_gellish_curved(age_years: float) -> float:
    """Greatest heart rate from age by Gellish, curve.

    Parameters
    ----------
    age_years : age [years], 10 to 90

    Returns
    -------
    greatest heart rate [beats/min]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    191.5 - 0.007 age^2. From memory.

    References
    ----------
    gellish_recalled
    """
    return 191.5 - 0.007 * age_years**2


@published(age_years=AGE)
def heart_rate_maximum_guideline(age_years: float) -> float:
    """Greatest heart rate from age by an exercise guideline.

    Parameters
    ----------
    age_years : age [years], 10 to 90

    Returns
    -------
    greatest heart rate [beats/min]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    206.9 - 0.67 age.

    References
    ----------
    exercise_guideline_page
    """
    return 206.9 - 0.67 * age_years


@published(age_years=AGE, standard_error=11)
def heart_rate_maximum_220(age_years: float) -> float:
    """Greatest heart rate as 220 less age, which no study stands behind.

    Parameters
    ----------
    age_years : age [years], 10 to 90

    Returns
    -------
    greatest heart rate [beats/min]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    220 - age. No original study; equations of this kind err by 7 to 11 beats.

    References
    ----------
    roberg_2002
    """
    return 220 - age_years


def reserve_fraction(heart_rate_bpm: float, resting_bpm: float, maximum_bpm: float) -> float:
    """The share of the reserve in use; refuse a heart rate outside resting to maximum."""
    RESTING.check("resting_bpm", resting_bpm, lambda: PROGRAM_LIMIT)
    MAXIMUM.check("maximum_bpm", maximum_bpm, lambda: PROGRAM_LIMIT)
    if resting_bpm >= maximum_bpm:
        raise OutsidePublishedRange(
            "resting_bpm", resting_bpm, None, maximum_bpm, "below the maximum", is_high_open=True
        )
    if not resting_bpm <= heart_rate_bpm <= maximum_bpm:
        ground = "from resting to maximum; measure the maximum again if it was passed"
        raise OutsidePublishedRange(
            "heart_rate_bpm", heart_rate_bpm, resting_bpm, maximum_bpm, ground
        )
    return (heart_rate_bpm - resting_bpm) / (maximum_bpm - resting_bpm)


@published(fraction=RESERVE_FRACTION, resting_bpm=RESTING, maximum_bpm=MAXIMUM)
def heart_rate_at_reserve_karvonen(
    fraction: float, resting_bpm: float, maximum_bpm: float
) -> float:
    """Heart rate at a share of the reserve by Karvonen.

    Parameters
    ----------
    fraction : share of the reserve [1], 0 to 1
    resting_bpm : resting heart rate [beats/min], 25 to 120
    maximum_bpm : greatest heart rate [beats/min], 100 to 240

    Returns
    -------
    heart rate [beats/min]

    Raises
    ------
    OutsidePublishedRange : a value outside its range, or a maximum at or below resting

    Notes
    -----
    rest + f (max - rest).

    References
    ----------
    karvonen_page
    """
    reserve_fraction(maximum_bpm, resting_bpm, maximum_bpm)
    return resting_bpm + fraction * (maximum_bpm - resting_bpm)


@published(end_bpm=HEART_RATE, after_one_minute_bpm=HEART_RATE)
def heart_rate_recovery(end_bpm: float, after_one_minute_bpm: float) -> float:
    """Fall of the heart rate in the first minute after exercise.

    Parameters
    ----------
    end_bpm : heart rate at the end of exercise [beats/min], 30 to 240
    after_one_minute_bpm : heart rate one minute later [beats/min], 30 to 240

    Returns
    -------
    fall, negative where it rose [beats/min]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    End less one minute later. A fall of 12 beats or fewer counts as poor in the clinic, after a
    graded test: that limit is not for hard rounds of combat sport, and a reading that worries
    anybody goes to medical staff.

    References
    ----------
    cole_1999_pages
    """
    return end_bpm - after_one_minute_bpm
