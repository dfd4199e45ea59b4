"""One-repetition maximum: four equations known only from memory.

Their coefficients were not confirmed against a source. They are kept for comparison and are never
the default.
"""

import math

from squadwright.formulas.published import published
from squadwright.formulas.set_to_failure import LOAD, repetitions_up_to


@published(
    load_kg=LOAD, repetitions=repetitions_up_to(49, "the equation has no value at 50 repetitions")
)
def one_rep_max_adams(load_kg: float, repetitions: float) -> float:
    """One-repetition maximum, the equation ascribed to Adams.

    Parameters
    ----------
    load_kg : load lifted to failure [kg], more than 0 and at most 1000
    repetitions : repetitions to failure [1], 1 to 49

    Returns
    -------
    one-repetition maximum [kg]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    1RM = w / (1 - 0.02 r).
    From memory, not confirmed: an assumption the coach may change.

    References
    ----------
    adams_recalled
    """
    return load_kg / (1 - 0.02 * repetitions)


@published(load_kg=LOAD, repetitions=repetitions_up_to(100))
def one_rep_max_berger(load_kg: float, repetitions: float) -> float:
    """One-repetition maximum, the equation ascribed to Berger.

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
    1RM = w / (1.0261 exp(-0.0262 r)).
    From memory, not confirmed: an assumption the coach may change.

    References
    ----------
    berger_recalled
    """
    return load_kg / (1.0261 * math.exp(-0.0262 * repetitions))


@published(load_kg=LOAD, repetitions=repetitions_up_to(100))
def one_rep_max_brown(load_kg: float, repetitions: float) -> float:
    """One-repetition maximum, the equation ascribed to Brown.

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
    1RM = w (0.9849 + 0.0328 r).
    From memory, not confirmed: an assumption the coach may change.

    References
    ----------
    brown_recalled
    """
    return load_kg * (0.9849 + 0.0328 * repetitions)


@published(
    load_kg=LOAD, repetitions=repetitions_up_to(34, "the cubic falls again beyond 34.2 repetitions")
)
def one_rep_max_kemmler(load_kg: float, repetitions: float) -> float:
    """One-repetition maximum, Kemmler's cubic.

    Parameters
    ----------
    load_kg : load lifted to failure [kg], more than 0 and at most 1000
    repetitions : repetitions to failure [1], 1 to 34

    Returns
    -------
    one-repetition maximum [kg]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    1RM = w (0.988 + 0.0104 r + 0.0019 r^2 - 0.00004 r^3).
    From memory, not confirmed: an assumption the coach may change.

    References
    ----------
    kemmler_2006
    """
    return load_kg * (
        0.988 + 0.0104 * repetitions + 0.0019 * repetitions**2 - 0.00004 * repetitions**3
    )
