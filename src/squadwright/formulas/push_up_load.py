"""Share of body mass the hands hold in a push-up."""

from squadwright.formulas.body import BODY_MASS
from squadwright.formulas.published import Choice, published

HANDS_SHARE_EBBEN = {
    "regular": 0.64,
    "knees": 0.49,
    "hands_on_61_cm": 0.41,
    "feet_raised": 0.75,
}
"""Shares printed on a page about the 2011 study; it does not say how high the feet were."""

HANDS_SHARE_EBBEN_RECALLED = {"feet_on_30_cm": 0.70, "feet_on_61_cm": 0.74, "hands_on_30_cm": 0.55}
"""Shares recalled from the same study and not confirmed."""

HANDS_SHARE_GOUVALI = {"regular": 0.66, "knees": 0.53, "narrow": 0.65, "wide": 0.63}
"""Shares of an earlier study, from the same page."""


@published(mass_kg=BODY_MASS, position=Choice(tuple(HANDS_SHARE_EBBEN)))
def push_up_load_ebben(mass_kg: float, position: str) -> float:
    """Mass the hands hold in a push-up, study of 2011.

    Parameters
    ----------
    mass_kg : body mass [kg], 20 to 300
    position : position of hands and feet [1], one of regular, knees, hands_on_61_cm, feet_raised

    Returns
    -------
    mass on both hands [kg]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    Held still at arm's length; no difference between the sexes. A page gives 75 % with the
    feet raised and no height.

    References
    ----------
    ebben_2011
    """
    return HANDS_SHARE_EBBEN[position] * mass_kg


@published(mass_kg=BODY_MASS, position=Choice(tuple(HANDS_SHARE_EBBEN_RECALLED)))
def push_up_load_ebben_recalled(mass_kg: float, position: str) -> float:
    """Mass the hands hold in a push-up, study of 2011 as recalled.

    Parameters
    ----------
    mass_kg : body mass [kg], 20 to 300
    position : position of hands and feet [1], one of feet_on_30_cm, feet_on_61_cm, hands_on_30_cm

    Returns
    -------
    mass on both hands [kg]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    From memory, not confirmed.

    References
    ----------
    ebben_2011_recalled
    """
    return HANDS_SHARE_EBBEN_RECALLED[position] * mass_kg


@published(mass_kg=BODY_MASS, position=Choice(tuple(HANDS_SHARE_GOUVALI)))
def push_up_load_gouvali(mass_kg: float, position: str) -> float:
    """Mass the hands hold in a push-up, study of 2005.

    Parameters
    ----------
    mass_kg : body mass [kg], 20 to 300
    position : position of hands and feet [1], one of regular, knees, narrow, wide

    Returns
    -------
    mass on both hands [kg]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    Values from a page; the authors' names are from memory.

    References
    ----------
    gouvali_2005
    """
    return HANDS_SHARE_GOUVALI[position] * mass_kg
