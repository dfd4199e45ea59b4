"""The goals one after another, each with its bound."""

from bisect import bisect_left
from collections.abc import Callable
from fractions import Fraction
from itertools import pairwise
from math import ceil, gcd
from time import perf_counter

from squadwright.planning.kit_bar_model import BarModel, bar_model, hint_loads, read_loads
from squadwright.planning.kit_budget import Budget
from squadwright.planning.kit_families import user_classes
from squadwright.planning.kit_fillings import for_each_target, useful_fillings
from squadwright.planning.kit_linear import Relaxed, Searched
from squadwright.planning.kit_load_model import (
    load_model,
    put_on_bars,
    read_seats,
    waves_can_be_merged,
)
from squadwright.planning.kit_loads import Reach, least_shortfall, reach_of, shortfall_steps
from squadwright.planning.kit_pricing import cheapest
from squadwright.planning.kit_problem import (
    KitGoal,
    KitGoalName,
    KitLoad,
    KitProblem,
    KitSolution,
)
from squadwright.planning.kit_programmes import columns_of, loads_of, programmes
from squadwright.planning.kit_start import (
    NoPlaceOnABar,
    load_heavy_first,
    open_places,
    seats_by_hand,
)

Loads = tuple[KitLoad, ...]
MOST_FILLINGS = 3000


def solve_without_tolerance(problem: KitProblem, time_limit_s: float) -> KitSolution:
    """Reach the four goals in order."""
    budget = Budget(time_limit_s, perf_counter() + time_limit_s)
    reach = reach_of(problem)
    loads = first_plan(problem, reach)
    if problem.plates_stay_with_bar:
        loads, largest = _least_largest_shortfall(problem, reach, loads, budget)
        loads, total = _least_total(problem, reach, loads, budget)
    else:
        loads, largest, total = _both_shortfalls(problem, reach, loads, budget)
    loads, moves, handled = _least_moves(problem, reach, loads, budget)
    return KitSolution(
        loads, (largest, total, moves, handled), stopped_by_clock=budget.is_cut_by_clock
    )


def first_plan(problem: KitProblem, reach: Reach) -> Loads:
    """The plan made by hand, or any plan the solver can find."""
    places = open_places(problem)
    seats = seats_by_hand(problem, places)
    if seats:
        return load_heavy_first(problem, seats)
    made = bar_model(problem, reach, Fraction(1), with_moves=False)
    outcome = Budget(100.0, perf_counter() + 100.0).run(made.model) if made else None
    if made is None or outcome is None or outcome.values is None:
        raise NoPlaceOnABar(
            f"users: {len(problem.users)} athletes cannot all be given a bar they may use on "
            f"{len(problem.bars)} bars in {problem.waves} wave(s). "
            f"Add a wave or a light bar, or free somebody from a named bar or wave"
        )
    found = read_loads(made, outcome.values)
    return load_heavy_first(problem, {load.user: (load.bar, load.wave) for load in found})


def largest_shortfall(loads: Loads) -> Fraction:
    """The largest shortfall as a share of the target."""
    return max(load.shortfall_fraction for load in loads)


def total_shortfall_g(loads: Loads) -> int:
    """All shortfalls added up [g]."""
    return sum(load.shortfall_g for load in loads)


def shared_unit_g(problem: KitProblem) -> int:
    """The largest mass of which every load is a whole multiple [g]."""
    return gcd(*(bar.mass_g for bar in problem.bars), *(2 * size.mass_g for size in problem.plates))


def _both_shortfalls(
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
    if bound_g is None:
        at_start = relaxed(high)
        least = None if at_start is None else ceil(at_start.objective - 1e-6)
        bound_g = _total_bound_g(problem, least, unit_g)
    return (
        loads,
        KitGoal(KitGoalName.LARGEST_SHORTFALL, largest_shortfall(loads), steps[min(low, high)]),
        KitGoal(KitGoalName.TOTAL_SHORTFALL, Fraction(total_shortfall_g(loads)), Fraction(bound_g)),
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


def _least_largest_shortfall(
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


def _least_total(
    problem: KitProblem, reach: Reach, loads: Loads, budget: Budget
) -> tuple[Loads, KitGoal]:
    """The heaviest total load that keeps the largest shortfall."""
    made = _model(problem, reach, loads, with_moves=problem.plates_stay_with_bar)
    hint_loads(made, loads)
    made.model.maximize(made.total_load_g)
    outcome = budget.run(made.model, 0.5)
    bound = 0
    targets_g = sum(user.target_g for user in problem.users)
    if outcome:
        bound = max(0, targets_g - int(outcome.bound + 1e-6))
        if outcome.values:
            loads = min(loads, read_loads(made, outcome.values), key=total_shortfall_g)
    value = total_shortfall_g(loads)
    return loads, KitGoal(KitGoalName.TOTAL_SHORTFALL, Fraction(value), Fraction(bound))


def _least_moves(
    problem: KitProblem, reach: Reach, loads: Loads, budget: Budget
) -> tuple[Loads, KitGoal, KitGoal]:
    """Fewest moves, then fewest pairs, with both shortfalls kept."""
    if problem.waves <= 2 and not problem.plates_stay_with_bar:
        by_programmes = _least_moves_by_programmes(problem, reach, loads, budget)
        if by_programmes is not None:
            return by_programmes
    made = _model(problem, reach, loads, with_moves=True)
    hint_loads(made, loads)
    targets_g = sum(user.target_g for user in problem.users)
    made.model.add(made.total_load_g >= targets_g - total_shortfall_g(loads))
    weight = made.most_beside + 1
    made.model.minimize(weight * sum(made.moves) + sum(made.beside.values()))
    outcome = budget.run(made.model)
    bound = 0
    if outcome:
        bound = max(0, round(outcome.bound))
        if outcome.values:
            found = read_loads(made, outcome.values)
            loads = min(loads, found, key=lambda each: (plate_moves(each), plates_handled(each)))
    return loads, *_moves_goals(loads, bound, weight)


def _least_moves_by_programmes(
    problem: KitProblem, reach: Reach, loads: Loads, budget: Budget
) -> tuple[Loads, KitGoal, KitGoal] | None:
    """The last two goals by whole programmes of a bar; None when there are too many of them."""
    unit_g = shared_unit_g(problem)
    made = load_model(
        problem,
        reach,
        largest_shortfall(loads),
        unit_g=unit_g,
        merged=waves_can_be_merged(problem),
    )
    assert made is not None, "a plan with this shortfall is at hand"
    total_g = sum(load.load_g for load in loads)
    fillings = useful_fillings(made, total_g, budget, MOST_FILLINGS)
    if fillings is None:
        return None
    classes = user_classes(problem, by_target=True)
    fillings = for_each_target(made, fillings, classes, largest_shortfall(loads))
    columns = programmes(problem, made.families, classes, fillings, loads, unit_g)
    start = columns_of(columns, loads)
    if start is None:
        return None
    priced = cheapest(columns, start, budget)
    loads = loads_of(columns, priced.columns)
    return loads, *_moves_goals(loads, priced.bound, columns.weight)


def _moves_goals(loads: Loads, bound: int, weight: int) -> tuple[KitGoal, KitGoal]:
    moves, handled = plate_moves(loads), plates_handled(loads)
    moves_bound = max(0, bound // weight)
    handled_bound = max(0, bound - moves * weight) if moves_bound == moves else 0
    return (
        KitGoal(KitGoalName.PLATE_MOVES, Fraction(moves), Fraction(moves_bound)),
        KitGoal(KitGoalName.PLATES_HANDLED, Fraction(handled), Fraction(handled_bound)),
    )


def _model(problem: KitProblem, reach: Reach, loads: Loads, *, with_moves: bool) -> BarModel:
    made = bar_model(problem, reach, largest_shortfall(loads), with_moves=with_moves)
    assert made is not None, "a plan with this shortfall is at hand"
    return made


def plate_moves(loads: Loads) -> int:
    """Plates of one end put on or taken off from one user of a bar to the next."""
    moves = 0
    ordered = sorted(loads, key=lambda load: (load.bar, load.wave))
    for before, after in pairwise(ordered):
        if before.bar == after.bar:
            first, second = dict(before.per_side), dict(after.per_side)
            moves += sum(
                abs(first.get(mass, 0) - second.get(mass, 0)) for mass in {*first, *second}
            )
    return moves


def plates_handled(loads: Loads) -> int:
    """Pairs each bar needs over all its waves, added up over the bars."""
    most: dict[tuple[str, int], int] = {}
    for load in loads:
        for mass, count in load.per_side:
            most[load.bar, mass] = max(count, most.get((load.bar, mass), 0))
    return sum(most.values())
