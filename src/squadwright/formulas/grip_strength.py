"""Grip strength beside body mass.

Grip for each kilogram favours the light: force grows more slowly than mass.
"""

import math

from squadwright.formulas.body import BODY_MASS
from squadwright.formulas.published import PROGRAM_LIMIT, Range, published

GRIP = Range(low=0, is_low_open=True, high=150, reason=PROGRAM_LIMIT)
EXPONENT = Range(low=0.3, high=1.0, reason="exponents reported from 0.563 to 1")
ATHLETES = 0.68


@published(grip_kgf=GRIP, body_mass_kg=BODY_MASS, exponent=EXPONENT)
def grip_scaled(grip_kgf: float, body_mass_kg: float, exponent: float = ATHLETES) -> float:
    """Grip strength scaled by body mass

    Parameters
    ----------
    grip_kgf : force of one hand [kgf], more than 0 and at most 150
    body_mass_kg : body mass [kg], 20 to 300
    exponent : exponent of body mass [1], 0.3 to 1

    Returns
    -------
    scaled grip [kgf/kg^b]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    F / m^b: b 0.68 in athletes, 0.563 in others, 0.64 commonly, 1 for the plain ratio.

    References
    ----------
    kons_2020
    """
    return grip_kgf / math.pow(body_mass_kg, exponent)
