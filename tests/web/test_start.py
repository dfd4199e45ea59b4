"""The pages of the first day in process: each step a form, left and come back to."""

from typing import Any

import pytest
from lxml import html

from read_pages import page_of, words_of
from site_server import Browse
from squadwright.model.club import Club

SQUAD = "Ada Fenn, 2001, f, int, 58.5, 32.5\nBodo Krast, 17 years, m, , 74\nCleo Vint, 2003, f"
TYPED = {"squad": SQUAD, "sport": "wrestling", "unit": "kg"}
HALL = {
    "where": "indoors",
    "name": "Hall",
    "length": "12",
    "width": "9",
    "ceiling": "4",
    "column": "no",
}


def club_of(browse: Browse) -> Club | None:
    with browse.keeper.reading() as store:
        return store.load_club()


def fields_of(page: html.HtmlElement, action: str) -> dict[str, Any]:
    form = next(f for f in page.forms if f.get("action") == action)
    return dict(form.form_values())


@pytest.fixture
def begun(browse_empty: Browse) -> Browse:
    browse_empty.post("/start", {"name": "Slate Yard"})
    return browse_empty


def take(browse: Browse) -> html.HtmlElement:
    """Look at the squad, then take it."""
    looked = page_of(browse.post("/start/squad", {**TYPED, "do": "look"}))
    code = looked.xpath("//input[@name='code']/@value")[0]
    return page_of(browse.post("/start/squad", {**TYPED, "do": "take", "code": code}))


def walk_to_session(browse: Browse) -> html.HtmlElement:
    page = take(browse)
    page = page_of(browse.post("/start/kit", fields_of(page, "/start/kit")))
    page_of(browse.post("/start/room", HALL))
    return page_of(browse.post("/start/routine", {"routine": "slate-yard"}))


@pytest.mark.parametrize("path", ["/", "/today", "/sessions", "/start/squad", "/start/session"])
def test_every_way_in_leads_to_the_name_of_the_club_first(browse_empty: Browse, path: str) -> None:
    answer = browse_empty.get(path)
    assert answer.url.path == "/start"
    assert "Name of the club" in words_of(page_of(answer))


def test_a_club_needs_a_name_and_begins_once(browse_empty: Browse) -> None:
    assert "is empty" in words_of(page_of(browse_empty.post("/start", {"name": " "}), 422))
    assert club_of(browse_empty) is None
    page = page_of(browse_empty.post("/start", {"name": "Slate Yard"}))
    assert "Slate Yard begins." in words_of(page)
    assert "Step 1 of 5. None is done." in words_of(page)
    assert browse_empty.post("/start", {"name": "Other"}).status_code == 409


def test_what_was_understood_is_shown_before_anything_is_stored(begun: Browse) -> None:
    page = page_of(begun.post("/start/squad", {**TYPED, "do": "look"}))
    told = words_of(page)
    assert "3 athletes. Is it right?" in told
    assert "31 Dec 2001, from the year" in told
    assert "2 Mar 2009, from the age" in told
    assert "the latest possible birthday counts" in told
    assert "17 years old: a minor, enter the guardian later." in told
    club = club_of(begun)
    assert club is not None
    assert club.athletes == ()
    assert page.xpath("//textarea")[0].text.strip() == SQUAD


def test_taking_what_was_changed_after_the_look_shows_it_first(begun: Browse) -> None:
    page = page_of(begun.post("/start/squad", {**TYPED, "do": "look"}))
    code = page.xpath("//input[@name='code']/@value")[0]
    changed = {**TYPED, "squad": f"{SQUAD}\nDag Ruhl, 2000, m", "do": "take", "code": code}
    assert "4 athletes. Is it right?" in words_of(page_of(begun.post("/start/squad", changed)))
    club = club_of(begun)
    assert club is not None
    assert club.athletes == ()


def test_a_line_to_mend_is_told_by_its_number_and_the_text_is_kept(begun: Browse) -> None:
    typed = {**TYPED, "squad": f"{SQUAD}\nDag Ruhl, 2000", "do": "look"}
    page = page_of(begun.post("/start/squad", typed), 422)
    told = words_of(page)
    assert "line 4, sex is missing" in told
    assert "4 athletes, 1 to mend. Mend the text below." in told
    assert page.xpath("//button[@value='take']") == []
    assert page.xpath("//textarea")[0].text.strip().endswith("Dag Ruhl, 2000")


def test_the_squad_is_taken_and_undo_takes_it_back(begun: Browse) -> None:
    page = take(begun)
    assert "3 athletes in the squad." in words_of(page)
    assert "Step 2 of 5. One is done." in words_of(page)
    club = club_of(begun)
    assert club is not None
    assert [a.name for a in club.athletes] == ["Ada Fenn", "Bodo Krast", "Cleo Vint"]
    begun.post(page.find_class("changed")[0].find("form").get("action"))
    club = club_of(begun)
    assert club is not None
    assert club.athletes == ()


def test_a_store_to_start_from_is_corrected_number_by_number(begun: Browse) -> None:
    page = page_of(begun.get("/start/kit?from=school-gym"))
    typed = fields_of(page, "/start/kit")
    assert (typed["store"], typed["bar_15"]) == ("school-gym", "4")
    wrong = page_of(begun.post("/start/kit", {**typed, "bar_15": "4.5", "mats": "many"}), 422)
    told = words_of(wrong.find_class("form-wrong")[0])
    assert "bars, 15 kg: 4.5 is not a whole number" in told
    assert "other, mats: 'many' is not a number" in told
    page_of(begun.post("/start/kit", {**typed, "bar_15": "3", "mats": ""}))
    club = club_of(begun)
    assert club is not None
    assert sum(bar.mass.kg == 15 for bar in club.kit.bars) == 3
    assert all(other.id != "mats" for other in club.kit.other)


def test_a_room_is_told_its_mistakes(begun: Browse) -> None:
    typed = {**HALL, "ceiling": "340", "length": "", "column": "yes", "column_along": "x"}
    told = words_of(page_of(begun.post("/start/room", typed), 422).find_class("form-wrong")[0])
    assert "Ceiling: 340 m is outside 2 to 20 m" in told
    assert "Length: is empty" in told
    assert "Column, along: 'x' is not a number" in told
    outside = {**HALL, "column": "yes", "column_along": "20", "column_across": "3"}
    assert "is outside 12 x 9 m" in words_of(page_of(begun.post("/start/room", outside), 422))


def test_outdoors_needs_no_ceiling(begun: Browse) -> None:
    page_of(begun.post("/start/room", {**HALL, "where": "outdoors", "ceiling": ""}))
    club = club_of(begun)
    assert club is not None
    assert club.rooms[0].surface == "grass"


def test_steps_may_be_left_and_come_back_to(begun: Browse) -> None:
    page_of(begun.post("/start/room", HALL))
    page = page_of(begun.get("/start"))
    told = words_of(page)
    assert "One is done." in told
    assert "The room done: Hall" in told
    assert "The squad to do" in told
    assert begun.get("/start/session").url.path == "/start/squad"


def test_the_last_step_plans_and_leads_to_the_sheets(begun: Browse) -> None:
    page = walk_to_session(begun)
    assert "Step 5 of 5. Four are done." in words_of(page)
    typed = fields_of(page, "/start/session")
    assert (typed["minutes"], typed["day"]) == ("60", "today")
    answer = begun.post("/start/session", typed)
    told = words_of(page_of(answer))
    assert "Slate yard on Monday 2 March 2026 is planned. Print the sheets." in told
    assert "3 of 3 train." in told
    page = page_of(begun.get("/start"))
    assert "All five are done." in words_of(page)
    (sheets,) = [a.get("href") for a in page.xpath("//a") if words_of(a) == "Print the sheets"]
    assert "Session sheet" in words_of(page_of(begun.get(sheets)))


def test_a_day_that_was_is_asked_about_before_it_is_stored(begun: Browse) -> None:
    typed = fields_of(walk_to_session(begun), "/start/session")
    page = page_of(
        begun.post("/start/session", {**typed, "day": "other", "held_on": "2026-02-27"}), 422
    )
    question = page.xpath("//form[@aria-label='Please say what is meant']")[0]
    assert "Friday 27 February 2026 was 3 days back. Is the day right?" in words_of(question)
    club = club_of(begun)
    assert club is not None
    assert club.sessions == ()
    assert club.staff == ()


def test_a_session_before_the_rest_is_refused(begun: Browse) -> None:
    answer = begun.post("/start/session", {"day": "today", "starts_at": "18:00", "minutes": "60"})
    assert answer.status_code == 409
