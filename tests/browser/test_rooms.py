"""Rooms in a real browser: capability "floor plan and spacing check", and the bad day on which
somebody else has half the floor; a room made and changed by mouse, by key and by numbers."""

from collections.abc import Callable

import pytest
from playwright.sync_api import Locator, Page, expect
from shapely import Polygon, box

from looks import (
    Look,
)
from site_server import RunningSite
from squadwright.model.room import Room

Opener = Callable[..., Page]
PHONE = Look("light", 360)
DESK = Look("light", 1440)
WEIGHTS = "/store/rooms/weights-room"
LESS = "/floor/monday-barbell?free=metres&x_m=0&y_m=0&width_m=8&depth_m=8"


def room_of(site: RunningSite, room: str) -> Room:
    with site.keeper.reading() as store:
        club = store.load_club()
    assert club is not None
    return club.room(room)


def handle(page: Page, name: str) -> Locator:
    return page.locator(f".room-handle[aria-label^='{name},']")


def metre_px(page: Page) -> float:
    """How many pixels a metre is on the drawing: 100 units of its view."""
    return float(
        page.evaluate(
            "() => { const s = document.querySelector('.room-editor svg');"
            " return 100 * s.getBoundingClientRect().width / s.viewBox.baseVal.width; }"
        )
    )


def drag(page: Page, name: str, along_m: float, across_m: float) -> None:
    """Take a mark with the mouse and move it so many metres."""
    spot = handle(page, name).locator(".room-grip").bounding_box()
    assert spot is not None
    x, y = spot["x"] + spot["width"] / 2, spot["y"] + spot["height"] / 2
    metre = metre_px(page)
    page.mouse.move(x, y)
    page.mouse.down()
    page.mouse.move(x + along_m * metre / 2, y - across_m * metre / 2)
    page.mouse.move(x + along_m * metre, y - across_m * metre)
    page.mouse.up()


def test_six_bar_stations_fit_seven_do_not_and_overhead_throws_are_warned_of(
    site: RunningSite, open_page: Opener
) -> None:
    """The room of the demo club: 11.5 x 8.0 m; the drawing is re-checked with Shapely."""
    page = open_page(f"{site.url}{WEIGHTS}", look=DESK)
    expect(page.get_by_text("6 bar stations fit, 7 do not.").first).to_be_visible()
    expect(page.locator(".sentence-warning").first).to_contain_text(
        "The ceiling is 3.4 m: too low for Backward throw over the head (5 m)"
    )
    page.get_by_role("link", name="6 bar stations fit").click()
    rects = page.evaluate(
        "() => [...document.querySelectorAll('.drawing svg rect')]"
        ".filter(r => /^bar \\d$/.test(r.querySelector('title')?.textContent ?? ''))"
        ".map(r => ['x', 'y', 'width', 'height'].map(n => Number(r.getAttribute(n)) / 100))"
    )
    shapes = [box(x, y, x + wide, y + deep) for x, y, wide, deep in rects]
    assert len(shapes) == 6
    points = page.locator(".drawing svg > polygon").first.get_attribute("points") or ""
    room = Polygon([[float(n) / 100 for n in point.split(",")] for point in points.split()])
    for number, shape in enumerate(shapes):
        assert shape.buffer(0.909, join_style="mitre").difference(room).area < 1e-6
        for other in shapes[number + 1 :]:
            assert shape.distance(other) >= 0.909
    expect(page.locator(".walk li")).to_have_count(6)


def test_a_throw_line_across_a_landing_lane_is_refused_on_the_page(
    site: RunningSite, open_page: Opener
) -> None:
    page = open_page(f"{site.url}/store/rooms/mat-hall", look=PHONE)
    page.get_by_role("link", name="Add a landing lane").click()
    for label, value in (
        ("Name", "jump lane"),
        ("Along the room", "2"),
        ("Across the room", "2"),
        ("Size along the room", "1.5"),
        ("Size across the room", "7"),
    ):
        page.get_by_label(label, exact=True).fill(value)
    page.get_by_role("button", name="Store").click()
    expect(page.locator(".form-wrong")).to_contain_text(
        "the throw line of padded south wall, 4 m deep, crosses the landing lane jump lane"
    )
    assert room_of(site, "mat-hall").lanes == ()
    page.get_by_label("Across the room", exact=True).fill("4.5")
    page.get_by_role("button", name="Store").click()
    expect(page.locator(".changed")).to_contain_text("jump lane: landing lane is in Mat hall.")
    page.get_by_role("button", name="Undo").click()
    expect(page.locator(".changed")).to_contain_text("Taken back.")
    assert room_of(site, "mat-hall").lanes == ()


def test_a_room_is_made_and_changed_by_numbers_without_scripts(
    site: RunningSite, open_page: Opener
) -> None:
    page = open_page(f"{site.url}/store/rooms", look=PHONE, scripts=False)
    page.get_by_role("link", name="New room").click()
    for label, value in (("Name", "Boat shed"), ("Length", "9"), ("Width", "6"), ("Ceiling", "34")):
        page.get_by_label(label, exact=True).fill(value)
    page.get_by_role("button", name="Make the room").click()
    expect(page.get_by_role("form", name="Please say what is meant")).to_contain_text(
        "34 m high? Usual is 2.2 to 14 m. 3.4 m?"
    )
    page.get_by_role("button", name="3.4 m", exact=True).click()
    expect(page.locator(".changed")).to_contain_text("Boat shed is a room of the club.")
    page.get_by_role("link", name="Add a door").click()
    for label, value in (("Name", "gate"), ("Along the room", "4.5"), ("Across the room", "1")):
        page.get_by_label(label, exact=True).fill(value)
    page.get_by_role("button", name="Store").click()
    expect(page.locator(".form-wrong")).to_contain_text("is in no wall")
    page.get_by_label("Across the room", exact=True).fill("0")
    page.get_by_role("button", name="Store").click()
    page.get_by_role("link", name="Move things").click()
    page.get_by_role("group", name="gate").get_by_label("Along, m").fill("2")
    page.get_by_role("button", name="Store").click()
    expect(page.locator(".changed")).to_contain_text("Things in Boat shed are moved.")
    shed = room_of(site, "boat-shed")
    assert (shed.ceiling_m, shed.outline[2]) == (3.4, (9.0, 6.0))
    assert (shed.doors[0].x_m, shed.doors[0].y_m) == (2.0, 0.0)


def test_things_and_corners_are_moved_with_the_mouse(site: RunningSite, open_page: Opener) -> None:
    page = open_page(f"{site.url}{WEIGHTS}/move", look=DESK)
    drag(page, "column", -1.0, 0.5)
    expect(page.locator("#field-obstacles_0_x")).to_have_value("5")
    expect(page.locator("#field-obstacles_0_y")).to_have_value("4.5")
    expect(page.locator(".room-live")).to_have_text("column: 5 m along, 4.5 m across.")
    drag(page, "door to the hall", 1.2, 2.0)  # it stays in its wall
    expect(page.locator("#field-doors_0_x")).to_have_value("0")
    expect(page.locator("#field-doors_0_y")).to_have_value("2.8")
    drag(page, "Corner 4", -0.5, 0.5)
    assert room_of(site, "weights-room").obstacles[0].x_m == 6.0  # nothing is stored by a drag
    page.get_by_role("button", name="Store").click()
    expect(page.locator(".changed")).to_contain_text("Things in Weights room are moved.")
    room = room_of(site, "weights-room")
    assert (room.obstacles[0].x_m, room.obstacles[0].y_m) == (5.0, 4.5)
    assert room.outline[3] == (0.0, 8.5)  # no corner goes left of 0 m
    page.get_by_role("button", name="Undo").click()
    assert room_of(site, "weights-room").obstacles[0].x_m == 6.0


def test_things_are_moved_by_key_and_told_aloud(site: RunningSite, open_page: Opener) -> None:
    page = open_page(f"{site.url}{WEIGHTS}/move", look=PHONE)
    page.get_by_role("link", name="Back to the room").focus()
    for _ in range(5):
        page.keyboard.press("Tab")  # four corners, then the column
    expect(handle(page, "column")).to_be_focused()
    page.keyboard.press("ArrowRight")
    page.keyboard.press("ArrowUp")
    page.keyboard.press("Shift+ArrowLeft")
    live = page.locator(".room-live")
    expect(live).to_have_text("column: 5.55 m along, 4.05 m across.")
    assert live.get_attribute("aria-live") == "polite"
    page.keyboard.press("Tab")
    page.keyboard.press("Tab")
    expect(handle(page, "door to the hall")).to_be_focused()
    page.keyboard.press("Shift+ArrowUp")
    expect(live).to_have_text("door to the hall: 0 m along, 1.3 m across.")
    page.get_by_role("button", name="Store").press("Enter")
    expect(page.locator(".changed")).to_contain_text("Things in Weights room are moved.")
    room = room_of(site, "weights-room")
    assert (room.obstacles[0].x_m, room.obstacles[0].y_m) == (5.55, 4.05)
    assert room.doors[0].y_m == 1.3


@pytest.mark.parametrize("scripts", [True, False])
def test_badminton_has_half_the_floor(site: RunningSite, open_page: Opener, scripts: bool) -> None:
    """A bad day: the stations are counted anew, two waves become three, the time is told."""
    page = open_page(f"{site.url}/today/monday-barbell", look=PHONE, scripts=scripts)
    page.get_by_role("link", name="Less floor, or another room").click()
    expect(page.get_by_role("heading", level=1)).to_have_text("Floor today: Monday barbell")
    page.get_by_label("Length along").fill("8")
    page.get_by_label("Width across").fill("8")
    page.get_by_role("button", name="See what it changes").click()
    effect = (
        "4 bar stations instead of 6: 3 waves instead of 2. "
        "The work takes 18 minutes instead of 16 minutes, 2 minutes longer."
    )
    expect(page.locator(".floor-effect")).to_contain_text(effect)
    page.get_by_role("button", name="Use this floor").click()
    expect(page.locator(".changed")).to_contain_text(effect)
    expect(page.locator(".changed")).to_be_in_viewport()
    page.get_by_role("link", name="See the plan").click()
    expect(page.locator(".bar")).to_have_count(4)
    expect(page.locator(".load")).to_have_count(12)
    expect(page.get_by_role("img", name="wave C").first).to_be_visible()
    page.get_by_role("link", name="Less floor, or another room").click()
    page.get_by_role("link", name="Left half, 5.75 x 8 m, with door to the hall").click()
    expect(page.locator(".floor-effect")).to_contain_text(
        "Only 2 of 6 bar stations fit. 12 lifters on 2 stations need 6 waves; the most is 4."
    )
    page.get_by_role("link", name="Bell buoy: throwing power and trunk").click()
    expect(page.locator(".floor-effect")).to_contain_text("No bar on the floor.")
    page.get_by_role("button", name="Use this floor and swap to Bell buoy").click()
    page.get_by_role("link", name="See the plan").click()
    expect(page.locator(".page-line")).to_contain_text("Bell buoy")
    page.go_back()
    page.get_by_role("link", name="The whole of Weights room").click()
    expect(page.locator(".floor-effect")).to_contain_text("has the whole of Weights room")


def test_storing_less_floor_is_taken_back(site: RunningSite, open_page: Opener) -> None:
    page = open_page(f"{site.url}{LESS}", look=DESK)
    page.get_by_role("button", name="Use this floor").click()
    page.get_by_role("button", name="Undo").click()
    expect(page.locator(".floor-now")).to_have_text("Monday barbell has the whole of Weights room.")
