"""The last two goals: plates moved between users of a bar, then pairs handled."""

from collections import Counter
from fractions import Fraction

from squadwright.planning.kit.bar_model import hint_loads, read_loads
from squadwright.planning.kit.budget import Budget
from squadwright.planning.kit.families import user_classes
from squadwright.planning.kit.fillings import fillings_of_plan, for_each_target, useful_fillings
from squadwright.planning.kit.load_model import load_model, waves_can_be_merged
from squadwright.planning.kit.loads import Reach
from squadwright.planning.kit.measures import (
    Loads,
    largest_shortfall,
    plate_moves,
    plates_handled,
    shared_unit_g,
    total_shortfall_g,
)
from squadwright.planning.kit.pricing import cheapest
from squadwright.planning.kit.problem import KitGoal, KitGoalName, KitProblem
from squadwright.planning.kit.programmes import columns_of, loads_of, programmes
from squadwright.planning.kit.shortfalls import model_at_hand

MOST_FILLINGS = 3000
PAIRS_FOR_WORK = 2e6
"""Pairs of fillings that can be priced often enough in one unit of work."""


def least_moves(
    problem: KitProblem, reach: Reach, loads: Loads, budget: Budget
) -> tuple[Loads, KitGoal, KitGoal]:
    """Fewest moves, then fewest pairs, with both shortfalls kept."""
    if problem.waves <= 2 and not problem.plates_stay_with_bar:
        return _least_moves_by_programmes(problem, reach, loads, budget)
    made = model_at_hand(problem, reach, loads, with_moves=True)
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
) -> tuple[Loads, KitGoal, KitGoal]:
    """The last two goals by whole programmes of a bar.

    With too many fillings only those that carry a load of the plan at hand are tried; what is
    found is then no bound.
    """
    unit_g, shortfall = shared_unit_g(problem), largest_shortfall(loads)
    merged = waves_can_be_merged(problem)
    made = load_model(problem, reach, shortfall, unit_g=unit_g, merged=merged)
    assert made is not None, "a plan with this shortfall is at hand"
    total_g = sum(load.load_g for load in loads)
    classes = user_classes(problem, by_target=True)
    every = useful_fillings(made, total_g, budget, MOST_FILLINGS)
    fillings = for_each_target(made, every or (), classes, shortfall)
    pairs = sum(count**2 for count in Counter(each.family for each in fillings).values())
    is_complete = every is not None and pairs <= budget.work * PAIRS_FOR_WORK
    if not is_complete:
        fillings = fillings_of_plan(made, classes, loads)
    columns = programmes(problem, made.families, classes, fillings, loads, unit_g)
    start = columns_of(columns, loads)
    if start is None:
        return loads, *_moves_goals(loads, 0, 1)
    priced = cheapest(columns, start, budget)
    loads = loads_of(columns, priced.columns)
    return loads, *_moves_goals(loads, priced.bound if is_complete else 0, columns.weight)


def _moves_goals(loads: Loads, bound: int, weight: int) -> tuple[KitGoal, KitGoal]:
    moves, handled = plate_moves(loads), plates_handled(loads)
    moves_bound = max(0, bound // weight)
    handled_bound = max(0, bound - moves * weight) if moves_bound == moves else 0
    return (
        KitGoal(KitGoalName.PLATE_MOVES, Fraction(moves), Fraction(moves_bound)),
        KitGoal(KitGoalName.PLATES_HANDLED, Fraction(handled), Fraction(handled_bound)),
    )
