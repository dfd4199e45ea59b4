"""The rules of a division as tables over positions: who may, must or would rather be together."""

from dataclasses import dataclass
from functools import cached_property
from itertools import combinations

import numpy as np
from numpy.typing import NDArray

from squadwright.planning.groups.problem import GroupProblem, MinorRule

Integers = NDArray[np.int64]
Floats = NDArray[np.float64]
Booleans = NDArray[np.bool_]


@dataclass(frozen=True)
class RuleTables:
    """Everything the searches need, by position in ``problem.members``."""

    difference: Floats
    banned: Booleans
    must_sets: tuple[frozenset[int], ...]
    together_before: Integers
    wished: Integers
    is_minor: Booleans
    minor_rule: MinorRule

    @cached_property
    def wish_count(self) -> int:
        """Pairs that wish to be together."""
        return int(self.wished.sum()) // 2

    @cached_property
    def kept_count(self) -> int:
        """Pairs that were together before."""
        return int(self.together_before.sum()) // 2

    @property
    def has_rules(self) -> bool:
        """Whether anything beyond similarity counts."""
        return bool(
            self.banned.any()
            or self.must_sets
            or self.together_before.any()
            or self.wished.any()
            or (self.minor_rule is not MinorRule.ALLOWED and self.is_minor.any())
        )


def rule_tables(problem: GroupProblem) -> RuleTables:
    """Translate names into positions."""
    position = {member.id: index for index, member in enumerate(problem.members)}
    count = len(position)

    def table(pairs: tuple[tuple[str, str], ...]) -> Integers:
        matrix = np.zeros((count, count), dtype=np.int64)
        for one, other in pairs:
            matrix[position[one], position[other]] = 1
            matrix[position[other], position[one]] = 1
        return matrix

    before = np.zeros((count, count), dtype=np.int64)
    for group in problem.previous:
        present = [position[name] for name in group.members if name in position]
        for one in present:
            for other in present:
                before[one, other] = one != other
    return RuleTables(
        difference=difference_table(problem),
        banned=table(problem.bans).astype(np.bool_),
        must_sets=_must_sets(problem, position),
        together_before=before,
        wished=table(problem.wishes),
        is_minor=np.array([member.is_minor for member in problem.members], dtype=np.bool_),
        minor_rule=problem.minor_rule,
    )


def difference_table(problem: GroupProblem) -> Floats:
    """Weighted sum of absolute differences between every two people."""
    count = len(problem.members)
    total = np.zeros((count, count))
    for values in weighted_measures(problem):
        total += np.abs(values[:, None] - values[None, :])
    return total


def weighted_measures(problem: GroupProblem) -> list[Floats]:
    """Each measure that counts and differs, times its weight."""
    measures = []
    for name, weight in problem.similarity.named():
        if weight:
            values = weight * np.array([float(getattr(member, name)) for member in problem.members])
            if np.ptp(values) > 0:
                measures.append(values)
    return measures


def broken_rules(members: tuple[int, ...], tables: RuleTables) -> int:
    """How many rules a group breaks: banned pairs, people missing from a must, the minors' rule."""
    chosen = frozenset(members)
    banned = int(_over_pairs(members, tables.banned))
    missing = sum(len(needed - chosen) for needed in tables.must_sets if needed & chosen)
    minors = tables.minor_rule is MinorRule.NEVER and is_minor_with_adult(members, tables)
    return banned + missing + int(minors)


def group_is_valid(members: tuple[int, ...], tables: RuleTables) -> bool:
    """Whether these people may form one group."""
    return broken_rules(members, tables) == 0


def is_minor_with_adult(members: tuple[int, ...], tables: RuleTables) -> bool:
    """A pair of one minor and one adult."""
    return len(members) == 2 and int(tables.is_minor[list(members)].sum()) == 1


def priority_weights(tables: RuleTables) -> tuple[int, int, int]:
    """Weights that put minors before kept places, and kept places before wishes."""
    wishes, kept = tables.wish_count, tables.kept_count
    return (kept + 1) * (wishes + 1), wishes + 1, 1


def group_priority(members: tuple[int, ...], tables: RuleTables) -> int:
    """Cost of a group on the goals that come before similarity; lower is better."""
    minor_weight, kept_weight, wish_weight = priority_weights(tables)
    cost = -kept_weight * int(_over_pairs(members, tables.together_before))
    cost -= wish_weight * int(_over_pairs(members, tables.wished))
    if tables.minor_rule is MinorRule.AVOID and is_minor_with_adult(members, tables):
        cost += minor_weight
    return cost


def group_difference(members: tuple[int, ...], tables: RuleTables) -> float:
    """Sum over every two members of their difference."""
    return float(_over_pairs(members, tables.difference))


def _over_pairs(members: tuple[int, ...], table: Floats | Integers | Booleans) -> float:
    """Sum of a table over every two members."""
    return sum(table.item(one, other) for one, other in combinations(members, 2))


def _must_sets(problem: GroupProblem, position: dict[str, int]) -> tuple[frozenset[int], ...]:
    sets: list[set[int]] = []
    for pair in problem.musts:
        joined = {position[name] for name in pair}
        apart = []
        for existing in sets:
            if existing & joined:
                joined |= existing
            else:
                apart.append(existing)
        sets = [*apart, joined]
    return tuple(frozenset(chosen) for chosen in sets)
