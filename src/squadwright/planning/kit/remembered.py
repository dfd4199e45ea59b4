"""What was searched for lately is not searched for again: the same kit problem has the same plan.

A plan is made anew whenever something of a session changes, and most changes leave the bars, the
plates and the loads as they were. A search that the clock cut short is not remembered.
"""

from fractions import Fraction
from functools import lru_cache

from squadwright.planning.kit import solve_kit
from squadwright.planning.kit.prices import fewest_more_pairs
from squadwright.planning.kit.problem import KitProblem, KitSolution

MOST_PROBLEMS = 64


class _CutByClock(Exception):
    """Carries a plan past the memory, which keeps no call that raises."""

    def __init__(self, solution: KitSolution) -> None:
        super().__init__("the clock cut the search short")
        self.solution = solution


def remembered_plan(problem: KitProblem) -> KitSolution:
    """As ``solve_kit``, without a search where the same was asked lately."""
    try:
        return _plan(problem)
    except _CutByClock as error:
        return error.solution


@lru_cache(maxsize=MOST_PROBLEMS)
def remembered_pairs(problem: KitProblem, tolerance: Fraction) -> tuple[tuple[int, int], ...]:
    """As ``fewest_more_pairs``, without a search where the same was asked lately."""
    return fewest_more_pairs(problem, tolerance)


def forget() -> None:
    """Search for everything again."""
    _plan.cache_clear()
    remembered_pairs.cache_clear()


@lru_cache(maxsize=MOST_PROBLEMS)
def _plan(problem: KitProblem) -> KitSolution:
    solution = solve_kit(problem)
    if solution.stopped_by_clock:
        raise _CutByClock(solution)
    return solution
