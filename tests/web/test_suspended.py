"""A suspended athlete on the camp pages, in process: refused, left out, shown, opened by staff."""

from dataclasses import replace
from datetime import date

from printing.printed import flat, pypdf_text
from read_pages import club_of, page_of, words_of
from site_server import MONDAY, Browse
from squadwright.camp.of_club import camp_of_club
from squadwright.model.athlete import Event
from squadwright.services.club_changes import change_club

# Lobsang of the demo club is suspended up to and on 25 March 2026, and knocked on the head.
HELD = "suspended by Ringside doctor: no contact and no competition up to and on 25 Mar 2026"
BOUT = date(2026, 3, 14)


def with_bout(browse: Browse) -> None:
    """An event that was there before the suspension."""
    bout = Event("bout", "Harbour bout", BOUT)
    change_club(
        browse.keeper,
        lambda club: replace(
            club,
            athletes=tuple(
                replace(a, events=(bout, *a.events)) if a.id == "A10" else a for a in club.athletes
            ),
        ),
        today=MONDAY,
    )


def test_no_event_is_entered_before_it_ends(browse: Browse) -> None:
    typed = {"day-A10": "2026-03-25", "name-A10": "Cup", "priority-A10": "A"}
    page = page_of(browse.post("/camp/dates", typed), status=422)
    assert f"on 2026-03-25 Lobsang Tsewangpa is {HELD}" in words_of(page)
    assert "Only an entry of medical staff" in words_of(page)
    assert browse.post("/camp/dates", {**typed, "day-A10": "2026-03-26"}).status_code == 200
    names = [event.name for event in club_of(browse).athlete("A10").events]
    assert names.count("Cup") == 1


def test_an_event_that_was_there_is_left_out_of_the_camp_and_shown(browse: Browse) -> None:
    with_bout(browse)
    mine = next(a for a in camp_of_club(club_of(browse), MONDAY).athletes if a.id == "A10")
    assert "bout" not in [event.id for event in mine.events]
    assert len(mine.events) == 1
    season = words_of(page_of(browse.get("/camp/season")))
    assert f"{HELD}; not for Harbour bout on Sat 14 Mar" in season
    # On paper once where it begins, and once more in the week of the bout.
    printed = flat(pypdf_text(browse.get("/camp/season/season.pdf").content))
    assert printed.count(HELD) == 2
    week = words_of(page_of(browse.get("/camp/week?day=2026-03-09")))
    assert f"Lobsang Tsewangpa is {HELD}; not for Harbour bout on Sat 14 Mar" in week
    assert HELD not in words_of(page_of(browse.get("/camp/week?day=2026-03-30")))


def test_the_mats_say_that_he_may_not_compete(browse: Browse) -> None:
    with_bout(browse)
    page = page_of(browse.get(f"/camp/event-day/{BOUT}?ahead-A10.bout=1"))
    lines = [words_of(line) for line in page.xpath("//ol[@id='queue']/li")]
    assert lines[-1] == "Lobsang Tsewangpa May not compete Harbour bout"
    assert f"May not compete: {HELD}." in words_of(page)
    printed = flat(pypdf_text(browse.get(f"/camp/event-day/{BOUT}/sheet.pdf").content))
    assert f"May not compete: {HELD}." in printed
