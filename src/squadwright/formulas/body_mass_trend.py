"""Trend of body mass: a smoothed line, and the slope of a window with its interval."""

from collections.abc import Sequence

from squadwright.errors import InvalidInput, OutsidePublishedRange
from squadwright.formulas.body import BODY_MASS
from squadwright.formulas.published import PROGRAM_LIMIT, Range, Series, published

LEAST_READINGS = 3
LEAST_SPAN_DAYS = 5
"""No slope below this many readings or days: a choice of this program."""

WEIGHT = Range(low=0, is_low_open=True, high=1, reason="the share of the newest reading")
DAY = Range(low=0, high=1000, reason=PROGRAM_LIMIT)
CONFIDENCE = Range(low=0.5, high=0.99, reason=PROGRAM_LIMIT)
MASSES = Series(BODY_MASS, at_least=1)
WINDOW_MASSES = Series(BODY_MASS, at_least=LEAST_READINGS)
WINDOW_DAYS = Series(DAY, at_least=LEAST_READINGS)


def smoothed(weight: float, masses: Sequence[float]) -> tuple[float, ...]:
    """Every value of the smoothed line; the first reading is its seed."""
    line = [masses[0]]
    for mass in masses[1:]:
        line.append(line[-1] + weight * (mass - line[-1]))
    return tuple(line)


@published(weight=WEIGHT, masses_kg=MASSES)
def smoothed_body_mass(weight: float, masses_kg: Sequence[float]) -> float:
    """Smoothed body mass at the last of a row of readings.

    Parameters
    ----------
    weight : share of the newest reading [1], more than 0 and at most 1
    masses_kg : readings in the order of their days [kg], 1 or more numbers, each 20 to 300

    Returns
    -------
    smoothed mass [kg]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    s_t = s_(t-1) + a (y_t - s_(t-1)), seeded with the first reading.

    References
    ----------
    mass_arithmetic
    """
    return smoothed(weight, masses_kg)[-1]


@published(days=WINDOW_DAYS, masses_kg=WINDOW_MASSES)
def body_mass_slope(days: Sequence[float], masses_kg: Sequence[float]) -> float:
    """Slope of body mass over a window, by least squares.

    Parameters
    ----------
    days : day of each reading, counted from any day [days], 3 or more numbers, each 0 to 1000
    masses_kg : readings [kg], 3 or more numbers, each 20 to 300

    Returns
    -------
    slope [kg a day]

    Raises
    ------
    OutsidePublishedRange : a value outside its range, or a span of less than 5 days

    Notes
    -----
    sum((x - mean x)(y - mean y)) / sum((x - mean x)^2). Fewer than 3 readings or 5 days give no
    slope, which is a choice of this program.

    References
    ----------
    mass_arithmetic
    """
    return _line(days, masses_kg)[1]


@published(day=DAY, days=WINDOW_DAYS, masses_kg=WINDOW_MASSES)
def fitted_body_mass(day: float, days: Sequence[float], masses_kg: Sequence[float]) -> float:
    """Body mass on a day by the trend line of a window.

    Parameters
    ----------
    day : day asked for, counted like the others [days], 0 to 1000
    days : day of each reading, counted from any day [days], 3 or more numbers, each 0 to 1000
    masses_kg : readings [kg], 3 or more numbers, each 20 to 300

    Returns
    -------
    mass [kg]

    Raises
    ------
    OutsidePublishedRange : a value outside its range, or a span of less than 5 days

    Notes
    -----
    a + b x. Beyond the window it says where the line goes, not where the athlete will be.

    References
    ----------
    mass_arithmetic
    """
    intercept, slope = _line(days, masses_kg)
    return intercept + slope * day


@published(confidence=CONFIDENCE, days=WINDOW_DAYS, masses_kg=WINDOW_MASSES)
def body_mass_slope_half_width(
    confidence: float, days: Sequence[float], masses_kg: Sequence[float]
) -> float:
    """Half the width of the interval of a slope of body mass.

    Parameters
    ----------
    confidence : share of such intervals that hold the slope [1], 0.5 to 0.99
    days : day of each reading, counted from any day [days], 3 or more numbers, each 0 to 1000
    masses_kg : readings [kg], 3 or more numbers, each 20 to 300

    Returns
    -------
    half width [kg a day]

    Raises
    ------
    OutsidePublishedRange : a value outside its range, or a span of less than 5 days

    Notes
    -----
    t(n - 2) sqrt(SSE / (n - 2) / sum((x - mean x)^2)). Readings of one athlete follow each other,
    so that the true interval is wider.

    References
    ----------
    mass_arithmetic
    """
    from scipy.special import stdtrit

    intercept, slope = _line(days, masses_kg)
    free = len(days) - 2
    middle = sum(days) / len(days)
    spread = sum((day - middle) ** 2 for day in days)
    left = sum(
        (mass - intercept - slope * day) ** 2 for day, mass in zip(days, masses_kg, strict=True)
    )
    error: float = (left / free / spread) ** 0.5
    return float(stdtrit(free, (1 + confidence) / 2)) * error


@published(day=DAY, confidence=CONFIDENCE, days=WINDOW_DAYS, masses_kg=WINDOW_MASSES)
def predicted_body_mass_half_width(
    day: float, confidence: float, *, days: Sequence[float], masses_kg: Sequence[float]
) -> float:
    """Half the width of the interval of one reading to come, by the trend line of a window.

    Parameters
    ----------
    day : day of the reading to come, counted like the others [days], 0 to 1000
    confidence : share of such intervals that hold the reading [1], 0.5 to 0.99
    days : day of each reading, counted from any day [days], 3 or more numbers, each 0 to 1000
    masses_kg : readings [kg], 3 or more numbers, each 20 to 300

    Returns
    -------
    half width [kg]

    Raises
    ------
    OutsidePublishedRange : a value outside its range, or a span of less than 5 days

    Notes
    -----
    t(n - 2) sqrt(SSE / (n - 2)) sqrt(1 + 1 / n + (x - mean x)^2 / sum((x - mean x)^2)), about the
    mass by the line. It supposes that the line stays straight, which no athlete promises.

    References
    ----------
    mass_arithmetic
    """
    spread = sum((each - sum(days) / len(days)) ** 2 for each in days)
    away = (day - sum(days) / len(days)) ** 2
    half = body_mass_slope_half_width(confidence, days, masses_kg)
    # The half width of the slope is t s / sqrt(spread).
    return float(half * (spread * (1 + 1 / len(days)) + away) ** 0.5)


def _line(days: Sequence[float], masses: Sequence[float]) -> tuple[float, float]:
    """Intercept and slope of the least-squares line."""
    if len(days) != len(masses):
        raise InvalidInput(
            "days",
            f"holds {len(days)} numbers and there are {len(masses)} masses",
            "Give one day for each mass",
        )
    span = max(days) - min(days)
    if span < LEAST_SPAN_DAYS:
        raise OutsidePublishedRange(
            "span of days", span, LEAST_SPAN_DAYS, None, "a choice of this program"
        )
    middle = sum(days) / len(days)
    mean = sum(masses) / len(masses)
    slope = sum(
        (day - middle) * (mass - mean) for day, mass in zip(days, masses, strict=True)
    ) / sum((day - middle) ** 2 for day in days)
    return mean - slope * middle, slope
