"""The floor in front of a throw-safe wall, and the landing lanes that it must not cross."""

import math
from collections.abc import Iterator
from dataclasses import dataclass

from squadwright.model.room import LandingLane, Point, Room, ThrowWall
from squadwright.model.room_part import shared_m2
from squadwright.planning.floor.region import inside_room

LEAST_SHARED_M2 = 1e-6
INWARD_M = 0.02


@dataclass(frozen=True)
class LaneCrossed:
    """A throw line that crosses a landing lane, and the floor they share [m2]."""

    wall: ThrowWall
    lane: LandingLane
    shared_m2: float

    @property
    def sentence(self) -> str:
        """What is wrong."""
        return (
            f"the throw line of {self.wall.name}, {self.wall.line_m:g} m deep, crosses the landing "
            f"lane {self.lane.name}: {self.shared_m2:.2f} m2 of floor are in both"
        )

    @property
    def advice(self) -> str:
        """What to do."""
        return "Move the lane, shorten the wall or the throw line, so that nobody lands in a throw"


def lanes_crossed(room: Room) -> tuple[LaneCrossed, ...]:
    """Every throw line of a room across one of its landing lanes."""
    return tuple(_crossed(room))


def throw_line(room: Room, wall: ThrowWall) -> tuple[Point, ...]:
    """The corners of the floor in front of a wall, as deep as its throw line."""
    (x1, y1), (x2, y2) = wall.start, wall.end
    long_m = math.dist(wall.start, wall.end)
    if long_m == 0:
        return ()
    across = ((y1 - y2) / long_m, (x2 - x1) / long_m)
    middle = ((x1 + x2) / 2 + INWARD_M * across[0], (y1 + y2) / 2 + INWARD_M * across[1])
    way = wall.line_m if inside_room(room.outline, middle) else -wall.line_m
    dx, dy = way * across[0], way * across[1]
    return (x1, y1), (x2, y2), (x2 + dx, y2 + dy), (x1 + dx, y1 + dy)


def _crossed(room: Room) -> Iterator[LaneCrossed]:
    for wall in room.throw_walls:
        line = throw_line(room, wall)
        for lane in room.lanes:
            shared = shared_m2(line, lane.x_m, lane.y_m, lane.width_m, lane.depth_m)
            if shared > LEAST_SHARED_M2:
                yield LaneCrossed(wall, lane, shared)
