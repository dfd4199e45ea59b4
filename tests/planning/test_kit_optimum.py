"""The optimum against every plan tried, and against a plain model that HiGHS solves."""

from fractions import Fraction

import pytest

from planning.kit_cases import (
    FULL,
    HALF,
    NO_TENS,
    demo,
    faults,
    goals_of,
    plates,
    scaled,
    small,
)
from planning.kit_oracles import PlainModel, best_by_trying_all
from squadwright.planning.kit import solve_kit
from squadwright.planning.kit.problem import KitBar, KitProblem, KitUser


# 50: the step below the least largest shortfall is ruled out only in whole numbers.
@pytest.mark.parametrize("seed", [*range(36), 50])
def test_no_plan_of_a_small_problem_is_better(seed: int) -> None:
    problem = small(seed)
    solution = solve_kit(problem)
    assert faults(problem, solution) == []
    assert goals_of(solution) == best_by_trying_all(problem)
    assert tuple(goal.value for goal in solution.goals) == goals_of(solution)
    assert all(goal.is_proven for goal in solution.goals)


@pytest.mark.parametrize("seed", range(100, 130))
def test_a_plain_model_solved_by_highs_reaches_the_same_goals(seed: int) -> None:
    problem = small(seed)
    expected = PlainModel(problem).goals()
    found = [float(goal.value) for goal in solve_kit(problem).goals]
    assert found == pytest.approx(expected, abs=1e-3)


@pytest.mark.parametrize("stays", [False, True])
@pytest.mark.parametrize("pairs", [FULL, HALF, NO_TENS])
def test_a_plain_model_agrees_on_the_demo_club(pairs: tuple[int, ...], stays: bool) -> None:
    problem = demo(pairs, plates_stay_with_bar=stays)
    expected = PlainModel(problem).goals()[:3]
    found = [float(goal.value) for goal in solve_kit(problem).goals[:3]]
    assert found == pytest.approx(expected, abs=1e-3)


def test_three_users_of_one_bar_follow_each_other_with_few_moves() -> None:
    """By hand: a 20 kg bar; nothing, 5 and 10 a side.

    In this order the 5 goes on, then the 5 comes off and the 10 goes on: 3 moves. With 10, nothing,
    5 or 5, nothing, 10 the bare bar in the middle makes it 2.
    """
    problem = KitProblem(
        (KitBar("b", 20_000),),
        plates((1, 1), (10_000, 5_000)),
        tuple(KitUser(f"u{t}", t * 1000) for t in (20, 30, 40)),
        waves=3,
    )
    solution = solve_kit(problem)
    assert faults(problem, solution) == []
    assert [goal.value for goal in solution.goals] == [0, 0, 2, 2]
    assert goals_of(solution) == (Fraction(0), 0, 2, 2)


def test_four_waves_are_proven_too() -> None:
    problem = KitProblem(
        (KitBar("a", 20_000), KitBar("b", 15_000)),
        plates((2, 2), (5_000, 2_500)),
        tuple(KitUser(f"u{i}", 20_000 + 2_500 * i) for i in range(7)),
        waves=4,
    )
    solution = solve_kit(problem)
    assert faults(problem, solution) == []
    assert tuple(goal.value for goal in solution.goals) == goals_of(solution)
    assert solution.goals[0].is_proven
    assert solution.goals[1].is_proven


@pytest.mark.parametrize("plenty", [1.0, 0.5])
def test_forty_athletes_are_proven_on_both_shortfalls(plenty: float) -> None:
    problem = scaled(40, 20, plenty)
    solution = solve_kit(problem)
    assert faults(problem, solution) == []
    assert tuple(goal.value for goal in solution.goals) == goals_of(solution)
    assert solution.goals[0].is_proven
    assert solution.goals[1].is_proven


def test_athletes_with_one_load_on_one_bar_need_no_moves() -> None:
    problem = KitProblem(
        (KitBar("a", 20_000), KitBar("b", 20_000)),
        plates((4, 4), (10_000, 5_000)),
        tuple(KitUser(f"u{i}", target * 1000) for i, target in enumerate((30, 40, 40, 30))),
    )
    solution = solve_kit(problem)
    assert [goal.value for goal in solution.goals] == [0, 0, 0, 2]
    assert all(goal.is_proven for goal in solution.goals)
