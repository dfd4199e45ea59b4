"""Volume of barbell work: arithmetic."""

from squadwright.formulas.published import PROGRAM_LIMIT, Range, published

SETS = Range(low=1, high=100, is_whole=True, reason=PROGRAM_LIMIT)
REPETITIONS = Range(low=1, high=1000, is_whole=True, reason=PROGRAM_LIMIT)
LOAD = Range(low=0, is_low_open=True, high=1000, reason=PROGRAM_LIMIT)


@published(sets=SETS, repetitions=REPETITIONS, load_kg=LOAD)
def volume_load(sets: int, repetitions: int, load_kg: float) -> float:
    """Volume load of equal sets.

    Parameters
    ----------
    sets : sets or rounds [1], whole, 1 to 100
    repetitions : repetitions in each set [1], whole, 1 to 1000
    load_kg : load on the bar, bar included [kg], more than 0 and at most 1000

    Returns
    -------
    volume load [kg]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    Sets times repetitions times load. A repetition on each side counts as two.

    References
    ----------
    common_practice
    """
    return sets * repetitions * load_kg


@published(sets=SETS, repetitions=REPETITIONS, load_kg=LOAD, one_rep_max_kg=LOAD)
def relative_volume(sets: int, repetitions: int, load_kg: float, *, one_rep_max_kg: float) -> float:
    """Volume of equal sets in maximal loads.

    Parameters
    ----------
    sets : sets or rounds [1], whole, 1 to 100
    repetitions : repetitions in each set [1], whole, 1 to 1000
    load_kg : load on the bar, bar included [kg], more than 0 and at most 1000
    one_rep_max_kg : one-repetition maximum of the lift [kg], more than 0 and at most 1000

    Returns
    -------
    volume over the one-repetition maximum [1]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    Volume load over the one-repetition maximum, so that athletes of unlike strength
    compare.

    References
    ----------
    common_practice
    """
    return sets * repetitions * load_kg / one_rep_max_kg
