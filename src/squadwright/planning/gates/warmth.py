"""How hot a session is, as one number: as measured, or estimated from air and humidity."""

from decimal import Decimal

from squadwright.formulas.wet_bulb_globe import wet_bulb_globe_estimated
from squadwright.model.session import HeatReading


def wet_bulb_globe_c(reading: HeatReading) -> Decimal:
    """Wet-bulb globe temperature [degC] to a tenth, upwards where it is estimated."""
    if reading.wet_bulb_globe_c is not None:
        return Decimal(str(reading.wet_bulb_globe_c))
    assert reading.air_c is not None
    assert reading.humidity_fraction is not None
    estimate = wet_bulb_globe_estimated(reading.air_c, reading.humidity_fraction)
    return Decimal(str(round(estimate + 0.05, 1)))
