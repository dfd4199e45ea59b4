"""What is said of a routine before anyone does it: flow, length, slot, room, contacts, kit."""

from dataclasses import replace
from datetime import date

import pytest

from squadwright.demo import demo_club
from squadwright.errors import InvalidInput
from squadwright.library import exercise, routine, routines
from squadwright.model.athlete import Level
from squadwright.model.exercise import BarPosition
from squadwright.model.plan import Severity
from squadwright.model.routine import Block, CountedIn, Routine, Scheme, Step, Style
from squadwright.planning.bar_flow import flow_breaks
from squadwright.planning.contacts import count_step
from squadwright.planning.routine_check import (
    RoutineFinding,
    Trial,
    check_routine,
    try_routine,
)
from squadwright.planning.routine_check.trial import MOST_ATHLETES, slot_of
from squadwright.planning.routine_check.usual import usual_lane, usual_scheme

CLUB = demo_club(date(2026, 3, 2))
WEIGHTS, MATS = CLUB.rooms[0], CLUB.rooms[1]
FOUR = Scheme(CountedIn.REPETITIONS, 4)


def trial(chosen: Routine, athletes: int = 12, **more: object) -> Trial:
    usual = Trial(chosen, athletes, Level.NOVICE, CLUB.kit, slot_of(chosen.slot_minutes), MATS)
    return replace(usual, **more)  # type: ignore[arg-type]


def found(tried: Trial) -> dict[str, RoutineFinding]:
    return {f.rule: f for f in check_routine(tried, try_routine(tried))}


def complex_of(*names: str) -> Routine:
    steps = tuple(Step(name, FOUR, label=str(n)) for n, name in enumerate(names, start=1))
    blocks = (Block("Rope", Style.COMPLEX, steps, waves=2),)
    return Routine("rope", 1, "Rope", "grip", blocks)


def test_the_jump_session_of_the_demo_has_its_contacts_and_throws() -> None:
    # Counted by hand from the routine: 20 + 8 + 12 + 10 landings, 10 + 16 + 16 throws.
    said = found(trial(routine("tide-lanes")))["contacts"]
    assert said.sentence == (
        "50 contacts and 42 throws for each athlete, below the band of 80 to 100 for the level "
        "novice."
    )
    assert said.severity is Severity.NOTE
    assert any("NSCA" in line for line in said.why)
    assert "Novice: 80 to 100 contacts a session." in said.why


def test_more_contacts_than_the_band_are_warned_of() -> None:
    step = Step("squat-jump", Scheme(CountedIn.REPETITIONS, 10, 11))
    block = Block("Jumps", Style.SETS, (step,))
    jumps = Routine("jumps", 1, "Jumps", "power", (block,))
    assert found(trial(jumps))["contacts"].severity is Severity.WARNING
    advanced = replace(jumps, level="advanced")
    assert found(trial(advanced))["contacts"].severity is Severity.NOTE


def test_an_exercise_above_the_level_of_the_routine_is_warned_of() -> None:
    step = Step("depth-jump", Scheme(CountedIn.REPETITIONS, 3, 2))
    jumps = Routine("jumps", 1, "Jumps", "power", (Block("Jumps", Style.SETS, (step,)),))
    said = found(trial(jumps))["level"]
    assert said.severity is Severity.WARNING
    assert said.sentence.startswith("Depth jump is kept for the level ")
    assert said.advice.startswith("Easier: ")
    assert "level" not in found(trial(replace(jumps, level=exercise("depth-jump").least_level)))


def test_a_break_of_the_bar_is_told_with_fixes_that_mend_it() -> None:
    broken = complex_of("romanian-deadlift", "front-squat")
    tried = trial(broken)
    said = check_routine(tried, try_routine(tried))[0]
    assert (said.rule, said.severity) == ("bar flow", Severity.WARNING)
    assert "1 Romanian deadlift leaves the bar at the hang" in said.sentence
    assert said.fixes
    before = len(flow_breaks(broken.blocks[0].steps, exercise))
    for fix in said.fixes:
        assert len(flow_breaks(fix.steps, exercise)) < before
    assert len({fix.key for fix in said.fixes}) == len(said.fixes)


def test_a_bar_that_flows_is_said_calmly_with_each_place_it_passes() -> None:
    said = found(trial(routine("ropewalk")))["bar flow"]
    assert (said.severity, said.fixes) == (Severity.NOTE, ())
    assert (
        "6. Split-stance strict press: from the front rack to the front rack, then lowered to "
        "the hang." in said.why
    )


def test_the_clock_of_a_complex_is_that_of_its_waves() -> None:
    # By hand: 4 rounds of 2 waves of 1:40 and 0:20.
    said = found(trial(routine("ropewalk")))
    assert said["length"].sentence == (
        "One round is 1:40 of work, 2 waves. All the work takes 16:00 with 12 athletes."
    )
    assert said["slot"].severity is Severity.NOTE
    # 6 to arrive, 12 warm-up, 8 rehearsal, 16 work, 6 cool-down, 6 to pack.
    assert said["slot"].sentence == "It fits 60 minutes with 6:00 to spare."


def test_a_slot_that_is_too_short_is_told_with_what_would_fit() -> None:
    # 3 to arrive, 12 warm-up, 8 rehearsal, 16 work, 3 cool-down, 3 to pack.
    said = found(trial(routine("ropewalk"), session=slot_of(42)))["slot"]
    assert said.severity is Severity.WARNING
    assert said.sentence == "It needs 45:00 and the slot has 42 minutes: 3:00 too long."
    assert "4 to 3 rounds" in said.advice


def test_a_room_that_is_too_small_says_how_many_places_fit() -> None:
    said = found(trial(routine("tide-lanes"), room=WEIGHTS))["room"]
    assert said.severity is Severity.WARNING
    assert "fit" in said.sentence
    assert found(trial(routine("tide-lanes")))["room"].severity is Severity.NOTE
    assert "no room yet" in found(trial(routine("tide-lanes"), room=None))["room"].sentence


def test_too_many_for_the_bars_is_a_warning_and_no_crash() -> None:
    said = found(trial(routine("ropewalk"), athletes=30))["length"]
    assert said.severity is Severity.WARNING
    assert "30 lifters on 6 bars" in said.sentence


def test_kit_is_counted_and_what_the_store_lacks_is_named() -> None:
    assert found(trial(routine("ropewalk")))["kit"].sentence == (
        "Kit for 12 athletes: 6 bars in 2 waves. The store has it all."
    )
    bare = replace(CLUB.kit, balls=())
    said = found(trial(routine("tide-lanes"), kit=bare))["kit"]
    assert said.severity is Severity.WARNING
    assert "There is no ball or box that fits for B" in said.sentence


def test_a_routine_for_one_half_of_the_body_says_so() -> None:
    said = found(trial(complex_of("romanian-deadlift", "bent-over-row")))["balance"]
    assert said.advice == ""
    lower = found(trial(complex_of("romanian-deadlift", "stiff-leg-deadlift")))["balance"]
    assert "100% of the repetitions are lower body" in lower.sentence
    assert lower.advice == "Put in one exercise for the upper body."


@pytest.mark.parametrize("athletes", [0, MOST_ATHLETES + 1])
def test_a_trial_of_nobody_or_of_a_crowd_is_refused(athletes: int) -> None:
    with pytest.raises(InvalidInput, match="athletes"):
        trial(routine("ropewalk"), athletes=athletes)


@pytest.mark.parametrize("name", [r.id for r in routines()])
def test_every_routine_of_the_shelf_can_be_looked_at(name: str) -> None:
    said = found(trial(routine(name)))
    assert {"length", "balance", "kit"} <= set(said)
    assert all(f.why and f.sentence.endswith(".") for f in said.values())


def test_the_usual_amount_can_be_counted_for_every_exercise_in_every_style() -> None:
    from squadwright.library import exercises

    for each in exercises():
        lane = usual_lane((each,))
        for style in Style:
            assert count_step(each, usual_scheme(style, each), lane=lane).work_s > 0


def test_where_the_bar_ends_is_written_out() -> None:
    step = Step("strict-press", FOUR, last_ends=BarPosition.HANG)
    hinge = Step("romanian-deadlift", FOUR)
    clean = Step("muscle-clean", FOUR)
    block = Block("Rope", Style.COMPLEX, (hinge, clean, step))
    said = found(trial(Routine("r", 1, "R", "grip", (block,))))["bar flow"]
    assert said.severity is Severity.NOTE
