"""The review of a block, in process: days, tables, refusals, the printed page, the ways to it."""

from dataclasses import replace
from pathlib import Path

import pytest

from lived_sessions import (
    FAILED,
    FIRST,
    FIRST_MONDAY,
    SECOND,
    WEEK,
    club_of_mondays,
    live,
    save,
)
from printing.printed import pypdf_text, reader
from read_pages import page_of, words_of
from site_server import Browse, browse_on, empty_keeper, keeper_on_copy


@pytest.fixture(scope="module")
def lived_file(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The third Monday, two of them lived, to be copied."""
    folder = tmp_path_factory.mktemp("review")
    keeper = empty_keeper(folder)
    club = club_of_mondays()
    earlier = tuple(replace(s, held_on=s.held_on - 2 * WEEK) for s in club.sessions)
    save(keeper, replace(club, sessions=earlier))
    live(keeper, FIRST, *FIRST_MONDAY)
    live(keeper, SECOND)
    keeper.back_up(folder / "lived.sqlite3")
    return folder / "lived.sqlite3"


@pytest.fixture
def run(lived_file: Path, tmp_path: Path) -> Browse:
    """The site on the third Monday, two of them lived."""
    return browse_on(keeper_on_copy(lived_file, tmp_path))


def test_the_last_six_weeks_stand_there_unasked(run: Browse) -> None:
    page = page_of(run.get("/review"))
    assert "Tuesday 20 January 2026 to Monday 2 March 2026." in words_of(page)
    words = words_of(page.get_element_by_id("content"))
    assert "2 of 3 sessions recorded." in words
    assert "84 of 84 rounds done of those planned." in words
    assert "25 of 26 finished; in the long run between" in words
    # One template is compared with nothing, and two sessions change nobody.
    assert "can be told apart" not in words
    assert "more than before" not in words
    assert "too few sessions to tell" in words


def test_days_are_chosen_by_the_form_and_stay_in_it(run: Browse) -> None:
    page = page_of(run.get("/review?since=2026-02-17&until=2026-02-24&routine="))
    assert page.get_element_by_id("field-since").get("value") == "2026-02-17"
    assert "1 of 1 session recorded." in words_of(page)
    [sheet] = page.xpath("//a[@download]/@href")
    assert "since=2026-02-17&until=2026-02-24" in sheet
    empty = page_of(run.get("/review?since=2026-01-01&until=2026-01-02"))
    assert "No session lies in these days" in words_of(empty)


@pytest.mark.parametrize(
    ("query", "told"),
    [
        ("since=2026-03-02&until=2026-03-01", "is before"),
        ("since=2024-01-01&until=2026-03-01", "are more than 366 days"),
        ("since=yesterday", "yesterday"),
        ("routine=no-such", "'no-such' is not one of the choices"),
    ],
)
def test_days_that_cannot_be_used_are_told_and_kept(run: Browse, query: str, told: str) -> None:
    page = page_of(run.get(f"/review?{query}"), 422)
    assert told in words_of(page)
    for name, value in (part.split("=") for part in query.split("&") if "routine" not in part):
        assert page.get_element_by_id(f"field-{name}").get("value") == value


def test_it_is_printed_on_one_page(run: Browse) -> None:
    answer = run.get("/review/review.pdf?since=2026-02-01&until=2026-03-02")
    assert answer.status_code == 200
    assert 'filename="2026-02-01-2026-03-02-review.pdf"' in answer.headers["content-disposition"]
    assert len(reader(answer.content).pages) == 1
    words = pypdf_text(answer.content)
    for each in ("Review of a block", "2 of 3 sessions recorded.", "25 of 26 finished", "Ropewalk"):
        assert each in words
    assert "give it only to whom they agreed to" in words


def test_sessions_and_what_was_done_lead_to_it(run: Browse) -> None:
    for path in ("/sessions", f"/done/{FIRST}"):
        assert page_of(run.get(path)).xpath("//a[.='Review of a block']/@href") == ["/review"]


def test_the_page_of_an_athlete_says_what_his_sessions_say_and_no_more(run: Browse) -> None:
    page = page_of(run.get(f"/squad/athlete/{FAILED}"))
    words = words_of(page.get_element_by_id("sessions-say").getparent())
    assert "Learned from 2 recorded sessions." in words
    assert words.count("too few sessions to tell") == 3
    assert "than most." not in words
    assert "Strict press" in words
    assert "tested" in words


def test_without_a_session_the_panel_says_that_there_is_nothing(browse: Browse) -> None:
    page = page_of(browse.get("/squad/athlete/A01"))
    words = words_of(page.get_element_by_id("sessions-say").getparent())
    assert "Nothing yet" in words
    assert "The most that goes up once" not in words
