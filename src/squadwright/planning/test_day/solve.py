"""Plan a day of testing: few changed orders first, then a short day, then short waits."""

import math
from collections.abc import Mapping

from ortools.sat.python import cp_model

from squadwright.errors import NoSolution, OutOfTime
from squadwright.planning.test_day.bound import plain_bound
from squadwright.planning.test_day.model import DayModel, Key, build
from squadwright.planning.test_day.problem import DayPlan, DayProblem
from squadwright.planning.test_day.visits import lay_out

FOUND = (cp_model.OPTIMAL, cp_model.FEASIBLE)


def plan_test_day(problem: DayProblem) -> DayPlan:
    """The day within its slot, with the bounds that say how good it is.

    NoSolution where it is proven that the slot is too short, OutOfTime where neither was found.
    """
    bound_s, bottleneck = plain_bound(problem)
    if bound_s > problem.slot_s:
        raise _too_short(problem, bound_s, bottleneck)
    step_s = _step_s(problem)
    slot_s = problem.slot_s // step_s * step_s
    starts, changed_bound = _fewest_changed(problem, step_s, slot_s)
    changed = sum(_is_changed(problem, athlete, starts) for athlete in problem.athletes)
    starts, found_bound_s = _shortest(problem, step_s, slot_s, starts, changed)
    starts = _less_waiting(problem, step_s, starts, changed)
    if found_bound_s > bound_s:
        bound_s, bottleneck = found_bound_s, "how the tests follow each other"
    who = tuple(a for a in problem.athletes if _is_changed(problem, a, starts))
    visits = lay_out(problem, starts)
    return DayPlan(
        visits=visits,
        length_s=max(visit.end_s for visit in visits),
        bound_s=bound_s,
        bottleneck=bottleneck,
        changed=who,
        changed_bound=changed_bound,
        warnings=tuple(_warning(problem, athlete, starts) for athlete in who),
    )


def _step_s(problem: DayProblem) -> int:
    """The largest step all times are multiples of [s]."""
    rests = [problem.rest_s(one, two) for one in problem.stations for two in problem.stations]
    return math.gcd(*(station.duration_s for station in problem.stations), *rests)


def _fewest_changed(problem: DayProblem, step_s: int, slot_s: int) -> tuple[dict[Key, int], int]:
    """A plan within the slot with few changed orders, and how few there must be."""
    day = build(problem, step_s, slot_s)
    if day.changed:
        day.model.minimize(sum(day.changed.values()))
    solver, status = _solve(day, problem.time_limit_s)
    if status == cp_model.INFEASIBLE:
        raise _too_short(problem, None, "")
    if status not in FOUND:
        raise OutOfTime(
            f"no day of testing was found in {problem.time_limit_s:g} s, nor a proof that there is "
            "none. Give more time, a longer slot, or fewer tests."
        )
    bound = max(0, math.ceil(solver.best_objective_bound - 1e-6)) if day.changed else 0
    return _starts(day, solver), bound


def _shortest(
    problem: DayProblem, step_s: int, slot_s: int, before: Mapping[Key, int], changed: int
) -> tuple[dict[Key, int], int]:
    """The shortest day with no more changed orders, and the length none can go below [s]."""
    day = _no_worse(problem, step_s, slot_s, before, changed)
    day.model.add(day.length >= -(-plain_bound(problem)[0] // step_s))
    day.model.minimize(day.length)
    solver, status = _solve(day, problem.time_limit_s)
    if status not in FOUND:
        return dict(before), plain_bound(problem)[0]
    return _starts(day, solver), math.ceil(solver.best_objective_bound - 1e-6) * step_s


def _less_waiting(
    problem: DayProblem, step_s: int, before: Mapping[Key, int], changed: int
) -> dict[Key, int]:
    """A day as long with less waiting in all, if a quarter of the time finds one."""
    lengths = {station.id: station.duration_s for station in problem.stations}
    length_s = max(start + lengths[test] for (_, test), start in before.items())
    day = _no_worse(problem, step_s, length_s, before, changed)
    day.model.minimize(sum(day.starts[key] - ready for key, ready in day.ready.items()))
    solver, status = _solve(day, problem.time_limit_s / 4)
    return _starts(day, solver) if status in FOUND else dict(before)


def _no_worse(
    problem: DayProblem, step_s: int, slot_s: int, before: Mapping[Key, int], changed: int
) -> DayModel:
    """The model with no more changed orders, and what was found before as its first try."""
    day = build(problem, step_s, slot_s)
    if day.changed:
        day.model.add(sum(day.changed.values()) <= changed)
    for key, start in before.items():
        day.model.add_hint(day.starts[key], start // step_s)
    return day


def _solve(day: DayModel, time_limit_s: float) -> tuple[cp_model.CpSolver, cp_model.CpSolverStatus]:
    solver = cp_model.CpSolver()
    # Else Ctrl-C would end the whole program at once, from the first search on.
    solver.parameters.catch_sigint_signal = False
    solver.parameters.num_workers = 1
    solver.parameters.random_seed = 1
    solver.parameters.max_deterministic_time = time_limit_s
    # So far above that only a machine at its limit cuts a search short, and changes its answer.
    solver.parameters.max_time_in_seconds = 10 * time_limit_s
    return solver, solver.solve(day.model)


def _starts(day: DayModel, solver: cp_model.CpSolver) -> dict[Key, int]:
    return {key: solver.value(start) * day.step_s for key, start in day.starts.items()}


def _is_changed(problem: DayProblem, athlete: str, starts: Mapping[Key, int]) -> bool:
    times = [starts[athlete, station.id] for station in problem.wanted_order(athlete)]
    return times != sorted(times)


def _warning(problem: DayProblem, athlete: str, starts: Mapping[Key, int]) -> str:
    wanted = problem.wanted_order(athlete)
    today = sorted(wanted, key=lambda station: starts[athlete, station.id])
    return (
        f"{athlete}: today {', '.join(s.id for s in today)}; last time "
        f"{', '.join(s.id for s in wanted)}. A change in the results may come from the order."
    )


def _too_short(problem: DayProblem, bound_s: int | None, bottleneck: str) -> NoSolution:
    slot = f"{problem.slot_s / 60:g} min"
    if bound_s is None:
        return NoSolution(
            f"no day of testing fits into {slot} with at most {problem.most_waiting} in a queue: "
            "proven. Give a longer slot, a second place at the slowest test, or one more helper."
        )
    return NoSolution(
        f"the tests need at least {bound_s / 60:g} min because of {bottleneck}, and the slot has "
        f"{slot}. Give a longer slot, a second place there, or take one test out."
    )
