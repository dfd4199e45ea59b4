"""One-repetition maximum from one set to failure: the equations in print.

Every function computes its equation as published, also at one repetition, where most of them do
not give the load back. ``one_rep_max`` is the way in for planning: it takes a single as measured.
Beyond about ten to twelve repetitions the equations part from each other, and a set of that length
says more about endurance than about the maximum: such results carry a caution.
"""

import math

from squadwright.formulas.one_rep_max_recalled import (
    one_rep_max_adams,
    one_rep_max_berger,
    one_rep_max_brown,
    one_rep_max_kemmler,
)
from squadwright.formulas.published import Choice, published, source_keys_of
from squadwright.formulas.set_to_failure import LOAD, repetitions_up_to


@published(load_kg=LOAD, repetitions=repetitions_up_to(100))
def one_rep_max_epley(load_kg: float, repetitions: float) -> float:
    """One-repetition maximum, Epley's line.

    Parameters
    ----------
    load_kg : load lifted to failure [kg], more than 0 and at most 1000
    repetitions : repetitions to failure [1], 1 to 100

    Returns
    -------
    one-repetition maximum [kg]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    1RM = w (1 + r/30).
    Some print 0.0333 for 1/30. Gives 1.033 w at one repetition.

    References
    ----------
    epley_1985
    """
    return load_kg * (1 + repetitions / 30)


@published(
    load_kg=LOAD, repetitions=repetitions_up_to(36, "the equation has no value at 37 repetitions")
)
def one_rep_max_brzycki(load_kg: float, repetitions: float) -> float:
    """One-repetition maximum, Brzycki's line.

    Parameters
    ----------
    load_kg : load lifted to failure [kg], more than 0 and at most 1000
    repetitions : repetitions to failure [1], 1 to 36

    Returns
    -------
    one-repetition maximum [kg]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    1RM = 36 w / (37 - r).
    The rounded form w / (1.0278 - 0.0278 r) differs in the fourth digit and is not used.

    References
    ----------
    brzycki_1993
    """
    return 36 * load_kg / (37 - repetitions)


@published(
    load_kg=LOAD,
    repetitions=repetitions_up_to(37, "the equation has no value at 37.92 repetitions"),
)
def one_rep_max_lander(load_kg: float, repetitions: float) -> float:
    """One-repetition maximum, Lander's line.

    Parameters
    ----------
    load_kg : load lifted to failure [kg], more than 0 and at most 1000
    repetitions : repetitions to failure [1], 1 to 37

    Returns
    -------
    one-repetition maximum [kg]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    1RM = 100 w / (101.3 - 2.67123 r).
    Gives 1.014 w at one repetition.

    References
    ----------
    lander_1985
    """
    return 100 * load_kg / (101.3 - 2.67123 * repetitions)


@published(load_kg=LOAD, repetitions=repetitions_up_to(100))
def one_rep_max_lombardi(load_kg: float, repetitions: float) -> float:
    """One-repetition maximum, Lombardi's power law.

    Parameters
    ----------
    load_kg : load lifted to failure [kg], more than 0 and at most 1000
    repetitions : repetitions to failure [1], 1 to 100

    Returns
    -------
    one-repetition maximum [kg]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    1RM = w r^0.10.
    Gives w at one repetition; flattens so much that its inverse is of little use.

    References
    ----------
    lombardi_1989
    """
    return load_kg * math.pow(repetitions, 0.10)


@published(load_kg=LOAD, repetitions=repetitions_up_to(100))
def one_rep_max_mayhew(load_kg: float, repetitions: float) -> float:
    """One-repetition maximum, Mayhew's exponential.

    Parameters
    ----------
    load_kg : load lifted to failure [kg], more than 0 and at most 1000
    repetitions : repetitions to failure [1], 1 to 100

    Returns
    -------
    one-repetition maximum [kg]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    1RM = 100 w / (52.2 + 41.9 exp(-0.055 r)).
    Never gives less than 1.063 w; 1.089 w at one repetition.

    References
    ----------
    mayhew_1992
    """
    return 100 * load_kg / (52.2 + 41.9 * math.exp(-0.055 * repetitions))


@published(load_kg=LOAD, repetitions=repetitions_up_to(100))
def one_rep_max_oconner(load_kg: float, repetitions: float) -> float:
    """One-repetition maximum, O'Conner's line.

    Parameters
    ----------
    load_kg : load lifted to failure [kg], more than 0 and at most 1000
    repetitions : repetitions to failure [1], 1 to 100

    Returns
    -------
    one-repetition maximum [kg]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    1RM = w (1 + 0.025 r).
    Gives 1.025 w at one repetition. Lift-specific coefficients seen on the web have no source
    that can be checked and are not used.

    References
    ----------
    oconner_1989
    """
    return load_kg * (1 + 0.025 * repetitions)


@published(load_kg=LOAD, repetitions=repetitions_up_to(100))
def one_rep_max_wathan(load_kg: float, repetitions: float) -> float:
    """One-repetition maximum, Wathan's exponential.

    Parameters
    ----------
    load_kg : load lifted to failure [kg], more than 0 and at most 1000
    repetitions : repetitions to failure [1], 1 to 100

    Returns
    -------
    one-repetition maximum [kg]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    1RM = 100 w / (48.8 + 53.8 exp(-0.075 r)).
    Gives 1.013 w at one repetition.

    References
    ----------
    wathan_1994
    """
    return 100 * load_kg / (48.8 + 53.8 * math.exp(-0.075 * repetitions))


EQUATIONS = {
    "epley": one_rep_max_epley,
    "brzycki": one_rep_max_brzycki,
    "lander": one_rep_max_lander,
    "lombardi": one_rep_max_lombardi,
    "mayhew": one_rep_max_mayhew,
    "oconner": one_rep_max_oconner,
    "wathan": one_rep_max_wathan,
    "adams": one_rep_max_adams,
    "berger": one_rep_max_berger,
    "brown": one_rep_max_brown,
    "kemmler": one_rep_max_kemmler,
}


@published(
    load_kg=LOAD,
    repetitions=repetitions_up_to(100),
    author=Choice(tuple(EQUATIONS), source_keys_of(EQUATIONS)),
)
def one_rep_max(load_kg: float, repetitions: float, author: str = "epley") -> float:
    """One-repetition maximum by a chosen equation, a single taken as measured.

    Parameters
    ----------
    load_kg : load lifted to failure [kg], more than 0 and at most 1000
    repetitions : repetitions to failure [1], 1 to 100
    author : whose equation [1], one of EQUATIONS

    Returns
    -------
    one-repetition maximum [kg]

    Raises
    ------
    OutsidePublishedRange : a value outside the range of the chosen equation
    InvalidInput : an author that is not known

    Notes
    -----
    At one repetition the load is the maximum, whatever the equation would say. Expect an error of
    6 to 7 % (SD) for a big lift, more for a small one.

    References
    ----------
    epley_1985 brzycki_1993 lander_1985 lombardi_1989 mayhew_1992 oconner_1989 wathan_1994
    adams_recalled berger_recalled brown_recalled kemmler_2006 hutchins_2010
    """
    if repetitions == 1:
        return float(load_kg)
    return EQUATIONS[author](load_kg, repetitions)
