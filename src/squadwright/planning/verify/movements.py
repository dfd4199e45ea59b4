"""Rules about exercises: those of the routine, swapped where restriction or pain asks for it."""

from collections.abc import Iterator

from squadwright.model.exercise import BarPosition, Demand, Exercise, Limb, Modality, Region
from squadwright.model.muscles import BodyArea
from squadwright.model.plan import Dose, PlannedExercise
from squadwright.model.routine import Step
from squadwright.planning.verify.day import Day, Fault, known_exercise
from squadwright.planning.verify.parts import Part

SORE_FROM = 3
REFER_FROM = 6
LOWER_HALF = frozenset(
    {
        BodyArea.HIP_GROIN,
        BodyArea.THIGH,
        BodyArea.KNEE,
        BodyArea.SHIN_CALF,
        BodyArea.ANKLE_FOOT,
    }
)
UPPER_HALF = frozenset(BodyArea) - LOWER_HALF - {BodyArea.LOW_BACK}
SORE_LEG_BARS = frozenset(
    {
        Demand.LUNGE,
        Demand.DEEP_KNEE_BEND,
        Demand.JUMP_LANDING,
        Demand.SINGLE_LEG_LANDING,
        Demand.DROP_LANDING,
    }
)

# Where a bar gets to from where it is left, at no word: picked up, set down, slid to the hip.
LOW_PLACES = frozenset({BarPosition.FLOOR, BarPosition.HANG, BarPosition.HIP})
# Where the last repetition may lower it to, if the step says so.
LOWERED_TO = {
    BarPosition.OVERHEAD: LOW_PLACES | {BarPosition.FRONT_RACK, BarPosition.BACK_RACK},
    BarPosition.FRONT_RACK: LOW_PLACES,
}


def exercises_are_in_the_library(day: Day) -> Iterator[Fault]:
    """Every exercise somebody does is one of the library."""
    for place, dose in day.doses():
        for planned in dose.exercises:
            if known_exercise(planned.exercise) is None:
                yield Fault(place, f"{planned.exercise!r} is not in the library")


def exercises_are_steps_of_the_block(day: Day) -> Iterator[Fault]:
    """Each exercise stands for one step of its block, in the order of the block, as written or
    under a swap that says what it replaces.
    """
    for place, dose in day.doses():
        at: dict[str, int] = {}
        for planned in dose.exercises:
            part = day.part_of(dose, planned)
            if part is None:
                yield Fault(place, f"{planned.block!r} is not a block of {day.routine.name}")
                continue
            step = part.step(planned.step)
            if step is None:
                yield Fault(place, f"{planned.step!r} is not a step of {part.name}")
                continue
            index = [key for key, _ in part.steps].index(planned.step)
            if index <= at.get(part.name, -1):
                yield Fault(place, f"step {planned.step} stands twice or too late")
            at[part.name] = index
            if planned.exercise == step.exercise:
                continue
            if (planned.step, step.exercise, planned.exercise) not in [
                (swap.step, swap.from_exercise, swap.to_exercise) for swap in dose.swaps
            ]:
                yield Fault(
                    place,
                    f"step {planned.step} is {planned.exercise}; the routine has {step.exercise} "
                    "and no swap says so",
                )


def swaps_say_what_happens(day: Day) -> Iterator[Fault]:
    """A swap replaces the exercise of a step of the routine by one he does, and gives a reason."""
    for place, dose in day.doses():
        written = {
            (planned.step, step.exercise, planned.exercise)
            for planned in dose.exercises
            if (part := day.part_of(dose, planned)) and (step := part.step(planned.step))
        }
        for swap in dose.swaps:
            if (swap.step, swap.from_exercise, swap.to_exercise) not in written:
                yield Fault(
                    place,
                    f"the swap of step {swap.step} from {swap.from_exercise} to "
                    f"{swap.to_exercise} is not what is done",
                )
            if not swap.reason.strip():
                yield Fault(place, f"the swap of step {swap.step} has no reason")


def restrictions_are_kept(day: Day) -> Iterator[Fault]:
    """Nobody does an exercise that asks for what a restriction in force bars."""
    for place, dose, _, exercise in day.planned():
        for restriction in day.restrictions(dose.athlete):
            barred = [
                *(d.value for d in restriction.demands if d in exercise.demands),
                *(a.value for a in restriction.body_areas if a in exercise.body_areas),
            ]
            if barred:
                yield Fault(
                    place,
                    f"{exercise.name} asks for {', '.join(barred)}; {restriction.author} bars it",
                )


def pain_is_respected(day: Day) -> Iterator[Fault]:
    """Pain of 3 to 5 of 10 in a leg: no lunge, deep bend or landing that loads the area. In the
    upper body or the back: nothing that loads the area. From 6: no loading of that half at all.
    Any pain in the head: nothing but breathing.
    """
    for place, dose, _, exercise in day.planned():
        for pain in day.pains(dose.athlete):
            if pain.area is BodyArea.HEAD and pain.score and not _is_breathing(exercise):
                yield Fault(place, f"head pain {pain.score} of 10, and the work is {exercise.name}")
            elif pain.score >= REFER_FROM and _loads_half(exercise, pain.area):
                yield Fault(
                    place,
                    f"{pain.area.value} pain {pain.score} of 10, and {exercise.name} loads that "
                    f"half (limit {REFER_FROM - 1})",
                )
            elif pain.score >= SORE_FROM and _loads_sore(exercise, pain.area):
                yield Fault(
                    place,
                    f"{pain.area.value} pain {pain.score} of 10, and {exercise.name} loads it "
                    f"(limit {SORE_FROM - 1})",
                )


def bar_goes_from_exercise_to_exercise(day: Day) -> Iterator[Fault]:
    """In a complex each exercise takes the bar where the one before left it, and the first of a
    round where the last left it; what is written for a last repetition counts, and the last one of
    a swap, or of a round whose last exercises are cut, may lower the bar.
    """
    for place, dose in day.doses():
        part = day.main_part(dose)
        if part is None or not part.is_complex:
            continue
        turns = list(_turns(day, part, dose))
        for (planned, exercise, step), (after, following, _) in zip(
            turns, turns[1:] + turns[:1], strict=True
        ):
            left = _left_at(exercise, step)
            taken = following.start or BarPosition.FLOOR
            is_swapped = step is not None and step.exercise != exercise.id
            is_cut = planned is turns[-1][0] and step is not part.steps[-1][1]
            if (is_swapped or is_cut) and taken in LOWERED_TO.get(left, LOW_PLACES):
                continue
            if left != taken and not {left, taken} <= LOW_PLACES:
                yield Fault(
                    place,
                    f"{planned.name} leaves the bar at the {left.value}; {after.name} takes it at "
                    f"the {taken.value}",
                )


def _turns(
    day: Day, part: Part, dose: Dose
) -> Iterator[tuple[PlannedExercise, Exercise, Step | None]]:
    for planned in dose.exercises:
        exercise = known_exercise(planned.exercise)
        if exercise is not None and day.part_of(dose, planned) is part:
            yield planned, exercise, part.step(planned.step)


def _left_at(exercise: Exercise, step: Step | None) -> BarPosition:
    """Where the last repetition leaves the bar: as written, if it can be lowered there."""
    ends = exercise.end or BarPosition.FLOOR
    written = step.last_ends if step else None
    if written is not None and written in LOWERED_TO.get(ends, LOW_PLACES):
        return written
    return ends


def _is_breathing(exercise: Exercise) -> bool:
    return exercise.modality is Modality.BREATHING


def _loads_sore(exercise: Exercise, area: BodyArea) -> bool:
    if area in LOWER_HALF:
        return area in exercise.body_areas and bool(SORE_LEG_BARS & set(exercise.demands))
    return area in exercise.body_areas


def _loads_half(exercise: Exercise, area: BodyArea) -> bool:
    """Whether an exercise loads the half of the body that an area belongs to."""
    areas = set(exercise.body_areas)
    if area in LOWER_HALF:
        feet_land = any(landing.limb is not Limb.HANDS for landing in exercise.landings)
        return exercise.region is Region.LOWER or feet_land or area in areas
    return exercise.region is Region.UPPER or area in areas


RULES = (
    exercises_are_in_the_library,
    exercises_are_steps_of_the_block,
    swaps_say_what_happens,
    restrictions_are_kept,
    pain_is_respected,
    bar_goes_from_exercise_to_exercise,
)
