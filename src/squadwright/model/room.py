"""A room: outline, obstacles, ceilings by zone, walls safe for throws, doors."""

from dataclasses import dataclass

from squadwright.errors import InvalidInput
from squadwright.model.field import Degrees, Identifier, Metres, Name, Note

Point = tuple[Metres, Metres]


@dataclass(frozen=True)
class Obstacle:
    """Something fixed on the floor: ``x_m`` and ``y_m`` are its middle, then its size."""

    name: Name
    x_m: Metres
    y_m: Metres
    width_m: Metres = 0.4
    depth_m: Metres = 0.4


@dataclass(frozen=True)
class CeilingZone:
    """A rectangle of lower ceiling (a duct, a gallery), from its corner nearest the first one."""

    name: Name
    x_m: Metres
    y_m: Metres
    width_m: Metres
    depth_m: Metres
    ceiling_m: Metres


@dataclass(frozen=True)
class ThrowWall:
    """A stretch of wall that is safe for throws, from one point to another.

    ``line_m`` is how far from it the thrower stands at most: nobody lands or runs in between.
    """

    name: Name
    start: Point
    end: Point
    line_m: Metres = 4.0


@dataclass(frozen=True)
class LandingLane:
    """A lane marked on the floor in which people land or run, from its corner nearest the first."""

    name: Name
    x_m: Metres
    y_m: Metres
    width_m: Metres
    depth_m: Metres


@dataclass(frozen=True)
class Door:
    """A door, kept clear: ``x_m`` and ``y_m`` are its middle on the wall."""

    name: Name
    x_m: Metres
    y_m: Metres
    width_m: Metres = 1.0


@dataclass(frozen=True)
class Room:
    """A room in metres; ``outline`` goes round its corners.

    ``x_m`` runs along the room and ``y_m`` across it. ``north_deg`` is how far north is turned
    clockwise from the direction of ``y_m``: 0 when y points north, 90 when x does.
    """

    id: Identifier
    name: Name
    outline: tuple[Point, ...]
    ceiling_m: Metres
    surface: Name = "rubber"
    obstacles: tuple[Obstacle, ...] = ()
    ceiling_zones: tuple[CeilingZone, ...] = ()
    throw_walls: tuple[ThrowWall, ...] = ()
    doors: tuple[Door, ...] = ()
    note: Note = ""
    north_deg: Degrees = 0.0
    lanes: tuple[LandingLane, ...] = ()

    def __post_init__(self) -> None:
        if len(self.outline) < 3:
            raise InvalidInput(
                "rooms.outline",
                f"room {self.id} has {len(self.outline)} corners",
                "Give at least 3 corners in metres, for example [[0,0],[11.5,0],[11.5,8],[0,8]]",
            )

    @property
    def area_m2(self) -> float:
        """Floor area by the shoelace formula [m2], obstacles not taken off."""
        corners = self.outline
        twice = sum(
            x1 * y2 - x2 * y1
            for (x1, y1), (x2, y2) in zip(corners, corners[1:] + corners[:1], strict=True)
        )
        return abs(twice) / 2
