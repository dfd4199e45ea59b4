"""Speed, energy and force of a landing.

Drop height alone does not say how hard a landing is, and the height of a box is not the height of
the drop: athletes step down or jump up as they leave it.
"""

import math

from squadwright.formulas.body import BODY_MASS
from squadwright.formulas.gravity import GRAVITY, TEXTBOOK_GRAVITY_M_S2
from squadwright.formulas.published import Choice, Range, published

DROP_HEIGHT = Range(
    low=0, high=1.07, reason="42 in is the highest box that handbook and column allow"
)

PEAK_FORCE_WALLACE = {
    "drop_landing_90_cm": 5.39,
    "depth_jump_90_cm": 4.93,
    "drop_landing_60_cm": 4.30,
    "standing_long_jump": 4.22,
    "vertical_jump": 3.34,
    "depth_jump_30_cm": 2.78,
}
"""Peak vertical landing force in body weights, 14 men of track and field."""


@published(drop_height_m=DROP_HEIGHT, gravity_m_s2=GRAVITY)
def touchdown_speed(drop_height_m: float, gravity_m_s2: float = TEXTBOOK_GRAVITY_M_S2) -> float:
    """Speed of the feet at touch-down from a drop.

    Parameters
    ----------
    drop_height_m : height the feet fall from [m], 0 to 1.07
    gravity_m_s2 : acceleration of gravity [m/s^2], 9.76 to 9.84

    Returns
    -------
    touch-down speed [m/s]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    v = sqrt(2 g h). With 9.80665 in place of 9.81 the speed is 0.02 % lower.

    References
    ----------
    mechanics nsca_depth_jump_column
    """
    return math.sqrt(2 * gravity_m_s2 * drop_height_m)


@published(drop_height_m=DROP_HEIGHT, gravity_m_s2=GRAVITY)
def drop_energy_per_kilogram(
    drop_height_m: float, gravity_m_s2: float = TEXTBOOK_GRAVITY_M_S2
) -> float:
    """Energy of a drop for each kilogram of body mass.

    Parameters
    ----------
    drop_height_m : height the feet fall from [m], 0 to 1.07
    gravity_m_s2 : acceleration of gravity [m/s^2], 9.76 to 9.84

    Returns
    -------
    energy [J/kg]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    e = g h.

    References
    ----------
    mechanics nsca_depth_jump_column
    """
    return gravity_m_s2 * drop_height_m


@published(mass_kg=BODY_MASS, drop_height_m=DROP_HEIGHT, gravity_m_s2=GRAVITY)
def drop_energy(
    mass_kg: float, drop_height_m: float, gravity_m_s2: float = TEXTBOOK_GRAVITY_M_S2
) -> float:
    """Energy of a drop.

    Parameters
    ----------
    mass_kg : body mass [kg], 20 to 300
    drop_height_m : height the feet fall from [m], 0 to 1.07
    gravity_m_s2 : acceleration of gravity [m/s^2], 9.76 to 9.84

    Returns
    -------
    energy [J]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    E = m g h.

    References
    ----------
    mechanics nsca_depth_jump_column
    """
    return mass_kg * gravity_m_s2 * drop_height_m


@published(mass_kg=BODY_MASS, drill=Choice(tuple(PEAK_FORCE_WALLACE)), gravity_m_s2=GRAVITY)
def peak_landing_force_wallace(
    mass_kg: float, drill: str, gravity_m_s2: float = TEXTBOOK_GRAVITY_M_S2
) -> float:
    """Peak landing force of a drill.

    Parameters
    ----------
    mass_kg : body mass [kg], 20 to 300
    drill : drill measured [1], one of drop_landing_90_cm, depth_jump_90_cm,
        drop_landing_60_cm, standing_long_jump, vertical_jump, depth_jump_30_cm
    gravity_m_s2 : acceleration of gravity [m/s^2], 9.76 to 9.84

    Returns
    -------
    peak vertical force [N]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    Body weight times the mean multiple of 14 men of track and field: another population,
    drill or landing may differ much.

    References
    ----------
    wallace_2010
    """
    return PEAK_FORCE_WALLACE[drill] * mass_kg * gravity_m_s2


@published(drill=Choice(tuple(PEAK_FORCE_WALLACE)))
def landing_force_index_wallace(drill: str) -> float:
    """Peak landing force of a drill against a vertical jump.

    Parameters
    ----------
    drill : drill measured [1], one of drop_landing_90_cm, depth_jump_90_cm,
        drop_landing_60_cm, standing_long_jump, vertical_jump, depth_jump_30_cm

    Returns
    -------
    force over that of the vertical jump [1]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    Ratio of mean multiples of body weight.

    References
    ----------
    wallace_2010
    """
    return PEAK_FORCE_WALLACE[drill] / PEAK_FORCE_WALLACE["vertical_jump"]
