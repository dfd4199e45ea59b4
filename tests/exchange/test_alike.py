"""Names that look alike are found, others are not."""

from dataclasses import replace
from datetime import date

import pytest

from squadwright.demo import demo_club
from squadwright.exchange.alike import alike

ATHLETES = demo_club(date(2026, 3, 2)).athletes


@pytest.mark.parametrize(
    "name",
    ["Sami Darwazin", "sami  darwazin", "Darwazin, Sami", "Sami Darwasin", "Sámi DARWAZIN"],
)
def test_both_of_one_name_are_found_however_it_is_written(name: str) -> None:
    assert {a.id for a in alike(name, ATHLETES)} == {"A08", "A12"}


def test_accents_make_no_difference() -> None:
    assert [a.id for a in alike("Donal MacFirvane", ATHLETES)] == ["A06"]


@pytest.mark.parametrize("name", ["Sami Okafor", "Osk Varrel", "Iskander", "-", " "])
def test_another_name_is_another_person(name: str) -> None:
    assert alike(name, ATHLETES) == ()


def test_names_without_latin_letters_are_told_apart_as_well() -> None:
    others = (replace(ATHLETES[0], name="中文日本"),)
    assert alike("中文日本", others) == others
    assert alike("한국", others) == ()


def test_the_nearest_name_comes_first() -> None:
    near = (replace(ATHLETES[0], name="Sami Darwasin"), replace(ATHLETES[1], name="Sami Darwazin"))
    assert [a.name for a in alike("Sami Darwazin", near)] == ["Sami Darwazin", "Sami Darwasin"]
