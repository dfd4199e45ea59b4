"""How many bars carry which load in which wave: the small model for the two shortfall goals.

Who follows whom on a bar does not matter to a shortfall, so bars and users appear only as
numbers: of bars in a family, of loads in a class. The plates of a wave are walks through the
sizes (``kit_sides``), all drawing on the wave's stock. Not for plates that stay with their bar.
"""

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from math import inf

from squadwright.planning.kit.families import Family, UserClass, bar_families, user_classes
from squadwright.planning.kit.linear import LinearProgram
from squadwright.planning.kit.loads import Reach, floor_g
from squadwright.planning.kit.problem import KitLoad, KitProblem, KitUser
from squadwright.planning.kit.sides import Knot, Step, side_steps

Count = tuple[int, int, int, int]
"""Class number, family number, wave, mass on one end [g]."""


@dataclass
class LoadModel:
    """The program and its variables."""

    problem: KitProblem
    families: tuple[Family, ...]
    classes: tuple[UserClass, ...]
    waves: tuple[int, ...]
    stocks: int
    unit_g: int
    program: LinearProgram = field(default_factory=LinearProgram)
    counts: dict[Count, int] = field(default_factory=dict)
    takes: dict[tuple[int, int], int] = field(default_factory=dict)
    walks: dict[tuple[int, Step], int] = field(default_factory=dict)
    drawn: dict[tuple[int, int], list[tuple[int, int]]] = field(default_factory=dict)


def waves_can_be_merged(problem: KitProblem) -> bool:
    """Whether all waves may be seen as one with all their stocks: a bound, quickly had."""
    return all(user.wave is None for user in problem.users)


def load_model(
    problem: KitProblem, reach: Reach, shortfall: Fraction, *, unit_g: int, merged: bool = False
) -> LoadModel | None:
    """Build the model for plans in which nobody falls short by more than ``shortfall``.

    The cost is minus the total load in units of ``unit_g``. ``merged`` puts all waves into one
    with all their stocks and bars; its optimum is a bound. None when some user has no load.
    """
    waves = (1,) if merged else tuple(range(1, problem.waves + 1))
    stocks = problem.waves if merged else 1
    made = LoadModel(problem, bar_families(problem), user_classes(problem), waves, stocks, unit_g)
    if not _add_counts(made, reach, shortfall):
        return None
    _loads_fit_the_class(made, shortfall)
    _groups_take_one_bar(made)
    _families_have_bars_enough(made)
    for wave in waves:
        _plates_fit_the_stock(made, wave)
    return made


def _add_counts(made: LoadModel, reach: Reach, shortfall: Fraction) -> bool:
    for number, users in enumerate(made.classes):
        found = False
        for place, family in enumerate(made.families):
            if users.users[0].bars is not None and family.bar.id not in users.users[0].bars:
                continue
            for load in users.loads_g(reach, family.bar, shortfall):
                found = True
                top = min(len(users.users), len(family.bars) * made.stocks)
                for wave in made.waves if made.stocks > 1 else users.waves:
                    key = (number, place, wave, (load - family.mass_g) // 2)
                    made.counts[key] = made.program.variable(top, -(load // made.unit_g))
        if not found:
            return False
    return True


def _load_g(made: LoadModel, key: Count) -> int:
    return made.families[key[1]].mass_g + 2 * key[3]


def _loads_fit_the_class(made: LoadModel, shortfall: Fraction) -> None:
    """The i-th smallest load of a class lies in the window of its i-th smallest target."""
    by_class: dict[int, list[tuple[int, int]]] = defaultdict(list)
    for key, variable in made.counts.items():
        by_class[key[0]].append((_load_g(made, key), variable))
    for number, users in enumerate(made.classes):
        loads = sorted(by_class[number])
        everybody = [variable for _, variable in loads]
        size = len(users.users)
        made.program.sum_row(everybody, size, size)
        if size == 1:
            continue
        for index, user in enumerate(users.users):
            below = [variable for load, variable in loads if load <= user.target_g]
            made.program.sum_row(below, index + 1, inf)
            least = floor_g(user.target_g, shortfall)
            too_light = [variable for load, variable in loads if load < least]
            if too_light:
                made.program.sum_row(too_light, -inf, index)


def _groups_take_one_bar(made: LoadModel) -> None:
    """Users of a shared bar are in one family, no two of them in one wave."""
    entries: dict[tuple[int | None, int], list[tuple[tuple[int, ...], int]]] = defaultdict(list)
    for key, variable in made.counts.items():
        entries[made.classes[key[0]].group, key[1]].append((key, variable))
    for group in range(len(made.problem.shared)):
        members = [n for n, users in enumerate(made.classes) if users.group == group]
        for place in range(len(made.families)):
            take = made.takes[group, place] = made.program.variable(1)
            for member in members:
                mine = [v for key, v in entries[group, place] if key[0] == member]
                made.program.row([*mine, take], [1] * len(mine) + [-1], 0, 0)
            for wave in made.waves:
                here = [v for key, v in entries[group, place] if key[2] == wave]
                if made.stocks == 1 and len(members) > 1 and here:
                    made.program.row([*here, take], [1] * len(here) + [-1], -inf, 0)


def _families_have_bars_enough(made: LoadModel) -> None:
    """In each wave a family serves no more users and shared bars than it has bars."""
    for place, family in enumerate(made.families):
        taken = [take for (_, p), take in made.takes.items() if p == place]
        for wave in made.waves:
            free = [
                variable
                for key, variable in made.counts.items()
                if key[1:3] == (place, wave) and made.classes[key[0]].group is None
            ]
            if free or taken:
                weights = [1] * len(free) + [made.stocks] * len(taken)
                top = len(family.bars) * made.stocks
                made.program.row([*free, *taken], weights, -inf, top)


def _plates_fit_the_stock(made: LoadModel, wave: int) -> None:
    """The walks of a wave end in its loads and take no more pairs than there are."""
    sizes = tuple(
        (size.mass_g, size.pairs * made.stocks)
        for size in sorted(made.problem.plates, key=lambda size: -size.mass_g)
    )
    ends: dict[int, list[int]] = defaultdict(list)
    for key, variable in made.counts.items():
        if key[2] == wave:
            ends[key[3]].append(variable)
    real = tuple((mass_g, pairs // made.stocks) for mass_g, pairs in sizes)
    bars = len(made.problem.bars) * made.stocks
    into: dict[Knot, list[int]] = defaultdict(list)
    out_of: dict[Knot, list[int]] = defaultdict(list)
    drawn: dict[int, list[tuple[int, int]]] = defaultdict(list)
    stock = dict(sizes)
    for step in side_steps(real, ends.keys()):
        top = min(bars, stock[step.mass_g] // step.count) if step.count else bars
        walk = made.walks[wave, step] = made.program.variable(top)
        into[step.end].append(walk)
        out_of[step.start].append(walk)
        if step.count:
            drawn[step.mass_g].append((walk, step.count))
    for knot, arriving in into.items():
        leaving = ends[knot[1]] if knot[0] == len(sizes) else out_of[knot]
        ones = [1] * len(arriving) + [-1] * len(leaving)
        made.program.row([*arriving, *leaving], ones, 0, 0)
    for mass_g, uses in drawn.items():
        made.drawn[wave, mass_g] = uses
        made.program.row([v for v, _ in uses], [n for _, n in uses], -inf, stock[mass_g])


@dataclass(frozen=True)
class Seat:
    """A user with a family, a wave and the plates of one end."""

    user: KitUser
    family: int
    wave: int
    per_side: tuple[tuple[int, int], ...]

    @property
    def side_g(self) -> int:
        """Mass on one end [g]."""
        return sum(mass * count for mass, count in self.per_side)


def read_seats(made: LoadModel, values: Sequence[int]) -> list[Seat]:
    """Turn a solution into a seat for each user, loads sorted as targets in each class."""
    ways: dict[tuple[int, int], list[tuple[tuple[int, int], ...]]] = defaultdict(list)
    for wave in made.waves:
        for per_side in _whole_walks(made, wave, values):
            ways[wave, sum(mass * count for mass, count in per_side)].append(per_side)
    seats = []
    for number, users in enumerate(made.classes):
        chosen = sorted(
            (_load_g(made, key), key)
            for key, variable in made.counts.items()
            if key[0] == number
            for _ in range(values[variable])
        )
        for user, (_, (_, family, wave, side)) in zip(users.users, chosen, strict=True):
            per_side = ways[wave, side].pop() if side else ()
            seats.append(Seat(user, family, wave, per_side))
    return seats


def _whole_walks(
    made: LoadModel, wave: int, values: Sequence[int]
) -> list[tuple[tuple[int, int], ...]]:
    left = {step: values[v] for (w, step), v in made.walks.items() if w == wave and values[v]}
    leaving: dict[Knot, list[Step]] = defaultdict(list)
    for step in left:
        leaving[step.start].append(step)
    walks = []
    sizes = len(made.problem.plates)
    while any(left[step] for step in leaving[0, 0]):
        knot: Knot = (0, 0)
        per_side = []
        for _ in range(sizes):
            step = next(step for step in leaving[knot] if left[step])
            left[step] -= 1
            if step.count:
                per_side.append((step.mass_g, step.count))
            knot = step.end
        walks.append(tuple(per_side))
    return walks


def put_on_bars(problem: KitProblem, seats: Sequence[Seat]) -> tuple[KitLoad, ...]:
    """Give every seat a bar of its family: shared bars first, then alike loads on one bar."""
    families = bar_families(problem)
    group_of = {name: index for index, group in enumerate(problem.shared) for name in group}
    free = {place: list(family.bars) for place, family in enumerate(families)}
    bar_of: dict[str, str] = {}
    for group in range(len(problem.shared)):
        members = [seat for seat in seats if group_of.get(seat.user.id) == group]
        bar = free[members[0].family].pop(0)
        bar_of |= {seat.user.id: bar.id for seat in members}
    for place in free:
        for wave in range(1, problem.waves + 1):
            here = [
                seat
                for seat in seats
                if seat.family == place and seat.wave == wave and seat.user.id not in bar_of
            ]
            here.sort(key=lambda seat: (-seat.side_g, seat.user.id))
            for seat, bar in zip(here, free[place], strict=False):
                bar_of[seat.user.id] = bar.id
    masses = {bar.id: bar.mass_g for bar in problem.bars}
    order = {bar.id: index for index, bar in enumerate(problem.bars)}
    loads = [
        KitLoad(
            seat.user.id,
            bar_of[seat.user.id],
            seat.wave,
            seat.user.target_g,
            masses[bar_of[seat.user.id]] + 2 * seat.side_g,
            seat.per_side,
        )
        for seat in seats
    ]
    return tuple(sorted(loads, key=lambda load: (order[load.bar], load.wave)))
