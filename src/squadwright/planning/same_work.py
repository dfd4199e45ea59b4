"""How much of one exercise does as much as some amount of another.

Jumps are swapped landing for landing and throws throw for throw; all else fills the same seconds,
so that a wave stays together.
"""

from squadwright.model.exercise import Exercise, Pattern, Sides
from squadwright.model.routine import CountedIn, LaneRule, Scheme
from squadwright.planning.contacts import count_set

HOLD_STEP_S = 5
"""A hold is written in multiples of this [s]."""

_ONCE = Scheme(CountedIn.REPETITIONS, 1)


def same_work(
    old: Exercise, scheme: Scheme, new: Exercise, *, lane: LaneRule | None = None
) -> Scheme:
    """As much of a new exercise as does the work of the old one.

    Sets are kept. Each side gets the same; a carry is counted in steps, an even number.
    """
    if old.row_landings and new.row_landings:
        return scheme
    before, once = count_set(old, scheme, lane=lane), count_set(new, _ONCE)
    if new.is_hold:
        count = max(1, round(before.work_s / HOLD_STEP_S)) * HOLD_STEP_S
        return Scheme(CountedIn.SECONDS, count, scheme.sets)
    if before.contacts and once.contacts:
        return _repetitions(new, before.contacts // once.contacts, scheme.sets)
    if before.throws and once.throws:
        return _repetitions(new, before.throws // once.throws, scheme.sets)
    return _repetitions(new, round(before.work_s / new.seconds_per_repetition), scheme.sets)


def _repetitions(new: Exercise, repetitions: int, sets: int) -> Scheme:
    if new.sides is Sides.BOTH:
        return Scheme(CountedIn.REPETITIONS, max(1, repetitions), sets)
    each_side = max(1, round(repetitions / 2))
    if new.pattern is Pattern.CARRY:
        return Scheme(CountedIn.REPETITIONS, 2 * each_side, sets)
    return Scheme(CountedIn.REPETITIONS_EACH_SIDE, each_side, sets)
