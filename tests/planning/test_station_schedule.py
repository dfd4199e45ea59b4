"""Shortest schedules under shared stations, against results that are proven elsewhere."""

import random
from itertools import combinations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cases import cases
from squadwright.planning.run_sheet.station_schedule import (
    Schedule,
    ScheduleProblem,
    Task,
    dispatch,
    plain_bound,
    schedule,
)


def faults(problem: ScheduleProblem, starts_s: tuple[int, ...]) -> list[str]:
    """What is wrong with a schedule; shares no code with the planner."""
    found = []
    placed = list(zip(problem.tasks, starts_s, strict=True))
    for job in {task.job for task in problem.tasks}:
        own = sorted((p for p in placed if p[0].job == job), key=lambda p: p[1])
        for (task, start), (other, begins) in combinations(own, 2):
            if begins < start + task.duration_s + task.gap_s:
                found.append(f"job {job} is not free for {other.name} at {begins}")
            if other.step < task.step:
                found.append(f"job {job} does step {other.step} after {task.step}")
            same = (other.name, other.step) == (task.name, task.step)
            if same and other.chain < task.chain:
                found.append(f"job {job} does set {other.chain} after {task.chain}")
    for name, capacity in problem.capacity.items():
        users = [(task, start) for task, start in placed if name in task.resources]
        for _, moment in users:
            inside = [1 for task, start in users if start <= moment < start + task.duration_s]
            if len(inside) > capacity:
                found.append(f"{len(inside)} at {name} at {moment}")
    if any(start < 0 for start in starts_s):
        found.append("a start before zero")
    return found


def solved(problem: ScheduleProblem) -> Schedule:
    solution = schedule(problem)
    assert faults(problem, solution.starts_s) == []
    assert solution.lower_bound_s >= plain_bound(problem)
    return solution


def test_a_test_day_of_fourteen_athletes_and_five_stations_takes_seventy_minutes() -> None:
    """Tests of 2, 3, 4, 3, 5 min in any order: the busiest station needs 14 x 5 = 70 min."""
    minutes = (2, 3, 4, 3, 5)
    tasks = tuple(
        Task(athlete, f"test {number}", 60 * length, resources=(f"test {number}",))
        for athlete in range(14)
        for number, length in enumerate(minutes)
    )
    solution = solved(ScheduleProblem(tasks, {f"test {n}": 1 for n in range(5)}))
    assert solution.is_proven
    assert solution.makespan_s == 70 * 60


@pytest.mark.parametrize("seed", range(12))
def test_two_stations_in_any_order_reach_the_published_optimum(seed: int) -> None:
    """Gonzalez and Sahni (1976): the least length is the busiest station or the longest job.

    From memory, not confirmed: J. ACM 23(4), 665-679, two-machine open shop.
    """
    dice = random.Random(seed)
    times = [(dice.randint(1, 20), dice.randint(1, 20)) for _ in range(dice.randint(2, 9))]
    tasks = tuple(
        Task(job, name, length, resources=(name,))
        for job, pair in enumerate(times)
        for name, length in zip("AB", pair, strict=True)
    )
    solution = solved(ScheduleProblem(tasks, {"A": 1, "B": 1}))
    best = max(*(sum(column) for column in zip(*times, strict=True)), *(sum(t) for t in times))
    assert solution.makespan_s == best
    assert solution.is_proven


@pytest.mark.parametrize("seed", range(12))
def test_two_stations_in_a_fixed_order_reach_johnsons_rule(seed: int) -> None:
    """Johnson (1954): short first times early, short second times late.

    From memory, not confirmed: Naval Research Logistics Quarterly 1(1), 61-68.
    """
    dice = random.Random(100 + seed)
    times = [(dice.randint(1, 20), dice.randint(1, 20)) for _ in range(dice.randint(2, 8))]
    early = sorted(pair for pair in times if pair[0] <= pair[1])
    late = sorted((pair for pair in times if pair[0] > pair[1]), key=lambda p: -p[1])
    first = second = 0
    for one, other in (*early, *late):
        first += one
        second = max(first, second) + other
    tasks = tuple(
        Task(job, name, length, resources=(name,), step=step)
        for job, pair in enumerate(times)
        for step, (name, length) in enumerate(zip("AB", pair, strict=True))
    )
    solution = solved(ScheduleProblem(tasks, {"A": 1, "B": 1}))
    assert solution.makespan_s == second
    assert solution.is_proven


def test_rest_between_sets_lets_others_use_the_station() -> None:
    """By hand: 2 people x 3 sets of 30 s on one station, 30 s rest: in turn, 180 s in all."""
    tasks = tuple(
        Task(job, "sets", 30, gap_s=30, resources=("rack",), chain=number)
        for job in range(2)
        for number in range(3)
    )
    solution = solved(ScheduleProblem(tasks, {"rack": 1}))
    assert solution.makespan_s == 180
    assert solution.is_proven


def test_the_rest_after_the_last_task_is_not_owed() -> None:
    tasks = tuple(Task(0, "sets", 30, gap_s=90, chain=number) for number in range(3))
    assert solved(ScheduleProblem(tasks)).makespan_s == 3 * 30 + 2 * 90


def test_one_more_station_never_makes_it_longer() -> None:
    dice = random.Random(4)
    tasks = tuple(
        Task(job, f"drill {n}", dice.randint(20, 90), 15, ("box",) if n else (), step=1)
        for job in range(5)
        for n in range(3)
    )
    lengths = [solved(ScheduleProblem(tasks, {"box": n})).makespan_s for n in (1, 2, 3, 5)]
    assert lengths == sorted(lengths, reverse=True)


def test_when_time_runs_out_the_quick_schedule_and_an_honest_bound_are_left() -> None:
    dice = random.Random(1)
    tasks = tuple(
        Task(job, f"{n}", dice.randint(20, 200), 10, (f"s{dice.randint(0, 3)}",), step=n)
        for job in range(12)
        for n in range(6)
    )
    problem = ScheduleProblem(tasks, {f"s{n}": 1 for n in range(4)}, time_limit_s=0.01)
    solution = schedule(problem)
    assert faults(problem, solution.starts_s) == []
    quick = dispatch(problem)
    assert solution.makespan_s <= max(
        start + task.duration_s for task, start in zip(tasks, quick, strict=True)
    )
    assert plain_bound(problem) <= solution.lower_bound_s <= solution.makespan_s


@st.composite
def problems(draw: st.DrawFn) -> ScheduleProblem:
    """Up to five jobs with up to four tasks, steps, chains and stations of one to three places."""
    names = ("rack", "box", "wall")
    capacity = {name: draw(st.integers(1, 3)) for name in names}
    tasks = []
    for job in range(draw(st.integers(1, 5))):
        for number in range(draw(st.integers(1, 4))):
            tasks.append(
                Task(
                    job,
                    draw(st.sampled_from(["a", "b"])),
                    draw(st.integers(1, 60)),
                    draw(st.integers(0, 30)),
                    tuple(draw(st.sets(st.sampled_from(names), max_size=2))),
                    step=draw(st.integers(1, 2)),
                    chain=number,
                )
            )
    return ScheduleProblem(tuple(tasks), capacity, time_limit_s=1.0)


@given(problems())
@settings(max_examples=cases(80), deadline=None)
def test_any_schedule_keeps_order_rest_and_capacity_and_its_bound(
    problem: ScheduleProblem,
) -> None:
    solution = solved(problem)
    assert solution.lower_bound_s <= solution.makespan_s
    assert faults(problem, tuple(dispatch(problem))) == []


@given(problems())
@settings(max_examples=cases(20), deadline=None)
def test_the_same_tasks_give_the_same_schedule(problem: ScheduleProblem) -> None:
    assert schedule(problem) == schedule(problem)


def test_the_check_itself_refuses_a_broken_schedule() -> None:
    tasks = (Task(0, "a", 10, 5, ("box",)), Task(0, "b", 10), Task(1, "a", 10, 0, ("box",)))
    problem = ScheduleProblem(tasks, {"box": 1})
    assert faults(problem, (0, 15, 10)) == []
    assert faults(problem, (0, 14, 10)) == ["job 0 is not free for b at 14"]
    assert faults(problem, (0, 15, 9)) == ["2 at box at 9"]
