"""Values as words on a page."""

from datetime import date, time

import pytest

from squadwright.web.wording import (
    capital,
    clock_text,
    count_text,
    day_text,
    percent_text,
    short_day_text,
    time_text,
)


@pytest.mark.parametrize(
    ("seconds", "text"),
    [(0, "0:00"), (960, "16:00"), (59.6, "1:00"), (-5, "-0:05"), (3600, "60:00")],
)
def test_seconds_are_read_as_a_clock(seconds: float, text: str) -> None:
    assert clock_text(seconds) == text


def test_days_and_times_are_written_out() -> None:
    assert day_text(date(2026, 3, 2)) == "Monday 2 March 2026"
    assert short_day_text(date(2026, 3, 12)) == "Thu 12 Mar"
    assert time_text(time(8, 5)) == "08:05"


@pytest.mark.parametrize(
    ("fraction", "text"),
    [(0.896, "90 %"), (0.999, "99 %"), (1.0, "100 %"), (0.0, "0 %"), (0.002, "under 1 %")],
)
def test_a_chance_is_never_rounded_to_certain(fraction: float, text: str) -> None:
    assert percent_text(fraction) == text


def test_counts_agree_with_their_word() -> None:
    assert count_text(1, "athlete") == "1 athlete"
    assert count_text(0, "athlete") == "0 athletes"
    assert count_text(2, "box", "boxes") == "2 boxes"


def test_a_capital_leaves_the_other_letters_and_no_words_as_they_are() -> None:
    assert capital("left knee of A. Ilgen") == "Left knee of A. Ilgen"
    assert capital("") == ""
