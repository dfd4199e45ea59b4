"""A squad typed one athlete a line: read forgivingly, every guess said, the young kept young."""

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from squadwright.demo import demo_club
from squadwright.exchange.squad_lines import EXAMPLE, SquadLine, athlete_of, read_squad
from squadwright.model.athlete import Level, Sex
from squadwright.units import MassUnit, kilograms, pounds

TODAY = date(2026, 3, 2)


def one(text: str, unit: MassUnit = MassUnit.KILOGRAM) -> SquadLine:
    (line,) = read_squad(text, today=TODAY, unit=unit)
    return line


def test_the_example_on_the_page_is_read_as_it_says() -> None:
    line = one(EXAMPLE)
    assert (line.name, line.sex, line.level) == ("Ann Example", Sex.FEMALE, Level.NOVICE)
    assert (line.body_mass, line.press) == (kilograms("58.5"), kilograms("32.5"))
    assert (line.doubts, line.wrong) == ((), ())


@pytest.mark.parametrize(
    "text",
    [
        "Ann Vale, 2003-04-28, f, intermediate, 58.5, 32.5",
        "Ann Vale;28.4.2003;female;int;58.5 kg;press 32.5",
        "Ann Vale\t28/4/2003\tW\tINTER\t58.5kg\t32.5x5",
        "1. Ann Vale, f, i, 28 Apr 2003, 58.5, 32.5 x 5",
        "2)  Ann  Vale , girl , i , April 28 2003 , 58.5 , press 32.5 kg for 5 ,",
        "Ann Vale f i 2003-04-28 58.5 kg 32.5x5",
    ],
)
def test_one_athlete_written_in_many_ways_is_the_same(text: str) -> None:
    line = one(text)
    assert line.wrong == ()
    assert (line.name, line.birth_date) == ("Ann Vale", date(2003, 4, 28))
    assert (line.sex, line.level) == (Sex.FEMALE, Level.INTERMEDIATE)
    assert (line.body_mass, line.press, line.repetitions) == (
        kilograms("58.5"),
        kilograms("32.5"),
        5,
    )


@pytest.mark.parametrize("year", range(2004, 2014))
def test_with_only_a_year_he_is_the_youngest_he_can_be(year: int) -> None:
    line = one(f"Ann Vale, {year}, f")
    assert line.birth_date == date(year, 12, 31)
    assert line.born_from == "year"
    # Born in 2008 he may be 17 or 18 on that day, and counts as a minor.
    born = athlete_of(line, "a", sport="judo", today=TODAY)
    assert born.is_minor_on(TODAY) is (year >= 2008)


@pytest.mark.parametrize("words", ["age 17", "17 years", "17y", "aged 17", "17 years old"])
def test_with_only_an_age_he_is_the_youngest_he_can_be(words: str) -> None:
    line = one(f"Ann Vale, {words}, f")
    assert (line.birth_date, line.born_from) == (date(2009, 3, 2), "age")
    born = athlete_of(line, "a", sport="judo", today=TODAY)
    assert born.age_on(TODAY) == 17
    assert born.age_on(TODAY - timedelta(days=1)) == 16


def test_a_date_that_may_be_two_days_is_the_later_one_and_in_doubt() -> None:
    line = one("Ann Vale, 4/3/2008, f")
    assert line.birth_date == date(2008, 4, 3)
    assert line.doubts == ("4/3/2008 may be two days: taken as 3 April 2008, the younger",)
    assert one("Ann Vale, 13/3/2008, f").birth_date == date(2008, 3, 13)
    assert one("Ann Vale, 3/13/2008, f").birth_date == date(2008, 3, 13)
    assert one("Ann Vale, 3/3/2008, f").doubts == ()


def test_pounds_are_kept_as_typed() -> None:
    line = one("Ann Vale, 2003, f, n, 184 lb, 95 lbs")
    assert (line.body_mass, line.press) == (pounds(184), pounds(95))
    line = one("Ann Vale, 2003, f, n, 184, 95", MassUnit.POUND)
    assert (line.body_mass, line.press) == (pounds(184), pounds(95))


def test_a_mass_that_looks_like_pounds_is_in_doubt_and_one_with_its_unit_is_not() -> None:
    assert "If pounds are meant, write 170 lb" in one("Ann Vale, 2003, f, n, 170").doubts[0]
    assert one("Ann Vale, 2003, f, n, 170 kg").doubts == ()
    line = one("Ann Vale, 2003, f, n, 62", MassUnit.POUND)
    assert "If kilograms are meant, write 62 kg" in line.doubts[0]


def test_an_empty_place_for_the_mass_leaves_the_next_number_to_the_press() -> None:
    line = one("Ann Vale, 2003, f, n, -, 30")
    assert (line.body_mass, line.press) == (None, kilograms(30))


def test_a_press_beyond_belief_is_in_doubt() -> None:
    assert "times a body mass of 50.0 kg" in one("Ann Vale, 2003, f, n, 50, 90").doubts[0]


def test_what_is_missing_is_taken_carefully_and_said() -> None:
    line = one("Ann Vale, 2003, f")
    assert line.level is None
    assert athlete_of(line, "a", sport="judo", today=TODAY).level is Level.NOVICE
    assert "no level: taken as novice" in line.notes
    assert "no body mass" in line.notes
    assert any(note.startswith("no press") for note in line.notes)


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("Ann Vale, 2003", "sex is missing"),
        ("Ann Vale, f", "the birth year is missing"),
        ("Ann Vale, 2003-02-30, f", "2003-02-30 is not a date"),
        ("Ann Vale, 3.4.03, f", "write the year in full"),
        ("Ann Vale, 2025, f", "gives an age of 0 years"),
        ("Ann Vale, 1903, f", "gives an age of"),
        ("Ann Vale, 2003, 2004, f", "birth date stands twice"),
        ("Ann Vale, 2003, f, m", "sex stands twice"),
        ("Ann Vale, 2003, f, purple", "“purple” is not understood"),
        ("Ann Vale, 2003, f, n, 58,9, 32,5", "one number too many"),
        ("Ann Vale, 2003, f, n, 5", "outside 20 to 300 kg"),
        ("Ann Vale, 2003, f, n, 58, 30x40", "40 repetitions of the press are outside 1 to 12"),
        (", 2003, f", "the name is missing"),
    ],
)
def test_what_cannot_be_used_is_told(text: str, told: str) -> None:
    assert any(told in words for words in one(text).wrong), one(text)


def test_a_name_that_is_too_long_is_told_and_not_cut_in_silence() -> None:
    assert one(f"{'A' * 120}, 2003, f").wrong == ()
    line = one(f"{'A' * 121}, 2003, f")
    assert line.wrong == ("the name has 121 characters, at most 120 fit; shorten it",)


def test_two_of_one_name_and_one_who_is_there_already_are_in_doubt() -> None:
    club = demo_club(TODAY)
    first, second, third = read_squad(
        "Iva Brandt, 2001, f\nBrandt Iva, 2003, f\nMarisol Quenaya, 2009, f",
        today=TODAY,
        unit=MassUnit.KILOGRAM,
        known=club.athletes,
    )
    assert first.doubts == ()
    assert second.doubts == ("Iva Brandt, born 2001, is there already. Another person?",)
    assert third.doubts[0].startswith("Marisol Quenaya, born 200")


def test_heads_and_empty_lines_are_passed_over_and_lines_keep_their_number() -> None:
    lines = read_squad(
        "Name, born, sex\n\nAnn Vale, 2003, f\n  \nBen Vale, 2001, m\n",
        today=TODAY,
        unit=MassUnit.KILOGRAM,
    )
    assert [(line.number, line.name) for line in lines] == [(3, "Ann Vale"), (5, "Ben Vale")]


@given(st.text(max_size=200))
def test_no_text_breaks_it_and_what_is_used_can_be_an_athlete(text: str) -> None:
    for line in read_squad(text, today=TODAY, unit=MassUnit.KILOGRAM):
        if not line.wrong:
            assert athlete_of(line, "a", sport="judo", today=TODAY).name == line.name
