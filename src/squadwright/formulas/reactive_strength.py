"""How much jump an athlete gets out of a short contact.

The index (height over contact time) and the ratio of two times (flight over contact) are different
numbers; so are the index of a drop jump and the modified index of a countermovement jump.
"""

from squadwright.formulas.body import JUMP_HEIGHT
from squadwright.formulas.jump_height import FLIGHT_TIME
from squadwright.formulas.published import PROGRAM_LIMIT, Range, published

CONTACT_TIME = Range(low=0.05, high=2.0, reason=PROGRAM_LIMIT)
TIME_TO_TAKE_OFF = Range(low=0.1, high=5.0, reason=PROGRAM_LIMIT)


@published(height_m=JUMP_HEIGHT, contact_time_s=CONTACT_TIME)
def reactive_strength_index(height_m: float, contact_time_s: float) -> float:
    """Reactive strength index of a drop jump.

    Parameters
    ----------
    height_m : height jumped [m], more than 0 and at most 1.5
    contact_time_s : time on the ground [s], 0.05 to 2

    Returns
    -------
    index [m/s]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    Height over contact time.

    References
    ----------
    drop_jump_methods_2022
    """
    return height_m / contact_time_s


@published(flight_time_s=FLIGHT_TIME, contact_time_s=CONTACT_TIME)
def flight_to_contact_ratio(flight_time_s: float, contact_time_s: float) -> float:
    """Flight time over contact time of a drop jump.

    Parameters
    ----------
    flight_time_s : time in the air [s], more than 0 and at most 1.1
    contact_time_s : time on the ground [s], 0.05 to 2

    Returns
    -------
    ratio of the two times [1]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    Not the reactive strength index. From memory.

    References
    ----------
    flight_contact_recalled
    """
    return flight_time_s / contact_time_s


@published(height_m=JUMP_HEIGHT, time_to_take_off_s=TIME_TO_TAKE_OFF)
def reactive_strength_index_modified(height_m: float, time_to_take_off_s: float) -> float:
    """Modified reactive strength index of a countermovement jump.

    Parameters
    ----------
    height_m : height jumped [m], more than 0 and at most 1.5
    time_to_take_off_s : time from the first movement to take-off [s], 0.1 to 5

    Returns
    -------
    index [m/s]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    Height over time to take-off. Reported from 0.208 to 0.704 in college men and 0.135 to
    0.553 in college women; not to be compared with the index of a drop jump.

    References
    ----------
    ebben_petushek_2010 sole_2018
    """
    return height_m / time_to_take_off_s
