"""Which loads can be built on which bar, and which shortfalls can occur at all.

Everything is whole grams and exact fractions, so that two shortfalls are equal or they are not.
"""

from bisect import bisect_right
from dataclasses import dataclass
from fractions import Fraction

from squadwright.planning.kit.problem import KitBar, KitProblem, KitUser

Place = tuple[str, str, int]
"""A user on a bar in a wave."""


def side_masses(sizes: tuple[tuple[int, int], ...], most_g: int) -> tuple[int, ...]:
    """Masses one end of a bar can carry, ascending, 0 first [g].

    Parameters
    ----------
    sizes : (mass of one plate [g], pairs in the stock).
    most_g : the most wanted on one end [g].
    """
    reached = {0}
    for mass_g, pairs in sizes:
        grown = set(reached)
        for start in reached:
            top = min(pairs, (most_g - start) // mass_g)
            grown.update(start + count * mass_g for count in range(1, top + 1))
        reached = grown
    return tuple(sorted(reached))


def ceiling_g(user: KitUser, bar: KitBar) -> int:
    """The most this user may find on this bar [g]; below the bar's mass when it is too heavy."""
    if user.bare_bar:
        return min(user.target_g, bar.mass_g)
    if bar.maximum_plates_g is None:
        return user.target_g
    return min(user.target_g, bar.mass_g + bar.maximum_plates_g)


def floor_g(target_g: int, shortfall: Fraction) -> int:
    """The least load whose shortfall is within the given share of the target [g]."""
    kept = target_g * (1 - shortfall)
    return -((-kept.numerator) // kept.denominator)


def may_use(user: KitUser, bar: KitBar) -> bool:
    """Whether the bar is open to the user and not heavier than the target."""
    return (user.bars is None or bar.id in user.bars) and bar.mass_g <= user.target_g


@dataclass(frozen=True)
class Reach:
    """Loads that can be built when one bar has the whole stock to itself."""

    problem: KitProblem
    sides_g: tuple[int, ...]

    def best_load_g(self, user: KitUser, bar: KitBar) -> int:
        """The heaviest buildable load at or below the user's ceiling on this bar [g]."""
        room = (ceiling_g(user, bar) - bar.mass_g) // 2
        return bar.mass_g + 2 * self.sides_g[bisect_right(self.sides_g, room) - 1]

    def loads_g(self, user: KitUser, bar: KitBar) -> list[int]:
        """All buildable loads at or below the user's ceiling on this bar, ascending [g]."""
        room = (ceiling_g(user, bar) - bar.mass_g) // 2
        return [bar.mass_g + 2 * side for side in self.sides_g[: bisect_right(self.sides_g, room)]]


def reach_of(problem: KitProblem) -> Reach:
    """Work out the buildable loads of a problem."""
    heaviest = max(user.target_g for user in problem.users)
    lightest = min(bar.mass_g for bar in problem.bars)
    sizes = tuple((size.mass_g, size.pairs) for size in problem.plates)
    return Reach(problem, side_masses(sizes, max(0, (heaviest - lightest) // 2)))


def least_shortfall(reach: Reach) -> Fraction:
    """A bound: the largest shortfall if everybody in turn had the whole stock to themselves."""
    problem = reach.problem
    return max(
        min(
            Fraction(user.target_g - reach.best_load_g(user, bar), user.target_g)
            for bar in problem.bars
            if may_use(user, bar)
        )
        for user in problem.users
    )


def shortfall_steps(reach: Reach, low: Fraction, high: Fraction) -> list[Fraction]:
    """Every shortfall that some buildable load gives some user, from low to high, ascending."""
    problem = reach.problem
    masses = {(bar.mass_g, bar.maximum_plates_g): bar for bar in problem.bars}
    steps: set[Fraction] = set()
    seen: set[tuple[int, int, bool, int | None]] = set()
    for user in problem.users:
        for bar in masses.values():
            kind = (user.target_g, bar.mass_g, user.bare_bar, bar.maximum_plates_g)
            if bar.mass_g > user.target_g or kind in seen:
                continue
            seen.add(kind)
            least = floor_g(user.target_g, high)
            for load in reach.loads_g(user, bar):
                if load >= least:
                    steps.add(Fraction(user.target_g - load, user.target_g))
    return sorted(step for step in steps if low <= step <= high)
