"""Numbers, masses, counts, dates and lists read as words."""

from datetime import date

import pytest

from squadwright.units import kilograms, pounds
from squadwright.words import (
    capital,
    counted,
    day_and_month,
    full_date,
    listed,
    mass_in_both,
    mass_words,
    plain_number,
    pound_text,
    weekday_and_day,
    without_zeros,
)


@pytest.mark.parametrize(
    ("number", "words"), [("100", "100"), ("17.50", "17.5"), ("10.00", "10"), ("0.0", "0")]
)
def test_only_zeros_of_decimals_are_left_out(number: str, words: str) -> None:
    assert without_zeros(number) == words
    assert plain_number(float(number), 2) == words


def test_a_mass_in_pounds_is_told_in_kilograms_too() -> None:
    # 1 lb is 0.45359237 kg by the agreement of 1959: 45 lb is 20.4117 kg, 184 lb is 83.461 kg.
    assert mass_words(pounds(45), 2) == "45 lb (20.41 kg)"
    assert mass_words(kilograms(20)) == "20 kg"
    assert mass_in_both(pounds(184)) == "184 lb (83.5 kg)"
    assert mass_in_both(kilograms("86.8")) == "86.8 kg (191.4 lb)"
    assert pound_text(20.41165665) == "45 lb"


def test_a_row_a_count_and_the_beginning_of_a_sentence() -> None:
    assert [listed(row) for row in (["a"], ["a", "b"], ["a", "b", "c"])] == [
        "a",
        "a and b",
        "a, b and c",
    ]
    assert [counted(1, "box", "boxes"), counted(0, "bar")] == ["1 box", "0 bars"]
    assert [capital(""), capital("iT is")] == ["", "IT is"]


def test_a_date_is_told_without_a_leading_zero() -> None:
    # 2 March 2026 is a Monday by the calendar of the standard library.
    day = date(2026, 3, 2)
    assert [full_date(day), weekday_and_day(day)] == ["Monday 2 March 2026", "Mon 2 Mar"]
    assert day_and_month(day) == "2 Mar"
