"""Run sheet of the barbell hour: times, rests, late arrivals."""

from dataclasses import replace

import pytest
from tests.planning.run_sheet_cases import MOVEMENTS, monday, ropewalk
from tests.planning.run_sheet_check import overlaps, own_rests

from squadwright.errors import InvalidInput
from squadwright.planning.run_sheet import (
    BarUser,
    ComplexBlock,
    FixedPart,
    LateArrival,
    PartKind,
    RunSheetProblem,
    RunSheetSolution,
    TimedExercise,
    solve_run_sheet,
)


def solved(slot_s: int = 3600, **settings: tuple[LateArrival, ...]) -> RunSheetSolution:
    solution = solve_run_sheet(monday(slot_s, **settings))
    assert isinstance(solution, RunSheetSolution)
    return solution


def test_the_complex_takes_sixteen_minutes_and_rests_one_hundred_and_forty_seconds() -> None:
    """2 waves x (100 + 20) s = 240 s a round, 4 rounds = 960 s; rest 240 - 100 = 140 s."""
    solution = solved()
    (block,) = solution.blocks
    assert block.duration_s == 960
    assert block.lower_bound_s == 960
    assert [rest.rest_s for rest in solution.rests] == [140, 140]
    assert own_rests(solution.entries, "A06", "Ropewalk") == [140, 140, 140]


def test_the_barbell_hour_is_filled_to_the_second() -> None:
    solution = solved()
    assert solution.is_proven
    assert solution.makespan_s == 3600 - 360
    assert solution.spare_s == 360
    assert max(entry.end_s for entry in solution.entries) == 3600
    assert min(entry.start_s for entry in solution.entries) == -600
    assert overlaps(solution.entries) == []


def test_twelve_minutes_late_means_rounds_two_to_four() -> None:
    solution = solved()
    (join,) = solution.joins
    assert (join.athlete, join.first_round, join.rounds) == ("A05", 2, 3)
    rounds = [e.round for e in solution.entries if "A05" in e.athletes and e.activity == "work"]
    assert rounds == [2, 3, 4]
    own = [e for e in solution.entries if e.group == "late"]
    assert [(e.start_s, e.end_s) for e in own] == [(720, 1200), (1200, 1680)]


def test_the_tapering_athlete_works_two_rounds_and_then_helps() -> None:
    own = [entry for entry in solved().entries if "A13" in entry.athletes]
    assert [(e.activity, e.round) for e in own] == [
        ("work", 1),
        ("work", 2),
        ("help and watch", None),
    ]


def test_a_late_athlete_who_is_warm_in_time_rehearses_with_the_squad() -> None:
    solution = solved(late=(LateArrival("A05", 500),))
    (join,) = solution.joins
    assert (join.ready_s, join.first_round) == (1560, 1)


def test_a_late_athlete_who_misses_every_round_helps_and_watches() -> None:
    solution = solved(late=(LateArrival("A05", 1700),))
    (join,) = solution.joins
    assert join.first_round is None
    assert any("helps and watches" in note for note in solution.notes)
    own = [entry for entry in solution.entries if "A05" in entry.athletes]
    assert [(e.start_s, e.end_s, e.activity) for e in own] == [(1700, 2520, "help and watch")]


def test_two_waves_of_ninety_seconds_and_four_rounds_take_960_seconds() -> None:
    block = ropewalk()
    block = ComplexBlock("b", (TimedExercise("all", 90),), block.users, 4, change_s=30)
    solution = solve_run_sheet(
        RunSheetProblem(3600, (), (block,), ()),
    )
    assert isinstance(solution, RunSheetSolution)
    assert solution.makespan_s == 960


def test_a_single_wave_waits_for_the_least_rest_between_rounds() -> None:
    """Eight exercises, six rounds, 60 s between rounds: common practice, no source."""
    users = tuple(BarUser(f"P{i}", f"g{i}", f"bar {i}", 1) for i in range(3))
    block = ComplexBlock("b", MOVEMENTS, users, 6, change_s=20, minimum_rest_s=60)
    solution = solve_run_sheet(RunSheetProblem(3600, (), (block,), ()))
    assert isinstance(solution, RunSheetSolution)
    assert own_rests(solution.entries, "P1", "b") == [60] * 5
    assert solution.makespan_s == 5 * 160 + 120
    assert solution.is_proven


def test_two_users_of_one_bar_in_one_wave_are_refused() -> None:
    users = (BarUser("P1", "g", "bar 1", 1), BarUser("P2", "g", "bar 1", 1))
    with pytest.raises(InvalidInput, match="two users in wave 1"):
        ComplexBlock("b", MOVEMENTS, users, 4)


def test_one_who_is_done_leaves_his_place_to_another_in_the_same_wave() -> None:
    """Two waves of 100 s and 20 s to change, four rounds: 16 minutes by hand, as without her."""
    users = (
        BarUser("P1", "g", "bar 1", 1, rounds=2),
        BarUser("P2", "g", "bar 1", 2),
        BarUser("P3", "g", "bar 1", 1, rounds=2, first_round=3),
    )
    block = ComplexBlock("b", MOVEMENTS, users, 4, change_s=20)
    solution = solve_run_sheet(RunSheetProblem(3600, (), (block,), ()))
    assert isinstance(solution, RunSheetSolution)
    work = [e for e in solution.entries if e.activity == "work"]
    rounds = {n: [e.round for e in work if n in e.athletes] for n in ("P1", "P2", "P3")}
    assert rounds == {"P1": [1, 2], "P2": [1, 2, 3, 4], "P3": [3, 4]}
    assert (solution.makespan_s, solution.is_proven) == (960, True)
    # She watches until her place is free, and nobody is at one bar at the same time.
    (watching,) = [e for e in solution.entries if e.athletes == ("P3",) and e.activity != "work"]
    assert (watching.activity, watching.start_s, watching.end_s) == ("help and watch", 0, 480)
    with pytest.raises(InvalidInput, match="two users in wave 1"):
        replace(block, users=(*users[:2], replace(users[2], first_round=2)))


def test_a_late_warm_up_below_eight_minutes_is_refused() -> None:
    with pytest.raises(InvalidInput, match="300 s is below the least of 480 s"):
        monday(late=(LateArrival("A05", 720, warm_up_s=300),))


def test_a_rehearsal_that_could_shrink_is_refused() -> None:
    with pytest.raises(InvalidInput, match="never shortened"):
        FixedPart(PartKind.REHEARSAL, 480, minimum_s=240)
