"""Energy at rest, and the energy left for the body after training.

Estimates for groups: one athlete may lie a tenth off. Food as reported is often less than eaten.
"""

from squadwright.errors import OutsidePublishedRange
from squadwright.formulas.body import BODY_MASS, STATURE
from squadwright.formulas.published import PROGRAM_LIMIT, Choice, Range, published

AGE = Range(low=10, high=80, reason=PROGRAM_LIMIT)
SEX = Choice(("female", "male"))
FAT_FREE = Range(low=0, is_low_open=True, high=150, reason=PROGRAM_LIMIT)
ENERGY = Range(low=0, high=15000, reason=PROGRAM_LIMIT)


@published(mass_kg=BODY_MASS, stature_m=STATURE, age_years=AGE, sex=SEX)
def resting_energy_mifflin(
    mass_kg: float, stature_m: float, age_years: float, *, sex: str
) -> float:
    """Energy at rest, Mifflin and St Jeor.

    Parameters
    ----------
    mass_kg : body mass [kg], 20 to 300
    stature_m : stature [m], 1 to 2.5
    age_years : age [years], 10 to 80
    sex : sex [1], one of female, male

    Returns
    -------
    energy at rest [kcal/day]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    10 W + 6.25 H - 5 A, and + 5 for men, - 161 for women; H in cm.

    References
    ----------
    mifflin_1990
    """
    constant = 5 if sex == "male" else -161
    return 10 * mass_kg + 6.25 * (100 * stature_m) - 5 * age_years + constant


@published(mass_kg=BODY_MASS, stature_m=STATURE, age_years=AGE, sex=SEX)
def resting_energy_mifflin_unrounded(
    mass_kg: float, stature_m: float, age_years: float, *, sex: str
) -> float:
    """Energy at rest, Mifflin and St Jeor with their own digits.

    Parameters
    ----------
    mass_kg : body mass [kg], 20 to 300
    stature_m : stature [m], 1 to 2.5
    age_years : age [years], 10 to 80
    sex : sex [1], one of female, male

    Returns
    -------
    energy at rest [kcal/day]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    9.99 W + 6.25 H - 4.92 A, and + 5 for men, - 161 for women; H in cm.

    References
    ----------
    mifflin_1990
    """
    constant = 5 if sex == "male" else -161
    return 9.99 * mass_kg + 6.25 * (100 * stature_m) - 4.92 * age_years + constant


@published(mass_kg=BODY_MASS, stature_m=STATURE, age_years=AGE, sex=SEX)
def resting_energy_harris_benedict(
    mass_kg: float, stature_m: float, age_years: float, *, sex: str
) -> float:
    """Energy at rest, Harris and Benedict with all digits.

    Parameters
    ----------
    mass_kg : body mass [kg], 20 to 300
    stature_m : stature [m], 1 to 2.5
    age_years : age [years], 10 to 80
    sex : sex [1], one of female, male

    Returns
    -------
    energy at rest [kcal/day]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    Men 66.473 + 13.7516 W + 5.0033 H - 6.755 A; women 655.0955 + 9.5634 W + 1.8496 H - 4.6756 A; H
    in cm.

    References
    ----------
    harris_benedict_recalled
    """
    if sex == "male":
        return 66.473 + 13.7516 * mass_kg + 5.0033 * (100 * stature_m) - 6.755 * age_years
    return 655.0955 + 9.5634 * mass_kg + 1.8496 * (100 * stature_m) - 4.6756 * age_years


@published(mass_kg=BODY_MASS, stature_m=STATURE, age_years=AGE, sex=SEX)
def resting_energy_harris_benedict_rounded(
    mass_kg: float, stature_m: float, age_years: float, *, sex: str
) -> float:
    """Energy at rest, Harris and Benedict rounded.

    Parameters
    ----------
    mass_kg : body mass [kg], 20 to 300
    stature_m : stature [m], 1 to 2.5
    age_years : age [years], 10 to 80
    sex : sex [1], one of female, male

    Returns
    -------
    energy at rest [kcal/day]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    Men 66 + 13.7 W + 5 H - 6.8 A; women 655 + 9.6 W + 1.8 H - 4.7 A; H in cm.

    References
    ----------
    harris_benedict_page
    """
    if sex == "male":
        return 66 + 13.7 * mass_kg + 5 * (100 * stature_m) - 6.8 * age_years
    return 655 + 9.6 * mass_kg + 1.8 * (100 * stature_m) - 4.7 * age_years


@published(mass_kg=BODY_MASS, stature_m=STATURE, age_years=AGE, sex=SEX)
def resting_energy_roza_shizgal(
    mass_kg: float, stature_m: float, age_years: float, *, sex: str
) -> float:
    """Energy at rest, Roza and Shizgal.

    Parameters
    ----------
    mass_kg : body mass [kg], 20 to 300
    stature_m : stature [m], 1 to 2.5
    age_years : age [years], 10 to 80
    sex : sex [1], one of female, male

    Returns
    -------
    energy at rest [kcal/day]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    Men 88.362 + 13.397 W + 4.799 H - 5.677 A; women 447.593 + 9.247 W + 3.098 H - 4.330 A; H in cm.

    References
    ----------
    roza_shizgal_recalled
    """
    if sex == "male":
        return 88.362 + 13.397 * mass_kg + 4.799 * (100 * stature_m) - 5.677 * age_years
    return 447.593 + 9.247 * mass_kg + 3.098 * (100 * stature_m) - 4.330 * age_years


@published(fat_free_kg=FAT_FREE)
def resting_energy_cunningham_1980(fat_free_kg: float) -> float:
    """Energy at rest from fat-free mass, Cunningham 1980.

    Parameters
    ----------
    fat_free_kg : fat-free mass [kg], more than 0 and at most 150

    Returns
    -------
    energy at rest [kcal/day]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    500 + 22 FFM.

    References
    ----------
    cunningham_1980_recalled
    """
    return 500 + 22 * fat_free_kg


@published(fat_free_kg=FAT_FREE)
def resting_energy_cunningham_1991(fat_free_kg: float) -> float:
    """Energy at rest from fat-free mass, Cunningham 1991.

    Parameters
    ----------
    fat_free_kg : fat-free mass [kg], more than 0 and at most 150

    Returns
    -------
    energy at rest [kcal/day]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    370 + 21.6 FFM, seen under another name.

    References
    ----------
    cunningham_1991_page
    """
    return 370 + 21.6 * fat_free_kg


@published(intake_kcal=ENERGY, exercise_kcal=ENERGY, fat_free_kg=FAT_FREE)
def energy_availability(intake_kcal: float, exercise_kcal: float, fat_free_kg: float) -> float:
    """Energy left for the body after training.

    Parameters
    ----------
    intake_kcal : energy eaten [kcal/day], 0 to 15000
    exercise_kcal : energy spent in training [kcal/day], 0 to 15000
    fat_free_kg : fat-free mass [kg], more than 0 and at most 150

    Returns
    -------
    energy availability [kcal/kg/day]

    Raises
    ------
    OutsidePublishedRange : a value outside its range, or more spent than eaten

    Notes
    -----
    (EI - EEE) / FFM. 45 and more is adequate, 30 to less than 45 reduced, less than 30 low; the
    borders are disputed, more so for men. Reported intake is not to be relied on. It diagnoses
    nothing.

    References
    ----------
    energy_availability_2023 burke_2018
    """
    if exercise_kcal > intake_kcal:
        raise OutsidePublishedRange(
            "exercise_kcal",
            exercise_kcal,
            0,
            intake_kcal,
            "more is spent in training than was eaten",
        )
    return (intake_kcal - exercise_kcal) / fat_free_kg
