"""Loads as they were: where an earlier plan is as good as a new one, nobody's bar is touched."""

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass, replace
from fractions import Fraction

from squadwright.planning.kit.measures import (
    Loads,
    largest_shortfall,
    plate_moves,
    plates_handled,
    total_shortfall_g,
)
from squadwright.planning.kit.problem import (
    KitGoal,
    KitGoalName,
    KitLoad,
    KitProblem,
    KitSolution,
    KitUser,
)


@dataclass(frozen=True)
class FormerLoad:
    """What somebody had: the bar, the wave, and the plates of one end as (mass, count)."""

    bar: str
    wave: int
    per_side: tuple[tuple[int, int], ...]


def as_before(
    problem: KitProblem, solution: KitSolution, former: Mapping[str, FormerLoad]
) -> KitSolution:
    """The solution with everybody's former load, if that is allowed now and no goal is worse."""
    loads = _loads(problem, former)
    if loads is None or loads == solution.loads or _fault(problem, loads):
        return solution
    values = {
        KitGoalName.LARGEST_SHORTFALL: largest_shortfall(loads),
        KitGoalName.TOTAL_SHORTFALL: Fraction(total_shortfall_g(loads)),
        KitGoalName.PLATE_MOVES: Fraction(plate_moves(loads)),
        KitGoalName.PLATES_HANDLED: Fraction(plates_handled(loads)),
    }
    if any(values[goal.name] > goal.value for goal in solution.goals):
        return solution
    goals = tuple(
        KitGoal(goal.name, values[goal.name], min(goal.bound, values[goal.name]))
        for goal in solution.goals
    )
    return replace(solution, loads=loads, goals=goals, changed_bars=())


def _loads(problem: KitProblem, former: Mapping[str, FormerLoad]) -> Loads | None:
    """Everybody's former load in the order of a solution; None where somebody has none."""
    bars = problem.bar_by_id
    loads = []
    for user in problem.users:
        had = former.get(user.id)
        if had is None or had.bar not in bars:
            return None
        hung_g = 2 * sum(mass_g * count for mass_g, count in had.per_side)
        load_g = bars[had.bar].mass_g + hung_g
        loads.append(KitLoad(user.id, had.bar, had.wave, user.target_g, load_g, had.per_side))
    return tuple(sorted(loads, key=lambda load: (load.bar, load.wave)))


def _fault(problem: KitProblem, loads: Loads) -> bool:
    """Whether anything of the problem forbids these loads."""
    users, bars = problem.user_by_id, problem.bar_by_id
    places = Counter((load.bar, load.wave) for load in loads)
    if max(places.values()) > 1 or any(load.wave > problem.waves for load in loads):
        return True
    if any(not _is_allowed(users[load.user], load) for load in loads):
        return True
    for load in loads:
        most_g = bars[load.bar].maximum_plates_g
        if most_g is not None and load.load_g - bars[load.bar].mass_g > most_g:
            return True
    return _is_short_of_plates(problem, loads) or _shares_otherwise(problem, loads)


def _is_allowed(user: KitUser, load: KitLoad) -> bool:
    return (
        load.load_g <= user.target_g
        and user.wave in (None, load.wave)
        and (user.bars is None or load.bar in user.bars)
        and not (user.bare_bar and load.per_side)
    )


def _is_short_of_plates(problem: KitProblem, loads: Loads) -> bool:
    stock = {size.mass_g: size.pairs for size in problem.plates}
    needed: Counter[tuple[int, int]] = Counter()
    beside: dict[tuple[str, int], int] = {}
    for load in loads:
        for mass_g, count in load.per_side:
            needed[load.wave, mass_g] += count
            beside[load.bar, mass_g] = max(count, beside.get((load.bar, mass_g), 0))
    if any(count > stock.get(mass_g, 0) for (_, mass_g), count in needed.items()):
        return True
    if not problem.plates_stay_with_bar:
        return False
    whole: Counter[int] = Counter()
    for (_, mass_g), count in beside.items():
        whole[mass_g] += count
    return any(count > stock.get(mass_g, 0) for mass_g, count in whole.items())


def _shares_otherwise(problem: KitProblem, loads: Loads) -> bool:
    """Whether those who are to share a bar do not, or share it with somebody else."""
    bar_of = {load.user: load.bar for load in loads}
    for group in problem.shared:
        bars = {bar_of[name] for name in group}
        if len(bars) > 1:
            return True
        if any(bar in bars for name, bar in bar_of.items() if name not in group):
            return True
    return False
