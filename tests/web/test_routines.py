"""The pages of Routines in process: lists, copies, versions, files, the sheet, refusals."""

import json
from typing import Any

import pytest
from lxml import html

from read_pages import changed, club_of, page_of, words_of
from site_server import Browse
from squadwright.exchange.routine_file import read_routine, write_routine
from squadwright.library import routine as shelf
from squadwright.library import routines as shelf_routines

ROPE = "/routines/routine/ropewalk"


def undo(browse: Browse, page: html.HtmlElement) -> html.HtmlElement:
    action = page.xpath("//div[@class='changed']//form/@action")[0]
    return page_of(browse.post(action, {"back": "/routines"}))


def typed(browse: Browse, path: str) -> dict[str, Any]:
    """What stands in the editor's form."""
    page = page_of(browse.get(path))
    (form,) = page.find_class("editor")
    return {name: value or "" for name, value in form.form_values() if name != "_token"}


def test_the_list_names_each_routine_with_its_last_session(browse: Browse) -> None:
    page = page_of(browse.get("/routines"))
    lines = [words_of(line) for line in page.find_class("routine-line")]
    assert [line.split(" ")[0] for line in lines] == ["Ropewalk", "Tide"]
    assert "In 1 session, the last on Mon 2 Mar" in lines[0]


def test_without_a_club_the_shelf_can_be_read_and_nothing_built(browse_empty: Browse) -> None:
    assert "There is no club yet" in browse_empty.get("/routines").text
    page = page_of(browse_empty.get("/routines/shelf"))
    assert len(page.find_class("routine-line")) == len(shelf_routines())
    assert page.xpath("//main//form[@method='post']") == []
    assert browse_empty.get("/routines/new").url.path == "/routines"


def test_the_shelf_is_narrowed_down_by_level_kit_and_words(browse: Browse) -> None:
    every = page_of(browse.get("/routines/shelf")).find_class("routine-line")
    assert len(every) == len(shelf_routines()) >= 12
    for query in ("level=advanced", "kit=no+kit", "words=jump", "level=novice&kit=bars"):
        fewer = page_of(browse.get(f"/routines/shelf?{query}")).find_class("routine-line")
        assert 0 < len(fewer) < len(every), query
    nothing = browse.get("/routines/shelf?words=zeppelin")
    assert "Nothing on the shelf is like that" in nothing.text


def test_a_copy_of_the_shelf_comes_into_the_club_and_can_be_taken_back(browse: Browse) -> None:
    page = page_of(browse.post("/routines/shelf/bell-buoy/copy"))
    assert changed(page) == "Bell buoy is one of the club's routines."
    assert club_of(browse).routine("bell-buoy", 1).blocks == shelf("bell-buoy").blocks
    undo(browse, page)
    assert [r.id for r in club_of(browse).routines] == ["ropewalk", "tide-lanes"]


def test_the_jump_routine_of_the_demo_shows_its_contacts_and_throws(browse: Browse) -> None:
    words = words_of(page_of(browse.get("/routines/routine/tide-lanes")))
    assert "50 contacts and 42 throws for each athlete" in words
    assert "Intermediate: 100 to 120 contacts a session." in words
    assert "NSCA Essentials, plyometrics chapter" in words


def test_a_changed_routine_is_its_next_version_and_old_sessions_keep_theirs(
    browse: Browse,
) -> None:
    fields = typed(browse, f"{ROPE}/edit")
    page = page_of(browse.post(f"{ROPE}/edit", {**fields, "aim": "grip", "do": "save"}))
    assert changed(page) == "Ropewalk is stored as version 2."
    versions = [words_of(line) for line in page.find_class("routine-versions")[0]]
    assert versions == [
        "Version 2, the newest: no session yet.",
        "Version 1: Mon 2 Mar, 18:00: Monday barbell.",
    ]
    assert "These use an older version: Mon 2 Mar, 18:00: Monday barbell." in words_of(page)
    old = page_of(browse.get(f"{ROPE}?version=1"))
    assert "This is version 1. The newest is version 2." in words_of(old)
    moved = page_of(browse.post(f"{ROPE}/sessions"))
    assert changed(moved) == ("Version 2 of Ropewalk is used in Mon 2 Mar, 18:00: Monday barbell.")
    assert club_of(browse).session("monday-barbell").routine_version == 2
    undo(browse, moved)
    assert club_of(browse).session("monday-barbell").routine_version == 1


def test_storing_what_was_not_changed_makes_no_version(browse: Browse) -> None:
    fields = typed(browse, f"{ROPE}/edit")
    browse.post(f"{ROPE}/edit", {**fields, "do": "save"})
    assert [r.version for r in club_of(browse).routines if r.id == "ropewalk"] == [1]


@pytest.mark.parametrize("name", [r.id for r in shelf_routines()])
def test_the_editor_gives_back_exactly_what_it_was_filled_from(browse: Browse, name: str) -> None:
    fields = typed(browse, f"/routines/new?shelf={name}")
    page_of(browse.post("/routines/new", {**fields, "do": "save"}))
    stored = club_of(browse).routines[-1]
    was = shelf(name)
    assert stored.blocks == was.blocks
    assert (stored.aim, stored.level, stored.cautions) == (was.aim, was.level, was.cautions)
    assert (stored.slot_minutes, stored.fits) == (was.slot_minutes, was.fits)


def test_a_form_over_an_older_routine_is_refused_and_then_stored_on_purpose(
    browse: Browse,
) -> None:
    fields = typed(browse, f"{ROPE}/edit")
    browse.post(f"{ROPE}/edit", {**fields, "aim": "legs", "do": "save"})
    mine = {**fields, "aim": "grip"}
    page = page_of(browse.post(f"{ROPE}/edit", {**mine, "do": "save"}), 422)
    assert "was changed somewhere else" in words_of(page)
    (form,) = page.find_class("editor")
    again = dict(form.form_values())
    assert again["aim"] == "grip"
    browse.post(f"{ROPE}/edit", {**again, "do": "save"})
    assert club_of(browse).routine("ropewalk", 3).aim == "grip"


def test_a_routine_without_a_name_or_with_a_strange_exercise_is_refused_by_field(
    browse: Browse,
) -> None:
    fields = typed(browse, "/routines/new")
    fields |= {"b0-s0-exercise": "Front sqaut", "b0-s1-exercise": "pow", "b0-s1-count": "x"}
    page = page_of(browse.post("/routines/new", {**fields, "do": "save"}), 422)
    wrong = [words_of(line) for line in page.find_class("field-error")]
    assert wrong[0].startswith("Name: is empty")
    assert any(
        "'Front sqaut' is not in the library. The nearest are: Front squat" in w for w in wrong
    )
    assert any("'pow' is more than one. The nearest are: Power clean" in w for w in wrong)
    assert page.xpath("//input[@name='b0-s1-count']/@value") == ["x"]
    assert [r.id for r in club_of(browse).routines] == ["ropewalk", "tide-lanes"]


def test_checks_come_alone_with_what_is_usual(browse: Browse) -> None:
    fields = typed(browse, "/routines/new") | {"b0-s0-exercise": "wall sit"}
    said = json.loads(browse.post("/routines/check", {**fields, "b0-style": "sets"}).text)
    assert said["usual"]["b0-s0-count"] == "30"
    assert said["usual"]["b0-s0-counted_in"] == "seconds"
    assert said["usual"]["b0-rest_kind"] == "while the partner works"
    assert "All the work takes" in said["checks"]
    assert "<main" not in said["checks"]


def test_a_routine_used_by_a_session_to_come_is_not_removed(browse: Browse) -> None:
    page = page_of(browse.post(f"{ROPE}/remove"), 409)
    assert "Monday barbell on 2026-03-02 will use it" in words_of(page)


def test_a_copy_can_be_renamed_and_removed(browse: Browse) -> None:
    page = page_of(browse.post(f"{ROPE}/copy"))
    assert changed(page) == "Ropewalk copy is a copy of Ropewalk."
    path = "/routines/routine/ropewalk-copy"
    empty = page_of(browse.post(f"{path}/name", {"name": " "}), 422)
    assert "Name: is empty" in words_of(empty)
    page = page_of(browse.post(f"{path}/name", {"name": "Long rope"}))
    assert changed(page) == "Ropewalk copy is called Long rope now."
    page = page_of(browse.post(f"{path}/remove"))
    assert changed(page) == "Long rope is no routine of the club any more."


def test_a_routine_goes_out_as_a_file_and_comes_in_after_a_look(browse: Browse) -> None:
    answer = browse.get(f"{ROPE}/file")
    disposition = answer.headers["content-disposition"]
    assert disposition == 'attachment; filename="ropewalk.routine.json"'
    assert read_routine(answer.text) == club_of(browse).routine("ropewalk", 1)
    sent = {"file": ("x.json", answer.text.encode(), "application/json")}
    page = page_of(browse.post("/routines/take-in", {"do": "look"}, files=sent))
    assert "Snatch-grip high pull" in words_of(page)
    assert len(club_of(browse).routines) == 2
    text = page.xpath("//textarea[@name='text']")[0].text
    page = page_of(browse.post("/routines/take-in", {"text": text, "do": "store"}))
    assert changed(page) == "Ropewalk copy is one of the club's routines."


def test_a_file_with_an_unknown_exercise_says_which_are_near_and_can_be_mended_there(
    browse: Browse,
) -> None:
    text = write_routine(shelf("ropewalk")).replace('"muscle-clean"', '"muscel-clean"')
    page = page_of(browse.post("/routines/take-in", {"text": text, "do": "store"}), 422)
    words = words_of(page)
    assert "routine.blocks[0].steps[3].exercise: 'muscel-clean' is not an exercise" in words
    assert "Muscle clean (muscle-clean)" in words
    assert "muscel-clean" in page.xpath("//textarea[@name='text']")[0].text
    assert len(club_of(browse).routines) == 2


@pytest.mark.parametrize("content", [b"", b"\xff\xfe", b"{}", b"[" * 900, b"x" * 950_000])
def test_what_is_no_routine_file_is_refused_in_words(browse: Browse, content: bytes) -> None:
    sent = {"file": ("x.json", content, "application/json")}
    page_of(browse.post("/routines/take-in", {"do": "store"}, files=sent), 422)


def test_the_sheet_holds_all_an_assistant_needs(browse: Browse) -> None:
    words = words_of(page_of(browse.get(f"{ROPE}/sheet")))
    for each in (
        "4 rounds, 1:40 of work",
        "Bar: hang to front rack",
        "Say: Stay tall: no dip under the bar",
        "Stop for: bar swings out",
        "Lower the bar, never drop it from overhead.",
        "Medical staff, local rules and licensed practice come before anything on this sheet.",
        "Defibrillator by the ice machine",
        "Load, ball, box and group of each athlete: on the plan of Mon 2 Mar, 18:00",
    ):
        assert each in words


@pytest.mark.parametrize(
    "path",
    [
        "/routines/routine/none",
        "/routines/routine/none/edit",
        "/routines/shelf/none",
        f"{ROPE}?version=99",
        f"{ROPE}?version=x",
        f"{ROPE}?version=%D9%A3",
        "/routines/new?shelf=none",
        "/routines/new?routine=none",
    ],
)
def test_what_is_not_there_is_said_to_be_not_there(browse: Browse, path: str) -> None:
    page_of(browse.get(path), 404)
