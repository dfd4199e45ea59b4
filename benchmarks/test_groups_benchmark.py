"""Time to divide a squad, beside a general matching library on the same squad in the same run.

``extra_info`` holds the quality: the total difference as a ratio of what pairing by a plain greedy
rule (the two most alike first) gives.
"""

import random
from itertools import combinations

import networkx
import pytest
from pytest_benchmark.fixture import BenchmarkFixture

from squadwright.planning.groups import (
    GroupKind,
    GroupMember,
    GroupProblem,
    Similarity,
    solve_groups,
)

SIMILARITY = Similarity(load_per_kg=1, height_per_cm=0.4)


def squad(count: int) -> tuple[GroupMember, ...]:
    dice = random.Random(count)
    return tuple(
        GroupMember(f"P{i:02}", load_kg=dice.randint(20, 120) / 2, height_cm=dice.randint(150, 195))
        for i in range(count)
    )


def problem(count: int, kind: GroupKind) -> GroupProblem:
    members = squad(count)
    dice = random.Random(count + 1)
    pairs = list(combinations([member.id for member in members], 2))
    return GroupProblem(members, kind, SIMILARITY, bans=tuple(dice.sample(pairs, count)))


def weights(given: GroupProblem) -> dict[tuple[str, str], float]:
    """Difference of every pair that is not banned."""
    banned = {frozenset(pair) for pair in given.bans}
    return {
        (a.id, b.id): abs((a.load_kg or 0) - (b.load_kg or 0))
        + 0.4 * abs((a.height_cm or 0) - (b.height_cm or 0))
        for a, b in combinations(given.members, 2)
        if frozenset((a.id, b.id)) not in banned
    }


def greedy(given: GroupProblem) -> float:
    """The two most alike first, then the next two."""
    free = {member.id for member in given.members}
    total = 0.0
    for (one, other), weight in sorted(weights(given).items(), key=lambda item: item[1]):
        if one in free and other in free:
            free -= {one, other}
            total += weight
    return total


@pytest.mark.benchmark(group="pairs with bans")
@pytest.mark.parametrize("count", [12, 24, 60])
def test_pairs(benchmark: BenchmarkFixture, count: int) -> None:
    given = problem(count, GroupKind.PAIRS)
    solution = benchmark.pedantic(solve_groups, (given,), rounds=5, warmup_rounds=1)
    assert solution.is_proven
    benchmark.extra_info["greedy_to_proven"] = round(greedy(given) / solution.total_difference, 3)


@pytest.mark.benchmark(group="pairs with bans")
@pytest.mark.parametrize("count", [12, 24, 60])
def test_pairs_by_a_general_matching_library(benchmark: BenchmarkFixture, count: int) -> None:
    given = problem(count, GroupKind.PAIRS)
    graph = networkx.Graph()
    graph.add_nodes_from(member.id for member in given.members)
    graph.add_weighted_edges_from((a, b, weight) for (a, b), weight in weights(given).items())
    found = benchmark.pedantic(networkx.min_weight_matching, (graph,), rounds=5, warmup_rounds=1)
    assert 2 * len(found) == count


@pytest.mark.benchmark(group="threes with bans")
@pytest.mark.parametrize("count", [12, 24, 40, 60])
def test_threes(benchmark: BenchmarkFixture, count: int) -> None:
    given = problem(count, GroupKind.THREES)
    solution = benchmark.pedantic(solve_groups, (given,), rounds=3, warmup_rounds=1)
    benchmark.extra_info["proven"] = solution.is_proven


@pytest.mark.benchmark(group="lanes of five")
@pytest.mark.parametrize("count", [12, 24, 60])
def test_lanes(benchmark: BenchmarkFixture, count: int) -> None:
    given = problem(count, GroupKind.LANES)
    solution = benchmark.pedantic(solve_groups, (given,), rounds=2)
    benchmark.extra_info["proven"] = solution.is_proven
    benchmark.extra_info["value_to_bound"] = round(solution.total_difference / solution.bound, 3)
