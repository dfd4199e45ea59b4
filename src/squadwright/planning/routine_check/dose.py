"""What one athlete does in all of a routine: landings and throws, and how the halves share it."""

from collections import Counter
from collections.abc import Iterator

from squadwright.library import exercise as library_exercise
from squadwright.model.athlete import Level
from squadwright.model.exercise import Region
from squadwright.model.plan import Severity
from squadwright.model.routine import Routine
from squadwright.planning.audit.dose import (
    BALANCE_SOURCE,
    CONTACTS_PER_SESSION,
    CONTACTS_SOURCE,
    LOWER_SHARE_LIMITS,
    lower_share,
)
from squadwright.planning.contacts import Count, count_routine, count_step
from squadwright.planning.routine_check.finding import RoutineFinding
from squadwright.planning.substitution.barred import level_rank
from squadwright.words import counted

COUNTED = "A contact is each time a foot, or both feet together, meet a surface."


def contacts_and_throws(routine: Routine) -> Iterator[RoutineFinding]:
    """Contacts and throws of one athlete, against the band of the routine's level."""
    total = count_routine(routine, library_exercise)
    if not total.contacts and not total.throws:
        return
    level = level_of(routine)
    low, high = CONTACTS_PER_SESSION[level]
    is_over = total.contacts > high
    place = "above" if is_over else "within" if total.contacts >= low else "below"
    band = f", {place} the band of {low} to {high} for the level {level}" if total.contacts else ""
    bands = [
        f"{name.capitalize()}: {least} to {most} contacts a session."
        for name, (least, most) in CONTACTS_PER_SESSION.items()
    ]
    yield RoutineFinding(
        "contacts",
        Severity.WARNING if is_over else Severity.NOTE,
        f"{' and '.join(_feet_and_throws(total))} for each athlete{band}.",
        (
            *_by_step(routine),
            COUNTED,
            *(bands if total.contacts else ()),
            f"{CONTACTS_SOURCE}." if total.contacts else "No band for throws is published.",
        ),
        advice="Take sets off the highest jump first." if is_over else "",
    )


def level_of(routine: Routine) -> Level:
    """The level a routine is for; novice where it names none that is known."""
    return next((level for level in Level if level.value == routine.level), Level.NOVICE)


def exercises_above_the_level(routine: Routine) -> Iterator[RoutineFinding]:
    """Exercises the library keeps for a higher level than the routine is for."""
    level = level_of(routine)
    steps = [step for block in routine.blocks for step in block.steps]
    for exercise in {step.exercise: library_exercise(step.exercise) for step in steps}.values():
        if level_rank(exercise.least_level) <= level_rank(level):
            continue
        easier = ", ".join(library_exercise(each).name for each in exercise.easier)
        yield RoutineFinding(
            "level",
            Severity.WARNING,
            f"{exercise.name} is kept for the level {exercise.least_level}, and the routine is for "
            f"the level {level}.",
            (
                "In a session it is swapped for whoever is below that level.",
                "Levels of the exercise library: our estimate.",
            ),
            advice=f"Easier: {easier}." if easier else "Swap it, or raise the routine's level.",
        )


def _by_step(routine: Routine) -> Iterator[str]:
    for block in routine.blocks:
        for step in block.steps:
            exercise = library_exercise(step.exercise)
            count = count_step(exercise, step.scheme, lane=block.lane).times(block.rounds)
            said = _feet_and_throws(count)
            if hands := count.hand_landings:
                said.append(counted(hands, "landing of the hands", "landings of the hands"))
            if said:
                yield f"{f'{step.label} {exercise.name}'.strip()}: {', '.join(said)}."


def _feet_and_throws(count: Count) -> list[str]:
    """Contacts and throws in words, each where there is one."""
    amounts = ((count.contacts, "contact"), (count.throws, "throw"))
    return [counted(amount, what) for amount, what in amounts if amount]


def region_balance(routine: Routine) -> Iterator[RoutineFinding]:
    """How many exercises and repetitions each half of the body has, by the rule of the audit."""
    repetitions: Counter[Region] = Counter()
    exercises: Counter[Region] = Counter()
    for block in routine.blocks:
        for step in block.steps:
            exercise = library_exercise(step.exercise)
            count = count_step(exercise, step.scheme, lane=block.lane).times(block.rounds)
            repetitions[exercise.region] += count.repetitions
            exercises[exercise.region] += 1
    names = " ".join(f"{exercises[region]} {region}," for region in Region).rstrip(",")
    share = lower_share(repetitions)
    low, high = LOWER_SHARE_LIMITS
    is_off = share is not None and not low <= share <= high
    mostly = "" if share is None else f" {share:.0%} of the repetitions are lower body."
    short = "upper" if share is not None and share > high else "lower"
    yield RoutineFinding(
        "balance",
        Severity.NOTE,
        f"Exercises by half of the body: {names}.{mostly}",
        (
            *(
                f"{region.capitalize()}: {counted(repetitions[region], 'repetition')}."
                for region in Region
            ),
            f"The lower body should have {low:.0%} to {high:.0%}; whole-body work counts half.",
            f"{BALANCE_SOURCE.capitalize()}.",
        ),
        advice=f"Put in one exercise for the {short} body." if is_off else "",
    )
