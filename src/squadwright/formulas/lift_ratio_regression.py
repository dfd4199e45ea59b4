"""A load for one lift from another: regressions and ratios between lifts.

The regressions give a six-repetition maximum from the six-repetition maximum of the back squat.
Some were printed in pounds; their intercepts are converted here, because the same numbers taken as
kilograms circulate and are wrong. An untested lift guessed from another deserves a spread of 10 to
20 % and the mark "guessed". The squat predicts nothing useful on these four hamstring lifts for
women.
"""

from squadwright.formulas.published import PROGRAM_LIMIT, Range, published
from squadwright.units import KILOGRAMS_PER_POUND

_KG_PER_LB = float(KILOGRAMS_PER_POUND)


def squat_above(zero_point_kg: float) -> Range:
    """Squats for which a line gives a load at all."""
    return Range(
        low=zero_point_kg,
        is_low_open=True,
        high=600,
        reason="at and below the low end the line gives no load"
        if zero_point_kg
        else PROGRAM_LIMIT,
    )


@published(standard_error=12.5, squat_six_rep_max_kg=squat_above(0))
def deadlift_six_rep_max_ebben(squat_six_rep_max_kg: float) -> float:
    """Six-repetition maximum of the deadlift from that of the squat.

    Parameters
    ----------
    squat_six_rep_max_kg : six-repetition maximum of the back squat [kg],
        more than 0 and at most 600

    Returns
    -------
    six-repetition maximum [kg]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    0.83 S + 14.92 kg. 21 people; standard error of estimate 12.5 kg, R^2 0.81.

    References
    ----------
    ebben_2008
    """
    return 0.83 * squat_six_rep_max_kg + 14.92


@published(standard_error=12.57, squat_six_rep_max_kg=squat_above(0))
def lunge_six_rep_max_ebben(squat_six_rep_max_kg: float) -> float:
    """Six-repetition maximum of the lunge from that of the squat.

    Parameters
    ----------
    squat_six_rep_max_kg : six-repetition maximum of the back squat [kg],
        more than 0 and at most 600

    Returns
    -------
    six-repetition maximum [kg]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    0.52 S + 14.82 kg. 21 people; standard error of estimate 12.57 kg, R^2 0.62.

    References
    ----------
    ebben_2008
    """
    return 0.52 * squat_six_rep_max_kg + 14.82


@published(standard_error=9.58, squat_six_rep_max_kg=squat_above(0))
def step_up_six_rep_max_ebben(squat_six_rep_max_kg: float) -> float:
    """Six-repetition maximum of the step-up from that of the squat.

    Parameters
    ----------
    squat_six_rep_max_kg : six-repetition maximum of the back squat [kg],
        more than 0 and at most 600

    Returns
    -------
    six-repetition maximum [kg]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    0.5 S + 3.32 kg. 21 people; standard error of estimate 9.58 kg, R^2 0.71.

    References
    ----------
    ebben_2008
    """
    return 0.5 * squat_six_rep_max_kg + 3.32


@published(squat_six_rep_max_kg=squat_above(94.31 / 1.17 * _KG_PER_LB))
def stiff_leg_deadlift_six_rep_max_ebben(squat_six_rep_max_kg: float) -> float:
    """Six-repetition maximum of the stiff-leg deadlift from that of the squat.

    Parameters
    ----------
    squat_six_rep_max_kg : six-repetition maximum of the back squat [kg],
        more than 36.56 and at most 600

    Returns
    -------
    six-repetition maximum [kg]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    1.17 S - 94.31 lb, worked in pounds. No standard error is printed. Of no use for women.

    References
    ----------
    ebben_sheet
    """
    return (1.17 * squat_six_rep_max_kg / _KG_PER_LB - 94.31) * _KG_PER_LB


@published(squat_six_rep_max_kg=squat_above(5.17 / 0.45 * _KG_PER_LB))
def one_leg_stiff_leg_deadlift_six_rep_max_ebben(squat_six_rep_max_kg: float) -> float:
    """Six-repetition maximum of the one-leg stiff-leg deadlift from that of the squat.

    Parameters
    ----------
    squat_six_rep_max_kg : six-repetition maximum of the back squat [kg],
        more than 5.211 and at most 600

    Returns
    -------
    six-repetition maximum [kg]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    0.45 S - 5.17 lb, worked in pounds. No standard error is printed. Of no use for women.

    References
    ----------
    ebben_sheet
    """
    return (0.45 * squat_six_rep_max_kg / _KG_PER_LB - 5.17) * _KG_PER_LB


@published(squat_six_rep_max_kg=squat_above(102.98 / 0.95 * _KG_PER_LB))
def good_morning_six_rep_max_ebben(squat_six_rep_max_kg: float) -> float:
    """Six-repetition maximum of the good morning from that of the squat.

    Parameters
    ----------
    squat_six_rep_max_kg : six-repetition maximum of the back squat [kg],
        more than 49.17 and at most 600

    Returns
    -------
    six-repetition maximum [kg]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    0.95 S - 102.98 lb, worked in pounds. No standard error is printed. Of no use for women.

    References
    ----------
    ebben_sheet
    """
    return (0.95 * squat_six_rep_max_kg / _KG_PER_LB - 102.98) * _KG_PER_LB


@published(squat_six_rep_max_kg=squat_above(86.331 / 1.133 * _KG_PER_LB))
def stiff_leg_deadlift_six_rep_max_ebben_men(squat_six_rep_max_kg: float) -> float:
    """Six-repetition maximum of the stiff-leg deadlift of men from that of the squat.

    Parameters
    ----------
    squat_six_rep_max_kg : six-repetition maximum of the back squat [kg],
        more than 34.56 and at most 600

    Returns
    -------
    six-repetition maximum [kg]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    1.133 S - 86.331 lb, worked in pounds. Men only; the squat predicts nothing useful on
    this lift for women. One page prints the intercept as kilograms: wrong.

    References
    ----------
    ebben_2010
    """
    return (1.133 * squat_six_rep_max_kg / _KG_PER_LB - 86.331) * _KG_PER_LB


@published(squat_six_rep_max_kg=squat_above(105.505 / 0.961 * _KG_PER_LB))
def good_morning_six_rep_max_ebben_men(squat_six_rep_max_kg: float) -> float:
    """Six-repetition maximum of the good morning of men from that of the squat.

    Parameters
    ----------
    squat_six_rep_max_kg : six-repetition maximum of the back squat [kg],
        more than 49.8 and at most 600

    Returns
    -------
    six-repetition maximum [kg]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    0.961 S - 105.505 lb, worked in pounds. Men only; the squat predicts nothing useful on
    this lift for women. One page prints the intercept as kilograms: wrong.

    References
    ----------
    ebben_2010
    """
    return (0.961 * squat_six_rep_max_kg / _KG_PER_LB - 105.505) * _KG_PER_LB
