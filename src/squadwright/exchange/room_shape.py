"""What cannot be in a room: walls that cross, things outside of it, doors that are in no wall.

The page of a room refuses it; a club file with it is taken, and the coach is told.
"""

from collections.abc import Iterator, Sequence

from squadwright.errors import InvalidInput
from squadwright.exchange.complaint import Complaint
from squadwright.model.room import Point, Room
from squadwright.planning.floor.problem import FloorProblem, cross, sides
from squadwright.planning.floor.region import from_side, inside_room
from squadwright.planning.throw_lines import lanes_crossed

NEAR_WALL_M = 0.05
Rect = tuple[float, float, float, float]


def misplaced(room: Room) -> Iterator[Complaint]:
    """Everything about a room that cannot be, each with its place in the room."""
    try:
        FloorProblem(room.outline, ())
    except InvalidInput as error:
        yield Complaint("outline", error.problem, error.advice)
        return
    yield from _outside(room)
    yield from _not_on_a_wall(room)
    for crossed in lanes_crossed(room):
        index = room.throw_walls.index(crossed.wall)
        yield Complaint(f"throw_walls[{index}]", crossed.sentence, crossed.advice)


def _outside(room: Room) -> Iterator[Complaint]:
    things: list[tuple[str, str, Rect]] = [
        *(
            (f"obstacles[{i}]", o.name, _around(o.x_m, o.y_m, o.width_m, o.depth_m))
            for i, o in enumerate(room.obstacles)
        ),
        *(
            (f"{kind}[{i}]", t.name, (t.x_m, t.y_m, t.x_m + t.width_m, t.y_m + t.depth_m))
            for kind in ("ceiling_zones", "lanes")
            for i, t in enumerate(getattr(room, kind))
        ),
    ]
    for place, name, rect in things:
        if rect[2] - rect[0] <= 0 or rect[3] - rect[1] <= 0:
            yield Complaint(place, f"{name} has no size", "Give its width and depth in metres")
        elif not _lies_inside(rect, room.outline):
            left, low, right, high = rect
            yield Complaint(
                place,
                f"{name} is not inside {room.name}: it reaches from {left:g}, {low:g} m to "
                f"{right:g}, {high:g} m, and the room {_reach(room.outline)}",
                "Check where it stands and its size, in metres from the first corner",
            )


def _not_on_a_wall(room: Room) -> Iterator[Complaint]:
    for index, door in enumerate(room.doors):
        off_m = min(from_side((door.x_m, door.y_m), side) for side in sides(room.outline))
        if off_m > NEAR_WALL_M:
            yield Complaint(
                f"doors[{index}]",
                f"{door.name} at {door.x_m:g}, {door.y_m:g} m is in no wall: the nearest one is "
                f"{off_m:.2f} m away, and at most {NEAR_WALL_M:g} m are allowed",
                "Give the middle of the door on its wall",
            )
    for index, wall in enumerate(room.throw_walls):
        if not any(
            max(from_side(end, side) for end in (wall.start, wall.end)) <= NEAR_WALL_M
            for side in sides(room.outline)
        ):
            yield Complaint(
                f"throw_walls[{index}]",
                f"{wall.name} from {_at(wall.start)} to {_at(wall.end)} lies along no wall of "
                f"{room.name}",
                "Give two points of one wall",
            )


def _around(x: float, y: float, width: float, depth: float) -> Rect:
    return x - width / 2, y - depth / 2, x + width / 2, y + depth / 2


def _at(point: Point) -> str:
    return f"{point[0]:g}, {point[1]:g} m"


def _reach(outline: Sequence[Point]) -> str:
    xs, ys = [x for x, _ in outline], [y for _, y in outline]
    return f"from {min(xs):g}, {min(ys):g} m to {max(xs):g}, {max(ys):g} m"


def _lies_inside(rect: Rect, outline: Sequence[Point]) -> bool:
    """Whether a rectangle, less a hair all round, has its corners inside and no wall through it."""
    left, low, right, high = rect
    hair = min(NEAR_WALL_M, (right - left) / 4, (high - low) / 4)
    left, low, right, high = left + hair, low + hair, right - hair, high - hair
    corners = ((left, low), (right, low), (right, high), (left, high))
    if not all(inside_room(outline, corner) for corner in corners):
        return False
    edges, walls = sides(corners), sides(outline)
    return not any(cross(edge, wall) for edge in edges for wall in walls) and not any(
        left < x < right and low < y < high for x, y in outline
    )
