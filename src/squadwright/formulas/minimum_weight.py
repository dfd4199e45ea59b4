"""Minimum wrestling weight: the lowest class a wrestler may enter, from an assessment of body fat.

Masses are in the unit of the governing body, pounds or kilograms, and come back in it. Inside
nothing is rounded; what is shown is rounded up, never down.
"""

import math

from squadwright.formulas.published import PROGRAM_LIMIT, Range, published

MASS = Range(low=0, is_low_open=True, high=700, reason=PROGRAM_LIMIT)
FAT_PERCENT = Range(
    low=3, high=50, reason="below 3 or above 50 % the measurement is not to be believed"
)
LEAST_FAT_PERCENT = Range(low=5, high=20, reason="5 % is the lowest floor of any body")
WEEKS = Range(low=0, high=52, reason=PROGRAM_LIMIT)

LEAST_FAT_PERCENT_OF = {"ncaa_men": 5, "nfhs_boys": 7, "nfhs_girls": 12, "ncaa_women": 12}
"""Least fat [%]: the women's figure of the colleges is from memory, the others second hand."""


def shown_minimum_weight(mass: float) -> int:
    """A minimum weight as it is shown: rounded up to a whole unit, never down."""
    return math.ceil(round(mass, 9))


@published(mass=MASS, fat_percent=FAT_PERCENT)
def fat_free_mass(mass: float, fat_percent: float) -> float:
    """Mass without fat.

    Parameters
    ----------
    mass : body mass [lb or kg], more than 0 and at most 700
    fat_percent : body fat [%], 3 to 50

    Returns
    -------
    fat-free mass [lb or kg]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    W (1 - BF / 100).

    References
    ----------
    ncaa_weight_certification
    """
    return mass * (1 - fat_percent / 100)


@published(mass=MASS, fat_percent=FAT_PERCENT, least_fat_percent=LEAST_FAT_PERCENT)
def lowest_weight_by_fat(mass: float, fat_percent: float, least_fat_percent: float) -> float:
    """Lowest weight at the least fat the body allows.

    Parameters
    ----------
    mass : body mass [lb or kg], more than 0 and at most 700
    fat_percent : body fat as assessed [%], 3 to 50
    least_fat_percent : least fat allowed [%], 5 to 20

    Returns
    -------
    lowest weight [lb or kg]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    FFM / (1 - m / 100). m is 5 % for college men, 7 % for high-school boys, 12 % for high-school
    girls; 12 % for college women is from memory. For somebody at or under the floor already it is
    above his mass of today: no loss at all. A page that gives a college "maximum" of 15 % fat is
    contradicted by the rulebook.

    References
    ----------
    ncaa_weight_certification texas_minimum_weight wrestling_floors_recalled
    """
    return fat_free_mass(mass, fat_percent) / (1 - least_fat_percent / 100)


@published(mass=MASS, weeks=WEEKS)
def lowest_weight_by_descent(mass: float, weeks: float) -> float:
    """Lowest weight at the fastest descent allowed.

    Parameters
    ----------
    mass : body mass at the first assessment [lb or kg], more than 0 and at most 700
    weeks : weeks since that assessment [weeks], 0 to 52

    Returns
    -------
    lowest weight [lb or kg]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    W (1 - 0.015 weeks): 1.5 % a week of the first assessed mass, in a straight line. A week on
    week product is another rule and gives more.

    References
    ----------
    texas_minimum_weight turocy_2011
    """
    return mass * (1 - 0.015 * weeks)


@published(mass=MASS, fat_percent=FAT_PERCENT, least_fat_percent=LEAST_FAT_PERCENT, weeks=WEEKS)
def minimum_wrestling_weight(
    mass: float, fat_percent: float, *, least_fat_percent: float, weeks: float
) -> float:
    """Minimum wrestling weight: the higher of the two lowest weights.

    Parameters
    ----------
    mass : body mass at the first assessment [lb or kg], more than 0 and at most 700
    fat_percent : body fat as assessed [%], 3 to 50
    least_fat_percent : least fat allowed [%], 5 to 20
    weeks : weeks until the class is entered [weeks], 0 to 52

    Returns
    -------
    minimum weight [lb or kg]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    max(LAW1, LAW2). A health professional measures, never the coach.

    References
    ----------
    ncaa_weight_certification texas_minimum_weight
    """
    return max(
        lowest_weight_by_fat(mass, fat_percent, least_fat_percent),
        lowest_weight_by_descent(mass, weeks),
    )
