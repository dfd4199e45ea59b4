"""Body density from skinfolds, each equation for the people it was made from.

Folds in millimetres, density in grams per millilitre. No two equations agree: compare an athlete
only with the same equation, and show its name with the result.
"""

from squadwright.formulas.published import PROGRAM_LIMIT, Range, published

THREE_FOLDS = Range(low=10, high=140, reason=PROGRAM_LIMIT)
SEVEN_FOLDS = Range(low=10, high=300, reason=PROGRAM_LIMIT)
FOLD = Range(low=2, high=60, reason=PROGRAM_LIMIT)
AGE_OF_MEN = Range(low=18, high=61, reason="made from men of 18 to 61")
AGE_OF_WOMEN = Range(low=18, high=55, reason="made from women of 18 to 55")
AGE_AT_SCHOOL = Range(low=8, high=13, reason="wrestlers of about 11; the ends are this program's")
BOYS_MASS = Range(low=20, high=80, reason=PROGRAM_LIMIT)


@published(sum_mm=THREE_FOLDS, age_years=AGE_OF_MEN)
def body_density_jackson_pollock_three_men(sum_mm: float, age_years: float) -> float:
    """Body density of a man from three folds, Jackson and Pollock.

    Parameters
    ----------
    sum_mm : sum of the three folds [mm], 10 to 140
    age_years : age [years], 18 to 61

    Returns
    -------
    density [g/mL]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    1.10938 - 0.0008267 S + 0.0000016 S^2 - 0.0002574 age; S of chest, abdomen and thigh.

    References
    ----------
    jackson_pollock_men
    """
    return 1.10938 - 0.0008267 * sum_mm + 0.0000016 * sum_mm**2 - 0.0002574 * age_years


@published(sum_mm=THREE_FOLDS, age_years=AGE_OF_WOMEN)
def body_density_jackson_pollock_three_women(sum_mm: float, age_years: float) -> float:
    """Body density of a woman from three folds, Jackson, Pollock and Ward.

    Parameters
    ----------
    sum_mm : sum of the three folds [mm], 10 to 140
    age_years : age [years], 18 to 55

    Returns
    -------
    density [g/mL]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    1.0994921 - 0.0009929 S + 0.0000023 S^2 - 0.0001392 age; S of triceps, suprailiac and thigh. A
    page that prints 1.0994291 has two digits changed round.

    References
    ----------
    jackson_pollock_ward_women
    """
    return 1.0994921 - 0.0009929 * sum_mm + 0.0000023 * sum_mm**2 - 0.0001392 * age_years


@published(sum_mm=SEVEN_FOLDS, age_years=AGE_OF_MEN)
def body_density_jackson_pollock_seven_men(sum_mm: float, age_years: float) -> float:
    """Body density of a man from seven folds, Jackson and Pollock.

    Parameters
    ----------
    sum_mm : sum of the seven folds [mm], 10 to 300
    age_years : age [years], 18 to 61

    Returns
    -------
    density [g/mL]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    1.112 - 0.00043499 S + 0.00000055 S^2 - 0.00028826 age.

    References
    ----------
    jackson_pollock_men
    """
    return 1.112 - 0.00043499 * sum_mm + 0.00000055 * sum_mm**2 - 0.00028826 * age_years


@published(sum_mm=SEVEN_FOLDS, age_years=AGE_OF_WOMEN)
def body_density_jackson_pollock_seven_women(sum_mm: float, age_years: float) -> float:
    """Body density of a woman from seven folds, Jackson, Pollock and Ward.

    Parameters
    ----------
    sum_mm : sum of the seven folds [mm], 10 to 300
    age_years : age [years], 18 to 55

    Returns
    -------
    density [g/mL]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    1.0970 - 0.00046971 S + 0.00000056 S^2 - 0.00012828 age.

    References
    ----------
    jackson_pollock_ward_women
    """
    return 1.0970 - 0.00046971 * sum_mm + 0.00000056 * sum_mm**2 - 0.00012828 * age_years


@published(sum_mm=THREE_FOLDS)
def body_density_lohman_wrestlers(sum_mm: float) -> float:
    """Body density of a high-school wrestler from three folds, Lohman.

    Parameters
    ----------
    sum_mm : sum of the three folds [mm], 10 to 140

    Returns
    -------
    density [g/mL]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    1.0982 - 0.000815 S + 0.00000084 S^2; S of triceps, subscapular and abdomen; high-school
    wrestlers, with the Brozek equation. Printed elsewhere with 0.0000084, which is impossible: fat
    would fall as folds grow from 48.5 mm on. The best equations for high-school wrestlers miss
    fat-free mass by 2.4 to 2.6 kg in all (n = 860).

    References
    ----------
    lohman_wrestlers_recalled wrestler_equations_1991
    """
    return 1.0982 - 0.000815 * sum_mm + 0.00000084 * sum_mm**2


@published(sum_mm=THREE_FOLDS)
def body_density_thorland_three_boys(sum_mm: float) -> float:
    """Body density of a young male athlete from three folds, Thorland.

    Parameters
    ----------
    sum_mm : sum of the three folds [mm], 10 to 140

    Returns
    -------
    density [g/mL]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    1.1136 - 0.00154 S + 0.00000516 S^2; S of triceps, subscapular and midaxillary; young male
    athletes. The best equations for high-school wrestlers miss fat-free mass by 2.4 to 2.6 kg in
    all (n = 860).

    References
    ----------
    thorland_recalled wrestler_equations_1991
    """
    return 1.1136 - 0.00154 * sum_mm + 0.00000516 * sum_mm**2


@published(sum_mm=SEVEN_FOLDS)
def body_density_thorland_seven_boys(sum_mm: float) -> float:
    """Body density of a young male athlete from seven folds, Thorland.

    Parameters
    ----------
    sum_mm : sum of the seven folds [mm], 10 to 300

    Returns
    -------
    density [g/mL]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    1.1091 - 0.00052 S + 0.00000032 S^2; young male athletes. The best equations for high-school
    wrestlers miss fat-free mass by 2.4 to 2.6 kg in all (n = 860).

    References
    ----------
    thorland_recalled wrestler_equations_1991
    """
    return 1.1091 - 0.00052 * sum_mm + 0.00000032 * sum_mm**2


@published(sum_mm=THREE_FOLDS)
def body_density_thorland_three_girls(sum_mm: float) -> float:
    """Body density of a young female athlete from three folds, Thorland.

    Parameters
    ----------
    sum_mm : sum of the three folds [mm], 10 to 140

    Returns
    -------
    density [g/mL]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    1.0987 - 0.00122 S + 0.00000263 S^2; S of triceps, subscapular and suprailiac; young female
    athletes.

    References
    ----------
    thorland_recalled
    """
    return 1.0987 - 0.00122 * sum_mm + 0.00000263 * sum_mm**2


@published(
    standard_error=0.0064,
    triceps_mm=FOLD,
    suprailiac_mm=FOLD,
    age_years=AGE_AT_SCHOOL,
    mass_kg=BOYS_MASS,
)
def body_density_housh(
    triceps_mm: float, suprailiac_mm: float, *, age_years: float, mass_kg: float
) -> float:
    """Body density of a wrestler of about 11 years, Housh.

    Parameters
    ----------
    triceps_mm : triceps fold [mm], 2 to 60
    suprailiac_mm : anterior suprailiac fold [mm], 2 to 60
    age_years : age [years], 8 to 13
    mass_kg : body mass [kg], 20 to 80

    Returns
    -------
    density [g/mL]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    1.056 - 0.00098 triceps + 0.00132 age - 0.0017 suprailiac + 0.00031 mass.

    References
    ----------
    housh_2000
    """
    return (
        1.056
        - 0.00098 * triceps_mm
        + 0.00132 * age_years
        - 0.0017 * suprailiac_mm
        + 0.00031 * mass_kg
    )
