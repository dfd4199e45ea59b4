"""The first plan made by hand, and what the later goals and the pairs to fetch start from."""

from dataclasses import replace
from fractions import Fraction
from itertools import product
from math import inf

import pytest

from planning.kit_tiny import solvable
from squadwright.errors import InvalidInput
from squadwright.planning.kit import prices, solve
from squadwright.planning.kit.bar_model import bar_model
from squadwright.planning.kit.budget import Budget
from squadwright.planning.kit.families import user_classes
from squadwright.planning.kit.fillings import fillings_of_plan
from squadwright.planning.kit.load_model import load_model, waves_can_be_merged
from squadwright.planning.kit.loads import least_shortfall, reach_of
from squadwright.planning.kit.measures import largest_shortfall, shared_unit_g
from squadwright.planning.kit.prices import fewest_more_pairs
from squadwright.planning.kit.problem import (
    KitBar,
    KitProblem,
    KitUser,
    PlateSize,
)
from squadwright.planning.kit.solve import first_plan
from squadwright.planning.kit.start import TimeRanOut


def test_the_first_plan_gives_heavy_groups_heavy_bars_and_leaves_no_plate_that_would_fit() -> None:
    """By hand: the pair of 40 kg takes the 20 kg bar, which is too heavy for the other."""
    users = (
        *(KitUser(f"light{n}", 19_999) for n in (1, 2)),
        *(KitUser(f"heavy{n}", 40_000) for n in (1, 2)),
    )
    problem = KitProblem(
        (KitBar("ten", 10_000), KitBar("twenty", 20_000)),
        (PlateSize(1_250, 2), PlateSize(5_000, 3)),
        users,
        shared=(("light1", "light2"), ("heavy1", "heavy2")),
    )
    loads = first_plan(problem, reach_of(problem))
    assert {(load.user, load.bar, load.load_g, load.per_side) for load in loads} == {
        ("heavy1", "twenty", 40_000, ((5_000, 2),)),
        ("heavy2", "twenty", 40_000, ((5_000, 2),)),
        ("light1", "ten", 15_000, ((1_250, 2),)),
        ("light2", "ten", 15_000, ((1_250, 2),)),
    }
    stays = first_plan(replace(problem, plates_stay_with_bar=True), reach_of(problem))
    assert {(load.user, load.load_g) for load in stays} == {
        *((f"heavy{n}", 40_000) for n in (1, 2)),
        *((f"light{n}", 15_000) for n in (1, 2)),
    }
    scarce = replace(problem, plates=(PlateSize(5_000, 2), PlateSize(2_500, 1)))
    for stay in (False, True):
        loads = first_plan(replace(scarce, plates_stay_with_bar=stay), reach_of(scarce))
        assert {load.user: load.load_g for load in loads} == {
            **{f"heavy{n}": 40_000 for n in (1, 2)},
            **{f"light{n}": 15_000 for n in (1, 2)},
        }


@pytest.mark.parametrize("stays", [False, True])
def test_a_scarce_pair_goes_to_the_heavier_target_whoever_is_named_first(stays: bool) -> None:
    problem = KitProblem(
        (KitBar("one", 20_000), KitBar("two", 20_000)),
        (PlateSize(5_000, 1),),
        (KitUser("a", 30_000, 1), KitUser("z", 40_000, 1)),
        waves=1,
        plates_stay_with_bar=stays,
    )
    loads = {load.user: load.load_g for load in first_plan(problem, reach_of(problem))}
    assert loads == {"a": 20_000, "z": 30_000}


def test_no_plate_left_in_the_store_would_fit_a_first_plan() -> None:
    for problem in solvable(range(80)):
        loads = first_plan(problem, reach_of(problem))
        bars, users = problem.bar_by_id, problem.user_by_id
        for size in problem.plates:
            beside = {
                bar: max(dict(x.per_side).get(size.mass_g, 0) for x in loads if x.bar == bar)
                for bar in {x.bar for x in loads}
            }
            for load in loads:
                used = sum(
                    dict(x.per_side).get(size.mass_g, 0) for x in loads if x.wave == load.wave
                )
                if problem.plates_stay_with_bar:
                    used = sum(beside.values())
                user, bar = users[load.user], bars[load.bar]
                most = user.target_g
                if bar.maximum_plates_g is not None:
                    most = min(most, bar.mass_g + bar.maximum_plates_g)
                if used < size.pairs and not user.bare_bar:
                    assert load.load_g + 2 * size.mass_g > most


def test_fillings_of_a_plan_are_the_ways_that_occur_in_it_where_they_suit_somebody() -> None:
    found = 0
    for problem in solvable(range(60)):
        if problem.plates_stay_with_bar:
            continue
        reach = reach_of(problem)
        loads = first_plan(problem, reach)
        made = load_model(problem, reach, largest_shortfall(loads), unit_g=shared_unit_g(problem))
        assert made is not None
        classes = user_classes(problem, by_target=True)
        sizes = sorted((size.mass_g for size in problem.plates), reverse=True)
        users, bars = problem.user_by_id, problem.bar_by_id
        expected = set()
        for load in loads:
            user = users[load.user]
            number = next(n for n, each in enumerate(classes) if user in each.users)
            for (place, family), other in product(enumerate(made.families), loads):
                bar = family.bar
                hung = other.load_g - bars[other.bar].mass_g
                suits = user.bars is None or bar.id in user.bars
                limits = (bar.maximum_plates_g, 0 if user.bare_bar else None)
                holds = all(most is None or hung <= most for most in limits)
                if suits and holds and bar.mass_g + hung == load.load_g:
                    side = dict(other.per_side)
                    way = tuple(side.get(mass_g, 0) for mass_g in sizes)
                    expected.add((number, place, load.load_g, way))
        every = fillings_of_plan(made, classes, loads)
        assert len(every) == len(set(every))
        assert {(f.user_class, f.family, f.load_g, f.counts) for f in every} == expected
        found += len(expected)
    assert found > 50


def test_a_search_for_places_that_ends_without_an_answer_says_so(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """Two share a bar, a third may only have that one, and a fourth only the other in one wave."""
    problem = KitProblem(
        (KitBar("a", 10_000), KitBar("b", 10_000)),
        (PlateSize(2_500, 1),),
        (KitUser("u", 20_000), KitUser("v", 20_000), KitUser("w", 20_000, bars=("a",))),
        shared=(("u", "v"),),
    )
    assert {load.bar for load in first_plan(problem, reach_of(problem))} == {"a", "b"}
    monkeypatch.setattr(solve, "_START_WORK", 0.0)
    with pytest.raises(TimeRanOut, match="no place for all 3 athletes was found in 0 s"):
        first_plan(problem, reach_of(problem))


def test_pairs_to_fetch_are_not_worked_out_where_plates_stay_or_no_work_is_left(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    problem = KitProblem(
        (KitBar("a", 10_000),), (PlateSize(2_500, 0),), (KitUser("u", 20_000),), waves=1
    )
    assert fewest_more_pairs(problem, Fraction(0)) == ((2_500, 2),)
    with pytest.raises(InvalidInput, match="plates_stay_with_bar"):
        fewest_more_pairs(replace(problem, plates_stay_with_bar=True), Fraction(0))
    monkeypatch.setattr(prices, "usual_effort", lambda _: solve.Effort(0.0, 0.0, 40.0))
    with pytest.raises(TimeRanOut, match="were not found in time"):
        fewest_more_pairs(problem, Fraction(0))


def test_a_model_for_less_shortfall_than_the_whole_stock_allows_is_not_built() -> None:
    for problem in solvable(range(40)):
        reach = reach_of(problem)
        least = least_shortfall(reach)
        unit_g = shared_unit_g(problem)
        assert bar_model(problem, reach, least) is not None
        assert load_model(problem, reach, least, unit_g=unit_g) is not None
        if least > 0:
            less = least - Fraction(1, 10**9)
            assert bar_model(problem, reach, less) is None
            made = load_model(problem, reach, less, unit_g=unit_g)
            assert made is None or made.program.search(Budget(1.0, inf)).is_impossible


def test_waves_are_seen_as_one_only_where_nobody_has_a_wave() -> None:
    for problem in solvable(range(40)):
        has_wave = any(user.wave is not None for user in problem.users)
        assert waves_can_be_merged(problem) is not has_wave
