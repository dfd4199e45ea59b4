"""Swaps in process: why barred, what instead, take it, give it back; a pain that is kept."""

from dataclasses import replace
from datetime import timedelta

import pytest
from lxml import html

from read_pages import club_of
from site_server import MONDAY, Browse
from squadwright.library import exercise
from squadwright.model.exercise import BarPosition
from squadwright.planning.swap_choices import step_choices
from web.test_restrictions import changed, page_of, stored, words_of

BARBELL = "monday-barbell"
BLOCK = "Ropewalk"
IN_SIX = {"session": BARBELL, "block": BLOCK, "step": "6"}


def swaps(athlete: str, session: str = BARBELL) -> str:
    return f"/squad/athlete/{athlete}/swaps?session={session}"


def section(page: html.HtmlElement, step: str) -> html.HtmlElement:
    return next(s for s in page.find_class("swap-step") if words_of(s.find("h2"))[0] == step)


def test_barred_from_overhead_he_keeps_the_bar_at_the_front_rack(browse: Browse) -> None:
    page = page_of(browse.get(swaps("A04")))
    step = section(page, "6")
    assert "Barred: Rutger Vantongerle: no overhead." in words_of(step)
    first = step.find_class("swap-words")[0]
    assert words_of(first).startswith("Front-rack march, 16 (planned now)")
    assert "bar front rack to front rack" in words_of(first)
    assert "right shoulder: no overhead (Rutger Vantongerle, until 20 Mar 2026)" in words_of(page)
    best = step_choices(club_of(browse), club_of(browse).session(BARBELL), "A04")[5].swaps[0]
    assert best.exercise is not None
    assert (best.exercise.start, best.exercise.end) == (BarPosition.FRONT_RACK,) * 2


def test_barred_from_a_low_hinge_he_starts_from_the_hang(browse: Browse) -> None:
    club = club_of(browse)
    barred = [c for c in step_choices(club, club.session(BARBELL), "A11") if c.barred]
    assert [c.key for c in barred] == ["1", "3"]
    for choices in barred:
        best = choices.swaps[0].exercise
        assert best is not None
        assert best.start is BarPosition.HANG


def test_no_swap_in_a_complex_needs_a_bar_or_ball_that_is_in_use(browse: Browse) -> None:
    club = club_of(browse)
    for athlete in ("A04", "A09", "A11"):
        for choices in step_choices(club, club.session(BARBELL), athlete):
            for swap in choices.swaps[:-1]:
                assert swap.exercise is not None
                needs = swap.exercise.needs
                assert (needs.ball, needs.boxes, needs.box_row, needs.fixed_bar) == (
                    False, 0, False, False,
                )  # fmt: skip
            assert choices.swaps[-1].exercise is None
            assert choices.swaps[-1].reason.startswith("Help and watch")


def test_take_a_swap_see_it_in_the_plan_and_give_it_back(browse: Browse) -> None:
    page = page_of(browse.get(swaps("A04")))
    second = section(page, "6").find_class("swap-choices")[0].findall("li")[1]
    sent = {each.get("name"): each.get("value") for each in second.xpath(".//input")}
    name = exercise(sent["exercise"]).name
    page = page_of(browse.post("/squad/athlete/A04/swaps/take", sent))
    assert changed(page) == f"Birk Aldervoll: {name} in step 6."
    assert f"Planned now: {name}" in words_of(section(page, "6"))
    assert "by your word" in words_of(section(page, "6"))
    override = club_of(browse).session(BARBELL).overrides[0]
    assert override.reason.startswith("Rutger Vantongerle: no overhead; ")
    assert name in words_of(page_of(browse.get(f"/today/{BARBELL}")))
    back = {"session": BARBELL, "block": sent["block"], "step": "6"}
    page = page_of(browse.post("/squad/athlete/A04/swaps/give-back", back))
    assert "Planned now: Front-rack march" in words_of(section(page, "6"))
    assert club_of(browse).session(BARBELL).overrides == ()


def test_a_swap_of_one_block_leaves_the_others_alone(browse: Browse) -> None:
    jumps = "wednesday-plyometric"
    page = page_of(browse.get(swaps("A02", jumps)))
    form = page.xpath("//form[contains(@action, '/take')][.//input[@value='B']]")[0]
    sent = {each.get("name"): each.get("value") for each in form.xpath(".//input[@name!='_token']")}
    browse.post("/squad/athlete/A02/swaps/take", sent)
    (override,) = club_of(browse).session(jumps).overrides
    assert (override.block, override.swaps[0].step_label) == ("B", sent["step"])
    club = club_of(browse)
    by_word = [c for c in step_choices(club, club.session(jumps), "A02") if c.is_word]
    assert [(c.block, c.key) for c in by_word] == [("B", sent["step"])]


def test_undo_takes_a_swap_back(browse: Browse) -> None:
    sent = {"session": BARBELL, "block": BLOCK, "step": "6", "exercise": "front-rack-march"}
    page = page_of(browse.post("/squad/athlete/A04/swaps/take", sent))
    browse.post(page.find_class("changed")[0].find("form").get("action"), {"back": swaps("A04")})
    assert club_of(browse).session(BARBELL).overrides == ()


@pytest.mark.parametrize(
    ("sent", "status"),
    [
        (
            {
                "session": BARBELL,
                "block": BLOCK,
                "step": "6",
                "exercise": "split-stance-strict-press",
            },
            422,
        ),
        ({"session": BARBELL, "block": BLOCK, "step": "6", "exercise": "no-such"}, 422),
        ({"session": BARBELL, "step": "99", "exercise": "front-rack-march"}, 404),
        ({"session": "none", "step": "6", "exercise": "front-rack-march"}, 404),
        ({}, 404),
    ],
)
def test_what_is_barred_or_unknown_is_not_taken(
    browse: Browse, sent: dict[str, str], status: int
) -> None:
    answer = browse.post("/squad/athlete/A04/swaps/take", sent)
    assert answer.status_code == status
    assert club_of(browse).session(BARBELL).overrides == ()


def test_help_and_watch_is_always_there_and_taken_back(browse: Browse) -> None:
    page = page_of(browse.get(swaps("A04")))
    form = section(page, "6").xpath(".//form[contains(@action, '/watch')]")[0]
    sent = {each.get("name"): each.get("value") for each in form.xpath(".//input[@name!='_token']")}
    page = page_of(browse.post(form.get("action"), sent))
    assert changed(page) == "Birk Aldervoll helps and watches in Ropewalk."
    assert "Planned now: helps and watches, by your word." in words_of(section(page, "6"))
    assert "Birk Aldervoll (helps and watches)" in words_of(
        page_of(browse.get(f"/today/{BARBELL}"))
    )
    page = page_of(browse.post(form.get("action"), {**sent, "helps": "no"}))
    assert "Planned now: Front-rack march" in words_of(section(page, "6"))
    assert club_of(browse).session(BARBELL).overrides == ()
    assert browse.post(form.get("action"), {**sent, "block": "none"}).status_code == 404


def test_whoever_does_not_train_has_no_button(browse: Browse) -> None:
    page = page_of(browse.get(swaps("A10")))
    assert "No training in this session." in words_of(page)
    assert page.xpath("//form[contains(@action, '/take')]") == []


def test_a_pain_is_kept_for_the_next_session_and_asked_about_after_it(browse: Browse) -> None:
    browse.post(
        f"/today/{BARBELL}/check-in/A02/pain", {"area": "knee", "side": "left", "score": "4"}
    )
    page = page_of(browse.get(f"/squad/athlete/A02/restrictions/pain?session={BARBELL}"))
    assert "Left knee pain 4 of 10" in words_of(page)
    sent = {"session": BARBELL, "area": "knee"}
    page = page_of(browse.post("/squad/athlete/A02/restrictions/pain", sent))
    assert "It is kept until 5 Mar 2026, and asked about then." in changed(page)
    (kept,) = stored(browse, "A02").restrictions
    again = page_of(browse.post("/squad/athlete/A02/restrictions/pain", sent), 422)
    assert "this pain is kept already" in words_of(again)
    assert "It is among the restrictions already." in words_of(again)
    assert kept.holds_on(MONDAY.replace(day=4))
    wednesday = words_of(page_of(browse.get("/today/wednesday-plyometric")))
    assert "left knee pain 4 of 10 on 2026-03-02: no lunge, no deep knee bend" in wednesday
    assert "until 5 Mar 2026" in wednesday


@pytest.mark.parametrize(
    ("score", "area", "told"),
    [("2", "knee", "pain 2 of 10 bars nothing"), ("4", "elbow", "No pain in the elbow")],
)
def test_a_pain_that_bars_nothing_or_was_not_named_is_not_kept(
    browse: Browse, score: str, area: str, told: str
) -> None:
    typed = {"area": "knee", "side": "left", "score": score}
    browse.post(f"/today/{BARBELL}/check-in/A02/pain", typed)
    answer = browse.post("/squad/athlete/A02/restrictions/pain", {"session": BARBELL, "area": area})
    assert answer.status_code in (404, 422)
    assert told in answer.text
    assert stored(browse, "A02").restrictions == ()


def test_another_session_of_the_same_name_is_among_the_others(browse: Browse) -> None:
    with browse.keeper.writing() as store:
        club = store.load_club()
        assert club is not None
        held = club.session(BARBELL)
        next_week = replace(held, id="next-week", held_on=held.held_on + timedelta(days=7))
        store.save_club(replace(club, sessions=(*club.sessions, next_week)))
    page = page_of(browse.get(swaps("A04")))
    links = page.xpath("//h2[.='Other sessions']/following-sibling::ul[1]//a/@href")
    assert swaps("A04", "next-week") in links
    assert swaps("A04") not in links
