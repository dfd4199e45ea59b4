"""Body fat from density, or straight from folds for the young.

A result below 3 or above 50 % is refused as not to be believed. For the young the equations on
triceps and calf ask for the least that is private.
"""

from squadwright.errors import InvalidInput, OutsidePublishedRange
from squadwright.formulas.published import PROGRAM_LIMIT, Choice, Range, published

LEAST_PLAUSIBLE_PERCENT = 3
MOST_PLAUSIBLE_PERCENT = 50

DENSITY = Range(low=0.95, high=1.11, reason=PROGRAM_LIMIT)
AGE = Range(low=11, high=61, reason="the table begins at 11")
SEX = Choice(("female", "male"))
CALF_FOLDS = Range(low=5, high=80, reason=PROGRAM_LIMIT)
THIN_FOLDS = Range(low=5, high=35, reason="above 35 mm another line holds")
THICK_FOLDS = Range(low=35, is_low_open=True, high=80, reason="up to 35 mm another line holds")
CONSTANT = Range(low=1.7, high=6.8, reason="the constants in print")
CONSTANTS_IN_PRINT = (1.7, 3.2, 3.4, 5.2, 5.5, 6.8)

CONSTANTS_BY_AGE_LOHMAN = {
    "male": ((11, 13, 5.23, 4.81), (13, 15, 5.07, 4.64), (15, 17, 5.03, 4.59), (18, 61, 4.95, 4.5)),
    "female": (
        (11, 13, 5.25, 4.84),
        (13, 15, 5.12, 4.69),
        (15, 17, 5.07, 4.64),
        (17, 20, 5.05, 4.62),
    ),
}
"""From age, below age, and the two constants; from memory."""


def _plausible(percent: float, source: str) -> float:
    if not LEAST_PLAUSIBLE_PERCENT <= percent <= MOST_PLAUSIBLE_PERCENT:
        raise OutsidePublishedRange(
            "fat_percent",
            percent,
            LEAST_PLAUSIBLE_PERCENT,
            MOST_PLAUSIBLE_PERCENT,
            f"{source}: not to be believed, measure again",
        )
    return percent


@published(density_g_ml=DENSITY)
def fat_percent_siri(density_g_ml: float) -> float:
    """Body fat from density, Siri.

    Parameters
    ----------
    density_g_ml : body density [g/mL], 0.95 to 1.11

    Returns
    -------
    body fat [%]

    Raises
    ------
    OutsidePublishedRange : a value outside its range, or fat not to be believed

    Notes
    -----
    495 / D - 450. Made for grown people.

    References
    ----------
    siri_1961
    """
    return _plausible(495 / density_g_ml - 450, "Siri 1961")


@published(density_g_ml=DENSITY)
def fat_percent_brozek(density_g_ml: float) -> float:
    """Body fat from density, Brozek.

    Parameters
    ----------
    density_g_ml : body density [g/mL], 0.95 to 1.11

    Returns
    -------
    body fat [%]

    Raises
    ------
    OutsidePublishedRange : a value outside its range, or fat not to be believed

    Notes
    -----
    457 / D - 414.2. Made for grown people.

    References
    ----------
    brozek_recalled
    """
    return _plausible(457 / density_g_ml - 414.2, "Brozek 1963")


@published(density_g_ml=DENSITY, age_years=AGE, sex=SEX)
def fat_percent_lohman(density_g_ml: float, age_years: float, sex: str) -> float:
    """Body fat from density by age and sex, Lohman.

    Parameters
    ----------
    density_g_ml : body density [g/mL], 0.95 to 1.11
    age_years : age [years], 11 to 61
    sex : sex [1], one of female, male

    Returns
    -------
    body fat [%]

    Raises
    ------
    OutsidePublishedRange : a value outside its range, an age without a row, implausible fat

    Notes
    -----
    100 (C1 / D - C2). Boys 11 to 13 5.23 and 4.81, 13 to 15 5.07 and 4.64, 15 to 17 5.03 and 4.59,
    from 18 4.95 and 4.50; girls 11 to 13 5.25 and 4.84, 13 to 15 5.12 and 4.69, 15 to 17 5.07 and
    4.64, 17 to 20 5.05 and 4.62. An age between or beyond the rows is refused.

    References
    ----------
    lohman_ages_recalled
    """
    for low, high, first, second in CONSTANTS_BY_AGE_LOHMAN[sex]:
        if low <= age_years < high:
            return _plausible(100 * (first / density_g_ml - second), "Lohman")
    rows = ", ".join(f"{low} to {high}" for low, high, _, _ in CONSTANTS_BY_AGE_LOHMAN[sex])
    raise OutsidePublishedRange(
        "age_years", age_years, 11, 61, f"Lohman has rows for {sex} {rows} and none between"
    )


@published(sum_mm=CALF_FOLDS)
def fat_percent_slaughter_calf_boys(sum_mm: float) -> float:
    """Body fat of boys from triceps and calf, Slaughter.

    Parameters
    ----------
    sum_mm : triceps and calf [mm], 5 to 80

    Returns
    -------
    body fat [%]

    Raises
    ------
    OutsidePublishedRange : a value outside its range, or fat not to be believed

    Notes
    -----
    0.735 S + 1.0, age 8 to 18. Total error 3.6 to 4.6 % fat in the young.

    References
    ----------
    slaughter_pages slaughter_error_1993
    """
    return _plausible(0.735 * sum_mm + 1.0, "Slaughter")


@published(sum_mm=CALF_FOLDS)
def fat_percent_slaughter_calf_girls(sum_mm: float) -> float:
    """Body fat of girls from triceps and calf, Slaughter.

    Parameters
    ----------
    sum_mm : triceps and calf [mm], 5 to 80

    Returns
    -------
    body fat [%]

    Raises
    ------
    OutsidePublishedRange : a value outside its range, or fat not to be believed

    Notes
    -----
    0.610 S + 5.1, age 8 to 18. Total error 3.6 to 4.6 % fat in the young.

    References
    ----------
    slaughter_pages slaughter_error_1993
    """
    return _plausible(0.610 * sum_mm + 5.1, "Slaughter")


@published(sum_mm=THIN_FOLDS, constant=CONSTANT)
def fat_percent_slaughter_subscapular_boys(sum_mm: float, constant: float) -> float:
    """Body fat of boys from triceps and subscapular up to 35 mm, Slaughter.

    Parameters
    ----------
    sum_mm : triceps and subscapular [mm], 5 to 35
    constant : constant X in print [1], 1.7 to 6.8

    Returns
    -------
    body fat [%]

    Raises
    ------
    OutsidePublishedRange : a value outside its range, or fat not to be believed

    Notes
    -----
    1.21 S - 0.008 S^2 - X, age 8 to 18. X in print is 1.7, 3.4, 5.5 or 3.2, 5.2, 6.8 by private
    things that this program does not store; triceps and calf need none of them. Total error 3.6 to
    4.6 % fat in the young.

    References
    ----------
    slaughter_pages slaughter_error_1993
    """
    if constant not in CONSTANTS_IN_PRINT:
        raise InvalidInput(
            "constant",
            f"{constant:g} is not in print",
            f"Give one of {', '.join(str(x) for x in CONSTANTS_IN_PRINT)}, or use triceps and calf",
        )
    return _plausible(1.21 * sum_mm - 0.008 * sum_mm**2 - constant, "Slaughter")


@published(sum_mm=THIN_FOLDS)
def fat_percent_slaughter_subscapular_girls(sum_mm: float) -> float:
    """Body fat of girls from triceps and subscapular up to 35 mm, Slaughter.

    Parameters
    ----------
    sum_mm : triceps and subscapular [mm], 5 to 35

    Returns
    -------
    body fat [%]

    Raises
    ------
    OutsidePublishedRange : a value outside its range, or fat not to be believed

    Notes
    -----
    1.33 S - 0.013 S^2 - 2.5, age 8 to 18. One page prints 2.4. Total error 3.6 to 4.6 % fat in the
    young.

    References
    ----------
    slaughter_pages slaughter_error_1993
    """
    return _plausible(1.33 * sum_mm - 0.013 * sum_mm**2 - 2.5, "Slaughter")


@published(sum_mm=THICK_FOLDS)
def fat_percent_slaughter_thick_boys(sum_mm: float) -> float:
    """Body fat of boys from triceps and subscapular above 35 mm, Slaughter.

    Parameters
    ----------
    sum_mm : triceps and subscapular [mm], more than 35 and at most 80

    Returns
    -------
    body fat [%]

    Raises
    ------
    OutsidePublishedRange : a value outside its range, or fat not to be believed

    Notes
    -----
    0.783 S + 1.6, age 8 to 18. Total error 3.6 to 4.6 % fat in the young.

    References
    ----------
    slaughter_pages slaughter_error_1993
    """
    return _plausible(0.783 * sum_mm + 1.6, "Slaughter")


@published(sum_mm=THICK_FOLDS)
def fat_percent_slaughter_thick_girls(sum_mm: float) -> float:
    """Body fat of girls from triceps and subscapular above 35 mm, Slaughter.

    Parameters
    ----------
    sum_mm : triceps and subscapular [mm], more than 35 and at most 80

    Returns
    -------
    body fat [%]

    Raises
    ------
    OutsidePublishedRange : a value outside its range, or fat not to be believed

    Notes
    -----
    0.546 S + 9.7, age 8 to 18. Total error 3.6 to 4.6 % fat in the young.

    References
    ----------
    slaughter_pages slaughter_error_1993
    """
    return _plausible(0.546 * sum_mm + 9.7, "Slaughter")
