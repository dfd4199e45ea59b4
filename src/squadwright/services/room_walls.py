"""Doors and throw walls go with the wall they are in when its corners move."""

import math
from collections.abc import Sequence
from dataclasses import replace

from squadwright.exchange.room_shape import NEAR_WALL_M
from squadwright.model.room import Door, Point, Room, ThrowWall
from squadwright.planning.floor.problem import sides
from squadwright.planning.floor.region import from_side


def with_walls_moved(before: Room, after: Room) -> Room:
    """``after``, whose corners may have moved, with what was in a wall still in it.

    What was moved by itself stays where it was put. Where corners were added or taken away nothing
    is moved.
    """
    if len(before.outline) != len(after.outline) or before.outline == after.outline:
        return after
    old, new = sides(before.outline), sides(after.outline)
    doors = tuple(_door(door, old, new) if door in before.doors else door for door in after.doors)
    walls = tuple(
        _wall(wall, old, new) if wall in before.throw_walls else wall for wall in after.throw_walls
    )
    return replace(after, doors=doors, throw_walls=walls)


def _door(
    door: Door, old: Sequence[tuple[Point, Point]], new: Sequence[tuple[Point, Point]]
) -> Door:
    here = (door.x_m, door.y_m)
    index = _side_of((here,), old)
    if index is None:
        return door
    x, y = _along(here, old[index], new[index])
    return replace(door, x_m=x, y_m=y)


def _wall(
    wall: ThrowWall, old: Sequence[tuple[Point, Point]], new: Sequence[tuple[Point, Point]]
) -> ThrowWall:
    index = _side_of((wall.start, wall.end), old)
    if index is None:
        return wall
    start, end = (_along(point, old[index], new[index]) for point in (wall.start, wall.end))
    return replace(wall, start=start, end=end)


def _side_of(points: Sequence[Point], walls: Sequence[tuple[Point, Point]]) -> int | None:
    """The wall in which all points lie."""
    off = [max(from_side(point, wall) for point in points) for wall in walls]
    index = min(range(len(walls)), key=off.__getitem__)
    return index if off[index] <= NEAR_WALL_M else None


def _along(point: Point, old: tuple[Point, Point], new: tuple[Point, Point]) -> Point:
    """As far from the nearer end of the wall as before, never beyond the other end."""
    if old == new:
        return point
    long, now = math.dist(*old), math.dist(*new)
    if long == 0 or now == 0:
        return new[0]
    from_start = min(long, math.dist(old[0], point))
    is_near_start = from_start <= long / 2
    way = from_start if is_near_start else now - (long - from_start)
    share = min(1.0, max(0.0, way / now))
    (x1, y1), (x2, y2) = new
    return round(x1 + share * (x2 - x1), 4), round(y1 + share * (y2 - y1), 4)
