"""Around and after events in process: which one counts, the way back, a camp looked back on."""

import re
from dataclasses import replace
from datetime import UTC, date, datetime, timedelta
from pathlib import Path

import pytest

from lived_sessions import FAILED, FIRST, FIRST_MONDAY, SECOND, WEEK, club_of_mondays, live, save
from printing.printed import pypdf_text, reader
from read_pages import changed, club_of, page_of, words_of
from site_server import MONDAY, Browse, browse_on, empty_keeper, keeper_on_copy
from squadwright.model.athlete import Event, Priority
from squadwright.model.club import Club
from squadwright.model.diary import SessionDone
from squadwright.services.club_changes import change_club
from squadwright.services.load import tell_session

CLOSE = "/camp/close-events/A02/A02-1"
DAY = date(2026, 3, 1)
REVIEW = f"/camp/review/{FAILED}/cup"


def content(browse: Browse, path: str) -> str:
    return words_of(page_of(browse.get(path)).get_element_by_id("content"))


def with_events(club: Club, athlete: str, *events: Event) -> Club:
    return replace(
        club,
        week=(),
        athletes=tuple(replace(a, events=events) if a.id == athlete else a for a in club.athletes),
    )


@pytest.fixture(scope="module")
def lived_file(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Two Mondays lived, a cup the day before the third, and 28 days of load told before it."""
    folder = tmp_path_factory.mktemp("lived")
    keeper = empty_keeper(folder)
    club = club_of_mondays()
    earlier = tuple(replace(s, held_on=s.held_on - 2 * WEEK) for s in club.sessions)
    cup = Event("cup", "Harbour cup", DAY, bouts_expected=3)
    old = Event("old", "Island cup", DAY - timedelta(days=40))
    save(keeper, with_events(replace(club, sessions=earlier), FAILED, old, cup))
    live(keeper, FIRST, *FIRST_MONDAY)
    live(keeper, SECOND)
    for before in range(1, 29):
        tell_session(
            keeper,
            FAILED,
            DAY - timedelta(days=before),
            SessionDone("Mat", "wrestling", 60, effort=3.0 if before <= 7 else 6.0),
            today=MONDAY,
            now=datetime(2026, 3, 2, 12, tzinfo=UTC),
        )
    keeper.back_up(folder / "lived.sqlite3")
    return folder / "lived.sqlite3"


@pytest.fixture
def camp(lived_file: Path, tmp_path: Path) -> Browse:
    """The site after that cup."""
    return browse_on(keeper_on_copy(lived_file, tmp_path))


def test_which_of_two_close_events_counts_is_asked_and_kept(browse: Browse) -> None:
    words = content(browse, CLOSE)
    assert "8 days apart" in words
    assert "2 of 4 rounds at the same load, 50 % less" in words
    assert "One touch of power, on Tue 17 Mar, 5 days before the second event." in words
    assert "Second weigh-in: 74 kg" in words
    page = page_of(browse.post(CLOSE, {"peak": "the second"}))
    assert changed(page).startswith("Peaks for the second.")
    assert [e.priority for e in club_of(browse).athlete("A02").events[:2]] == [
        *(Priority.B, Priority.A),
    ]
    [undo] = page.xpath("//div[contains(@class, 'changed')]//form/@action")
    browse.post(undo, {"back": CLOSE})
    assert club_of(browse).athlete("A02").events[0].priority is Priority.A


def test_an_answer_that_is_none_is_refused(browse: Browse) -> None:
    page = page_of(browse.post(CLOSE, {"peak": "neither"}), status=422)
    assert "is not one of the choices" in words_of(page)
    for path in ("/camp/close-events/A02/A02-2", "/camp/close-events/A01/none"):
        assert browse.get(path).status_code == 404


def test_the_athlete_leads_to_all_three(camp: Browse) -> None:
    page = camp.get(f"/squad/athlete/{FAILED}").text
    assert f'href="/camp/return/{FAILED}/cup"' in page
    assert f'href="{REVIEW}"' in page
    assert f'href="{CLOSE}"' not in page


def test_the_way_back_holds_jumps_until_mass_is_read(camp: Browse) -> None:
    words = content(camp, f"/camp/return/{FAILED}/cup")
    assert "No jumps yet." in words
    assert words.index("Rest and look") < words.index("Half the rounds") < words.index("As usual")
    assert words.count("Without the jumps.") == 2


def test_a_plan_with_jumps_in_the_week_after_is_stopped(browse: Browse) -> None:
    cup = Event("cup", "Harbour cup", MONDAY)

    def change(club: Club) -> Club:
        return replace(with_events(club, "A02", cup), week=club.week)

    change_club(browse.keeper, change, today=MONDAY)
    words = content(browse, "/today/wednesday-plyometric")
    assert "Iskander Yulbarin competed 2 days ago and has jumps in this plan" in words
    assert "no body mass was read since the event" in words
    assert "has jumps in this plan" not in content(browse, "/today/monday-barbell")


def test_a_camp_says_what_was_planned_and_done_and_the_taper(camp: Browse) -> None:
    words = content(camp, REVIEW)
    assert "Came 2 of 2, 100 %" in words
    assert "Came in the last 4 weeks 2 of 2, 100 %" in words
    assert re.search(r"Rounds done (\d+) of \1, 100 %", words)
    # 6 known days of 60 min at 3 against 21 of 60 min at 6 with one Monday of 60 min at 9 on top:
    # 1 - 180 / (360 + 540 / 21) = 0.533, within 41 to 60 %.
    assert "53 % less a day in the last week than in the three before: within" in words
    assert "nothing was planned in numbers" in words
    assert "too few to tell (0 earlier)" in words
    assert "Too few earlier camps of the athlete to tell: 0, and 3 are needed." in words
    page = page_of(camp.get(REVIEW))
    assert page.get_element_by_id("field-keep").text.strip() == (
        "Attendance 100 %, rounds 100 %, taper 53 %."
    )


def test_three_lines_are_accepted_in_one_tap_changed_and_taken_back(camp: Browse) -> None:
    page = page_of(camp.get(REVIEW))
    start = {n: page.get_element_by_id(f"field-{n}").text for n in ("keep", "change", "first")}
    kept = page_of(camp.post(REVIEW, start))
    assert changed(kept).startswith("Kept.")
    assert "Keep them again" in words_of(kept)
    again = page_of(camp.post(REVIEW, {**start, "keep": "Short Fridays"}))
    assert again.get_element_by_id("field-keep").text.strip() == "Short Fridays"
    [undo] = again.xpath("//div[contains(@class, 'changed')]//form/@action")
    back = page_of(camp.post(undo, {"back": REVIEW}))
    assert back.get_element_by_id("field-keep").text.strip() == start["keep"].strip()


def test_lines_that_cannot_be_kept_stay_in_the_form(camp: Browse) -> None:
    empty = page_of(camp.post(REVIEW, {"keep": "", "change": "", "first": ""}), status=422)
    assert "Write one line at least" in words_of(empty)
    long = page_of(camp.post(REVIEW, {"keep": "x" * 401, "change": "Less mat"}), status=422)
    assert "at most 400 fit" in words_of(long)
    assert long.get_element_by_id("field-change").text.strip() == "Less mat"


def test_a_camp_prints_on_one_page(camp: Browse) -> None:
    pdf = camp.get(f"{REVIEW}/sheet.pdf").content
    assert len(reader(pdf).pages) == 1
    text = " ".join(pypdf_text(pdf).split())
    for words in ("Rounds done", "Taper", "53 % less a day", "To be accepted", "Caution."):
        assert words in text


def test_a_camp_is_looked_back_on_when_it_is_over(browse: Browse) -> None:
    assert browse.get("/camp/review/A02/A02-1").status_code == 409
    assert browse.get("/camp/review/A02/none").status_code == 404
    assert browse.get("/camp/return/A99/none").status_code == 404
