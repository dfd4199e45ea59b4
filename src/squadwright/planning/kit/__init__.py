"""Plates and bars for all bars and waves at once.

The goals, each made as small as can be without giving up one before it: the largest shortfall
as a share of the target, the total shortfall in kilograms, the plates moved between users of a
bar, the pairs handled. Every goal comes with its proven bound. The same problem gives the same
plan: one worker and a limit counted in work, not in seconds. Only when the clock has to cut in
may two runs differ, and then the solution says so.
"""

from dataclasses import replace
from fractions import Fraction
from time import perf_counter

from squadwright.errors import InvalidInput, NoSolution
from squadwright.planning.kit.loads import reach_of
from squadwright.planning.kit.measures import percent
from squadwright.planning.kit.problem import KitGoalName, KitProblem, KitSolution
from squadwright.planning.kit.solve import (
    Effort,
    effort_within,
    first_plan,
    solve_without_tolerance,
    usual_effort,
)
from squadwright.planning.kit.start import NoPlaceOnABar


class NoPlanWithinTolerance(NoSolution):
    """Proven: no plan keeps everybody within the tolerance.

    Parameters
    ----------
    tolerance : what was asked, as a share of the target.
    closest : the best plan found; its largest shortfall is the tightest tolerance known to work.
    """

    def __init__(self, tolerance: Fraction, closest: KitSolution) -> None:
        goal = closest.goal(KitGoalName.LARGEST_SHORTFALL)
        is_known = goal.is_proven
        worst = max(closest.loads, key=lambda load: (load.shortfall_fraction, load.user))
        super().__init__(
            f"tolerance: no plan keeps everybody within {percent(tolerance)} below target; "
            f"the tightest that works is {percent(goal.value)}"
            f"{'' if is_known else f' (at least {percent(goal.bound)} is proven)'}, "
            f"set by {worst.user} ({worst.load_g / 1000:g} of {worst.target_g / 1000:g} kg). "
            f"Allow that much, add plates, or use fewer bars at a time"
        )
        self.tolerance = tolerance
        self.closest = closest

    @property
    def tightest(self) -> Fraction:
        """The tightest tolerance known to work."""
        return self.closest.largest_shortfall_fraction


def solve_kit(problem: KitProblem, *, time_limit_s: float | None = None) -> KitSolution:
    """Choose bars, waves and plates.

    Parameters
    ----------
    problem : bars, stock, athletes.
    time_limit_s : stop after so long [s]; None: close the shortfalls, and spend a second or two
        on the moves.

    Returns
    -------
    The plan with its goals and bounds. When time ran out a goal's bound is below its value; if
    the plan then misses the tolerance while the bound does not, the question is still open.

    Raises
    ------
    NoPlaceOnABar : somebody cannot have any bar.
    NoPlanWithinTolerance : proven impossible; carries the tightest tolerance that works.
    """
    if time_limit_s is not None and not time_limit_s > 0:
        raise InvalidInput(
            "time_limit", f"{time_limit_s:g} s is not above 0 s", "Give some seconds to search"
        )
    started = perf_counter()
    effort = usual_effort(problem) if time_limit_s is None else effort_within(time_limit_s)
    solution = _keeping_bars(problem, effort)
    solution = replace(solution, seconds=perf_counter() - started)
    largest = solution.goal(KitGoalName.LARGEST_SHORTFALL)
    if problem.tolerance is not None and largest.bound > problem.tolerance:
        raise NoPlanWithinTolerance(problem.tolerance, solution)
    return solution


def _keeping_bars(problem: KitProblem, effort: Effort) -> KitSolution:
    """Hold everybody with a kept bar to it; let go of those for whom no plan holds."""
    keepers = {user.id: user.kept_bar for user in problem.users if user.kept_bar is not None}
    held = set(keepers)
    if held and not _has_places(_holding(problem, held)):
        held = set()
        for name in keepers:
            if _has_places(_holding(problem, held | {name})):
                held.add(name)
    solution = solve_without_tolerance(_holding(problem, held), effort)
    changed = tuple(
        load.user for load in solution.loads if keepers.get(load.user, load.bar) != load.bar
    )
    return replace(solution, changed_bars=changed)


def _holding(problem: KitProblem, names: set[str]) -> KitProblem:
    """The problem in which the named users may only use the bar they had."""
    return replace(
        problem,
        users=tuple(
            replace(user, bars=(user.kept_bar,), kept_bar=None)
            if user.kept_bar is not None and user.id in names
            else replace(user, kept_bar=None)
            for user in problem.users
        ),
    )


def _has_places(problem: KitProblem) -> bool:
    try:
        first_plan(problem, reach_of(problem))
    except NoPlaceOnABar:
        return False
    return True
