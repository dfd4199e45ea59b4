"""Time to lay a session out, and how much shorter the search makes it than the quick dispatch.

``extra_info`` holds ratios to the proven length, so that they mean the same on any machine.
"""

import random

import pytest
from pytest_benchmark.fixture import BenchmarkFixture

from squadwright.planning.run_sheet import (
    BarUser,
    ComplexBlock,
    FixedPart,
    PartKind,
    RunSheetProblem,
    TimedExercise,
    solve_run_sheet,
)
from squadwright.planning.run_sheet.station_schedule import (
    ScheduleProblem,
    Task,
    dispatch,
    plain_bound,
    schedule,
)


def barbell_hour(people: int, slot_s: int) -> RunSheetProblem:
    users = tuple(BarUser(f"P{n}", f"G{n // 2}", f"bar {n // 2}", n % 2 + 1) for n in range(people))
    exercises = tuple(TimedExercise(f"lift {n}", 20) for n in range(5))
    return RunSheetProblem(
        slot_s,
        (FixedPart(PartKind.WARM_UP, 720), FixedPart(PartKind.REHEARSAL, 480)),
        (ComplexBlock("complex", exercises, users, rounds=4),),
        (FixedPart(PartKind.COOL_DOWN, 360),),
    )


def five_tests(people: int) -> ScheduleProblem:
    """Five tests in any order, one place for each."""
    minutes = (2, 3, 4, 3, 5)
    tasks = tuple(
        Task(person, f"test {n}", 60 * length, resources=(f"test {n}",))
        for person in range(people)
        for n, length in enumerate(minutes)
    )
    return ScheduleProblem(tasks, {f"test {n}": 1 for n in range(5)})


def crowded(groups: int) -> ScheduleProblem:
    """Groups with four drills in two steps at two boxes, one wall and one sled."""
    dice = random.Random(groups)
    kit = ("box", "wall", "sled", "box")
    tasks = tuple(
        Task(group, f"drill {n}", dice.randint(60, 240), 30, (kit[n],), step=n // 2)
        for group in range(groups)
        for n in range(4)
    )
    return ScheduleProblem(tasks, {"box": 2, "wall": 1, "sled": 1}, time_limit_s=2.0)


def length(problem: ScheduleProblem, starts: list[int]) -> int:
    return max(start + task.duration_s for task, start in zip(problem.tasks, starts, strict=True))


@pytest.mark.benchmark(group="run sheet of a barbell hour")
@pytest.mark.parametrize("slot_s", [3600, 2100], ids=["fits", "too short"])
@pytest.mark.parametrize("people", [12, 24])
def test_barbell_hour(benchmark: BenchmarkFixture, people: int, slot_s: int) -> None:
    benchmark(solve_run_sheet, barbell_hour(people, slot_s))


@pytest.mark.benchmark(group="stations under contention")
@pytest.mark.parametrize("people", [14, 30])
def test_a_test_day(benchmark: BenchmarkFixture, people: int) -> None:
    problem = five_tests(people)
    solution = benchmark.pedantic(schedule, (problem,), rounds=3)
    benchmark.extra_info["proven"] = solution.is_proven
    quick = length(problem, dispatch(problem))
    benchmark.extra_info["dispatch_to_best"] = round(quick / solution.makespan_s, 3)


@pytest.mark.benchmark(group="stations under contention")
@pytest.mark.parametrize("groups", [4, 8, 12])
def test_crowded_drills(benchmark: BenchmarkFixture, groups: int) -> None:
    problem = crowded(groups)
    solution = benchmark.pedantic(schedule, (problem,), rounds=2)
    quick = length(problem, dispatch(problem))
    benchmark.extra_info["proven"] = solution.is_proven
    benchmark.extra_info["dispatch_to_best"] = round(quick / solution.makespan_s, 3)
    benchmark.extra_info["best_to_plain_bound"] = round(
        solution.makespan_s / plain_bound(problem), 3
    )
