"""The pages of the door in process: forms, the line of what changed, undo, refusals."""

from typing import Any

import pytest

from read_pages import changed, page_of, words_of
from site_server import Browse
from squadwright.model.session import CheckIn, Presence

BARBELL = "/today/monday-barbell"
DOOR = f"{BARBELL}/check-in"


def check_in_of(browse: Browse, athlete: str) -> CheckIn | None:
    with browse.keeper.reading() as store:
        club = store.load_club()
    assert club is not None
    check_ins = club.session("monday-barbell").check_ins
    return next((c for c in check_ins if c.athlete == athlete), None)


def test_the_door_lists_everybody_with_what_stands_about_him(browse: Browse) -> None:
    page = page_of(browse.get(DOOR))
    rows = [words_of(row) for row in page.find_class("arrival")]
    assert len(rows) == 14
    assert "Parwana Sohrabin 12 minutes late (train)" in rows
    assert "Sami Darwazin '01 absent" in rows
    assert "Kwabena Fosuhene-Lund here, left knee pain 4 of 10" in rows
    # Medical staff bar him from all training: the door says so, the plan as well.
    assert "Lobsang Tsewangpa here, does not train today" in rows
    assert sum("does not train today" in row for row in rows) == 1
    pressed = page.xpath("//button[@aria-pressed='true']/@value")
    assert (pressed.count("present"), pressed.count("absent")) == (12, 1)


def test_one_tap_makes_him_absent_and_undo_takes_it_back(browse: Browse) -> None:
    page = page_of(browse.post(f"{DOOR}/A03/presence", {"presence": "absent"}))
    assert changed(page).startswith("Marisol Quenaya is absent. Iskander Yulbarin: ")
    assert check_in_of(browse, "A03") == CheckIn("A03", Presence.ABSENT)
    assert "Marisol Quenaya absent" in words_of(page_of(browse.get(BARBELL)))
    undo = page.find_class("changed")[0].find("form").get("action")
    page = page_of(browse.post(undo))
    assert changed(page).startswith("Marisol Quenaya is here. Marisol Quenaya joins: bar ")
    assert check_in_of(browse, "A03") is None
    assert "Marisol Quenaya absent" not in words_of(page_of(browse.get(BARBELL)))


@pytest.mark.parametrize(
    ("typed", "minutes"),
    [({"presence": "late-10"}, 10), ({"presence": "late", "minutes": "17"}, 17)],
)
def test_late_by_a_button_or_by_minutes(
    browse: Browse, typed: dict[str, Any], minutes: int
) -> None:
    page = page_of(browse.post(f"{DOOR}/A01/arrival", typed))
    assert changed(page).startswith(f"Ottoline Baptiste-Ferro is {minutes} minutes late.")
    assert f"Ottoline Baptiste-Ferro {minutes} minutes late" in words_of(
        page_of(browse.get(BARBELL))
    )


@pytest.mark.parametrize(
    ("typed", "told"),
    [
        ({"presence": "late", "minutes": "60"}, "60 minutes is outside 1 to 59 minutes"),
        ({"presence": "late", "minutes": "ten"}, "'ten' is not a number"),
        ({"presence": "late", "minutes": ""}, "Minutes late: is empty"),
        ({"presence": "asleep"}, "'asleep' is not one of the choices"),
    ],
)
def test_a_presence_that_cannot_be_is_refused_and_kept_as_typed(
    browse: Browse, typed: dict[str, Any], told: str
) -> None:
    page = page_of(browse.post(f"{DOOR}/A01/arrival", typed), 422)
    assert told in words_of(page)
    assert page.get_element_by_id("field-minutes").get("value") == typed.get("minutes", "")
    assert check_in_of(browse, "A01") is None


def test_a_tap_that_is_none_of_the_buttons_is_refused(browse: Browse) -> None:
    page = page_of(browse.post(f"{DOOR}/A01/presence", {"presence": "asleep"}), 422)
    assert "'asleep' is not one of the choices" in words_of(page)
    assert len(page.find_class("arrival")) == 14
    assert check_in_of(browse, "A01") is None


def test_pain_by_area_and_score(browse: Browse) -> None:
    typed = {"area": "knee", "side": "right", "score": "5"}
    page = page_of(browse.post(f"{DOOR}/A02/pain", typed))
    assert changed(page).startswith("Iskander Yulbarin is here, right knee pain 5 of 10.")
    assert "instead of Front-rack reverse lunge" in changed(page)
    told = words_of(page_of(browse.get(BARBELL)))
    assert "Iskander Yulbarin reports right knee pain 5 of 10." in told


@pytest.mark.parametrize(
    ("typed", "told"),
    [
        ({"side": "left", "score": "5"}, "Body area: is not chosen"),
        ({"area": "knee", "side": "left", "score": "11"}, "11 of 10 is outside 0 to 10 of 10"),
        ({"area": "soul", "side": "left", "score": "5"}, "'soul' is not one of the choices"),
    ],
)
def test_pain_that_cannot_be_is_refused(browse: Browse, typed: dict[str, Any], told: str) -> None:
    page = page_of(browse.post(f"{DOOR}/A02/pain", typed), 422)
    assert told in words_of(page)
    assert page.xpath("//input[@name='side'][@checked]/@value") == ["left"]
    assert check_in_of(browse, "A02") is None


@pytest.mark.parametrize("path", [f"{DOOR}/A99", "/today/no-such-session/check-in/A01"])
def test_who_is_not_expected_is_not_found(browse: Browse, path: str) -> None:
    assert browse.get(path).status_code == 404
    assert browse.post(f"{path}/presence", {"presence": "absent"}).status_code == 404


def test_a_step_that_is_not_known_any_more_is_told(browse: Browse) -> None:
    answer = browse.post(f"{BARBELL}/undo/{'0' * 16}")
    assert answer.status_code == 404
    assert "is not remembered any more" in answer.text


def test_nobody_left_is_told_in_plain_words_with_the_way_to_the_door(browse: Browse) -> None:
    page = page_of(browse.get(DOOR))
    for path in page.xpath("//form[@class='arrival-taps']/@action"):
        browse.post(path, {"presence": "absent"})
    page = page_of(browse.get(BARBELL))
    assert "There is no plan for this session" in words_of(page)
    assert page.xpath(f"//main//a[@href='{DOOR}']")
