"""Sweat rate of a session, the deficit after it, and what replaces it."""

from squadwright.errors import OutsidePublishedRange
from squadwright.formulas.body import BODY_MASS
from squadwright.formulas.published import PROGRAM_LIMIT, Range, published

LITRES = Range(low=0, high=15, reason=PROGRAM_LIMIT)
HOURS = Range(low=0, is_low_open=True, high=8, reason=PROGRAM_LIMIT)
REFILL = Range(low=1.25, high=1.5, reason="125 to 150 % of the deficit")


@published(before_kg=BODY_MASS, after_kg=BODY_MASS, hours=HOURS, drunk_l=LITRES, passed_l=LITRES)
def sweat_rate(
    before_kg: float, after_kg: float, hours: float, *, drunk_l: float = 0.0, passed_l: float = 0.0
) -> float:
    """Sweat lost an hour in a session.

    Parameters
    ----------
    before_kg : body mass before [kg], 20 to 300
    after_kg : body mass after [kg], 20 to 300
    hours : time between the two [h], more than 0 and at most 8
    drunk_l : drunk in between [L], 0 to 15
    passed_l : urine passed in between [L], 0 to 15

    Returns
    -------
    sweat [L/h]

    Raises
    ------
    OutsidePublishedRange : a value outside its range, or a rate below 0

    Notes
    -----
    ((before + drunk) - (after + passed)) / hours, one kilogram for one litre. Usual is 0.5 to 2
    L/h. A negative rate is a wrong reading.

    References
    ----------
    sweat_rate_page
    """
    lost = (before_kg + drunk_l) - (after_kg + passed_l)
    if lost < 0:
        raise OutsidePublishedRange(
            "after_kg",
            after_kg,
            None,
            before_kg + drunk_l - passed_l,
            "heavier than before plus what was drunk: weigh again",
        )
    return lost / hours


@published(before_kg=BODY_MASS, after_kg=BODY_MASS)
def mass_deficit_percent(before_kg: float, after_kg: float) -> float:
    """Mass missing after a session.

    Parameters
    ----------
    before_kg : body mass before [kg], 20 to 300
    after_kg : body mass after [kg], 20 to 300

    Returns
    -------
    deficit, below 0 for a gain [%]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    100 (before - after) / before.

    References
    ----------
    sweat_rate_page
    """
    return 100 * (before_kg - after_kg) / before_kg


@published(before_kg=BODY_MASS, after_kg=BODY_MASS, share=REFILL)
def refill_volume(before_kg: float, after_kg: float, share: float = 1.25) -> float:
    """Drink that replaces the deficit of a session.

    Parameters
    ----------
    before_kg : body mass before [kg], 20 to 300
    after_kg : body mass after [kg], 20 to 300
    share : share of the deficit [1], 1.25 to 1.5

    Returns
    -------
    drink [L]

    Raises
    ------
    OutsidePublishedRange : a value outside its range, or no deficit

    Notes
    -----
    share (before - after), over the hours after.

    References
    ----------
    refill_recalled
    """
    if after_kg > before_kg:
        raise OutsidePublishedRange(
            "after_kg", after_kg, None, before_kg, "heavier than before: nothing to replace"
        )
    return share * (before_kg - after_kg)
