"""Power of a jump from its height: regressions on height and body mass.

Height, mass and stature go in as metres and kilograms; the papers' centimetres are made inside.
Peak and mean power are different quantities, and no two equations agree: compare an athlete only
with the same equation.
"""

import math

from squadwright.errors import OutsidePublishedRange
from squadwright.formulas.body import BODY_MASS, JUMP_HEIGHT, STATURE
from squadwright.formulas.gravity import GRAVITY, TEXTBOOK_GRAVITY_M_S2
from squadwright.formulas.published import published


def _positive(power_w: float, source: str) -> float:
    """Refuse heights and masses so small that the line gives no power."""
    if power_w <= 0:
        raise OutsidePublishedRange(
            "power_w", power_w, 0, None, f"{source}: too low a jump for this mass", is_low_open=True
        )
    return power_w


@published(height_m=JUMP_HEIGHT, mass_kg=BODY_MASS)
def jump_peak_power_sayers_squat_jump(height_m: float, mass_kg: float) -> float:
    """Peak power of a squat jump, Sayers.

    Parameters
    ----------
    height_m : height jumped [m], more than 0 and at most 1.5
    mass_kg : body mass [kg], 20 to 300

    Returns
    -------
    power [W]

    Raises
    ------
    OutsidePublishedRange : a value outside its range, or no power left

    Notes
    -----
    P = 60.7 h_cm + 45.3 m - 2055 W. Coefficients seen in a worked example, the paper was
    not.

    References
    ----------
    sayers_1999
    """
    power_w = 60.7 * (height_m * 100) + 45.3 * mass_kg - 2055
    return _positive(power_w, "Sayers and others 1999")


@published(height_m=JUMP_HEIGHT, mass_kg=BODY_MASS)
def jump_peak_power_sayers_countermovement_jump(height_m: float, mass_kg: float) -> float:
    """Peak power of a countermovement jump, Sayers.

    Parameters
    ----------
    height_m : height jumped [m], more than 0 and at most 1.5
    mass_kg : body mass [kg], 20 to 300

    Returns
    -------
    power [W]

    Raises
    ------
    OutsidePublishedRange : a value outside its range, or no power left

    Notes
    -----
    P = 51.9 h_cm + 48.9 m - 2007 W. From memory; the mean of a published sample comes out
    the same as by the squat-jump line.

    References
    ----------
    sayers_1999_countermovement
    """
    power_w = 51.9 * (height_m * 100) + 48.9 * mass_kg - 2007
    return _positive(power_w, "Sayers and others 1999")


@published(height_m=JUMP_HEIGHT, mass_kg=BODY_MASS)
def jump_peak_power_harman(height_m: float, mass_kg: float) -> float:
    """Peak power of a jump, Harman.

    Parameters
    ----------
    height_m : height jumped [m], more than 0 and at most 1.5
    mass_kg : body mass [kg], 20 to 300

    Returns
    -------
    power [W]

    Raises
    ------
    OutsidePublishedRange : a value outside its range, or no power left

    Notes
    -----
    P = 61.9 h_cm + 36.0 m - 1822 W. Pages that print + 1822 are wrong: the published mean
    power of a sample of women would need a jump of -26 cm.

    References
    ----------
    harman_1991 canavan_2004
    """
    power_w = 61.9 * (height_m * 100) + 36.0 * mass_kg - 1822
    return _positive(power_w, "Harman and others 1991")


@published(height_m=JUMP_HEIGHT, mass_kg=BODY_MASS)
def jump_mean_power_harman(height_m: float, mass_kg: float) -> float:
    """Mean power of a jump, Harman.

    Parameters
    ----------
    height_m : height jumped [m], more than 0 and at most 1.5
    mass_kg : body mass [kg], 20 to 300

    Returns
    -------
    power [W]

    Raises
    ------
    OutsidePublishedRange : a value outside its range, or no power left

    Notes
    -----
    P = 21.2 h_cm + 23.0 m - 1393 W. Mean over the push-off, not peak.

    References
    ----------
    harman_1991
    """
    power_w = 21.2 * (height_m * 100) + 23.0 * mass_kg - 1393
    return _positive(power_w, "Harman and others 1991")


@published(height_m=JUMP_HEIGHT, mass_kg=BODY_MASS, stature_m=STATURE)
def jump_peak_power_johnson_bahamonde(height_m: float, mass_kg: float, stature_m: float) -> float:
    """Peak power of a jump, Johnson and Bahamonde.

    Parameters
    ----------
    height_m : height jumped [m], more than 0 and at most 1.5
    mass_kg : body mass [kg], 20 to 300
    stature_m : standing height [m], 1 to 2.5

    Returns
    -------
    power [W]

    Raises
    ------
    OutsidePublishedRange : a value outside its range, or no power left

    Notes
    -----
    P = 78.6 h_cm + 60.3 m - 15.3 s_cm - 1308 W. From memory. The third input is stature:
    pages that take age, or + 1308, are wrong.

    References
    ----------
    johnson_1996
    """
    power_w = 78.6 * (height_m * 100) + 60.3 * mass_kg - 15.3 * (stature_m * 100) - 1308
    return _positive(power_w, "Johnson and Bahamonde 1996")


@published(height_m=JUMP_HEIGHT, mass_kg=BODY_MASS, stature_m=STATURE)
def jump_mean_power_johnson_bahamonde(height_m: float, mass_kg: float, stature_m: float) -> float:
    """Mean power of a jump, Johnson and Bahamonde.

    Parameters
    ----------
    height_m : height jumped [m], more than 0 and at most 1.5
    mass_kg : body mass [kg], 20 to 300
    stature_m : standing height [m], 1 to 2.5

    Returns
    -------
    power [W]

    Raises
    ------
    OutsidePublishedRange : a value outside its range, or no power left

    Notes
    -----
    P = 43.8 h_cm + 32.7 m - 16.8 s_cm + 431 W. From memory. The third input is stature, not
    age.

    References
    ----------
    johnson_1996
    """
    power_w = 43.8 * (height_m * 100) + 32.7 * mass_kg - 16.8 * (stature_m * 100) + 431
    return _positive(power_w, "Johnson and Bahamonde 1996")


@published(height_m=JUMP_HEIGHT, mass_kg=BODY_MASS, gravity_m_s2=GRAVITY)
def jump_mean_power_lewis(
    height_m: float, mass_kg: float, gravity_m_s2: float = TEXTBOOK_GRAVITY_M_S2
) -> float:
    """Mean power of a jump, Lewis.

    Parameters
    ----------
    height_m : height jumped [m], more than 0 and at most 1.5
    mass_kg : body mass [kg], 20 to 300
    gravity_m_s2 : acceleration of gravity [m/s^2], 9.76 to 9.84

    Returns
    -------
    power [W]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    P = sqrt(4.9) m sqrt(h) g. Pages that put the mass inside the root are wrong. A mean
    power of the fall, far below the others.

    References
    ----------
    lewis_formula
    """
    return math.sqrt(4.9) * mass_kg * math.sqrt(height_m) * gravity_m_s2


@published(standard_error=120.8, height_m=JUMP_HEIGHT, mass_kg=BODY_MASS)
def jump_peak_power_canavan_vescovi(height_m: float, mass_kg: float) -> float:
    """Peak power of a countermovement jump of women, Canavan and Vescovi.

    Parameters
    ----------
    height_m : height jumped [m], more than 0 and at most 1.5
    mass_kg : body mass [kg], 20 to 300

    Returns
    -------
    power [W]

    Raises
    ------
    OutsidePublishedRange : a value outside its range, or no power left

    Notes
    -----
    P = 65.1 h_cm + 25.8 m - 1413.1 W. Women; R^2 0.92, standard error of estimate 120.8 W.

    References
    ----------
    canavan_2004
    """
    power_w = 65.1 * (height_m * 100) + 25.8 * mass_kg - 1413.1
    return _positive(power_w, "Canavan and Vescovi 2004")
