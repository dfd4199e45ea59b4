"""Rate of loss of body mass in percent a week, each time with the mass it is a percent of."""

import math

from squadwright.errors import OutsidePublishedRange
from squadwright.formulas.minimum_weight import MASS
from squadwright.formulas.published import PROGRAM_LIMIT, Range, published

DAYS = Range(low=0, is_low_open=True, high=366, reason=PROGRAM_LIMIT)
PERCENT_A_WEEK = Range(
    low=0, is_low_open=True, high=1.5, reason="no body allows more than 1.5 % a week"
)
SLOPE = Range(low=-5, high=5, reason=PROGRAM_LIMIT)
LOSS_PERCENT = Range(low=0, high=6.7, reason="6.7 % in the last 72 hours is the most it covers")
REGAIN_PERCENT = Range(low=0, high=50, reason=PROGRAM_LIMIT)


@published(now=MASS, limit=MASS)
def loss_needed_percent(now: float, limit: float) -> float:
    """Whole loss until a limit, in percent of the mass of today.

    Parameters
    ----------
    now : body mass today [lb or kg], more than 0 and at most 700
    limit : mass to reach [lb or kg], more than 0 and at most 700

    Returns
    -------
    loss, below 0 where he is under the limit [%]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    100 (W - L) / W.

    References
    ----------
    mass_arithmetic
    """
    return 100 * (now - limit) / now


@published(first=MASS, last=MASS, days=DAYS)
def weekly_loss_of_first(first: float, last: float, days: float) -> float:
    """Loss a week, in percent of the first mass.

    Parameters
    ----------
    first : body mass at the start [lb or kg], more than 0 and at most 700
    last : body mass at the end [lb or kg], more than 0 and at most 700
    days : days between them [days], more than 0 and at most 366

    Returns
    -------
    loss a week, below 0 for a gain [% a week]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    100 (W1 - W2) / W1 / (days / 7). The base is the first mass, in a straight line.

    References
    ----------
    mass_arithmetic
    """
    return 100 * (first - last) / first / (days / 7)


@published(slope_a_day=SLOPE, base=MASS)
def weekly_loss_of_slope(slope_a_day: float, base: float) -> float:
    """Loss a week of a trend line, in percent of a stated base.

    Parameters
    ----------
    slope_a_day : slope of the trend line [lb or kg a day], -5 to 5
    base : the first mass or the mean of the window, whichever is stated [lb or kg], more than 0 \
and at most 700

    Returns
    -------
    loss a week, below 0 for a gain [% a week]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    -700 b / base. The first mass and the mean give different figures: say which.

    References
    ----------
    mass_arithmetic
    """
    return -700 * slope_a_day / base


@published(now=MASS, limit=MASS, percent_a_week=PERCENT_A_WEEK)
def shortest_days_straight(now: float, limit: float, percent_a_week: float) -> float:
    """Fewest days to a limit at a rate of the mass of today.

    Parameters
    ----------
    now : body mass today [lb or kg], more than 0 and at most 700
    limit : mass to reach [lb or kg], more than 0 and at most 700
    percent_a_week : loss a week [%], more than 0 and at most 1.5

    Returns
    -------
    days, to be rounded up [days]

    Raises
    ------
    OutsidePublishedRange : a value outside its range, or nothing to lose

    Notes
    -----
    7 * 100 (W - L) / W / r, in a straight line.

    References
    ----------
    mass_arithmetic
    """
    _something_to_lose(now, limit)
    return 7 * loss_needed_percent(now, limit) / percent_a_week


@published(now=MASS, limit=MASS, percent_a_week=PERCENT_A_WEEK)
def shortest_days_week_on_week(now: float, limit: float, percent_a_week: float) -> float:
    """Fewest days to a limit at a rate of the mass of each week.

    Parameters
    ----------
    now : body mass today [lb or kg], more than 0 and at most 700
    limit : mass to reach [lb or kg], more than 0 and at most 700
    percent_a_week : loss a week [%], more than 0 and at most 1.5

    Returns
    -------
    days, to be rounded up [days]

    Raises
    ------
    OutsidePublishedRange : a value outside its range, or nothing to lose

    Notes
    -----
    7 ln(L / W) / ln(1 - r / 100).

    References
    ----------
    mass_arithmetic
    """
    _something_to_lose(now, limit)
    return 7 * math.log(limit / now) / math.log(1 - percent_a_week / 100)


@published(limit=MASS, loss_percent=LOSS_PERCENT)
def mass_to_refer_above(limit: float, loss_percent: float) -> float:
    """Mass above which an adult is referred in the last days before a weigh-in.

    Parameters
    ----------
    limit : limit of the class [lb or kg], more than 0 and at most 700
    loss_percent : upper end of the published range for the hours left [%], 0 to 6.7

    Returns
    -------
    mass [lb or kg]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    L / (1 - p / 100), with p 6.7 % at 72 h, 5.7 % at 48 h, 4.4 % at 24 h. A line for referral and
    never a target; for adults with a day or more between weigh-in and bout.

    References
    ----------
    ricci_2025
    """
    return limit / (1 - loss_percent / 100)


@published(limit=MASS, on_the_day=MASS)
def fight_day_regain_percent(limit: float, on_the_day: float) -> float:
    """Mass on the day of the bout above the limit of the class.

    Parameters
    ----------
    limit : limit of the class [lb or kg], more than 0 and at most 700
    on_the_day : body mass on the day [lb or kg], more than 0 and at most 700

    Returns
    -------
    regain, below 0 where he is under the limit [%]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    100 (M - L) / L, of the limit of the class and not of an allowance above it.

    References
    ----------
    california_regain
    """
    return 100 * (on_the_day - limit) / limit


@published(limit=MASS, regain_percent=REGAIN_PERCENT)
def mass_at_regain(limit: float, regain_percent: float) -> float:
    """Mass on the day of the bout at a stated regain.

    Parameters
    ----------
    limit : limit of the class [lb or kg], more than 0 and at most 700
    regain_percent : regain above the limit [%], 0 to 50

    Returns
    -------
    mass [lb or kg]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    L (1 + p / 100).

    References
    ----------
    california_regain
    """
    return limit * (1 + regain_percent / 100)


def _something_to_lose(now: float, limit: float) -> None:
    if limit >= now:
        raise OutsidePublishedRange(
            "limit", limit, 0, now, "nothing has to be lost", is_low_open=True, is_high_open=True
        )
