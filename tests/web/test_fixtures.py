"""Calendar files in process: the week out with ids that stay, fixtures in after a preview."""

from datetime import date, datetime
from typing import Any

from icalendar import Calendar
from lxml.html import HtmlElement

from read_pages import club_of, page_of, words_of
from site_server import Browse

FIXTURES = "/camp/week/fixtures"
WEEK = "/camp/week"
LEAGUE = """BEGIN:VCALENDAR\r
VERSION:2.0\r
PRODID:-//League//EN\r
BEGIN:VEVENT\r
UID:round-1\r
DTSTAMP:20260301T000000Z\r
DTSTART;TZID=Europe/Lisbon:20260314T230000\r
DTEND;TZID=Europe/Lisbon:20260315T003000\r
SUMMARY:League round\r
LOCATION:Harbour hall\r
END:VEVENT\r
BEGIN:VEVENT\r
UID:camp\r
DTSTAMP:20260301T000000Z\r
DTSTART;VALUE=DATE:20260305\r
SUMMARY:Federation camp\r
END:VEVENT\r
END:VCALENDAR\r
"""


def looked_at(browse: Browse, text: str, status: int = 200) -> HtmlElement:
    files = {"calendar": ("league.ics", text.encode(), "text/calendar")}
    return page_of(browse.post(f"{FIXTURES}/look", files=files), status)


def stored(browse: Browse, page: HtmlElement) -> HtmlElement:
    content = page.xpath("//input[@name='content']/@value")[0]
    return page_of(browse.post(f"{FIXTURES}/take", {"content": content}))


def test_fixtures_are_looked_at_before_they_are_stored(browse: Browse) -> None:
    before = club_of(browse)
    page = looked_at(browse, LEAGUE)
    said = words_of(page)
    assert "Nothing is stored yet." in said
    assert "Sat 14 Mar, 23:00 to Sun 15 Mar, 00:30 2026; Europe/Lisbon; Harbour hall" in said
    assert club_of(browse) == before
    page = stored(browse, page)
    assert "Fixtures: 2 new, 0 changed, 0 gone." in words_of(page)
    assert len(club_of(browse).fixtures) == 2
    assert "Federation camp." in words_of(page_of(browse.get(WEEK)))
    assert "The file changes nothing." in words_of(looked_at(browse, LEAGUE))
    out = browse.get(f"{FIXTURES}/fixtures.ics").text
    assert "The file changes nothing." in words_of(looked_at(browse, out))


def test_what_changed_and_what_is_gone_is_shown_and_can_be_taken_back(browse: Browse) -> None:
    stored(browse, looked_at(browse, LEAGUE))
    before = club_of(browse)
    head, _, tail = LEAGUE.partition("BEGIN:VEVENT\r\nUID:camp")
    later = head.replace("20260314", "20260321").replace("20260315", "20260322")
    page = looked_at(browse, later + "END:VCALENDAR\r\n")
    assert tail
    said = words_of(page)
    assert "Before: League round; Sat 14 Mar, 23:00" in said
    assert "Gone" in said
    page = stored(browse, page)
    (fixture,) = club_of(browse).fixtures
    assert fixture.starts_on == date(2026, 3, 21)
    browse.post(page.find_class("changed")[0].find("form").get("action"))
    assert club_of(browse) == before
    page_of(browse.post(f"{FIXTURES}/{fixture.id}/remove"))
    assert len(club_of(browse).fixtures) == 1


def test_a_file_that_is_no_calendar_gets_a_clear_line(browse: Browse) -> None:
    page = looked_at(browse, "<html>", 422)
    assert "does not begin with BEGIN:VCALENDAR" in words_of(page)
    damaged = page_of(browse.post(f"{FIXTURES}/take", {"content": "%%"}), 422)
    assert "came back damaged" in words_of(damaged)
    page_of(browse.post(f"{FIXTURES}/look", {"calendar": ""}), 422)


def sparring(browse: Browse, day: str) -> Any:
    calendar = Calendar.from_ical(browse.get(f"{WEEK}/week.ics").content)
    return next(
        e
        for e in calendar.walk("VEVENT")
        if str(e["summary"]) == "MMA sparring" and e["dtstart"].dt.date() == date.fromisoformat(day)
    )


def test_the_calendar_keeps_its_ids_and_counts_up_with_each_change(browse: Browse) -> None:
    before = sparring(browse, "2026-03-03")
    path = f"{WEEK}/tue-sparring/2026-03-03"
    form = page_of(browse.get(path))
    fields = {i.get("name"): i.get("value") for i in form.xpath("//main//input[@name]")}
    fields.pop("is_off", None)
    page = page_of(browse.post(path, {**fields, "room": "mat-hall", "day": "2026-03-05"}))
    after = sparring(browse, "2026-03-05")
    assert after["uid"] == before["uid"]
    assert after["sequence"] > before["sequence"]
    assert isinstance(after["last-modified"].dt, datetime)
    browse.post(page.find_class("changed")[0].find("form").get("action"))
    back = sparring(browse, "2026-03-03")
    assert back["sequence"] > after["sequence"]
    assert browse.get(f"{WEEK}/week.ics").content == browse.get(f"{WEEK}/week.ics").content
