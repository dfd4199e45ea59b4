"""The calendar of the club in process: time zone, closures, school terms, travel."""

from datetime import date
from typing import Any

import pytest

from read_pages import club_of, page_of, words_of
from site_server import Browse
from squadwright.model.calendar import Closure

CALENDAR = "/sessions/calendar"
VARNISH = {"name": "varnish again", "starts_on": "2026-05-04", "ends_on": "2026-05-06"}


def test_the_demo_calendar_has_the_days_its_hall_is_lost(browse: Browse) -> None:
    page = words_of(page_of(browse.get(CALENDAR)))
    for said in ("Wed 18 Mar 2026", "Mon 30 Mar to Sat 4 Apr 2026", "Floor varnish", "Spring term"):
        assert said in page
    assert "Dónal Mac Firvane, America/Sao_Paulo." in page


@pytest.mark.parametrize(
    ("part", "typed"),
    [
        ("closures", {**VARNISH, "rooms": ["mat-hall"]}),
        ("terms", VARNISH),
        ("travel", {**VARNISH, "athlete": "A02", "time_zone": "Asia/Tokyo"}),
    ],
)
def test_an_entry_is_added_changed_taken_out_and_put_back(
    browse: Browse, part: str, typed: dict[str, Any]
) -> None:
    before = club_of(browse)
    page_of(browse.post(f"{CALENDAR}/{part}/new", typed))
    added = getattr(club_of(browse), part)[-1]
    assert (added.name, added.ends_on) == ("varnish again", date(2026, 5, 6))
    path = f"{CALENDAR}/{part}/{added.id}"
    shown = page_of(browse.get(path)).xpath("//input[@name='shown']/@value")[0]
    page_of(browse.post(path, {**typed, "shown": shown, "ends_on": "2026-05-07"}))
    assert getattr(club_of(browse), part)[-1].ends_on == date(2026, 5, 7)
    stale = page_of(browse.post(path, {**typed, "shown": shown}), 422)
    assert "changed somewhere else" in words_of(stale)
    page = page_of(browse.post(f"{path}/remove"))
    assert club_of(browse) == before
    page_of(browse.post(page.find_class("changed")[0].find("form").get("action")))
    assert getattr(club_of(browse), part)[-1].id == added.id


def test_a_last_day_before_the_first_is_told_beside_it_and_kept(browse: Browse) -> None:
    typed = {**VARNISH, "ends_on": "2026-05-01"}
    page = page_of(browse.post(f"{CALENDAR}/closures/new", typed), 422)
    assert "2026-05-01 is before the first day 2026-05-04" in words_of(page)
    assert page.xpath("//input[@name='ends_on']/@value") == ["2026-05-01"]
    assert page.xpath("//input[@name='name']/@value") == ["varnish again"]


def test_a_time_zone_is_one_of_the_iana_database(browse: Browse) -> None:
    wrong = page_of(browse.post(CALENDAR, {"time_zone": "Europe/Lisbonn"}), 422)
    assert "Did you mean 'Europe/Lisbon'?" in words_of(wrong)
    assert wrong.xpath("//input[@name='time_zone']/@value") == ["Europe/Lisbonn"]
    page_of(browse.post(CALENDAR, {"time_zone": "Asia/Tokyo"}))
    assert club_of(browse).time_zone == "Asia/Tokyo"


def test_an_athlete_who_goes_takes_his_travel_along(browse: Browse) -> None:
    page_of(browse.post("/squad/athlete/A06/remove"))
    assert club_of(browse).travel == ()


def test_a_session_on_a_lost_day_is_asked_about_once(browse: Browse) -> None:
    path = "/sessions/wednesday-plyometric/copy"
    asked = page_of(browse.post(path, {"held_on": "2026-03-18"}), 422)
    assert "is lost: blood-donor day. Is it held all the same?" in words_of(asked)
    assert set(asked.xpath("//input[@name='held_on']/@value")) == {"2026-03-18"}


def test_a_session_from_a_slot_has_its_room_and_its_staff(browse: Browse) -> None:
    page = page_of(browse.get("/sessions/new?slot=fri-short&day=2026-03-06"))
    assert page.xpath("//select[@name='room']/option[@selected]/@value") == ["weights-room"]
    assert page.xpath("//input[@name='staff'][@checked]/@value") == ["Head coach"]


def test_a_closure_shuts_the_whole_place_or_the_room_it_names() -> None:
    day = date(2026, 5, 4)
    whole = Closure("a", "varnish", day, day)
    assert whole.shuts("mat-hall", day)
    assert whole.shuts(None, day)
    assert not whole.shuts("mat-hall", date(2026, 5, 5))
    hall = Closure("a", "varnish", day, day, ("mat-hall",))
    assert hall.shuts("mat-hall", day)
    assert not hall.shuts("weights-room", day)
    assert not hall.shuts(None, day)
