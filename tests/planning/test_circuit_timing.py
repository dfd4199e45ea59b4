"""Circuits and waves against simpy, a general simulation library that knows no formula of ours."""

from collections.abc import Generator
from typing import Any

import pytest
import simpy
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.planning.run_sheet_check import overlaps, own_rests

from cases import cases
from squadwright.errors import InvalidInput
from squadwright.planning.run_sheet import (
    BarUser,
    CircuitBlock,
    CircuitStation,
    ComplexBlock,
    LateArrival,
    RunSheetProblem,
    RunSheetSolution,
    TimedExercise,
    WorkGroup,
    solve_run_sheet,
)


def circuit(groups: int, stations: int, *, capacity: int = 1, **settings: int) -> CircuitBlock:
    chosen = {"work_s": 40, "move_s": 20, "rounds": 4} | settings
    return CircuitBlock(
        "circuit",
        tuple(
            CircuitStation(f"S{n}", f"exercise {n}", capacity, kit=(f"kit {n}",))
            for n in range(stations)
        ),
        tuple(WorkGroup(f"G{n}", (f"P{n}",)) for n in range(groups)),
        **chosen,
    )


def solved(
    block: CircuitBlock | ComplexBlock, late: tuple[LateArrival, ...] = ()
) -> RunSheetSolution:
    solution = solve_run_sheet(RunSheetProblem(4 * 3600, (), (block,), (), late=late))
    assert isinstance(solution, RunSheetSolution)
    assert overlaps(solution.entries) == []
    return solution


def simulated_circuit(people: int, stations: int, block: CircuitBlock) -> float:
    """Everybody queues at the next station in turn; the last one to leave ends the circuit."""
    world = simpy.Environment()
    places = [simpy.Resource(world) for _ in range(stations)]

    def athlete(number: int) -> Generator[Any, Any, None]:
        for turn in range(block.rounds * stations):
            with places[(number + turn) % stations].request() as place:
                yield place
                yield world.timeout(block.work_s + block.move_s)

    for number in range(people):
        world.process(athlete(number))
    world.run()
    return float(world.now)


def simulated_waves(waves: int, rounds: int, work_s: int, change_s: int) -> float:
    world = simpy.Environment()
    bar = simpy.Resource(world)

    def wave() -> Generator[Any, Any, None]:
        for _ in range(rounds):
            with bar.request() as turn:
                yield turn
                yield world.timeout(work_s + change_s)

    for _ in range(waves):
        world.process(wave())
    world.run()
    return float(world.now)


def test_six_athletes_at_six_stations_take_1440_seconds() -> None:
    block = circuit(6, 6)
    assert simulated_circuit(6, 6, block) == 1440
    solution = solved(block)
    assert solution.makespan_s == 1440
    assert solution.is_proven


@pytest.mark.parametrize(
    ("waves", "rounds", "work_s", "change_s"), [(2, 4, 90, 30), (3, 5, 60, 15)]
)
def test_waves_on_one_bar_take_as_long_as_simulated(
    waves: int, rounds: int, work_s: int, change_s: int
) -> None:
    users = tuple(BarUser(f"P{n}", "g", "bar", n + 1) for n in range(waves))
    block = ComplexBlock("c", (TimedExercise("all", work_s),), users, rounds, change_s=change_s)
    solution = solved(block)
    assert solution.makespan_s == simulated_waves(waves, rounds, work_s, change_s)
    assert solution.is_proven


def test_everybody_visits_every_station_once_a_round() -> None:
    solution = solved(circuit(5, 7))
    for person in range(5):
        for number in range(1, 5):
            visited = [
                entry.station
                for entry in solution.entries
                if f"P{person}" in entry.athletes
                and entry.activity == "work"
                and entry.round == number
            ]
            assert sorted(visited) == [f"S{n}" for n in range(7)]


def test_more_groups_than_stations_wait_one_turn_each_and_it_is_proven_shortest() -> None:
    """8 groups at 6 stations: the station needs 8 turns of 60 s a round."""
    solution = solved(circuit(8, 6, rounds=2))
    assert solution.makespan_s == 2 * 8 * 60
    assert solution.is_proven


def test_two_groups_at_a_station_halve_the_turns() -> None:
    solution = solved(circuit(8, 3, capacity=2, rounds=1))
    assert solution.makespan_s == 4 * 60
    assert solution.is_proven


def test_rest_between_rounds_is_added_between_rounds_only() -> None:
    solution = solved(circuit(6, 6, round_rest_s=60))
    assert solution.makespan_s == 1440 + 3 * 60
    rests = [own_rests(solution.entries, "P0", f"exercise {n}") for n in range(6)]
    assert all(rest == 5 * 60 + 20 + 60 for one in rests for rest in one)


def test_a_late_athlete_joins_the_circuit_at_a_round() -> None:
    solution = solved(circuit(6, 6), late=(LateArrival("P3", 100),))
    (join,) = solution.joins
    assert (join.ready_s, join.first_round, join.rounds) == (580, 3, 2)
    assert {e.round for e in solution.entries if "P3" in e.athletes and e.group != "late"} == {3, 4}


def test_a_station_too_small_for_the_largest_group_is_refused() -> None:
    with pytest.raises(InvalidInput, match="1 people, and the largest group has 2"):
        CircuitBlock("c", (CircuitStation("S", "e"),), (WorkGroup("G", ("P0", "P1")),), 40, 20, 1)


@given(
    groups=st.integers(1, 9),
    stations=st.integers(1, 8),
    capacity=st.integers(1, 3),
    rounds=st.integers(1, 4),
    rest_s=st.integers(0, 90),
)
@settings(max_examples=cases(60), deadline=None)
def test_circuits_hold_capacity_and_are_proven_shortest(
    groups: int, stations: int, capacity: int, rounds: int, rest_s: int
) -> None:
    block = circuit(groups, stations, capacity=capacity, rounds=rounds, round_rest_s=rest_s)
    solution = solved(block)
    assert solution.is_proven
    for entry in solution.entries:
        if entry.activity == "work":
            at_once = [
                other
                for other in solution.entries
                if other.activity == "work"
                and other.station == entry.station
                and other.start_s == entry.start_s
            ]
            assert len(at_once) <= capacity
    work = [entry for entry in solution.entries if entry.activity == "work"]
    assert len(work) == groups * stations * rounds


@given(
    waves=st.integers(1, 4),
    rounds=st.integers(1, 6),
    work_s=st.integers(20, 180),
    change_s=st.integers(0, 60),
    rest_s=st.integers(0, 300),
)
@settings(max_examples=cases(80), deadline=None)
def test_no_wave_rests_less_than_it_is_owed_and_complexes_are_proven_shortest(
    waves: int, rounds: int, work_s: int, change_s: int, rest_s: int
) -> None:
    users = tuple(BarUser(f"P{n}", "g", "bar", n + 1) for n in range(waves))
    block = ComplexBlock(
        "c", (TimedExercise("all", work_s),), users, rounds, change_s, minimum_rest_s=rest_s
    )
    solution = solved(block)
    assert solution.is_proven
    for person in range(waves):
        assert all(rest >= rest_s for rest in own_rests(solution.entries, f"P{person}", "c"))
    assert solution.makespan_s >= simulated_waves(waves, rounds, work_s, change_s)
