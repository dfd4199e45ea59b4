"""Divide a squad into pairs, threes, waves or lanes, so that nobody is alone.

The goals come in this order: the rules hold; no minor is the only partner of an adult (where the
coach asks for that); people a late change does not touch stay together; wishes are granted; the
sum of differences within groups is least.
"""

from collections.abc import Mapping, Sequence

import numpy as np

from squadwright.errors import OutOfTime
from squadwright.planning.groups.columns import (
    MOST_COLUMNS,
    Division,
    column_count,
    divide_by_columns,
)
from squadwright.planning.groups.conflicts import conflict, refuse_plain_conflicts
from squadwright.planning.groups.problem import (
    Group,
    GroupKind,
    GroupMember,
    GroupProblem,
    GroupSolution,
    MinorRule,
    OddRule,
    Similarity,
)
from squadwright.planning.groups.rules import (
    Floats,
    RuleTables,
    group_difference,
    group_is_valid,
    group_priority,
    is_minor_with_adult,
    priority_weights,
    rule_tables,
    weighted_measures,
)
from squadwright.planning.groups.seating import kept_people, seat
from squadwright.planning.groups.shapes import even_shape, pairs_shape, shape_for, threes_shape
from squadwright.planning.groups.swaps import as_before, goals, swap_until_no_better
from squadwright.planning.groups.sweep import sweep

__all__ = [
    "Group",
    "GroupKind",
    "GroupMember",
    "GroupProblem",
    "GroupSolution",
    "MinorRule",
    "OddRule",
    "Similarity",
    "even_shape",
    "pairs_shape",
    "solve_groups",
    "threes_shape",
]


def solve_groups(problem: GroupProblem) -> GroupSolution:
    """Divide the squad; raise NoSolution, naming the conflict, when the rules cannot hold.

    Raises
    ------
    NoSolution : it is proven that no division obeys the rules.
    OutOfTime : the time limit passed before any division was found.
    """
    if len(problem.members) == 1:
        return _alone(problem)
    shape = shape_for(problem)
    refuse_plain_conflicts(problem, shape)
    tables = rule_tables(problem)
    division = _divide(problem, tables, shape)
    if division is None:
        raise conflict(problem, shape)
    groups = seat(problem, tables, division.groups)
    total = _total(division.groups, tables)
    return GroupSolution(
        kind=problem.kind,
        groups=groups,
        total_difference=total,
        bound=total if division.is_proven else min(division.bound, total),
        is_proven=division.is_proven,
        kept=kept_people(problem, groups),
        granted_wishes=_granted(problem, groups),
        notes=_notes(problem, tables, division.groups),
    )


def _divide(problem: GroupProblem, tables: RuleTables, shape: Mapping[int, int]) -> Division | None:
    measures = weighted_measures(problem)
    if len(measures) <= 1 and 1 not in shape:
        values = measures[0] if measures else np.zeros(len(problem.members))
        swept = sweep(values, shape)
        if swept is not None and _nothing_to_improve(swept, tables):
            return Division(swept, _total(swept, tables), True)
    if column_count(len(problem.members), shape) <= MOST_COLUMNS:
        try:
            return divide_by_columns(tables, shape, problem.time_limit_s)
        except OutOfTime:
            pass  # a good division with a loose bound is better than none
    return _divide_large_groups(problem, tables, shape, measures)


def _divide_large_groups(
    problem: GroupProblem, tables: RuleTables, shape: Mapping[int, int], measures: list[Floats]
) -> Division | None:
    """Too many possible groups to list: sweep each measure, swap, then search with a bound."""
    from squadwright.planning.groups.assignment import divide_by_assignment

    orders = measures or [np.zeros(len(problem.members))]
    swept = [(values, groups) for values in orders if (groups := sweep(values, shape))]
    floor = sum(_spread_of(groups, values) for values, groups in swept)
    first = [groups for _, groups in swept]
    if problem.previous:
        first.append(as_before(problem, shape))
    starts = [swap_until_no_better(groups, tables) for groups in first]
    start = min(starts, key=lambda groups: goals(groups, tables), default=None)
    if start is not None and not all(group_is_valid(group, tables) for group in start):
        start = None
    found = divide_by_assignment(tables, shape, problem.time_limit_s, start, floor)
    if found is None or found.is_proven:
        return found
    better = swap_until_no_better(found.groups, tables)
    return Division(better, min(found.bound, _total(better, tables)), False)


def _total(groups: Sequence[tuple[int, ...]], tables: RuleTables) -> float:
    return sum(group_difference(group, tables) for group in groups)


def _spread_of(groups: Sequence[tuple[int, ...]], values: Floats) -> float:
    """Difference of a division on one measure alone."""
    return sum(
        float(abs(values[one] - values[other]))
        for group in groups
        for place, one in enumerate(group)
        for other in group[place + 1 :]
    )


def _nothing_to_improve(groups: Sequence[tuple[int, ...]], tables: RuleTables) -> bool:
    """Whether a division made for similarity alone is also best on all that comes before it."""
    if not tables.has_rules:
        return True
    _, kept, wish = priority_weights(tables)
    best = -kept * tables.kept_count - wish * tables.wish_count
    return all(group_is_valid(group, tables) for group in groups) and best == sum(
        group_priority(group, tables) for group in groups
    )


def _alone(problem: GroupProblem) -> GroupSolution:
    name = problem.members[0].id
    in_waves = problem.kind is GroupKind.WAVES
    group = Group(
        (name,), "with coach", 1, bars=(1,) if in_waves else (), waves=(1,) if in_waves else ()
    )
    note = f"{name} is the only one here: the coach is the partner, feeds and watches."
    return GroupSolution(problem.kind, (group,), 0.0, 0.0, True, notes=(note,))


def _granted(problem: GroupProblem, groups: Sequence[Group]) -> tuple[tuple[str, str], ...]:
    return tuple(
        wish
        for wish in problem.wishes
        if any(wish[0] in group.members and wish[1] in group.members for group in groups)
    )


def _notes(
    problem: GroupProblem, tables: RuleTables, groups: Sequence[tuple[int, ...]]
) -> tuple[str, ...]:
    ids = [member.id for member in problem.members]
    notes = []
    for group in groups:
        if len(group) == 1:
            notes.append(f"{ids[group[0]]} works with the coach, as the coach chose.")
        if problem.minor_rule is not MinorRule.ALLOWED and is_minor_with_adult(group, tables):
            minor, adult = sorted(group, key=lambda person: not tables.is_minor[person])
            notes.append(
                f"{ids[minor]} is a minor and {ids[adult]} the only partner: keep them in sight, "
                f"or make a group of three. This rule is the coach's setting."
            )
    return tuple(notes)
