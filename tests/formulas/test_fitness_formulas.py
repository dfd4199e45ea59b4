"""Judo, shuttle, thirty-second power and grip: wrong variants in circulation, order, direction."""

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from squadwright.errors import InvalidInput, OutsidePublishedRange
from squadwright.formulas import grip_strength, judo_fitness, shuttle_run, thirty_second_power


def test_the_judo_index_is_a_sum_and_a_difference_is_refused_further_on() -> None:
    """27 throws, 178 and 152: a page that prints a minus gets 0.96, which no athlete can have."""
    assert judo_fitness.special_judo_fitness_index(178, 152, 27) == pytest.approx(330 / 27)
    with pytest.raises(OutsidePublishedRange, match="index is 0"):
        judo_fitness.special_judo_fitness_relative_index((178 - 152) / 27, 80)


@given(st.integers(10, 40))
def test_one_throw_more_makes_the_judo_index_better(throws: int) -> None:
    index = judo_fitness.special_judo_fitness_index
    assert index(180, 150, throws + 1) < index(180, 150, throws)


@given(st.floats(8, 18.5))
def test_the_equation_for_all_ages_at_18_agrees_with_that_for_adults(speed: float) -> None:
    """At 18 it is -27.439 + 6.0028 S: the variant with -24.4 in circulation is 3 too high."""
    at_18 = shuttle_run.aerobic_capacity_shuttle_all_ages(speed, 18)
    assert at_18 == pytest.approx(shuttle_run.aerobic_capacity_shuttle_adults(speed), abs=0.04)
    assert abs(at_18 - (6.0 * speed - 24.4)) > 2.9


def test_stages_of_one_and_of_two_minutes_are_not_interchangeable() -> None:
    one = shuttle_run.aerobic_capacity_shuttle_adults(13)
    two = shuttle_run.aerobic_capacity_shuttle_two_minutes(13)
    assert two - one > 6


def test_a_stage_runs_half_a_kilometre_an_hour_faster_than_the_one_before() -> None:
    speeds = [shuttle_run.shuttle_stage_speed(stage) for stage in range(1, 22)]
    assert {b - a for a, b in pairwise(speeds)} == {0.5}


def test_a_least_power_above_the_greatest_is_refused() -> None:
    assert thirty_second_power.fatigue_percent_wingate(500, 500) == 0
    with pytest.raises(InvalidInput, match="least_w: 501 W is above the greatest 500 W"):
        thirty_second_power.fatigue_percent_wingate(500, 501)


def test_the_plain_ratio_favours_the_light_more_than_the_scaled_one() -> None:
    """Two of equal scaled grip: the heavier one has the lower ratio."""
    light, heavy = 60.0, 100.0
    grip_light = 45.0
    grip_heavy = grip_light * (heavy / light) ** 0.68
    scaled = grip_strength.grip_scaled
    assert scaled(grip_light, light) == pytest.approx(scaled(grip_heavy, heavy))
    assert scaled(grip_light, light, 1) > scaled(grip_heavy, heavy, 1)
