"""The floor in front of a wall: always into the room, however the wall was drawn."""

from dataclasses import replace

import pytest

from squadwright.model.room import LandingLane, Point, Room, ThrowWall
from squadwright.planning.throw_lines import lanes_crossed, throw_line

ROOM = Room("r", "Hall", ((0, 0), (10, 0), (10, 6), (0, 6)), 5.0)


@pytest.mark.parametrize("turned", [False, True])
@pytest.mark.parametrize(
    ("start", "end", "corners"),
    [
        ((2, 0), (6, 0), {(2, 0), (6, 0), (6, 3), (2, 3)}),
        ((2, 6), (6, 6), {(2, 6), (6, 6), (6, 3), (2, 3)}),
        ((0, 1), (0, 5), {(0, 1), (0, 5), (3, 5), (3, 1)}),
        ((10, 1), (10, 5), {(10, 1), (10, 5), (7, 5), (7, 1)}),
    ],
)
def test_the_line_lies_in_the_room(
    start: Point, end: Point, corners: set[Point], turned: bool
) -> None:
    wall = ThrowWall("w", end, start, 3.0) if turned else ThrowWall("w", start, end, 3.0)
    found = throw_line(ROOM, wall)
    assert found[:2] == (wall.start, wall.end)
    assert {(round(x, 9), round(y, 9)) for x, y in found} == corners


def test_a_slanting_wall_has_a_line_at_right_angles_to_it() -> None:
    """From (4, 0) to (8, 3), 5 m long: 2 m to its left is 1.2 m back and 1.6 m across."""
    slant = replace(ROOM, outline=((0, 0), (4, 0), (8, 3), (8, 6), (0, 6)))
    found = throw_line(slant, ThrowWall("w", (4, 0), (8, 3), 2.0))
    assert found[2] == pytest.approx((8 - 1.2, 3 + 1.6))
    assert found[3] == pytest.approx((4 - 1.2, 0 + 1.6))


def test_a_wall_of_no_length_has_no_line() -> None:
    assert throw_line(ROOM, ThrowWall("w", (3, 0), (3, 0), 3.0)) == ()


@pytest.mark.parametrize(("y", "shared"), [(1.0, 4.0), (2.5, 1.0), (3.0, None), (4.0, None)])
def test_a_lane_is_crossed_where_it_shares_floor(y: float, shared: float | None) -> None:
    """A wall from 2 to 6 m with 3 m in front of it; a lane 2 m long and 2 m deep."""
    wall = ThrowWall("w", (2, 0), (6, 0), 3.0)
    lane = LandingLane("l", 3.0, y, 2.0, 2.0)
    found = lanes_crossed(replace(ROOM, throw_walls=(wall,), lanes=(lane,)))
    assert [round(each.shared_m2, 6) for each in found] == ([] if shared is None else [shared])
