"""Charts and z of one athlete: worked examples, gaps, flat answers, nothing from today itself."""

import statistics

import numpy as np
import pandas as pd
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.stats import median_abs_deviation, zscore

from squadwright.errors import InvalidInput, OutsidePublishedRange
from squadwright.formulas.control_chart import (
    cusum_chart,
    ewma_chart,
    judge_reading,
    robust_z_against_earlier,
    z_against_earlier,
)

EARLIER = (12, 11, 13, 12, 10, 14, 12, 13, 11, 12, 12, 13, 11, 12)

# The example of a handbook of statistical methods, its readings from memory, worked out again.
READINGS = """52.0 47.0 53.0 49.3 50.1 47.0 51.0 50.1 51.2 50.5
              49.6 47.6 49.9 51.3 47.8 51.2 52.6 52.4 53.6 52.1"""
MEANS = """50.60 49.52 50.56 50.18 50.16 49.21 49.75 49.85 50.26 50.33
           50.11 49.36 49.52 50.05 49.38 49.92 50.73 51.23 51.94 51.99"""

# Montgomery and Runger, table 16-8, read: target 99, slack 1, decision 10.
TABLE_X = """102 94.8 98.3 98.4 102 98.5 99 97.7 100 98.1
             101.3 98.7 101.1 98.4 97 96.7 100.3 101.4 97.2 101"""
TABLE_HIGH = "2 0 0 0 2 0.5 0 0 0 0 1.3 0 1.1 0 0 0 0.3 1.7 0 1"
TABLE_LOW = "0 3.2 2.9 2.5 0 0 0 0.3 0 0 0 0 0 0 1 2.3 0 0 0.8 0"
TABLE_SUM = "3 -1.2 -1.9 -2.5 0.5 0 0 -1.3 -0.3 -1.2 1.1 0.8 2.9 2.3 0.3 -2 -0.7 1.7 -0.1 1.9"

# A case that alarms: readings from memory, sums worked out again.
ALARMING = """324.925 324.675 324.725 324.350 325.350 325.225 324.125 324.525 325.225 324.600
              324.625 325.150 328.325 327.250 327.825 328.500 326.675 327.775 326.875 328.350"""


def numbers(text: str) -> list[float]:
    return [float(word) for word in text.split()]


def handbook_chart() -> list[float]:
    points = ewma_chart(
        numbers(READINGS), target=50, standard_deviation=2.0539, smoothing=0.3, width=3
    )
    assert not any(point is None or point.is_outside for point in points)
    return [point.mean for point in points if point is not None]


def test_the_means_of_the_handbook_example_come_out_and_none_alarms() -> None:
    assert handbook_chart() == pytest.approx(numbers(MEANS), abs=0.005 + 1e-9)


def test_the_mean_of_a_chart_is_the_one_of_pandas_begun_on_target() -> None:
    by_pandas = pd.Series([50.0, *numbers(READINGS)]).ewm(alpha=0.3, adjust=False).mean()
    assert handbook_chart() == pytest.approx(by_pandas.tolist()[1:], abs=1e-12)


def test_the_limits_of_a_chart_open_reading_by_reading() -> None:
    """The handbook example at its first three readings and its tenth."""
    points = ewma_chart(
        numbers(READINGS), target=50, standard_deviation=2.0539, smoothing=0.3, width=3
    )
    limits = [(point.low, point.high) for point in points if point is not None]
    for place, low, high in (
        (1, 48.1515, 51.8485),
        (2, 47.7436, 52.2564),
        (3, 47.5686, 52.4314),
        (10, 47.4126, 52.5874),
    ):
        assert limits[place - 1] == pytest.approx((low, high), abs=5e-5)


def test_readings_that_fall_alarm_as_those_that_rise() -> None:
    mirrored = [650 - reading for reading in numbers(ALARMING)]
    points = cusum_chart(mirrored, target=325, slack=0.3175, decision=4.1959)
    assert [p.is_outside for p in points if p] == [False] * 13 + [True] * 7


def test_a_step_of_three_deviations_leaves_the_limits() -> None:
    points = ewma_chart(
        [50.0] * 5 + [56.2] * 3, target=50, standard_deviation=2.0539, smoothing=0.3
    )
    outside = [point is not None and point.is_outside for point in points]
    assert outside == [False] * 6 + [True] * 2


def test_a_day_without_an_answer_moves_neither_mean_nor_limits() -> None:
    with_gap = ewma_chart([52, None, 47], target=50, standard_deviation=2, smoothing=0.3)
    without = ewma_chart([52, 47], target=50, standard_deviation=2, smoothing=0.3)
    assert with_gap == [without[0], None, without[1]]
    sums = cusum_chart([102, None, 101], target=99, slack=1, decision=10)
    assert sums[1] is None
    assert sums[2] is not None
    assert sums[2].high == 3


def test_the_sums_of_the_textbook_table_come_out_and_none_alarms() -> None:
    readings = numbers(TABLE_X)
    points = cusum_chart(readings, target=99, slack=1, decision=10)
    known = [point for point in points if point is not None]
    assert [point.high for point in known] == pytest.approx(numbers(TABLE_HIGH), abs=1e-9)
    assert [point.low for point in known] == pytest.approx(numbers(TABLE_LOW), abs=1e-9)
    assert not any(point.is_outside for point in known)


def test_without_slack_high_less_low_follows_the_plain_sum_of_the_table() -> None:
    """The plain sum is above the lowest it has been by as much as the high sum says."""
    readings = numbers(TABLE_X)
    plain = np.array(numbers(TABLE_SUM))
    assert np.cumsum(np.array(readings) - 99) == pytest.approx(plain, abs=1e-9)
    points = cusum_chart(readings, target=99, slack=0, decision=10)
    lowest = np.minimum.accumulate(np.minimum(plain, 0))
    highest = np.maximum.accumulate(np.maximum(plain, 0))
    assert [p.high for p in points if p] == pytest.approx((plain - lowest).tolist(), abs=1e-9)
    assert [p.low for p in points if p] == pytest.approx((highest - plain).tolist(), abs=1e-9)


def test_the_case_that_alarms_does_so_at_its_fourteenth_reading() -> None:
    points = cusum_chart(numbers(ALARMING), target=325, slack=0.3175, decision=4.1959)
    known = [point for point in points if point is not None]
    assert next(place for place, p in enumerate(known, 1) if p.high > 4.1959) == 14
    assert (known[12].high, known[13].high) == (pytest.approx(3.0075), pytest.approx(4.94))
    assert known[19].high == pytest.approx(19.035)
    assert max(point.low for point in known) < 4.1959
    assert [point.is_outside for point in known] == [False] * 13 + [True] * 7


answers = st.lists(st.integers(0, 60).map(lambda n: n / 2), min_size=14, max_size=40)


@given(answers.filter(lambda all_of_them: len(set(all_of_them)) > 1), st.integers(-10, 40))
def test_z_is_scipys_z_of_the_reading_among_its_earlier_days(
    earlier: list[float], value: int
) -> None:
    spread = np.std(earlier, ddof=1)
    by_scipy = zscore(np.array(earlier), ddof=1)[0] + (value - earlier[0]) / spread
    assert z_against_earlier(value, earlier) == pytest.approx(by_scipy, abs=1e-9)


@given(answers, st.integers(-10, 40))
def test_robust_z_uses_the_median_distance_of_scipy(earlier: list[float], value: int) -> None:
    spread = max(1.4826 * median_abs_deviation(earlier), 0.5)
    expected = (value - statistics.median(earlier)) / spread
    assert robust_z_against_earlier(value, earlier, 0.5) == pytest.approx(expected)


def test_one_odd_earlier_day_moves_the_plain_z_and_hardly_the_robust_one() -> None:
    odd = (*EARLIER[:-1], 40)
    assert z_against_earlier(16, odd) < z_against_earlier(16, EARLIER) / 5
    assert robust_z_against_earlier(16, odd) == pytest.approx(
        robust_z_against_earlier(16, EARLIER), rel=0.2
    )


def test_flat_answers_need_a_floor_and_then_do_not_make_every_change_unusual() -> None:
    with pytest.raises(OutsidePublishedRange, match="earlier readings all alike; give a floor"):
        z_against_earlier(4, [3] * 14)
    assert z_against_earlier(4, [3] * 14, 0.5) == 2
    small = judge_reading(3.9, [3] * 14, z_limit=1.5, floor=0.5, least_change=1)
    assert (small.z, small.is_unusual) == (pytest.approx(1.8), False)
    assert judge_reading(4, [3] * 14, z_limit=1.5, floor=0.5, least_change=1).is_unusual


def test_a_reading_is_judged_by_both_z_and_by_its_change() -> None:
    high = judge_reading(16, EARLIER, z_limit=2.5, floor=0.5, least_change=2)
    assert (high.change, high.is_unusual) == (4, True)
    assert (high.z, high.robust_z) == (pytest.approx(3.854496), pytest.approx(2.697963))
    assert not judge_reading(16, EARLIER, z_limit=3, floor=0.5, least_change=2).is_unusual
    assert not judge_reading(16, EARLIER, z_limit=2.5, floor=0.5, least_change=5).is_unusual
    assert judge_reading(8, EARLIER, z_limit=2.5, floor=0.5, least_change=2).is_unusual


def test_fewer_than_fourteen_answers_judge_nothing() -> None:
    few = judge_reading(16, [*EARLIER[:13], None], z_limit=2, floor=0.5, least_change=1)
    assert (few.z, few.is_unusual) == (None, False)
    assert few.why_not == "not given: 13 earlier days, fewer than 14"
    with pytest.raises(InvalidInput, match="earlier: holds 13 numbers"):
        z_against_earlier(16, EARLIER[:13])


def test_a_chart_without_spread_or_height_is_refused() -> None:
    with pytest.raises(OutsidePublishedRange, match="standard_deviation is 0"):
        ewma_chart([50], target=50, standard_deviation=0, smoothing=0.3)
    with pytest.raises(OutsidePublishedRange, match="decision is 0"):
        cusum_chart([50], target=50, slack=1, decision=0)
    with pytest.raises(OutsidePublishedRange, match="floor is 0"):
        judge_reading(4, [3] * 14, z_limit=2, floor=0, least_change=1)
