"""Each fault about exercises, raised by a plan spoiled in exactly that way."""

from dataclasses import replace
from datetime import timedelta

import pytest

from planning.plan_changes import Case, change_athlete, change_dose, change_exercise, check_in
from planning.verify.sound_plan import SOUND, TODAY, planned
from planning.verify.spoiled import Spoiled, block, found, lines_raised, lines_that_raise
from squadwright.library import exercise
from squadwright.model.athlete import AuthorRole, Clearance, Restriction
from squadwright.model.exercise import BarPosition, Demand
from squadwright.model.muscles import BodyArea
from squadwright.model.plan import SwapLine
from squadwright.model.session import CheckIn, Pain
from squadwright.planning.verify import movements
from squadwright.planning.verify.movements import (
    bar_goes_from_exercise_to_exercise,
    exercises_are_in_the_library,
    exercises_are_steps_of_the_block,
    pain_is_respected,
    restrictions_are_kept,
    swaps_say_what_happens,
)

ADA = "doses[0] (Ada Brink, A1)"
EXERCISES = SOUND.plan.doses[0].exercises


def does(*exercises: str, case: Case = SOUND) -> Case:
    """She does these and nothing else, each at its own step of the complex from 1 on."""
    own = tuple(planned(str(n), name, 1) for n, name in enumerate(exercises, 1))
    return change_dose(case, "A1", exercises=own)


def hurts(area: BodyArea, score: int, *exercises: str) -> Case:
    return check_in(does(*exercises), CheckIn("A1", pains=(Pain(area, score),)))


def barred(case: Case = SOUND, **bars: object) -> Case:
    written = {"starts_on": TODAY, **bars}
    bar = Restriction("r", "Physio", AuthorRole.COACH, **written)  # type: ignore[arg-type]
    return change_athlete(case, "A1", restrictions=(bar,))


def swaps(case: Case, *lines: SwapLine) -> Case:
    return change_dose(case, "A1", swaps=lines)


def ends(case: Case, key: str, where: BarPosition | None) -> Case:
    """The last repetition of a step of the complex leaves the bar somewhere else."""
    (routine,) = case.club.routines
    steps = tuple(
        replace(s, last_ends=where) if s.label == key else s for s in routine.blocks[0].steps
    )
    return block(case, "A", steps=steps)


def passes(why: str, rule: object, case: Case) -> Spoiled:
    return Spoiled(why, rule, case)  # type: ignore[arg-type]


SWAPPED = change_exercise(SOUND, "A1", "1", exercise="snatch-grip-deadlift")
SAYS_SO = SwapLine("1", "deadlift", "snatch-grip-deadlift", "grip")
LUNGES = (Demand.LUNGE,)
JUMPS = ("squat-jump",)
LOADS_IT = "loads it (limit 2)"
LOADS_HALF = "loads that half (limit 5)"
AT_RACK = "power-clean leaves the bar at the front rack"
ALONE = SOUND.with_plan(doses=SOUND.plan.doses[:1])
NO_HANG = ends(ALONE, "3", None)
PRESS_STAYS = (
    (ADA, "strict-press leaves the bar at the front rack; deadlift takes it at the floor"),
)

CASES = (
    Spoiled(
        "one that is not there",
        exercises_are_in_the_library,
        change_exercise(SOUND, "A1", "1", exercise="flying"),
        ((ADA, "'flying' is not in the library"),),
    ),
    Spoiled(
        "a block that is not there",
        exercises_are_steps_of_the_block,
        change_exercise(SOUND, "A1", "B1", block="Nowhere"),
        ((ADA, "'Nowhere' is not a block of Mixed"),),
    ),
    Spoiled(
        "a step that is not there",
        exercises_are_steps_of_the_block,
        change_exercise(SOUND, "A1", "2", step="9"),
        ((ADA, "'9' is not a step of A"),),
    ),
    Spoiled(
        "a step twice",
        exercises_are_steps_of_the_block,
        change_dose(SOUND, "A1", exercises=(EXERCISES[0], *EXERCISES)),
        ((ADA, "step 1 stands twice or too late"),),
    ),
    Spoiled(
        "a step too late",
        exercises_are_steps_of_the_block,
        change_dose(SOUND, "A1", exercises=(EXERCISES[1], EXERCISES[0], EXERCISES[2])),
        ((ADA, "step 1 stands twice or too late"),),
    ),
    Spoiled(
        "blocks in any order",
        exercises_are_steps_of_the_block,
        change_dose(SOUND, "A1", exercises=(EXERCISES[6], *EXERCISES[:6], EXERCISES[7])),
    ),
    Spoiled(
        "another exercise",
        exercises_are_steps_of_the_block,
        SWAPPED,
        (
            (
                ADA,
                "step 1 is snatch-grip-deadlift; the routine has deadlift and no swap says so",
            ),
        ),
    ),
    Spoiled("a swap", exercises_are_steps_of_the_block, swaps(SWAPPED, SAYS_SO)),
    Spoiled("a swap that happens", swaps_say_what_happens, swaps(SWAPPED, SAYS_SO)),
    *(
        Spoiled(
            f"a swap of {changes}",
            swaps_say_what_happens,
            swaps(SWAPPED, replace(SAYS_SO, **changes)),
            ((ADA, f"the swap of step {said} is not what is done"),),
        )
        for changes, said in (
            ({"step": "2"}, "2 from deadlift to snatch-grip-deadlift"),
            ({"from_exercise": "power-clean"}, "1 from power-clean to snatch-grip-deadlift"),
            ({"to_exercise": "power-clean"}, "1 from deadlift to power-clean"),
        )
    ),
    Spoiled(
        "a swap for no reason",
        swaps_say_what_happens,
        swaps(SWAPPED, replace(SAYS_SO, reason=" ")),
        ((ADA, "the swap of step 1 has no reason"),),
    ),
    Spoiled(
        "a demand that is barred",
        restrictions_are_kept,
        barred(demands=(Demand.OVERHEAD, Demand.LUNGE)),
        ((f"{ADA}.exercises[2]", "Strict press asks for overhead; Physio bars it"),),
    ),
    Spoiled(
        "an area that is barred",
        restrictions_are_kept,
        barred(does("power-clean", "squat-jump"), body_areas=(BodyArea.THIGH,)),
        ((f"{ADA}.exercises[1]", "Squat jump asks for thigh; Physio bars it"),),
    ),
    passes("a demand that nobody asks for", restrictions_are_kept, barred(demands=LUNGES)),
    passes(
        "from tomorrow",
        restrictions_are_kept,
        barred(demands=(Demand.OVERHEAD,), starts_on=TODAY + timedelta(days=1)),
    ),
    passes(
        "until today",
        restrictions_are_kept,
        barred(demands=(Demand.OVERHEAD,), starts_on=TODAY - timedelta(days=1), until=TODAY),
    ),
    passes(
        "lifted",
        restrictions_are_kept,
        change_athlete(
            barred(demands=(Demand.OVERHEAD,)),
            "A1",
            clearances=(Clearance("c", "r", "Physio", TODAY),),
        ),
    ),
    # Legs: from 3 nothing that lands, lunges or bends deeply on the area.
    *(
        Spoiled(
            f"{area.value} {score} with {name}",
            pain_is_respected,
            hurts(area, score, name),
            ((f"{ADA}.exercises[0]", f"{area.value} pain {score} of 10, and {said}"),)
            if said
            else (),
        )
        for area, score, name, said in (
            (BodyArea.KNEE, 2, "squat-jump", ""),
            (BodyArea.KNEE, 3, "squat-jump", f"Squat jump {LOADS_IT}"),
            (BodyArea.KNEE, 5, "squat-jump", f"Squat jump {LOADS_IT}"),
            (BodyArea.KNEE, 6, "squat-jump", f"Squat jump {LOADS_HALF}"),
            # It asks for the knee, and neither lands nor bends deeply.
            (BodyArea.KNEE, 5, "half-front-squat", ""),
            (BodyArea.KNEE, 6, "half-front-squat", f"Half front squat {LOADS_HALF}"),
            # It bends deeply, and not on the ankle.
            (BodyArea.ANKLE_FOOT, 5, "back-squat", ""),
            (BodyArea.ANKLE_FOOT, 6, "back-squat", f"Back squat {LOADS_HALF}"),
            # Whole body: feet that land, or the area itself, load the lower half.
            (
                BodyArea.HIP_GROIN,
                6,
                "squat-thrust-and-jump",
                f"Squat thrust with a jump {LOADS_HALF}",
            ),
            (BodyArea.HIP_GROIN, 6, "power-clean", f"Power clean {LOADS_HALF}"),
            (BodyArea.THIGH, 6, "power-clean", ""),
            (BodyArea.KNEE, 6, "push-up", ""),
            (BodyArea.KNEE, 6, "kneeling-push-up", f"Push-up from the knees {LOADS_HALF}"),
            (BodyArea.HIP_GROIN, 6, "clap-push-up", ""),
            # Upper half and back: from 3 nothing that loads the area, from 6 nothing of that half.
            (BodyArea.SHOULDER, 2, "push-up", ""),
            (BodyArea.SHOULDER, 3, "push-up", f"Push-up {LOADS_IT}"),
            (BodyArea.SHOULDER, 5, "standing-curl", ""),
            (BodyArea.SHOULDER, 6, "standing-curl", f"Standing curl {LOADS_HALF}"),
            (BodyArea.SHOULDER, 6, "split-stance-slam", f"Split-stance slam {LOADS_HALF}"),
            (BodyArea.SHOULDER, 6, "squat-jump", ""),
            (BodyArea.LOW_BACK, 3, "deadlift", f"Deadlift {LOADS_IT}"),
            (BodyArea.LOW_BACK, 5, "half-front-squat", ""),
            (BodyArea.LOW_BACK, 6, "half-front-squat", ""),
            (BodyArea.NECK, 3, "shrug", f"Shrug {LOADS_IT}"),
        )
    ),
    *(
        Spoiled(f"head pain {score} with {name}", pain_is_respected, case, faults)
        for score, name, faults in (
            (0, "squat-jump", ()),
            (
                *(1, "squat-jump"),
                ((f"{ADA}.exercises[0]", "head pain 1 of 10, and the work is Squat jump"),),
            ),
            (9, "seated-breathing-drill", ()),
        )
        for case in (hurts(BodyArea.HEAD, score, name),)
    ),
    # Deadlift: floor to floor. Power clean: floor to front rack. Press: front rack to front rack.
    Spoiled("the press sets it down at the end", bar_goes_from_exercise_to_exercise, SOUND),
    Spoiled("the press keeps it", bar_goes_from_exercise_to_exercise, NO_HANG, PRESS_STAYS),
    Spoiled(
        "nothing is written that lifts the bar",
        bar_goes_from_exercise_to_exercise,
        ends(ALONE, "3", BarPosition.BACK_RACK),
        PRESS_STAYS,
    ),
    Spoiled(
        "the clean left out, its rack is missing",
        bar_goes_from_exercise_to_exercise,
        change_dose(SOUND, "A1", exercises=(EXERCISES[0], EXERCISES[2])),
        ((ADA, "deadlift leaves the bar at the floor; strict-press takes it at the front rack"),),
    ),
    Spoiled(
        "the press cut, the clean before it lowers the bar",
        bar_goes_from_exercise_to_exercise,
        change_dose(SOUND, "A1", exercises=EXERCISES[:2]),
    ),
    Spoiled(
        "the clean swapped for one that ends overhead, which may come down to the rack",
        bar_goes_from_exercise_to_exercise,
        change_exercise(NO_HANG, "A1", "2", exercise="power-snatch"),
        PRESS_STAYS,
    ),
    Spoiled(
        "the press swapped, the swap lowers the bar",
        bar_goes_from_exercise_to_exercise,
        change_exercise(NO_HANG, "A1", "3", exercise="push-press"),
    ),
    Spoiled(
        "the press swapped for one that takes the bar from the back",
        bar_goes_from_exercise_to_exercise,
        change_exercise(SOUND, "A1", "3", exercise="back-squat"),
        ((ADA, f"{AT_RACK}; strict-press takes it at the back rack"),),
    ),
    Spoiled(
        "an exercise of another block does not take the bar",
        bar_goes_from_exercise_to_exercise,
        change_exercise(SOUND, "A1", "B1", exercise="strict-press"),
    ),
    Spoiled(
        "a block that is no complex has no bar to hand on",
        bar_goes_from_exercise_to_exercise,
        change_dose(SOUND, "A1", block="D", exercises=(EXERCISES[6], EXERCISES[7])),
    ),
)


@pytest.mark.parametrize("spoiled", CASES, ids=str)
def test_a_plan_spoiled_in_one_way_has_exactly_that_fault(spoiled: Spoiled) -> None:
    assert found(spoiled) == spoiled.faults


def test_each_fault_about_exercises_is_raised_by_some_case(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    assert lines_raised(movements, CASES, monkeypatch) == lines_that_raise(movements)


def test_what_the_cases_rest_on_is_so_in_the_library() -> None:
    moved = {"deadlift": "floor floor", "power-clean": "floor front rack"}
    moved |= {"strict-press": "front rack front rack", "power-snatch": "floor overhead"}
    said = {name: exercise(name) for name in moved}
    assert {name: f"{each.start} {each.end}" for name, each in said.items()} == moved
