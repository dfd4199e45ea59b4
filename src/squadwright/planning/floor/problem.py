"""The floor to lay out: a room, what stands in it, what has to be placed, and the coach's settings.

Lengths are metres from the first corner of the room, x along it and y across it.

How clear space is counted: a piece is a rectangle that nobody else enters. Between two pieces, or
a piece and an obstacle, one strip of clear floor lies, and both neighbours share it. They are apart
when the strip is there along the room or across it. The strip along the walls is counted once more.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum

from squadwright.errors import InvalidInput

Point = tuple[float, float]
LARGEST_ROOM_M = 200.0
LEAST_SIDE_M = 0.05
STRAIGHT_M = 0.005


class PieceKind(StrEnum):
    """What a piece of floor is for."""

    BAR = "bar"
    LANE = "lane"
    THROW = "throw"
    BOX = "box"
    GROUP = "group"


@dataclass(frozen=True)
class Rectangle:
    """A rectangle along the room: its corner nearest the first corner, and its size [m]."""

    x_m: float
    y_m: float
    width_m: float
    depth_m: float

    @property
    def right_m(self) -> float:
        """The far end along the room [m]."""
        return self.x_m + self.width_m

    @property
    def top_m(self) -> float:
        """The far end across the room [m]."""
        return self.y_m + self.depth_m

    @property
    def middle(self) -> Point:
        """Its middle."""
        return self.x_m + self.width_m / 2, self.y_m + self.depth_m / 2


@dataclass(frozen=True)
class NamedRectangle:
    """An obstacle, by name."""

    name: str
    place: Rectangle


@dataclass(frozen=True)
class LowCeiling:
    """A part of the room with a ceiling of its own."""

    name: str
    place: Rectangle
    ceiling_m: float


@dataclass(frozen=True)
class SafeWall:
    """A stretch of wall that is safe for throws."""

    name: str
    start: Point
    end: Point

    @property
    def lies_along_a_side(self) -> bool:
        """Whether it runs along or across the room, so that throws can be placed at it."""
        (x1, y1), (x2, y2) = self.start, self.end
        return abs(x1 - x2) <= STRAIGHT_M or abs(y1 - y2) <= STRAIGHT_M


@dataclass(frozen=True)
class DoorWay:
    """A door: its middle on the wall, and how wide it is."""

    name: str
    middle: Point
    width_m: float = 1.0


@dataclass(frozen=True)
class Piece:
    """Something that needs floor to itself.

    ``width_m`` is the length of a bar, or the width of a lane or throw; ``depth_m`` runs along the
    lane, or away from the wall that is thrown at. The last ``landing_m`` of a lane are its landing
    zone. ``throw_m`` is the throw line from the wall. What is left out is taken from the settings.
    """

    id: str
    kind: PieceKind
    width_m: float
    depth_m: float
    clear_m: float | None = None
    to_wall_m: float | None = None
    may_turn: bool = True
    at_throw_wall: bool = False
    throw_m: float = 0.0
    landing_m: float = 0.0
    ceiling_m: float = 0.0

    def alike(self) -> tuple[object, ...]:
        """Pieces with equal keys can change places."""
        return (
            self.kind, self.width_m, self.depth_m, self.clear_m, self.to_wall_m, self.may_turn,
            self.at_throw_wall, self.throw_m, self.landing_m, self.ceiling_m,
        )  # fmt: skip


@dataclass(frozen=True)
class FloorSettings:
    """The coach's clearances; ``SETTING_SOURCES`` says where each default comes from."""

    between_m: float = 0.91
    to_wall_m: float = 0.91
    door_clear_m: float = 0.91
    lane_gap_m: float = 2.0
    may_turn: bool = True
    widest_useful_gap_m: float = 1.82
    work_limit: float = 0.15


SETTING_SOURCES = {
    "between_m": "36 in (91 cm) between bar ends, kit: NSCA Essentials ch. 23, second hand",
    "to_wall_m": "36 in (91 cm) walkway, here along each wall: NSCA Essentials ch. 23, second hand",
    "door_clear_m": "36 in (91 cm) walkway, here behind each door: the same",
    "lane_gap_m": "coach's setting; common practice, no source",
    "may_turn": "coach's setting; stations may stand along or across the room",
    "widest_useful_gap_m": "coach's setting; two walkways side by side",
    "work_limit": "program's setting; how long the solver may look, counted in its own steps",
}


@dataclass(frozen=True)
class FloorProblem:
    """A room and the pieces to place in it; no throw is placed across a landing lane."""

    outline: tuple[Point, ...]
    pieces: tuple[Piece, ...]
    ceiling_m: float = 3.0
    obstacles: tuple[NamedRectangle, ...] = ()
    low_ceilings: tuple[LowCeiling, ...] = ()
    safe_walls: tuple[SafeWall, ...] = ()
    doors: tuple[DoorWay, ...] = ()
    settings: FloorSettings = FloorSettings()
    landing_lanes: tuple[NamedRectangle, ...] = ()

    def __post_init__(self) -> None:
        _check_outline(self.outline)
        for name in ("between_m", "to_wall_m", "door_clear_m", "lane_gap_m"):
            _check_number(f"settings.{name}", getattr(self.settings, name), 0.0, 20.0)
        seen: set[str] = set()
        for index, piece in enumerate(self.pieces):
            _check_piece(f"pieces[{index}]", piece)
            if piece.id in seen:
                raise InvalidInput(
                    f"pieces[{index}].id", f"{piece.id!r} is there twice", "Give each its own id"
                )
            seen.add(piece.id)

    def clear_m(self, piece: Piece) -> float:
        """Clear floor to neighbours and obstacles [m]."""
        return self.settings.between_m if piece.clear_m is None else piece.clear_m

    def to_wall_m(self, piece: Piece) -> float:
        """Clear floor to the walls [m]."""
        return self.settings.to_wall_m if piece.to_wall_m is None else piece.to_wall_m


def signed_area_m2(outline: Sequence[Point]) -> float:
    """Area by the shoelace formula, more than 0 when the corners go round to the left [m2]."""
    pairs = zip(outline, (*outline[1:], outline[0]), strict=True)
    return sum(x1 * y2 - x2 * y1 for (x1, y1), (x2, y2) in pairs) / 2


def _check_number(place: str, value: float, low: float, high: float) -> None:
    if not math.isfinite(value) or not low <= value <= high:
        raise InvalidInput(
            place, f"{value:g} m; it must lie between {low:g} and {high:g} m", "Give it in metres"
        )


def _check_piece(place: str, piece: Piece) -> None:
    _check_number(f"{place}.width_m", piece.width_m, LEAST_SIDE_M, LARGEST_ROOM_M)
    _check_number(f"{place}.depth_m", piece.depth_m, LEAST_SIDE_M, LARGEST_ROOM_M)
    _check_number(f"{place}.landing_m", piece.landing_m, 0.0, piece.depth_m)
    _check_number(f"{place}.throw_m", piece.throw_m, 0.0, piece.depth_m)
    for name in ("clear_m", "to_wall_m"):
        value = getattr(piece, name)
        if value is not None:
            _check_number(f"{place}.{name}", value, 0.0, 20.0)


def _check_outline(outline: tuple[Point, ...]) -> None:
    if len(outline) < 3:
        raise InvalidInput(
            "outline", f"{len(outline)} corners; a room has at least 3", "Give them in order"
        )
    for index, corner in enumerate(outline):
        for value in corner:
            _check_number(f"outline[{index}]", value, -LARGEST_ROOM_M, LARGEST_ROOM_M)
    if abs(signed_area_m2(outline)) < LEAST_SIDE_M**2:
        raise InvalidInput(
            "outline",
            f"its corners enclose {abs(signed_area_m2(outline)):.3g} m2",
            "Give the corners in order round the room",
        )
    walls = sides(outline)
    for first, wall in enumerate(walls):
        for second in range(first + 1, len(walls)):
            if cross(wall, walls[second]):
                raise InvalidInput(
                    "outline",
                    f"the walls from corner {first + 1} and from corner {second + 1} cross",
                    "Give the corners in order round the room",
                )


def sides(outline: Sequence[Point]) -> list[tuple[Point, Point]]:
    """The walls of an outline, each from corner to corner."""
    return list(zip(outline, (*outline[1:], outline[0]), strict=True))


def side_of(start: Point, end: Point, point: Point) -> float:
    """On which side of a line from start to end a point lies, by sign; 0 on the line."""
    return (end[0] - start[0]) * (point[1] - start[1]) - (end[1] - start[1]) * (point[0] - start[0])


def cross(one: tuple[Point, Point], other: tuple[Point, Point]) -> bool:
    """Whether two stretches cross inside both of them."""
    (a, b), (c, d) = one, other
    return side_of(a, b, c) * side_of(a, b, d) < 0 and side_of(c, d, a) * side_of(c, d, b) < 0
