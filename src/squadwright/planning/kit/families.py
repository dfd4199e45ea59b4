"""Bars nothing tells apart, and users nothing but the target tells apart.

Among users of one class the plan can be sorted: if two of them could swap loads, the higher load
belongs to the higher target. Nobody is then above target who was not before, the largest
relative shortfall does not grow and the total stays the same. So a class needs no variable for
each user, only the number of each load.
"""

from dataclasses import dataclass
from fractions import Fraction

from squadwright.planning.kit.loads import Reach, ceiling_g, floor_g, may_use
from squadwright.planning.kit.problem import KitBar, KitProblem, KitUser


@dataclass(frozen=True)
class Family:
    """Equal bars, in the order of the problem."""

    bars: tuple[KitBar, ...]

    @property
    def bar(self) -> KitBar:
        """Any one of them."""
        return self.bars[0]

    @property
    def mass_g(self) -> int:
        """Mass of each bar [g]."""
        return self.bar.mass_g


@dataclass(frozen=True)
class UserClass:
    """Users who may take the same bars and waves, lowest target first.

    ``group`` is the number of the shared bar, and the class then holds one user; None: free.
    """

    users: tuple[KitUser, ...]
    waves: tuple[int, ...]
    group: int | None

    def loads_g(self, reach: Reach, bar: KitBar, shortfall: Fraction) -> list[int]:
        """Loads on this bar that lie in the window of one user at least, ascending [g]."""
        windows = [
            (floor_g(user.target_g, shortfall), ceiling_g(user, bar))
            for user in self.users
            if may_use(user, bar)
        ]
        if not windows:
            return []
        heaviest = max(self.users, key=lambda user: ceiling_g(user, bar))
        return [
            load
            for load in reach.loads_g(heaviest, bar)
            if any(low <= load <= high for low, high in windows)
        ]


def bar_families(problem: KitProblem) -> tuple[Family, ...]:
    """Sort the bars into families; a bar named by somebody is apart from the others."""
    families: dict[tuple[object, ...], list[KitBar]] = {}
    for bar in problem.bars:
        named = tuple(user.id for user in problem.users if user.bars and bar.id in user.bars)
        families.setdefault((bar.mass_g, bar.maximum_plates_g, named), []).append(bar)
    return tuple(Family(tuple(bars)) for bars in families.values())


def user_classes(problem: KitProblem, *, by_target: bool = False) -> tuple[UserClass, ...]:
    """Sort the users into classes; each user of a shared bar is a class alone.

    ``by_target`` also keeps different targets apart.
    """
    every_wave = tuple(range(1, problem.waves + 1))
    group_of = {name: index for index, group in enumerate(problem.shared) for name in group}
    classes: dict[tuple[object, ...], list[KitUser]] = {}
    for user in problem.users:
        group = group_of.get(user.id)
        alone = user.id if group is not None else None
        bars = None if user.bars is None else frozenset(user.bars)
        target = user.target_g if by_target else None
        key = (group, alone, bars, user.wave, user.bare_bar, target)
        classes.setdefault(key, []).append(user)
    return tuple(
        UserClass(
            tuple(sorted(users, key=lambda user: user.target_g)),
            every_wave if users[0].wave is None else (users[0].wave,),
            group_of.get(users[0].id),
        )
        for users in classes.values()
    )
