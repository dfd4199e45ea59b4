"""Drills written out by hand to the second: together, in turn, thrown, in a line."""

from dataclasses import replace

import pytest

from squadwright.planning.run_sheet import (
    Drill,
    DrillBlock,
    DrillStyle,
    LaneWay,
    RestOwed,
    WorkGroup,
)
from squadwright.planning.run_sheet.drill_sheet import time_drills
from squadwright.planning.run_sheet.drill_timing import drill_rest_s, drill_s, drill_turns

Turns = list[tuple[int, int, int, int]]


@pytest.mark.parametrize(
    ("drill", "people", "turns", "whole_s", "rest"),
    [
        # Both at once, 10 s of rest between two sets.
        (
            Drill("d", 2, 20, rest_s=10),
            2,
            [(0, 20, 0, 1), (0, 20, 1, 1), (30, 50, 0, 2), (30, 50, 1, 2)],
            *(50, 10),
        ),
        (Drill("d", 1, 20, rest_s=10), 1, [(0, 20, 0, 1)], 20, None),
        # A line: a start each 5 s, the next set when all three have gone.
        (
            Drill("d", 2, 4, style=DrillStyle.LANE, gap_s=3, clear_s=5, return_s=6),
            3,
            [(0, 4, 0, 1), (5, 9, 1, 1), (10, 14, 2, 1), (15, 19, 0, 2), (20, 24, 1, 2),
             (25, 29, 2, 2)],
            *(35, 5),
        ),
        # A line of one: back and rested, 4 + 6 + 7 s.
        (
            Drill("d", 2, 4, rest_s=7, style=DrillStyle.LANE, gap_s=3, return_s=6),
            1,
            [(0, 4, 0, 1), (17, 21, 0, 2)],
            *(27, 7),
        ),
        # In turn: 20 s of work and 5 s to change.
        (
            Drill("d", 2, 20, change_s=5, style=DrillStyle.IN_TURN),
            2,
            [(0, 20, 0, 1), (25, 45, 1, 1), (50, 70, 0, 2), (75, 95, 1, 2)],
            *(95, 30),
        ),
        # In turn, and the rest owed is longer than the turn of the other: 20 + 40 s.
        (
            Drill("d", 2, 20, rest_s=40, change_s=5, style=DrillStyle.IN_TURN),
            2,
            [(0, 20, 0, 1), (25, 45, 1, 1), (60, 80, 0, 2), (85, 105, 1, 2)],
            *(105, 40),
        ),
        # Two throw to each other.
        (
            Drill("d", 2, 20, change_s=5, style=DrillStyle.BOTH_THROW),
            2,
            [(0, 20, 0, 1), (0, 20, 1, 1), (25, 45, 0, 2), (25, 45, 1, 2)],
            *(45, 5),
        ),
        # Three throw: who has most left and has waited longest; each twice in three turns.
        (
            Drill("d", 2, 20, style=DrillStyle.BOTH_THROW),
            3,
            [(0, 20, 0, 1), (0, 20, 1, 1), (20, 40, 2, 1), (20, 40, 0, 2), (40, 60, 1, 2),
             (40, 60, 2, 2)],
            *(60, 0),
        ),
        # Three with one set each: the third throws alone.
        (
            Drill("d", 1, 20, change_s=5, style=DrillStyle.BOTH_THROW),
            3,
            [(0, 20, 0, 1), (0, 20, 1, 1), (25, 45, 2, 1)],
            *(45, None),
        ),
        # The rest owed is longer than the change: 30 s between two own sets.
        (
            Drill("d", 2, 20, rest_s=30, change_s=5, style=DrillStyle.BOTH_THROW),
            2,
            [(0, 20, 0, 1), (0, 20, 1, 1), (50, 70, 0, 2), (50, 70, 1, 2)],
            *(70, 30),
        ),
    ],
)  # fmt: skip
def test_the_turns_of_a_drill(
    drill: Drill, people: int, turns: Turns, whole_s: int, rest: int | None
) -> None:
    found = [(t.start_s, t.end_s, t.worker, t.set_number) for t in drill_turns(drill, people)]
    assert found == turns
    assert (drill_s(drill, people), drill_rest_s(drill, people)) == (whole_s, rest)


def drills(*of: Drill, members: tuple[str, ...] = ("ann", "bo", "cy")) -> DrillBlock:
    return DrillBlock("D", of, (WorkGroup("g", members),))


def test_in_turn_one_works_the_next_feeds_and_the_third_watches() -> None:
    timing = time_drills(
        drills(Drill("d", 1, 20, change_s=5, style=DrillStyle.IN_TURN)), 100, {}, 1.0
    )
    assert [(e.start_s, e.end_s, e.role, *e.athletes, e.set) for e in timing.entries] == [
        (100, 120, "feed", "bo", None),
        (100, 120, "watch", "cy", None),
        (100, 120, "work", "ann", 1),
        (125, 145, "feed", "cy", None),
        (125, 145, "watch", "ann", None),
        (125, 145, "work", "bo", 1),
        (150, 170, "feed", "ann", None),
        (150, 170, "watch", "bo", None),
        (150, 170, "work", "cy", 1),
    ]
    assert timing.rests == ()


def test_two_throw_and_the_third_watches_and_one_who_throws_alone_is_fed() -> None:
    timing = time_drills(drills(Drill("d", 1, 20, style=DrillStyle.BOTH_THROW)), 0, {}, 1.0)
    assert [(e.start_s, e.role, *e.athletes) for e in timing.entries] == [
        (0, "watch", "cy"),
        (0, "work", "ann"),
        (0, "work", "bo"),
        (20, "feed", "ann"),
        (20, "watch", "bo"),
        (20, "work", "cy"),
    ]


def test_a_lane_turns_round_each_other_set_and_says_how_they_come_back() -> None:
    lane = Drill("d", 3, 4, style=DrillStyle.LANE, gap_s=10, return_s=5, turns_round=True)
    for way, words in ((LaneWay.WALK_BACK, "work"), (LaneWay.SPRINT_BACK, "work, one way and")):
        timing = time_drills(drills(replace(lane, way=way), members=("ann",)), 0, {}, 1.0)
        assert [(e.start_s, e.end_s, e.role) for e in timing.entries] == [
            (0, 9, "facing one way"),
            (10, 19, "facing the other way"),
            (20, 29, "facing one way"),
        ]
        assert all(e.activity.startswith(words) for e in timing.entries)
        assert timing.rests == (RestOwed("D", "g, d", 1),)
    once = time_drills(drills(replace(lane, sets=1), members=("ann",)), 0, {}, 1.0)
    assert once.rests == ()


def test_who_is_not_here_yet_is_left_out_and_a_group_of_nobody_has_no_line() -> None:
    one, two = Drill("d", 1, 20, style=DrillStyle.IN_TURN), Drill("e", 1, 20, step=2)
    block = drills(one, two, members=("ann", "bo"))
    # The second drill begins at 40 s, when both have had their turn.
    for ready, first, second, alone in (
        ({"bo": 0}, {"ann", "bo"}, {"ann", "bo"}, 0),
        ({"bo": 1}, {"ann"}, {"ann", "bo"}, 1),
        ({"bo": 40}, {"ann"}, {"ann", "bo"}, 1),
        ({"bo": 41}, {"ann"}, {"ann"}, 2),
        ({"ann": 41, "bo": 41}, set(), set(), 0),
    ):
        timing = time_drills(block, 0, ready, 1.0)
        found = {
            name: {a for e in timing.entries if e.exercise == name for a in e.athletes}
            for name in "de"
        }
        assert found == {"d": first, "e": second}, ready
        assert len(timing.notes) == alone, ready
    lane = replace(one, style=DrillStyle.LANE, gap_s=1)
    assert time_drills(drills(lane, members=("ann", "bo")), 0, {"bo": 9}, 1.0).notes == ()
    assert time_drills(drills(one, members=("ann",)), 0, {}, 1.0).notes == ()
