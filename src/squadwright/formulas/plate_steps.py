"""Loads a bar can carry with pairs of plates."""

from squadwright.errors import OutsidePublishedRange
from squadwright.formulas.published import PROGRAM_LIMIT, Range, published

PLATE = Range(low=0, is_low_open=True, high=100, reason=PROGRAM_LIMIT)
TARGET = Range(low=0, is_low_open=True, high=1000, reason=PROGRAM_LIMIT)
BAR = Range(low=0, is_low_open=True, high=100, reason=PROGRAM_LIMIT)
COLLARS = Range(low=0, high=20, reason=PROGRAM_LIMIT)


@published(smallest_plate_kg=PLATE)
def smallest_load_step(smallest_plate_kg: float) -> float:
    """Smallest step between two loads of a bar.

    Parameters
    ----------
    smallest_plate_kg : mass of the lightest plate owned in pairs [kg], more than 0 and at most 100

    Returns
    -------
    step [kg]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    Twice the lightest plate: one goes on each side.

    References
    ----------
    common_practice
    """
    return 2 * smallest_plate_kg


@published(load_kg=TARGET, bar_kg=BAR, collars_kg=COLLARS)
def plates_per_side(load_kg: float, bar_kg: float, collars_kg: float = 0.0) -> float:
    """Mass of plates each side of the bar must carry.

    Parameters
    ----------
    load_kg : whole load wanted [kg], more than 0 and at most 1000
    bar_kg : mass of the bar [kg], more than 0 and at most 100
    collars_kg : mass of both collars [kg], 0 to 20

    Returns
    -------
    plates on one side [kg]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    (load - bar - collars) / 2.

    References
    ----------
    common_practice
    """
    empty_kg = bar_kg + collars_kg
    if load_kg < empty_kg:
        raise OutsidePublishedRange(
            "load_kg", load_kg, empty_kg, None, "the empty bar with its collars is heavier"
        )
    return (load_kg - empty_kg) / 2
