"""A kit problem that was asked lately is answered without a search, by the same plan."""

from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction

import pytest

from squadwright.errors import NoSolution
from squadwright.planning.kit import remembered, solve_kit
from squadwright.planning.kit.prices import fewest_more_pairs
from squadwright.planning.kit.problem import KitBar, KitProblem, KitSolution, KitUser, PlateSize

PROBLEM = KitProblem(
    bars=(KitBar("long", 20_000), KitBar("short", 15_000)),
    plates=(PlateSize(10_000, 1), PlateSize(5_000, 2), PlateSize(2_500, 1)),
    users=(
        KitUser("first", 42_500, wave=1),
        KitUser("second", 37_500, wave=2),
        KitUser("third", 30_000, wave=1),
    ),
)


class Searches:
    """The search, counted; each plan may be said to have been cut short."""

    def __init__(self) -> None:
        self.asked: list[KitProblem] = []
        self.is_cut_short = False

    def __call__(self, problem: KitProblem) -> KitSolution:
        self.asked.append(problem)
        return replace(solve_kit(problem), stopped_by_clock=self.is_cut_short)


@pytest.fixture
def searches(monkeypatch: pytest.MonkeyPatch) -> Iterator[Searches]:
    counted = Searches()
    monkeypatch.setattr(remembered, "solve_kit", counted)
    remembered.forget()
    yield counted
    remembered.forget()


def test_the_same_problem_is_searched_once_and_has_the_plan_of_a_fresh_search(
    searches: Searches,
) -> None:
    first, again = remembered.remembered_plan(PROBLEM), remembered.remembered_plan(PROBLEM)
    assert searches.asked == [PROBLEM]
    fresh = solve_kit(PROBLEM)
    assert replace(first, seconds=0) == replace(again, seconds=0) == replace(fresh, seconds=0)


def test_one_plate_less_or_one_target_more_is_another_problem(searches: Searches) -> None:
    lean = replace(PROBLEM, plates=PROBLEM.plates[1:])
    heavier = replace(PROBLEM, users=(replace(PROBLEM.users[0], target_g=45_000),))
    for problem in (PROBLEM, lean, heavier, lean):
        found = remembered.remembered_plan(problem)
        assert replace(found, seconds=0) == replace(solve_kit(problem), seconds=0)
    assert searches.asked == [PROBLEM, lean, heavier]


def test_a_search_that_the_clock_cut_short_is_made_again(searches: Searches) -> None:
    searches.is_cut_short = True
    assert remembered.remembered_plan(PROBLEM).stopped_by_clock
    searches.is_cut_short = False
    assert not remembered.remembered_plan(PROBLEM).stopped_by_clock
    assert len(searches.asked) == 2


def test_a_problem_without_a_plan_says_so_every_time(searches: Searches) -> None:
    crowd = replace(PROBLEM, users=tuple(KitUser(f"athlete {n}", 30_000, wave=1) for n in range(3)))
    for _ in range(2):
        with pytest.raises(NoSolution, match="Add a wave or a light bar"):
            remembered.remembered_plan(crowd)


def test_the_pairs_that_would_help_are_those_of_a_fresh_search(searches: Searches) -> None:
    sizes = (PlateSize(10_000, 0), PlateSize(5_000, 1), PlateSize(2_500, 0))
    lean = replace(PROBLEM, plates=sizes)
    tolerance = Fraction(1, 10)
    fresh = fewest_more_pairs(lean, tolerance)
    assert fresh
    assert remembered.remembered_pairs(lean, tolerance) == fresh
    assert remembered.remembered_pairs(lean, tolerance) == fresh
