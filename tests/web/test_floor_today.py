"""Less floor today in process: seen before it is stored, stored, told again, taken back."""

import pytest
from lxml import html

from read_pages import club_of
from site_server import Browse
from squadwright.model.session import FloorPart

FLOOR = "/floor/monday-barbell"
LESS = {"free": "metres", "x_m": "0", "y_m": "0", "width_m": "8", "depth_m": "8"}
EFFECT = (
    "4 bar stations instead of 6: 3 waves instead of 2. The work takes 18 minutes instead of "
    "16 minutes, 2 minutes longer. It would take 62 minutes; to fit 60: Ropewalk 4 to 3 rounds."
)


def words_of(text: str) -> str:
    return " ".join(html.fromstring(text).get_element_by_id("content").text_content().split())


def test_what_less_floor_changes_is_told_before_and_after_it_is_stored(browse: Browse) -> None:
    before = club_of(browse)
    seen = browse.get(FLOOR, params=LESS)
    assert EFFECT in words_of(seen.text)
    assert club_of(browse) == before
    stored = browse.post(FLOOR, LESS)
    words = words_of(stored.text)
    assert "Monday barbell has 8 x 8 m of Weights room today." in words
    assert words.count(EFFECT) == 2  # in the line that tells what changed, and on the page
    part = club_of(browse).session("monday-barbell").floor_today
    assert part is not None
    assert part.part == FloorPart(0, 0, 8, 8)
    assert "Weights room, part of 8 x 8 m" in words_of(browse.get("/today").text)
    undo = html.fromstring(stored.text).xpath("//form[starts-with(@action, '/undo/')]/@action")[0]
    browse.post(undo)
    assert club_of(browse) == before
    assert "has the whole of Weights room" in words_of(browse.get(FLOOR).text)


def test_the_whole_room_again_gives_the_plan_that_was(browse: Browse) -> None:
    before = club_of(browse)
    browse.post(FLOOR, {"free": "left"})
    assert "Only 2 of 6 bar stations fit." in words_of(browse.get(FLOOR).text)
    browse.post(FLOOR, {"free": "whole"})
    assert club_of(browse) == before


def test_each_half_says_its_size_and_its_door(browse: Browse) -> None:
    words = words_of(browse.get(FLOOR).text)
    assert "Left half, 5.75 x 8 m, with door to the hall" in words
    assert "Upper half, 11.5 x 4 m, no door" in words


def test_a_half_too_small_for_four_waves_offers_throws_and_takes_them(browse: Browse) -> None:
    words = words_of(browse.get(FLOOR, params={"free": "left"}).text)
    assert "Only 2 of 6 bar stations fit." in words
    assert "12 lifters on 2 stations need 6 waves; the most is 4." in words
    assert "Bell buoy: throwing power and trunk" in words
    swapped = browse.post(FLOOR, {"free": "left", "routine": "bell-buoy"})
    assert swapped.status_code == 200
    session = club_of(browse).session("monday-barbell")
    assert session.routine == "bell-buoy"
    today = words_of(browse.get("/today").text)
    assert "Bell buoy" in today
    undo = html.fromstring(swapped.text).xpath("//form[starts-with(@action, '/undo/')]/@action")[0]
    browse.post(undo)
    assert club_of(browse).session("monday-barbell").routine == "ropewalk"


def test_another_room_is_one_tap_away_and_told(browse: Browse) -> None:
    words = words_of(browse.post(FLOOR, {"free": "room:mat-hall"}).text)
    assert "Monday barbell is in Mat hall today. Everything stays as it was" in words


@pytest.mark.parametrize(
    ("changed", "told"),
    [
        ({"width_m": "12"}, "the free part reaches to 12 m and Weights room ends at 11.5 m"),
        ({"width_m": "x"}, "'x' is not a number"),
        ({"depth_m": "0.2"}, "0.2 m is outside 0.5 to 200 m"),
        ({"free": "cellar"}, "'cellar' is not one of the choices"),
        ({"routine": "ropewalk"}, "EFFECT"),
        ({"routine": "nothing"}, "'nothing' is no routine of throws"),
    ],
)
def test_a_floor_that_cannot_be_is_refused_on_both_ways(
    browse: Browse, changed: dict[str, str], told: str
) -> None:
    asked = {**LESS, **changed}
    seen, stored = browse.get(FLOOR, params=asked), None
    if told == "EFFECT":
        assert EFFECT in words_of(seen.text)
        return
    before = club_of(browse)
    stored = browse.post(FLOOR, asked)
    for answer in (seen, stored):
        assert answer.status_code == 422
        assert told in words_of(answer.text)
    assert club_of(browse) == before


def test_a_room_cannot_shrink_below_the_part_a_session_has_of_it(browse: Browse) -> None:
    browse.post(FLOOR, {"free": "right"})
    path = "/store/rooms/weights-room"
    page = html.fromstring(browse.get(f"{path}/low-ceilings/0").text)
    (shown,) = page.xpath(
        f"//form[@action='{path}/low-ceilings/0/remove']//*[@name='shown']/@value"
    )
    browse.post(f"{path}/low-ceilings/0/remove", {"shown": shown})
    page = html.fromstring(browse.get(f"{path}/shape").text)
    (shown,) = page.xpath("//input[@name='shown']/@value")
    answer = browse.post(
        f"{path}/shape",
        {
            **{"name": "Weights room", "shape": "rectangle", "length_m": "5.6", "width_m": "8"},
            **{"ceiling_m": "3.4", "surface": "rubber", "north_deg": "90", "shown": shown},
        },
    )
    assert answer.status_code == 422


def test_the_plan_leads_to_the_floor(browse: Browse) -> None:
    page = html.fromstring(browse.get("/today").text)
    (link,) = page.xpath("//a[normalize-space()='Less floor, or another room']/@href")
    assert link == FLOOR
