"""The drawing of a floor read back: every mark lies where the room and the plan say it does.

The scale is found from the walls alone, whose corners are known in metres; everything else in the
picture must then come back to its own metres. Read with the standard library's XML parser.
"""

import itertools
import math
import re
from dataclasses import dataclass, replace
from xml.etree import ElementTree

import pytest

from squadwright.model.plan import FloorPlan, StationPlace
from squadwright.model.room import CeilingZone, Door, LandingLane, Obstacle, Room, ThrowWall
from squadwright.planning.floor.drawing import floor_blocks, floor_svg

SVG = "{http://www.w3.org/2000/svg}"
# An L whose first corner is not the origin, so that nothing comes right by chance.
ROOM = Room(
    "hall",
    "Hall",
    ((2.0, 1.0), (11.5, 1.0), (11.5, 6.0), (7.0, 6.0), (7.0, 9.5), (2.0, 9.5)),
    4.0,
    obstacles=(Obstacle("column", 5.0, 4.0, 0.4, 0.6),),
    ceiling_zones=(
        CeilingZone("duct", 2.0, 1.0, 1.0, 5.0, 2.6),
        CeilingZone("gallery", 3.0, 8.5, 4.0, 1.0, 2.9),
    ),
    throw_walls=(ThrowWall("south", (3.0, 1.0), (9.0, 1.0)),),
    doors=(Door("east", 11.5, 3.5),),
    north_deg=30.0,
    lanes=(LandingLane("long", 9.0, 1.5, 1.5, 4.0), LandingLane("wide", 2.5, 7.0, 4.0, 1.2)),
)
PLAN = FloorPlan(
    "hall",
    "Hall",
    (
        StationPlace("bar 1", 3.5, 2.0, 2.2, 1.8, 0.0, 1, "bar", "", ("b1", "b2")),
        StationPlace("bar 2", 6.5, 2.0, 1.8, 2.2, 90.0, 2, "bar"),
        StationPlace("a place with a rather long name", 3.0, 6.5, 1.4, 1.2, 0.0, 3, "group"),
    ),
    (
        StationPlace("landing of lane 1", 9.2, 4.0, 1.0, 1.5, kind="landing"),
        StationPlace("coach", 7.2, 5.2, 0.6, 0.6, kind="coach"),
    ),
)


@dataclass
class Picture:
    """A drawing with the way back to metres."""

    root: ElementTree.Element
    left: float
    floor: float

    @classmethod
    def of(cls, text: str, room: Room) -> "Picture":
        """The walls give the scale: 100 units a metre, y turned upwards."""
        root = ElementTree.fromstring(text)
        (walls,) = root.findall(f"{SVG}polygon")
        corners = [tuple(map(float, c.split(","))) for c in str(walls.get("points")).split()]
        left = corners[0][0] - 100 * room.outline[0][0]
        floor = corners[0][1] + 100 * room.outline[0][1]
        picture = cls(root, left, floor)
        assert [picture.metres(x, y) for x, y in corners] == [
            pytest.approx(c) for c in room.outline
        ]
        return picture

    def metres(self, x: float, y: float) -> tuple[float, float]:
        return (x - self.left) / 100, (self.floor - y) / 100

    def titled(self, tag: str, title: str) -> ElementTree.Element:
        """The one mark of a kind with a title."""
        (found,) = [e for e in self.root.iter(f"{SVG}{tag}") if e.findtext(f"{SVG}title") == title]
        return found

    def box(self, e: ElementTree.Element) -> tuple[float, float, float, float]:
        """A rectangle in metres: its corner nearest the first corner, and its size."""
        x, y, w, h = (float(e.get(name, "nan")) for name in ("x", "y", "width", "height"))
        return (*self.metres(x, y + h), w / 100, h / 100)

    def words(self, text: str) -> tuple[float, float, float]:
        """Where words stand in metres, and their size in the picture."""
        (e,) = [e for e in self.root.iter(f"{SVG}text") if e.text == text]
        return (*self.metres(float(e.get("x", "nan")), float(e.get("y", "nan"))), _size(e))


def _size(e: ElementTree.Element) -> float:
    return float(e.get("font-size", "nan"))


def drawn(room: Room = ROOM, plan: FloorPlan = PLAN, *, grid: bool = False) -> Picture:
    return Picture.of(floor_svg(room, plan, grid=grid), room)


def test_the_room_lies_inside_its_picture_with_the_same_margin_on_three_sides() -> None:
    picture = drawn()
    width, height = (float(v) for v in str(picture.root.get("viewBox")).split()[2:])
    left, top = picture.left + 100 * 2.0, picture.floor - 100 * 9.5
    right, below = width - (picture.left + 100 * 11.5), height - (picture.floor - 100 * 1.0)
    assert left == pytest.approx(top)
    assert right == pytest.approx(left)
    assert left > 50
    assert below > left  # the scale bar and north stand there
    for name, long in (("width", width), ("height", height)):
        assert float(str(picture.root.get(name)).removesuffix("mm")) == pytest.approx(long / 10)


def test_everything_that_stands_in_the_room_is_drawn_where_it_stands() -> None:
    picture = drawn()
    assert picture.box(picture.titled("rect", "column")) == pytest.approx((4.8, 3.7, 0.4, 0.6))
    for lane in ROOM.lanes:
        place = (lane.x_m, lane.y_m, lane.width_m, lane.depth_m)
        assert picture.box(picture.titled("rect", lane.name)) == pytest.approx(place)
    wall = picture.titled("line", "south: safe for throws")
    ends = [float(wall.get(name, "nan")) for name in ("x1", "y1", "x2", "y2")]
    assert picture.metres(*ends[:2]) == pytest.approx((3.0, 1.0))
    assert picture.metres(*ends[2:]) == pytest.approx((9.0, 1.0))
    door = picture.titled("circle", "east")
    middle = float(door.get("cx", "nan")), float(door.get("cy", "nan"))
    assert picture.metres(*middle) == pytest.approx((11.5, 3.5))
    dashed = [e for e in picture.root.iter(f"{SVG}rect") if e.get("stroke-dasharray") == "20 8"]
    zones = [(z.x_m, z.y_m, z.width_m, z.depth_m) for z in ROOM.ceiling_zones]
    assert [picture.box(e) for e in dashed] == [pytest.approx(zone) for zone in zones]


@pytest.mark.parametrize(
    ("words", "middle", "is_turned"),
    [
        ("long", (9.75, 3.5), True),
        ("wide", (4.5, 7.6), False),
        ("2.6 m high", (2.5, 3.5), True),
        ("2.9 m high", (5.0, 9.0), False),
    ],
)
def test_words_stand_in_the_middle_and_run_along_the_longer_side(
    words: str, middle: tuple[float, float], is_turned: bool
) -> None:
    picture = drawn()
    x, y, size = picture.words(words)
    assert x == pytest.approx(middle[0])
    assert abs(y - middle[1]) < size / 100  # within a line of the middle
    (e,) = [e for e in picture.root.iter(f"{SVG}text") if e.text == words]
    assert ("rotate(-90 " in str(e.get("transform"))) is is_turned
    if is_turned:
        turn = [float(v) for v in re.findall(r"-?[\d.]+", str(e.get("transform")))[1:]]
        assert picture.metres(*turn) == pytest.approx(middle)


def test_stations_and_zones_are_drawn_to_scale_with_number_and_name() -> None:
    picture = drawn()
    titles = ("bar 1 (b1, b2)", "bar 2", "a place with a rather long name")
    for station, title in zip(PLAN.stations, titles, strict=True):
        place = (station.x_m, station.y_m, station.width_m, station.depth_m)
        assert picture.box(picture.titled("rect", title)) == pytest.approx(place)
        letter = {"bar": "B", "group": "G"}[station.kind]
        x, above, _ = picture.words(f"{station.number}{letter}")
        also_x, below, size = picture.words(station.id)
        assert x == also_x == pytest.approx(station.x_m + station.width_m / 2)
        middle = station.y_m + station.depth_m / 2
        assert above > middle > below
        assert below > station.y_m
        # A letter of a sans-serif face is about half as wide as it is high.
        assert 0.5 * size * len(station.id) <= 100 * station.width_m
        assert size >= 7
    assert picture.words("bar 1")[2] == 30
    landing = picture.titled("rect", "landing of lane 1")
    assert picture.box(landing) == pytest.approx((9.2, 4.0, 1.0, 1.5))


def test_a_bar_lies_along_its_station_off_the_middle() -> None:
    picture = drawn()
    lines = [e for e in picture.root.iter(f"{SVG}line") if e.get("stroke-width") == "6"]
    ends = [[float(e.get(name, "nan")) for name in ("x1", "y1", "x2", "y2")] for e in lines]
    along, across = [(picture.metres(*e[:2]), picture.metres(*e[2:])) for e in ends]
    assert (along[0][0], along[1][0]) == pytest.approx((3.5, 5.7))
    assert along[0][1] == along[1][1]
    assert 2.0 < along[0][1] < 2.9
    assert sorted((across[0][1], across[1][1])) == pytest.approx([2.0, 4.2])
    assert across[0][0] == across[1][0]
    assert 7.4 < across[0][0] < 8.3


def test_the_coach_is_a_diamond_round_his_place_with_a_letter() -> None:
    picture = drawn()
    (mark,) = [
        e for e in picture.root.iter(f"{SVG}path") if e.findtext(f"{SVG}title") == "The coach"
    ]
    numbers = [float(v) for v in re.findall(r"-?[\d.]+", str(mark.get("d")))]
    corners = [picture.metres(*numbers[at : at + 2]) for at in range(0, 8, 2)]
    assert {(round(x, 3), round(y, 3)) for x, y in corners} == {
        *((7.5, 5.8), (7.8, 5.5), (7.5, 5.2), (7.2, 5.5)),
    }
    x, y, size = picture.words("C")
    assert x == pytest.approx(7.5)
    assert abs(y - 5.5) < size / 100


def test_the_scale_bar_is_five_metres_below_the_room_and_north_is_turned() -> None:
    picture = drawn()
    _, height = (float(v) for v in str(picture.root.get("viewBox")).split()[2:])
    bar = [e for e in picture.root.iter(f"{SVG}rect") if e.get("height") == "14"]
    starts = [float(e.get("x", "nan")) for e in bar]
    assert [b - a for a, b in itertools.pairwise(starts)] == [100.0] * 4
    assert {e.get("width") for e in bar} == {"100"}
    assert [e.get("fill") for e in bar] == ["black", "white", "black", "white", "black"]
    low = 100 * 1.0
    assert all(picture.floor - low < float(e.get("y", "nan")) < height - 14 for e in bar)
    for metre in (0, 1, 5):
        (e,) = [e for e in picture.root.iter(f"{SVG}text") if e.text == f"{metre} m"]
        assert float(e.get("x", "nan")) == starts[0] + 100 * metre
        assert float(bar[0].get("y", "nan")) + 14 < float(e.get("y", "nan")) < height
    (north,) = [e for e in picture.root.iter(f"{SVG}g") if e.findtext(f"{SVG}title") == "North"]
    turn = [float(v) for v in re.findall(r"-?[\d.]+", str(north.get("transform")))]
    arrow = [float(v) for v in re.findall(r"-?[\d.]+", str(north[1].get("d")))]
    tip, right, notch, left = (tuple(arrow[at : at + 2]) for at in range(0, 8, 2))
    assert turn[0] == 30
    assert tip[0] == notch[0] == turn[1] == pytest.approx((left[0] + right[0]) / 2)
    assert tip[1] < turn[2] < notch[1] < left[1] == right[1]
    assert left[0] < tip[0] < right[0]


@pytest.mark.parametrize(
    ("long", "step"), [(9.5, 1), (25.0, 1), (25.5, 5), (40.0, 5)], ids=lambda value: str(value)
)
def test_the_grid_has_a_line_at_every_metre_and_a_number_at_every_second(
    long: float, step: int
) -> None:
    """Every fifth metre in a room longer than 25 m."""
    low, left, deep = 1.5, -3.0, 4.0
    right, high = left + long, low + deep
    room = Room("r", "R", ((left, low), (right, low), (right, high), (left, high)), 4.0)
    picture = Picture.of(floor_svg(room, FloorPlan("r", "R"), grid=True), room)
    (lines,) = [e for e in picture.root.iter(f"{SVG}path") if e.get("clip-path")]
    upright = re.findall(r"M(-?[\d.]+) (-?[\d.]+)V(-?[\d.]+)", str(lines.get("d")))
    level = re.findall(r"M(-?[\d.]+) (-?[\d.]+)H(-?[\d.]+)", str(lines.get("d")))
    xs = [picture.metres(float(x), float(y)) for x, y, _ in upright]
    ys = [picture.metres(float(x), float(y)) for x, y, _ in level]
    whole_x = [n for n in range(math.ceil(left), math.floor(right) + 1) if n % step == 0]
    whole_y = [n for n in range(math.ceil(low), math.floor(high) + 1) if n % step == 0]
    assert xs == [pytest.approx((n, low)) for n in whole_x]
    assert ys == [pytest.approx((left, n)) for n in whole_y]
    tops = [picture.metres(float(x), float(end)) for x, _, end in upright]
    ends = [picture.metres(float(end), float(y)) for _, y, end in level]
    assert tops == [pytest.approx((n, high)) for n in whole_x]
    assert ends == [pytest.approx((right, n)) for n in whole_y]
    numbers = [e for e in picture.root.iter(f"{SVG}text") if re.fullmatch(r"-?\d+", str(e.text))]
    told = {
        (str(e.text), *picture.metres(float(e.get("x", "nan")), float(e.get("y", "nan"))))
        for e in numbers
    }
    below = {int(n): (x, y) for n, x, y in told if y < low}
    beside = {int(n): (x, y) for n, x, y in told if x < left}
    assert len(below) + len(beside) == len(numbers)
    assert sorted(below) == [n for n in whole_x if n % (2 * step) == 0]
    assert sorted(beside) == [n for n in whole_y if n % (2 * step) == 0]
    assert all(x == pytest.approx(n) and y > low - 0.9 for n, (x, y) in below.items())
    assert all(abs(y - n) < 0.28 and x > left - 0.9 for n, (x, y) in beside.items())
    (clip,) = picture.root.iter(f"{SVG}clipPath")
    corners = [tuple(map(float, c.split(","))) for c in str(clip[0].get("points")).split()]
    assert [picture.metres(*c) for c in corners] == [pytest.approx(c) for c in room.outline]


def test_no_grid_is_drawn_unless_it_is_asked_for() -> None:
    assert not list(drawn().root.iter(f"{SVG}clipPath"))
    assert list(drawn(grid=True).root.iter(f"{SVG}clipPath"))


def test_one_block_is_drawn_at_a_time_with_what_stands_all_day() -> None:
    stations = (
        replace(PLAN.stations[0], block="A"),
        replace(PLAN.stations[1], block="B"),
        replace(PLAN.stations[2], id="always"),
    )
    zones = (replace(PLAN.zones[0], block="A"), replace(PLAN.zones[1], block="B"))
    plan = replace(PLAN, stations=stations, zones=zones)
    assert floor_blocks(plan) == ("A", "B")
    assert floor_blocks(PLAN) == ("",)
    for block, named, missing in (
        ("", {"bar 1", "landing of lane 1"}, {"bar 2", "The coach"}),
        ("A", {"bar 1", "landing of lane 1"}, {"bar 2", "The coach"}),
        ("B", {"bar 2", "The coach"}, {"bar 1", "landing of lane 1"}),
    ):
        root = ElementTree.fromstring(floor_svg(ROOM, plan, block))
        said = {str(e.text) for e in root.iter()}
        assert named | {"always"} <= said
        assert not missing & said
        assert root.findtext(f"{SVG}title") == f"Floor plan: Hall, {block or 'A'}"


def test_the_picture_is_told_in_words_in_walking_order_or_thing_by_thing() -> None:
    mixed = replace(PLAN, stations=PLAN.stations[::-1], notes=("Six fit.",))
    words = ElementTree.fromstring(floor_svg(ROOM, mixed)).findtext(f"{SVG}desc")
    assert words == (
        "Hall is 9.5 by 8.5 m. In walking order: 1: bar station bar 1, 2.2 by 1.8 m at 3.5, 2 m; "
        "2: bar station bar 2, 1.8 by 2.2 m at 6.5, 2 m; "
        "3: place a place with a rather long name, 1.4 by 1.2 m at 3, 6.5 m. Six fit."
    )
    empty = ElementTree.fromstring(floor_svg(ROOM, FloorPlan("hall", "Hall"))).findtext(
        f"{SVG}desc"
    )
    assert str(empty).startswith("Hall is 9.5 by 8.5 m. Ceiling 4 m. Door east at 11.5, 3.5 m.")
    for thing in ("column", "duct", "gallery", "south", "long", "wide"):
        assert thing in str(empty)
