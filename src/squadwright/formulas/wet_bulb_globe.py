"""Wet-bulb globe temperature: the heat a body meets, from three thermometers."""

from math import exp

from squadwright.errors import OutsidePublishedRange
from squadwright.formulas.published import PROGRAM_LIMIT, Range, published

CELSIUS = Range(low=-20, high=80, reason=PROGRAM_LIMIT)


@published(wet_bulb_c=CELSIUS, globe_c=CELSIUS, air_c=CELSIUS)
def wet_bulb_globe_outdoors(wet_bulb_c: float, globe_c: float, air_c: float) -> float:
    """Wet-bulb globe temperature in the sun.

    Parameters
    ----------
    wet_bulb_c : natural wet bulb [degC], -20 to 80
    globe_c : black globe [degC], -20 to 80
    air_c : air in the shade [degC], -20 to 80

    Returns
    -------
    temperature [degC]

    Raises
    ------
    OutsidePublishedRange : a value outside its range, or a wet bulb above the air

    Notes
    -----
    0.7 Tnwb + 0.2 Tg + 0.1 Ta. A wet bulb above the air is a wrong reading.

    References
    ----------
    wet_bulb_globe_page
    """
    _wet_is_cooler(wet_bulb_c, air_c)
    return 0.7 * wet_bulb_c + 0.2 * globe_c + 0.1 * air_c


@published(wet_bulb_c=CELSIUS, globe_c=CELSIUS)
def wet_bulb_globe_indoors(wet_bulb_c: float, globe_c: float) -> float:
    """Wet-bulb globe temperature without sun.

    Parameters
    ----------
    wet_bulb_c : natural wet bulb [degC], -20 to 80
    globe_c : black globe [degC], -20 to 80

    Returns
    -------
    temperature [degC]

    Raises
    ------
    OutsidePublishedRange : a value outside its range, or a wet bulb above the globe

    Notes
    -----
    0.7 Tnwb + 0.3 Tg. A wet bulb above the globe is a wrong reading.

    References
    ----------
    wet_bulb_globe_recalled
    """
    _wet_is_cooler(wet_bulb_c, globe_c)
    return 0.7 * wet_bulb_c + 0.3 * globe_c


@published(air_c=CELSIUS, humidity_fraction=Range(low=0, high=1, reason=PROGRAM_LIMIT))
def wet_bulb_globe_estimated(air_c: float, humidity_fraction: float) -> float:
    """Wet-bulb globe temperature from the air and its humidity, where there is no globe.

    Parameters
    ----------
    air_c : air in the shade [degC], -20 to 80
    humidity_fraction : relative humidity [fraction], 0 to 1

    Returns
    -------
    temperature [degC]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    0.567 Ta + 0.393 e + 3.94 with e = RH 6.105 exp(17.27 Ta / (237.7 + Ta)) [hPa]. It takes a
    moderately sunny, calm day for granted: too high under a roof, too low in full sun.

    References
    ----------
    wet_bulb_globe_estimated_recalled
    """
    vapour_hpa = humidity_fraction * 6.105 * exp(17.27 * air_c / (237.7 + air_c))
    return 0.567 * air_c + 0.393 * vapour_hpa + 3.94


def _wet_is_cooler(wet_bulb_c: float, dry_c: float) -> None:
    if wet_bulb_c > dry_c:
        raise OutsidePublishedRange(
            "wet_bulb_c", wet_bulb_c, None, dry_c, "a wet bulb is never above the dry one"
        )
