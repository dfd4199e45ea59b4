"""A camp looked back on, by hand: how much the last week took off, and what is too few to tell."""

from datetime import date, timedelta

import pytest

from squadwright.model.athlete import Event
from squadwright.planning.camp_review import camps, place_among, share, taper_of

EVENT = date(2026, 3, 29)


def loads(before: float | None, last: float | None) -> dict[date, float | None]:
    return {EVENT - timedelta(days=n): (last if n <= 7 else before) for n in range(1, 29)}


@pytest.mark.parametrize(
    ("last", "cut", "lies"),
    [
        (200, 0.5, "within"),
        (300, 0.25, "less than"),
        (100, 0.75, "more than"),
        (440, -0.1, "less than"),
        (236, 0.41, "within"),
        (240, 0.40, "less than"),
        (160, 0.60, "within"),
        (156, 0.61, "more than"),
    ],
)
def test_the_taper_is_the_mean_day_of_a_week_against_that_of_three(
    last: float, cut: float, lies: str
) -> None:
    """21 days of 400 and 7 of 200 are half; 41 to 60 % is the band of Bosquet 2007."""
    found = taper_of(loads(400, last), EVENT)
    assert found.cut == pytest.approx(cut)
    assert (found.lies, found.known_days) == (lies, 28)


def test_a_day_that_is_not_known_is_no_day_of_rest() -> None:
    days = loads(400, 200)
    days[EVENT - timedelta(days=3)] = None
    assert taper_of(days, EVENT).cut == pytest.approx(0.5)
    days[EVENT - timedelta(days=4)] = None
    found = taper_of(days, EVENT)
    assert (found.cut, found.lies, found.known_days) == (None, "", 26)
    assert taper_of({}, EVENT).cut is None
    assert taper_of(loads(0, 0), EVENT).cut is None


@pytest.mark.parametrize(
    ("known_last", "known_before", "is_told"),
    [(6, 17, True), (5, 21, False), (7, 16, False), (7, 17, True)],
)
def test_four_fifths_of_the_days_must_be_known_in_both_stretches(
    known_last: int, known_before: int, is_told: bool
) -> None:
    """80 % of 7 days are 5.6 and of 21 days 16.8."""
    days: dict[date, float | None] = {
        EVENT - timedelta(days=n): 100.0
        for n in (*range(1, known_last + 1), *range(8, known_before + 8))
    }
    found = taper_of({**days, EVENT: 900.0, EVENT - timedelta(days=29): 900.0}, EVENT)
    assert (found.cut is not None) is is_told
    assert found.known_days == known_last + known_before
    if is_told:
        assert found.cut == 0.0


def test_two_events_of_one_day_are_two_camps_of_the_same_days() -> None:
    same = (Event("a", "a", EVENT), Event("b", "b", EVENT))
    first, second = camps(same)
    assert (first.event.id, second.event.id) == ("a", "b")
    assert (first.first, first.last) == (second.first, second.last)


def test_a_camp_begins_after_the_event_before_and_is_twelve_weeks_at_the_most() -> None:
    def event(name: str, days: int) -> Event:
        return Event(name, name, EVENT + timedelta(days=days))

    first, second, third = camps([event("b", 20), event("c", 200), event("a", 0)])
    assert (first.event.id, first.first) == ("a", EVENT - timedelta(days=84))
    assert (second.first, second.last) == (EVENT + timedelta(days=1), EVENT + timedelta(days=19))
    assert third.first == EVENT + timedelta(days=116)
    assert camps(()) == ()


@pytest.mark.parametrize(
    ("value", "earlier", "told"),
    [
        (None, [0.5, 0.6, 0.7], "not known"),
        (0.5, [0.4, 0.6], "too few to tell (2 earlier)"),
        (0.5, [0.4, None, 0.6], "too few to tell (2 earlier)"),
        (0.8, [0.5, 0.6, 0.7], "the highest of 4 camps"),
        (0.4, [0.5, 0.6, 0.7], "the lowest of 4 camps"),
        (0.6, [0.5, 0.6, 0.7], "between those of 3"),
    ],
)
def test_below_three_earlier_camps_nothing_is_said(
    value: float | None, earlier: list[float | None], told: str
) -> None:
    assert told in place_among(value, earlier)


@pytest.mark.parametrize(
    ("done", "found"), [((3, 4), 0.75), ((0, 5), 0.0), ((5, 5), 1.0), ((0, 0), None)]
)
def test_a_share_is_what_was_done_of_what_was_planned(
    done: tuple[int, int], found: float | None
) -> None:
    assert share(done) == found
