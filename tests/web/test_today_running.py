"""Today while a session runs, and after: its sheet is kept, and the page says so and leads on."""

from dataclasses import replace
from datetime import date, timedelta

import pytest
from lxml import html

from read_pages import club_of, page_of, words_of
from recording import START
from site_server import MONDAY, Browse
from squadwright.exchange.record_file import Brought
from squadwright.model.record import EventKind, RecordEvent
from squadwright.model.session import Presence
from squadwright.services.check_in import mark_presence
from squadwright.services.meeting import meet
from squadwright.services.running import Pinned
from squadwright.web.today.run_note import run_note

SESSION = "monday-barbell"
TODAY = f"/today/{SESSION}"
HANDOVER = f"/live/{SESSION}/handover"
CLOCK = f"{START.astimezone():%H:%M}"


def bring(browse: Browse, number: int, kind: EventKind, *, value: float | None = None) -> None:
    at = START + timedelta(seconds=10 * number)
    event = RecordEvent(f"t{number}", SESSION, "phone", number, at, kind, value=value)
    meet(browse.keeper, SESSION, Brought(0, (event,), "phone"), today=MONDAY)


@pytest.fixture
def run(browse: Browse) -> Browse:
    """The site while the barbell session runs."""
    bring(browse, 0, EventKind.STARTED, value=0.0)
    return browse


def links_of(page: html.HtmlElement) -> set[str]:
    return {a.get("href") for a in page.get_element_by_id("content").iter("a")}


def test_before_the_start_it_leads_to_the_floor_and_not_to_the_handover(browse: Browse) -> None:
    page = page_of(browse.get(TODAY))
    assert f"/live/{SESSION}" in links_of(page)
    assert HANDOVER not in links_of(page)
    assert "running since" not in words_of(page)


def test_while_it_runs_it_says_since_when_that_the_sheet_is_kept_and_leads_on(run: Browse) -> None:
    page = page_of(run.get(TODAY))
    note = words_of(page.xpath("//section[@aria-label='On the live floor']")[0])
    assert "the sheet on the floor is kept as it was at the start" in note
    assert "Change it on the live floor, under Change." in note
    assert f"running since {CLOCK}," in note
    assert {f"/live/{SESSION}", HANDOVER} <= links_of(page)
    assert run.get(HANDOVER).status_code == 200


def test_it_says_so_too_where_the_door_leaves_no_plan(run: Browse) -> None:
    for athlete in club_of(run).session(SESSION).athletes:
        mark_presence(run.keeper, SESSION, athlete, Presence.ABSENT, today=MONDAY)
    page = page_of(run.get(TODAY))
    assert "There is no plan for this session" in words_of(page)
    assert HANDOVER in links_of(page)


def test_after_the_end_it_leads_to_what_was_done_and_reopening_puts_it_back(run: Browse) -> None:
    bring(run, 1, EventKind.ENDED)
    ended = page_of(run.get(TODAY))
    note = ended.xpath("//section[@aria-label='On the live floor']")[0]
    assert "has ended" in words_of(note)
    assert [a.get("href") for a in note.iter("a")] == [f"/done/{SESSION}"]
    bring(run, 2, EventKind.REOPENED)
    assert "running since" in words_of(page_of(run.get(TODAY)))


def test_one_that_still_runs_after_midnight_stays_on_today_and_one_that_ended_does_not(
    run: Browse,
) -> None:
    club = club_of(run)
    yesterday = replace(club.session(SESSION), held_on=MONDAY - timedelta(days=1))
    with run.keeper.writing() as store:
        store.save_club(replace(club, sessions=(yesterday,)))
    assert "running since" in words_of(page_of(run.get("/today")))
    bring(run, 1, EventKind.ENDED)
    assert "Nothing is planned from today on" in words_of(page_of(run.get("/today")))


def test_another_session_says_nothing_of_it(run: Browse) -> None:
    assert "running since" not in words_of(page_of(run.get("/today/wednesday-plyometric")))


@pytest.mark.parametrize(
    ("today", "said"), [(MONDAY, CLOCK), (date(2026, 3, 4), f"Mon 2 Mar, {CLOCK}")]
)
def test_the_day_is_named_where_it_is_not_today(browse: Browse, today: date, said: str) -> None:
    session = club_of(browse).session(SESSION)
    note = run_note(session, Pinned(START, is_ended=False), today=today)
    assert note is not None
    assert f"running since {said}," in note.words
