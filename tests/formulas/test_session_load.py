"""Load of sessions and weeks: ends of ranges, weeks without spread, and gaps that stay gaps."""

import math
from datetime import date

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from running_diary import minutes_by_day, minutes_up_to, with_gap_as_rest
from squadwright.errors import InvalidInput, OutsidePublishedRange
from squadwright.formulas.session_load import (
    ALL_ALIKE,
    POPULATION,
    SAMPLE,
    load_of_day,
    monotony_foster,
    session_load_foster,
    strain_foster,
    summarise_week,
    week_load,
)

WEEK = (0, 420, 300, 540, 0, 600, 240)
"""A made-up week whose sample standard deviation is 240 exactly."""
WITH_GAPS = (300, None, 450, None, 600, 0, 240)

weeks = st.lists(st.integers(0, 1500).map(float), min_size=7, max_size=7)


def test_two_sessions_add_up_to_the_load_of_their_day() -> None:
    loads = [session_load_foster(5, 60), session_load_foster(4, 75)]
    assert load_of_day(loads) == 600


def test_effort_ends_at_ten_and_a_session_has_a_length() -> None:
    assert session_load_foster(10, 1440) == 14_400
    assert session_load_foster(0, 30) == 0
    with pytest.raises(OutsidePublishedRange, match=r"effort is 10\.5"):
        session_load_foster(10.5, 60)
    with pytest.raises(OutsidePublishedRange, match="duration_min is 0"):
        session_load_foster(5, 0)


@given(weeks)
def test_strain_is_the_square_of_the_week_over_seven_deviations(days: list[float]) -> None:
    summary = summarise_week(days)
    if len(set(days)) == 1:
        assert (summary.monotony, summary.strain, summary.why_not) == (None, None, ALL_ALIKE)
        return
    assert summary.strain == pytest.approx(sum(days) ** 2 / (7 * np.std(days, ddof=1)), rel=1e-12)
    assert summary.monotony == pytest.approx(np.mean(days) / np.std(days, ddof=1), rel=1e-12)


@given(weeks.filter(lambda days: len(set(days)) > 1))
def test_the_two_deviations_differ_by_the_root_of_six_sevenths(days: list[float]) -> None:
    share = monotony_foster(days, SAMPLE) / monotony_foster(days, POPULATION)
    assert share == pytest.approx(0.9258201, abs=1e-7)
    assert strain_foster(days, SAMPLE) <= strain_foster(days, POPULATION)


@given(st.floats(1, 5000), st.integers(0, 6))
def test_one_session_in_the_week_has_the_same_monotony_whatever_its_size(
    load: float, place: int
) -> None:
    days = [load if day == place else 0.0 for day in range(7)]
    assert monotony_foster(days) == pytest.approx(1 / math.sqrt(7))
    assert monotony_foster(days, POPULATION) == pytest.approx(1 / math.sqrt(6))


@pytest.mark.parametrize("load", [0, 300, 0.1, 87.183])
def test_seven_days_alike_have_no_monotony_and_no_cap(load: float) -> None:
    with pytest.raises(OutsidePublishedRange, match="all seven days are alike"):
        monotony_foster([load] * 7)
    summary = summarise_week([load] * 7)
    assert (summary.monotony, summary.strain) == (None, None)
    assert summary.why_not == "not defined: all seven days are alike"
    assert summary.load == pytest.approx(7 * load)


def test_a_week_with_unknown_days_has_no_monotony() -> None:
    summary = summarise_week(WITH_GAPS)
    assert (summary.load, summary.known_days, summary.filled_days) == (1590, 5, 0)
    assert (summary.monotony, summary.strain) == (None, None)
    assert summary.why_not == "not given: 5 of 7 days are known"


def test_a_filled_week_says_how_many_days_were_filled() -> None:
    """Worked out by hand: the mean of the five known days is 318."""
    summary = summarise_week(WITH_GAPS, fill=318)
    assert (summary.load, summary.known_days, summary.filled_days) == (2226, 5, 2)
    assert summary.monotony == pytest.approx(monotony_foster([300, 318, 450, 318, 600, 0, 240]))


def test_a_whole_week_is_untouched_by_a_fill() -> None:
    assert summarise_week(WEEK, fill=999) == summarise_week(WEEK)
    assert summarise_week(WEEK).deviation == SAMPLE
    assert summarise_week(WEEK, deviation=POPULATION).deviation == POPULATION


def test_a_day_without_sessions_is_rest_only_once_somebody_says_so() -> None:
    assert load_of_day([]) is None
    assert load_of_day([], is_rest_confirmed=True) == 0
    assert load_of_day([300, None], is_rest_confirmed=True) is None


def test_weeks_of_six_days_and_unknown_words_are_refused() -> None:
    with pytest.raises(InvalidInput, match=r"day_loads: holds 6 numbers\. Give 7 numbers"):
        week_load(WEEK[:6])
    with pytest.raises(InvalidInput, match="days: holds 8 days"):
        summarise_week([*WEEK, None])
    with pytest.raises(InvalidInput, match="deviation: 'n' is not known"):
        summarise_week(WEEK, deviation="n")


@pytest.mark.parametrize(
    ("effort", "hours", "load"), [(5.5, 3.9, 1287), (5.6, 5.3, 1791)], ids=["least", "most"]
)
def test_weeks_of_fighters_come_from_efforts_a_little_above_hard(
    effort: float, hours: float, load: float
) -> None:
    """Ends of the ranges in the abstract of Kirk 2021, mixed martial arts, taken as matching."""
    half_a_tenth = 0.05 * hours * 60
    assert session_load_foster(effort, hours * 60) == pytest.approx(load, abs=half_a_tenth)


def test_the_runners_diary_is_read_with_its_double_days_and_its_gap() -> None:
    days = minutes_by_day()
    assert len(days) == 1825
    assert days[date(2005, 8, 14)] == pytest.approx(87.183 + 41.100)
    assert [day for day, minutes in days.items() if minutes is None] == [date(2003, 6, 21)]
    assert with_gap_as_rest(list(days.values())).count(0) == 701


def test_every_week_that_holds_the_session_without_minutes_is_incomplete() -> None:
    days = list(minutes_by_day().values())
    weeks_of_diary = [summarise_week(days[end - 7 : end]) for end in range(7, len(days) + 1)]
    assert sum(week.known_days == 6 for week in weeks_of_diary) == 7
    assert all(week.monotony is None for week in weeks_of_diary if week.known_days == 6)


def test_the_runners_weeks_without_spread_are_as_many_as_numpy_finds() -> None:
    """159, with the gap as 0; counted outside the project."""
    days = with_gap_as_rest(list(minutes_by_day().values()))
    alike = [
        summarise_week(days[end - 7 : end]).why_not == ALL_ALIKE for end in range(7, len(days) + 1)
    ]
    assert sum(alike) == 159


@pytest.mark.parametrize(
    ("day", "load", "monotony", "strain"),
    [
        (date(2002, 6, 30), 231.649, 1.345388, 311.6578),
        (date(2003, 12, 14), 311.249, 3.808611, 1185.4263),
    ],
)
def test_two_weeks_of_the_runner_match_numbers_worked_out_with_pandas(
    day: date, load: float, monotony: float, strain: float
) -> None:
    week = summarise_week(minutes_up_to(day)[-7:])
    assert week.load == pytest.approx(load, abs=5e-4)
    assert week.monotony == pytest.approx(monotony, abs=5e-7)
    assert week.strain == pytest.approx(strain, abs=5e-5)
