"""How many contacts and throws a drill asks of one athlete: arithmetic of counting.

A contact is one landing of a foot, or of both feet together. Contacts on a box and on the floor are
both counted; a landing on the floor from a box is also a drop of one box height. Bands of contacts
are printed per session by some and per week by others: keep the period with every number.
"""

import math

from squadwright.formulas.published import PROGRAM_LIMIT, Range, published

COUNT = Range(low=1, high=1000, is_whole=True, reason=PROGRAM_LIMIT)
NONE_OR_MORE = Range(low=0, high=1000, is_whole=True, reason=PROGRAM_LIMIT)


@published(top=COUNT)
def ladder_contacts(top: int) -> int:
    """Contacts of a ladder 1, 2, ..., top, ..., 2, 1 with the top once.

    Parameters
    ----------
    top : highest number of the ladder [1], whole, 1 to 1000

    Returns
    -------
    contacts of one athlete [contacts]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    n^2. A ladder to six is 36 jumps a set.

    References
    ----------
    counting_arithmetic
    """
    return top * top


@published(top=COUNT)
def ladder_contacts_top_twice(top: int) -> int:
    """Contacts of a ladder 1, ..., top, top, ..., 1 with the top twice.

    Parameters
    ----------
    top : highest number of the ladder [1], whole, 1 to 1000

    Returns
    -------
    contacts of one athlete [contacts]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    n (n + 1).

    References
    ----------
    counting_arithmetic
    """
    return top * (top + 1)


@published(top=COUNT)
def ladder_contacts_up_only(top: int) -> int:
    """Contacts of a ladder 1, 2, ..., top that does not come down.

    Parameters
    ----------
    top : highest number of the ladder [1], whole, 1 to 1000

    Returns
    -------
    contacts of one athlete [contacts]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    n (n + 1) / 2.

    References
    ----------
    counting_arithmetic
    """
    return top * (top + 1) // 2


@published(boxes=COUNT, passes=COUNT, turn_hops=NONE_OR_MORE)
def contacts_over_boxes(boxes: int, passes: int, turn_hops: int = 0) -> int:
    """Contacts of hops over each box of a row.

    Parameters
    ----------
    boxes : boxes in the row [1], whole, 1 to 1000
    passes : passes along the row [1], whole, 1 to 1000
    turn_hops : hops to turn round, in all [1], whole, 0 to 1000

    Returns
    -------
    contacts of one athlete [contacts]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    k p floor landings, and the hops at the turn if there are any. Up and back is two
    passes.

    References
    ----------
    counting_arithmetic
    """
    return boxes * passes + turn_hops


@published(boxes=COUNT, passes=COUNT, turn_hops=NONE_OR_MORE)
def contacts_onto_and_off_boxes(boxes: int, passes: int, turn_hops: int = 0) -> int:
    """Contacts of hops onto and off each box of a row.

    Parameters
    ----------
    boxes : boxes in the row [1], whole, 1 to 1000
    passes : passes along the row [1], whole, 1 to 1000
    turn_hops : hops to turn round, in all [1], whole, 0 to 1000

    Returns
    -------
    contacts of one athlete [contacts]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    2 k p: k p on the boxes and k p floor landings, each of which drops one box height.

    References
    ----------
    counting_arithmetic
    """
    return 2 * boxes * passes + turn_hops


@published(boxes=COUNT, passes=COUNT)
def drops_onto_and_off_boxes(boxes: int, passes: int) -> int:
    """Floor landings of one box height in hops onto and off each box of a row.

    Parameters
    ----------
    boxes : boxes in the row [1], whole, 1 to 1000
    passes : passes along the row [1], whole, 1 to 1000

    Returns
    -------
    drops of one athlete [contacts]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    k p, contained in the contacts of the drill.

    References
    ----------
    counting_arithmetic
    """
    return boxes * passes


@published(boxes=COUNT, passes=COUNT, landings_per_box=COUNT, turn_hops=NONE_OR_MORE)
def contacts_of_pattern(
    boxes: int, passes: int, landings_per_box: int, *, turn_hops: int = 0
) -> int:
    """Contacts of any pattern that repeats at every box of a row.

    Parameters
    ----------
    boxes : boxes in the row [1], whole, 1 to 1000
    passes : passes along the row [1], whole, 1 to 1000
    landings_per_box : landings each box adds, on it and on the floor [1], whole, 1 to 1000
    turn_hops : hops to turn round, in all [1], whole, 0 to 1000

    Returns
    -------
    contacts of one athlete [contacts]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    k p times the landings of the pattern. Up, into the gap, up again, back, over: two on
    the box and three on the floor, five in all.

    References
    ----------
    counting_arithmetic
    """
    return boxes * passes * landings_per_box + turn_hops


@published(
    distance_m=Range(low=0, is_low_open=True, high=1000, reason=PROGRAM_LIMIT),
    step_length_m=Range(low=0, is_low_open=True, high=10, reason=PROGRAM_LIMIT),
)
def contacts_over_distance(distance_m: float, step_length_m: float) -> int:
    """Contacts of bounds over a distance, the last one counted whole.

    Parameters
    ----------
    distance_m : distance covered [m], more than 0 and at most 1000
    step_length_m : length of one bound [m], more than 0 and at most 10

    Returns
    -------
    contacts of one athlete [contacts]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    Distance over step length, rounded up to a whole contact. The step length must be
    measured or stated.

    References
    ----------
    counting_arithmetic
    """
    return math.ceil(round(distance_m / step_length_m, 9))


@published(throws_each=COUNT)
def partner_throws_and_catches(throws_each: int) -> int:
    """Throws and catches of one athlete when each partner throws so often.

    Parameters
    ----------
    throws_each : throws each partner makes [1], whole, 1 to 1000

    Returns
    -------
    throws plus catches of one athlete [throws and catches]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    2 n: each athlete throws n times and catches n times.

    References
    ----------
    counting_arithmetic
    """
    return 2 * throws_each


@published(contacts_each=NONE_OR_MORE, athletes=COUNT)
def team_contacts(contacts_each: int, athletes: int) -> int:
    """Contacts that the floor or the boxes take from the whole team.

    Parameters
    ----------
    contacts_each : contacts of each athlete [1], whole, 0 to 1000
    athletes : athletes [1], whole, 1 to 1000

    Returns
    -------
    contacts of all athletes [contacts]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    A load on the surface and the boxes, never on an athlete.

    References
    ----------
    counting_arithmetic
    """
    return contacts_each * athletes
