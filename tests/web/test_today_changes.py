"""Overrides, minutes left, several late, guests and an odd number in process, without scripts."""

from dataclasses import replace
from datetime import date
from typing import Any

import pytest
from lxml import html

from read_pages import changed, club_of, page_of, words_of
from site_server import MONDAY, Browse
from squadwright.library import routine
from squadwright.model.club import Club
from squadwright.services.club_changes import change_club

BARBELL, PLYOMETRIC = "/today/monday-barbell", "/today/wednesday-plyometric"
CHANGE = f"{BARBELL}/change"


def undo(browse: Browse, page: html.HtmlElement) -> html.HtmlElement:
    """Press Undo beside the line, as the form sends it."""
    form = page.find_class("changed")[0].find("form")
    return page_of(browse.post(form.get("action"), {"back": form.fields["back"]}))


def load_of(page: html.HtmlElement, name: str) -> str:
    return next(words_of(load) for load in page.find_class("load") if name in words_of(load))


def test_each_load_leads_to_its_change_and_each_change_has_its_reasons(browse: Browse) -> None:
    page = page_of(browse.get(BARBELL))
    links = [a.get("href") for a in page.find_class("change-link")]
    assert f"{CHANGE}/A03?block=Ropewalk" in links
    assert len(links) == 12
    page = page_of(browse.get(f"{CHANGE}/A03?block=Ropewalk"))
    assert "Now: 16 kg, 4 rounds." in words_of(page)
    for action in ("lighter", "fewer-rounds", "no-bar", "own-load", "another-bar"):
        form = page.xpath(f"//form[.//input[@name='action'][@value='{action}']]")[0]
        assert form.xpath(".//button[@name='reason']/@value") == [
            "looks tired",
            "asked for it",
            "technique",
            "fight week",
        ]
    more = page.xpath("//section[@aria-labelledby='change-more-rounds']")[0]
    assert "There are 4 rounds here, and no more." in words_of(more)


def test_where_the_work_is_in_sets_a_set_less_is_a_set_less(browse: Browse) -> None:
    path = f"{PLYOMETRIC}/change/A04"
    page = page_of(browse.get(path))
    assert "Now: no bar, 5 sets." in words_of(page)
    assert "There is no bar here." in words_of(page)
    page = page_of(browse.post(path, {"action": "fewer-rounds", "reason": "looks tired"}))
    assert "Birk Aldervoll: 20 sets in all (was 21)." in changed(page)
    assert "Coach's override: 4 sets (looks tired)" in words_of(page)
    assert "Now: no bar, 4 sets." in words_of(page_of(browse.get(path)))


def test_an_override_stands_in_the_plan_with_its_reason_and_goes_in_one_tap(
    browse: Browse,
) -> None:
    typed = {"block": "Ropewalk", "action": "lighter", "reason": "looks tired"}
    page = page_of(browse.post(f"{CHANGE}/A03", typed))
    assert changed(page).startswith("Marisol Quenaya, coach's override: looks tired.")
    assert "Coach's override: 15 kg (looks tired)" in load_of(page, "Marisol Quenaya")
    page = page_of(browse.post(f"{CHANGE}/A03/removed", {"block": "Ropewalk"}))
    assert "the override is taken away" in changed(page)
    assert "override" not in load_of(page, "Marisol Quenaya")
    assert "override: 15 kg" in load_of(undo(browse, page), "Marisol Quenaya")


@pytest.mark.parametrize(
    ("athlete", "typed", "told"),
    [
        ("A12", {"action": "heavier", "reason": "asked for it"}, "under 16: the bare technique"),
        (
            "A04",
            {"action": "own-load", "load": "90", "load_unit": "kg", "reason": "asked for it"},
            "a restriction by Rutger Vantongerle holds for Birk Aldervoll",
        ),
        ("A03", {"action": "own-load", "load": "x", "reason": "asked for it"}, "is not a mass"),
        ("A03", {"action": "lighter", "why": ""}, "Reason: is empty"),
        ("A03", {"action": "fly", "reason": "technique"}, "'fly' is not one of the choices"),
        ("A03", {"action": "more-rounds", "reason": "technique"}, "5 rounds are more than the 4"),
        (
            "A03",
            {"action": "own-rounds", "rounds": "6", "reason": "technique"},
            "6 rounds are more than the 4",
        ),
        ("A03", {"action": "own-rounds", "rounds": "x", "reason": "technique"}, "is not a number"),
        ("A03", {"action": "another-bar", "bar": "none", "reason": "technique"}, "no bar in serv"),
    ],
)
def test_what_must_not_be_is_refused_in_words_and_nothing_is_changed(
    browse: Browse, athlete: str, typed: dict[str, Any], told: str
) -> None:
    page = page_of(browse.post(f"{CHANGE}/{athlete}", {"block": "Ropewalk", **typed}), 422)
    assert told in words_of(page)
    assert club_of(browse).session("monday-barbell").overrides == ()


def test_rounds_may_be_set_by_their_number(browse: Browse) -> None:
    typed = {"block": "Ropewalk", "action": "own-rounds", "rounds": "2", "reason": "looks tired"}
    page = page_of(browse.post(f"{CHANGE}/A03", typed))
    assert "Coach's override: 2 rounds (looks tired)" in load_of(page, "Marisol Quenaya")


def test_a_load_and_rounds_of_the_address_stand_in_their_fields(browse: Browse) -> None:
    page = page_of(browse.get(f"{CHANGE}/A03?block=Ropewalk&load=15.5&rounds=3"))
    assert page.get_element_by_id("field-load").get("value") == "15.5"
    assert page.get_element_by_id("field-rounds").get("value") == "3"
    assert club_of(browse).session("monday-barbell").overrides == ()


@pytest.mark.parametrize("path", [f"{CHANGE}/A99", f"{CHANGE}/A03?block=none", f"{CHANGE}/A08"])
def test_who_has_nothing_there_is_not_found(browse: Browse, path: str) -> None:
    assert browse.get(path).status_code == 404


def test_minutes_left_by_button_or_field_are_told_and_undone(browse: Browse) -> None:
    page = page_of(browse.get(f"{BARBELL}/minutes-left"))
    assert "22" in page.xpath("//button[@name='quick']/@value")
    page = page_of(browse.post(f"{BARBELL}/minutes-left", {"quick": "22"}))
    assert changed(page).startswith("22 minutes left.")
    assert "22 of 60 minutes are left." in words_of(page)
    assert "It would take 54 minutes; to fit 22: Ropewalk 4 to 1 rounds" in words_of(page)
    page = undo(browse, page)
    assert "of 60 minutes are left" not in words_of(page)
    page = page_of(browse.post(f"{BARBELL}/minutes-left", {"quick": "", "minutes": "45"}))
    assert "45 of 60 minutes are left." in words_of(page)
    page = page_of(browse.post(f"{BARBELL}/minutes-left", {"quick": "whole"}))
    assert changed(page).startswith("The whole 60 minutes again.")


@pytest.mark.parametrize("typed", ["", "4", "61", "soon"])
def test_minutes_that_cannot_be_are_refused_and_kept_as_typed(browse: Browse, typed: str) -> None:
    page = page_of(browse.post(f"{BARBELL}/minutes-left", {"minutes": typed}), 422)
    assert page.get_element_by_id("field-minutes").get("value") == typed
    assert page.find_class("form-wrong")


def test_several_late_in_one_action(browse: Browse) -> None:
    names = ["A01", "A02", "A03", "A06", "A07"]
    page = page_of(browse.post(f"{BARBELL}/late", {"athletes": names, "minutes": "12"}))
    assert "are 12 minutes late." in changed(page)
    page = page_of(browse.get(BARBELL))
    assert "12 of 14 train: 6 here, 6 late" in words_of(page)
    assert "3 rounds planned" in load_of(page, "Marisol Quenaya")
    page = page_of(browse.post(f"{BARBELL}/late", {"minutes": "12"}), 422)
    assert "nobody is ticked" in words_of(page)
    page = page_of(browse.post(f"{BARBELL}/late", {"athletes": ["A99"], "minutes": "12"}), 422)
    assert "is not one of the choices" in words_of(page)


def test_a_note_is_kept_shown_and_taken_away(browse: Browse) -> None:
    path = f"{BARBELL}/check-in/A01/note"
    page = page_of(browse.post(path, {"note": "says she is tired"}))
    assert "Ottoline Baptiste-Ferro is here (says she is tired)." in changed(page)
    assert "says she is tired" in words_of(page_of(browse.get(BARBELL)))
    page = page_of(browse.get(f"{BARBELL}/check-in/A01"))
    assert page.get_element_by_id("field-note").get("value") == "says she is tired"
    browse.post(path, {"note": ""})
    assert "says she is tired" not in words_of(page_of(browse.get(BARBELL)))
    assert browse.post(path, {"note": "x" * 201}).status_code == 422


def test_a_guest_with_consent_is_marked_everywhere_and_undone(browse: Browse) -> None:
    typed = {"agreed": "yes", "kind": "adult", "name": "Guest 1"}
    page = page_of(browse.post(f"{BARBELL}/guest", typed))
    assert changed(page).startswith("Guest 1 is a guest until")
    assert any("Guest 1 guest" in words_of(row) for row in page.find_class("arrival"))
    plan = page_of(browse.get(BARBELL))
    # All places at the bars are taken: he is among those without one.
    assert any("Guest 1 guest" in words_of(row) for row in plan.xpath("//tbody/tr"))
    page = undo(browse, page)
    assert not any("Guest 1" in words_of(row) for row in page.find_class("arrival"))


@pytest.mark.parametrize(
    ("typed", "told"),
    [
        ({"kind": "adult", "name": "Guest 1"}, "Agreed: is not ticked"),
        ({"kind": "minor", "name": "Guest 1", "agreed": "yes"}, "Who agreed: is empty"),
        ({"kind": "adult", "name": "", "agreed": "yes"}, "Name: is empty"),
        ({"kind": "adult", "name": "G", "agreed": "yes", "age": "500"}, "500 is neither"),
        ({"kind": "adult", "name": "G", "agreed": "yes", "age": "15"}, "15 years is a minor"),
        ({"kind": "ghost", "name": "G", "agreed": "yes"}, "'ghost' is not one of the choices"),
    ],
)
def test_a_guest_without_what_is_needed_is_refused_and_kept_as_typed(
    browse: Browse, typed: dict[str, Any], told: str
) -> None:
    page = page_of(browse.post(f"{BARBELL}/guest", typed), 422)
    assert told in words_of(page)
    assert page.get_element_by_id("field-name").get("value") == typed["name"]
    assert page.xpath("//details[@class='guest-form'][@open]")
    assert not any(a.guest_until for a in club_of(browse).athletes)


def guest_of_last_month(browse: Browse) -> str:
    browse.post(f"{BARBELL}/guest", {"agreed": "yes", "kind": "adult", "name": "Guest 1"})

    def over(club: Club) -> Club:
        return replace(
            club,
            athletes=tuple(
                replace(a, guest_until=date(2026, 3, 1)) if a.guest_until else a
                for a in club.athletes
            ),
        )

    change_club(browse.keeper, over, today=MONDAY)
    return next(a.id for a in club_of(browse).athletes if a.guest_until)


def test_when_the_month_is_over_today_asks_and_he_becomes_a_member(browse: Browse) -> None:
    guest = guest_of_last_month(browse)
    page = page_of(browse.get(BARBELL))
    assert "The month as a guest is over: Guest 1." in words_of(page)
    page = page_of(browse.get("/today/guests"))
    assert "The month was over on Sun 1 Mar" in words_of(page)
    path = f"/today/guests/{guest}/member"
    assert "is empty" in words_of(page_of(browse.post(path, {"sex": "male"}), 422))
    page = page_of(browse.post(path, {"birth_date": "2001-05-06", "sex": "male"}))
    assert changed(page) == "Guest 1 is a member of the squad now."
    assert "There is no guest" in words_of(page)
    assert "month as a guest" not in words_of(page_of(browse.get(BARBELL)))


def test_or_he_is_removed_and_that_can_be_undone(browse: Browse) -> None:
    guest = guest_of_last_month(browse)
    page = page_of(browse.post(f"/today/guests/{guest}/removed"))
    assert changed(page) == "Guest 1 is removed, with everything kept of the guest."
    assert all(a.id != guest for a in club_of(browse).athletes)
    undo(browse, page)
    assert any(a.id == guest for a in club_of(browse).athletes)
    assert browse.post("/today/guests/nobody/removed").status_code == 404


def in_pairs(club: Club) -> Club:
    """The demo club with thirteen on Wednesday in a routine of pairs."""
    pairs = routine("paper-boats")
    sessions = tuple(
        replace(s, routine=pairs.id, routine_version=pairs.version, minutes=60, check_ins=())
        if s.id == "wednesday-plyometric"
        else s
        for s in club.sessions
    )
    return replace(club, routines=(*club.routines, pairs), sessions=sessions)


def test_thirteen_in_pairs_are_offered_both_ways_with_their_minutes(browse: Browse) -> None:
    change_club(browse.keeper, in_pairs, today=MONDAY)
    page = page_of(browse.get(PLYOMETRIC))
    odd = page.find_class("odd-number")[0]
    assert "13 train where pairs are wanted. Nobody sits out:" in words_of(odd)
    ways = [words_of(each) for each in odd.find_class("odd-choice")]
    assert ways[0].startswith("5 pairs and 1 three Work ")
    assert ways[1].startswith("3 threes and 2 pairs Work ")
    assert all("minutes" in way for way in ways)
    choice = odd.xpath(".//button/@value")[1]
    page = page_of(browse.post(f"{PLYOMETRIC}/odd-squad", {"odd_squad": choice}))
    assert odd_is_pressed(page) == ["3 threes and 2 pairs"]
    assert odd_is_pressed(undo(browse, page)) == ["5 pairs and 1 three"]
    page = page_of(browse.post(f"{PLYOMETRIC}/odd-squad", {"odd_squad": "alone"}))
    assert "Nothing was stored. Groups: 'alone' is not one of the choices" in words_of(page)
    assert odd_is_pressed(page) == ["5 pairs and 1 three"]


def odd_is_pressed(page: html.HtmlElement) -> list[str]:
    return [words_of(b) for b in page.xpath("//button[@name='odd_squad'][@aria-pressed='true']")]


def test_an_even_number_is_not_asked_about(browse: Browse) -> None:
    assert not page_of(browse.get(BARBELL)).find_class("odd-number")
