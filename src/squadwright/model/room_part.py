"""A rectangle of a room as a room of its own: what is left when somebody else has the rest."""

from collections.abc import Iterable
from dataclasses import replace
from typing import TypeVar

from squadwright.errors import InvalidInput
from squadwright.model.room import CeilingZone, Door, LandingLane, Obstacle, Point, Room, ThrowWall

ON_THE_EDGE_M = 0.01
LEAST_AREA_M2 = 1.0
Sides = tuple[float, float, float, float]
Patch = TypeVar("Patch", CeilingZone, LandingLane)


def part_of(room: Room, x_m: float, y_m: float, width_m: float, depth_m: float) -> Room:
    """What lies of a room in a rectangle; the line where it is cut counts as a wall.

    Obstacles, low ceilings and throw walls are cut with it; a door stays where it leads into the
    part. InvalidInput where less than 1 m2 of the room lies in the rectangle.
    """
    sides = (x_m, x_m + width_m, y_m, y_m + depth_m)
    outline = _clipped(room.outline, sides)
    area_m2 = _area_m2(outline)
    if area_m2 < LEAST_AREA_M2:
        raise InvalidInput(
            "floor",
            f"{width_m:g} x {depth_m:g} m from {x_m:g}, {y_m:g} m hold {area_m2:.2g} m2 of "
            f"{room.name}; at least {LEAST_AREA_M2:g} m2 are needed",
            "Give a rectangle that lies in the room",
        )
    xs, ys = [x for x, _ in outline], [y for _, y in outline]
    size = f"{max(xs) - min(xs):.4g} x {max(ys) - min(ys):.4g} m"
    return replace(
        room,
        name=f"{room.name[:90]}, part of {size}",
        outline=outline,
        obstacles=tuple(o for each in room.obstacles if (o := _obstacle(each, sides)) is not None),
        ceiling_zones=tuple(z for each in room.ceiling_zones if (z := _patch(each, sides))),
        throw_walls=tuple(w for each in room.throw_walls if (w := _wall(each, sides))),
        lanes=tuple(lane for each in room.lanes if (lane := _patch(each, sides))),
        doors=tuple(door for door in room.doors if _leads_into(door, sides)),
    )


def shared_m2(
    outline: Iterable[Point], x_m: float, y_m: float, width_m: float, depth_m: float
) -> float:
    """Floor that an outline and a rectangle share [m2]."""
    return _area_m2(_clipped(outline, (x_m, x_m + width_m, y_m, y_m + depth_m)))


def _clipped(outline: Iterable[Point], sides: Sides) -> tuple[Point, ...]:
    """The outline cut by each side of the rectangle in turn (Sutherland and Hodgman's way)."""
    left, right, low, high = sides
    points = list(outline)
    for axis, limit, keeps_more in (
        (0, left, True),
        (0, right, False),
        (1, low, True),
        (1, high, False),
    ):
        points = _cut(points, axis, limit, keeps_more=keeps_more)
    found: list[Point] = []
    for point in points:
        rounded = (round(point[0], 4), round(point[1], 4))
        if not found or rounded != found[-1]:
            found.append(rounded)
    if len(found) > 1 and found[0] == found[-1]:
        found.pop()
    return tuple(found)


def _cut(points: list[Point], axis: int, limit: float, *, keeps_more: bool) -> list[Point]:
    def is_kept(point: Point) -> bool:
        return point[axis] >= limit if keeps_more else point[axis] <= limit

    found: list[Point] = []
    for index, point in enumerate(points):
        before = points[index - 1]
        if is_kept(point) != is_kept(before):
            share = (limit - before[axis]) / (point[axis] - before[axis])
            met = tuple(b + share * (p - b) for b, p in zip(before, point, strict=True))
            found.append((limit, met[1]) if axis == 0 else (met[0], limit))
        if is_kept(point):
            found.append(point)
    return found


def _area_m2(outline: tuple[Point, ...]) -> float:
    pairs = zip(outline, (*outline[1:], *outline[:1]), strict=True)
    return abs(sum(x1 * y2 - x2 * y1 for (x1, y1), (x2, y2) in pairs)) / 2


def _shared(sides: Sides, other: Sides) -> Sides | None:
    """What two rectangles share; None where they share no floor."""
    left, right = max(sides[0], other[0]), min(sides[1], other[1])
    low, high = max(sides[2], other[2]), min(sides[3], other[3])
    if right - left <= 1e-6 or high - low <= 1e-6:
        return None
    return tuple(round(value, 4) for value in (left, right, low, high))  # type: ignore[return-value]


def _obstacle(item: Obstacle, sides: Sides) -> Obstacle | None:
    half = (item.width_m / 2, item.depth_m / 2)
    whole = (item.x_m - half[0], item.x_m + half[0], item.y_m - half[1], item.y_m + half[1])
    shared = _shared(whole, sides)
    if shared is None:
        return None
    left, right, low, high = shared
    return Obstacle(
        item.name,
        round((left + right) / 2, 4),
        round((low + high) / 2, 4),
        round(right - left, 4),
        round(high - low, 4),
    )


def _patch(patch: Patch, sides: Sides) -> Patch | None:
    """What lies of a rectangle given from its corner in the part."""
    whole = (patch.x_m, patch.x_m + patch.width_m, patch.y_m, patch.y_m + patch.depth_m)
    shared = _shared(whole, sides)
    if shared is None:
        return None
    left, right, low, high = shared
    return replace(
        patch, x_m=left, y_m=low, width_m=round(right - left, 4), depth_m=round(high - low, 4)
    )


def _wall(wall: ThrowWall, sides: Sides) -> ThrowWall | None:
    """The stretch of a wall inside the rectangle (Liang and Barsky's way)."""
    (x1, y1), (x2, y2) = wall.start, wall.end
    left, right, low, high = sides
    first, last = 0.0, 1.0
    for step, room_m in (
        (x1 - x2, x1 - left),
        (x2 - x1, right - x1),
        (y1 - y2, y1 - low),
        (y2 - y1, high - y1),
    ):
        if step == 0 and room_m < -ON_THE_EDGE_M:
            return None
        if step < 0:
            first = max(first, room_m / step)
        elif step > 0:
            last = min(last, room_m / step)
    if last - first <= 1e-6:
        return None

    def at(share: float) -> Point:
        return round(x1 + share * (x2 - x1), 4), round(y1 + share * (y2 - y1), 4)

    return replace(wall, start=at(first), end=at(last))


def _leads_into(door: Door, sides: Sides) -> bool:
    left, right, low, high = sides
    near = ON_THE_EDGE_M
    return left - near <= door.x_m <= right + near and low - near <= door.y_m <= high + near
