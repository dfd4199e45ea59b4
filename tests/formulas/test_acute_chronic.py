"""Recent against usual load: against pandas and SciPy, on a real diary, hidden where it must."""

from datetime import date

import numpy as np
import pandas as pd
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.signal import lfilter

from running_diary import minutes_by_day, minutes_up_to, with_gap_as_rest
from squadwright.errors import InvalidInput, OutsidePublishedRange
from squadwright.formulas.acute_chronic import (
    LIMITS,
    WARNING,
    compare_recent_load,
    exponential_mean_load,
    exponential_means,
    load_ratio_coupled,
    load_ratio_coupled_from_uncoupled,
    load_ratio_uncoupled,
    smoothing_fraction,
)
from squadwright.formulas.sources import find_source

WEEK = [0, 420, 300, 540, 0, 600, 240]
SERIES = {
    "level": ([400] * 28, 1.0),
    "up by half": ([300] * 21 + [450] * 7, 1.197576),
    "the same week": (WEEK * 4, 1.207419),
    "a heavy week": (WEEK * 3 + [0, 520, 420, 640, 300, 700, 320], 1.370091),
    "a light week": (WEEK * 3 + [0, 210, 150, 270, 0, 0, 0], 0.537601),
    "five days": ([100, 200, 0, 300, 150], 1.264128),
}
"""Made-up days with the ratio of the exponential means on the last, worked out by hand."""

loads = st.lists(st.integers(0, 1500).map(float), min_size=28, max_size=28)
EVERY = [pytest.param(*case, id=name) for name, case in SERIES.items()]


@pytest.mark.parametrize(("days", "ratio"), EVERY)
@pytest.mark.parametrize("span_d", [7, 28, 42])
def test_exponential_means_are_those_of_pandas_and_scipy(
    days: list[float], ratio: float, span_d: int
) -> None:
    ours = exponential_means(days, span_d)
    share = smoothing_fraction(span_d)
    by_pandas = pd.Series(days, dtype=float).ewm(span=span_d, adjust=False).mean()
    by_scipy, _ = lfilter([share], [1, share - 1], days, zi=[(1 - share) * days[0]])
    assert ours == pytest.approx(by_pandas.tolist(), abs=1e-9)
    assert ours == pytest.approx(by_scipy.tolist(), abs=1e-9)


@pytest.mark.parametrize(("days", "ratio"), EVERY)
def test_the_ratio_of_exponential_means_matches_the_worked_series(
    days: list[float], ratio: float
) -> None:
    """The same week over and over reads 1.21, not 1: the first day is rest, and weekdays differ."""
    found = exponential_mean_load(days, 7) / exponential_mean_load(days, 28)
    assert found == pytest.approx(ratio, abs=5e-7)


def test_dividing_by_the_weights_so_far_is_another_filter() -> None:
    days = with_gap_as_rest(minutes_up_to(date(2002, 1, 10)))
    assert exponential_mean_load(days, 7) == pytest.approx(32.700309, abs=5e-7)
    other = pd.Series(days).ewm(span=7).mean().iloc[-1]
    assert other == pytest.approx(32.353204, abs=5e-7)


@pytest.mark.parametrize(
    ("day", "fast", "slow", "coupled", "uncoupled"),
    [
        (date(2002, 6, 30), 37.829836, 35.992302, 0.944832, 0.927771),
        (date(2003, 12, 14), 40.963617, 37.169353, 1.230499, 1.332911),
    ],
)
def test_the_runners_means_and_ratios_match_numbers_worked_out_outside(
    day: date, fast: float, slow: float, coupled: float, uncoupled: float
) -> None:
    """Worked out with pandas, its unknown day as 0."""
    days = with_gap_as_rest(minutes_up_to(day))
    assert exponential_mean_load(days, 7) == pytest.approx(fast, abs=5e-7)
    assert exponential_mean_load(days, 28) == pytest.approx(slow, abs=5e-7)
    assert load_ratio_coupled(days[-28:]) == pytest.approx(coupled, abs=5e-7)
    assert load_ratio_uncoupled(days[-28:]) == pytest.approx(uncoupled, abs=5e-7)


def test_both_ratios_are_linked_in_every_window_of_the_diary() -> None:
    days = with_gap_as_rest(list(minutes_by_day().values()))
    windows = [days[end - 28 : end] for end in range(28, len(days) + 1)]
    linked = [window for window in windows if any(window[:-7])]
    assert len(linked) > 1600
    for window in linked:
        coupled = load_ratio_coupled(window)
        by_link = load_ratio_coupled_from_uncoupled(load_ratio_uncoupled(window))
        assert coupled == pytest.approx(by_link, abs=1e-12)
        assert coupled < 4


@given(loads.filter(lambda days: any(days[:-7])))
def test_the_coupled_ratio_never_reaches_four_once_there_was_load_before(
    days: list[float],
) -> None:
    assert load_ratio_coupled(days) < 4
    assert load_ratio_coupled(days) == pytest.approx(
        load_ratio_coupled_from_uncoupled(load_ratio_uncoupled(days))
    )


@given(loads)
def test_an_exponential_mean_lies_between_the_least_and_the_most(days: list[float]) -> None:
    slack = 1e-9 * max(days)
    assert min(days) - slack <= exponential_mean_load(days, 7) <= max(days) + slack


def test_a_mean_begun_at_its_long_term_level_stays_near_it() -> None:
    """A prior mean takes out what the first day does; what weekdays do stays."""
    level = float(np.mean(WEEK))
    seeded = exponential_means(WEEK * 4, 28, seed=level)[-1]
    assert seeded is not None
    assert abs(seeded - level) < abs(exponential_mean_load(WEEK * 4, 28) - level)


def test_an_unknown_day_leaves_the_mean_where_it_was() -> None:
    assert exponential_means([None, 100, None, 200], 7) == [None, 100, 100, 125]


def test_ratios_are_hidden_for_the_first_28_days() -> None:
    hidden = compare_recent_load(WEEK * 4)
    assert (hidden.coupled, hidden.uncoupled, hidden.exponential) == (None, None, None)
    assert hidden.why_not == "hidden for the first 28 days: this is day 28"
    shown = compare_recent_load([300, *WEEK * 4])
    assert (shown.coupled, shown.uncoupled, shown.why_not) == (1, 1, "")
    assert shown.exponential is not None


def test_recent_and_earlier_load_stand_beside_their_ratio() -> None:
    found = compare_recent_load([300] * 22 + [450] * 7)
    assert (found.recent_mean, found.earlier_mean) == (450, 300)
    assert (found.coupled, found.uncoupled) == (pytest.approx(4 / 3), 1.5)


def test_days_before_the_last_28_count_in_the_exponential_means_only() -> None:
    long_ago = compare_recent_load([900] * 30 + [300] * 21 + [450] * 7)
    assert (long_ago.earlier_mean, long_ago.uncoupled) == (300, 1.5)
    assert long_ago.coupled == pytest.approx(4 / 3)
    never = compare_recent_load([0] * 30 + [300] * 21 + [450] * 7)
    assert never.exponential is not None
    assert long_ago.exponential is not None
    assert long_ago.exponential < never.exponential


@pytest.mark.parametrize(
    ("gaps_now", "gaps_before", "is_given"),
    [(1, 4, True), (2, 0, False), (1, 5, False), (0, 5, True), (0, 6, False)],
)
def test_a_ratio_needs_four_days_in_five(gaps_now: int, gaps_before: int, is_given: bool) -> None:
    """80 % of 7 days is 6, of 28 days 23."""
    before: list[float | None] = [300.0] * (22 - gaps_before) + [None] * gaps_before
    now: list[float | None] = [450.0] * (7 - gaps_now) + [None] * gaps_now
    found = compare_recent_load(before + now)
    assert (found.coupled is not None) is is_given
    assert (found.exponential is not None) is is_given
    assert ("fewer than 80 %" in found.why_not) is not is_given
    assert found.known_recent_days == 7 - gaps_now
    assert found.known_usual_days == 28 - gaps_now - gaps_before


def test_a_return_after_four_weeks_without_load_has_no_uncoupled_ratio() -> None:
    back = compare_recent_load([0.0] * 28 + [300.0])
    assert (back.coupled, back.uncoupled) == (4, None)
    assert back.why_not == "not defined: no load in the three weeks before"
    nothing = compare_recent_load([0.0] * 40)
    assert (nothing.coupled, nothing.uncoupled, nothing.exponential) == (None, None, None)


def test_the_warning_goes_with_every_comparison_and_each_limit_has_a_source() -> None:
    assert WARNING == (
        "Describes how this week compares with recent weeks. It does not predict injury."
    )
    assert compare_recent_load(WEEK).warning == compare_recent_load(WEEK * 5).warning == WARNING
    for sentence, key in LIMITS:
        assert sentence.endswith(".")
        assert find_source(key)


def test_windows_of_other_lengths_and_spans_are_refused() -> None:
    with pytest.raises(InvalidInput, match=r"day_loads: holds 27 numbers\. Give 28 numbers"):
        load_ratio_coupled([300] * 27)
    with pytest.raises(InvalidInput, match="holds 29 numbers"):
        load_ratio_uncoupled([300] * 29)
    with pytest.raises(OutsidePublishedRange, match="span_d is 1"):
        exponential_means([300], 1)
    with pytest.raises(InvalidInput, match="day_loads: holds 0 numbers"):
        exponential_mean_load([], 7)
