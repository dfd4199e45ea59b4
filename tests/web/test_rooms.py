"""The rooms in process: what their pages say, what is stored, and what is refused or asked."""

from typing import Any

import pytest
from lxml import html
from shapely import Polygon, box

from read_pages import words_of
from site_server import Browse
from squadwright.model.room import Room

WEIGHTS = "/store/rooms/weights-room"
HALL = "/store/rooms/mat-hall"


def main_of(text: str) -> html.HtmlElement:
    return html.fromstring(text).get_element_by_id("content")


def page_words(browse: Browse, path: str) -> str:
    answer = browse.get(path)
    assert answer.status_code == 200
    return words_of(main_of(answer.text))


def room_of(browse: Browse, room: str) -> Room:
    with browse.keeper.reading() as store:
        club = store.load_club()
    assert club is not None
    return club.room(room)


def fields_of(browse: Browse, path: str, action: str) -> dict[str, Any]:
    """What stands in a form of a page."""
    page = html.fromstring(browse.get(path).text)
    (form,) = page.xpath(f"//form[@action='{action}' and .//input[@type='text' or @name='shown']]")
    return {name: value for name, value in form.form_values() if name != "_token"}


def filled(browse: Browse, path: str, changed: dict[str, str]) -> dict[str, Any]:
    """What is sent: a form as its page shows it, some fields changed; numbers of points by id."""
    if not path.endswith("/move"):
        return {**fields_of(browse, path, path), **changed}
    page = html.fromstring(browse.get(path).text)
    sent: dict[str, Any] = {"shown": page.xpath("//input[@name='shown']/@value")}
    sent["key"] = page.xpath("//input[@name='key']/@value")
    for name, ending in (("along", "x"), ("across", "y")):
        points = page.xpath(f"//input[@name='{name}']")
        ids = [point.get("id").removeprefix("field-") for point in points]
        assert ids == [f"{key}_{ending}" for key in sent["key"]]
        sent[name] = [changed.get(i, p.get("value")) for i, p in zip(ids, points, strict=True)]
    return sent


def send(browse: Browse, path: str, **changed: str) -> tuple[int, str]:
    """Send a form of a page with some fields changed."""
    answer = browse.post(path, filled(browse, path, changed))
    return answer.status_code, words_of(main_of(answer.text))


def test_the_room_says_that_six_bar_stations_fit_and_seven_do_not(browse: Browse) -> None:
    words = page_words(browse, WEIGHTS)
    assert "6 bar stations fit, 7 do not." in words
    assert "3.11 x 2.71 m" in words
    assert "11.5 x 8 m, 92 m\N{SUPERSCRIPT TWO}, ceiling 3.4 m" in words


def test_six_stations_are_drawn_apart_inside_the_room_in_walking_order(browse: Browse) -> None:
    """The rectangles of the drawing, re-checked with Shapely: 0.91 m apart, 1 cm is one unit."""
    page = html.fromstring(browse.get(f"{WEIGHTS}?show=bars").text)
    drawn = page.xpath("//svg//rect[title[starts-with(text(), 'bar ')]]")
    shapes = []
    for rect in drawn:
        x, y, wide, deep = (float(rect.get(n)) for n in ("x", "y", "width", "height"))
        shapes.append(box(x, y, x + wide, y + deep))
    assert len(shapes) == 6
    points = page.xpath("//svg/polygon/@points")[0].split()
    room = Polygon([tuple(map(float, point.split(","))) for point in points])
    assert room.area == pytest.approx(11.5 * 8 * 1e4)
    for number, shape in enumerate(shapes):
        assert shape.buffer(91, join_style="mitre").difference(room).area < 1
        assert all(shape.distance(other) >= 90.9 for other in shapes[number + 1 :])
    walk = [words_of(each) for each in page.find_class("walk")[0]]
    assert [each.split(",")[0] for each in walk] == [f"bar {n}" for n in range(1, 7)]


def test_a_low_ceiling_warns_of_overhead_throws(browse: Browse) -> None:
    words = page_words(browse, WEIGHTS)
    assert "The ceiling is 3.4 m: too low for Backward throw over the head (5 m)" in words
    assert "Under duct along the short north wall there are 2.9 m" in words
    assert "The ceiling is" not in page_words(browse, HALL)


def test_a_room_is_made_in_one_line_and_undone(browse: Browse) -> None:
    new = {"name": "Loft", "length_m": "9", "width_m": "6", "ceiling_m": "2.8", "surface": "wood"}
    answer = browse.post("/store/rooms/new", new)
    assert answer.url.path == "/store/rooms/loft"
    assert "Loft is a room of the club." in words_of(main_of(answer.text))
    assert room_of(browse, "loft").outline == ((0.0, 0.0), (9.0, 0.0), (9.0, 6.0), (0.0, 6.0))
    (undo,) = main_of(answer.text).xpath("//form[starts-with(@action, '/undo/')]/@action")
    browse.post(undo)
    assert browse.get("/store/rooms/loft").status_code == 404


@pytest.mark.parametrize(
    ("field", "typed", "question", "meant"),
    [
        ("ceiling_m", "34", "34 m high? Usual is 2.2 to 14 m. 3.4 m?", 3.4),
        ("length_m", "115", "115 m long? Usual is 2 to 60 m. 11.5 m?", 11.5),
    ],
)
def test_a_size_that_is_seldom_right_is_asked_about(
    browse: Browse, field: str, typed: str, question: str, meant: float
) -> None:
    new = {"name": "Barn", "length_m": "9", "width_m": "6", "ceiling_m": "3", "surface": "wood"}
    answer = browse.post("/store/rooms/new", {**new, field: typed})
    assert answer.status_code == 422
    main = main_of(answer.text)
    assert question in words_of(main)
    assert main.xpath(f"//input[@name='{field}' and @type='text']/@value") == [typed]
    assert browse.get("/store/rooms/barn").status_code == 404
    (value,) = main.xpath("//button[@name='meant'][1]/@value")[:1]
    assert browse.post("/store/rooms/new", {**new, field: typed, "meant": value}).status_code == 200
    barn = room_of(browse, "barn")
    assert meant in (barn.ceiling_m, barn.outline[1][0])


def test_it_is_so_takes_the_size_as_typed(browse: Browse) -> None:
    new = {"name": "Barn", "length_m": "9", "width_m": "6", "ceiling_m": "34", "surface": "wood"}
    asked = main_of(browse.post("/store/rooms/new", new).text)
    (so,) = asked.xpath("//button[@name='so']/@value")
    assert browse.post("/store/rooms/new", {**new, "so": so}).status_code == 200
    assert room_of(browse, "barn").ceiling_m == 34


@pytest.mark.parametrize(
    ("path", "changed", "told"),
    [
        (f"{WEIGHTS}/shape", {"ceiling_m": "0.5"}, "the limits are 1.8 and 60 m"),
        (f"{WEIGHTS}/shape", {"ceiling_m": "-3"}, "-3 m is outside 0.1 to 200 m"),
        (f"{WEIGHTS}/shape", {"length_m": "5"}, "column is not inside Weights room"),
        (
            f"{WEIGHTS}/shape",
            {"shape": "corners", "outline": "0,0\n11.5,8\n11.5,0\n0,6"},
            "the walls from corner 1 and from corner 3 cross",
        ),
        (f"{WEIGHTS}/shape", {"shape": "corners", "outline": "0,0\nx,8"}, "line 2, 'x,8'"),
        (f"{WEIGHTS}/shape", {"name": "mat hall"}, "there is a room 'mat hall' already"),
        (f"{WEIGHTS}/obstacles/0", {"x_m": "11.6"}, "column is not inside Weights room"),
        (f"{WEIGHTS}/obstacles/0", {"width_m": "0"}, "0 m is outside 0.01 to 200 m"),
        (f"{WEIGHTS}/doors/0", {"x_m": "3"}, "is in no wall: the nearest one is 0.80 m away"),
        (f"{HALL}/throw-walls/0", {"end_y_m": "5"}, "lies along no wall of Mat hall"),
        (f"{WEIGHTS}/move", {"corner_0_x": "13", "corner_0_y": "9"}, "cross"),
    ],
)
def test_what_cannot_be_is_refused_and_what_was_typed_is_kept(
    browse: Browse, path: str, changed: dict[str, str], told: str
) -> None:
    room = path.split("/")[3]
    before = room_of(browse, room)
    answer = browse.post(path, filled(browse, path, changed))
    assert answer.status_code == 422
    main = main_of(answer.text)
    assert told in words_of(main)
    for name, value in changed.items():
        if name not in ("shape", "outline"):
            assert main.xpath(f"//input[@id='field-{name}']/@value") == [value]
    assert room_of(browse, room) == before


def test_things_are_added_changed_removed_and_each_is_undone(browse: Browse) -> None:
    before = room_of(browse, "weights-room")
    code, words = send(
        browse, f"{WEIGHTS}/obstacles/new", name="radiator", x_m="2", y_m="7.9", depth_m="0.2"
    )
    assert code == 200
    assert "radiator: obstacle is in Weights room." in words
    send(browse, f"{WEIGHTS}/obstacles/1", width_m="1.2")
    assert room_of(browse, "weights-room").obstacles[1].width_m == 1.2
    answer = browse.get(WEIGHTS)
    (shown,) = main_of(answer.text).xpath(
        f"//form[@action='{WEIGHTS}/obstacles/1/remove']/input[@name='shown']/@value"
    )
    gone = browse.post(f"{WEIGHTS}/obstacles/1/remove", {"shown": shown})
    assert room_of(browse, "weights-room") == before
    (undo,) = main_of(gone.text).xpath("//form[starts-with(@action, '/undo/')]/@action")
    browse.post(undo)
    assert len(room_of(browse, "weights-room").obstacles) == 2


def test_a_throw_line_across_a_landing_lane_is_refused_in_a_sentence(browse: Browse) -> None:
    """The lane reaches 1 m into a throw line of 4 m and is 1.5 m wide: 1.5 m2 are in both."""
    code, words = send(
        browse, f"{HALL}/lanes/new", name="lane 1", x_m="2", y_m="3", width_m="1.5", depth_m="6"
    )
    assert code == 422
    assert (
        "the throw line of padded south wall, 4 m deep, crosses the landing lane lane 1: "
        "1.50 m2 of floor are in both" in words
    )
    code, _ = send(
        browse, f"{HALL}/lanes/new", name="lane 1", x_m="2", y_m="4", width_m="1.5", depth_m="6"
    )
    assert code == 200
    code, words = send(browse, f"{HALL}/throw-walls/0", line_m="5")
    assert code == 422
    assert "5 m deep, crosses the landing lane lane 1" in words


def test_a_door_goes_with_its_wall_when_the_room_changes(browse: Browse) -> None:
    send(browse, f"{HALL}/shape", length_m="13")
    hall = room_of(browse, "mat-hall")
    assert (hall.doors[0].x_m, hall.doors[0].y_m) == (13.0, 10.0)
    assert hall.throw_walls[0].end == (13.0, 0.0)


def test_everything_is_moved_at_once_by_its_numbers(browse: Browse) -> None:
    code, _ = send(browse, f"{WEIGHTS}/move", obstacles_0_x="5", doors_0_y="2.35", corner_2_y="7.5")
    assert code == 422  # the duct of 8 m does not fit under a wall of 7.5 m
    code, words = send(browse, f"{WEIGHTS}/move", obstacles_0_x="5", doors_0_y="2.35")
    assert code == 200
    assert "Things in Weights room are moved." in words
    room = room_of(browse, "weights-room")
    assert room.obstacles[0].x_m == 5
    assert (room.doors[0].x_m, room.doors[0].y_m) == (0, 2.35)


@pytest.mark.parametrize("key", ["corner_0", "obstacles_0", "doors_0"])
def test_numbers_under_a_key_that_the_room_has_not_are_refused_and_shown_again(
    browse: Browse, key: str
) -> None:
    before = room_of(browse, "weights-room")
    typed = {f"{key}_x": "6.25", f"{key}_y": "x"}
    sent = filled(browse, f"{WEIGHTS}/move", typed)
    sent["key"] = ["no such key" if each == key else each for each in sent["key"]]
    answer = browse.post(f"{WEIGHTS}/move", sent)
    assert answer.status_code == 422
    main = main_of(answer.text)
    assert "came for something that is not in Weights room" in words_of(main)
    for name, value in typed.items():
        assert main.xpath(f"//input[@id='field-{name}']/@value") == [value]
    assert room_of(browse, "weights-room") == before


def test_moves_over_a_room_that_lost_a_thing_are_refused_and_the_others_shown_again(
    browse: Browse,
) -> None:
    send(browse, f"{WEIGHTS}/obstacles/new", name="radiator", x_m="2", y_m="7.9", depth_m="0.2")
    sent = filled(browse, f"{WEIGHTS}/move", {"obstacles_1_x": "3", "doors_0_y": "2.35"})
    (shown,) = main_of(browse.get(WEIGHTS).text).xpath(
        f"//form[@action='{WEIGHTS}/obstacles/1/remove']/input[@name='shown']/@value"
    )
    browse.post(f"{WEIGHTS}/obstacles/1/remove", {"shown": shown})
    before = room_of(browse, "weights-room")
    answer = browse.post(f"{WEIGHTS}/move", sent)
    assert answer.status_code == 422
    main = main_of(answer.text)
    assert "was changed somewhere else" in words_of(main)
    assert main.xpath("//input[@id='field-doors_0_y']/@value") == ["2.35"]
    assert room_of(browse, "weights-room") == before


def test_a_form_filled_in_over_an_older_room_is_told_so_and_loses_nothing(browse: Browse) -> None:
    old = fields_of(browse, f"{WEIGHTS}/shape", f"{WEIGHTS}/shape")
    send(browse, f"{WEIGHTS}/shape", surface="wood")
    answer = browse.post(f"{WEIGHTS}/shape", {**old, "ceiling_m": "3.5"})
    assert answer.status_code == 422
    main = main_of(answer.text)
    assert "was changed somewhere else" in words_of(main)
    assert main.xpath("//input[@name='ceiling_m']/@value") == ["3.5"]
    (shown,) = main.xpath("//input[@name='shown']/@value")
    again = browse.post(f"{WEIGHTS}/shape", {**old, "ceiling_m": "3.5", "shown": shown})
    assert again.status_code == 200
    assert room_of(browse, "weights-room").ceiling_m == 3.5


def test_a_room_with_sessions_is_not_removed(browse: Browse) -> None:
    answer = browse.post(f"{WEIGHTS}/remove")
    assert answer.status_code == 409
    assert "is the room of Monday barbell" in words_of(html.fromstring(answer.text))


def test_looking_at_rooms_stores_nothing(browse: Browse) -> None:
    with browse.keeper.reading() as store:
        before = store.load_club()
    for path in ("/store/rooms", WEIGHTS, f"{WEIGHTS}?show=pairs", f"{WEIGHTS}/move"):
        assert browse.get(path).status_code == 200
    with browse.keeper.reading() as store:
        assert store.load_club() == before


@pytest.mark.parametrize("odd", ["/zzz/new", "/doors/9", "/doors/x", "/doors/-1"])
def test_what_is_not_there_is_not_found(browse: Browse, odd: str) -> None:
    assert browse.get(f"{WEIGHTS}{odd}").status_code == 404
