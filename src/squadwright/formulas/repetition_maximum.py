"""Repetitions to failure at a share of the one-repetition maximum: the equations turned round.

Each function solves its equation for the repetitions and does not round. It answers only where the
equation has an answer of at most a hundred repetitions. At the light loads of a circuit (50 to
65 % of 1RM) the equations differ by a factor of two: a test near the load replaces them.
"""

import math

from squadwright.formulas.published import Choice, Range, published, source_keys_of
from squadwright.formulas.repetition_maximum_recalled import (
    repetitions_at_fraction_adams,
    repetitions_at_fraction_berger,
    repetitions_at_fraction_brown,
    repetitions_at_fraction_kemmler,
)
from squadwright.formulas.set_to_failure import MOST_REPETITIONS, shares_between


@published(fraction_1rm=shares_between(1 / (1 + MOST_REPETITIONS / 30), 1, 1 / 1.4, 30 / 31))
def repetitions_at_fraction_epley(fraction_1rm: float) -> float:
    """Repetitions to failure at a share of 1RM, Epley's line.

    Parameters
    ----------
    fraction_1rm : load as a share of the one-repetition maximum [1], 0.2308 to 1

    Returns
    -------
    repetitions to failure, not rounded [1]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    r = 30 (1/f - 1).

    References
    ----------
    epley_1985
    """
    return 30 * (1 / fraction_1rm - 1)


@published(fraction_1rm=shares_between(1 / 36, 1, 25 / 36, 1, "36 repetitions to the maximum"))
def repetitions_at_fraction_brzycki(fraction_1rm: float) -> float:
    """Repetitions to failure at a share of 1RM, Brzycki's line.

    Parameters
    ----------
    fraction_1rm : load as a share of the one-repetition maximum [1], 0.02778 to 1

    Returns
    -------
    repetitions to failure, not rounded [1]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    r = 37 - 36 f. No share of a load needs 37 repetitions or more.

    References
    ----------
    brzycki_1993
    """
    return 37 - 36 * fraction_1rm


@published(
    fraction_1rm=shares_between(
        (101.3 - 2.67123 * 37) / 100, 1, 0.692452, 0.986288, "37 repetitions to the maximum"
    )
)
def repetitions_at_fraction_lander(fraction_1rm: float) -> float:
    """Repetitions to failure at a share of 1RM, Lander's line.

    Parameters
    ----------
    fraction_1rm : load as a share of the one-repetition maximum [1], 0.02464 to 1

    Returns
    -------
    repetitions to failure, not rounded [1]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    r = (101.3 - 100 f) / 2.67123. No share of a load needs 37.92 repetitions or more.

    References
    ----------
    lander_1985
    """
    return (101.3 - 100 * fraction_1rm) / 2.67123


@published(fraction_1rm=shares_between(MOST_REPETITIONS**-0.10, 1, 0.78, 1))
def repetitions_at_fraction_lombardi(fraction_1rm: float) -> float:
    """Repetitions to failure at a share of 1RM, Lombardi's power law.

    Parameters
    ----------
    fraction_1rm : load as a share of the one-repetition maximum [1], 0.631 to 1

    Returns
    -------
    repetitions to failure, not rounded [1]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    r = f^(-10). Explodes at moderate loads: 35 repetitions at 70 %.

    References
    ----------
    lombardi_1989
    """
    return math.pow(fraction_1rm, -10)


@published(
    fraction_1rm=shares_between(
        (52.2 + 41.9 * math.exp(-0.055 * MOST_REPETITIONS)) / 100,
        0.941,
        (52.2 + 41.9 * math.exp(-0.055 * 12)) / 100,
        (52.2 + 41.9 * math.exp(-0.055 * 1)) / 100,
        "the curve starts at 94.1 % of 1RM and is flat near 52.2 %",
    )
)
def repetitions_at_fraction_mayhew(fraction_1rm: float) -> float:
    """Repetitions to failure at a share of 1RM, Mayhew's exponential.

    Parameters
    ----------
    fraction_1rm : load as a share of the one-repetition maximum [1], 0.5237 to 0.941

    Returns
    -------
    repetitions to failure, not rounded [1]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    r = ln(41.9 / (100 f - 52.2)) / 0.055. The curve starts at 94.1 %, so heavier loads have
    no answer, and flattens out at 52.2 %.

    References
    ----------
    mayhew_1992
    """
    return math.log(41.9 / (100 * fraction_1rm - 52.2)) / 0.055


@published(fraction_1rm=shares_between(1 / (1 + 0.025 * MOST_REPETITIONS), 1, 1 / 1.3, 1 / 1.025))
def repetitions_at_fraction_oconner(fraction_1rm: float) -> float:
    """Repetitions to failure at a share of 1RM, O'Conner's line.

    Parameters
    ----------
    fraction_1rm : load as a share of the one-repetition maximum [1], 0.2857 to 1

    Returns
    -------
    repetitions to failure, not rounded [1]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    r = (1/f - 1) / 0.025.

    References
    ----------
    oconner_1989
    """
    return (1 / fraction_1rm - 1) / 0.025


@published(
    fraction_1rm=shares_between(
        (48.8 + 53.8 * math.exp(-0.075 * MOST_REPETITIONS)) / 100,
        1,
        (48.8 + 53.8 * math.exp(-0.075 * 12)) / 100,
        (48.8 + 53.8 * math.exp(-0.075 * 1)) / 100,
        "the curve is flat near 48.8 % of 1RM",
    )
)
def repetitions_at_fraction_wathan(fraction_1rm: float) -> float:
    """Repetitions to failure at a share of 1RM, Wathan's exponential.

    Parameters
    ----------
    fraction_1rm : load as a share of the one-repetition maximum [1], 0.4883 to 1

    Returns
    -------
    repetitions to failure, not rounded [1]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    r = ln(53.8 / (100 f - 48.8)) / 0.075. The curve flattens out at 48.8 %, so lighter
    loads have no answer.

    References
    ----------
    wathan_1994
    """
    return math.log(53.8 / (100 * fraction_1rm - 48.8)) / 0.075


EQUATIONS = {
    "epley": repetitions_at_fraction_epley,
    "brzycki": repetitions_at_fraction_brzycki,
    "lander": repetitions_at_fraction_lander,
    "lombardi": repetitions_at_fraction_lombardi,
    "mayhew": repetitions_at_fraction_mayhew,
    "oconner": repetitions_at_fraction_oconner,
    "wathan": repetitions_at_fraction_wathan,
    "adams": repetitions_at_fraction_adams,
    "berger": repetitions_at_fraction_berger,
    "brown": repetitions_at_fraction_brown,
    "kemmler": repetitions_at_fraction_kemmler,
}


@published(
    fraction_1rm=Range(low=0, is_low_open=True, high=1),
    author=Choice(tuple(EQUATIONS), source_keys_of(EQUATIONS)),
)
def repetitions_at_fraction(fraction_1rm: float, author: str = "epley") -> float:
    """Repetitions to failure at a share of 1RM by a chosen equation.

    Parameters
    ----------
    fraction_1rm : load as a share of the one-repetition maximum [1], more than 0 and at most 1
    author : whose equation [1], one of EQUATIONS

    Returns
    -------
    repetitions to failure, not rounded [1]

    Raises
    ------
    OutsidePublishedRange : a share the chosen equation has no answer for
    InvalidInput : an author that is not known

    Notes
    -----
    The whole maximum is one repetition, whatever the equation would say. Between people the
    repetitions at one share differ by 26 to 80 % (SD over mean), more at heavy loads: a
    personal test replaces the curve.

    References
    ----------
    epley_1985 brzycki_1993 lander_1985 lombardi_1989 mayhew_1992 oconner_1989 wathan_1994
    adams_recalled berger_recalled brown_recalled kemmler_2006 cooke_2019 wolfe_2024
    """
    if fraction_1rm == 1:
        return 1.0
    return EQUATIONS[author](fraction_1rm)
