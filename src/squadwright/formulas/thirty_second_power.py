"""Power over thirty seconds of cranking, by legs or arms: mean, fall, and share of body mass.

A maximal test: nobody does it who is barred from hard work.
"""

from squadwright.errors import InvalidInput
from squadwright.formulas.body import BODY_MASS
from squadwright.formulas.published import PROGRAM_LIMIT, Range, published

WORK = Range(low=0, is_low_open=True, high=60_000, reason=PROGRAM_LIMIT)
POWER = Range(low=0, is_low_open=True, high=3_000, reason=PROGRAM_LIMIT)
TEST_S = 30


@published(work_j=WORK)
def mean_power_wingate(work_j: float) -> float:
    """Mean power of the thirty-second test

    Parameters
    ----------
    work_j : work done in 30 s [J], more than 0 and at most 60000

    Returns
    -------
    mean power [W]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    J / 30. Load for legs 7.5 % of body mass; 8.6 to 8.7 % serves adults better.

    References
    ----------
    jaafar_2014
    """
    return work_j / TEST_S


@published(greatest_w=POWER, least_w=POWER)
def fatigue_percent_wingate(greatest_w: float, least_w: float) -> float:
    """Fall of power in the thirty-second test

    Parameters
    ----------
    greatest_w : greatest power [W], more than 0 and at most 3000
    least_w : least power [W], more than 0 and at most 3000

    Returns
    -------
    fall in percent of the greatest [%]

    Raises
    ------
    OutsidePublishedRange : a value outside its range
    InvalidInput : a least power above the greatest

    Notes
    -----
    100 (max - min) / max.

    References
    ----------
    jaafar_2014
    """
    if least_w > greatest_w:
        raise InvalidInput(
            "least_w", f"{least_w:g} W is above the greatest {greatest_w:g} W", "Swap the two"
        )
    return 100 * (greatest_w - least_w) / greatest_w


@published(power_w=POWER, body_mass_kg=BODY_MASS)
def power_per_body_mass(power_w: float, body_mass_kg: float) -> float:
    """Power for each kilogram of body mass

    Parameters
    ----------
    power_w : power [W], more than 0 and at most 3000
    body_mass_kg : body mass [kg], 20 to 300

    Returns
    -------
    power for each kilogram [W/kg]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    P / m.

    References
    ----------
    jaafar_2014
    """
    return power_w / body_mass_kg
