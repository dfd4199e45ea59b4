"""The floor solver against a geometry library, hand cases, and every layout of small rooms.

Shapely, a general geometry library, re-checks what the solver places. The demo room's arithmetic
is common practice with the clearances of NSCA Essentials ch. 23 (36 in, second hand).
"""

from dataclasses import replace
from itertools import combinations, pairwise, product

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from shapely import Point as Dot
from shapely import Polygon, box

from cases import cases
from squadwright.errors import InvalidInput
from squadwright.planning.floor import (
    DoesNotFit,
    DoorWay,
    FloorProblem,
    FloorSettings,
    FloorSolution,
    LowCeiling,
    NamedRectangle,
    Piece,
    PieceKind,
    RanOut,
    Rectangle,
    SafeWall,
    capacity,
    place,
)
from squadwright.planning.floor.capacity import pushed_positions
from squadwright.planning.floor.footing import footing_of
from squadwright.planning.floor.model import Search, search
from squadwright.planning.floor.region import region_of

WEIGHTS_ROOM = ((0.0, 0.0), (11.5, 0.0), (11.5, 8.0), (0.0, 8.0))
COLUMN = NamedRectangle("column", Rectangle(5.8, 3.8, 0.4, 0.4))
L_SHAPE = ((0.0, 0.0), (12.0, 0.0), (12.0, 6.0), (6.0, 6.0), (6.0, 12.0), (0.0, 12.0))
BARE = FloorSettings(between_m=0.0, to_wall_m=0.0, door_clear_m=0.0, widest_useful_gap_m=0.0)


def bars(count: int) -> tuple[Piece, ...]:
    return tuple(Piece(f"bar {n}", PieceKind.BAR, 2.2, 1.8) for n in range(1, count + 1))


def weights_room(count: int) -> FloorProblem:
    return FloorProblem(
        WEIGHTS_ROOM, bars(count), 3.4, (COLUMN,), doors=(DoorWay("door", (0.0, 0.8)),)
    )


def polygon(where: Rectangle) -> Polygon:
    return box(where.x_m, where.y_m, where.right_m, where.top_m)


def solved(problem: FloorProblem) -> FloorSolution:
    found = place(problem)
    assert isinstance(found, FloorSolution), found
    return found


def check_with_shapely(found: FloorSolution) -> None:
    """Containment and clear strips, by growing each rectangle and measuring overlaps."""
    problem = found.problem
    room = Polygon(problem.outline)
    for station in found.stations:
        piece, shape = station.piece, polygon(station.place)
        wall = 0.0 if piece.at_throw_wall else problem.to_wall_m(piece)
        assert grown(station.place, wall).difference(room).area < 1e-9
        for item in problem.obstacles:
            strip = grown(station.place, problem.clear_m(piece))
            assert strip.intersection(polygon(item.place)).area < 1e-9
        if station.landing:
            assert polygon(station.landing).difference(shape).area < 1e-9
        if station.throw_line:
            assert polygon(station.throw_line).difference(shape).area < 1e-9
    for first, second in combinations(found.stations, 2):
        gap = max(problem.clear_m(first.piece), problem.clear_m(second.piece)) + found.extra_m
        strip = grown(first.place, gap)
        assert strip.intersection(polygon(second.place)).area < 1e-9


def grown(where: Rectangle, by: float) -> Polygon:
    return box(where.x_m - by, where.y_m - by, where.right_m + by, where.top_m + by)


def test_published_areas_and_distances_agree_with_the_geometry_library() -> None:
    """Arithmetic that anybody can redo, worked with Shapely 2.2."""
    station = Rectangle(0.0, 0.0, 2.2 + 2 * 0.91, 1.8 + 2 * 0.91)
    assert polygon(station).area == pytest.approx(14.5524, abs=5e-5)
    beside = Rectangle(3.5, 0.0, station.width_m, station.depth_m)
    overlap = polygon(station).intersection(polygon(beside)).area
    assert overlap == pytest.approx(1.8824, abs=5e-5)
    distance = Dot(6, 4).buffer(0.3, quad_segs=256).distance(box(0, 0, 5, 3))
    assert distance == pytest.approx(2**0.5 - 0.3, abs=1e-4)


def test_six_bar_stations_fit_in_the_weights_room_and_seven_do_not() -> None:
    found = capacity(weights_room(0), bars(1)[0])
    assert (found.count, found.at_most, found.proof.kind) == (6, 6, "rows")
    assert "3.11 x 2.71 m" in found.proof.sentence
    six = solved(weights_room(6))
    check_with_shapely(six)
    seven = place(weights_room(7))
    assert isinstance(seven, DoesNotFit)
    assert (seven.wanted, seven.fits, seven.is_proven) == (7, 6, True)
    assert seven.advice == "Set up 6 at once and work in 2 waves, or find a larger room"


@pytest.mark.parametrize(
    ("to_wall_m", "own_strip", "may_turn", "count"),
    [
        (0.91, False, True, 6),
        (0.91, False, False, 6),
        (0.0, True, True, 5),
        (0.0, True, False, 4),
        (0.0, False, True, 11),
        (0.0, False, False, 8),
    ],
)
def test_other_conventions_give_other_numbers_in_the_same_room(
    to_wall_m: float, own_strip: bool, may_turn: bool, count: int
) -> None:
    """Our arithmetic, as the page on the floor tells it."""
    limits = FloorSettings(to_wall_m=to_wall_m, may_turn=may_turn)
    (piece,) = bars(1)
    if own_strip:
        piece = replace(piece, width_m=4.02, depth_m=3.62, clear_m=0.0)
    room = FloorProblem(WEIGHTS_ROOM, (), obstacles=(COLUMN,), settings=limits)
    found = capacity(room, piece)
    assert (found.count, found.is_proven) == (count, True)


def test_the_search_proves_the_same_as_the_counting_argument() -> None:
    problem = weights_room(7)
    region = region_of(problem)
    footings = [footing_of(problem, region, piece) for piece in problem.pieces]
    for positions in (pushed_positions(footings[0]), None):
        assert search(footings, Search(20.0, positions=positions)).is_impossible


def test_four_bars_in_a_row_need_the_width_that_the_clearances_add_up_to() -> None:
    """4 x 2.2 + 3 x 0.91 m, and 0.91 m at each end: 13.35 m by arithmetic."""

    def row(width_m: float) -> int:
        outline = ((0.0, 0.0), (width_m, 0.0), (width_m, 3.62), (0.0, 3.62))
        fixed = FloorProblem(outline, (), settings=FloorSettings(may_turn=False))
        return capacity(fixed, bars(1)[0]).count

    assert (row(13.35), row(13.34)) == (4, 3)


def test_every_station_is_numbered_once_in_a_short_walk_from_the_door() -> None:
    found = solved(weights_room(6))
    assert [s.number for s in found.stations] == [1, 2, 3, 4, 5, 6]
    assert [s.piece.id for s in found.stations] == [p.id for p in bars(6)]
    stops = [Dot(s.place.middle) for s in found.stations]
    way = [Dot(0.0, 0.8), *stops]
    walked = sum(a.distance(b) for a, b in pairwise(way))
    assert walked == pytest.approx(found.walk_m, abs=1e-3)
    assert found.walk_is_shortest


def test_the_coach_sees_every_station_past_the_column() -> None:
    found = solved(weights_room(6))
    assert found.hidden == ()
    eye = Dot(found.coach)
    for station in found.stations:
        view = polygon(station.place).union(eye).convex_hull
        assert view.intersection(polygon(COLUMN.place)).area < 1e-9


def test_what_a_wide_screen_hides_from_everywhere_is_named() -> None:
    ring = [
        NamedRectangle("screen", Rectangle(x, y, w, d))
        for x, y, w, d in ((4, 4, 8, 0.1), (4, 10, 8, 0.1), (4, 4, 0.1, 6), (11.9, 4, 0.1, 6))
    ]
    piece = Piece("inside", PieceKind.GROUP, 6.0, 4.0, clear_m=0.5)
    outline = ((0.0, 0.0), (16.0, 0.0), (16.0, 14.0), (0.0, 14.0))
    narrow = replace(piece, may_turn=False)
    walled = [NamedRectangle("crates", Rectangle(x, 0.0, 0.1, 14.0)) for x in (3.9, 12.0)]
    lids = [NamedRectangle("crates", Rectangle(4, y, 8, h)) for y, h in ((0, 4), (10.1, 3.9))]
    found = solved(FloorProblem(outline, (narrow,), obstacles=(*ring, *walled, *lids)))
    assert found.hidden == ("inside",)


def test_gaps_are_the_widest_there_are() -> None:
    """The column is 2.89 m from the walls' strip; 2.89 - 1.8 leaves 1.09 m, 0.18 more than asked.

    Turned by hand the rows come no better, so the bound closes.
    """
    found = solved(weights_room(6))
    assert found.extra_m == pytest.approx(0.18)
    assert found.is_proven


def test_an_l_shaped_room_is_filled_round_its_corner() -> None:
    found = solved(FloorProblem(L_SHAPE, bars(6)))
    check_with_shapely(found)
    most = capacity(FloorProblem(L_SHAPE, ()), bars(1)[0])
    assert (most.count, most.is_proven, most.proof.kind) == (6, True, "search")


def test_a_triangular_room_is_never_left() -> None:
    outline = ((0.0, 0.0), (12.0, 0.0), (0.0, 9.3))
    most = capacity(FloorProblem(outline, ()), bars(1)[0])
    assert most.is_proven
    check_with_shapely(solved(FloorProblem(outline, bars(most.count))))


def test_throws_stand_at_a_safe_wall_and_face_it() -> None:
    throws = tuple(
        Piece(f"place {n}", PieceKind.THROW, 1.5, 4.0, 2.0, at_throw_wall=True, throw_m=3.0)
        for n in range(1, 5)
    )
    outline = ((0.0, 0.0), (14.0, 0.0), (14.0, 6.0), (0.0, 6.0))
    wall = SafeWall("south", (0.0, 0.0), (14.0, 0.0))
    found = solved(FloorProblem(outline, throws, safe_walls=(wall,)))
    check_with_shapely(found)
    assert {s.place.y_m for s in found.stations} == {0.0}
    assert all(s.throw_line and s.throw_line.top_m == 3.0 for s in found.stations)
    # Four lanes of 1.5 m, 2 m apart, take 4 x 1.5 + 3 x 2 = 12 m of wall.
    most = capacity(
        FloorProblem(outline, (), safe_walls=(SafeWall("south", (0.0, 0.0), (12.0, 0.0)),)),
        throws[0],
    )
    assert (most.count, most.proof.kind) == (4, "wall")
    none = place(FloorProblem(outline, throws))
    assert isinstance(none, DoesNotFit)
    assert none.fits == 0


def test_throws_at_walls_on_every_side_face_into_the_room() -> None:
    piece = Piece("throw", PieceKind.THROW, 2.0, 3.0, at_throw_wall=True, throw_m=2.0)
    outline = ((0.0, 0.0), (9.0, 0.0), (9.0, 7.0), (0.0, 7.0))
    for start, end, side in (
        ((0.0, 7.0), (9.0, 7.0), "top_m"),
        ((9.0, 0.0), (9.0, 7.0), "right_m"),
        ((0.0, 0.0), (0.0, 7.0), "x_m"),
    ):
        found = solved(FloorProblem(outline, (piece,), safe_walls=(SafeWall("w", start, end),)))
        (station,) = found.stations
        edge = {"top_m": 7.0, "right_m": 9.0, "x_m": 0.0}[side]
        assert getattr(station.place, side) == edge
        assert station.throw_line is not None
        assert getattr(station.throw_line, side) == edge
        check_with_shapely(found)


def test_stations_keep_out_from_under_a_low_duct_where_they_can() -> None:
    duct = LowCeiling("duct", Rectangle(0.0, 0.0, 4.0, 8.0), 2.5)
    tall = tuple(replace(p, ceiling_m=2.8) for p in bars(4))
    room = FloorProblem(WEIGHTS_ROOM, tall, 3.4, low_ceilings=(duct,))
    assert solved(room).under_low_ceiling == ()
    assert all(s.place.x_m >= 4.0 for s in solved(room).stations)
    six = tuple(replace(p, ceiling_m=2.8) for p in bars(6))
    found = solved(replace(room, pieces=six))
    under = {s.piece.id for s in found.stations if s.place.x_m < 4.0}
    assert set(found.under_low_ceiling) == under != set()


def test_a_door_is_kept_clear() -> None:
    tight = FloorSettings(between_m=0.0, to_wall_m=0.0)
    outline = ((0.0, 0.0), (2.2, 0.0), (2.2, 4.0), (0.0, 4.0))
    free = FloorProblem(outline, (), settings=tight)
    shut = replace(free, doors=(DoorWay("door", (0.0, 2.0)),))
    assert capacity(free, bars(1)[0]).count == 2
    assert capacity(shut, bars(1)[0]).count == 0


def test_running_out_of_work_is_neither_a_layout_nor_a_proof() -> None:
    sizes = ((3.7, 2.3), (4.1, 1.9), (2.9, 2.6), (5.3, 1.7), (3.1, 2.2), (4.4, 2.7), (1.6, 5.9))
    pieces = tuple(Piece(f"p{n}", PieceKind.GROUP, *size) for n, size in enumerate(sizes))
    outline = ((0.0, 0.0), (11.0, 0.0), (11.0, 7.1), (0.0, 7.1))
    starved = FloorProblem(outline, pieces, settings=replace(BARE, work_limit=1e-9))
    found = place(starved)
    assert isinstance(found, RanOut)
    assert 0 < found.fits < len(pieces)


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ({"outline": ((0.0, 0.0), (1.0, 0.0))}, "2 corners"),
        ({"outline": ((0.0, 0.0), (4.0, 0.0), (9.0, 0.0))}, "enclose 0 m2"),
        ({"outline": ((0.0, 0.0), (201.0, 0.0), (9.0, 9.0))}, r"outline\[1\]: 201 m"),
        ({"pieces": (Piece("x", PieceKind.BAR, 1.0, 1.0, clear_m=20.1),)}, r"\.clear_m: 20\.1"),
        ({"pieces": (Piece("x", PieceKind.BAR, 1.0, 1.0, to_wall_m=-0.1),)}, "to_wall_m"),
        ({"pieces": (Piece("x", PieceKind.BAR, 1.0, 1.0, throw_m=1.1),)}, "throw_m"),
        ({"settings": FloorSettings(lane_gap_m=float("nan"))}, "settings.lane_gap_m"),
        ({"outline": ((0.0, 0.0), (4.0, 4.0), (4.0, 0.0), (0.0, 5.0))}, "cross"),
        ({"pieces": (Piece("x", PieceKind.BAR, 0.0, 1.0),)}, r"pieces\[0\].width_m"),
        ({"pieces": (*bars(1), *bars(1))}, "there twice"),
        ({"settings": FloorSettings(between_m=-1.0)}, "settings.between_m"),
        ({"pieces": (Piece("x", PieceKind.LANE, 1.0, 2.0, landing_m=3.0),)}, "landing_m"),
    ],
)
def test_bad_input_is_named(change: dict[str, object], words: str) -> None:
    with pytest.raises(InvalidInput, match=words):
        replace(weights_room(1), **change)  # type: ignore[arg-type]


def most_by_brute_force(cells: set[tuple[int, int]], size: tuple[int, int]) -> int:
    """The most rectangles of whole cells, by trying every place of every one."""
    ways = {size, size[::-1]}
    spots = [
        frozenset(product(range(x, x + w), range(y, y + d)))
        for w, d in ways
        for x, y in sorted(cells)
    ]
    spots = [spot for spot in spots if spot <= cells]

    def best(left: list[frozenset[tuple[int, int]]]) -> int:
        if not left:
            return 0
        first, rest = left[0], left[1:]
        return max(1 + best([s for s in rest if not s & first]), best(rest))

    return best(spots)


@given(
    width=st.integers(1, 4),
    depth=st.integers(1, 4),
    size=st.tuples(st.integers(1, 2), st.integers(1, 3)),
    blocked=st.sets(st.tuples(st.integers(0, 3), st.integers(0, 3)), max_size=2),
)
@settings(max_examples=cases(60))
def test_small_rooms_hold_as_many_as_every_layout_tried_says(
    width: int, depth: int, size: tuple[int, int], blocked: set[tuple[int, int]]
) -> None:
    cells = set(product(range(width), range(depth)))
    obstacles = sorted(blocked & cells)
    outline = ((0.0, 0.0), (width, 0.0), (width, depth), (0.0, depth))
    problem = FloorProblem(
        outline,
        (),
        obstacles=tuple(NamedRectangle("o", Rectangle(x, y, 1, 1)) for x, y in obstacles),
        settings=BARE,
    )
    found = capacity(problem, Piece("p", PieceKind.GROUP, *map(float, size)))
    assert found.is_proven
    assert found.count == most_by_brute_force(cells - blocked, size)


metres = st.integers(100, 1200).map(lambda cm: cm / 100)


@given(
    width=metres,
    depth=metres,
    notch=st.tuples(st.floats(0.2, 0.8), st.floats(0.2, 0.8)),
    is_slanted=st.booleans(),
    sizes=st.lists(st.tuples(metres, metres), min_size=1, max_size=4),
    clear=st.sampled_from((0.0, 0.5, 0.91)),
)
@settings(max_examples=cases(60))
def test_whatever_is_placed_keeps_every_rule(
    width: float,
    depth: float,
    notch: tuple[float, float],
    is_slanted: bool,
    sizes: list[tuple[float, float]],
    clear: float,
) -> None:
    x, y = width * notch[0], depth * notch[1]
    corner = ((x, y),) if not is_slanted else ()
    outline = ((0.0, 0.0), (width, 0.0), (width, y), *corner, (x, depth), (0.0, depth))
    pieces = tuple(
        Piece(f"p{n}", PieceKind.GROUP, min(a, width) / 2, min(b, depth) / 2, clear_m=clear)
        for n, (a, b) in enumerate(sizes)
    )
    limits = FloorSettings(to_wall_m=0.3, work_limit=0.02)
    found = place(FloorProblem(outline, pieces, settings=limits))
    if isinstance(found, FloorSolution):
        check_with_shapely(found)
        assert found.extra_m <= found.extra_bound_m
    else:
        assert found.fits < len(pieces)


@given(extra=st.integers(0, 150), count=st.integers(1, 3))
@settings(max_examples=cases(20))
def test_a_larger_room_never_holds_fewer(extra: int, count: int) -> None:
    def most(grow: float) -> int:
        width, depth = 4.1 + count + grow, 3.7 + grow
        outline = ((0.0, 0.0), (width, 0.0), (width, depth), (0.0, depth))
        return capacity(FloorProblem(outline, ()), bars(1)[0]).count

    assume(extra)
    assert most(extra / 100) >= most(0.0)


def test_the_same_problem_gives_the_same_layout() -> None:
    problem = FloorProblem(L_SHAPE, bars(5))
    assert place(problem) == place(problem)
