"""Jumps from force: an exact jump in steps, open recordings, and what is refused."""

from dataclasses import replace
from datetime import date

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from jump_traces import (
    BODY_WEIGHT_N,
    BOX_COLUMN,
    COUNTERMOVEMENT,
    DROP_JUMP,
    FORCE_COLUMN,
    STEPS,
    TIME_COLUMN,
    open_table,
    step_trace,
    steps,
)
from squadwright.errors import InvalidInput, OutsidePublishedRange
from squadwright.formulas.force_time.countermovement import countermovement_jump
from squadwright.formulas.force_time.drop_jump import drop_jump
from squadwright.formulas.force_time.method import (
    ONSETS,
    TAKE_OFFS,
    Counted,
    JumpMethod,
    TakeOff,
    Weighing,
    Zero,
)
from squadwright.formulas.force_time.trace import Span, force_trace, stillness
from squadwright.formulas.measured import Measured, MeasuredLine
from squadwright.formulas.sources import all_sources

EXACT = JumpMethod(onset=ONSETS["2.5 % of body weight"])
OPEN = JumpMethod(take_off=TAKE_OFFS["20 N"], gravity_m_s2=9.80665)


def test_the_exact_jump_gives_the_numbers_of_newton() -> None:
    """80 kg, 9.81 m/s^2, worked out by hand; at 1,000 Hz steps cost up to 0.01 m/s and 0.003 m."""
    jump = countermovement_jump(step_trace(), EXACT)
    assert jump.mass_kg == pytest.approx(80, abs=1e-9)
    assert jump.take_off_velocity_m_s == pytest.approx(2.943, abs=0.01)
    assert jump.lowest_velocity_m_s == pytest.approx(-1.4715, abs=0.01)
    assert jump.height_impulse_m == pytest.approx(0.44145, abs=0.003)
    assert jump.height_flight_m == pytest.approx(0.44145, abs=1e-9)
    assert jump.depth_m == pytest.approx(-0.33109, abs=0.003)
    assert jump.rise_at_take_off_m == pytest.approx(0.11036, abs=0.0034)
    assert jump.flight_time_s == pytest.approx(0.6, abs=1e-12)
    assert jump.time_to_take_off_s == pytest.approx(0.75, abs=1e-12)
    assert jump.reactive_strength_index_modified == pytest.approx(0.5886, abs=0.003 / 0.75)
    assert jump.peak_power_w == pytest.approx(4619.3, abs=0.01 * 1569.6)
    assert jump.cautions == ()


def test_a_higher_rate_comes_nearer_to_the_exact_jump() -> None:
    speeds = [
        countermovement_jump(step_trace(rate), EXACT).take_off_velocity_m_s
        for rate in (200, 1000, 5000)
    ]
    misses = [abs(speed - 2.943) for speed in speeds]
    assert misses[0] > 3 * misses[1] > 9 * misses[2]


def test_phases_of_the_exact_jump_follow_each_other_and_their_impulses_add_up() -> None:
    """Unweighting 0.30 s, braking 0.15 s, propulsion 0.30 s; impulses -117.72, 117.72, 235.44."""
    unweighting, braking, propulsion = countermovement_jump(step_trace(), EXACT).phases
    assert [p.name for p in (unweighting, braking, propulsion)] == [
        *("unweighting", "braking", "propulsion"),
    ]
    assert unweighting.span.stop == braking.span.start
    assert braking.span.stop == propulsion.span.start
    durations = [p.duration_s for p in (unweighting, braking, propulsion)]
    assert durations == pytest.approx([0.3, 0.15, 0.3], abs=0.0015)
    impulses = [p.net_impulse_n_s for p in (unweighting, braking, propulsion)]
    assert impulses == pytest.approx([-117.72, 117.72, 235.44], abs=1.2)
    assert sum(impulses) == pytest.approx(235.44, abs=0.3)


def test_stepping_back_lengthens_the_time_to_take_off_by_30_ms() -> None:
    jump = countermovement_jump(step_trace(), JumpMethod())
    assert (jump.crossing, jump.onset) == (1000, 970)
    assert jump.time_to_take_off_s == pytest.approx(0.78)


@pytest.mark.parametrize("onset", ONSETS)
@pytest.mark.parametrize("take_off", TAKE_OFFS)
def test_every_published_choice_is_named_in_the_method_of_the_number(
    onset: str, take_off: str
) -> None:
    method = JumpMethod(onset=ONSETS[onset], take_off=TAKE_OFFS[take_off])
    jump = countermovement_jump(step_trace(), method)
    assert jump.height_impulse_m == pytest.approx(0.44145, abs=0.003)
    assert f"onset {onset}" in jump.height().method
    assert f"take-off {take_off}" in jump.height().method
    assert "impulse" in jump.height().method
    assert "flight time" in jump.height_by_flight().method


def test_choices_name_sources_that_are_in_the_list() -> None:
    named = {onset.source for onset in ONSETS.values()}
    named |= {take_off.source for take_off in TAKE_OFFS.values()}
    assert "" not in named
    assert named <= set(all_sources())


def test_an_open_countermovement_jump_gives_the_numbers_worked_out_apart() -> None:
    """20 N, onset 5 SD less 30 ms, g 9.80665, weighing from 1.090 s for 1 s."""
    trace = open_table(COUNTERMOVEMENT).trace(FORCE_COLUMN, time=TIME_COLUMN)
    jump = countermovement_jump(trace, replace(OPEN, weighing=Weighing(1.0, 1.090)))
    assert jump.zero_n == pytest.approx(0.085, abs=5e-4)
    assert jump.weighing.window == Span(1090, 2090)
    assert jump.weighing.mean_n == pytest.approx(766.11, abs=5e-3)
    assert jump.weighing.deviation_n == pytest.approx(1.895, abs=1e-3)
    assert jump.mass_kg == pytest.approx(78.122, abs=5e-4)
    assert (jump.crossing, jump.onset, jump.take_off, jump.landing) == (2651, 2621, 3422, 3976)
    assert jump.flight_time_s == pytest.approx(0.554, abs=1e-9)
    assert jump.height_flight_m == pytest.approx(0.3762, abs=5e-5)
    assert jump.take_off_velocity_m_s == pytest.approx(2.7121, abs=5e-5)
    assert jump.height_impulse_m == pytest.approx(0.3750, abs=5e-5)
    assert jump.depth_m == pytest.approx(-0.2990, abs=5e-5)
    assert jump.rise_at_take_off_m == pytest.approx(0.0973, abs=5e-5)
    assert jump.time_to_take_off_s == pytest.approx(0.801, abs=1e-9)
    assert jump.reactive_strength_index_modified == pytest.approx(0.4682, abs=5e-5)
    assert jump.peak_force_n == pytest.approx(1912.0, abs=0.05)
    assert jump.peak_power_w == pytest.approx(4431.4, abs=0.05)
    assert jump.landing_peak_body_weights == pytest.approx(4.20, abs=5e-3)


def test_the_quietest_second_of_the_open_jump_is_found_without_being_told() -> None:
    trace = open_table(COUNTERMOVEMENT).trace(FORCE_COLUMN, time=TIME_COLUMN)
    jump = countermovement_jump(trace, OPEN)
    assert abs(jump.weighing.window.start - 1090) <= 10
    assert jump.weighing.deviation_n <= 1.8951
    assert jump.height_impulse_m == pytest.approx(0.3750, abs=5e-5)


def test_flight_time_reads_higher_than_impulse_on_the_open_jump() -> None:
    jump = countermovement_jump(
        open_table(COUNTERMOVEMENT).trace(FORCE_COLUMN, time=TIME_COLUMN), OPEN
    )
    assert jump.height_by_flight().value > jump.height().value


def test_an_open_drop_jump_gives_the_numbers_worked_out_apart() -> None:
    """Two plates, 20 N, g 9.80665. The box was not stated: 0.40 m stands in for it here."""
    table = open_table(DROP_JUMP)
    floor, box = (table.trace(column, time=TIME_COLUMN) for column in (FORCE_COLUMN, BOX_COLUMN))
    jump = drop_jump(floor, box=box, box_height_m=0.40, gravity_m_s2=9.80665)
    assert (jump.touch_down, jump.take_off, jump.landing) == (3451, 3854, 4358)
    assert jump.contact_time_s == pytest.approx(0.403, abs=1e-9)
    assert jump.flight_time_s == pytest.approx(0.504, abs=1e-9)
    assert jump.height_m == pytest.approx(0.3114, abs=5e-5)
    assert jump.reactive_strength_index == pytest.approx(0.7727, abs=5e-5)
    assert jump.flight_to_contact == pytest.approx(1.2506, abs=5e-5)
    # The outside numbers rest on another second of standing: 0.03 % of weight is 0.004 m/s.
    assert jump.landing_speed_m_s == pytest.approx(2.971, abs=0.005)
    assert jump.equivalent_drop_m == pytest.approx(0.450, abs=0.0015)


def test_two_plates_agree_on_body_weight() -> None:
    """Box plate, first second: 587.82 N, SD 2.33. Floor plate 588.06 N: within 0.04 %."""
    table = open_table(DROP_JUMP)
    floor, box = (table.trace(column, time=TIME_COLUMN) for column in (FORCE_COLUMN, BOX_COLUMN))
    first = stillness(box, Span(0, 1000))
    assert first.mean_n == pytest.approx(587.82, abs=5e-3)
    assert first.deviation_n == pytest.approx(2.33, abs=5e-3)
    alone = drop_jump(floor, box_height_m=0.40, gravity_m_s2=9.80665)
    assert alone.body_weight_n == pytest.approx(588.06, abs=0.06)
    assert alone.reactive_strength_index == pytest.approx(0.7727, abs=5e-5)


def test_the_height_of_the_box_is_asked_for_and_stays_in_the_method() -> None:
    table = open_table(DROP_JUMP)
    floor = table.trace(FORCE_COLUMN, time=TIME_COLUMN)
    with pytest.raises(TypeError, match="box_height_m"):
        drop_jump(floor)  # type: ignore[call-arg]
    low, high = (drop_jump(floor, box_height_m=height).index() for height in (0.3, 0.45))
    assert low.value == high.value
    with pytest.raises(InvalidInput, match="Compare numbers of one method only"):
        MeasuredLine(((date(2026, 1, 1), low), (date(2026, 2, 1), high)))
    with pytest.raises(OutsidePublishedRange, match=r"box_height_m is 1\.2"):
        drop_jump(floor, box_height_m=1.2)


def exact_drop(weight_n: float = BODY_WEIGHT_N) -> np.ndarray:
    """80 kg from 0.45 m (2.971 m/s), 0.25 s on the ground at 3.25 times body weight, then up."""
    landing_s = 2 * (2.25 * 9.81 * 0.25 - (2 * 9.81 * 0.45) ** 0.5) / 9.81
    return steps(2000, ((1.0, 0.0), (0.25, 3.25 * weight_n), (landing_s, 0.0), (2.0, weight_n)))


def test_an_exact_drop_jump_gives_back_the_height_it_was_made_with() -> None:
    jump = drop_jump(force_trace(exact_drop(), 2000), box_height_m=0.45)
    assert jump.contact_time_s == pytest.approx(0.25)
    assert jump.equivalent_drop_m == pytest.approx(0.45, abs=0.01)
    assert jump.body_weight_n == pytest.approx(BODY_WEIGHT_N)


def test_without_standing_still_a_drop_jump_has_no_landing_speed() -> None:
    jump = drop_jump(force_trace(exact_drop()[:-3800], 2000), box_height_m=0.45)
    assert jump.body_weight_n is None
    assert jump.landing_speed_m_s is None
    assert jump.equivalent_drop_m is None


def test_plates_of_two_clocks_are_refused() -> None:
    floor = force_trace(exact_drop(), 2000)
    with pytest.raises(InvalidInput, match="box: has 1000 samples at 2000 Hz"):
        drop_jump(floor, box=force_trace(np.full(1000, 700.0), 2000), box_height_m=0.45)
    with pytest.raises(InvalidInput, match="floor: shows 1 contacts"):
        drop_jump(force_trace(np.full(1000, 700.0), 1000), box_height_m=0.45)


@given(st.integers(0, 1000), st.floats(0.5, 14))
def test_noise_of_an_empty_plate_ends_no_flight(seed: int, noise_n: float) -> None:
    """Noise in flight has been seen to reach 14 N; single samples of it are no landing."""
    force = steps()
    chance = np.random.default_rng(seed)
    force[1750:2350] += chance.uniform(-noise_n, noise_n, 600)
    jump = countermovement_jump(force_trace(force, 1000), EXACT)
    assert 0 <= jump.take_off - 1750 < 10
    assert 0 <= 2350 - jump.landing < 10


def test_the_zero_of_the_plate_is_taken_from_the_flight() -> None:
    shifted = force_trace(steps() + 25, 1000)
    assert countermovement_jump(shifted, EXACT).zero_n == pytest.approx(25)
    assert countermovement_jump(shifted, EXACT).mass_kg == pytest.approx(80)
    with pytest.raises(InvalidInput, match="stays never below 10 N"):
        countermovement_jump(shifted, replace(EXACT, zero=Zero.AS_RECORDED))


@pytest.mark.parametrize(
    ("parts", "message"),
    [
        (((2.0, 784.8),), "stays never below 30 N"),
        ((*STEPS, *STEPS[1:]), r"holds 2 flights \(they begin at 1.75 s, 4.60 s\)"),
        (STEPS[1:], "weighing: needs 1 s on the plate before take-off at 0.75 s"),
        (((1.0, 784.8), (0.45, 1569.6), (0.6, 0.0), (1.0, 784.8)), "shows no countermovement"),
        (((1.0, 0.0), *STEPS[1:]), "weighing: needs 1 s on the plate"),
    ],
    ids=["no jump", "two jumps", "no weighing", "squat jump", "steps on late"],
)
def test_a_recording_without_one_whole_jump_is_refused(
    parts: tuple[tuple[float, float], ...], message: str
) -> None:
    with pytest.raises(InvalidInput, match=message):
        countermovement_jump(force_trace(steps(1000, parts), 1000), EXACT)


def test_an_athlete_who_did_not_stand_still_is_told() -> None:
    force = steps()
    force[:1000] += 30 * np.sin(np.arange(1000) / 50)
    (caution,) = countermovement_jump(force_trace(force, 1000), JumpMethod()).cautions
    assert "not standing still" in caution


@pytest.mark.parametrize(
    ("force", "rate_hz", "error", "message"),
    [
        ([1.0] * 2000, 50, OutsidePublishedRange, "rate_hz is 50"),
        ([1.0] * 40, 1000, InvalidInput, "holds 40 samples at 1000 Hz"),
        ([1.0] * 700 + [float("nan")], 1000, InvalidInput, r"force_n\[700\]: nan N at 0.700 s"),
        ([1.0] * 700 + [6e4], 1000, InvalidInput, r"force_n\[700\]: 60000 N"),
    ],
)
def test_numbers_that_are_no_recording_are_refused(
    force: list[float], rate_hz: float, error: type[Exception], message: str
) -> None:
    with pytest.raises(error, match=message):
        force_trace(force, rate_hz)


def test_a_choice_outside_reason_is_refused() -> None:
    with pytest.raises(OutsidePublishedRange, match="length_s"):
        Weighing(0.05)
    with pytest.raises(InvalidInput, match="no published take-off is a share"):
        TakeOff(5, Counted.BODY_WEIGHT_PERCENT)
    with pytest.raises(OutsidePublishedRange, match="gravity_m_s2 is 10"):
        JumpMethod(gravity_m_s2=10)


def test_one_line_never_holds_two_methods() -> None:
    jump = countermovement_jump(step_trace(), EXACT)
    days = [date(2026, 9, day) for day in (1, 8, 15)]
    mixed = ((days[0], jump.height()), (days[1], jump.height_by_flight()), (days[2], jump.height()))
    with pytest.raises(InvalidInput, match=r"points\[1\]: jump height has the method"):
        MeasuredLine(mixed)
    assert MeasuredLine((mixed[0], mixed[2])).method == jump.height().method


def test_a_number_without_its_method_or_out_of_order_is_refused() -> None:
    with pytest.raises(InvalidInput, match="method: is empty"):
        Measured("jump height", 0.4, "m", " ")
    with pytest.raises(InvalidInput, match="nan"):
        Measured("jump height", float("nan"), "m", "tape")
    height = Measured("jump height", 0.4, "m", "tape")
    with pytest.raises(InvalidInput, match="in order of their days"):
        MeasuredLine(((date(2026, 2, 1), height), (date(2026, 1, 1), height)))
    with pytest.raises(InvalidInput, match="holds no number"):
        MeasuredLine(())
