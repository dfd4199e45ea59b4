"""Loads of an earlier plan stay where they are allowed and no goal is worse."""

from collections.abc import Callable
from dataclasses import replace
from datetime import date
from fractions import Fraction

import pytest

from planning.kit_cases import FULL, HALF, demo, faults, goals_of
from squadwright.demo import demo_club
from squadwright.planning.kit import solve_kit
from squadwright.planning.kit.former import FormerLoad, as_before
from squadwright.planning.kit.problem import KitProblem, KitSolution
from squadwright.planning.plan import make_plan

Change = Callable[[KitProblem, dict[str, FormerLoad]], KitProblem]


def former_of(solution: KitSolution) -> dict[str, FormerLoad]:
    return {x.user: FormerLoad(x.bar, x.wave, x.per_side) for x in solution.loads}


def mirrored(solution: KitSolution) -> dict[str, FormerLoad]:
    """The same plan on other bars of the same mass: as good, and different."""
    twins = {"bar1": "bar3", "bar3": "bar1", "bar2": "bar5", "bar5": "bar2"}
    return {x.user: FormerLoad(twins.get(x.bar, x.bar), x.wave, x.per_side) for x in solution.loads}


def free(problem: KitProblem) -> KitProblem:
    """Anybody on any bar and wave, but with his partner."""
    shared = tuple(
        tuple(user.id for user in problem.users if user.bars == (bar.id,)) for bar in problem.bars
    )
    return replace(
        problem,
        users=tuple(replace(user, bars=None, wave=None) for user in problem.users),
        shared=shared,
    )


def test_a_plan_as_good_as_the_new_one_is_kept_whole() -> None:
    problem = free(demo(FULL))
    solution = solve_kit(problem)
    former = mirrored(solution)
    kept = as_before(problem, solution, former)
    assert former_of(kept) == former
    assert faults(problem, kept) == []
    assert goals_of(kept) == goals_of(solution)
    assert [goal.is_proven for goal in kept.goals] == [goal.is_proven for goal in solution.goals]


def another_user(problem: KitProblem) -> KitProblem:
    first, *others = problem.users
    return replace(
        problem,
        users=(replace(first, id="new"), *others),
        shared=tuple(
            tuple("new" if name == first.id else name for name in group) for group in problem.shared
        ),
    )


def with_user(problem: KitProblem, name: str, **changes: object) -> KitProblem:
    return replace(
        problem,
        users=tuple(
            replace(user, **changes) if user.id == name else user  # type: ignore[arg-type]
            for user in problem.users
        ),
    )


CHANGES: dict[str, Change] = {
    "fewer plates": lambda p, _: replace(p, plates=demo(HALF).plates),
    "another user": lambda p, _: another_user(p),
    "a bar gone": lambda p, former: replace(
        p, bars=tuple(b for b in p.bars if b.id != former["A13"].bar), waves=3, shared=()
    ),
    "another wave by word": lambda p, former: with_user(p, "A13", wave=3 - former["A13"].wave),
    "another bar by word": lambda p, former: with_user(p, "A13", bars=(former["A11"].bar,)),
    "a bare bar": lambda p, _: with_user(p, "A03", bare_bar=True),
    "a weaker bar": lambda p, _: replace(
        p, bars=tuple(replace(b, maximum_plates_g=4_000) for b in p.bars)
    ),
    "other partners": lambda p, _: replace(
        p,
        shared=(
            *(("A12", "A03"), ("A01", "A07"), ("A05", "A11")),
            *(("A14", "A02"), ("A13", "A06"), ("A04", "A09")),
        ),
    ),
}


@pytest.mark.parametrize("change", CHANGES)
def test_what_is_forbidden_now_is_not_kept(change: str) -> None:
    before = free(demo(FULL))
    former = mirrored(solve_kit(before))
    problem = CHANGES[change](before, former)
    solution = solve_kit(problem)
    assert as_before(problem, solution, former) is solution


def test_a_better_plan_takes_the_place_of_the_former() -> None:
    problem = demo(FULL)
    poor = former_of(solve_kit(demo(HALF)))
    solution = solve_kit(problem)
    assert as_before(problem, solution, poor) is solution
    assert solution.largest_shortfall_fraction < Fraction(3, 23)


def test_a_lighter_target_moves_the_one_who_has_it() -> None:
    before = free(demo(FULL))
    former = mirrored(solve_kit(before))
    user = next(u for u in before.users if u.id == "A07")
    problem = replace(
        before,
        users=tuple(
            replace(u, target_g=u.target_g - 1_500) if u is user else u for u in before.users
        ),
    )
    kept = as_before(problem, solve_kit(problem), former)
    assert faults(problem, kept) == []


@pytest.mark.parametrize("session", [0, 1])
def test_a_session_planned_anew_over_its_own_plan_is_the_same(session: int) -> None:
    club = demo_club(date(2026, 3, 2))
    plan = make_plan(club, club.sessions[session])
    assert make_plan(club, club.sessions[session], previous=plan) == plan
