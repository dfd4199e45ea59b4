"""The register in process: forms with scripts off, what is refused, what follows the athlete."""

from typing import Any

import pytest
from lxml import html

from read_pages import changed, page_of, words_of
from site_server import Browse
from squadwright.model.athlete import Athlete

REGISTER = "/squad/restrictions"
LUNGE: dict[str, Any] = {
    "demands": ["lunge"],
    "author": "Head coach",
    "author_role": "coach",
    "starts_on": "2026-02-10",
    "until": "2026-02-27",
    "reason": "left knee",
}


def of(athlete: str) -> str:
    return f"/squad/athlete/{athlete}/restrictions"


def stored(browse: Browse, athlete: str) -> Athlete:
    with browse.keeper.reading() as store:
        club = store.load_club()
    assert club is not None
    return club.athlete(athlete)


def rows(page: html.HtmlElement) -> list[str]:
    return [words_of(row) for row in page.xpath("//tbody/tr")]


def test_the_register_says_who_what_by_whom_until_when(browse: Browse) -> None:
    page = page_of(browse.get(REGISTER))
    (birk,) = [row for row in rows(page) if row.startswith("Birk Aldervoll")]
    for words in ("No overhead", "Rutger Vantongerle, medical staff", "20 Mar 2026", "18 days"):
        assert words in birk
    assert len(rows(page)) == 6
    assert page.find_class("question") == []


def test_enter_a_restriction_find_it_on_today_and_take_it_back(browse: Browse) -> None:
    typed = {**LUNGE, "starts_on": "2026-03-01", "until": "2026-03-09", "body_areas": ["knee"]}
    page = page_of(browse.post(f"{of('A06')}/new", typed))
    assert changed(page) == (
        "Dónal Mac Firvane: must not: no lunge, nothing that loads the knee, until 9 Mar 2026."
    )
    today = words_of(page_of(browse.get("/today/monday-barbell")))
    assert (
        "left knee: no lunge, nothing that loads the knee (Head coach, until 9 Mar 2026)" in today
    )
    undo = page.find_class("changed")[0].find("form").get("action")
    browse.post(undo, {"back": of("A06")})
    assert stored(browse, "A06").restrictions == ()


@pytest.mark.parametrize(
    ("typed", "field", "told"),
    [
        ({"demands": []}, "demands", "nothing is chosen"),
        ({"demands": ["flying"]}, "demands", "'flying' is not one of the choices"),
        ({"author": " "}, "author", "is empty"),
        ({"author_role": "king"}, "author_role", "'king' is not one of the choices"),
        ({"until": "2026-02-10"}, "until", "2026-02-10 is not after the start 2026-02-10"),
        ({"starts_on": "10.2.2026"}, "starts_on", "'10.2.2026' is not a date"),
        ({"starts_on": "1890-01-01"}, "starts_on", "before the birth date"),
        ({"body_areas": ["head"]}, "until", "only a written clearance ends it"),
    ],
)
def test_what_cannot_be_is_told_beside_its_field_and_nothing_is_lost(
    browse: Browse, typed: dict[str, Any], field: str, told: str
) -> None:
    sent = {**LUNGE, **typed}
    page = page_of(browse.post(f"{of('A06')}/new", sent), 422)
    assert told in words_of(page.get_element_by_id(f"field-{field}-wrong"))
    assert page.get_element_by_id("field-reason").text.strip() == "left knee"
    assert page.get_element_by_id("field-until").get("value") == sent["until"]
    assert stored(browse, "A06").restrictions == ()


def test_an_ended_one_asks_on_the_register_and_on_today_until_it_is_answered(
    browse: Browse,
) -> None:
    browse.post(f"{of('A06')}/new", LUNGE)
    finding = "ended on 27 Feb 2026, and nobody has answered whether it is over"
    assert finding in words_of(page_of(browse.get("/today/monday-barbell")))
    page = page_of(browse.get(REGISTER))
    (question,) = page.find_class("question")
    assert "Dónal Mac Firvane: no lunge (left knee). Set by Head coach." in words_of(question)
    assert "Is it over?" in words_of(question)
    over, goes_on = (form.get("action") for form in question.xpath(".//form"))
    told = page_of(browse.post(goes_on, {"goes_on_by": "Coach", "goes_on_until": ""}), 422)
    assert "Goes on until: is empty" in words_of(told)
    page_of(browse.post(goes_on, {"goes_on_by": "Coach", "goes_on_until": "2026-03-09"}))
    assert finding not in words_of(page_of(browse.get("/today/monday-barbell")))
    assert "no lunge" in words_of(page_of(browse.get("/today/monday-barbell")))
    page = page_of(browse.post(over, {"over_by": "Coach"}))
    assert changed(page) == "Dónal Mac Firvane: the restriction is over."
    assert "Lifted: Coach, 2 Mar 2026" in words_of(page)
    for where in (over, goes_on, over.removesuffix("/over")):
        again = browse.post(where, {"over_by": "Coach"})
        assert again.status_code == 409
        assert "was lifted already by Coach on 2 Mar 2026" in again.text
    assert "Dónal" not in words_of(page_of(browse.get(REGISTER)).xpath("//main//table")[0])


def test_an_ended_medical_one_offers_no_button_but_the_clearance(browse: Browse) -> None:
    typed = {**LUNGE, "author": "Rutger Vantongerle", "author_role": "medical"}
    browse.post(f"{of('A06')}/new", typed)
    (question,) = page_of(browse.get(REGISTER)).find_class("question")
    assert "A coach cannot say so: it takes a written clearance." in words_of(question)
    (form,) = question.xpath(".//form")
    assert form.get("action").endswith("/goes-on")
    answer = browse.post(form.get("action").replace("goes-on", "over"), {"over_by": "Coach"})
    assert answer.status_code == 403
    assert "Enter the written clearance" in answer.text
    page = page_of(browse.get(question.xpath(".//a/@href")[0].partition("#")[0]))
    (action,) = page.xpath("//form/@action[contains(., 'clearance')]")
    told = page_of(browse.post(action, {"cleared_by": "Dr Mbeki", "licence": ""}), 422)
    assert "Licence: is empty" in words_of(told)
    assert told.get_element_by_id("field-cleared_by").get("value") == "Dr Mbeki"
    paper = {"cleared_by": "Dr Mbeki", "licence": "FQ 4411", "given_on": "2026-03-01"}
    page = page_of(browse.post(action, paper))
    assert "Lifted: Dr Mbeki, licence FQ 4411, 1 Mar 2026" in words_of(page)
    assert page_of(browse.get(REGISTER)).find_class("question") == []


def test_a_coach_cannot_loosen_shorten_or_lift_what_medical_staff_set(browse: Browse) -> None:
    one = f"{of('A04')}/of/A04-shoulder"
    page = page_of(browse.get(one))
    shown = page.xpath("//input[@name='shown']/@value")[0]
    assert page.xpath("//form[contains(@action, '/over')]") == []
    same = {
        "shown": shown,
        "demands": ["overhead"],
        "author": "Rutger Vantongerle",
        "author_role": "medical",
        "starts_on": "2026-02-18",
        "until": "2026-03-20",
        "reason": "right shoulder",
        "instruction": "nothing overhead",
    }
    for looser in ({"until": "2026-03-03"}, {"demands": ["lunge"]}, {"author_role": "coach"}):
        page = page_of(browse.post(one, {**same, **looser}), 422)
        assert "A coach may make it stricter or longer, not looser" in words_of(page)
        assert "Enter the written clearance" in words_of(page)
    assert browse.post(f"{one}/over", {"over_by": "Coach"}).status_code == 403
    page = page_of(browse.post(one, {**same, "until": "2026-04-01"}))
    assert "until 1 Apr 2026" in changed(page)
    stale = page_of(browse.post(one, {**same, "until": "2026-04-02"}), 422)
    assert "was changed somewhere else since this page was opened" in words_of(stale)
    assert stale.get_element_by_id("field-until").get("value") == "2026-04-02"


def test_a_head_knock_leaves_the_list_and_is_not_tapped_back_in(browse: Browse) -> None:
    page = page_of(browse.get(f"{of('A06')}/new?about=head-knock"))
    assert "After a head knock it is over for today" in words_of(page)
    ticked = {
        name: page.xpath(f"//input[@name='{name}'][@checked]/@value")
        for name in ("all_training", "body_areas", "author_role")
    }
    assert ticked == {
        "all_training": ["yes"],
        "body_areas": ["head"],
        "author_role": ["medical"],
    }
    typed = {**ticked, "author": "Ringside doctor", "starts_on": "2026-03-02"}
    browse.post(f"{of('A06')}/new", typed)
    tapped = browse.post("/today/monday-barbell/check-in/A06/presence", {"presence": "present"})
    assert tapped.status_code == 200
    page = page_of(browse.get("/today/monday-barbell"))
    assert "Dónal Mac Firvane does not train" in words_of(page)
    assert [load for load in page.find_class("load") if "Dónal" in words_of(load)] == []


def test_choose_an_athlete_on_the_register(browse: Browse) -> None:
    page = page_of(browse.get(f"{REGISTER}/new?athlete=A01"))
    assert words_of(page.find(".//h1")) == "New restriction: Ottoline Baptiste-Ferro"
    assert browse.get(f"{REGISTER}/new").status_code == 404


def test_an_empty_club_has_an_empty_register(browse_empty: Browse) -> None:
    assert browse_empty.get(REGISTER).status_code == 404
