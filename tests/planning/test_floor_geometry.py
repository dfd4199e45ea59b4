"""The geometry of the floor against Shapely, a general geometry library."""

import math
from itertools import combinations, permutations, product
from random import Random

import pytest
from shapely import LineString, Polygon, box, unary_union
from shapely import Point as Dot

from planning.floor_shapes import L_SHAPE, ROOMS, SQUARE, polygon
from squadwright.model.plan import FloorPlan, StationPlace
from squadwright.planning.floor import (
    DoorWay,
    FloorProblem,
    FloorSettings,
    NamedRectangle,
    Piece,
    PieceKind,
    Rectangle,
    SafeWall,
)
from squadwright.planning.floor.crossing import crossings
from squadwright.planning.floor.footing import (
    Footing,
    Spot,
    apart,
    box_of,
    footing_of,
    spare,
    spare_of_all,
    within,
)
from squadwright.planning.floor.model import Search, search
from squadwright.planning.floor.problem import cross, signed_area_m2
from squadwright.planning.floor.region import area_m2, door_zone, from_side, inside_room, region_of
from squadwright.planning.floor.solver import overlaps


@pytest.mark.parametrize("name", ROOMS)
def test_what_is_not_room_is_blocked_and_room_is_not(name: str) -> None:
    """Slanted walls are cut into strips of 10 cm, so as much may be lost along them."""
    room = Polygon(ROOMS[name])
    problem = FloorProblem(ROOMS[name], ())
    for generous in (False, True):
        region = region_of(problem, generous=generous)
        left, low, right, high = (value / 100 for value in region.bounds)
        assert (left, low, right, high) == pytest.approx(room.bounds)
        blocked = unary_union([box(*(v / 100 for v in b)) for b in region.outside])
        missed = box(left, low, right, high).difference(room).difference(blocked).area
        lost = blocked.intersection(room).area
        rim = room.length * 0.12 if "L" not in name and "U" not in name else 0.0
        if generous:
            assert lost <= room.length * 0.011 * (rim > 0) + 1e-9
            assert missed <= rim + 1e-9
        else:
            assert missed < 1e-9
            assert lost <= rim + 1e-9


@pytest.mark.parametrize("name", ROOMS)
def test_points_lie_inside_and_so_far_from_walls_as_the_library_says(name: str) -> None:
    dice, outline = Random(3), ROOMS[name]
    room = Polygon(outline)
    assert area_m2(outline) == pytest.approx(room.area)
    assert (signed_area_m2(outline) > 0) is room.exterior.is_ccw
    for _ in range(300):
        point = (dice.uniform(-1, 11), dice.uniform(-1, 11))
        assert inside_room(outline, point) is bool(room.contains(Dot(point)))
        side = dice.choice(list(zip(outline, (*outline[1:], outline[0]), strict=True)))
        assert from_side(point, side) == pytest.approx(LineString(side).distance(Dot(point)))
    assert from_side((4.0, 6.0), ((1.0, 2.0), (1.0, 2.0))) == pytest.approx(5.0)


def test_two_walls_cross_where_the_library_says_so() -> None:
    grid = list(product((0.0, 1.0, 2.0), repeat=2))
    stretches = list(combinations(grid, 2))
    for one, other in combinations(stretches, 2):
        assert cross(one, other) is bool(LineString(one).crosses(LineString(other)))


def test_boxes_are_apart_within_and_overlapping_as_the_library_says() -> None:
    spans = [(a, b) for a, b in combinations(range(5), 2)]
    boxes = [(x1, y1, x2, y2) for x1, x2 in spans for y1, y2 in spans][::3]
    for first, second in product(boxes, repeat=2):
        one, other = box(*first), box(*second)
        shares_floor = one.intersection(other).area > 0
        assert (apart(first, second) < 0) is shares_floor
        if not shares_floor:
            clear = apart(first, second)
            strip = box(first[0] - clear, first[1] - clear, first[2] + clear, first[3] + clear)
            assert strip.intersection(other).area == 0
            wider = box(*(v + s * (clear + 1) for v, s in zip(first, (-1, -1, 1, 1), strict=True)))
            assert wider.intersection(other).area > 0
        assert within(first, second) is bool(other.covers(one))
        rectangles = [Rectangle(x1, y1, x2 - x1, y2 - y1) for x1, y1, x2, y2 in (first, second)]
        assert overlaps(*rectangles) is shares_floor


@pytest.mark.parametrize("seed", range(4))
def test_the_spare_floor_of_a_piece_is_the_widest_strip_that_stays_free(seed: int) -> None:
    """Grown by its spare and what is asked it meets nobody, by a centimetre more it does."""
    dice = Random(seed)
    room = FloorProblem(
        L_SHAPE,
        (),
        obstacles=(NamedRectangle("o", Rectangle(3.0, 4.0, 0.5, 0.5)),),
        doors=(DoorWay("d", (1.0, 7.0)),),
        settings=FloorSettings(between_m=0.5, to_wall_m=0.2),
    )
    piece = Piece("p", PieceKind.GROUP, 1.0, 0.6)
    footing = footing_of(room, region_of(room), piece)
    zone = polygon(door_zone(room, room.doors[0]))
    tried = {True: 0, False: 0}
    for _ in range(200):
        x, y, turned = dice.randrange(100, 900), dice.randrange(200, 1000), dice.random() < 0.5
        width, depth = (60, 100) if turned else (100, 60)
        own = (x, y, x + width, y + depth)
        other = (dice.randrange(100, 900), dice.randrange(200, 1000))
        other_box = (*other, other[0] + 50, other[1] + 50)
        clear = dice.choice((0, 50, 80))
        found = spare(footing, own, [(other_box, clear)])
        shape = box(*(v / 100 for v in own))
        strips = [
            (polygon(room.obstacles[0].place), 0.5),
            (box(*(v / 100 for v in other_box)), max(clear, 50) / 100),
        ]
        fits = (
            shape.buffer(0.2, join_style="mitre").difference(Polygon(L_SHAPE)).area < 1e-9
            and shape.intersection(zone).area < 1e-9
            and all(
                shape.buffer(gap, join_style="mitre").intersection(block).area < 1e-9
                for block, gap in strips
            )
        )
        tried[fits] += 1
        assert (found is not None) is fits
        if found is not None:
            for more, is_free in ((found / 100, True), (found / 100 + 0.01, False)):
                free = all(
                    shape.buffer(gap + more, join_style="mitre").intersection(block).area < 1e-9
                    for block, gap in strips
                )
                assert free is is_free
    assert min(tried.values()) > 10


def test_a_throw_stands_with_its_whole_width_at_the_safe_stretch_and_nowhere_else() -> None:
    piece = Piece("t", PieceKind.THROW, 1.0, 2.0, at_throw_wall=True)
    for start, end, turned, good in (
        ((2.0, 0.0), (6.0, 0.0), False, (200, 0)),
        ((2.0, 6.0), (6.0, 6.0), False, (200, 400)),
        ((0.0, 2.0), (0.0, 5.0), True, (0, 200)),
        ((8.0, 2.0), (8.0, 5.0), True, (600, 200)),
    ):
        room = FloorProblem(SQUARE, (piece,), safe_walls=(SafeWall("w", start, end),))
        footing = footing_of(room, region_of(room), piece)
        assert len(footing.walls) == 1
        long = 100 * int(math.dist(start, end)) - 100
        step = (0, 1) if turned else (1, 0)
        off = step[::-1]

        def stands(x: int, y: int, way: bool, at: Footing = footing) -> bool:
            return spare_of_all([at], [Spot(x, y, way, at.walls[0])]) is not None

        last = (good[0] + long * step[0], good[1] + long * step[1])
        assert stands(*good, turned)
        assert stands(*last, turned)
        assert not stands(*good, not turned)
        assert not stands(good[0] - step[0], good[1] - step[1], turned)
        assert not stands(last[0] + step[0], last[1] + step[1], turned)
        inward = 1 if min(good) == 0 else -1
        assert not stands(good[0] + inward * off[0], good[1] + inward * off[1], turned)


def test_throws_cross_places_of_others_at_the_same_time_by_as_much_as_the_library_says() -> None:
    """What belongs to one place, its landing and its throw line, is crossed in turn."""
    kinds = ("throw", "throw line", "lane", "landing", "group", "bar", "box", "door", "coach")
    starts = ("", "throw line of ", "landing of ")
    total = own = 0
    for seed in range(12):
        dice = Random(seed)
        places = [
            StationPlace(
                dice.choice(starts) + f"p{dice.randint(1, 9)}",
                dice.randint(0, 6),
                dice.randint(0, 6),
                dice.randint(1, 3),
                dice.randint(1, 3),
                kind=dice.choice(kinds),
                block=dice.choice(("", "A", "B")),
            )
            for _ in range(20)
        ]
        expected = []
        for throw, other in permutations(places, 2):
            one, two = (
                box(p.x_m, p.y_m, p.x_m + p.width_m, p.y_m + p.depth_m) for p in (throw, other)
            )
            area = one.intersection(two).area
            same_time = "" in (throw.block, other.block) or throw.block == other.block
            stays_off = other.kind in ("lane", "landing", "group", "bar", "box")
            twice = throw.kind == other.kind and throw.id < other.id
            if throw.kind.startswith("throw") and same_time and area and (stays_off or twice):
                if throw.id.split()[-1] == other.id.split()[-1]:
                    own += 1
                else:
                    expected.append((throw, other, area))
        found = crossings(FloorPlan("r", "R", tuple(places[:9]), tuple(places[9:])))
        assert [(c.throw, c.place, c.shared_m2) for c in found] == [
            (throw, other, pytest.approx(area)) for throw, other, area in expected
        ]
        total += len(found)
    assert total > 40
    assert own > 3


def test_boxes_of_a_spot_turn_with_it() -> None:
    room = FloorProblem(SQUARE, ())
    footing = footing_of(room, region_of(room), Piece("p", PieceKind.GROUP, 1.0, 2.0))
    assert box_of(footing, Spot(10, 20, turned=False)) == (10, 20, 110, 220)
    assert box_of(footing, Spot(10, 20, turned=True)) == (10, 20, 210, 120)


@pytest.mark.parametrize(("may_turn", "long"), [(True, 2.5), (False, 2.5), (True, 3.1)])
def test_a_search_turns_a_piece_that_fits_only_so_where_it_may(may_turn: bool, long: float) -> None:
    """A corridor of 3 x 1 m."""
    bare = FloorSettings(between_m=0.0, to_wall_m=0.0)
    corridor = ((0.0, 0.0), (3.0, 0.0), (3.0, 1.0), (0.0, 1.0))
    room = FloorProblem(corridor, (), settings=bare)
    piece = Piece("p", PieceKind.GROUP, 1.0, long, may_turn=may_turn)
    found = search([footing_of(room, region_of(room), piece)], Search(2.0))
    fits = may_turn and long <= 3.0
    assert (found.spots is not None) is fits
    assert found.is_impossible is not fits
    if found.spots is not None:
        assert found.spots[0].turned
