"""Athletes added and changed: what is doubtful is asked about, what was typed is kept."""

from typing import Any

import pytest

from site_server import MONDAY, Browse
from squadwright.demo import demo_club
from web.test_squad import athlete_of, club_of, form_of, main_of, undo, words_of

NEWCOMER = {
    "name": "Osk Varrel",
    "birth_date": "2003-05-04",
    "sex": "male",
    "level": "novice",
    "sport": "wrestling",
    "squad": "Mat",
    "new_squad": "",
    "weight_class": "74 kg",
    "training_age_years": "1.5",
    "stature_m": "178",
    "stature_m_unit": "cm",
    "note": "",
}


def newcomer(**changed: str) -> dict[str, Any]:
    return {**NEWCOMER, **changed}


def test_somebody_new_is_added_under_an_id_of_the_tools_own_and_taken_back(browse: Browse) -> None:
    answer = browse.post("/squad/new", newcomer())
    assert words_of(main_of(answer.text).find(".//h1")) == "Osk Varrel"
    assert "Osk Varrel is in the squad." in answer.text
    added = club_of(browse).athletes[-1]
    assert (added.name, added.squad, added.stature_m) == ("Osk Varrel", "Mat", 1.78)
    assert str(answer.url.path) == f"/squad/athlete/{added.id}"
    assert added.id not in words_of(main_of(answer.text))
    undo(browse, answer)
    assert club_of(browse) == demo_club(MONDAY)


def test_a_squad_that_is_new_is_added_with_the_athlete(browse: Browse) -> None:
    browse.post("/squad/new", newcomer(squad="+", new_squad="Harbour"))
    club = club_of(browse)
    assert club.squads[-1] == club.athletes[-1].squad == "Harbour"


def test_a_name_that_is_there_already_is_asked_about_and_never_merged(browse: Browse) -> None:
    typed = newcomer(name="sami darwazin", birth_date="1999-07-01")
    answer = browse.post("/squad/new", typed)
    assert answer.status_code == 422
    main = main_of(answer.text)
    (question,) = main.find_class("doubt")
    said = words_of(question)
    assert "Sami Darwazin '01, born 2001" in said
    assert "Sami Darwazin '12, born 2012" in said
    assert {"/squad/athlete/A08", "/squad/athlete/A12"} == set(question.xpath(".//li/a/@href"))
    assert club_of(browse) == demo_club(MONDAY)
    (so,) = question.xpath(".//button[@name='so']/@value")
    hidden = dict(
        zip(question.xpath(".//input/@name"), question.xpath(".//input/@value"), strict=True)
    )
    del hidden["_token"]
    assert hidden == typed
    answer = browse.post("/squad/new", {**hidden, "so": so})
    assert "sami darwazin '99 is in the squad." in words_of(main_of(answer.text))
    names = club_of(browse).shown_names()
    assert {"Sami Darwazin '01", "sami darwazin '99"} <= set(names.values())


@pytest.mark.parametrize(
    ("field", "typed", "words"),
    [
        ("birth_date", "2021-06-01", "gives an age of 4 years; the limits are 5 and 90 years"),
        ("birth_date", "1921-06-01", "gives an age of 104 years"),
        ("birth_date", "2027-01-01", "lies in the future"),
        ("training_age_years", "30", "30 years of training at an age of 22 years"),
        ("name", "", "Name: is empty"),
        ("stature_m", "99999", "is outside 0.91 and 2.59 m"),
    ],
)
def test_what_cannot_be_is_refused_beside_its_field_and_kept(
    browse: Browse, field: str, typed: str, words: str
) -> None:
    answer = browse.post("/squad/new", newcomer(**{field: typed}))
    assert answer.status_code == 422
    main = main_of(answer.text)
    (wrong,) = main.find_class("field-error")
    assert words in words_of(wrong)
    assert "athletes[" not in words_of(main)
    (kept,) = main.xpath(f".//input[@name='{field}']/@value")
    assert kept == typed
    assert len(club_of(browse).athletes) == 14


@pytest.mark.parametrize(
    ("typed", "unit", "meant"),
    [("172", "m", "172 cm"), ("17.2", "m", "172 cm"), ("1.72", "cm", "172 cm")],
)
def test_a_stature_in_the_wrong_unit_is_one_tap_away_from_right(
    browse: Browse, typed: str, unit: str, meant: str
) -> None:
    answer = browse.post("/squad/new", newcomer(stature_m=typed, stature_m_unit=unit))
    assert answer.status_code == 422
    (question,) = main_of(answer.text).find_class("doubt")
    buttons = {words_of(b): b.get("value") for b in question.xpath(".//button[@name='meant']")}
    assert question.xpath(".//button[@name='so']") == []
    sent = newcomer(stature_m=typed, stature_m_unit=unit)
    browse.post("/squad/new", {**sent, "meant": buttons[meant]})
    assert club_of(browse).athletes[-1].stature_m == pytest.approx(1.72)


def test_an_age_at_which_few_train_asks_and_then_takes_it(browse: Browse) -> None:
    typed = newcomer(birth_date="2019-06-01", training_age_years="0")
    answer = browse.post("/squad/new", typed)
    assert "6 years old?" in answer.text
    (so,) = main_of(answer.text).xpath(".//button[@name='so']/@value")
    # The answer holds for what was asked, not for something typed since.
    other = browse.post("/squad/new", {**typed, "birth_date": "2018-06-01", "so": so})
    assert other.status_code == 422
    assert browse.post("/squad/new", {**typed, "so": so}).status_code == 200
    assert len(club_of(browse).athletes) == 15


@pytest.mark.parametrize("athlete", ["A01", "A06", "A12"])
def test_a_person_stored_as_shown_stays_the_same(browse: Browse, athlete: str) -> None:
    before = club_of(browse)
    path = f"/squad/athlete/{athlete}/person"
    assert browse.post(path, form_of(browse, path)).status_code == 200
    assert club_of(browse) == before


def test_a_person_is_changed_and_an_old_form_does_not_undo_it(browse: Browse) -> None:
    path = "/squad/athlete/A01/person"
    opened = form_of(browse, path)
    answer = browse.post(path, {**opened, "weight_class": "125 lb"})
    assert "Ottoline Baptiste-Ferro is changed." in answer.text
    stale = browse.post(path, {**opened, "note": "left-handed"})
    assert stale.status_code == 422
    said = words_of(main_of(stale.text))
    assert "This athlete: was changed somewhere else since this page was opened" in said
    assert "Stored now: Ottoline Baptiste-Ferro." in said
    assert "class 125 lb" in said.lower()
    assert "left-handed" in stale.text
    assert athlete_of(browse, "A01").weight_class == "125 lb"
    again = {**opened, "note": "left-handed"}
    (again["shown"],) = main_of(stale.text).xpath(".//input[@name='shown']/@value")
    assert browse.post(path, again).status_code == 200
    assert athlete_of(browse, "A01").note == "left-handed"
