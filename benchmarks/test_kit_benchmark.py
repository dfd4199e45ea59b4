"""Time to load all bars, beside a general solver on a plain model of its own, in one run.

``extra_info`` holds the quality: our largest and total shortfall, their bounds, those of the plan
made by hand (heavy first), and what the other solver had after as many seconds as it was given.
The other model has a count for each bar, wave and size, and goes for the total at our largest
shortfall, which it is told: it has the easier half of the work.
"""

from dataclasses import dataclass
from time import perf_counter

import pytest
from ortools.sat.python import cp_model
from pytest_benchmark.fixture import BenchmarkFixture

from planning.kit_cases import demo, faults, goals_of, scaled
from squadwright.planning.kit import solve_kit
from squadwright.planning.kit.bar_model import bar_model
from squadwright.planning.kit.loads import reach_of
from squadwright.planning.kit.measures import largest_shortfall, total_shortfall_g
from squadwright.planning.kit.problem import KitProblem, KitSolution
from squadwright.planning.kit.solve import first_plan

OTHER_LIMIT_S = 10.0

CASES = {
    "12 on 6, shared bars given": lambda: demo(),
    "12 on 6, free": lambda: demo(fixed=False),
    "40 on 20, plenty": lambda: scaled(40, 20, 1.0),
    "40 on 20, scarce": lambda: scaled(40, 20, 0.5),
    "100 on 50, plenty": lambda: scaled(100, 50, 1.0),
    "100 on 50, scarce": lambda: scaled(100, 50, 0.5),
}


@dataclass(frozen=True)
class Other:
    """What a plain model gave: total shortfall, its bound, seconds."""

    total_g: float | None
    bound_g: float
    seconds: float


def plain_total(problem: KitProblem, solution: KitSolution) -> Other:
    """The least total shortfall by the count model, told our largest shortfall."""
    made = bar_model(
        problem, reach_of(problem), solution.largest_shortfall_fraction, with_moves=False
    )
    assert made is not None
    made.model.maximize(made.total_load_g)
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    solver.parameters.max_time_in_seconds = OTHER_LIMIT_S
    started = perf_counter()
    status = solver.solve(made.model)
    targets = sum(user.target_g for user in problem.users)
    is_found = status in (cp_model.OPTIMAL, cp_model.FEASIBLE)
    return Other(
        targets - solver.objective_value if is_found else None,
        targets - solver.best_objective_bound,
        perf_counter() - started,
    )


@pytest.mark.parametrize("name", CASES)
def test_time_and_quality(benchmark: BenchmarkFixture, name: str) -> None:
    problem = CASES[name]()
    solve_kit(demo())  # the first call of a process also loads the solvers
    solution = benchmark.pedantic(lambda: solve_kit(problem), rounds=3, iterations=1)
    assert faults(problem, solution) == []
    assert goals_of(solution) == tuple(goal.value for goal in solution.goals)
    by_hand = first_plan(problem, reach_of(problem))
    other = plain_total(problem, solution)
    largest, total, moves, handled = solution.goals
    assert largest.value <= largest_shortfall(by_hand)
    assert other.bound_g <= total.value + 1
    benchmark.extra_info |= {
        "largest": float(largest.value),
        "largest_bound": float(largest.bound),
        "largest_by_hand_over_ours": float(largest_shortfall(by_hand) / largest.value),
        "total_kg": float(total.value) / 1000,
        "total_bound_kg": float(total.bound) / 1000,
        "total_by_hand_kg": total_shortfall_g(by_hand) / 1000,
        "moves": f"{moves.value} (bound {moves.bound})",
        "handled": f"{handled.value} (bound {handled.bound})",
        "other_total_kg": None if other.total_g is None else other.total_g / 1000,
        "other_bound_kg": other.bound_g / 1000,
    }
    if benchmark.stats is not None:
        ours = benchmark.stats.stats.min
        benchmark.extra_info["other_time_over_ours"] = other.seconds / ours
