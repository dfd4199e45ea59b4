"""Mend and improve a division by swapping two people at a time: a start for a longer search."""

from collections.abc import Sequence
from itertools import combinations

from squadwright.planning.group_rules import (
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


def _best_swap(
    one: tuple[int, ...], other: tuple[int, ...], tables: RuleTables
) -> tuple[tuple[int, ...], tuple[int, ...]] | None:
    best = _goals([one, other], tables)
    found = None
    for person in one:
        for mate in other:
            changed = (_with(one, person, mate), _with(other, mate, person))
            goals = _goals(changed, tables)
            if goals < (*best[:2], best[2] - 1e-9):
                best, found = goals, changed
    return found


def _goals(groups: Sequence[tuple[int, ...]], tables: RuleTables) -> tuple[int, int, float]:
    return (
        sum(broken_rules(group, tables) for group in groups),
        sum(group_priority(group, tables) for group in groups),
        sum(group_difference(group, tables) for group in groups),
    )


def _with(group: tuple[int, ...], leaving: int, coming: int) -> tuple[int, ...]:
    return tuple(sorted((*(person for person in group if person != leaving), coming)))
