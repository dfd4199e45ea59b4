"""Jumps and drops: wrong variants in circulation, ranges, properties."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from squadwright.errors import InvalidInput, OutsidePublishedRange
from squadwright.formulas import drop_landing, jump_height, jump_power, reactive_strength
from squadwright.formulas.registry import all_formulas
from squadwright.units import STANDARD_GRAVITY_M_S2

POWERS = {name: f for name, f in all_formulas().items() if name.startswith("jump_peak_power")} | {
    name: f for name, f in all_formulas().items() if name.startswith("jump_mean_power")
}


def power(name: str, height_m: float, mass_kg: float, stature_m: float = 1.75) -> float:
    more = {"stature_m": stature_m} if "stature_m" in POWERS[name].rules else {}
    return POWERS[name].call(height_m=height_m, mass_kg=mass_kg, **more)


@pytest.mark.parametrize(
    ("name", "mean_power_w", "height_cm"),
    [
        ("jump_peak_power_sayers_squat_jump", 2920.8, 32.79),
        ("jump_peak_power_sayers_countermovement_jump", 2925.1, 32.94),
        ("jump_peak_power_harman", 2585.0, 32.87),
        ("jump_peak_power_canavan_vescovi", 2425.4, 32.85),
    ],
)
def test_four_equations_agree_on_the_jump_of_one_published_sample(
    name: str, mean_power_w: float, height_cm: float
) -> None:
    """Canavan and Vescovi 2004 (read, abstract): 65.9 kg on average, these mean estimates."""
    slope_w_per_cm = (power(name, 0.5, 65.9) - power(name, 0.4, 65.9)) / 10
    solved_cm = 40 + (mean_power_w - power(name, 0.4, 65.9)) / slope_w_per_cm
    assert solved_cm == pytest.approx(height_cm, abs=0.005)


def test_harman_with_a_plus_would_need_a_jump_below_the_floor() -> None:
    height_cm = (2585.0 - 36.0 * 65.9 - 1822) / 61.9
    assert height_cm == pytest.approx(-26.0, abs=0.05)
    wrong = 61.9 * 40 + 36.0 * 80 + 1822
    assert wrong - jump_power.jump_peak_power_harman(0.40, 80) == pytest.approx(3644)


def test_johnson_and_bahamonde_take_stature_and_refuse_an_age() -> None:
    with pytest.raises(OutsidePublishedRange, match="stature_m is 25"):
        jump_power.jump_peak_power_johnson_bahamonde(0.40, 80, 25)
    with_age_and_plus = 78.6 * 40 + 60.3 * 80 - 15.3 * 25 + 1308
    right = jump_power.jump_peak_power_johnson_bahamonde(0.40, 80, 1.75)
    assert right == pytest.approx(3982.5)
    assert abs(with_age_and_plus - right) > 4000


def test_lewis_keeps_the_mass_outside_the_root() -> None:
    inside = math.sqrt(4.9 * 75) * math.sqrt(0.60) * 9.81
    assert jump_power.jump_mean_power_lewis(0.60, 75) / inside == pytest.approx(math.sqrt(75))


@pytest.mark.parametrize("name", POWERS)
def test_a_height_in_centimetres_is_refused(name: str) -> None:
    with pytest.raises(OutsidePublishedRange, match="height_m is 40"):
        power(name, 40, 80)


@pytest.mark.parametrize("name", sorted(set(POWERS) - {"jump_mean_power_lewis"}))
def test_a_jump_that_leaves_no_power_is_refused(name: str) -> None:
    with pytest.raises(OutsidePublishedRange, match=r"power_w is -.*too low a jump"):
        power(name, 0.01, 20, stature_m=2.5)


@given(
    name=st.sampled_from(sorted(POWERS)),
    height_m=st.floats(0.40, 0.9),
    mass_kg=st.floats(60, 150),
    more=st.floats(0.001, 0.5),
)
def test_a_higher_jump_or_a_heavier_athlete_means_more_power(
    name: str, height_m: float, mass_kg: float, more: float
) -> None:
    here = power(name, height_m, mass_kg)
    assert power(name, height_m + more, mass_kg) > here
    assert power(name, height_m, mass_kg + 100 * more) > here


def test_the_published_standard_error_stands_beside_its_line() -> None:
    """Canavan and Vescovi 2004: 120.8 W."""
    assert all_formulas()["jump_peak_power_canavan_vescovi"].standard_error == 120.8


@given(st.floats(0.01, 1.1))
def test_flight_time_and_take_off_speed_give_one_height(flight_time_s: float) -> None:
    speed = jump_height.take_off_velocity_flight_time(flight_time_s)
    assert jump_height.flight_time_take_off_velocity(min(speed, 5.4)) == pytest.approx(
        min(flight_time_s, 2 * 5.4 / 9.81)
    )
    assert jump_height.jump_height_flight_time(flight_time_s) == pytest.approx(speed**2 / 2 / 9.81)


def test_standard_gravity_moves_a_height_by_three_parts_in_ten_thousand() -> None:
    textbook = jump_height.jump_height_take_off_velocity(3.0)
    standard = jump_height.jump_height_take_off_velocity(3.0, STANDARD_GRAVITY_M_S2)
    assert standard / textbook - 1 == pytest.approx(0.00034, abs=5e-6)


def test_a_flight_time_in_milliseconds_is_refused() -> None:
    with pytest.raises(OutsidePublishedRange, match="flight_time_s is 500"):
        jump_height.jump_height_flight_time(500)


def test_the_two_ways_to_an_index_are_not_the_same_number() -> None:
    """0.511 s in the air over 0.20 s on the ground: ratio 2.555, index 1.60 m/s."""
    height_m = jump_height.jump_height_flight_time(0.511)
    index = reactive_strength.reactive_strength_index(height_m, 0.20)
    ratio = reactive_strength.flight_to_contact_ratio(0.511, 0.20)
    assert index == pytest.approx(1.601, abs=5e-4)
    assert ratio == pytest.approx(2.555)


@given(st.floats(0.05, 2.0), st.floats(0.05, 2.0))
def test_a_longer_contact_never_means_a_higher_index(one: float, other: float) -> None:
    shorter, longer = sorted((one, other))
    index = reactive_strength.reactive_strength_index
    assert index(0.3, shorter) >= index(0.3, longer)


@given(st.floats(0.01, 1.07), st.floats(40, 150))
def test_energy_of_a_drop_is_that_of_its_touchdown_speed(height_m: float, mass_kg: float) -> None:
    speed = drop_landing.touchdown_speed(height_m)
    energy = drop_landing.drop_energy(mass_kg, height_m)
    assert energy == pytest.approx(mass_kg * speed**2 / 2)
    assert energy == pytest.approx(mass_kg * drop_landing.drop_energy_per_kilogram(height_m))


def test_a_drop_above_forty_two_inches_or_in_centimetres_is_refused() -> None:
    assert drop_landing.touchdown_speed(1.07) > drop_landing.touchdown_speed(0) == 0
    for height_m in (-0.01, 1.08, 46):
        with pytest.raises(OutsidePublishedRange, match="drop_height_m is"):
            drop_landing.touchdown_speed(height_m)


def test_a_drill_that_was_not_measured_is_refused() -> None:
    with pytest.raises(InvalidInput, match="drill: 'skip' is not known"):
        drop_landing.peak_landing_force_wallace(80, "skip")
