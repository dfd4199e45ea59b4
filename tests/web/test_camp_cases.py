"""Camps that go wrong, from what the coach enters to what the pages of the camp say."""

from dataclasses import replace
from datetime import timedelta

import pytest

from lived_sessions import save
from read_pages import club_of, words_of
from site_server import MONDAY, Browse
from squadwright.demo import demo_club
from squadwright.model.athlete import Event
from web.test_squad import form_of, main_of, told, undo

WHO = "A08"
PERSON, CAMP = f"/squad/athlete/{WHO}", f"/camp/plan/{WHO}"


@pytest.fixture
def squad(browse: Browse) -> Browse:
    """Two athletes of the demo club with its whole week; the one in question has no event."""
    club = demo_club(MONDAY)
    people = tuple(
        replace(a, events=(), restrictions=()) if a.id == WHO else a
        for a in club.athletes
        if a.id in (WHO, "A09")
    )
    save(browse.keeper, replace(club, athletes=people, sessions=(), travel=(), closures=()))
    return browse


def enter_event(browse: Browse, day: int, **more: str) -> object:
    typed = {"name": "Late call", "starts_on": str(MONDAY + timedelta(day)), "priority": "A"}
    answer = browse.post(f"{PERSON}/event/new", {**typed, **more})
    assert answer.status_code == 200
    return answer


def test_a_bout_at_short_notice_is_on_the_pages_at_once_and_can_be_taken_back(
    squad: Browse,
) -> None:
    before = told(squad, CAMP)
    assert "No event ahead" in before
    day = str(MONDAY + timedelta(9))
    answer = squad.post("/camp/dates", {f"day-{WHO}": day, f"name-{WHO}": "Late call"})
    words = told(squad, CAMP)
    assert "Late call (A) on Wed 11 March" in words
    assert "fewer at the same load; no session is dropped." in words
    assert "Taper for Late call until Tue 10 March" in words
    undo(squad, answer)
    assert told(squad, CAMP) == before


def test_a_new_date_of_the_opponent_moves_the_taper(squad: Browse) -> None:
    enter_event(squad, 40)
    assert "Taper for Late call until Fri 10 April" in told(squad, CAMP)
    path = f"{PERSON}/event/0"
    moved = str(MONDAY + timedelta(54))
    assert squad.post(path, {**form_of(squad, path), "starts_on": moved}).status_code == 200
    words = told(squad, CAMP)
    assert "Specific work" not in words or "Late call" in words
    assert "Taper for Late call until Fri 24 April" in words
    assert "Late call (A) on Sat 25 April" in words
    assert "11 April" not in words


def test_several_bouts_in_a_day_count_as_load_and_as_days_off_more(squad: Browse) -> None:
    """Five bouts of five minutes at an effort of 9: 5 x 5 x 9 = 225 AU, and from four on a day."""
    enter_event(squad, 19, bouts_expected="5", bout_minutes="5")
    assert club_of(squad).athlete(WHO).events[0].bout_minutes == 5
    words = told(squad, CAMP)
    assert "Late call (A) on Sat 21 March, 5 bouts, about 225 AU and 1 day off more:" in words
    assert "recovery from Late call, 5 bouts, about 225 AU and 1 day off more." in words
    assert "Recover from Late call until Mon 23 March" in words
    path = f"{PERSON}/event/0"
    squad.post(path, {**form_of(squad, path), "bouts_expected": "3", "bout_minutes": ""})
    words = told(squad, CAMP)
    # Three of the six minutes in the rules: 3 x 6 x 9.
    assert "Late call (A) on Sat 21 March, 3 bouts, about 162 AU:" in words
    assert "Recover from Late call until Sun 22 March" in words
    wrong = squad.post(path, {**form_of(squad, path), "bout_minutes": "61"})
    assert wrong.status_code == 422
    assert "61 min is outside 1 to 60 min" in words_of(main_of(wrong.text))


def test_bouts_before_the_camp_take_days_off_its_start(squad: Browse) -> None:
    """On the Sunday before: one day off, and one more after four bouts."""
    club = club_of(squad)
    last = Event("last", "Late call", MONDAY - timedelta(1), bouts_expected=4)
    people = tuple(replace(a, events=(last,)) if a.id == WHO else a for a in club.athletes)
    save(squad.keeper, replace(club, athletes=people))
    words = told(squad, CAMP)
    assert "Off until Tue 3 March: recovery from Late call" in words


def bar(browse: Browse, first: int, until: int | None) -> None:
    typed = {
        "all_training": "on",
        "author": "Dr Invented",
        "author_role": "medical",
        "starts_on": str(MONDAY + timedelta(first)),
        "until": "" if until is None else str(MONDAY + timedelta(until)),
        "reason": "ill",
    }
    assert browse.post(f"{PERSON}/restrictions/new", typed).status_code == 200


def test_an_illness_entered_from_the_camp_leaves_a_gap_and_a_return(squad: Browse) -> None:
    links = main_of(squad.get(CAMP).text).xpath(".//a[text()='Cannot train']/@href")
    assert links == [f"{PERSON}/restrictions/new"]
    bar(squad, 7, 14)
    words = told(squad, CAMP)
    assert "Off until Sun 15 March: barred from all training" in words
    assert "Back after a gap: at most 50 % and then 70 % of the usual rounds, by week." in words
    assert "Return until Sun 29 March" in words


def test_an_illness_that_is_over_still_asks_for_a_return_and_a_short_one_does_not(
    squad: Browse,
) -> None:
    bar(squad, -6, -1)
    assert "Back after a gap: at most 50 % and then 70 %" in told(squad, CAMP)
    assert "Return until Sat 14 March" in told(squad, CAMP)
    form = form_of(squad, "/camp/rules")
    squad.post("/camp/rules", {**form, "gap_d": "6"})
    assert "Back after a gap" not in told(squad, CAMP)


def test_a_week_without_the_hall_has_no_session_and_the_week_after_rises_slowly(
    squad: Browse,
) -> None:
    first, last = MONDAY + timedelta(7), MONDAY + timedelta(13)
    typed = {"name": "flooded", "starts_on": str(first), "ends_on": str(last)}
    answer = squad.post("/sessions/calendar/closures/new", typed)
    assert answer.status_code == 200
    assert "Mon 9 March no session" in told(squad, CAMP)
    assert "flooded, Mon 9 March to Sun 15 March" in told(squad, "/camp/season")
    undo(squad, answer)
    assert "Mon 9 March no session" not in told(squad, CAMP)
