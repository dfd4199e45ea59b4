"""Every filling that a best plan can still use: plates of one end for some class on some bar.

The load model's relaxation prices each load and each step. What would cost more than the gap
between the relaxation and the total that is to be kept cannot be in any plan that keeps it.
"""

from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from squadwright.planning.kit.budget import Budget
from squadwright.planning.kit.families import UserClass
from squadwright.planning.kit.load_model import LoadModel
from squadwright.planning.kit.loads import ceiling_g, floor_g, may_use
from squadwright.planning.kit.problem import KitLoad
from squadwright.planning.kit.sides import Knot, Step

_NEARLY = 1e-6


@dataclass(frozen=True)
class Filling:
    """Plates of one end, as a count for each size, biggest first, for a class on a family."""

    user_class: int
    family: int
    load_g: int
    counts: tuple[int, ...]


def useful_fillings(
    made: LoadModel, least_load_g: int, budget: Budget, most: int
) -> tuple[Filling, ...] | None:
    """Fillings that plans with at least this total load can use; None when more than ``most``."""
    relaxed = made.program.relax(budget)
    if relaxed is None:
        return ()
    gap = -(least_load_g // made.unit_g) - relaxed.objective + _NEARLY
    is_useful = relaxed.reduced_costs <= gap
    loads = {(key[0], key[1], key[3]) for key, v in made.counts.items() if is_useful[v]}
    steps = {step for (_, step), v in made.walks.items() if is_useful[v]}
    into: dict[Knot, list[Step]] = defaultdict(list)
    for step in sorted(steps, key=lambda step: (step.start, step.count)):
        into[step.end].append(step)
    sizes = sorted((size.mass_g for size in made.problem.plates), reverse=True)
    ways: dict[int, list[tuple[int, ...]]] = {}
    fillings: list[Filling] = []
    for user_class, family, side in sorted(loads):
        if side not in ways:
            ways[side] = []
            for way in _ways(into, (len(sizes), side)):
                ways[side].append(way)
                if len(ways[side]) > most:
                    return None
        load_g = made.families[family].mass_g + 2 * side
        fillings.extend(Filling(user_class, family, load_g, way) for way in ways[side])
        if len(fillings) > most:
            return None
    return tuple(fillings)


def for_each_target(
    made: LoadModel,
    fillings: Iterable[Filling],
    classes: Sequence[UserClass],
    shortfall: Fraction,
) -> tuple[Filling, ...]:
    """Hand the fillings of the load model's classes on to the targets they suit."""
    class_of = {user.id: n for n, users in enumerate(made.classes) for user in users.users}
    parts: dict[int, list[int]] = defaultdict(list)
    for number, users in enumerate(classes):
        parts[class_of[users.users[0].id]].append(number)
    return tuple(
        replace(filling, user_class=number)
        for filling in fillings
        for number in parts[filling.user_class]
        if floor_g(classes[number].users[0].target_g, shortfall)
        <= filling.load_g
        <= classes[number].users[0].target_g
    )


def fillings_of_plan(
    made: LoadModel, classes: Sequence[UserClass], loads: Sequence[KitLoad]
) -> tuple[Filling, ...]:
    """Fillings that give a user of the plan the load it has, made up as anywhere in the plan."""
    places = {bar.id: place for place, family in enumerate(made.families) for bar in family.bars}
    class_of = {user.id: n for n, users in enumerate(classes) for user in users.users}
    sizes = sorted((size.mass_g for size in made.problem.plates), reverse=True)
    ways: dict[int, set[tuple[int, ...]]] = defaultdict(set)
    for load in loads:
        side = dict(load.per_side)
        way = tuple(side.get(mass_g, 0) for mass_g in sizes)
        ways[load.load_g - made.families[places[load.bar]].mass_g].add(way)
    found = {
        Filling(class_of[load.user], place, load.load_g, way)
        for load in loads
        for place, family in enumerate(made.families)
        if may_use(classes[class_of[load.user]].users[0], family.bar)
        and load.load_g <= ceiling_g(classes[class_of[load.user]].users[0], family.bar)
        for way in ways.get(load.load_g - family.mass_g, ())
    }
    return tuple(sorted(found, key=lambda f: (f.user_class, f.family, f.load_g, f.counts)))


def _ways(into: dict[Knot, list[Step]], knot: Knot) -> Iterator[tuple[int, ...]]:
    if knot[0] == 0:
        yield ()
        return
    for step in into[knot]:
        for before in _ways(into, step.start):
            yield (*before, step.count)
