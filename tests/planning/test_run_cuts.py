"""What fits when the slot is too short, and what a running session looks like with less time."""

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.planning.run_sheet_cases import AFTER, BEFORE, monday, ropewalk
from tests.planning.run_sheet_check import overlaps

from cases import cases
from squadwright.errors import InvalidInput
from squadwright.planning.run_sheet import (
    CircuitBlock,
    CircuitStation,
    CutKind,
    Drill,
    DrillBlock,
    DrillStyle,
    Fit,
    FixedPart,
    KitPool,
    LateArrival,
    NotFitting,
    PartKind,
    RunSheetProblem,
    RunSheetSolution,
    WorkGroup,
    lay_out,
    solve_run_sheet,
)
from squadwright.planning.run_sheet.retime import remaining


def too_short(problem: RunSheetProblem) -> NotFitting:
    answer = solve_run_sheet(problem)
    assert isinstance(answer, NotFitting)
    return answer


def lengths(fit: Fit) -> dict[PartKind, int]:
    return {part.kind: part.duration_s for part in (*fit.problem.before, *fit.problem.after)}


def test_spare_time_goes_before_anything_is_cut() -> None:
    solution = solve_run_sheet(monday(3300))
    assert isinstance(solution, RunSheetSolution)
    assert solution.spare_s == 60
    assert max(entry.end_s for entry in solution.entries) == 3300
    assert "Spare time shrinks from 6:00 to 1:00." in solution.notes


def test_rounds_are_cut_first_with_the_minutes_each_gains() -> None:
    answer = too_short(monday(3000))
    assert answer.over_by_s == 240
    assert answer.fit is not None
    (cut,) = answer.fit.cuts
    assert (cut.kind, cut.what, cut.gained_s) == (
        CutKind.ROUNDS,
        "Ropewalk: 4 to 3 rounds",
        240,
    )
    assert "4:00 too long for 50:00" in answer.message


def test_the_other_order_keeps_the_rounds_and_shortens_other_parts() -> None:
    answer = too_short(monday(2700))
    assert answer.fit is not None
    assert answer.other_fit is not None
    assert [cut.kind for cut in answer.fit.cuts] == [CutKind.ROUNDS] * 3
    assert [cut.kind for cut in answer.other_fit.cuts] == [CutKind.PART] * 2
    assert answer.other_fit.solution.blocks[0].duration_s == 960


def test_exercises_go_after_rounds_and_only_those_that_may() -> None:
    answer = too_short(monday(1560))
    assert answer.fit is not None
    kinds = [cut.kind for cut in answer.fit.cuts]
    assert kinds == sorted(kinds, key=[CutKind.ROUNDS, CutKind.PART, CutKind.EXERCISE].index)
    left = [step.exercise for step in answer.fit.solution.blocks[0].steps]
    assert {"row", "muscle clean"} <= set(left)
    assert lengths(answer.fit)[PartKind.WARM_UP] == 720


def test_twenty_two_minutes_left_keep_eight_of_warm_up_the_rehearsal_and_one_round() -> None:
    """480 + 480 + 240 + 60 + 60 = 1,320 s, by hand."""
    answer = solve_run_sheet(remaining(monday(late=()), now_s=360, left_s=22 * 60))
    assert isinstance(answer, NotFitting)
    assert answer.fit is not None
    assert lengths(answer.fit)[PartKind.WARM_UP] == 480
    assert lengths(answer.fit)[PartKind.REHEARSAL] == 480
    block = answer.fit.solution.blocks[0]
    assert block.duration_s == 240
    assert len(block.steps) == 6
    assert answer.fit.solution.makespan_s == 1320


def test_when_nothing_fits_the_least_length_is_named() -> None:
    answer = too_short(monday(1200))
    assert answer.fit is None
    assert answer.least_s == 60 + 480 + 480 + 2 * (31 + 20) + 60 + 60
    assert "needs 20:42" in answer.message
    assert "Find 0:42 more" in answer.message
    fits = solve_run_sheet(monday(answer.least_s))
    assert isinstance(fits, NotFitting)
    assert fits.fit is not None


def test_more_bars_buy_minutes_and_the_rest_that_is_left_is_said() -> None:
    (gain,) = too_short(monday(3000)).kit_gains
    assert (gain.kit, gain.more, gain.gained_s, gain.rest_s) == ("bar", 6, 480, 20)


def test_more_bars_buy_nothing_that_the_least_rest_takes_back() -> None:
    problem = replace(monday(3000), blocks=(ropewalk(minimum_rest_s=140),))
    (gain,) = too_short(problem).kit_gains
    assert (gain.gained_s, gain.rest_s) == (120, 140)


def test_one_more_box_is_named_with_what_it_buys() -> None:
    """Three groups, one box, 100 s each: 300 s; two boxes: 200 s."""
    block = DrillBlock(
        "jumps",
        (Drill("box jump", 1, 100, kit=("box",)),),
        tuple(WorkGroup(f"G{n}", (f"P{n}",)) for n in range(3)),
        (KitPool("box", 1),),
    )
    answer = too_short(RunSheetProblem(250, (), (block,), ()))
    (gain,) = answer.kit_gains
    assert (gain.kit, gain.more, gain.gained_s) == ("box", 1, 100)
    assert answer.fit is None


def test_one_more_lane_is_named_with_what_it_buys() -> None:
    """12 people, gap 5 s, pass 5 s, 4 passes: 6 a lane take 120 s, 4 a lane 80 s."""
    drill = Drill("bounds", 4, 5, gap_s=5, style=DrillStyle.LANE)
    lanes = tuple(WorkGroup(f"lane {n}", tuple(f"L{n}P{p}" for p in range(6))) for n in range(2))
    answer = too_short(RunSheetProblem(100, (), (DrillBlock("b", (drill,), lanes),), ()))
    (gain,) = answer.kit_gains
    assert (gain.kit, gain.more, gain.gained_s) == ("lane", 1, 40)


def test_room_for_one_more_group_at_a_circuit_station_is_named() -> None:
    block = CircuitBlock(
        "c",
        tuple(CircuitStation(f"S{n}", f"e{n}") for n in range(3)),
        tuple(WorkGroup(f"G{n}", (f"P{n}",)) for n in range(6)),
        work_s=40,
        move_s=20,
        rounds=1,
    )
    (gain,) = too_short(RunSheetProblem(300, (), (block,), ())).kit_gains
    assert gain.gained_s == 180


def test_sets_are_cut_from_the_longest_drill_and_drills_from_the_end() -> None:
    block = DrillBlock(
        "jumps",
        (Drill("one", 4, 30, rest_s=30), Drill("two", 2, 30, rest_s=30)),
        (WorkGroup("G", ("P",)),),
        minimum_sets=2,
    )
    answer = too_short(RunSheetProblem(130, (), (block,), ()))
    assert answer.fit is not None
    assert [cut.what for cut in answer.fit.cuts] == [
        "jumps, one: 4 to 3 sets",
        "jumps, one: 3 to 2 sets",
        "jumps: without two",
    ]


def test_minutes_left_in_a_round_finish_it_and_keep_the_rounds_that_fit() -> None:
    """300 s into the complex round 2 is under way: it ends at 480 s, two rounds are left."""
    left = remaining(monday(late=()), now_s=1560 + 300, left_s=1800)
    assert left.before == (FixedPart(PartKind.FINISH, 180),)
    assert left.blocks[0].rounds == 2  # type: ignore[union-attr]
    answer = solve_run_sheet(remaining(monday(late=()), now_s=1560 + 300, left_s=1800))
    assert isinstance(answer, RunSheetSolution)
    assert answer.makespan_s == 180 + 480 + 720
    assert "A13" not in {
        name for e in answer.entries if e.activity == "work" for name in e.athletes
    }


def test_a_part_under_way_goes_on_for_what_is_left_of_it() -> None:
    left = remaining(monday(late=()), now_s=960, left_s=2400)
    warm_up = left.before[0]
    assert (warm_up.kind, warm_up.duration_s, warm_up.shortest_s) == (PartKind.WARM_UP, 120, 0)


def test_a_late_athlete_keeps_what_is_left_of_his_warm_up() -> None:
    left = remaining(monday(), now_s=1000, left_s=2600)
    (arrival,) = left.late
    assert (arrival.arrives_s, arrival.warm_up_s, arrival.rehearsal_s) == (0, 200, 480)
    answer = solve_run_sheet(left)
    assert isinstance(answer, RunSheetSolution)
    assert answer.joins[0].ready_s == 1680 - 1000
    assert answer.joins[0].first_round == 2


def test_drills_that_are_done_or_under_way_are_not_planned_again() -> None:
    block = DrillBlock(
        "jumps",
        (Drill("one", 2, 30, rest_s=30, step=1), Drill("two", 2, 60, rest_s=30, step=2)),
        (WorkGroup("G", ("P",)),),
    )
    problem = RunSheetProblem(600, (), (block,), ())
    answer = solve_run_sheet(remaining(problem, now_s=50, left_s=300))
    assert isinstance(answer, RunSheetSolution)
    assert answer.entries[0].activity == PartKind.FINISH
    assert answer.entries[0].end_s == 40
    assert {entry.exercise for entry in answer.entries[1:]} == {"two"}


def test_after_the_last_part_there_is_nothing_to_time() -> None:
    with pytest.raises(InvalidInput, match="after everything planned"):
        remaining(monday(late=()), now_s=3600, left_s=60)


@given(slot_s=st.integers(300, 3700), late_s=st.integers(0, 3000))
@settings(max_examples=cases(60), deadline=None)
def test_whatever_the_slot_the_answer_fits_or_says_why_not(slot_s: int, late_s: int) -> None:
    problem = monday(slot_s, late=(LateArrival("A05", late_s),))
    answer = solve_run_sheet(problem)
    if isinstance(answer, RunSheetSolution):
        assert answer.makespan_s <= slot_s
        assert all(entry.end_s <= slot_s for entry in answer.entries)
        assert overlaps(answer.entries) == []
        return
    assert answer.least_s <= lay_out(problem).makespan_s
    assert (answer.fit is None) == (answer.least_s > slot_s)
    for fit in (answer.fit, answer.other_fit):
        if fit is not None:
            assert fit.solution.makespan_s <= slot_s
            assert all(entry.end_s <= slot_s for entry in fit.solution.entries)
            assert overlaps(fit.solution.entries) == []
            assert lengths(fit)[PartKind.REHEARSAL] == 480
            assert lengths(fit)[PartKind.WARM_UP] >= 480
            gained = sum(cut.gained_s for cut in fit.cuts)
            assert fit.solution.makespan_s == lay_out(problem).makespan_s - gained


@given(now_s=st.integers(0, 3500), left_s=st.integers(60, 3600))
@settings(max_examples=cases(60), deadline=None)
def test_any_moment_can_be_timed_again(now_s: int, left_s: int) -> None:
    answer = solve_run_sheet(remaining(monday(), now_s=now_s, left_s=left_s))
    solution = (
        answer if isinstance(answer, RunSheetSolution) else answer.fit and answer.fit.solution
    )
    if solution:
        assert solution.makespan_s <= left_s
        assert overlaps(solution.entries) == []


def test_fixed_parts_alone_make_a_sheet() -> None:
    solution = solve_run_sheet(RunSheetProblem(3600, BEFORE, (), AFTER))
    assert isinstance(solution, RunSheetSolution)
    assert solution.makespan_s == 360 + 720 + 480 + 360 + 360
