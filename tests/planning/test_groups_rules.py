"""Rules of a division: bans, musts, wishes, minors, waves, lanes, late changes, and refusals."""

from collections import Counter
from dataclasses import replace
from itertools import combinations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cases import cases
from squadwright.errors import InvalidInput, NoSolution, OutOfTime
from squadwright.planning.groups import (
    Group,
    GroupKind,
    GroupMember,
    GroupProblem,
    GroupSolution,
    MinorRule,
    Similarity,
    solve_groups,
)

# Target loads [kg] of the twelve lifters of the demo club's Monday; two of them are minors.
MONDAY_KG = {
    **{"A01": 19.5, "A02": 34.5, "A03": 18.0, "A04": 42.0, "A05": 19.5, "A06": 39.0},
    **{"A07": 22.5, "A09": 45.0, "A11": 25.5, "A12": 10.0, "A13": 36.0, "A14": 27.0},
}
MONDAY = tuple(
    GroupMember(name, load_kg=load, is_minor=name in {"A03", "A12"})
    for name, load in MONDAY_KG.items()
)


def squad(*loads_kg: float, minors: tuple[int, ...] = ()) -> tuple[GroupMember, ...]:
    return tuple(
        GroupMember(f"P{i}", load_kg=load, is_minor=i in minors) for i, load in enumerate(loads_kg)
    )


def sets(solution: GroupSolution) -> set[frozenset[str]]:
    return {frozenset(group.members) for group in solution.groups}


def without(name: str) -> tuple[GroupMember, ...]:
    return tuple(member for member in MONDAY if member.id != name)


def test_the_demo_lifters_share_bars_with_their_neighbours_in_load() -> None:
    solution = solve_groups(GroupProblem(MONDAY, GroupKind.WAVES, wave_count=2, bar_count=6))
    expected = ["A12 A03", "A01 A05", "A07 A11", "A14 A02", "A13 A06", "A04 A09"]
    assert sets(solution) == {frozenset(pair.split()) for pair in expected}
    assert all(group.waves == (1, 2) for group in solution.groups)
    assert sorted(group.bars for group in solution.groups) == [(n, n) for n in range(1, 7)]


def test_a_must_is_kept_against_similarity() -> None:
    solution = solve_groups(
        GroupProblem(squad(20, 21, 50, 51), GroupKind.PAIRS, musts=(("P0", "P3"),))
    )
    assert frozenset({"P0", "P3"}) in sets(solution)


def test_a_wish_is_granted_when_the_rules_allow_it() -> None:
    problem = GroupProblem(squad(20, 21, 50, 51), GroupKind.PAIRS, wishes=(("P0", "P3"),))
    assert solve_groups(problem).granted_wishes == (("P0", "P3"),)
    banned = replace(problem, bans=(("P3", "P0"),))
    assert solve_groups(banned).granted_wishes == ()


def test_by_default_a_minor_trains_with_a_minor_or_in_a_three() -> None:
    two_minors = squad(20, 30, 31, 40, minors=(0, 3))
    assert sets(solve_groups(GroupProblem(two_minors, GroupKind.PAIRS))) == {
        frozenset({"P0", "P3"}),
        frozenset({"P1", "P2"}),
    }
    one_minor = squad(20, 21, 40, 41, 42, minors=(0,))
    solution = solve_groups(GroupProblem(one_minor, GroupKind.PAIRS))
    assert len(next(group for group in solution.groups if "P0" in group.members).members) == 3


def test_an_unavoidable_pair_of_minor_and_adult_is_said_aloud() -> None:
    solution = solve_groups(GroupProblem(squad(20, 21, minors=(0,)), GroupKind.PAIRS))
    assert len(solution.notes) == 1
    assert "P0 is a minor and P1 the only partner" in solution.notes[0]
    assert "the coach's setting" in solution.notes[0]


def test_the_strict_minors_rule_refuses_what_it_cannot_keep() -> None:
    problem = GroupProblem(
        squad(20, 21, 40, 41, minors=(0,)), GroupKind.PAIRS, minor_rule=MinorRule.NEVER
    )
    with pytest.raises(NoSolution, match="no minor alone with an adult"):
        solve_groups(problem)


def test_minors_may_train_with_adults_when_the_coach_allows_it() -> None:
    members = squad(20, 30, 31, 40, minors=(0, 3))
    problem = GroupProblem(members, GroupKind.PAIRS, minor_rule=MinorRule.ALLOWED)
    assert frozenset({"P0", "P1"}) in sets(solve_groups(problem))


def test_a_must_against_a_ban_names_both_people() -> None:
    problem = GroupProblem(
        squad(1, 2, 3, 4), GroupKind.PAIRS, bans=(("P1", "P2"),), musts=(("P2", "P1"),)
    )
    with pytest.raises(NoSolution, match="P1 and P2 must be together and are banned"):
        solve_groups(problem)


def test_a_person_banned_with_everybody_is_named() -> None:
    bans = tuple(("P0", f"P{other}") for other in range(1, 4))
    with pytest.raises(NoSolution, match="P0 is banned from working with every other person"):
        solve_groups(GroupProblem(squad(1, 2, 3, 4), GroupKind.PAIRS, bans=bans))


def test_musts_that_make_too_large_a_group_are_named() -> None:
    musts = (("P0", "P1"), ("P1", "P2"))
    with pytest.raises(NoSolution, match=r"P0, P1 and P2 must be together \(3 people\)"):
        solve_groups(GroupProblem(squad(1, 2, 3, 4), GroupKind.PAIRS, musts=musts))


def test_a_hidden_conflict_is_reduced_to_the_rules_that_make_it() -> None:
    """P0 may only go with P7, and so may P1: the ban of P2 and P3 has no part in it."""
    bans = tuple((low, f"P{other}") for low in ("P0", "P1") for other in range(2, 7))
    problem = GroupProblem(
        squad(*range(1, 9)), GroupKind.PAIRS, bans=(*bans, ("P0", "P1"), ("P2", "P3"))
    )
    with pytest.raises(NoSolution) as refusal:
        solve_groups(problem)
    assert "P0 and P2 are banned" in str(refusal.value)
    assert "P2 and P3 are banned" not in str(refusal.value)


def test_one_person_trains_with_the_coach_and_is_told_why() -> None:
    for kind in GroupKind:
        solution = solve_groups(GroupProblem(squad(20), kind))
        assert solution.groups[0].kind == "with coach"
        assert "the coach is the partner" in solution.notes[0]


def test_thirteen_in_two_waves_on_six_bars_are_refused_with_both_ways_out() -> None:
    problem = GroupProblem(squad(*range(20, 33)), GroupKind.WAVES, bar_count=6)
    with pytest.raises(NoSolution, match=r"need 7 bars and 6 are here. Use 3 waves, or find 1"):
        solve_groups(problem)
    in_three = solve_groups(replace(problem, wave_count=3))
    assert {bar for group in in_three.groups for bar in group.bars} == set(range(1, 6))


def test_lanes_of_two_for_an_odd_squad_are_refused() -> None:
    with pytest.raises(NoSolution, match=r"would leave one alone\. Allow lanes of 3"):
        solve_groups(GroupProblem(squad(1, 2, 3), GroupKind.LANES, lane_length=2))


def test_too_few_lanes_are_refused_with_the_length_that_would_do() -> None:
    problem = GroupProblem(squad(*range(20, 42)), GroupKind.LANES, lane_length=5, lane_count=3)
    with pytest.raises(NoSolution, match=r"need 5 lanes and 3 are here\. Allow lanes of 8"):
        solve_groups(problem)


def test_twenty_two_people_in_three_lanes_are_eight_seven_seven() -> None:
    problem = GroupProblem(squad(*range(20, 42)), GroupKind.LANES, lane_length=8, lane_count=3)
    sizes = sorted(len(group.members) for group in solve_groups(problem).groups)
    assert sizes == [7, 7, 8]


@given(
    loads=st.lists(st.integers(20, 120), min_size=2, max_size=16),
    wave_count=st.integers(1, 5),
)
@settings(max_examples=cases(60), deadline=None)
def test_waves_are_of_equal_size_and_no_bar_has_two_users_at_once(
    loads: list[int], wave_count: int
) -> None:
    solution = solve_groups(GroupProblem(squad(*loads), GroupKind.WAVES, wave_count=wave_count))
    places = [
        place for group in solution.groups for place in zip(group.bars, group.waves, strict=True)
    ]
    assert len(places) == len(set(places)) == len(loads)
    sizes = Counter(wave for _, wave in places)
    counts = [sizes[wave] for wave in range(1, wave_count + 1)]
    assert max(counts) - min(counts) <= 1
    assert {bar for bar, _ in places} == set(range(1, -(-len(loads) // wave_count) + 1))


@pytest.mark.parametrize("absent", sorted(MONDAY_KG))
def test_when_one_stays_away_nobody_unaffected_changes_partner_bar_or_wave(absent: str) -> None:
    first = solve_groups(GroupProblem(MONDAY, GroupKind.WAVES))
    second = solve_groups(GroupProblem(without(absent), GroupKind.WAVES, previous=first.groups))
    left_alone = next(
        name
        for group in first.groups
        if absent in group.members
        for name in group.members
        if name != absent
    )
    assert set(second.kept) >= {m.id for m in without(absent)} - {left_alone}


def test_when_one_comes_late_only_one_group_takes_him_in() -> None:
    first = solve_groups(GroupProblem(without("A05"), GroupKind.PAIRS))
    second = solve_groups(GroupProblem(MONDAY, GroupKind.PAIRS, previous=first.groups))
    assert len(second.kept) >= 10


def test_a_kept_place_gives_way_to_a_new_ban() -> None:
    first = solve_groups(GroupProblem(MONDAY, GroupKind.PAIRS))
    second = solve_groups(
        GroupProblem(MONDAY, GroupKind.PAIRS, bans=(("A04", "A09"),), previous=first.groups)
    )
    assert frozenset({"A04", "A09"}) not in sets(second)
    assert len(second.kept) == 8


def togetherness(groups: tuple[Group, ...]) -> set[frozenset[str]]:
    return {frozenset(pair) for group in groups for pair in combinations(sorted(group.members), 2)}


@given(
    loads=st.lists(st.integers(20, 120), min_size=5, max_size=13),
    gone=st.integers(0, 12),
    kind=st.sampled_from([GroupKind.PAIRS, GroupKind.THREES, GroupKind.LANES]),
)
@settings(max_examples=cases(40), deadline=None)
def test_a_late_change_loses_no_more_partnerships_than_the_new_sizes_force(
    loads: list[int], gone: int, kind: GroupKind
) -> None:
    members = squad(*loads)
    first = solve_groups(GroupProblem(members, kind))
    left = tuple(member for place, member in enumerate(members) if place != gone % len(members))
    second = solve_groups(GroupProblem(left, kind, previous=first.groups))
    names = {member.id for member in left}
    before = {pair for pair in togetherness(first.groups) if pair <= names}
    lost = len(before - togetherness(second.groups))
    assert lost <= 2 * max(len(group.members) for group in first.groups)


def test_the_same_squad_gives_the_same_groups() -> None:
    members = squad(30, 30, 30, 31, 31, 45, 45, 46, 50, 50, 50, 50, 50)
    problem = GroupProblem(members, GroupKind.THREES, bans=(("P0", "P1"),))
    assert solve_groups(problem) == solve_groups(problem)


def test_a_time_limit_leaves_a_valid_division_and_an_honest_bound() -> None:
    members = tuple(
        GroupMember(f"P{i}", load_kg=20 + 7 * i % 41, height_cm=150 + 11 * i % 45)
        for i in range(36)
    )
    problem = GroupProblem(
        members, GroupKind.LANES, Similarity(1, 0.5), lane_length=6, time_limit_s=0.5
    )
    solution = solve_groups(problem)
    assert sorted(len(group.members) for group in solution.groups) == [6] * 6
    assert solution.bound <= solution.total_difference
    assert solution.is_proven == (solution.bound == pytest.approx(solution.total_difference))


def test_sixty_people_in_lanes_keep_their_bans_and_musts() -> None:
    members = squad(*range(20, 80))
    bans = tuple((f"P{i}", f"P{i + 1}") for i in range(59))
    musts = (("P0", "P59"), ("P7", "P30"))
    solution = solve_groups(
        GroupProblem(members, GroupKind.LANES, bans=bans, musts=musts, time_limit_s=0.2)
    )
    together = togetherness(solution.groups)
    assert not {frozenset(pair) for pair in bans} & together
    assert {frozenset(pair) for pair in musts} <= together
    assert solution.bound <= solution.total_difference


def test_long_lanes_too_keep_the_people_a_late_change_does_not_touch() -> None:
    """Forty people with two measures are too many to list: the search has to keep them."""
    members = tuple(
        GroupMember(f"P{i}", load_kg=20 + 7 * i % 41, height_cm=150 + 11 * i % 45)
        for i in range(40)
    )
    problem = GroupProblem(members, GroupKind.LANES, Similarity(1, 0.5), time_limit_s=0.2)
    first = solve_groups(problem)
    second = solve_groups(replace(problem, members=members[1:], previous=first.groups))
    names = {member.id for member in members[1:]}
    before = {pair for pair in togetherness(first.groups) if pair <= names}
    assert before <= togetherness(second.groups)


def test_no_answer_in_time_is_neither_a_refusal_nor_a_division() -> None:
    """Thirteen people banned with each other, in twelve lanes: too hard for so little time."""
    members = squad(*range(20, 80))
    bans = tuple(combinations([f"P{i}" for i in range(13)], 2))
    problem = GroupProblem(members, GroupKind.LANES, bans=bans, time_limit_s=0.001)
    with pytest.raises(OutOfTime, match="Give more time"):
        solve_groups(problem)


@pytest.mark.parametrize(
    ("problem", "words"),
    [
        (lambda: GroupProblem((), GroupKind.PAIRS), "members: 0 people"),
        (lambda: GroupProblem(squad(*range(20, 81)), GroupKind.PAIRS), "members: 61 people"),
        (lambda: GroupProblem((GroupMember("P"),), GroupKind.PAIRS), r"members\[0\].load_kg"),
        (lambda: GroupProblem((*squad(1), *squad(1)), GroupKind.PAIRS), "stands twice"),
        (lambda: GroupProblem(squad(1, -2), GroupKind.PAIRS), "-2 for 'P1' is outside"),
        (
            lambda: GroupProblem(squad(1, 2), GroupKind.PAIRS, bans=(("P0", "P9"),)),
            r"bans\[0\]: 'P9' is not among",
        ),
        (
            lambda: GroupProblem(squad(1, 2), GroupKind.PAIRS, musts=(("P0", "P0"),)),
            "on both sides",
        ),
        (lambda: GroupProblem(squad(1, 2), GroupKind.WAVES, wave_count=0), "wave_count: 0"),
        (lambda: GroupProblem(squad(1, 2), GroupKind.LANES, lane_length=1), "lane_length: 1"),
        (lambda: GroupProblem(squad(1, 2), GroupKind.PAIRS, time_limit_s=0), "time_limit_s"),
        (lambda: Similarity(load_per_kg=0), "every weight is 0"),
        (lambda: Similarity(height_per_cm=-1), "similarity.height_cm"),
    ],
)
def test_bad_input_names_the_place_and_the_limit(problem: object, words: str) -> None:
    with pytest.raises(InvalidInput, match=words):
        problem()  # type: ignore[operator]
