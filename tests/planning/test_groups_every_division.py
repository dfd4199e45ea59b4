"""Each way of dividing a squad against every division of a small one, under all rules at once.

There are four ways: the sweep, the choice among all groups, numbered groups, and swaps from a
start. All of them have to reach the same goals; the squads are small enough to write out.
"""

import re
import sys
from collections import Counter
from dataclasses import replace
from itertools import combinations

import numpy as np
import pytest

from planning.every_division import (
    best_goals,
    divisions,
    goals_of,
    is_allowed,
    mixed_pairs,
    sizes_wanted,
    small_squad,
    together,
)
from squadwright.errors import NoSolution, OutOfTime
from squadwright.planning import groups as planner
from squadwright.planning.groups import (
    GroupKind,
    GroupProblem,
    MinorRule,
    columns,
    conflicts,
    solve_groups,
)
from squadwright.planning.groups.assignment import can_divide, divide_by_assignment
from squadwright.planning.groups.columns import Division, divide_by_columns
from squadwright.planning.groups.conflicts import conflict
from squadwright.planning.groups.rules import rule_tables
from squadwright.planning.groups.swaps import as_before, swap_until_no_better
from squadwright.planning.groups.sweep import sweep

SEEDS = range(36)
LIMIT_S = 5.0


def names_of(problem: GroupProblem, groups: tuple[tuple[int, ...], ...]) -> list[tuple[str, ...]]:
    return [tuple(problem.members[person].id for person in group) for group in groups]


def shape_of(problem: GroupProblem) -> dict[int, int]:
    return dict(sorted(Counter(sizes_wanted(problem)).items()))


@pytest.mark.parametrize("seed", SEEDS)
def test_no_division_of_a_small_squad_is_better(seed: int) -> None:
    problem = small_squad(seed)
    sizes = sizes_wanted(problem)
    expected = best_goals(problem, sizes)
    if expected is None:
        with pytest.raises(NoSolution):
            solve_groups(problem)
        return
    solution = solve_groups(problem)
    groups = [group.members for group in solution.groups]
    assert tuple(sorted(len(group) for group in groups)) == sizes
    assert is_allowed(problem, groups)
    assert goals_of(problem, groups) == expected
    assert solution.is_proven
    assert solution.total_difference == pytest.approx(expected[3])
    assert solution.bound == pytest.approx(expected[3])
    assert sum(g.difference for g in solution.groups) == pytest.approx(expected[3])
    pairs = together(groups)
    assert set(solution.granted_wishes) == {w for w in problem.wishes if frozenset(w) in pairs}
    said = [note for note in solution.notes if "the only partner" in note]
    allowed = problem.minor_rule is MinorRule.ALLOWED
    assert len(said) == (0 if allowed else mixed_pairs(problem, groups))
    with_coach = [note for note in solution.notes if "works with the coach" in note]
    assert len(with_coach) == sizes.count(1)


@pytest.mark.parametrize("seed", SEEDS)
def test_numbered_groups_and_the_choice_among_all_groups_reach_the_same(seed: int) -> None:
    problem = small_squad(seed)
    shape, tables = shape_of(problem), rule_tables(problem)
    expected = best_goals(problem, sizes_wanted(problem))
    assert can_divide(tables, shape, LIMIT_S) is (expected is not None)
    numbered = divide_by_assignment(tables, shape, LIMIT_S, None, 0.0)
    for found in (numbered, divide_by_columns(tables, shape, LIMIT_S)):
        if expected is None:
            assert found is None
            continue
        assert found is not None
        groups = names_of(problem, found.groups)
        assert is_allowed(problem, groups)
        assert goals_of(problem, groups) == expected
        assert found.is_proven
        assert found.bound == pytest.approx(expected[3])
    if numbered is not None:
        again = divide_by_assignment(tables, shape, LIMIT_S, numbered.groups, numbered.bound)
        assert isinstance(again, Division)
        assert goals_of(problem, names_of(problem, again.groups)) == expected


@pytest.mark.parametrize("seed", SEEDS)
def test_a_squad_too_large_to_list_is_divided_as_well(
    seed: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The way of large groups, taken with small ones."""
    monkeypatch.setattr(planner, "MOST_COLUMNS", 0)
    problem = small_squad(seed)
    expected = best_goals(problem, sizes_wanted(problem))
    if expected is None:
        with pytest.raises(NoSolution):
            solve_groups(problem)
        return
    solution = solve_groups(problem)
    assert goals_of(problem, [group.members for group in solution.groups]) == expected
    assert solution.is_proven
    assert solution.bound == pytest.approx(expected[3])


@pytest.mark.parametrize("limit_s", [LIMIT_S, 1e-9])
def test_groups_priced_a_few_at_a_time_reach_the_same(
    limit_s: float, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Also where no time is left for pricing: then all groups are searched at once."""
    monkeypatch.setattr(columns, "PRICED_ABOVE", 0)
    monkeypatch.setattr(columns, "ADDED_PER_ROUND", 2)
    for seed in SEEDS[::2]:
        problem = small_squad(seed)
        expected = best_goals(problem, sizes_wanted(problem))
        found = divide_by_columns(rule_tables(problem), shape_of(problem), limit_s)
        assert (found is None) is (expected is None)
        if found is not None:
            assert goals_of(problem, names_of(problem, found.groups)) == expected
            assert found.bound <= goals_of(problem, names_of(problem, found.groups))[3] + 1e-6
            assert found.is_proven


def test_a_start_is_kept_where_no_time_is_left_and_else_time_is_said_to_be_out() -> None:
    problem = small_squad(1)
    tables, shape = rule_tables(problem), shape_of(problem)
    best = divide_by_columns(tables, shape, LIMIT_S)
    assert best is not None
    kept = divide_by_assignment(tables, shape, 1e-9, best.groups, 0.5)
    assert kept == Division(best.groups, 0.5, False)
    with pytest.raises(OutOfTime, match="Give more time"):
        divide_by_assignment(tables, shape, 1e-9, None, 0.0)
    assert can_divide(tables, shape, 1e-9) is None


def test_where_the_choice_among_all_groups_takes_too_long_another_way_is_gone(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    def too_long(*_: object) -> None:
        raise OutOfTime("too long")

    monkeypatch.setattr(planner, "divide_by_columns", too_long)
    for seed in range(12):
        problem = small_squad(seed)
        expected = best_goals(problem, sizes_wanted(problem))
        if expected is not None:
            solution = solve_groups(problem)
            assert goals_of(problem, [g.members for g in solution.groups]) == expected


@pytest.mark.parametrize("seed", SEEDS)
def test_no_single_swap_betters_what_swapping_leaves(seed: int) -> None:
    problem = small_squad(seed)
    tables, shape = rule_tables(problem), shape_of(problem)
    start = as_before(problem, shape)
    assert sorted(len(group) for group in start) == sorted(sizes_wanted(problem))
    assert sorted(person for group in start for person in group) == list(
        range(len(tables.is_minor))
    )
    swapped = swap_until_no_better(start, tables)

    def rank(groups: tuple[tuple[int, ...], ...]) -> tuple[int, float]:
        """Rules broken, then the goals in one number."""
        named = names_of(problem, groups)
        pairs = together(named)
        broken = sum(frozenset(ban) in pairs for ban in set(map(frozenset, problem.bans)))
        broken += 2 * sum(frozenset(must) not in pairs for must in problem.musts)
        if problem.minor_rule is MinorRule.NEVER:
            broken += mixed_pairs(problem, named)
        mixed, kept, wishes, difference = goals_of(problem, named)
        return broken, ((mixed * 100 + kept) * 100 + wishes) * 10_000 + difference

    reached = rank(swapped)
    assert reached <= rank(start)
    for one, other in combinations(range(len(swapped)), 2):
        for person in swapped[one]:
            for mate in swapped[other]:
                changed = [list(group) for group in swapped]
                changed[one][changed[one].index(person)] = mate
                changed[other][changed[other].index(mate)] = person
                assert rank(tuple(map(tuple, changed))) >= (reached[0], reached[1] - 1e-6)


@pytest.mark.parametrize("sizes", [(2, 2, 3), (2, 3), (3, 4), (2, 2, 2), (3, 3, 2), (4, 2)])
def test_a_sweep_over_one_measure_is_the_best_division(sizes: tuple[int, ...]) -> None:
    for seed in range(6):
        values = np.random.default_rng(seed).integers(0, 30, sum(sizes)).astype(float)
        found = sweep(values, dict(sorted(Counter(sizes).items())))
        assert found is not None
        assert sorted(map(len, found)) == sorted(sizes)

        def difference(groups: tuple[tuple[int, ...], ...], of: np.ndarray = values) -> float:
            return sum(abs(of[a] - of[b]) for group in groups for a, b in combinations(group, 2))

        people = tuple(str(person) for person in range(len(values)))
        best = min(
            difference(tuple(tuple(map(int, group)) for group in division))
            for division in divisions(people, sizes)
        )
        assert difference(found) == pytest.approx(best)


def rules_named(problem: GroupProblem, message: str) -> GroupProblem:
    """The squad with just the rules that a refusal names."""
    bans = tuple(re.findall(r"(P\d+) and (P\d+) are banned", message))
    musts = tuple(re.findall(r"(P\d+) and (P\d+) must be together", message))
    strict = "no minor alone with an adult" in message
    return replace(
        problem,
        bans=bans,
        musts=musts,
        minor_rule=MinorRule.NEVER if strict else MinorRule.ALLOWED,
    )


def test_a_refusal_names_rules_that_conflict_and_none_too_many() -> None:
    """Of what is named, any one taken back leaves a division."""
    refused = 0
    for seed in range(240):
        problem = small_squad(seed)
        sizes = sizes_wanted(problem)
        if best_goals(problem, sizes) is not None:
            continue
        refused += 1
        message = str(conflict(problem, shape_of(problem)))
        named = rules_named(problem, message)
        assert set(named.bans) <= set(problem.bans)
        assert set(named.musts) <= set(problem.musts)
        assert f"{len(problem.members)} people cannot be divided" in message
        assert "Take one of these rules back" in message
        assert best_goals(named, sizes) is None
        fewer = [
            replace(named, bans=tuple(b for b in named.bans if b != ban)) for ban in named.bans
        ]
        fewer += [
            replace(named, musts=tuple(m for m in named.musts if m != must)) for must in named.musts
        ]
        if named.minor_rule is MinorRule.NEVER:
            fewer.append(replace(named, minor_rule=MinorRule.ALLOWED))
        assert all(best_goals(one, sizes) is not None for one in fewer), message
    assert refused > 10


@pytest.mark.parametrize("seed", SEEDS)
def test_a_squad_divided_anew_over_its_own_division_stays_as_it_was(seed: int) -> None:
    problem = replace(small_squad(seed), bans=(), musts=(), minor_rule=MinorRule.ALLOWED)
    first = solve_groups(replace(problem, previous=(), wishes=()))
    again = solve_groups(replace(problem, previous=first.groups))
    assert again.groups == first.groups
    alone = {name for group in first.groups if len(group.members) == 1 for name in group.members}
    assert set(again.kept) == {member.id for member in problem.members} - alone
    numbers = [group.number for group in first.groups]
    if problem.kind is not GroupKind.WAVES:
        assert numbers == list(range(1, len(first.groups) + 1))


def test_a_refusal_without_time_to_look_further_says_that_the_conflict_is_among_its_rules(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr(conflicts, "SEARCH_S", -1.0)
    problem = next(
        p for seed in range(400) if best_goals(p := small_squad(seed), sizes_wanted(p)) is None
    )
    message = str(conflict(problem, shape_of(problem)))
    assert "The conflict is among these rules" in message
    named = rules_named(problem, message)
    assert (named.bans, named.musts) == (problem.bans, problem.musts)


def test_a_sweep_that_grows_too_large_is_given_up(monkeypatch: pytest.MonkeyPatch) -> None:
    values = np.arange(7.0)
    assert sweep(values, {2: 2, 3: 1}) is not None
    # The package gives the name of the module to its function.
    monkeypatch.setattr(sys.modules["squadwright.planning.groups.sweep"], "MOST_STATES", 2)
    assert sweep(values, {2: 2, 3: 1}) is None
    problem = small_squad(1)
    expected = best_goals(problem, sizes_wanted(problem))
    groups = [group.members for group in solve_groups(problem).groups]
    assert goals_of(problem, groups) == expected
