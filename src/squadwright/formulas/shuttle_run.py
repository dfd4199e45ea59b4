"""Aerobic capacity from shuttle runs, and the score of a long shuttle.

The equations are of different protocols (stages of one or of two minutes, speed or half stages) and
are not interchangeable. A maximal test: nobody does it who is barred from hard work.
"""

from squadwright.formulas.published import PROGRAM_LIMIT, Range, published

SPEED = Range(low=8, high=18.5, reason=PROGRAM_LIMIT)
STAGE = Range(low=1, high=21, is_whole=True, reason=PROGRAM_LIMIT)
HALF_STAGE = Range(low=1, high=21, reason=PROGRAM_LIMIT)
AGE = Range(low=8, high=18, reason="children; from 18 on the age is 18")
SHUTTLE = Range(low=40, high=150, reason=PROGRAM_LIMIT)


@published(standard_error=4.4, speed_km_h=SPEED)
def aerobic_capacity_shuttle_adults(speed_km_h: float) -> float:
    """Aerobic capacity from the 20 m shuttle with one-minute stages, adults

    Parameters
    ----------
    speed_km_h : speed of the last stage [km/h], 8 to 18.5

    Returns
    -------
    greatest oxygen uptake [ml/kg/min]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    6.0 S - 27.4; 53 men and 24 women of 19 to 47, r 0.90 against a treadmill. A variant with
    -24.4 circulates; the equation for all ages gives -27.439 at age 18.

    References
    ----------
    leger_gadoury_1989
    """
    return 6.0 * speed_km_h - 27.4


@published(standard_error=5.9, speed_km_h=SPEED, age_years=AGE)
def aerobic_capacity_shuttle_all_ages(speed_km_h: float, age_years: float) -> float:
    """Aerobic capacity from the 20 m shuttle with one-minute stages, by age

    Parameters
    ----------
    speed_km_h : speed of the last stage [km/h], 8 to 18.5
    age_years : age, 18 for every adult [years], 8 to 18

    Returns
    -------
    greatest oxygen uptake [ml/kg/min]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    31.025 + 3.238 S - 3.248 A + 0.1536 S A. From memory, its error as well; agrees with the
    equation for adults.

    References
    ----------
    leger_1988_recalled
    """
    return 31.025 + 3.238 * speed_km_h - 3.248 * age_years + 0.1536 * speed_km_h * age_years


@published(standard_error=5.4, speed_km_h=SPEED)
def aerobic_capacity_shuttle_two_minutes(speed_km_h: float) -> float:
    """Aerobic capacity from the 20 m shuttle with two-minute stages

    Parameters
    ----------
    speed_km_h : speed of the last stage [km/h], 8 to 18.5

    Returns
    -------
    greatest oxygen uptake [ml/kg/min]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    5.857 S - 19.458, standard error 5.4. Not for stages of one minute.

    References
    ----------
    leger_lambert_1982
    """
    return 5.857 * speed_km_h - 19.458


@published(standard_error=4.07, last_half_stage=HALF_STAGE)
def aerobic_capacity_shuttle_stickland_men(last_half_stage: float) -> float:
    """Aerobic capacity from the last half stage of the 20 m shuttle, men

    Parameters
    ----------
    last_half_stage : last half stage finished [stages], 1 to 21

    Returns
    -------
    greatest oxygen uptake [ml/kg/min]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    2.75 X + 28.8. The study finds the equation of the speed too low.

    References
    ----------
    stickland_2003
    """
    return 2.75 * last_half_stage + 28.8


@published(standard_error=3.64, last_half_stage=HALF_STAGE)
def aerobic_capacity_shuttle_stickland_women(last_half_stage: float) -> float:
    """Aerobic capacity from the last half stage of the 20 m shuttle, women

    Parameters
    ----------
    last_half_stage : last half stage finished [stages], 1 to 21

    Returns
    -------
    greatest oxygen uptake [ml/kg/min]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    2.85 X + 25.1. The study finds the equation of the speed too low.

    References
    ----------
    stickland_2003
    """
    return 2.85 * last_half_stage + 25.1


@published(stage=STAGE)
def shuttle_stage_speed(stage: float) -> float:
    """Speed of a stage of the 20 m shuttle with one-minute stages

    Parameters
    ----------
    stage : number of the stage [stages], whole, 1 to 21

    Returns
    -------
    speed [km/h]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    8.0 + 0.5 n: 8.5 km/h first. From memory; recordings differ in their first stage.

    References
    ----------
    shuttle_stages_recalled
    """
    return 8.0 + 0.5 * stage


@published(first_s=SHUTTLE, second_s=SHUTTLE)
def long_shuttle_score(first_s: float, second_s: float) -> float:
    """Score of the 300-yard shuttle, twelve times 25 yards run twice

    Parameters
    ----------
    first_s : time of the first run [s], 40 to 150
    second_s : time of the second run, after 5 minutes [s], 40 to 150

    Returns
    -------
    score [s]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    Mean of both runs. Layouts of 10 x 30 or 5 x 60 yards are other tests.

    References
    ----------
    long_shuttle_page
    """
    return (first_s + second_s) / 2
