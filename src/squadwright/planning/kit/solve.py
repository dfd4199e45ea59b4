"""The goals one after another, each with its bound."""

from dataclasses import dataclass, replace
from fractions import Fraction
from time import perf_counter

from squadwright.planning.kit.bar_model import bar_model, read_loads
from squadwright.planning.kit.budget import Budget
from squadwright.planning.kit.loads import Reach, reach_of
from squadwright.planning.kit.measures import Loads, largest_shortfall, total_shortfall_g
from squadwright.planning.kit.moves import least_moves
from squadwright.planning.kit.problem import KitGoal, KitProblem, KitSolution
from squadwright.planning.kit.shortfalls import (
    both_shortfalls,
    least_largest_shortfall,
    least_total,
)
from squadwright.planning.kit.start import (
    NoPlaceOnABar,
    TimeRanOut,
    load_heavy_first,
    open_places,
    seats_by_hand,
)


@dataclass(frozen=True)
class Effort:
    """How long to search: work for the shortfalls and for the moves, and a clock as guard [s]."""

    shortfall_work: float
    moves_work: float
    clock_s: float


MOST_USERS_PROVEN = 16


def usual_effort(problem: KitProblem) -> Effort:
    """Enough to close the shortfalls of a hundred athletes; the moves get what one would wait.

    For the few of one session in two waves that is enough to prove the moves too.
    """
    few = len(problem.users) <= MOST_USERS_PROVEN and problem.waves <= 2
    return Effort(shortfall_work=10.0, moves_work=2.5 if few else 0.4, clock_s=40.0)


_START_WORK = 60.0


def effort_within(time_limit_s: float) -> Effort:
    """All of a time limit, the moves with what the shortfalls leave."""
    return Effort(time_limit_s, time_limit_s, time_limit_s)


def solve_without_tolerance(problem: KitProblem, effort: Effort) -> KitSolution:
    """Reach the four goals in order."""
    ends_at = perf_counter() + effort.clock_s
    budget = Budget(effort.shortfall_work, ends_at)
    reach = reach_of(problem)
    loads, largest, total = least_shortfalls(problem, reach, budget)
    rest = Budget(effort.moves_work, ends_at)
    loads, moves, handled = least_moves(problem, reach, loads, rest)
    # Where the shortfalls were not closed, fewer moves may come with less of them.
    largest = replace(largest, value=largest_shortfall(loads))
    total = replace(total, value=Fraction(total_shortfall_g(loads)))
    return KitSolution(
        loads,
        (largest, total, moves, handled),
        stopped_by_clock=budget.is_cut_by_clock or rest.is_cut_by_clock,
    )


def least_shortfalls(
    problem: KitProblem, reach: Reach, budget: Budget
) -> tuple[Loads, KitGoal, KitGoal]:
    """The two shortfall goals alone."""
    loads = first_plan(problem, reach)
    if not problem.plates_stay_with_bar:
        return both_shortfalls(problem, reach, loads, budget)
    loads, largest = least_largest_shortfall(problem, reach, loads, budget)
    loads, total = least_total(problem, reach, loads, budget)
    return loads, largest, total


def first_plan(problem: KitProblem, reach: Reach) -> Loads:
    """The plan made by hand, or any plan the solver can find."""
    places = open_places(problem)
    seats = seats_by_hand(problem, places)
    if seats:
        return load_heavy_first(problem, seats)
    made = bar_model(problem, reach, Fraction(1), with_moves=False)
    outcome = Budget(_START_WORK, perf_counter() + _START_WORK).run(made.model) if made else None
    if made is None or (outcome and outcome.is_impossible):
        raise NoPlaceOnABar(
            f"users: {len(problem.users)} athletes cannot all be given a bar they may use on "
            f"{len(problem.bars)} bars in {problem.waves} wave(s). "
            f"Add a wave or a light bar, or free somebody from a named bar or wave"
        )
    if outcome is None or outcome.values is None:
        raise TimeRanOut(
            f"users: no place for all {len(problem.users)} athletes was found in "
            f"{_START_WORK:g} s, and it is not proven that there is none. "
            f"Name fewer bars, waves and shared bars"
        )
    found = read_loads(made, outcome.values)
    return load_heavy_first(problem, {load.user: (load.bar, load.wave) for load in found})
