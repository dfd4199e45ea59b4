"""Repetitions at a share of the one-repetition maximum: four equations known only from memory."""

import math

from squadwright.formulas.published import published
from squadwright.formulas.set_to_failure import MOST_REPETITIONS, shares_between


def _kemmler(repetitions: float) -> float:
    return 0.988 + 0.0104 * repetitions + 0.0019 * repetitions**2 - 0.00004 * repetitions**3


@published(fraction_1rm=shares_between(0.02, 1, 0.76, 0.98, "49 repetitions to the maximum"))
def repetitions_at_fraction_adams(fraction_1rm: float) -> float:
    """Repetitions to failure at a share of 1RM, the equation ascribed to Adams.

    Parameters
    ----------
    fraction_1rm : load as a share of the one-repetition maximum [1], 0.02 to 1

    Returns
    -------
    repetitions to failure, not rounded [1]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    r = (1 - f) / 0.02. From memory, not confirmed.

    References
    ----------
    adams_recalled
    """
    return (1 - fraction_1rm) / 0.02


@published(
    fraction_1rm=shares_between(
        1.0261 * math.exp(-0.0262 * MOST_REPETITIONS),
        1,
        1.0261 * math.exp(-0.0262 * 12),
        1.0261 * math.exp(-0.0262),
    )
)
def repetitions_at_fraction_berger(fraction_1rm: float) -> float:
    """Repetitions to failure at a share of 1RM, the equation ascribed to Berger.

    Parameters
    ----------
    fraction_1rm : load as a share of the one-repetition maximum [1], 0.0747 to 1

    Returns
    -------
    repetitions to failure, not rounded [1]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    r = ln(1.0261 / f) / 0.0262. From memory, not confirmed.

    References
    ----------
    berger_recalled
    """
    return math.log(1.0261 / fraction_1rm) / 0.0262


@published(
    fraction_1rm=shares_between(
        1 / (0.9849 + 0.0328 * MOST_REPETITIONS), 1, 1 / (0.9849 + 0.0328 * 12), 1 / 1.0177
    )
)
def repetitions_at_fraction_brown(fraction_1rm: float) -> float:
    """Repetitions to failure at a share of 1RM, the equation ascribed to Brown.

    Parameters
    ----------
    fraction_1rm : load as a share of the one-repetition maximum [1], 0.2345 to 1

    Returns
    -------
    repetitions to failure, not rounded [1]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    r = (1/f - 0.9849) / 0.0328. From memory, not confirmed.

    References
    ----------
    brown_recalled
    """
    return (1 / fraction_1rm - 0.9849) / 0.0328


@published(
    fraction_1rm=shares_between(
        1 / _kemmler(34), 1, 1 / _kemmler(12), 1 / _kemmler(1), "34 repetitions to the maximum"
    )
)
def repetitions_at_fraction_kemmler(fraction_1rm: float) -> float:
    """Repetitions to failure at a share of 1RM, Kemmler's cubic.

    Parameters
    ----------
    fraction_1rm : load as a share of the one-repetition maximum [1], 0.5087 to 1

    Returns
    -------
    repetitions to failure, not rounded [1]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    Solves 1/f = 0.988 + 0.0104 r + 0.0019 r^2 - 0.00004 r^3 by halving, on 0 to 34
    repetitions. From memory, not confirmed.

    References
    ----------
    kemmler_2006
    """
    low, high = 0.0, 34.0
    for _ in range(60):
        middle = (low + high) / 2
        if _kemmler(middle) < 1 / fraction_1rm:
            low = middle
        else:
            high = middle
    return high
