"""A heart recording second by second: what stands for a gap, zones, and the first minute after."""

import neurokit2
import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cases import cases
from squadwright.errors import OutsidePublishedRange
from squadwright.formulas.heart_curve import (
    mean_rate,
    minutes_by_thresholds,
    rates_by_second,
    rates_from_intervals,
    recovery_after,
)
from squadwright.formulas.heart_rate_variability import rmssd, sdnn
from squadwright.formulas.training_impulse import (
    minutes_in_edwards_zones,
    training_impulse_banister_men,
    training_impulse_edwards,
    training_impulse_lucia,
)

STEADY_MS = st.lists(st.floats(600, 700), min_size=5, max_size=80)


@settings(max_examples=cases(25), deadline=None)
@given(STEADY_MS)
def test_rmssd_and_sdnn_are_those_of_a_general_physiology_library(intervals: list[float]) -> None:
    """neurokit2, hrv_time on peaks at the ends of the intervals, 1,000,000 samples a second."""
    peaks = np.concatenate([[0.0], np.cumsum(intervals)]) * 1000
    with np.errstate(invalid="ignore", divide="ignore"):
        found = neurokit2.hrv_time(peaks.round().astype(int), sampling_rate=1_000_000)
    assert rmssd(intervals) == pytest.approx(float(found["HRV_RMSSD"].iloc[0]), abs=0.01)
    assert sdnn(intervals) == pytest.approx(float(found["HRV_SDNN"].iloc[0]), abs=0.01)


@settings(max_examples=cases(25), deadline=None)
@given(STEADY_MS)
def test_the_rate_of_intervals_is_that_of_the_library_between_its_beats(
    intervals: list[float],
) -> None:
    """neurokit2, signal_rate without interpolation: 60 over the interval, at each beat."""
    ends = np.cumsum(intervals) / 1000
    found = rates_from_intervals(intervals, ends.tolist())
    beats = np.concatenate([[0.0], ends])
    library = neurokit2.signal_rate(
        (beats * 1e6).round().astype(int), sampling_rate=1_000_000, show=False
    )
    known = [rate for rate in found if rate is not None]
    assert len(known) == len(found)
    assert min(library) - 0.01 <= min(known)
    assert max(known) <= max(library) + 0.01


def test_banisters_impulse_of_a_recording_is_the_one_of_the_rates_of_the_library() -> None:
    """neurokit2 gives the rate at each beat; its mean over time goes into the equation by hand."""
    intervals = [800 - 150 * np.sin(n / 40) + 5 * (n % 3) for n in range(1500)]
    ends = np.cumsum(intervals) / 1000
    beats = (np.concatenate([[0.0], ends]) * 1e6).round().astype(int)
    rates = neurokit2.signal_rate(beats, sampling_rate=1_000_000, show=False)[1:]
    minutes, mean = ends[-1] / 60, float(np.average(rates, weights=intervals))
    share = (mean - 50) / (190 - 50)
    by_hand = minutes * share * 0.64 * np.exp(1.92 * share)
    found = rates_from_intervals(intervals, ends.tolist())
    ours = training_impulse_banister_men(
        len(found) / 60, mean_rate(found) or 0, resting_bpm=50, maximum_bpm=190
    )
    assert ours == pytest.approx(by_hand, rel=0.005)


def test_a_gap_counts_as_unknown_and_a_lost_beat_is_no_low_rate() -> None:
    assert rates_by_second([90, 92], [0, 3]) == [90, 90, 90, 92]
    held = rates_by_second([90, 92], [0, 30])
    assert held == [90] * 11 + [None] * 19 + [92]
    missed = rates_from_intervals([800, 800, 1600, 800, 800], [0.8, 1.6, 3.2, 4, 4.8])
    assert missed == [75, 75, None, 75]
    assert mean_rate(missed) == 75
    assert mean_rate([None]) is None


def test_a_threshold_opens_its_zone_and_the_worked_rows_hold() -> None:
    """Edwards 10, 15, 20, 10, 5 min is 165; Lucia 20, 30, 10 min is 110 (published rows)."""
    percents = ((50, 10), (60, 15), (70, 20), (80, 10), (90, 5))
    rates: list[float | None] = [
        2.0 * percent for percent, minutes in percents for _ in range(60 * minutes)
    ]
    zones = minutes_in_edwards_zones(rates, interval_s=1, maximum_bpm=200)
    assert training_impulse_edwards(zones.zones_min) == pytest.approx(165)
    rates = [139.9] * 1200 + [140.0] * 1800 + [170.0] * 600
    three = minutes_by_thresholds(rates, first_bpm=140, second_bpm=170)
    assert training_impulse_lucia(three.zones_min) == pytest.approx(110)
    assert minutes_by_thresholds([None] * 60, first_bpm=140, second_bpm=170).unknown_min == 1


@pytest.mark.parametrize(("first", "second"), [(170, 140), (50, 140), (140, 250)])
def test_thresholds_out_of_order_or_range_are_refused(first: float, second: float) -> None:
    with pytest.raises(OutsidePublishedRange):
        minutes_by_thresholds([100.0], first_bpm=first, second_bpm=second)


def test_the_first_minute_after_needs_both_of_its_ends() -> None:
    rates: list[float | None] = [120.0] * 30 + [180.0] + [178.0] * 59 + [140.0]
    found = recovery_after(rates)
    assert found is not None
    assert (found.end_s, found.end_bpm, found.after_bpm) == (30, 180, 140)
    assert recovery_after(rates[:-1]) is None or recovery_after(rates[:-1]) != found
    assert recovery_after(rates, 31) is None
    assert recovery_after([180.0] * 60) is None
    assert recovery_after([180.0] + [None] * 60) is None
