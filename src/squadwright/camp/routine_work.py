"""What kind of work a routine is, worked out from its exercises."""

from collections.abc import Iterator

from squadwright.library import exercise
from squadwright.model.calendar import BodyRegion, Work
from squadwright.model.exercise import Exercise, Modality, Region
from squadwright.model.routine import Block, Routine, Step

OF_REGION = {
    Region.LOWER: {BodyRegion.LEGS},
    Region.UPPER: {BodyRegion.SHOULDERS},
    Region.WHOLE: {BodyRegion.LEGS, BodyRegion.BACK, BodyRegion.SHOULDERS},
}


def work_of(routine: Routine) -> Work:
    """Barbell if it has a bar, plyometric if it has jumps or throws, else conditioning."""
    kinds = {each.modality for each in _exercises(routine)}
    if Modality.BARBELL in kinds:
        return Work.BARBELL
    if kinds & {Modality.PLYOMETRIC, Modality.MEDICINE_BALL}:
        return Work.PLYOMETRIC
    return Work.CONDITIONING


def regions_of(routine: Routine) -> tuple[BodyRegion, ...]:
    """The regions its exercises load; a bar is held, so it loads the grip."""
    found: set[BodyRegion] = set()
    for each in _exercises(routine):
        found |= OF_REGION[each.region]
        if each.modality is Modality.BARBELL:
            found.add(BodyRegion.GRIP)
    return tuple(region for region in BodyRegion if region in found)


def is_jump(each: Exercise) -> bool:
    """Whether it is a jump, bound or hop of the lower body."""
    is_of_legs = each.region in (Region.LOWER, Region.WHOLE)
    return each.modality is Modality.PLYOMETRIC and is_of_legs and each.throws_per_repetition == 0


def steps_of(routine: Routine) -> Iterator[tuple[Block, Step, Exercise]]:
    """Every step with its block and its exercise."""
    for block in routine.blocks:
        for step in block.steps:
            yield block, step, exercise(step.exercise)


def _exercises(routine: Routine) -> Iterator[Exercise]:
    return (each for _, _, each in steps_of(routine))
