"""Who shares a bar, in which wave, under which number: worked by hand."""

from itertools import permutations

import pytest

from squadwright.planning.groups import (
    Group,
    GroupKind,
    GroupMember,
    GroupProblem,
    GroupSolution,
    MinorRule,
    solve_groups,
)


def squad(*loads_kg: float) -> tuple[GroupMember, ...]:
    return tuple(GroupMember("abcdefgh"[n], load_kg=load) for n, load in enumerate(loads_kg))


def waves(*loads_kg: float, previous: tuple[Group, ...] = (), count: int = 2) -> GroupSolution:
    problem = GroupProblem(
        squad(*loads_kg),
        GroupKind.WAVES,
        wave_count=count,
        previous=previous,
        minor_rule=MinorRule.ALLOWED,
    )
    return solve_groups(problem)


def seats(found: GroupSolution) -> dict[str, tuple[int, int]]:
    return {
        name: (bar, wave)
        for group in found.groups
        for name, bar, wave in zip(group.members, group.bars, group.waves, strict=True)
    }


@pytest.mark.parametrize("loads", list(permutations((20.0, 22.0, 40.0))))
def test_of_three_in_two_waves_the_two_most_alike_share_a_bar(loads: tuple[float, ...]) -> None:
    where = seats(waves(*loads))
    of = {load: where[name] for name, load in zip("abc", loads, strict=True)}
    assert of[20.0][0] == of[22.0][0] != of[40.0][0]
    assert (of[20.0][1], of[22.0][1]) == (1, 2)
    assert {bar for bar, _ in where.values()} == {1, 2}


def test_of_three_in_two_waves_those_who_shared_before_share_again() -> None:
    before = (Group(("a", "c"), "bar", 1, (1, 1), (1, 2)),)
    where = seats(waves(20.0, 22.0, 40.0, previous=before))
    assert where["a"] == (1, 1)
    assert where["c"] == (1, 2)
    assert where["b"][0] == 2


def test_in_one_wave_everybody_has_a_bar() -> None:
    where = seats(waves(20.0, 22.0, 40.0, 50.0, 60.0, count=1))
    assert sorted(where.values()) == [(bar, 1) for bar in range(1, 6)]


def test_lighter_users_lift_first_and_lighter_groups_have_lower_numbers() -> None:
    where = seats(waves(50.0, 20.0, 40.0, 30.0))
    assert where == {"b": (1, 1), "d": (1, 2), "c": (2, 1), "a": (2, 2)}


def test_people_keep_bar_and_wave_and_newcomers_take_what_is_free() -> None:
    before = (
        Group(("b", "a"), "bar", 2, (2, 2), (1, 2)),
        Group(("d", "c"), "bar", 1, (1, 1), (1, 2)),
    )
    found = waves(20.0, 21.0, 40.0, 41.0, 60.0, 61.0, previous=before)
    where = seats(found)
    assert {name: where[name] for name in "abcd"} == {
        "b": (2, 1),
        "a": (2, 2),
        "d": (1, 1),
        "c": (1, 2),
    }
    assert sorted(where[name] for name in "ef") == [(3, 1), (3, 2)]
    assert found.kept == ("a", "b", "c", "d")


def test_who_changes_bar_wave_or_partner_is_not_kept() -> None:
    same = (Group(("a", "b"), "bar", 1, (1, 1), (1, 2)),)
    assert waves(20.0, 21.0, previous=same).kept == ("a", "b")
    third = (Group(("a", "b"), "bar", 7, (7, 7), (1, 2)),)
    assert waves(20.0, 21.0, previous=third).kept == ()
    late = (Group(("a", "b"), "bar", 1, (1, 1), (3, 4)),)
    assert waves(20.0, 21.0, previous=late).kept == ()
    others = (Group(("a", "x"), "bar", 1, (1, 1), (1, 2)),)
    assert waves(20.0, 21.0, previous=others).kept == ()


@pytest.mark.parametrize(
    ("numbers", "expected"),
    [((2, 1), (2, 1)), ((5, 2), (1, 2)), ((0, 1), (2, 1)), ((2, 2), (2, 1))],
)
def test_a_group_keeps_its_number_where_there_are_so_many(
    numbers: tuple[int, int], expected: tuple[int, int]
) -> None:
    """Of two with one number the one that comes first in the order of loads keeps it."""
    before = (
        Group(("a", "b"), "pair", numbers[0]),
        Group(("c", "d"), "pair", numbers[1]),
    )
    problem = GroupProblem(squad(20.0, 21.0, 40.0, 41.0), GroupKind.PAIRS, previous=before)
    found = {group.members: group.number for group in solve_groups(problem).groups}
    assert (found["a", "b"], found["c", "d"]) == expected


def test_the_number_goes_to_the_group_with_more_of_the_people_who_had_it() -> None:
    before = (Group(("a", "b", "c"), "three", 2),)
    problem = GroupProblem(
        squad(20.0, 40.0, 41.0, 21.0),
        GroupKind.PAIRS,
        musts=(("b", "c"),),
        previous=before,
    )
    found = {frozenset(group.members): group.number for group in solve_groups(problem).groups}
    assert found == {frozenset("ad"): 1, frozenset("bc"): 2}
