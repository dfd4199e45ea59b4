"""Search for the shortest schedule by CP-SAT, with the plain bound as a constraint."""

from collections import defaultdict
from collections.abc import Sequence

from ortools.sat.python import cp_model

from squadwright.planning.run_sheet.station_schedule import ScheduleProblem, Task, comes_before


def search(
    problem: ScheduleProblem, start_from: Sequence[int], bound: int
) -> tuple[list[int] | None, int]:
    """Starts of a shorter schedule, if one was found, and the best bound known."""
    tasks = problem.tasks
    horizon = max(start + task.duration_s for task, start in zip(tasks, start_from, strict=True))
    model = cp_model.CpModel()
    starts = [
        model.new_int_var(0, horizon - task.duration_s, f"s{place}")
        for place, task in enumerate(tasks)
    ]
    _one_place_at_a_time(model, tasks, starts)
    _order_within_jobs(model, tasks, starts)
    _kit_used_once(model, problem, starts)
    length = model.new_int_var(bound, horizon, "length")
    for task, start in zip(tasks, starts, strict=True):
        model.add(length >= start + task.duration_s)
    model.minimize(length)
    for start, value in zip(starts, start_from, strict=True):
        model.add_hint(start, value)
    solver = cp_model.CpSolver()
    # Else Ctrl-C would end the whole program at once, from the first search on.
    solver.parameters.catch_sigint_signal = False
    solver.parameters.num_workers = 1
    solver.parameters.random_seed = 1
    solver.parameters.max_deterministic_time = problem.time_limit_s / 4
    solver.parameters.max_time_in_seconds = 2 * problem.time_limit_s
    status = solver.solve(model)
    if status not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
        return None, bound
    proven = round(solver.best_objective_bound)
    return [solver.value(start) for start in starts], max(bound, proven)


def _one_place_at_a_time(
    model: cp_model.CpModel, tasks: Sequence[Task], starts: Sequence[cp_model.IntVar]
) -> None:
    """A job does one task at a time and keeps its gap before the next."""
    jobs: dict[int, list[cp_model.IntervalVar]] = defaultdict(list)
    for place, (task, start) in enumerate(zip(tasks, starts, strict=True)):
        size = task.duration_s + task.gap_s
        jobs[task.job].append(model.new_fixed_size_interval_var(start, size, f"j{place}"))
    for intervals in jobs.values():
        model.add_no_overlap(intervals)


def _order_within_jobs(
    model: cp_model.CpModel, tasks: Sequence[Task], starts: Sequence[cp_model.IntVar]
) -> None:
    """Lower steps, and earlier sets of one exercise, come first."""
    for place, task in enumerate(tasks):
        for other_place, other in enumerate(tasks):
            if comes_before(task, other):
                model.add(starts[other_place] >= starts[place] + task.duration_s + task.gap_s)


def _kit_used_once(
    model: cp_model.CpModel, problem: ScheduleProblem, starts: Sequence[cp_model.IntVar]
) -> None:
    """Never more tasks at a resource than there are pieces of it."""
    for resource, capacity in problem.capacity.items():
        intervals = [
            model.new_fixed_size_interval_var(start, task.duration_s, f"{resource}{place}")
            for place, (task, start) in enumerate(zip(problem.tasks, starts, strict=True))
            if resource in task.resources
        ]
        if capacity == 1:
            model.add_no_overlap(intervals)
        elif len(intervals) > capacity:
            model.add_cumulative(intervals, [1] * len(intervals), capacity)
