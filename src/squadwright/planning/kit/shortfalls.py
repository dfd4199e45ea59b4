"""The two shortfall goals: first the largest share of a target missed, then the total."""

from bisect import bisect_left
from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction
from math import ceil

from squadwright.planning.kit.bar_model import BarModel, bar_model, hint_loads, read_loads
from squadwright.planning.kit.budget import Budget
from squadwright.planning.kit.linear import Relaxed, Searched
from squadwright.planning.kit.load_model import (
    load_model,
    put_on_bars,
    read_seats,
    waves_can_be_merged,
)
from squadwright.planning.kit.loads import Reach, least_shortfall, shortfall_steps
from squadwright.planning.kit.measures import (
    Loads,
    largest_shortfall,
    shared_unit_g,
    total_shortfall_g,
)
from squadwright.planning.kit.problem import KitGoal, KitGoalName, KitProblem


def both_shortfalls(
    problem: KitProblem, reach: Reach, loads: Loads, budget: Budget
) -> tuple[Loads, KitGoal, KitGoal]:
    """The two shortfall goals by the load model.

    First the least largest shortfall a relaxation allows, then the heaviest total there in whole
    numbers; where that is impossible, the next shortfalls in growing strides.
    """
    steps = shortfall_steps(reach, least_shortfall(reach), largest_shortfall(loads))
    unit_g = shared_unit_g(problem)
    merged = waves_can_be_merged(problem)

    def relaxed(index: int) -> Relaxed | None:
        made = load_model(problem, reach, steps[index], unit_g=unit_g, merged=merged)
        return made.program.relax(budget) if made else None

    low = _first(len(steps) - 1, lambda index: relaxed(index) is not None)
    high, index, stride = len(steps) - 1, low, 1
    bound_g: int | None = None
    while True:
        made = load_model(problem, reach, steps[index], unit_g=unit_g)
        found = made.program.search(budget, 0.6) if made else Searched(None, True, None)
        if made and found.values:
            placed = put_on_bars(problem, read_seats(made, found.values))
            loads = min(loads, placed, key=lambda e: (largest_shortfall(e), total_shortfall_g(e)))
            bound_g = _total_bound_g(problem, found.bound, unit_g)
            high = bisect_left(steps, largest_shortfall(loads))
        elif found.is_impossible:
            low = index + 1
        else:
            break
        if low > high or (low == high and bound_g is not None):
            break
        index = min(low + stride - 1, (low + high) // 2)
        stride *= 2
    if bound_g is None and _with_waves_given(problem) != problem:
        given, _, _ = both_shortfalls(_with_waves_given(problem), reach, loads, budget)
        loads = min(loads, given, key=lambda e: (largest_shortfall(e), total_shortfall_g(e)))
        high = bisect_left(steps, largest_shortfall(loads))
    if bound_g is None:
        at_start = relaxed(high)
        least = None if at_start is None else ceil(at_start.objective - 1e-6)
        bound_g = _total_bound_g(problem, least, unit_g)
    return (
        loads,
        KitGoal(KitGoalName.LARGEST_SHORTFALL, largest_shortfall(loads), steps[min(low, high)]),
        KitGoal(KitGoalName.TOTAL_SHORTFALL, Fraction(total_shortfall_g(loads)), Fraction(bound_g)),
    )


def _with_waves_given(problem: KitProblem) -> KitProblem:
    """The same problem with users of shared bars in waves: light first, heavy first, in turn."""
    users = problem.user_by_id
    waves: dict[str, int] = {}
    for number, group in enumerate(problem.shared):
        if any(users[name].wave is not None for name in group):
            continue
        ordered = sorted(group, key=lambda name: (users[name].target_g, name))
        if number % 2:
            ordered.reverse()
        waves |= {name: wave for wave, name in enumerate(ordered, start=1)}
    return replace(
        problem,
        users=tuple(replace(u, wave=waves.get(u.id, u.wave)) for u in problem.users),
    )


def _first(last: int, is_good: Callable[[int], bool]) -> int:
    """The least number that is good, all after it being good and ``last`` known to be.

    Strides grow from the low end, where the models are small; what is left is halved.
    """
    low, high, index, stride = 0, last, 0, 16
    while index < high:
        if is_good(index):
            high = index
        else:
            low, index = index + 1, index + stride
            stride *= 2
    while low < high:
        middle = (low + high) // 2
        if is_good(middle):
            high = middle
        else:
            low = middle + 1
    return low


def _total_bound_g(problem: KitProblem, least_cost: int | None, unit_g: int) -> int:
    targets_g = sum(user.target_g for user in problem.users)
    return 0 if least_cost is None else max(0, targets_g + least_cost * unit_g)


def least_largest_shortfall(
    problem: KitProblem, reach: Reach, loads: Loads, budget: Budget
) -> tuple[Loads, KitGoal]:
    """Halve the list of shortfalls that can occur at all, the least one first."""
    steps = shortfall_steps(reach, least_shortfall(reach), largest_shortfall(loads))
    low, high, middle = 0, len(steps) - 1, 0
    while low < high:
        made = bar_model(problem, reach, steps[middle], with_moves=problem.plates_stay_with_bar)
        outcome = budget.run(made.model, 0.25) if made else None
        if made is None or (outcome and outcome.is_impossible):
            low = middle + 1
        elif outcome and outcome.values:
            loads = read_loads(made, outcome.values)
            high = bisect_left(steps, largest_shortfall(loads))
        else:
            break
        middle = (low + high) // 2
    return loads, KitGoal(KitGoalName.LARGEST_SHORTFALL, largest_shortfall(loads), steps[low])


def least_total(
    problem: KitProblem, reach: Reach, loads: Loads, budget: Budget
) -> tuple[Loads, KitGoal]:
    """The heaviest total load that keeps the largest shortfall."""
    made = model_at_hand(problem, reach, loads, with_moves=problem.plates_stay_with_bar)
    hint_loads(made, loads)
    made.model.maximize(made.total_load_g)
    outcome = budget.run(made.model, 0.5)
    bound = 0
    targets_g = sum(user.target_g for user in problem.users)
    if outcome and outcome.values:  # else the solver's bound may stand where it began
        bound = max(0, targets_g - int(outcome.bound + 1e-6))
        loads = min(loads, read_loads(made, outcome.values), key=total_shortfall_g)
    value = total_shortfall_g(loads)
    return loads, KitGoal(KitGoalName.TOTAL_SHORTFALL, Fraction(value), Fraction(bound))


def model_at_hand(problem: KitProblem, reach: Reach, loads: Loads, *, with_moves: bool) -> BarModel:
    """The model of every bar and wave for plans whose largest shortfall is that of ``loads``."""
    made = bar_model(problem, reach, largest_shortfall(loads), with_moves=with_moves)
    assert made is not None, "a plan with this shortfall is at hand"
    return made
