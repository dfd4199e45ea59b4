"""What a bar goes through in a session, as one column: a family and a filling for each wave.

Moves and pairs handled belong to a bar as a whole, so a column has a known cost and the
relaxation is close. Columns are priced by the relaxation's row prices all at once and only those
that can pay are kept; at the end every column within the gap is searched in whole numbers, which
proves the optimum. For one and two waves.
"""

from dataclasses import dataclass, field
from functools import cached_property

import numpy as np
import numpy.typing as npt

from squadwright.planning.kit.families import Family, UserClass
from squadwright.planning.kit.fillings import Filling
from squadwright.planning.kit.problem import KitLoad, KitProblem

Numbers = npt.NDArray[np.int64]
Floats = npt.NDArray[np.float64]
Column = tuple[int, int, int]
"""Family, filling in the first wave, filling in the second; ``nobody`` is the last number."""


@dataclass(frozen=True)
class Rows:
    """Limits of the rows, and what each filling adds to each row in each wave."""

    lows: Floats
    highs: Floats
    adds: tuple[Numbers, Numbers]
    family_rows: tuple[int, ...]


@dataclass(frozen=True)
class Programmes:
    """All columns there could be, without writing them out."""

    problem: KitProblem
    families: tuple[Family, ...]
    classes: tuple[UserClass, ...]
    fillings: tuple[Filling, ...]
    rows: Rows
    weight: int
    counts: Numbers = field(repr=False)

    @property
    def nobody(self) -> int:
        """The filling of a bar nobody uses in that wave."""
        return len(self.fillings)

    @cached_property
    def members(self) -> tuple[Numbers, ...]:
        """Fillings of each family, ``nobody`` last."""
        return tuple(
            np.array(
                [n for n, each in enumerate(self.fillings) if each.family == place] + [self.nobody]
            )
            for place in range(len(self.families))
        )

    @cached_property
    def costs(self) -> tuple[Floats, ...]:
        """Cost of each pair of fillings of each family; infinite where they may not follow."""
        return tuple(self._cost(place) for place in range(len(self.families)))

    def _cost(self, place: int) -> Floats:
        numbers = self.members[place]
        ways, way_of = np.unique(self.counts[numbers], axis=0, return_inverse=True)
        first, second = ways[:, None, :], ways[None, :, :]
        moves = np.abs(first - second).sum(axis=2)
        handled = np.maximum(first, second).sum(axis=2)
        pick = np.ix_(way_of.ravel(), way_of.ravel())
        cost = (self.weight * moves + handled).astype(float)[pick]
        cost[-1, :] = cost[:, -1] = handled[pick][-1, :]
        cost[~self._may_follow(numbers)] = np.inf
        return np.asarray(cost)

    def _may_follow(self, numbers: Numbers) -> npt.NDArray[np.bool_]:
        size = len(numbers)
        groups, owners = np.full(size, -1), np.full(size, -1)
        in_wave = np.ones((2, size), dtype=bool)
        is_alone = np.ones(size, dtype=bool)
        for spot, number in enumerate(numbers[:-1]):
            users = self.classes[self.fillings[number].user_class]
            owners[spot] = self.fillings[number].user_class
            if users.group is not None:
                groups[spot] = users.group
                is_alone[spot] = len(self.problem.shared[users.group]) == 1
            in_wave[0, spot], in_wave[1, spot] = 1 in users.waves, 2 in users.waves
        same_group = groups[:, None] == groups[None, :]
        same_owner = owners[:, None] == owners[None, :]
        is_single = np.array([len(users.users) == 1 for users in self.classes] + [False])
        allowed = same_group & ~(is_single[owners][:, None] & same_owner)
        allowed[-1, :] = is_alone
        allowed[:, -1] = is_alone
        allowed &= in_wave[0][:, None] & in_wave[1][None, :]
        if self.problem.waves == 1:
            allowed[:, :-1] = False
        allowed[-1, -1] = False
        return np.asarray(allowed)

    def rows_of(self, column: Column) -> Numbers:
        """What a column adds to each row."""
        place, first, second = column
        total = self.rows.adds[0][first] + self.rows.adds[1][second]
        total[self.rows.family_rows[place]] += 1
        return np.asarray(total)

    def cost_of(self, column: Column) -> int:
        """Cost of one column."""
        place, first, second = column
        numbers = self.members[place]
        at = np.searchsorted(numbers, [first, second])
        return int(self.costs[place][at[0], at[1]])


def programmes(
    problem: KitProblem,
    families: tuple[Family, ...],
    classes: tuple[UserClass, ...],
    fillings: tuple[Filling, ...],
    loads: tuple[KitLoad, ...],
    unit_g: int,
) -> Programmes:
    """Set up the rows: both shortfalls of ``loads`` kept, stock, bars, every user served."""
    counts = np.array(
        [each.counts for each in fillings] + [(0,) * len(problem.plates)], dtype=np.int64
    ).reshape(len(fillings) + 1, len(problem.plates))
    weight = 1 + problem.waves * sum(size.pairs for size in problem.plates)
    rows = _rows(problem, families, classes, fillings, loads, unit_g, counts)
    return Programmes(problem, families, classes, fillings, rows, weight, counts)


def _rows(
    problem: KitProblem,
    families: tuple[Family, ...],
    classes: tuple[UserClass, ...],
    fillings: tuple[Filling, ...],
    loads: tuple[KitLoad, ...],
    unit_g: int,
    counts: Numbers,
) -> Rows:
    lows: list[float] = []
    highs: list[float] = []
    parts: list[tuple[Numbers, Numbers]] = []

    def add(low: float, high: float, first: Numbers, second: Numbers) -> None:
        lows.append(low)
        highs.append(high)
        parts.append((first, second))

    nothing = np.zeros(len(fillings) + 1, dtype=np.int64)
    load_g = np.array([each.load_g for each in fillings] + [0])
    owner = np.array([each.user_class for each in fillings] + [-1])
    for number, users in enumerate(classes):
        mine = (owner == number).astype(np.int64)
        add(len(users.users), len(users.users), mine, mine)
    kept = sum(load.load_g for load in loads) // unit_g
    add(kept, np.inf, load_g // unit_g, load_g // unit_g)
    sizes = sorted(problem.plates, key=lambda size: -size.mass_g)
    for column, size in enumerate(sizes):
        add(-np.inf, size.pairs, counts[:, column], nothing)
        add(-np.inf, size.pairs, nothing, counts[:, column])
    family_rows = []
    for family in families:
        family_rows.append(len(lows))
        add(-np.inf, len(family.bars), nothing, nothing)
    return Rows(
        np.array(lows),
        np.array(highs),
        (np.array([p[0] for p in parts]).T.copy(), np.array([p[1] for p in parts]).T.copy()),
        tuple(family_rows),
    )


def columns_of(made: Programmes, loads: tuple[KitLoad, ...]) -> list[Column] | None:
    """A plan as columns; None when it uses a filling that is not listed."""
    places = {bar.id: place for place, family in enumerate(made.families) for bar in family.bars}
    class_of = {user.id: n for n, users in enumerate(made.classes) for user in users.users}
    number_of = {
        (each.user_class, each.family, each.counts): n for n, each in enumerate(made.fillings)
    }
    sizes = sorted((size.mass_g for size in made.problem.plates), reverse=True)
    by_bar: dict[str, list[int]] = {}
    for load in loads:
        side = dict(load.per_side)
        key = (
            class_of[load.user],
            places[load.bar],
            tuple(side.get(mass_g, 0) for mass_g in sizes),
        )
        if key not in number_of:
            return None
        by_bar.setdefault(load.bar, [made.nobody, made.nobody])[load.wave - 1] = number_of[key]
    return [(places[bar], first, second) for bar, (first, second) in by_bar.items()]


def loads_of(made: Programmes, chosen: list[Column]) -> tuple[KitLoad, ...]:
    """Columns as a plan: bars in the order of the problem, loads sorted as targets."""
    free = [list(family.bars) for family in made.families]
    sizes = sorted((size.mass_g for size in made.problem.plates), reverse=True)
    served: dict[int, list[tuple[int, int, str, int]]] = {}

    def weight_of(column: Column) -> tuple[int, ...]:
        loads = [made.fillings[n].load_g for n in column[1:] if n != made.nobody]
        return (-max(loads), -sum(loads), *column)

    for place, first, second in sorted(chosen, key=weight_of):
        bar = free[place].pop(0)
        for wave, number in ((1, first), (2, second)):
            if number != made.nobody:
                filling = made.fillings[number]
                served.setdefault(filling.user_class, []).append(
                    (filling.load_g, number, bar.id, wave)
                )
    loads = []
    for number, users in enumerate(made.classes):
        for user, (load_g, filling_number, bar_id, wave) in zip(
            users.users, sorted(served[number]), strict=True
        ):
            counts = made.fillings[filling_number].counts
            per_side = tuple((m, n) for m, n in zip(sizes, counts, strict=True) if n)
            loads.append(KitLoad(user.id, bar_id, wave, user.target_g, load_g, per_side))
    order = {bar.id: index for index, bar in enumerate(made.problem.bars)}
    return tuple(sorted(loads, key=lambda load: (order[load.bar], load.wave)))
