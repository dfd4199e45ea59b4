"""Two events within 8 days: what each day is for, by hand; common practice, no source."""

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from squadwright.model.athlete import Event, Priority
from squadwright.planning.close_events import (
    Peak,
    close_pairs,
    days_between,
    power_day,
    rounds_left,
)

DAY = date(2026, 3, 14)


def event(name: str, after: int) -> Event:
    return Event(name, name, DAY + timedelta(days=after))


def test_days_12_and_20_of_the_demo_club() -> None:
    """Recover on days 1 and 2, one touch of power, then taper, travel and scales."""
    days = days_between(event("first", 0), event("second", 8))
    assert [each.name for each in days] == [
        *("first", "Recover", "Recover", "Power", "Easy"),
        *("Taper, travel", "Taper, travel", "Taper, travel", "second"),
    ]
    [power] = [each for each in days if each.is_power]
    assert (days[-1].day - power.day).days >= 3


@given(st.integers(1, 8))
def test_one_touch_of_power_at_the_most_and_three_days_clear_of_both(apart: int) -> None:
    days = days_between(event("first", 0), event("second", apart))
    assert len(days) == apart + 1
    power = [each.day for each in days if each.is_power]
    found = power_day(DAY, DAY + timedelta(days=apart))
    assert power == ([] if found is None else [found])
    assert (found is None) == (apart < 6)
    assert all((day - DAY).days >= 3 and apart - (day - DAY).days >= 3 for day in power)


@pytest.mark.parametrize(("written", "left"), [(1, 1), (2, 1), (3, 1), (4, 2), (5, 2), (6, 3)])
def test_rounds_are_cut_by_41_to_60_per_cent_where_whole_rounds_allow(
    written: int, left: int
) -> None:
    """The band of Bosquet 2007 (Med Sci Sports Exerc 39:1358-1365): 4 rounds become 2."""
    found = rounds_left(written)
    assert found.left == left
    assert found.is_within == (0.41 <= round(1 - left / written, 2) <= 0.60)


@given(st.integers(4, 60))
def test_from_four_rounds_on_there_is_always_a_cut_within_the_band(written: int) -> None:
    assert rounds_left(written).is_within


def test_pairs_are_those_within_eight_days() -> None:
    events = [event("d", 30), event("a", 0), event("b", 8), event("c", 17), event("e", 30)]
    assert [(first.id, second.id) for first, second in close_pairs(events)] == [("a", "b")]


def test_the_one_he_peaks_for_is_the_a_event() -> None:
    assert Peak.SECOND.priorities() == (Priority.B, Priority.A)
    assert Peak.FIRST.priorities() == (Priority.A, Priority.B)
    assert Peak.BOTH.priorities() == (Priority.A, Priority.A)
