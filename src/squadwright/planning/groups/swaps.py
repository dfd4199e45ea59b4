"""Mend and improve a division by swapping two people at a time: a start for a longer search."""

from collections.abc import Mapping, Sequence
from itertools import combinations

from squadwright.planning.groups.problem import GroupProblem
from squadwright.planning.groups.rules import (
    RuleTables,
    broken_rules,
    group_difference,
    group_priority,
)

Groups = tuple[tuple[int, ...], ...]


def swap_until_no_better(groups: Groups, tables: RuleTables) -> Groups:
    """Swap people as long as a swap lowers the goals: first broken rules, difference last."""
    current = [tuple(group) for group in groups]
    improved = True
    while improved:
        improved = False
        for one, other in combinations(range(len(current)), 2):
            better = _best_swap(current[one], current[other], tables)
            if better is not None:
                current[one], current[other] = better
                improved = True
    return tuple(current)


def as_before(problem: GroupProblem, shape: Mapping[int, int]) -> Groups:
    """The earlier groups, cut or filled up to the new sizes by the people they cannot hold."""
    position = {member.id: index for index, member in enumerate(problem.members)}
    before = sorted(
        (
            [position[name] for name in group.members if name in position]
            for group in problem.previous
        ),
        key=len,
        reverse=True,
    )
    sizes = sorted((size for size, times in shape.items() for _ in range(times)), reverse=True)
    before += [[] for _ in range(len(sizes) - len(before))]
    groups = [group[:size] for group, size in zip(before, sizes, strict=False)]
    placed = {person for group in groups for person in group}
    free = [person for person in range(len(problem.members)) if person not in placed]
    for group, size in zip(groups, sizes, strict=True):
        while len(group) < size:
            group.append(free.pop(0))
    return tuple(tuple(sorted(group)) for group in groups)


def _best_swap(
    one: tuple[int, ...], other: tuple[int, ...], tables: RuleTables
) -> tuple[tuple[int, ...], tuple[int, ...]] | None:
    best = goals([one, other], tables)
    found = None
    for person in one:
        for mate in other:
            changed = (_with(one, person, mate), _with(other, mate, person))
            reached = goals(changed, tables)
            if reached < (*best[:2], best[2] - 1e-9):
                best, found = reached, changed
    return found


def goals(groups: Sequence[tuple[int, ...]], tables: RuleTables) -> tuple[int, int, float]:
    """Broken rules, cost on the goals before similarity, difference; lower is better."""
    return (
        sum(broken_rules(group, tables) for group in groups),
        sum(group_priority(group, tables) for group in groups),
        sum(group_difference(group, tables) for group in groups),
    )


def _with(group: tuple[int, ...], leaving: int, coming: int) -> tuple[int, ...]:
    return tuple(sorted((*(person for person in group if person != leaving), coming)))
