"""What is impossible, what time leaves open, what is bad input: three different answers."""

from dataclasses import replace
from fractions import Fraction
from typing import Any

import pytest

from planning.kit_cases import HALF, NO_TENS, demo, faults, plates, scaled
from squadwright.errors import InvalidInput
from squadwright.planning.kit import NoPlanWithinTolerance, solve_kit
from squadwright.planning.kit.loads import reach_of
from squadwright.planning.kit.measures import largest_shortfall, percent, total_shortfall_g
from squadwright.planning.kit.prices import (
    fewest_more_pairs,
    price_of_missing_pair,
    value_of_one_more_pair,
)
from squadwright.planning.kit.problem import KitBar, KitProblem, KitStatus, KitUser, PlateSize
from squadwright.planning.kit.solve import first_plan
from squadwright.planning.kit.start import NoPlaceOnABar


def pair(**changes: Any) -> KitProblem:
    given: dict[str, Any] = {
        "bars": (KitBar("long", 20_000), KitBar("short", 10_000)),
        "plates": plates((2, 2), (5_000, 2_500)),
        "users": (KitUser("Ada", 30_000), KitUser("Bo", 25_000)),
    }
    return KitProblem(**(given | changes))


def test_a_target_below_the_bare_bar_is_impossible_and_says_what_to_do() -> None:
    problem = pair(users=(KitUser("Ada", 30_000), KitUser("Bo", 8_000)))
    with pytest.raises(
        NoPlaceOnABar,
        match=r"Bo: the target 8 kg is below the bare bar short \(10 kg\).*Bring a bar of 8 kg",
    ):
        solve_kit(problem)


def test_a_named_bar_heavier_than_the_target_is_impossible() -> None:
    problem = pair(users=(KitUser("Ada", 30_000), KitUser("Bo", 15_000, bars=("long",))))
    with pytest.raises(NoPlaceOnABar, match=r"Bo: .*long \(20 kg\).*of the bars named"):
        solve_kit(problem)


def test_more_athletes_than_places_are_impossible() -> None:
    users = tuple(KitUser(f"u{i}", 30_000) for i in range(5))
    with pytest.raises(NoPlaceOnABar, match=r"5 athletes .* 2 bars in 2 wave\(s\).*Add a wave"):
        solve_kit(pair(users=users))


def test_a_shared_bar_too_heavy_for_the_lightest_is_impossible() -> None:
    problem = KitProblem(
        (KitBar("long", 20_000), KitBar("short", 10_000)),
        plates((2,), (5_000,)),
        (
            KitUser("Ada", 30_000, bars=("long",)),
            KitUser("Bo", 15_000),
        ),
        shared=(("Ada", "Bo"),),
    )
    with pytest.raises(NoPlaceOnABar, match=r"shared\[0\] \(Ada, Bo\): no bar suits all"):
        solve_kit(problem)


def test_two_heavy_only_groups_on_one_light_bar_are_impossible() -> None:
    users = tuple(KitUser(f"u{i}", 12_000) for i in range(4))
    problem = pair(users=users, shared=(("u0", "u1"), ("u2", "u3")))
    with pytest.raises(NoPlaceOnABar):
        solve_kit(problem)


def test_an_impossible_tolerance_carries_the_tightest_and_the_plan_that_has_it() -> None:
    with pytest.raises(NoPlanWithinTolerance) as caught:
        solve_kit(demo(HALF, tolerance=Fraction(1, 10)))
    assert caught.value.tightest == Fraction(3, 23)
    assert caught.value.closest.status is KitStatus.PROVEN
    assert "within 10 % below target; the tightest that works is 13.1 %" in str(caught.value)
    assert "set by A02 (30 of 34.5 kg)" in str(caught.value)


def test_a_percentage_is_rounded_up_so_that_it_still_works() -> None:
    assert percent(Fraction(3, 23)) == "13.1 %"
    assert percent(Fraction(1, 10)) == "10 %"
    assert percent(Fraction(1, 1000) + Fraction(1, 10**9)) == "0.2 %"


def test_time_that_runs_out_leaves_a_plan_with_bounds_and_no_claim() -> None:
    problem = scaled(100, 50, 0.5)
    start = first_plan(problem, reach_of(problem))
    solution = solve_kit(problem, time_limit_s=0.02)
    assert faults(problem, solution) == []
    assert solution.status is KitStatus.BOUNDED
    assert all(goal.bound <= goal.value for goal in solution.goals)
    assert (solution.largest_shortfall_fraction, solution.total_shortfall_g) <= (
        largest_shortfall(start),
        total_shortfall_g(start),
    )


def test_a_tolerance_left_open_by_the_clock_is_not_called_impossible() -> None:
    problem = replace(scaled(100, 50, 0.5), tolerance=Fraction(24, 100))
    solution = solve_kit(problem, time_limit_s=0.02)
    assert solution.goals[0].bound <= Fraction(24, 100)
    assert solve_kit(problem).largest_shortfall_fraction <= Fraction(24, 100)


@pytest.mark.parametrize("limit", [0, -1, float("nan")])
def test_a_time_limit_must_be_above_nothing(limit: float) -> None:
    with pytest.raises(InvalidInput, match=r"time_limit: .*not above 0 s"):
        solve_kit(pair(), time_limit_s=limit)


def test_a_kept_bar_is_kept_though_another_would_be_better() -> None:
    users = (
        KitUser("Ada", 30_000, kept_bar="short"),
        KitUser("Bo", 25_000, kept_bar="long"),
        KitUser("Cem", 12_000),
    )
    solution = solve_kit(pair(users=users))
    assert {load.user: load.bar for load in solution.loads} == {
        "Ada": "short",
        "Bo": "long",
        "Cem": "short",
    }
    assert solution.changed_bars == ()


def test_kept_bars_are_let_go_only_when_no_plan_holds_them() -> None:
    users = (
        KitUser("Ada", 30_000, kept_bar="short"),
        KitUser("Bo", 25_000, kept_bar="short"),
        KitUser("Cem", 12_000),
    )
    solution = solve_kit(pair(users=users))
    assert len(solution.changed_bars) == 1
    assert {load.user: load.bar for load in solution.loads}["Cem"] == "short"


def test_a_bare_bar_stays_bare_and_a_limit_on_a_bar_holds() -> None:
    problem = KitProblem(
        (KitBar("a", 10_000, maximum_plates_g=5_000), KitBar("b", 10_000)),
        plates((4,), (2_500,)),
        (
            KitUser("Ada", 40_000, bars=("a",)),
            KitUser("Bo", 40_000, bars=("b",), bare_bar=True),
            KitUser("Cem", 40_000, bars=("b",)),
        ),
    )
    loads = {load.user: load.load_g for load in solve_kit(problem).loads}
    assert loads == {"Ada": 15_000, "Bo": 10_000, "Cem": 30_000}


@pytest.mark.parametrize(
    ("changes", "message"),
    [
        ({"waves": 5}, r"waves: 5 is outside 1 to 4"),
        ({"bars": ()}, r"bars: there is no bar"),
        ({"users": ()}, r"users: there is nobody"),
        ({"tolerance": Fraction(1)}, r"tolerance: 1 is outside 0 to 1"),
        ({"bars": (KitBar("x", 1), KitBar("x", 2))}, r"bars\[1\]\.id: 'x' is used twice"),
        ({"bars": (KitBar("x", 0),)}, r"bars\[0\]\.mass: 0 kg is outside"),
        ({"bars": (KitBar("x", 1, maximum_plates_g=-1),)}, r"bars\[0\]\.maximum_plates"),
        ({"plates": (PlateSize(1, -1),)}, r"plates\[0\]\.pairs: -1 is outside 0 to 1000"),
        ({"plates": plates((1, 1), (5, 5))}, r"plates\[1\]\.mass: 0.005 kg is listed twice"),
        ({"users": (KitUser("u", 9, wave=3),)}, r"users\[0\]\.wave: 3 is outside 1 to 2"),
        ({"users": (KitUser("u", 9, bars=("z",)),)}, r"users\[0\]\.bars: there is no bar 'z'"),
        ({"users": (KitUser("u", 9, bars=()),)}, r"users\[0\]\.bars: the list is empty"),
        ({"users": (KitUser(" ", 9),)}, r"users\[0\]\.id: it is empty"),
        ({"shared": (("Ada", "Zoe"),)}, r"shared\[0\]: there is no user 'Zoe'"),
        ({"shared": (("Ada",), ("Ada",))}, r"shared\[1\]: 'Ada' is on two bars"),
        ({"shared": ((),)}, r"shared\[0\]: 0 athletes on one bar"),
        (
            {
                "users": (KitUser("a", 30_000, wave=1), KitUser("b", 30_000, wave=1)),
                "shared": (("a", "b"),),
            },
            r"shared\[0\]: two athletes of one bar lift in the same wave",
        ),
    ],
)
def test_bad_input_is_told_by_place_value_and_limit(changes: dict[str, Any], message: str) -> None:
    with pytest.raises(InvalidInput, match=message):
        pair(**changes)


def test_a_missing_pair_never_helps_and_one_more_never_hurts() -> None:
    problem = demo(HALF)
    for price in price_of_missing_pair(problem):
        assert (price.largest.value, price.total.value) >= (
            price.largest_before.value,
            price.total_before.value,
        )
    for price in value_of_one_more_pair(problem):
        assert (price.largest.value, price.total.value) <= (
            price.largest_before.value,
            price.total_before.value,
        )


def test_prices_agree_with_solving_the_changed_stock() -> None:
    price = next(p for p in value_of_one_more_pair(demo(HALF)) if p.mass_g == 2_500)
    changed = solve_kit(demo((1, 3, 3, 2, 1)))
    assert price.largest.value == changed.largest_shortfall_fraction
    assert price.total.value == changed.total_shortfall_g
    assert price.sentence.startswith("one more pair of 2.5 kg brings everyone within ")


def test_a_size_that_is_not_in_the_stock_can_be_priced() -> None:
    (price,) = value_of_one_more_pair(pair(), sizes_g=[250])
    assert price.mass_g == 250
    assert price.sentence == "one more pair of 0.25 kg: no change"


def test_the_fewest_pairs_to_fetch_do_it_and_one_fewer_does_not() -> None:
    problem = demo(NO_TENS)
    goal = Fraction(1, 10)
    found = fewest_more_pairs(problem, goal)
    stock = {size.mass_g: size.pairs for size in problem.plates}
    for mass_g, more in found:
        stock[mass_g] += more
    richer = replace(problem, plates=tuple(PlateSize(m, n) for m, n in stock.items()))
    assert solve_kit(richer).largest_shortfall_fraction <= goal
    for mass_g, _ in found:
        poorer = stock | {mass_g: stock[mass_g] - 1}
        less = replace(problem, plates=tuple(PlateSize(m, n) for m, n in poorer.items()))
        assert solve_kit(less).largest_shortfall_fraction > goal
    assert fewest_more_pairs(demo(HALF), Fraction(3, 20)) == ()
