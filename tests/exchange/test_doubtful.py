"""Values that are asked about before they are stored.

The limits are common sense, no published ranges. 1 lb = 0.45359237 kg (international yard and
pound agreement of 1959), so 170 lb are 77.11 kg and 45 lb are 20.41 kg.
"""

from dataclasses import replace
from datetime import date, timedelta
from decimal import Decimal

import pytest

from squadwright.exchange.doubtful import (
    Doubt,
    doubt_of_birth,
    doubt_of_event,
    doubt_of_jump,
    doubt_of_length,
    doubt_of_limit,
    doubt_of_mass,
    doubt_of_stature,
    doubt_of_test,
    usual_mass_kg,
)
from squadwright.model.athlete import Event, JumpTest, MassReading, StrengthTest
from squadwright.model.exercise import ReferenceLift
from squadwright.units import Mass

TODAY = date(2026, 3, 2)
STATURE = (0.9, 2.6)


def read(text: str, days_ago: int = 0) -> MassReading:
    return MassReading(Mass.parse(text), TODAY - timedelta(days=days_ago))


def press(text: str, repetitions: int = 5, days_ago: int = 0) -> StrengthTest:
    day = TODAY - timedelta(days=days_ago)
    return StrengthTest(ReferenceLift.STRICT_PRESS, Mass.parse(text), repetitions, day)


EARLIER = (read("76.8 kg", 20), read("77.0 kg", 13), read("77.2 kg", 6))


def asked(doubt: Doubt | None) -> Doubt:
    assert doubt is not None
    return doubt


def test_the_usual_mass_is_the_middle_of_the_last_five() -> None:
    assert usual_mass_kg(EARLIER) == 77.0
    older = tuple(read("95 kg", 100 + n) for n in range(9))
    five = (*EARLIER, read("77.4 kg", 5), read("77.6 kg", 4))
    assert usual_mass_kg((*older, *five)) == 77.2
    assert usual_mass_kg(()) is None


def test_170_for_a_usual_77_asks_whether_pounds_were_meant() -> None:
    doubt = asked(doubt_of_mass(read("170 kg"), EARLIER))
    assert doubt.question == "170 kg? Usual is 77.0 kg. Pounds? 170 lb is 77.1 kg."
    assert doubt.stands_as_typed == "170 kg"
    (meaning,) = doubt.meanings
    assert meaning.values == (("reading", "170"), ("reading_unit", "lb"))


def test_77_typed_as_pounds_asks_whether_kilograms_were_meant() -> None:
    (meaning,) = asked(doubt_of_mass(read("77 lb"), EARLIER)).meanings
    assert meaning.words == "77 kg"


def test_a_point_in_the_wrong_place_is_offered_back() -> None:
    (meaning,) = asked(doubt_of_mass(read("7.7 kg"), EARLIER)).meanings
    assert meaning.words == "77 kg"
    (meaning,) = asked(doubt_of_mass(read("771 kg"), EARLIER)).meanings
    assert meaning.words == "77.1 kg"


def test_what_cannot_be_is_not_offered_as_typed_and_without_a_meaning_not_asked() -> None:
    assert asked(doubt_of_mass(read("771 kg"), EARLIER)).stands_as_typed == ""
    assert doubt_of_mass(read("999 kg"), EARLIER) is None


@pytest.mark.parametrize("text", ["77.0 kg", "79.5 kg", "74.9 kg", "170 lb"])
def test_a_mass_within_three_per_cent_is_taken_at_once(text: str) -> None:
    assert doubt_of_mass(read(text), EARLIER) is None


@pytest.mark.parametrize(("text", "words"), [("79.6 kg", "3.1 % more"), ("74.8 kg", "3.1 % less")])
def test_more_than_three_per_cent_since_the_last_entry_asks(text: str, words: str) -> None:
    doubt = asked(doubt_of_mass(read(text), EARLIER))
    assert words in doubt.question
    assert "The entry of 24 February 2026 is 77.2 kg" in doubt.question
    assert doubt.meanings == ()


def test_a_first_reading_is_held_against_the_class_if_there_is_one() -> None:
    assert doubt_of_mass(read("170 kg"), ()) is None
    doubt = asked(doubt_of_mass(read("170 kg"), (), expected_kg=77.0))
    assert "The limit of the class is 77.0 kg" in doubt.question
    assert doubt.meanings[0].words == "170 lb is 77.1 kg"


def test_a_limit_in_the_wrong_unit_is_asked_about() -> None:
    (meaning,) = asked(doubt_of_limit(Mass.parse("135 kg"), 61.0)).meanings
    assert meaning.words == "135 lb is 61.2 kg"
    assert doubt_of_limit(Mass.parse("57 kg"), 61.0) is None
    assert doubt_of_limit(Mass.parse("135 kg"), None) is None


def test_a_load_far_from_the_last_test_of_the_lift_asks() -> None:
    before = (press("57.5 kg", days_ago=21),)
    assert doubt_of_test(press("60 kg"), before, 75.6) is None
    doubt = asked(doubt_of_test(press("127 kg"), before, 75.6))
    assert "The strict press of 9 February 2026 was 57.5 kg for 5." in doubt.question
    assert [m.words for m in doubt.meanings] == ["127 lb is 57.6 kg"]
    assert asked(doubt_of_test(press("20 kg"), before, 75.6)).meanings == ()


def test_a_first_load_is_held_against_body_mass() -> None:
    assert doubt_of_test(press("60 kg"), (), 75.6) is None
    doubt = asked(doubt_of_test(press("125 kg"), (), 75.6))
    assert "times a body mass of 75.6 kg in one strict press" in doubt.question
    assert doubt.meanings[0].words == "125 lb is 56.7 kg"
    assert doubt_of_test(press("125 kg"), (), None) is None


@pytest.mark.parametrize(
    ("typed", "unit", "meant"),
    [("172", "m", "172 cm"), ("17.2", "m", "172 cm"), ("1.72", "cm", "172 cm")],
)
def test_a_stature_in_the_wrong_unit_is_offered_back(typed: str, unit: str, meant: str) -> None:
    doubt = asked(doubt_of_length("stature_m", Decimal(typed), unit, STATURE))
    assert meant in [meaning.words for meaning in doubt.meanings]
    assert doubt.stands_as_typed == ""


@pytest.mark.parametrize(("typed", "unit"), [("172", "cm"), ("1.72", "m")])
def test_a_sound_stature_is_taken(typed: str, unit: str) -> None:
    assert doubt_of_length("stature_m", Decimal(typed), unit, STATURE) is None


def test_few_are_as_small_or_tall() -> None:
    assert doubt_of_stature(1.72) is None
    assert "as tall" in asked(doubt_of_stature(2.3)).question
    assert "as small" in asked(doubt_of_stature(1.0)).question


def test_a_jump_far_from_the_last_of_its_kind_asks() -> None:
    last = JumpTest("countermovement jump", 0.40, TODAY, "jump mat")
    assert doubt_of_jump(replace(last, height_m=0.44), (last,)) is None
    assert "was 40.0 cm" in asked(doubt_of_jump(replace(last, height_m=0.62), (last,))).question
    assert doubt_of_jump(replace(last, height_m=0.62, method="video"), (last,)) is None
    assert "90 cm" in asked(doubt_of_jump(replace(last, height_m=1.2), ())).question
    assert doubt_of_jump(replace(last, kind="standing long jump", height_m=2.3), ()) is None


@pytest.mark.parametrize(
    ("age", "is_asked"),
    [
        (4, False),
        (5, True),
        (7, True),
        (8, False),
        (70, False),
        (71, True),
        (90, True),
        (91, False),
    ],
)
def test_an_age_at_which_few_train_is_asked_about(age: int, is_asked: bool) -> None:
    assert (doubt_of_birth(date(2026 - age, 1, 1), age) is not None) is is_asked


@pytest.mark.parametrize(("days", "is_asked"), [(-1, True), (0, False), (730, False), (731, True)])
def test_an_event_that_is_over_or_years_away_is_asked_about(days: int, is_asked: bool) -> None:
    event = Event("e", "Open", TODAY + timedelta(days=days))
    assert (doubt_of_event(event, TODAY) is not None) is is_asked
