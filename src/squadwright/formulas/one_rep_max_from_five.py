"""One-repetition maximum from a five-repetition maximum: regressions for one lift each."""

from squadwright.formulas.published import PROGRAM_LIMIT, Range, published

FIVE_REP_MAX = Range(low=0, is_low_open=True, high=1000, reason=PROGRAM_LIMIT)


@published(standard_error=2.98, five_rep_max_kg=FIVE_REP_MAX)
def one_rep_max_bench_press_reynolds(five_rep_max_kg: float) -> float:
    """One-repetition maximum of the bench press from the five-repetition maximum.

    Parameters
    ----------
    five_rep_max_kg : five-repetition maximum of the bench press [kg], more than 0 and at most 1000

    Returns
    -------
    one-repetition maximum [kg]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    1RM = 1.1307 5RM + 0.6999 kg. 70 people; standard error of estimate 2.98 kg, R^2 0.993. The
    authors advise ten repetitions or fewer in linear equations.

    References
    ----------
    reynolds_2006
    """
    return 1.1307 * five_rep_max_kg + 0.6999


@published(standard_error=16.16, five_rep_max_kg=FIVE_REP_MAX)
def one_rep_max_leg_press_reynolds(five_rep_max_kg: float) -> float:
    """One-repetition maximum of the leg press from the five-repetition maximum.

    Parameters
    ----------
    five_rep_max_kg : five-repetition maximum of the leg press [kg], more than 0 and at most 1000

    Returns
    -------
    one-repetition maximum [kg]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    1RM = 1.0970 5RM + 14.2546 kg. 70 people; standard error of estimate 16.16 kg, R^2 0.974.

    References
    ----------
    reynolds_2006
    """
    return 1.0970 * five_rep_max_kg + 14.2546
