"""Strength from tests and from ratios between lifts."""

from math import exp, hypot, log, sqrt

import pytest
from scipy.stats import lognorm

from squadwright.errors import InvalidInput, OutsidePublishedRange
from squadwright.planning.dose.capacity import (
    TestedSet,
    capacities_from_tests,
    capacity_from_set,
    capacity_range_kg,
    capacity_ways,
)
from squadwright.planning.dose.problem import CapacityBasis, LiftCapacity

LIFTS = ("strict press", "bench press", "back squat", "deadlift", "power clean", "bent-over row")


def test_five_repetitions_stand_at_the_share_of_the_handbook_chart() -> None:
    # NSCA training load chart: 5 repetitions are 87 % of the 1RM.
    capacity = capacity_from_set(TestedSet("bench press", 100.0, 5))
    assert 100 / capacity.mean_kg == pytest.approx(0.87, abs=0.005)
    # Epley 116.667 and Brzycki 112.500 (their equations at 100 kg x 5).
    assert capacity.mean_kg == pytest.approx((116.667 + 112.5) / 2, abs=0.001)


def test_a_set_carries_the_published_error_and_a_single_is_measured() -> None:
    # Hutchins & Gearhart 2010: 5.4 to 6.8 kg on 95.5 kg, so 5.7 to 7.1 %.
    assert 0.057 <= capacity_from_set(TestedSet("press", 60.0, 5)).sd_fraction <= 0.071
    single = capacity_from_set(TestedSet("press", 60.0, 1))
    assert single.mean_kg == 60.0
    assert single.sd_fraction < 0.057


def test_a_long_set_is_trusted_less() -> None:
    spreads = [capacity_from_set(TestedSet("press", 40.0, r)).sd_fraction for r in (1, 5, 15)]
    assert spreads == sorted(set(spreads))


def test_a_set_too_long_for_the_equation_is_refused() -> None:
    with pytest.raises(OutsidePublishedRange):
        capacity_from_set(TestedSet("press", 40.0, 37))


def test_from_a_press_every_other_lift_is_guessed_with_10_to_21_percent() -> None:
    known = capacities_from_tests([TestedSet("strict press", 57.5, 5)], LIFTS, sex="male")
    assert known["strict press"].basis is CapacityBasis.TESTED
    guessed = [known[lift] for lift in LIFTS[1:]]
    assert all(capacity.basis is CapacityBasis.GUESSED for capacity in guessed)
    assert all(0.10 <= capacity.sd_fraction <= 0.21 for capacity in guessed)


def test_a_guess_by_hand() -> None:
    # Bench over squat 1.95 / 2.83 for men (van den Hoek 2024, 90th percentiles).
    known = capacities_from_tests([TestedSet("back squat", 140.0, 1)], ["bench press"], sex="male")
    assert known["bench press"].mean_kg == pytest.approx(140 * 1.95 / 2.83)
    assert known["bench press"].sd_fraction == pytest.approx(hypot(0.03, 0.10))


def test_a_tested_lift_is_never_replaced_by_a_guess() -> None:
    tests = [TestedSet("strict press", 60.0, 5), TestedSet("deadlift", 180.0, 10)]
    known = capacities_from_tests(tests, LIFTS, sex="female")
    assert known["deadlift"] == capacity_from_set(tests[1])


def test_the_last_test_of_a_lift_counts() -> None:
    tests = [TestedSet("strict press", 60.0, 1), TestedSet("strict press", 50.0, 1)]
    assert capacities_from_tests(tests, ["strict press"])["strict press"].mean_kg == 50.0


def test_no_test_at_all_is_refused() -> None:
    with pytest.raises(InvalidInput, match="holds no strength test"):
        capacities_from_tests([], LIFTS)


def test_a_lift_that_no_ratio_reaches_is_refused_by_name() -> None:
    with pytest.raises(InvalidInput, match="neck curl cannot be guessed from strict press"):
        capacities_from_tests([TestedSet("strict press", 50.0, 5)], ["neck curl"])


def test_the_range_of_a_capacity_holds_its_share_of_a_log_normal() -> None:
    capacity = LiftCapacity(80.0, 0.15, CapacityBasis.GUESSED)
    # SciPy's log-normal of this mean and standard deviation.
    sd_log = sqrt(log(1 + 0.15**2))
    draws = lognorm(s=sd_log, scale=80.0 * exp(-(sd_log**2) / 2))
    assert draws.mean() == pytest.approx(80.0)
    assert draws.std() == pytest.approx(12.0)
    low, high = capacity_range_kg(capacity, 0.9)
    assert (low, high) == pytest.approx((draws.ppf(0.05), draws.ppf(0.95)))


def test_each_capacity_says_the_way_it_is_known() -> None:
    ways = capacity_ways([TestedSet("strict press", 57.5, 5)], sex="male")
    assert ways["strict press"].test == TestedSet("strict press", 57.5, 5)
    assert ways["strict press"].link is None
    bench = ways["bench press"]
    assert bench.test is None
    assert bench.link is not None
    assert (bench.from_lift, bench.link.ratio) == ("strict press", 0.65)
    assert bench.capacity.mean_kg == pytest.approx(ways["strict press"].capacity.mean_kg / 0.65)
