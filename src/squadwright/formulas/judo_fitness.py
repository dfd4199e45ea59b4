"""The special judo fitness test: throws and two pulses in one index, lower is better.

A maximal test: nobody does it who is barred from hard rounds or from throwing.
"""

from squadwright.formulas.body import BODY_MASS
from squadwright.formulas.heart_rate import HEART_RATE
from squadwright.formulas.published import PROGRAM_LIMIT, Range, published

THROWS = Range(low=5, high=45, is_whole=True, reason=PROGRAM_LIMIT)
INDEX = Range(low=2, high=96, reason=PROGRAM_LIMIT)


@published(end_bpm=HEART_RATE, after_one_minute_bpm=HEART_RATE, throws=THROWS)
def special_judo_fitness_index(end_bpm: float, after_one_minute_bpm: float, throws: float) -> float:
    """Index of the special judo fitness test

    Parameters
    ----------
    end_bpm : heart rate at the end [beats/min], 30 to 240
    after_one_minute_bpm : heart rate one minute later [beats/min], 30 to 240
    throws : throws in the three series together [throws], whole, 5 to 45

    Returns
    -------
    index, lower is better [beats/min/throw]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    (HR_end + HR_1min) / throws. Series of 15, 30 and 30 s, rests of 10 s, two partners 6 m
    apart. The sum is from memory and fits the published table; a page that prints a difference
    gives an index below 1.

    References
    ----------
    judo_fitness_recalled judo_fitness_page
    """
    return (end_bpm + after_one_minute_bpm) / throws


@published(index=INDEX, body_mass_kg=BODY_MASS)
def special_judo_fitness_relative_index(index: float, body_mass_kg: float) -> float:
    """Index of the special judo fitness test for each kilogram

    Parameters
    ----------
    index : index of the test [beats/min/throw], 2 to 96
    body_mass_kg : body mass [kg], 20 to 300

    Returns
    -------
    relative index [beats/min/throw/kg]

    Raises
    ------
    OutsidePublishedRange : a value outside its range

    Notes
    -----
    Index / body mass.

    References
    ----------
    judo_relative_2017
    """
    return index / body_mass_kg
