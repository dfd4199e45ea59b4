"""No two athletes are ever shown alike, whatever they are called."""

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from squadwright.model.athlete import Athlete, Level, Sex
from squadwright.model.club import names_told_apart


def athlete(athlete_id: str, name: str, year: int) -> Athlete:
    return Athlete(athlete_id, name, date(year, 1, 20), Sex.MALE, Level.NOVICE, "judo")


def test_a_name_of_its_own_is_shown_plain() -> None:
    assert names_told_apart([athlete("1", "Ann", 2000)]) == {"1": "Ann"}


def test_two_of_one_name_show_their_birth_years() -> None:
    shown = names_told_apart([athlete("1", "Sami", 2001), athlete("2", "Sami", 2012)])
    assert shown == {"1": "Sami '01", "2": "Sami '12"}


def test_two_of_one_name_and_year_show_their_ids_too() -> None:
    shown = names_told_apart([athlete("1", "Sami", 2001), athlete("2", "Sami", 2001)])
    assert shown == {"1": "Sami '01 (1)", "2": "Sami '01 (2)"}


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ("Sami", "SAMI"),
        ("Sami", " Sami "),
        ("Sami Darwazin", "Sami  Darwazin"),
        ("D\u00f3nal", "Do\u0301nal"),
        ("Sami", "Sa\u200bmi"),
        ("Sami", "\uff33ami"),
    ],
)
def test_names_that_only_look_alike_are_told_apart_too(one: str, other: str) -> None:
    shown = names_told_apart([athlete("1", one, 2001), athlete("2", other, 2012)])
    assert shown["1"].endswith("'01")
    assert shown["2"].endswith("'12")


def test_a_name_that_already_holds_a_year_is_not_taken_for_another() -> None:
    people = [
        athlete("1", "Sami", 2001),
        athlete("2", "Sami", 2012),
        athlete("3", "Sami '01", 1990),
    ]
    assert names_told_apart(people) == {"1": "Sami '01 (1)", "2": "Sami '12", "3": "Sami '01 (3)"}


@given(
    people=st.lists(
        st.tuples(
            st.sampled_from(("Sami", "sami", "Sami '01", "Sa\u200bmi", "Ann")),
            st.sampled_from((1990, 2001, 2012)),
        ),
        max_size=12,
    )
)
def test_shown_names_are_never_alike(people: list[tuple[str, int]]) -> None:
    shown = names_told_apart(
        athlete(f"A{number}", name, year) for number, (name, year) in enumerate(people)
    )
    assert len({name.casefold().replace("\u200b", "") for name in shown.values()}) == len(people)
