"""Divide a squad by placing people in numbered groups: CP-SAT, for groups of four and more."""

from collections.abc import Mapping
from dataclasses import dataclass
from itertools import combinations

from ortools.sat.python import cp_model

from squadwright.planning.groups.columns import Division, out_of_time
from squadwright.planning.groups.problem import MinorRule
from squadwright.planning.groups.rules import RuleTables, group_difference, priority_weights

STEPS_PER_UNIT = 1000


@dataclass
class _Model:
    model: cp_model.CpModel
    sizes: tuple[int, ...]
    placed: list[list[cp_model.IntVar]]
    together: dict[tuple[int, int], cp_model.IntVar]


def can_divide(tables: RuleTables, shape: Mapping[int, int], time_limit_s: float) -> bool | None:
    """Whether any division obeys the rules; None when the time ran out."""
    built = _placement_model(tables, shape)
    status = _solver(time_limit_s).solve(built.model)
    if status in (cp_model.OPTIMAL, cp_model.FEASIBLE):
        return True
    return False if status == cp_model.INFEASIBLE else None


def divide_by_assignment(
    tables: RuleTables,
    shape: Mapping[int, int],
    time_limit_s: float,
    start: tuple[tuple[int, ...], ...] | None,
    floor: float,
) -> Division | None:
    """Best division found, or None when none exists.

    ``start`` is a valid division to begin from and ``floor`` a difference none can go below.
    Raises OutOfTime when the time ran out before any division was found.
    """
    built = _placement_model(tables, shape)
    _count_together(built, tables)
    priority = _priority(built, tables)
    difference = sum(
        round(STEPS_PER_UNIT * tables.difference[pair]) * together
        for pair, together in built.together.items()
    )
    most = round(STEPS_PER_UNIT * tables.difference.sum()) + 1
    rounding = len(built.together)
    built.model.add(difference >= max(0, int(floor * STEPS_PER_UNIT) - rounding))
    built.model.minimize(priority * most + difference)
    if start is not None:
        _hint(built, start)
    solver = _solver(time_limit_s)
    status = solver.solve(built.model)
    if status == cp_model.INFEASIBLE:
        return None
    if status not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
        if start is None:
            raise out_of_time()
        return Division(start, floor, False)
    groups = _groups(built, solver)
    proven = status == cp_model.OPTIMAL
    value = sum(group_difference(group, tables) for group in groups)
    return Division(groups, value if proven else min(floor, value), proven)


def _placement_model(tables: RuleTables, shape: Mapping[int, int]) -> _Model:
    """Everyone in one group of the right size, with bans, musts and the minors' rule."""
    model = cp_model.CpModel()
    sizes = tuple(size for size, times in shape.items() for _ in range(times))
    people = range(len(tables.is_minor))
    placed = [[model.new_bool_var(f"p{i}g{g}") for g in range(len(sizes))] for i in people]
    for person in people:
        model.add_exactly_one(placed[person])
    for group, size in enumerate(sizes):
        model.add(sum(placed[person][group] for person in people) == size)
    for one, other in combinations(people, 2):
        if tables.banned[one, other]:
            for group in range(len(sizes)):
                model.add_at_most_one(placed[one][group], placed[other][group])
    for needed in tables.must_sets:
        first, *others = sorted(needed)
        for other in others:
            for group in range(len(sizes)):
                model.add(placed[first][group] == placed[other][group])
    if tables.minor_rule is MinorRule.NEVER:
        minors = [person for person in people if tables.is_minor[person]]
        for group, size in enumerate(sizes):
            if size == 2:
                model.add(sum(placed[person][group] for person in minors) != 1)
    _break_symmetry(model, sizes, placed)
    return _Model(model, sizes, placed, {})


def _break_symmetry(
    model: cp_model.CpModel, sizes: tuple[int, ...], placed: list[list[cp_model.IntVar]]
) -> None:
    """Groups of one size are alike: number them by their lowest member."""
    for group in range(len(sizes) - 1):
        if sizes[group] == sizes[group + 1]:
            for person in range(len(placed)):
                model.add(placed[person][group + 1] == 0).only_enforce_if(
                    [~placed[earlier][group] for earlier in range(person)]
                )


def _count_together(built: _Model, tables: RuleTables) -> None:
    """Two people are together when some group holds both."""
    for one, other in combinations(range(len(built.placed)), 2):
        together = built.model.new_bool_var(f"t{one}_{other}")
        for group in range(len(built.sizes)):
            here = [built.placed[one][group], built.placed[other][group]]
            built.model.add_bool_or(~here[0], ~here[1], together)
            built.model.add_bool_or(~here[0], here[1], ~together)
        built.together[one, other] = together
    pairs = sum(size * (size - 1) // 2 for size in built.sizes)
    built.model.add(sum(built.together.values()) == pairs)


def _priority(built: _Model, tables: RuleTables) -> cp_model.LinearExpr:
    """Minors who are an adult's only partner, less what is kept and granted."""
    minor_weight, kept_weight, wish_weight = priority_weights(tables)
    terms: list[cp_model.IntVar] = list(built.together.values())
    weights = [
        -kept_weight * int(tables.together_before[pair]) - wish_weight * int(tables.wished[pair])
        for pair in built.together
    ]
    if tables.minor_rule is MinorRule.AVOID:
        minors = [row for row, minor in zip(built.placed, tables.is_minor, strict=True) if minor]
        for group, size in enumerate(built.sizes):
            if size == 2 and minors:
                mixed = built.model.new_bool_var(f"mixed{group}")
                here = cp_model.LinearExpr.sum([row[group] for row in minors])
                built.model.add(here != 1).only_enforce_if(~mixed)
                terms.append(mixed)
                weights.append(minor_weight)
    return cp_model.LinearExpr.weighted_sum(terms, weights)


def _hint(built: _Model, start: tuple[tuple[int, ...], ...]) -> None:
    free = list(range(len(built.sizes)))
    for members in sorted(start, key=min):
        group = next(place for place in free if built.sizes[place] == len(members))
        free.remove(group)
        for person, row in enumerate(built.placed):
            built.model.add_hint(row[group], person in members)


def _groups(built: _Model, solver: cp_model.CpSolver) -> tuple[tuple[int, ...], ...]:
    return tuple(
        tuple(person for person, row in enumerate(built.placed) if solver.boolean_value(row[group]))
        for group in range(len(built.sizes))
    )


def _solver(time_limit_s: float) -> cp_model.CpSolver:
    """One worker and a deterministic limit, so that the same squad gives the same groups."""
    solver = cp_model.CpSolver()
    # Else Ctrl-C would end the whole program at once, from the first search on.
    solver.parameters.catch_sigint_signal = False
    solver.parameters.num_workers = 1
    solver.parameters.random_seed = 1
    solver.parameters.max_deterministic_time = time_limit_s / 5
    solver.parameters.max_time_in_seconds = 2 * time_limit_s
    return solver
