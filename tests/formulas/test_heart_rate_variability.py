"""Variability of the heartbeat: against the report and recordings of a general physiology library.

The recordings and the report come with pyhrv; the report was made by that library, not by us.
"""

import re
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from open_data import open_data
from squadwright.errors import InvalidInput, OutsidePublishedRange
from squadwright.formulas.heart_rate_variability import (
    keep_normal_intervals,
    ln_rmssd_week_mean,
    pnn50,
    rmssd,
    sdnn,
    summarise_intervals,
)

LONG = "819b269d6c7bad8a74e1e48e15d9ce73d650eb10e5a7008104d1a6e0d2608f34"
SHORT = "5da9260d02171574cdb3865bf6298fe6069bfa2a4bfc8529a4dff8e524a32f76"
REPORT = "d9f7bef98233def4cd4026af1a3d4ee1098e77ae2af5006bd072ea23fc055642"


def recording(name: str, sha256: str) -> list[float]:
    path = open_data("pyhrv", f"pyhrv/files/SampleNNISeries{name}.npy", sha256)
    return [float(interval) for interval in np.load(path)]


def reported(quantity: str) -> float:
    path: Path = open_data("pyhrv", "pyhrv/files/SampleReport.txt", REPORT)
    found = re.search(rf"^{re.escape(quantity)} +; ([\d.]+)$", path.read_text(), re.MULTILINE)
    assert found, f"{quantity} is not in the report"
    return float(found[1])


def test_the_long_recording_gives_what_the_librarys_own_report_prints() -> None:
    intervals = recording("Long", LONG)
    assert len(intervals) == reported("Number of NNIs (-)") == 4684
    assert rmssd(intervals) == pytest.approx(reported("RMSSD (ms)"), abs=5e-4)
    assert sdnn(intervals) == pytest.approx(reported("SDNN (ms)"), abs=5e-4)
    assert pnn50(intervals) == pytest.approx(reported("pNN50 (%)"), abs=5e-4)


def test_dividing_the_share_by_the_intervals_gives_another_number() -> None:
    """28.565329 is what a program prints that divides 1338 by 4684, not by 4683."""
    share = pnn50(recording("Long", LONG))
    assert share == pytest.approx(100 * reported("NN50 (-)") / 4683, abs=1e-9)
    assert share * 4683 / 4684 == pytest.approx(28.565329, abs=5e-7)
    assert abs(share - 28.565329) > 0.005


def test_both_recordings_give_the_numbers_worked_out_with_numpy() -> None:
    for name, sha256, successive, spread in (
        ("Long", LONG, 60.523480, 85.357210),
        ("Short", SHORT, 101.300634, 95.690354),
    ):
        intervals = recording(name, sha256)
        assert rmssd(intervals) == pytest.approx(successive, abs=5e-7)
        assert sdnn(intervals) == pytest.approx(spread, abs=5e-7)


def test_dividing_by_the_intervals_reads_too_low() -> None:
    """16.956 is what comes out with n below the root in place of n - 1."""
    intervals = [800, 810, 790, 820, 805, 795]
    squares = np.square(np.diff(intervals)).sum()
    assert np.sqrt(squares / len(intervals)) == pytest.approx(16.956, abs=5e-4)
    assert rmssd(intervals) == pytest.approx(18.57418, abs=5e-6)


beats = st.lists(st.integers(600, 1000).map(float), min_size=3, max_size=60)


@given(beats)
def test_numbers_are_those_of_numpy_on_any_intervals(intervals: list[float]) -> None:
    changes = np.diff(intervals)
    assert rmssd(intervals) == pytest.approx(np.sqrt(np.mean(changes**2)), abs=1e-9)
    assert sdnn(intervals) == pytest.approx(np.std(intervals, ddof=1), abs=1e-9)
    assert pnn50(intervals) == pytest.approx(100 * np.mean(np.abs(changes) > 50))


@given(beats)
def test_slow_and_fast_hearts_vary_alike_by_as_many_milliseconds(intervals: list[float]) -> None:
    slower = [interval + 200 for interval in intervals]
    assert rmssd(slower) == pytest.approx(rmssd(intervals))
    assert rmssd(intervals[::-1]) == pytest.approx(rmssd(intervals))


def test_an_artefact_is_left_out_and_no_difference_is_taken_across_it() -> None:
    clean = [800.0, 810, 790, 820, 805, 795] * 10
    missed_beat = [*clean[:30], 1605.0, *clean[30:]]
    assert keep_normal_intervals(missed_beat) == [clean[:30], clean[30:]]
    found = summarise_intervals(missed_beat)
    assert (found.intervals, found.left_out) == (61, 1)
    within = np.concatenate([np.diff(clean[:30]), np.diff(clean[30:])])
    assert found.rmssd_ms == pytest.approx(np.sqrt(np.mean(within**2)))
    assert rmssd(missed_beat) > 5 * (found.rmssd_ms or 0)


def test_a_clean_recording_keeps_every_interval() -> None:
    clean = [800.0, 810, 790, 820, 805, 795]
    found = summarise_intervals(clean)
    assert (found.left_out, found.why_not) == (0, "")
    assert (found.rmssd_ms, found.sdnn_ms) == (rmssd(clean), sdnn(clean))
    assert found.pnn50_percent == 0


def test_a_recording_with_many_artefacts_or_few_beats_gives_no_number() -> None:
    noisy = [800.0, 810, 790, 820, 805, 795, 250, 810, 2400, 800, 805, 800]
    found = summarise_intervals(noisy)
    assert found.rmssd_ms is None
    assert found.why_not == "not given: 2 of 12 intervals are artefacts"
    assert "fewer than two differences" in summarise_intervals([800, 810]).why_not
    assert summarise_intervals([]).rmssd_ms is None


def test_intervals_that_are_no_heartbeat_and_weeks_of_two_days_are_refused() -> None:
    with pytest.raises(OutsidePublishedRange, match=r"intervals_ms\[1\] is 299"):
        rmssd([800, 299, 800])
    with pytest.raises(InvalidInput, match=r"days: holds 2 numbers\. Give 3 to 7 numbers"):
        ln_rmssd_week_mean([4.1, 4.2])
