"""An exercise as one movement of a complex, the way the dose and the record see it."""

from squadwright.model.exercise import Exercise
from squadwright.planning.dose.problem import ComplexMovement, MovementPart


def asks_for_strength(exercise: Exercise) -> bool:
    """Whether any part of it is scaled from a lift."""
    return any(part.effort is not None for part in exercise.parts)


def complex_movement(exercise: Exercise, repetitions: int, *, reserve: int = 1) -> ComplexMovement:
    """An exercise done for so many repetitions, with so many to be left after it."""
    return ComplexMovement(
        name=exercise.name,
        parts=tuple(
            MovementPart(
                involvement=part.effort.involvement,
                reference_lift=part.effort.reference_lift.value,
                ratio=part.effort.ratio,
                ratio_sd_fraction=part.effort.ratio_sd_fraction,
            )
            for part in exercise.parts
            if part.effort is not None
        ),
        repetitions=repetitions,
        wanted_reserve=reserve,
        seconds_per_repetition=exercise.seconds_per_repetition,
    )
