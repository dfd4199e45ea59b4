"""Every bar and wave written out: the model that knows who follows whom on which bar.

One yes-or-no variable for a user on a bar in a wave, one count of plates of one end for each
bar, wave and size. It serves every goal and every wish; for many bars the two shortfall goals
are closed by the smaller model of ``kit_load_model``.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from itertools import combinations, pairwise

from ortools.sat.python import cp_model

from squadwright.planning.kit.families import bar_families
from squadwright.planning.kit.loads import Place, Reach, ceiling_g, floor_g
from squadwright.planning.kit.problem import KitLoad, KitProblem
from squadwright.planning.kit.start import open_places

Slot = tuple[str, int]
Expression = cp_model.LinearExpr


@dataclass
class BarModel:
    """The model and its variables."""

    problem: KitProblem
    model: cp_model.CpModel = field(default_factory=cp_model.CpModel)
    stands: dict[Place, cp_model.IntVar] = field(default_factory=dict)
    used: dict[Slot, Expression] = field(default_factory=dict)
    plates: dict[tuple[str, int, int], cp_model.IntVar] = field(default_factory=dict)
    moves: list[cp_model.IntVar] = field(default_factory=list)
    beside: dict[tuple[str, int], cp_model.IntVar] = field(default_factory=dict)
    most_beside: int = 0

    @property
    def total_load_g(self) -> Expression:
        """Everything lifted, all users together [g]."""
        return cp_model.LinearExpr.sum([self.load_g(slot) for slot in self.used])

    def load_g(self, slot: Slot) -> Expression:
        """Load of a slot, 0 when nobody uses it [g]."""
        bar, wave = slot
        mass_g = self.problem.bar_by_id[bar].mass_g
        plates = [
            2 * size.mass_g * self.plates[bar, wave, size.mass_g] for size in self.problem.plates
        ]
        return mass_g * self.used[slot] + sum(plates)


def bar_model(
    problem: KitProblem, reach: Reach, shortfall: Fraction, *, with_moves: bool = True
) -> BarModel | None:
    """Build the model for plans in which nobody falls short by more than ``shortfall``.

    None when some user has no bar on which that is possible even with the whole stock.
    """
    made = BarModel(problem)
    if not _add_places(made, reach, shortfall):
        return None
    _each_user_stands_once(made)
    _shared_bars_are_kept_together(made)
    _plates_fit_the_stock(made)
    _loads_fit_the_users(made, shortfall)
    _equal_bars_are_in_order(made)
    if with_moves:
        _count_beside(made)
        _count_moves(made)
    return made


def _add_places(made: BarModel, reach: Reach, shortfall: Fraction) -> bool:
    problem, bars, users = made.problem, made.problem.bar_by_id, made.problem.user_by_id
    for name, places in open_places(problem).items():
        user = users[name]
        least = floor_g(user.target_g, shortfall)
        good = [spot for spot in places if reach.best_load_g(user, bars[spot[1]]) >= least]
        if not good:
            return False
        for spot in good:
            made.stands[spot] = made.model.new_bool_var("")
    for bar in problem.bars:
        for wave in range(1, problem.waves + 1):
            here = [var for (_, b, w), var in made.stands.items() if (b, w) == (bar.id, wave)]
            if here:
                made.used[bar.id, wave] = cp_model.LinearExpr.sum(here)
                made.model.add_at_most_one(here)
    return True


def _each_user_stands_once(made: BarModel) -> None:
    """Each user has exactly one bar and wave."""
    for user in made.problem.users:
        made.model.add_exactly_one(
            [var for (name, _, _), var in made.stands.items() if name == user.id]
        )


def _on_bar(made: BarModel, user: str, bar: str) -> Expression:
    return cp_model.LinearExpr.sum(
        [var for (name, b, _), var in made.stands.items() if name == user and b == bar]
    )


def _shared_bars_are_kept_together(made: BarModel) -> None:
    """A shared group is on one bar, and nobody else is on it."""
    for group in made.problem.shared:
        others = [user.id for user in made.problem.users if user.id not in group]
        for bar in made.problem.bars:
            first = _on_bar(made, group[0], bar.id)
            for name in group[1:]:
                made.model.add(_on_bar(made, name, bar.id) == first)
            for name in others:
                if any((name, bar.id, w) in made.stands for w in range(made.problem.waves + 1)):
                    made.model.add(_on_bar(made, name, bar.id) + first <= 1)


def _plates_fit_the_stock(made: BarModel) -> None:
    """In each wave the bars together hold no more pairs than there are."""
    problem = made.problem
    for size in problem.plates:
        for bar, wave in made.used:
            made.plates[bar, wave, size.mass_g] = made.model.new_int_var(0, size.pairs, "")
        for wave in range(1, problem.waves + 1):
            made.model.add(
                sum(made.plates[b, w, size.mass_g] for b, w in made.used if w == wave) <= size.pairs
            )


def _loads_fit_the_users(made: BarModel, shortfall: Fraction) -> None:
    """A load is at most the ceiling of whoever stands there and at least the floor."""
    bars, users = made.problem.bar_by_id, made.problem.user_by_id
    for slot in made.used:
        here = [(name, var) for (name, b, w), var in made.stands.items() if (b, w) == slot]
        load = made.load_g(slot)
        made.model.add(
            load <= sum(ceiling_g(users[name], bars[slot[0]]) * var for name, var in here)
        )
        made.model.add(
            load
            >= sum(
                max(bars[slot[0]].mass_g, floor_g(users[name].target_g, shortfall)) * var
                for name, var in here
            )
        )


def _equal_bars_are_in_order(made: BarModel) -> None:
    """Of bars nothing tells apart, the first carries the most in the first wave."""
    for family in bar_families(made.problem):
        if made.problem.shared:
            continue
        for before, after in pairwise(family.bars):
            if (before.id, 1) in made.used and (after.id, 1) in made.used:
                made.model.add(made.load_g((before.id, 1)) >= made.load_g((after.id, 1)))


def _count_beside(made: BarModel) -> None:
    """What lies beside a bar covers what it carries in any wave."""
    problem = made.problem
    for size in problem.plates:
        for bar in sorted({bar for bar, _ in made.used}):
            count = made.model.new_int_var(0, size.pairs, "")
            made.beside[bar, size.mass_g] = count
            made.most_beside += size.pairs
            for wave in range(1, problem.waves + 1):
                if (bar, wave) in made.used:
                    made.model.add(made.plates[bar, wave, size.mass_g] <= count)
        if problem.plates_stay_with_bar:
            made.model.add(
                sum(count for (_, mass), count in made.beside.items() if mass == size.mass_g)
                <= size.pairs
            )


def _count_moves(made: BarModel) -> None:
    """From one user of a bar to the next, each plate put on or taken off is a move."""
    problem = made.problem
    for bar in sorted({bar for bar, _ in made.used}):
        waves = [w for w in range(1, problem.waves + 1) if (bar, w) in made.used]
        for early, late in combinations(waves, 2):
            between = [made.used[bar, w] for w in waves if early < w < late]
            follow = _both_and_none_between(made, (bar, early), (bar, late), between)
            for size in problem.plates:
                _count_one_size(made, bar, early, late, size.mass_g, size.pairs, follow)


def _both_and_none_between(
    made: BarModel, early: Slot, late: Slot, between: Sequence[Expression]
) -> cp_model.IntVar:
    follow = made.model.new_bool_var("")
    made.model.add(made.used[early] + made.used[late] - sum(between) - 1 <= follow)
    return follow


def _count_one_size(
    made: BarModel,
    bar: str,
    early: int,
    late: int,
    mass_g: int,
    pairs: int,
    follow: cp_model.IntVar,
) -> None:
    moved = made.model.new_int_var(0, pairs, "")
    before, after = made.plates[bar, early, mass_g], made.plates[bar, late, mass_g]
    made.model.add(moved >= before - after - pairs * (1 - follow))
    made.model.add(moved >= after - before - pairs * (1 - follow))
    made.moves.append(moved)


def hint_loads(made: BarModel, loads: Sequence[KitLoad]) -> None:
    """Start the search from a plan."""
    seats = {(load.user, load.bar, load.wave) for load in loads}
    for place, var in made.stands.items():
        made.model.add_hint(var, place in seats)
    counts = {(load.bar, load.wave, mass): count for load in loads for mass, count in load.per_side}
    for key, count_var in made.plates.items():
        made.model.add_hint(count_var, counts.get(key, 0))
    for (bar, mass), beside in made.beside.items():
        most = max(counts.get((bar, w, mass), 0) for w in range(1, made.problem.waves + 1))
        made.model.add_hint(beside, most)


def read_loads(made: BarModel, value: Mapping[int, int]) -> tuple[KitLoad, ...]:
    """Turn variable values (by index) into loads, by bar and wave."""
    problem, bars, users = made.problem, made.problem.bar_by_id, made.problem.user_by_id
    sizes = sorted((size.mass_g for size in problem.plates), reverse=True)
    loads = []
    for (name, bar, wave), var in made.stands.items():
        if not value[var.index]:
            continue
        counts = [(mass, value[made.plates[bar, wave, mass].index]) for mass in sizes]
        per_side = tuple((mass, count) for mass, count in counts if count)
        load_g = bars[bar].mass_g + 2 * sum(mass * count for mass, count in per_side)
        loads.append(KitLoad(name, bar, wave, users[name].target_g, load_g, per_side))
    order = {bar.id: index for index, bar in enumerate(problem.bars)}
    return tuple(sorted(loads, key=lambda load: (order[load.bar], load.wave)))
