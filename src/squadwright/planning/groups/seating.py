"""Give groups their numbers, bars and waves, leaving people where they were where that is valid."""

from collections.abc import Sequence
from itertools import combinations, permutations

from squadwright.planning.groups.problem import Group, GroupKind, GroupProblem
from squadwright.planning.groups.rules import RuleTables, group_difference, weighted_measures

SIZE_NAMES = {1: "with coach", 2: "pair", 3: "three"}


def seat(
    problem: GroupProblem, tables: RuleTables, divided: Sequence[tuple[int, ...]]
) -> tuple[Group, ...]:
    """Groups in the order of their measures, lightest first, each with its number."""
    rank = _rank(problem)
    ordered = sorted(
        (tuple(sorted(group, key=lambda person: rank[person])) for group in divided),
        key=lambda group: (sum(rank[person] for person in group) / len(group), group),
    )
    if problem.kind is GroupKind.WAVES:
        return _seat_waves(problem, tables, ordered)
    names = [tuple(problem.members[person].id for person in group) for group in ordered]
    numbers = _numbers(names, [(group.members, group.number) for group in problem.previous])
    groups = [
        Group(
            members=name,
            kind="lane" if problem.kind is GroupKind.LANES else SIZE_NAMES[len(name)],
            number=number,
            difference=group_difference(group, tables),
        )
        for name, number, group in zip(names, numbers, ordered, strict=True)
    ]
    return tuple(sorted(groups, key=lambda group: group.number))


def kept_people(problem: GroupProblem, groups: Sequence[Group]) -> tuple[str, ...]:
    """People who stay with somebody they were with, at the number, bar and wave they had."""

    def places(all_groups: Sequence[Group]) -> dict[str, tuple[int, int, int, frozenset[str]]]:
        return {
            name: (
                0 if group.bars else group.number,
                group.bars[at] if group.bars else 0,
                group.waves[at] if group.waves else 0,
                frozenset(group.members) - {name},
            )
            for group in all_groups
            for at, name in enumerate(group.members)
        }

    before, now = places(problem.previous), places(groups)
    return tuple(
        member.id
        for member in problem.members
        if member.id in before
        and before[member.id][:3] == now[member.id][:3]
        and before[member.id][3] & now[member.id][3]
    )


def _rank(problem: GroupProblem) -> list[float]:
    """Place of each person when sorted by everything that counts."""
    measures = weighted_measures(problem)
    return [
        float(sum(values[person] for values in measures)) for person in range(len(problem.members))
    ]


def _numbers(
    names: Sequence[tuple[str, ...]], before: Sequence[tuple[tuple[str, ...], int]]
) -> list[int]:
    """Numbers from 1; a group that continues an earlier one keeps its number where it fits."""
    claims = sorted(
        (-len(set(members) & set(earlier)), place, number)
        for place, members in enumerate(names)
        for earlier, number in before
        if set(members) & set(earlier) and 1 <= number <= len(names)
    )
    given: dict[int, int] = {}
    for _, place, number in claims:
        if place not in given and number not in given.values():
            given[place] = number
    free = iter(sorted(set(range(1, len(names) + 1)) - set(given.values())))
    return [given[place] if place in given else next(free) for place in range(len(names))]


def _seat_waves(
    problem: GroupProblem, tables: RuleTables, ordered: Sequence[tuple[int, ...]]
) -> tuple[Group, ...]:
    ids = [member.id for member in problem.members]
    users = [bar for group in ordered for bar in _bars_of(group, problem.wave_count, tables)]
    waves = _waves(problem, users)
    bars = _numbers([tuple(ids[p] for p in bar) for bar in users], _bars_before(problem))
    bar_of = {person: bar for bar, group in zip(bars, users, strict=True) for person in group}
    seated = []
    for group in ordered:
        members = sorted(group, key=lambda person: (bar_of[person], waves[person]))
        seated.append(
            Group(
                members=tuple(ids[person] for person in members),
                kind="bar",
                number=min(bar_of[person] for person in members),
                bars=tuple(bar_of[person] for person in members),
                waves=tuple(waves[person] for person in members),
                difference=group_difference(group, tables),
            )
        )
    return tuple(sorted(seated, key=lambda group: group.number))


def _bars_of(group: tuple[int, ...], wave_count: int, tables: RuleTables) -> list[tuple[int, ...]]:
    """Users of each bar: one bar where the waves suffice, else the two most alike share one."""
    if len(group) <= wave_count:
        return [group]
    if wave_count == 1:
        return [(person,) for person in group]
    shared = min(
        combinations(group, wave_count),
        key=lambda users: (
            -int(tables.together_before[users[0], users[1]]),
            group_difference(users, tables),
        ),
    )
    rest = tuple(person for person in group if person not in shared)
    return sorted([shared, rest], key=lambda users: group.index(users[0]))


def _bars_before(problem: GroupProblem) -> list[tuple[tuple[str, ...], int]]:
    users: dict[int, list[str]] = {}
    for group in problem.previous:
        for name, bar in zip(group.members, group.bars, strict=False):
            users.setdefault(bar, []).append(name)
    return [(tuple(names), bar) for bar, names in users.items()]


def _waves(problem: GroupProblem, users: Sequence[tuple[int, ...]]) -> dict[int, int]:
    """Waves of equal size, lighter users first, people kept in their wave where that is valid."""
    before = {
        name: wave
        for group in problem.previous
        for name, wave in zip(group.members, group.waves, strict=False)
    }
    filled = dict.fromkeys(range(1, problem.wave_count + 1), 0)
    chosen: dict[int, int] = {}
    for bar in sorted(users, key=len, reverse=True):
        best = min(
            permutations(filled, len(bar)) if len(bar) <= 4 else _rotations(filled, len(bar)),
            key=lambda waves: (
                sum(filled[wave] for wave in waves),
                -sum(
                    before.get(problem.members[person].id) == wave
                    for person, wave in zip(bar, waves, strict=True)
                ),
                waves,
            ),
        )
        for person, wave in zip(bar, best, strict=True):
            chosen[person] = wave
            filled[wave] += 1
    return chosen


def _rotations(filled: dict[int, int], size: int) -> list[tuple[int, ...]]:
    """Least filled waves in order: enough choice for large bars without trying every order."""
    emptiest = sorted(filled, key=lambda wave: (filled[wave], wave))[:size]
    return [tuple(sorted(emptiest))]
