"""What holds for every plate problem."""

from fractions import Fraction
from itertools import pairwise
from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cases import cases
from planning.kit_cases import FULL, demo, faults, goals_of
from squadwright.errors import NoSolution
from squadwright.planning.kit import solve_kit
from squadwright.planning.kit.loads import side_masses
from squadwright.planning.kit.problem import KitBar, KitProblem, KitUser, PlateSize


def random_problem(seed: int) -> KitProblem:
    """Up to ten athletes, up to four waves, masses to the gram, wishes of every kind."""
    random = Random(seed)
    waves = random.randint(1, 4)
    bars = tuple(
        KitBar(
            f"b{i}",
            random.choice((7_500, 10_000, 15_000, 20_000, 20_411)),
            maximum_plates_g=random.choice((None, None, 12_000)),
        )
        for i in range(random.randint(1, 4))
    )
    count = random.randint(1, min(10, waves * len(bars)))
    users = [
        KitUser(
            f"u{i}",
            random.randrange(8_000, 50_000, random.choice((1, 250, 500))),
            random.choice((None, None, random.randint(1, waves))),
            random.choice((None, None, None, (random.choice(bars).id,))),
            random.random() < 0.1,
        )
        for i in range(count)
    ]
    shared: tuple[tuple[str, ...], ...] = ()
    if random.random() < 0.4 and count > 1 and waves > 1:
        users[0] = KitUser("u0", users[0].target_g)
        users[1] = KitUser("u1", users[1].target_g)
        shared = (("u0", "u1"),)
    sizes = random.sample((10_000, 5_000, 2_500, 1_250, 1_134, 500), random.randint(0, 5))
    return KitProblem(
        bars,
        tuple(PlateSize(size, random.randint(0, 4)) for size in sizes),
        tuple(users),
        waves,
        shared,
        plates_stay_with_bar=random.random() < 0.2,
    )


@settings(max_examples=cases(60), deadline=None)
@given(st.integers(0, 10**6))
def test_nobody_is_above_target_and_no_stock_is_exceeded(seed: int) -> None:
    problem = random_problem(seed)
    try:
        solution = solve_kit(problem, time_limit_s=3)
    except NoSolution:
        return
    assert faults(problem, solution) == []
    assert tuple(goal.value for goal in solution.goals) == goals_of(solution)
    assert all(0 <= goal.bound <= goal.value for goal in solution.goals)


@settings(max_examples=cases(15), deadline=None)
@given(st.integers(0, 10**6))
def test_the_same_problem_gives_the_same_plan(seed: int) -> None:
    problem = random_problem(seed)
    try:
        first = solve_kit(problem)
    except NoSolution:
        return
    assert solve_kit(problem) == first


@settings(max_examples=cases(30), deadline=None)
@given(st.permutations(range(12)), st.sampled_from((0, 1)))
def test_the_order_of_the_users_changes_no_goal(order: list[int], fixed: int) -> None:
    problem = demo(fixed=bool(fixed))
    mixed = KitProblem(
        problem.bars, problem.plates, tuple(problem.users[number] for number in order)
    )
    goals = [(Fraction(2, 39)), 9_500, 8 if fixed else 7]
    assert [goal.value for goal in solve_kit(mixed).goals[:3]] == goals


def test_the_solvers_print_nothing(capfd: pytest.CaptureFixture[str]) -> None:
    solve_kit(demo())
    solve_kit(demo(fixed=False))
    assert capfd.readouterr() == ("", "")


def test_a_long_stock_gives_519_loads_on_one_bar() -> None:
    """By exact enumeration: 20, 21, 22, 22.5, 23.5, 24.5 ... 452 kg on one 20 kg bar."""
    sizes = (
        *((25_000, 2), (20_000, 3), (15_000, 2), (10_000, 4)),
        *((5_000, 4), (2_500, 4), (1_250, 4), (500, 2)),
    )
    loads = [20_000 + 2 * side for side in side_masses(sizes, 1_000_000)]
    assert len(loads) == 519
    assert loads[:6] == [20_000, 21_000, 22_000, 22_500, 23_500, 24_500]
    assert loads[-1] == 452_000


def test_one_pair_of_each_size_gives_64_loads_up_to_177_and_a_half() -> None:
    """By exact enumeration: 64 loads, the largest gap 2.5 kg."""
    sizes = tuple((mass, 1) for mass in (25_000, 20_000, 15_000, 10_000, 5_000, 2_500, 1_250))
    loads = [20_000 + 2 * side for side in side_masses(sizes, 1_000_000)]
    gaps = [after - before for before, after in pairwise(loads)]
    assert (len(loads), loads[-1], max(gaps)) == (64, 177_500, 2_500)


def test_the_stock_of_the_demo_club_is_what_the_tests_use() -> None:
    assert [(size.mass_g, size.pairs) for size in demo().plates] == list(
        zip((10_000, 5_000, 2_500, 1_250, 500), FULL, strict=True)
    )
