"""Where one piece may stand: its size each way round, and the boxes it must keep out of."""

from collections.abc import Iterable
from dataclasses import dataclass

from squadwright.planning.floor.problem import FloorProblem, Piece, Rectangle
from squadwright.planning.floor.region import Box, Region, WallSide, down, low_boxes, up


@dataclass(frozen=True)
class Footing:
    """A piece in centimetres, with the room as it is for that piece.

    ``area`` is the room less the strip along its walls; ``fixed`` are boxes it must not overlap;
    to ``obstacles`` it also keeps ``clear``.
    """

    piece: Piece
    width: int
    depth: int
    clear: int
    may_turn: bool
    area: Box
    fixed: tuple[Box, ...]
    obstacles: tuple[Box, ...]
    walls: tuple[WallSide, ...] = ()

    def size(self, turned: bool) -> tuple[int, int]:
        """Size along and across the room."""
        return (self.depth, self.width) if turned else (self.width, self.depth)


@dataclass(frozen=True)
class Spot:
    """A piece where it stands [cm]; ``wall`` is the wall it is thrown at."""

    x: int
    y: int
    turned: bool
    wall: WallSide | None = None


def footing_of(
    problem: FloorProblem,
    region: Region,
    piece: Piece,
    *,
    generous: bool = False,
    under_low_ceilings: bool = True,
) -> Footing:
    """A piece in one reading of the room."""
    whole = down if generous else up
    wall = 0 if piece.at_throw_wall else whole(problem.to_wall_m(piece))
    left, low, right, high = region.bounds
    ceilings = () if under_low_ceilings else low_boxes(problem, piece.ceiling_m)
    return Footing(
        piece=piece,
        width=whole(piece.width_m),
        depth=whole(piece.depth_m),
        clear=whole(problem.clear_m(piece)),
        may_turn=piece.may_turn and problem.settings.may_turn and not piece.at_throw_wall,
        area=(left + wall, low + wall, right - wall, high - wall),
        fixed=(
            *(grown(box, wall) for box in region.outside),
            *region.kept_clear,
            *(region.lanes if piece.at_throw_wall else ()),
            *ceilings,
        ),
        obstacles=region.obstacles,
        walls=region.walls if piece.at_throw_wall else (),
    )


def grown(box: Box, by: int) -> Box:
    """A box with a strip all round it."""
    return box[0] - by, box[1] - by, box[2] + by, box[3] + by


def box_of(footing: Footing, spot: Spot) -> Box:
    """The box a piece takes up."""
    width, depth = footing.size(spot.turned)
    return spot.x, spot.y, spot.x + width, spot.y + depth


def apart(first: Box, second: Box) -> int:
    """Clear floor between two boxes, along or across the room, whichever is more [cm].

    Less than 0 where they overlap.
    """
    along = max(second[0] - first[2], first[0] - second[2])
    across = max(second[1] - first[3], first[1] - second[3])
    return max(along, across)


def within(box: Box, area: Box) -> bool:
    """Whether a box lies in an area."""
    return box[0] >= area[0] and box[1] >= area[1] and box[2] <= area[2] and box[3] <= area[3]


def spare(footing: Footing, box: Box, others: Iterable[tuple[Box, int]]) -> int | None:
    """Clear floor of a piece beyond what is asked, the least of all sides [cm]; None if it may not
    stand there. ``others`` are boxes of pieces placed before, each with the clear floor they want.
    """
    if not within(box, footing.area) or any(apart(box, fixed) < 0 for fixed in footing.fixed):
        return None
    least = 10_000
    for obstacle in footing.obstacles:
        least = min(least, apart(box, obstacle) - footing.clear)
    for other, clear in others:
        least = min(least, apart(box, other) - max(clear, footing.clear))
        if least < 0:
            return None
    return least if least >= 0 else None


def spare_of_all(footings: list[Footing], spots: list[Spot]) -> int | None:
    """The least spare of a whole layout [cm], or None where it breaks a rule."""
    least = 10_000
    before: list[tuple[Box, int]] = []
    for footing, spot in zip(footings, spots, strict=True):
        box = box_of(footing, spot)
        own = spare(footing, box, before)
        if own is None or (footing.piece.at_throw_wall and not _touches(footing, spot, box)):
            return None
        least = min(least, own)
        before.append((box, footing.clear))
    return least


def _touches(footing: Footing, spot: Spot, box: Box) -> bool:
    wall = spot.wall
    if wall is None or wall not in footing.walls or spot.turned == wall.along_x:
        return False
    first, last = (box[0], box[2]) if wall.along_x else (box[1], box[3])
    low, high = (box[1], box[3]) if wall.along_x else (box[0], box[2])
    return (
        first >= wall.start and last <= wall.end and (low if wall.inside == 1 else high) == wall.at
    )


def at_wall(footing: Footing, wall: WallSide, along: int) -> Spot:
    """The spot at a wall, so far along it."""
    across = wall.at if wall.inside == 1 else wall.at - footing.depth
    if wall.along_x:
        return Spot(along, across, False, wall)
    return Spot(across, along, True, wall)


def rectangle(box: Box) -> Rectangle:
    """A box in metres."""
    return Rectangle(box[0] / 100, box[1] / 100, (box[2] - box[0]) / 100, (box[3] - box[1]) / 100)
