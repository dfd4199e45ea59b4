"""The floor of a room in whole centimetres: what may not be stood on, as rectangles.

Two readings of the same room. The careful one rounds against the pieces, and is used to place
them: what fits there, fits. The generous one rounds everything down, and is used for proofs: if a
layout exists at any positions at all, rounding its positions down gives a layout there, because
whole parts never add up to more than the whole part of the sum. So what does not fit there, fits
nowhere. Where every length is a whole centimetre the two are one.
"""

import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from squadwright.planning.floor.problem import (
    STRAIGHT_M,
    DoorWay,
    FloorProblem,
    Point,
    Rectangle,
    SafeWall,
    sides,
    signed_area_m2,
)

Box = tuple[int, int, int, int]
"""Left, lower, right and upper end [cm]."""
SLAB_M = 0.10
MOST_SLABS = 120
_GUARD = 1e-6


def down(value_m: float) -> int:
    """Whole centimetres, rounded down."""
    return math.floor(value_m * 100 + _GUARD)


def up(value_m: float) -> int:
    """Whole centimetres, rounded up."""
    return math.ceil(value_m * 100 - _GUARD)


@dataclass(frozen=True)
class WallSide:
    """A throw-safe wall along the room (``along_x``) or across it; ``inside`` is 1 or -1."""

    name: str
    at: int
    start: int
    end: int
    along_x: bool
    inside: int


@dataclass(frozen=True)
class Region:
    """A room in centimetres.

    ``outside`` lies beyond the walls, ``obstacles`` want clear floor round them, ``kept_clear``
    does not; only throws keep out of ``lanes``.
    """

    bounds: Box
    outside: tuple[Box, ...]
    obstacles: tuple[Box, ...]
    kept_clear: tuple[Box, ...]
    walls: tuple[WallSide, ...]
    lanes: tuple[Box, ...] = ()


def region_of(problem: FloorProblem, *, generous: bool = False) -> Region:
    """The careful or the generous reading of a room."""
    xs = [x for x, _ in problem.outline]
    ys = [y for _, y in problem.outline]
    low, high = (down, down) if generous else (up, down)
    bounds = (low(min(xs)), low(min(ys)), high(max(xs)), high(max(ys)))
    doors = [door_zone(problem, door) for door in problem.doors]
    grown = _box_down if generous else _box_out
    return Region(
        bounds=bounds,
        outside=tuple(_outside(problem.outline, bounds, generous=generous)),
        obstacles=tuple(grown(item.place) for item in problem.obstacles),
        kept_clear=tuple(grown(zone) for zone in doors),
        walls=tuple(_walls(problem, generous=generous)),
        lanes=tuple(grown(lane.place) for lane in problem.landing_lanes),
    )


def _box_out(place: Rectangle) -> Box:
    return down(place.x_m), down(place.y_m), up(place.right_m), up(place.top_m)


def _box_down(place: Rectangle) -> Box:
    return down(place.x_m), down(place.y_m), down(place.right_m), down(place.top_m)


def low_boxes(problem: FloorProblem, need_m: float) -> tuple[Box, ...]:
    """Parts of the room whose ceiling is lower than needed."""
    return tuple(
        _box_out(zone.place) for zone in problem.low_ceilings if zone.ceiling_m < need_m - _GUARD
    )


def inside_room(outline: Sequence[Point], point: Point) -> bool:
    """Whether a point lies inside the outline (crossings of a ray)."""
    x, y = point
    found = False
    for (x1, y1), (x2, y2) in sides(outline):
        if (y1 > y) != (y2 > y) and x < x1 + (y - y1) * (x2 - x1) / (y2 - y1):
            found = not found
    return found


def door_zone(problem: FloorProblem, door: DoorWay) -> Rectangle:
    """The floor behind a door that is kept clear: its width, and a walkway deep.

    At a slanted wall it is a square round the door.
    """
    deep = problem.settings.door_clear_m
    half = door.width_m / 2
    x, y = door.middle
    (x1, y1), (x2, y2) = min(sides(problem.outline), key=lambda side: from_side(door.middle, side))
    if abs(y1 - y2) <= STRAIGHT_M:
        below = inside_room(problem.outline, (x, y1 - 0.05))
        return Rectangle(x - half, y1 - deep if below else y1, door.width_m, deep)
    if abs(x1 - x2) <= STRAIGHT_M:
        before = inside_room(problem.outline, (x1 - 0.05, y))
        return Rectangle(x1 - deep if before else x1, y - half, deep, door.width_m)
    reach = max(half, deep)
    return Rectangle(x - reach, y - reach, 2 * reach, 2 * reach)


def from_side(point: Point, side: tuple[Point, Point]) -> float:
    """How far a point is from a wall [m]."""
    (x1, y1), (x2, y2) = side
    long = math.hypot(x2 - x1, y2 - y1)
    if long == 0:
        return math.hypot(point[0] - x1, point[1] - y1)
    share = ((point[0] - x1) * (x2 - x1) + (point[1] - y1) * (y2 - y1)) / long**2
    share = min(1.0, max(0.0, share))
    return math.hypot(point[0] - x1 - share * (x2 - x1), point[1] - y1 - share * (y2 - y1))


def _outside(outline: Sequence[Point], bounds: Box, *, generous: bool) -> Iterator[Box]:
    """What of the surrounding rectangle is not room, in upright strips, equal ones joined."""
    open_strips: dict[tuple[int, int], tuple[int, int]] = {}
    for left, right, free in _strips(outline):
        edges = (down(left), down(right)) if generous else (down(left), up(right))
        blocked = _gaps(free, bounds, generous=generous)
        still: dict[tuple[int, int], tuple[int, int]] = {}
        for span in blocked:
            start, _ = open_strips.pop(span, edges)
            still[span] = (start, edges[1])
        yield from _boxes(open_strips)
        open_strips = still
    yield from _boxes(open_strips)


def _boxes(strips: dict[tuple[int, int], tuple[int, int]]) -> Iterator[Box]:
    for (low, high), (left, right) in strips.items():
        if right > left and high > low:
            yield left, low, right, high


Span = tuple[tuple[float, float], tuple[float, float]]


def _strips(outline: Sequence[Point]) -> Iterator[tuple[float, float, list[Span]]]:
    """Upright strips of the room, each with the free spans across it.

    A span is (lower wall at the left and right end of the strip, upper wall at both ends).
    """
    spanning = [side for side in sides(outline) if side[0][0] != side[1][0]]
    corners = sorted({x for x, _ in outline})
    slanted = any(y1 != y2 for (_, y1), (_, y2) in spanning)
    cuts = corners
    if slanted:
        cuts = [corners[0]]
        wide = max(SLAB_M, (corners[-1] - corners[0]) / MOST_SLABS)
        for left, right in pairwise(corners):
            parts = max(1, math.ceil((right - left) / wide))
            cuts += [left + (right - left) * part / parts for part in range(1, parts + 1)]
    for left, right in pairwise(cuts):
        middle = (left + right) / 2
        crossing = sorted(
            (_height(side, middle), (_height(side, left), _height(side, right)))
            for side in spanning
            if min(side[0][0], side[1][0]) < middle < max(side[0][0], side[1][0])
        )
        walls = [ends for _, ends in crossing]
        yield left, right, list(zip(walls[::2], walls[1::2], strict=True))


def _height(side: tuple[Point, Point], x: float) -> float:
    (x1, y1), (x2, y2) = side
    return y1 + (x - x1) * (y2 - y1) / (x2 - x1)


def _gaps(free: list[Span], bounds: Box, *, generous: bool) -> list[tuple[int, int]]:
    """What is blocked across one strip."""
    if generous:
        spans = [(down(min(low)), down(max(high))) for low, high in free]
    else:
        spans = [(up(max(low)), down(min(high))) for low, high in free]
    blocked = []
    at = bounds[1]
    for low, high in spans:
        if low > at:
            blocked.append((at, low))
        at = max(at, high) if high > low else at
    if bounds[3] > at:
        blocked.append((at, bounds[3]))
    return blocked


def _walls(problem: FloorProblem, *, generous: bool) -> Iterator[WallSide]:
    low: Callable[[float], int] = down if generous else up
    for wall in problem.safe_walls:
        if not wall.lies_along_a_side:
            continue
        along_x = abs(wall.start[1] - wall.end[1]) <= STRAIGHT_M
        (at, first, last) = _wall_ends(wall, along_x=along_x)
        middle = (first + last) / 2
        beyond = (middle, at + 0.05) if along_x else (at + 0.05, middle)
        inside = 1 if inside_room(problem.outline, beyond) else -1
        at_cm = low(at) if inside == 1 else down(at)
        yield WallSide(wall.name, at_cm, low(first), down(last), along_x, inside)


def _wall_ends(wall: SafeWall, *, along_x: bool) -> tuple[float, float, float]:
    (x1, y1), (x2, y2) = wall.start, wall.end
    return (y1, min(x1, x2), max(x1, x2)) if along_x else (x1, min(y1, y2), max(y1, y2))


def area_m2(outline: Sequence[Point]) -> float:
    """Floor area of an outline [m2]."""
    return abs(signed_area_m2(outline))
