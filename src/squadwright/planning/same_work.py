"""How much of one exercise takes as long as some amount of another."""

from squadwright.model.exercise import Exercise, Pattern, Sides
from squadwright.model.routine import CountedIn, LaneRule, Scheme
from squadwright.planning.contacts import count_set

HOLD_STEP_S = 5
"""A hold is written in multiples of this [s]."""


def same_work(
    old: Exercise, scheme: Scheme, new: Exercise, *, lane: LaneRule | None = None
) -> Scheme:
    """As much of a new exercise as fills the seconds of work of the old one.

    Sets are kept. Each side gets the same; a carry is counted in steps, an even number.
    """
    if old.row_landings and new.row_landings:
        return scheme
    work_s = count_set(old, scheme, lane=lane).work_s
    if new.is_hold:
        count = max(1, round(work_s / HOLD_STEP_S)) * HOLD_STEP_S
        return Scheme(CountedIn.SECONDS, count, scheme.sets)
    repetitions = max(1, round(work_s / new.seconds_per_repetition))
    if new.sides is Sides.BOTH:
        return Scheme(CountedIn.REPETITIONS, repetitions, scheme.sets)
    each_side = max(1, round(repetitions / 2))
    if new.pattern is Pattern.CARRY:
        return Scheme(CountedIn.REPETITIONS, 2 * each_side, scheme.sets)
    return Scheme(CountedIn.REPETITIONS_EACH_SIDE, each_side, scheme.sets)
