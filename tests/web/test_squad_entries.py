"""Tests, readings, events, consents and the guardian of an athlete, entered and taken out."""

from dataclasses import replace
from datetime import date
from typing import Any

import pytest
from httpx2 import Response

from site_server import MONDAY, Browse
from squadwright.demo import demo_club
from squadwright.model.athlete import Consent, Event, JumpTest, MassReading, Priority, StrengthTest
from squadwright.model.exercise import ReferenceLift
from squadwright.units import Mass, kilograms
from web.test_squad import athlete_of, club_of, form_of, main_of, store_athlete, undo, words_of

SAMI = "/squad/athlete/A08"


def mass(amount: str, unit: str = "kg", **more: str) -> dict[str, Any]:
    return {
        "reading": amount,
        "reading_unit": unit,
        "taken_on": "2026-03-02",
        "note": "",
        **more,
    }


def question_of(answer: Response) -> str:
    assert answer.status_code == 422
    (question,) = main_of(answer.text).find_class("doubt")
    return words_of(question)


def button_of(answer: Response, name: str, words: str) -> str:
    buttons = main_of(answer.text).xpath(f".//button[@name='{name}']")
    (value,) = [b.get("value") for b in buttons if words_of(b).startswith(words)]
    return str(value)


def test_170_for_a_usual_78_asks_for_pounds_and_one_tap_stores_them(browse: Browse) -> None:
    answer = browse.post(f"{SAMI}/body-mass/new", mass("170", note="after class"))
    # 170 lb x 0.45359237 = 77.11 kg.
    assert "170 kg? Usual is 78.0 kg. Pounds? 170 lb is 77.1 kg." in question_of(answer)
    assert main_of(answer.text).xpath(".//input[@id='field-reading']/@value") == ["170"]
    assert club_of(browse) == demo_club(MONDAY)
    meant = button_of(answer, "meant", "170 lb is 77.1 kg")
    answer = browse.post(
        f"{SAMI}/body-mass/new", {**mass("170", note="after class"), "meant": meant}
    )
    assert "170 lb (77.1 kg)" in answer.text
    kept = athlete_of(browse, "A08").body_mass[-1]
    assert kept == MassReading(Mass.parse("170 lb"), MONDAY, "after class")
    undo(browse, answer)
    assert club_of(browse) == demo_club(MONDAY)


def test_it_is_so_keeps_what_was_typed(browse: Browse) -> None:
    answer = browse.post(f"{SAMI}/body-mass/new", mass("170"))
    so = button_of(answer, "so", "It is so: 170 kg")
    assert browse.post(f"{SAMI}/body-mass/new", {**mass("170"), "so": so}).status_code == 200
    assert str(athlete_of(browse, "A08").body_mass[-1].reading) == "170 kg"


def test_an_answer_holds_only_for_what_was_asked(browse: Browse) -> None:
    answer = browse.post(f"{SAMI}/body-mass/new", mass("170"))
    so = button_of(answer, "so", "It is so")
    assert browse.post(f"{SAMI}/body-mass/new", {**mass("270"), "so": so}).status_code == 422
    assert browse.post(f"{SAMI}/body-mass/new", {**mass("170"), "meant": "=&%"}).status_code == 422
    assert club_of(browse) == demo_club(MONDAY)


def test_more_than_three_per_cent_since_the_last_entry_asks(browse: Browse) -> None:
    # 78.0 kg x 1.03 = 80.34 kg.
    assert browse.post(f"{SAMI}/body-mass/new", mass("80.3")).status_code == 200
    store_athlete(browse, demo_club(MONDAY).athlete("A08"))
    said = question_of(browse.post(f"{SAMI}/body-mass/new", mass("80.4")))
    assert "The entry of 28 February 2026 is 78.0 kg: 3.1 % more." in said


@pytest.mark.parametrize(
    ("key", "typed"),
    [
        ("body-mass", mass("78.0", taken_on="2026-02-28")),
        ("event", {"name": "Cup", "starts_on": "2026-05-01", "priority": "B"}),
        ("consent", {"purpose": "photographs", "given_by": "him", "given_on": "2026-03-01"}),
    ],
)
def test_the_same_entry_sent_twice_is_asked_about(
    browse: Browse, key: str, typed: dict[str, str]
) -> None:
    path = f"{SAMI}/{key}/new"
    browse.post(path, typed)
    answer = browse.post(path, typed)
    assert "Exactly this is stored already. Once more?" in question_of(answer)
    so = button_of(answer, "so", "It is so: once more")
    assert browse.post(path, {**typed, "so": so}).status_code == 200


@pytest.mark.parametrize(
    ("changed", "words"),
    [
        ({"reading": "19"}, "19 kg is not plausible for a body mass"),
        ({"taken_on": "2026-04-02"}, "Day: 2026-04-02 lies in the future; today is 2026-03-02"),
        ({"taken_on": "1999-04-02"}, "is before the birth date"),
        ({"reading": "heavy"}, "'heavy' is not a mass"),
    ],
)
def test_a_reading_that_cannot_be_is_refused_beside_its_field(
    browse: Browse, changed: dict[str, str], words: str
) -> None:
    typed = {**mass("78.2"), **changed}
    answer = browse.post(f"{SAMI}/body-mass/new", typed)
    if answer.status_code == 422 and "doubt" in answer.text:
        typed["so"] = button_of(answer, "so", "It is so")
        answer = browse.post(f"{SAMI}/body-mass/new", typed)
    assert answer.status_code == 422
    assert words in " ".join(words_of(e) for e in main_of(answer.text).find_class("field-error"))
    assert "athletes[" not in words_of(main_of(answer.text))
    assert club_of(browse) == demo_club(MONDAY)


def test_a_reading_is_changed_and_taken_out(browse: Browse) -> None:
    path = "/squad/athlete/A06/body-mass/0"
    opened = form_of(browse, path)
    assert (opened["reading"], opened["reading_unit"]) == ("184", "lb")
    answer = browse.post(path, {**opened, "note": "checked"})
    assert "Body mass of Dónal Mac Firvane is changed." in answer.text
    assert athlete_of(browse, "A06").body_mass[0].note == "checked"
    stale = browse.post(path, {**opened, "note": "other"})
    said = words_of(main_of(stale.text))
    assert stale.status_code == 422
    assert "was changed somewhere else since this page was opened" in said
    assert "Stored now: 27 Feb 2026, 184 lb (83.5 kg), checked." in said
    assert "other" in stale.text
    removed = browse.post(f"{path}/remove", {"shown": form_of(browse, path)["shown"]})
    assert "is taken out" in removed.text
    assert len(athlete_of(browse, "A06").body_mass) == 1
    undo(browse, removed)
    assert [r.note for r in athlete_of(browse, "A06").body_mass] == ["checked", ""]
    stale = browse.post(f"{path}/remove", {"shown": opened["shown"]})
    assert stale.status_code == 409
    assert "was changed somewhere else" in stale.text
    assert len(athlete_of(browse, "A06").body_mass) == 2


def strength(load: str, repetitions: str, **more: str) -> dict[str, Any]:
    return {
        "lift": "strict press",
        "load": load,
        "load_unit": "kg",
        "repetitions": repetitions,
        "taken_on": "2026-03-01",
        "method": "best set",
        **more,
    }


def test_a_strength_test_is_stored_and_counts_at_once(browse: Browse) -> None:
    answer = browse.post(f"{SAMI}/strength-test/new", strength("55", "5"))
    assert "Strength test of Sami Darwazin '01 is stored." in words_of(main_of(answer.text))
    # Epley 55 x (1 + 5/30) = 64.2, Brzycki 55 x 36/32 = 61.9, half-way 63.0 kg.
    assert "Strict press 63 kg" in words_of(main_of(answer.text))
    added = athlete_of(browse, "A08").tests[-1]
    assert added == StrengthTest(ReferenceLift.STRICT_PRESS, kilograms(55), 5, date(2026, 3, 1))


@pytest.mark.parametrize("athlete", ["A03", "A12"])
def test_a_minor_does_no_maximal_test(browse: Browse, athlete: str) -> None:
    path = f"/squad/athlete/{athlete}/strength-test/new"
    answer = browse.post(path, strength("25", "1"))
    assert answer.status_code == 422
    (wrong,) = main_of(answer.text).find_class("field-error")
    assert "1 is a maximal test" in words_of(wrong)
    assert "all-out efforts begin at 18 years (common practice, no source)" in words_of(wrong)
    assert "medical staff and local rules come first" in words_of(wrong)
    assert browse.post(path, strength("25", "5")).status_code == 200


def test_whoever_is_barred_from_all_out_efforts_does_no_maximal_test(browse: Browse) -> None:
    answer = browse.post("/squad/athlete/A10/strength-test/new", strength("50", "1"))
    assert answer.status_code == 422
    assert "Rutger Vantongerle bars an all-out effort" in words_of(main_of(answer.text))
    adult = browse.post("/squad/athlete/A02/strength-test/new", strength("66", "1"))
    assert adult.status_code == 200


def test_a_load_far_above_the_last_test_asks_for_pounds(browse: Browse) -> None:
    answer = browse.post(f"{SAMI}/strength-test/new", strength("116", "5"))
    assert "The strict press of 9 February 2026 was 52.5 kg for 5." in question_of(answer)
    # 116 lb = 52.6 kg.
    meant = button_of(answer, "meant", "116 lb is 52.6 kg")
    browse.post(f"{SAMI}/strength-test/new", {**strength("116", "5"), "meant": meant})
    assert str(athlete_of(browse, "A08").tests[-1].load) == "116 lb"


@pytest.mark.parametrize(
    ("load", "repetitions", "words"),
    [("30", "40", "is more than the equations behind a load reach"), ("0", "5", "not plausible"),
     ("30", "0", "is outside 1 to 50"), ("30", "2.5", "not a whole number")],
)  # fmt: skip
def test_a_set_that_is_no_test_is_refused(
    browse: Browse, load: str, repetitions: str, words: str
) -> None:
    answer = browse.post(f"{SAMI}/strength-test/new", strength(load, repetitions))
    assert answer.status_code == 422
    assert words in words_of(main_of(answer.text))


def jump(height: str, unit: str = "cm") -> dict[str, Any]:
    return {
        "kind": "countermovement jump",
        "height_m": height,
        "height_m_unit": unit,
        "taken_on": "2026-03-01",
        "method": "jump mat",
    }


def test_a_jump_is_stored_in_metres_however_it_was_typed(browse: Browse) -> None:
    assert browse.post(f"{SAMI}/jump-test/new", jump("41.5")).status_code == 200
    assert browse.post(f"{SAMI}/jump-test/new", jump("0.42", "m")).status_code == 200
    kept = athlete_of(browse, "A08").jump_tests
    assert [j.height_m for j in kept] == [0.415, 0.42]
    assert kept[0] == JumpTest("countermovement jump", 0.415, date(2026, 3, 1), "jump mat")


def test_a_jump_of_41_metres_asks_for_centimetres(browse: Browse) -> None:
    answer = browse.post(f"{SAMI}/jump-test/new", jump("41", "m"))
    assert "41 m?" in question_of(answer)
    meant = button_of(answer, "meant", "41 cm")
    browse.post(f"{SAMI}/jump-test/new", {**jump("41", "m"), "meant": meant})
    assert athlete_of(browse, "A08").jump_tests[-1].height_m == pytest.approx(0.41)


def event(**changed: str) -> dict[str, Any]:
    return {
        "name": "Spring open",
        "starts_on": "2026-04-11",
        "priority": "A",
        "mass_limit": "76",
        "mass_limit_unit": "kg",
        "weigh_in_rule": "the day before",
        "bouts_expected": "4",
        **changed,
    }


def test_an_event_is_stored_with_its_days_to_go(browse: Browse) -> None:
    answer = browse.post(f"{SAMI}/event/new", event())
    assert "Spring open in 40 days, 11 Apr 2026" in words_of(main_of(answer.text))
    kept = athlete_of(browse, "A08").events[-1]
    assert kept == Event(
        kept.id, "Spring open", date(2026, 4, 11), Priority.A, kilograms(76), "the day before", 4
    )
    path = f"{SAMI}/event/0"
    browse.post(path, {**form_of(browse, path), "priority": "B"})
    assert athlete_of(browse, "A08").events == (replace(kept, priority=Priority.B),)


def test_an_event_in_the_past_asks_whether_the_year_is_right(browse: Browse) -> None:
    answer = browse.post(f"{SAMI}/event/new", event(starts_on="2025-04-11"))
    assert "11 April 2025 lies 325 days back. Is the year right?" in question_of(answer)
    so = button_of(answer, "so", "It is so: 11 April 2025")
    typed = {**event(starts_on="2025-04-11"), "so": so}
    assert browse.post(f"{SAMI}/event/new", typed).status_code == 200
    # Once answered, a change of something else does not ask again.
    path = f"{SAMI}/event/0"
    assert browse.post(path, {**form_of(browse, path), "name": "Old open"}).status_code == 200


def test_a_limit_in_the_wrong_unit_asks(browse: Browse) -> None:
    answer = browse.post(f"{SAMI}/event/new", event(mass_limit="170"))
    assert "A limit of 170 kg? Usual is 78.0 kg." in question_of(answer)
    meant = button_of(answer, "meant", "170 lb is 77.1 kg")
    browse.post(f"{SAMI}/event/new", {**event(mass_limit="170"), "meant": meant})
    assert str(athlete_of(browse, "A08").events[-1].mass_limit) == "170 lb"


def test_a_consent_and_a_guardian_are_entered_for_a_minor(browse: Browse) -> None:
    path = "/squad/athlete/A12"
    store_athlete(browse, replace(athlete_of(browse, "A12"), guardian=None, consents=()))
    typed = {"name": "Farida Darwazin", "relation": "mother", "telephone": "0123 456"}
    opened = form_of(browse, f"{path}/guardian")
    answer = browse.post(f"{path}/guardian", {**opened, **typed})
    said = words_of(main_of(answer.text))
    assert "Farida Darwazin answers for Sami Darwazin '12." in said
    assert "Farida Darwazin has agreed to nothing yet." in said
    assert browse.post(f"{path}/guardian", {**opened, **typed}).status_code == 422
    fresh = form_of(browse, f"{path}/consent/new")
    assert fresh["given_by"] == "Farida Darwazin"
    answer = browse.post(f"{path}/consent/new", fresh)
    assert "has agreed to nothing" not in answer.text
    assert athlete_of(browse, "A12").consents == (
        Consent("training as a minor", "Farida Darwazin", MONDAY),
    )
    shown = form_of(browse, f"{path}/guardian")["shown"]
    browse.post(f"{path}/guardian/remove", {"shown": shown})
    assert athlete_of(browse, "A12").guardian is None


def test_the_telephone_of_a_guardian_stands_on_the_athletes_page_alone(browse: Browse) -> None:
    minor = athlete_of(browse, "A12")
    assert minor.guardian is not None
    called = replace(minor.guardian, telephone="0123 456")
    store_athlete(browse, replace(minor, guardian=called))
    assert "0123 456" in browse.get("/squad/athlete/A12").text
    for path in ("/squad", "/squad/athlete/A08", "/today"):
        assert "0123 456" not in browse.get(path).text


def test_an_empty_form_is_told_field_by_field(browse: Browse) -> None:
    for key, count in (("body-mass", 2), ("strength-test", 3), ("jump-test", 4), ("event", 3)):
        answer = browse.post(f"{SAMI}/{key}/new", {"lift": "deadlift", "height_m_unit": "cm"})
        assert answer.status_code == 422
        assert len(main_of(answer.text).find_class("field-error")) == count, key
