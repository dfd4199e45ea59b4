"""Drills in lanes, with partners and at shared kit."""

from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.planning.run_sheet_check import overlaps, own_rests

from cases import cases
from squadwright.errors import InvalidInput
from squadwright.planning.run_sheet import (
    Drill,
    DrillBlock,
    DrillStyle,
    KitPool,
    LaneWay,
    LateArrival,
    RunSheetProblem,
    RunSheetSolution,
    WorkGroup,
    solve_run_sheet,
)
from squadwright.planning.run_sheet.drill_timing import (
    drill_rest_s,
    drill_s,
    drill_turns,
    lane_rest_s,
)

IN_TURN = DrillStyle.IN_TURN


def lane_drill(gap_s: int, pass_s: int, **settings: int | LaneWay | bool) -> Drill:
    chosen = {"sets": 3, "style": DrillStyle.LANE} | settings
    return Drill("bounds", set_s=pass_s, gap_s=gap_s, **chosen)  # type: ignore[arg-type]


def solved(block: DrillBlock, late: tuple[LateArrival, ...] = ()) -> RunSheetSolution:
    solution = solve_run_sheet(RunSheetProblem(4 * 3600, (), (block,), (), late=late))
    assert isinstance(solution, RunSheetSolution)
    assert overlaps(solution.entries) == []
    return solution


def groups(*sizes: int) -> tuple[WorkGroup, ...]:
    return tuple(
        WorkGroup(f"lane {lane}", tuple(f"L{lane}P{place}" for place in range(size)))
        for lane, size in enumerate(sizes, start=1)
    )


@pytest.mark.parametrize(("people", "rest_s"), [(6, 25), (11, 50), (4, 15)])
def test_a_line_with_one_moving_rests_while_the_others_go(people: int, rest_s: int) -> None:
    """Rest = (N - 1) x w with w = 5 s, by arithmetic."""
    assert lane_rest_s(lane_drill(5, 5), people) == rest_s


def test_a_staggered_line_rests_people_times_gap_less_the_pass() -> None:
    """8 people, gap 2 s, pass 5 s: 8 x 2 - 5 = 11 s, by arithmetic."""
    assert lane_rest_s(lane_drill(2, 5), 8) == 11


def test_a_line_waits_until_the_landing_is_clear() -> None:
    starts = [turn.start_s for turn in drill_turns(lane_drill(2, 6, clear_s=4), 4)]
    assert all(after - before >= 4 for before, after in pairwise(starts))


def test_a_short_line_waits_until_its_first_one_is_back_and_rested() -> None:
    drill = lane_drill(3, 5, return_s=6, rest_s=30, way=LaneWay.SPRINT_BACK)
    assert drill_rest_s(drill, 2) == 30
    assert drill_s(drill, 2) == 2 * (5 + 6 + 30) + 3 + 5 + 6


def test_facing_changes_every_other_pass() -> None:
    drill = lane_drill(3, 5, way=LaneWay.SPRINT_BACK, return_s=4, turns_round=True)
    solution = solved(DrillBlock("lines", (drill,), groups(4)))
    own = [entry for entry in solution.entries if "L1P2" in entry.athletes]
    assert [e.role for e in own] == ["facing one way", "facing the other way", "facing one way"]
    assert {e.activity for e in own} == {"work, one way and sprint back"}


def test_a_pair_takes_turns_and_a_three_takes_one_set_time_more_for_each_set() -> None:
    """4 sets of 20 s with 10 s to change: 2 x 4 x 30 s, less the last change, for a pair."""
    drill = Drill("jump", 4, 20, change_s=10, style=IN_TURN)
    assert drill_s(drill, 2) == 2 * 4 * 30 - 10
    assert drill_s(drill, 3) - drill_s(drill, 2) == 4 * 30
    assert drill_rest_s(drill, 2) == 40
    assert drill_rest_s(drill, 3) == 70


def test_partner_rest_is_kept_when_the_partners_turn_is_too_short_for_it() -> None:
    drill = Drill("jump", 4, 20, rest_s=60, change_s=5, style=IN_TURN)
    solution = solved(DrillBlock("jumps", (drill,), groups(2)))
    assert own_rests(solution.entries, "L1P0", "jump") == [60, 60, 60]


def test_in_a_three_one_works_one_feeds_one_watches_and_all_take_each_role_alike() -> None:
    drill = Drill("jump", 3, 20, change_s=5, style=IN_TURN)
    solution = solved(DrillBlock("jumps", (drill,), groups(3)))
    for person in groups(3)[0].members:
        roles = [entry.role for entry in solution.entries if person in entry.athletes]
        assert sorted(roles) == ["feed"] * 3 + ["watch"] * 3 + ["work"] * 3
    for start in {entry.start_s for entry in solution.entries}:
        at_once = sorted(e.role for e in solution.entries if e.start_s == start)
        assert at_once == ["feed", "watch", "work"]


@pytest.mark.parametrize(("people", "sets", "turns"), [(2, 4, 4), (3, 2, 3), (3, 4, 6), (3, 3, 5)])
def test_when_both_throw_a_pair_needs_one_turn_a_set_and_a_three_half_as_many_again(
    people: int, sets: int, turns: int
) -> None:
    drill = Drill("pass", sets, 20, change_s=5, style=DrillStyle.BOTH_THROW)
    assert drill_s(drill, people) == turns * 25 - 5
    own = [turn.worker for turn in drill_turns(drill, people)]
    assert all(own.count(worker) == sets for worker in range(people))


def tide_lanes(boxes: int = 2) -> DrillBlock:
    """Four lanes of three: broad jumps, then bounds and box jumps, which need one of two boxes."""
    return DrillBlock(
        "jumps",
        (
            Drill("broad jump", 4, 12, change_s=8, style=IN_TURN, step=1),
            Drill("bound", 2, 20, change_s=8, style=IN_TURN, step=2),
            Drill("box jump", 5, 12, change_s=8, style=IN_TURN, step=2, kit=("foam box",)),
        ),
        groups(3, 3, 3, 3),
        (KitPool("foam box", boxes),),
        change_s=30,
    )


def test_with_two_boxes_two_lanes_jump_while_two_bound_and_then_they_change() -> None:
    solution = solved(tide_lanes())
    first = {}
    for lane in range(1, 5):
        box = [e.start_s for e in solution.entries if e.group == f"lane {lane}" and e.kit]
        bound = [
            e.start_s
            for e in solution.entries
            if e.group == f"lane {lane}" and e.exercise == "bound"
        ]
        first[lane] = "box" if min(box) < min(bound) else "bound"
    assert sorted(first.values()) == ["bound", "bound", "box", "box"]
    assert {piece for e in solution.entries for piece in e.kit} == {"foam box 1", "foam box 2"}
    assert solution.is_proven


def test_the_tide_lanes_are_as_short_as_the_boxes_allow() -> None:
    """By hand: 232 s + 30 s, then the boxes serve two lanes each: 2 x 292 s and no gap between."""
    assert drill_s(tide_lanes().drills[0], 3) == 232
    assert drill_s(tide_lanes().drills[2], 3) == 292
    assert solved(tide_lanes()).makespan_s == 232 + 30 + 2 * 292


def test_test_day_of_fourteen_takes_seventy_minutes_on_the_sheet_too() -> None:
    minutes = (2, 3, 4, 3, 5)
    block = DrillBlock(
        "tests",
        tuple(Drill(f"test {n}", 1, 60 * m, kit=(f"place {n}",)) for n, m in enumerate(minutes)),
        tuple(WorkGroup(f"A{n}", (f"A{n}",)) for n in range(14)),
        tuple(KitPool(f"place {n}", 1) for n in range(5)),
    )
    solution = solved(block)
    assert solution.makespan_s == 70 * 60
    assert solution.is_proven


def test_sets_that_free_the_station_let_the_next_one_work_in_the_rest() -> None:
    drill = Drill("sled", 3, 30, rest_s=30, kit=("sled",), frees_kit_between_sets=True)
    block = DrillBlock("sets", (drill,), groups(1, 1), (KitPool("sled", 1),))
    solution = solved(block)
    assert solution.makespan_s == 180
    assert own_rests(solution.entries, "L1P0", "sled") == [30, 30]


def test_a_late_partner_leaves_a_note_about_who_is_left_alone() -> None:
    block = DrillBlock(
        "jumps",
        (
            Drill("one", 3, 60, style=IN_TURN, step=1),
            Drill("two", 3, 120, style=IN_TURN, step=2),
        ),
        groups(2),
    )
    solution = solved(block, late=(LateArrival("L1P1", 0, warm_up_s=480),))
    assert any("L1P0 has no partner for one" in note for note in solution.notes)


def test_unknown_kit_is_refused_with_its_place() -> None:
    with pytest.raises(InvalidInput, match="'box' is not among the kit pools"):
        DrillBlock("b", (Drill("d", 1, 10, kit=("box",)),), groups(2))


def test_a_person_in_two_groups_is_refused() -> None:
    twice = (WorkGroup("one", ("P",)), WorkGroup("two", ("P",)))
    with pytest.raises(InvalidInput, match="'P' stands in two groups"):
        DrillBlock("b", (Drill("d", 1, 10),), twice)


@st.composite
def drill_blocks(draw: st.DrawFn) -> DrillBlock:
    """Up to four groups of one to four, up to four drills of any style, two kinds of kit."""
    drills = []
    for number in range(draw(st.integers(1, 4))):
        style = draw(st.sampled_from(list(DrillStyle)))
        drills.append(
            Drill(
                f"drill {number}",
                sets=draw(st.integers(1, 4)),
                set_s=draw(st.integers(5, 40)),
                rest_s=draw(st.integers(0, 60)),
                change_s=draw(st.integers(0, 15)),
                style=style,
                kit=tuple(sorted(draw(st.sets(st.sampled_from(["box", "ball"]), max_size=2)))),
                step=draw(st.integers(1, 2)),
                gap_s=draw(st.integers(1, 6)),
                return_s=draw(st.integers(0, 10)),
                clear_s=draw(st.integers(0, 6)),
                frees_kit_between_sets=style is DrillStyle.TOGETHER and draw(st.booleans()),
            )
        )
    sizes = draw(st.lists(st.integers(1, 4), min_size=1, max_size=4))
    pools = (KitPool("box", draw(st.integers(1, 3))), KitPool("ball", draw(st.integers(1, 3))))
    return DrillBlock("b", tuple(drills), groups(*sizes), pools, change_s=draw(st.integers(0, 30)))


@given(drill_blocks())
@settings(max_examples=cases(80), deadline=None)
def test_nobody_is_in_two_places_no_kit_is_used_twice_and_rests_are_kept(
    block: DrillBlock,
) -> None:
    solution = solved(block)
    assert solution.blocks[0].lower_bound_s <= solution.blocks[0].duration_s
    for group in block.groups:
        for person in group.members:
            for drill in block.drills:
                own = [
                    entry
                    for entry in solution.entries
                    if person in entry.athletes
                    and entry.exercise == drill.name
                    and entry.activity.startswith("work")
                ]
                assert len(own) == drill.sets
                rests = own_rests(solution.entries, person, drill.name)
                assert all(rest >= drill.rest_s for rest in rests)
