"""Where the coach stands, what he sees and how he walks, against Shapely (a geometry library)."""

import math
from itertools import combinations, permutations, product
from random import Random

import pytest
from shapely import LineString, Polygon, unary_union
from shapely import Point as Dot

from planning.floor_shapes import L_SHAPE, ROOMS, SQUARE, polygon
from squadwright.planning.floor import (
    DoorWay,
    FloorProblem,
    FloorSettings,
    NamedRectangle,
    Rectangle,
)
from squadwright.planning.floor.region import door_zone
from squadwright.planning.floor.sight import coach_spot, is_seen
from squadwright.planning.floor.walk import MOST_EXACT, length_m, walking_order


def test_a_door_keeps_its_width_and_a_walkway_clear_on_the_side_of_the_room() -> None:
    settings = FloorSettings(door_clear_m=0.8)
    problem = FloorProblem(L_SHAPE, (), settings=settings)
    expected = {
        (3.0, 2.0): (2.5, 2.0, 3.5, 2.8),
        (1.0, 6.0): (1.0, 5.5, 1.8, 6.5),
        (9.0, 3.0): (8.2, 2.5, 9.0, 3.5),
        (7.0, 5.0): (6.5, 4.2, 7.5, 5.0),
        (5.0, 8.0): (4.2, 7.5, 5.0, 8.5),
        (3.0, 10.0): (2.5, 9.2, 3.5, 10.0),
    }
    for middle, place in expected.items():
        zone = polygon(door_zone(problem, DoorWay("d", middle)))
        assert zone.bounds == pytest.approx(place)
        assert zone.difference(Polygon(L_SHAPE)).area < 1e-9
    slant = FloorProblem(((0.0, 0.0), (6.0, 6.0), (0.0, 6.0)), (), settings=settings)
    for width, reach in ((1.0, 0.8), (2.0, 1.0)):
        zone = polygon(door_zone(slant, DoorWay("d", (3.0, 3.0), width)))
        assert zone.bounds == pytest.approx((3 - reach, 3 - reach, 3 + reach, 3 + reach))


def rooms_with_columns(seed: int) -> FloorProblem:
    dice = Random(seed)
    columns = tuple(
        NamedRectangle(
            f"c{n}",
            Rectangle(dice.randint(1, 6), dice.randint(1, 6), dice.choice((0.3, 1.0)), 0.4),
        )
        for n in range(dice.randint(0, 2))
    )
    return FloorProblem(dice.choice((*ROOMS.values(), SQUARE)), (), obstacles=columns)


@pytest.mark.parametrize("seed", range(6))
def test_a_station_is_seen_where_nothing_lies_between_by_the_library(seed: int) -> None:
    """The view is the hull of the eye and the station; it must lie in the room and meet nothing."""
    dice = Random(100 + seed)
    problem = rooms_with_columns(seed)
    room = Polygon(problem.outline)
    seen = 0
    for _ in range(250):
        eye = (dice.uniform(0, 10), dice.uniform(0, 10))
        where = Rectangle(dice.uniform(0, 9), dice.uniform(0, 9), 1.1, 0.7)
        if not room.contains(Dot(eye)) or not room.contains(polygon(where)):
            continue
        view = unary_union([polygon(where), Dot(eye)]).convex_hull
        hidden_by = view.difference(room).area + sum(
            view.intersection(polygon(item.place)).area for item in problem.obstacles
        )
        if hidden_by < 1e-9 or hidden_by > 1e-4:
            assert is_seen(problem, eye, where) is (hidden_by < 1e-9)
            seen += 1
    assert seen > 20


def test_the_coach_stands_where_he_sees_most_inside_the_room_and_on_nobodys_place() -> None:
    for seed in range(12):
        dice = Random(seed)
        problem = rooms_with_columns(seed)
        room = Polygon(problem.outline)
        places = [Rectangle(dice.uniform(0, 8), dice.uniform(0, 8), 1.2, 1.0) for _ in range(9)]
        places = [place for place in places if room.contains(polygon(place))]
        spot, words, hidden = coach_spot(problem, places)
        assert hidden == tuple(
            number for number, where in enumerate(places) if not is_seen(problem, spot, where)
        )
        taken = [polygon(p) for p in (*places, *(item.place for item in problem.obstacles))]
        assert words
        assert room.contains(Dot(spot))
        assert not any(shape.contains(Dot(spot)) for shape in taken)
        assert LineString([*problem.outline, problem.outline[0]]).distance(Dot(spot)) < 0.46


def test_the_coach_stands_at_the_door_else_in_the_middle_of_a_long_wall() -> None:
    """A room of 8 x 6 m, by hand: a column next to the door hides the far corner from there."""
    far = [Rectangle(6.5, 4.5, 1.0, 1.0)]
    door = DoorWay("d", (0.0, 0.6))
    free = FloorProblem(SQUARE, (), doors=(door,))
    assert coach_spot(free, far) == ((0.45, 0.6), "at the door", ())
    column = NamedRectangle("c", Rectangle(2.0, 1.2, 0.5, 1.0))
    blocked = FloorProblem(SQUARE, (), obstacles=(column,), doors=(door,))
    spot, words, hidden = coach_spot(blocked, far)
    assert (words, hidden) == ("in the middle of a long wall", ())
    assert spot in {(4.0, 0.45), (4.0, 5.55)}
    nowhere = FloorProblem(SQUARE, ())
    everywhere = [Rectangle(0.0, 0.0, 8.0, 6.0)]
    assert coach_spot(nowhere, everywhere)[1] == "in the first corner"
    assert coach_spot(free, everywhere)[:2] == ((0.0, 0.6), "at the door")


@pytest.mark.parametrize(
    ("door", "spot"),
    [
        ((4.0, 0.0), (4.0, 0.45)),
        ((4.0, 6.0), (4.0, 5.55)),
        ((0.0, 3.0), (0.45, 3.0)),
        ((8.0, 3.0), (7.55, 3.0)),
    ],
)
def test_a_station_before_the_door_leaves_the_coach_his_place_unless_it_covers_it(
    door: tuple[float, float], spot: tuple[float, float]
) -> None:
    problem = FloorProblem(SQUARE, (), doors=(DoorWay("d", door),))
    middle = Rectangle(3.5, 2.5, 1.0, 1.0)
    assert coach_spot(problem, [middle]) == (spot, "at the door", ())
    covering = Rectangle(spot[0] - 0.4, spot[1] - 0.4, 0.8, 0.8)
    found, words, _ = coach_spot(problem, [covering])
    assert (found != spot, words) == (True, "in the middle of a long wall")
    column = NamedRectangle("c", covering)
    built = FloorProblem(SQUARE, (), obstacles=(column,), doors=(DoorWay("d", door),))
    assert coach_spot(built, [middle])[1] == "in the middle of a long wall"


def test_the_coach_stays_at_the_door_where_he_sees_no_more_from_anywhere() -> None:
    ring = [(3.2, 2.2, 1.6, 0.1), (3.2, 3.7, 1.6, 0.1), (3.2, 2.2, 0.1, 1.6), (4.7, 2.2, 0.1, 1.6)]
    screens = tuple(NamedRectangle("s", Rectangle(*sides)) for sides in ring)
    door = DoorWay("d", (0.0, 3.0))
    problem = FloorProblem(SQUARE, (), obstacles=screens, doors=(door,))
    within_screens = Rectangle(3.5, 2.5, 1.0, 1.0)
    assert coach_spot(problem, [within_screens]) == ((0.45, 3.0), "at the door", (0,))


@pytest.mark.parametrize("seed", range(5))
def test_no_other_order_of_a_few_stops_is_a_shorter_walk(seed: int) -> None:
    dice = Random(seed)
    start = (dice.uniform(0, 9), dice.uniform(0, 9))
    stops = [(dice.uniform(0, 9), dice.uniform(0, 9)) for _ in range(seed + 1)]
    order, long_m, is_shortest = walking_order(start, stops)
    ways = {
        way: LineString([start, start, *(stops[at] for at in way)]).length
        for way in permutations(range(len(stops)))
    }
    assert is_shortest
    assert long_m == pytest.approx(min(ways.values()), abs=1e-5)
    assert ways[order] == pytest.approx(long_m, abs=1e-5)


def test_a_walk_past_many_stops_gains_nothing_by_turning_a_stretch_round() -> None:
    for seed, count in product(range(6), (MOST_EXACT + 1, 14)):
        dice = Random(seed)
        stops = [(dice.uniform(0, 9), dice.uniform(0, 9)) for _ in range(count)]
        order, long_m, is_shortest = walking_order((0.0, 0.0), stops)
        assert not is_shortest
        assert sorted(order) == list(range(count))
        way = LineString([(0.0, 0.0), *(stops[at] for at in order)])
        assert long_m == pytest.approx(way.length)
        for first, last in combinations(range(count), 2):
            turned = (*order[:first], *order[first : last + 1][::-1], *order[last + 1 :])
            assert length_m((0.0, 0.0), stops, turned) >= long_m - 1e-6
    gained = 0
    for seed in range(6):
        dice = Random(seed)
        stops = [(dice.uniform(0, 9), dice.uniform(0, 9)) for _ in range(14)]
        left, nearest, here = set(range(14)), [], (0.0, 0.0)
        while left:
            nearest.append(min(left, key=lambda at: math.dist(here, stops[at])))
            here = stops[nearest[-1]]
            left.remove(nearest[-1])
        long_m = walking_order((0.0, 0.0), stops)[1]
        assert long_m <= length_m((0.0, 0.0), stops, nearest) + 1e-6
        gained += long_m < length_m((0.0, 0.0), stops, nearest) - 0.1
    assert gained > 2
    in_line = [(float(at), 0.0) for at in (3, 1, 7, 2, 9, 5, 4, 8, 6, 10)]
    order, long_m, _ = walking_order((0.0, 0.0), in_line)
    assert [in_line[at][0] for at in order] == list(range(1, 11))
    assert long_m == pytest.approx(10.0)
    assert walking_order((0.0, 0.0), []) == ((), 0.0, True)


def test_nine_stops_are_walked_the_shortest_way_and_ten_are_not_proven() -> None:
    stops = [(float(at), 0.0) for at in range(1, 11)]
    assert walking_order((0.0, 0.0), stops[:9])[1:] == (pytest.approx(9.0), True)
    assert walking_order((0.0, 0.0), stops)[2] is False
