"""Groups: nobody alone, similar people together, rules kept, differences proven least."""

import pytest

from squadwright.planning.groups import (
    GroupKind,
    GroupMember,
    GroupProblem,
    pairs_shape,
    solve_groups,
    threes_shape,
)


def squad(*loads_kg: float) -> tuple[GroupMember, ...]:
    return tuple(GroupMember(f"P{i:02}", load_kg=load) for i, load in enumerate(loads_kg))


@pytest.mark.parametrize("kind", list(GroupKind))
@pytest.mark.parametrize("count", range(2, 61))
def test_nobody_is_alone_for_any_number_from_two_to_sixty(count: int, kind: GroupKind) -> None:
    members = squad(*(20 + (7 * place) % 41 for place in range(count)))
    solution = solve_groups(GroupProblem(members, kind))
    placed = [name for group in solution.groups for name in group.members]
    assert sorted(placed) == [member.id for member in members]
    assert all(len(group.members) >= 2 for group in solution.groups)


def test_thirteen_give_three_threes_and_two_pairs() -> None:
    assert threes_shape(13) == {2: 2, 3: 3}


def test_thirteen_in_a_pairs_session_give_five_pairs_and_one_three() -> None:
    assert pairs_shape(13) == {2: 5, 3: 1}


def test_neighbours_in_mass_are_paired_at_twenty_kilograms_in_all() -> None:
    """Sorted neighbours of an even squad, worked by hand: 4 + 5 + 5 + 6 = 20 kg."""
    solution = solve_groups(GroupProblem(squad(57, 61, 65, 70, 74, 79, 86, 92), GroupKind.PAIRS))
    assert solution.total_difference == pytest.approx(20)
    assert solution.is_proven
