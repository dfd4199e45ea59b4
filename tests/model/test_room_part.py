"""A part of a room against Shapely, a general geometry library, and by hand."""

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from shapely import LineString, Polygon, box

from squadwright.demo.premises import MAT_HALL, WEIGHTS_ROOM
from squadwright.errors import InvalidInput
from squadwright.model.room import Room, ThrowWall
from squadwright.model.room_part import part_of

L_SHAPE = Room(
    "l", "L", ((0.0, 0.0), (12.0, 0.0), (12.0, 6.0), (6.0, 6.0), (6.0, 12.0), (0.0, 12.0)), 3.0
)
SLANTED = Room("s", "Slanted", ((0.0, 0.0), (12.0, 0.0), (9.0, 8.0), (0.0, 8.0)), 3.0)
length = st.integers(0, 240).map(lambda steps: steps / 20)


@pytest.mark.parametrize("room", [L_SHAPE, SLANTED, WEIGHTS_ROOM], ids=lambda room: room.name)
@given(x=length, y=length, width=length, depth=length)
def test_the_part_is_what_the_rectangle_and_the_room_share(
    room: Room, x: float, y: float, width: float, depth: float
) -> None:
    shared = Polygon(room.outline).intersection(box(x, y, x + width, y + depth))
    assume(shared.geom_type == "Polygon")
    if shared.area < 1.0:
        with pytest.raises(InvalidInput, match="at least 1 m2"):
            part_of(room, x, y, width, depth)
        return
    cut = Polygon(part_of(room, x, y, width, depth).outline)
    assert cut.symmetric_difference(shared).area == pytest.approx(0.0, abs=0.01)


def test_a_column_on_the_line_is_cut_and_one_beyond_it_is_gone() -> None:
    """The column is 0.4 m wide round 6.0, 4.0 m: half of it lies left of 6.0 m."""
    (column,) = part_of(WEIGHTS_ROOM, 0.0, 0.0, 6.0, 8.0).obstacles
    assert (column.x_m, column.y_m, column.width_m, column.depth_m) == (5.9, 4.0, 0.2, 0.4)
    assert part_of(WEIGHTS_ROOM, 0.0, 0.0, 5.75, 8.0).obstacles == ()


def test_doors_walls_and_low_ceilings_go_with_their_half() -> None:
    left, right = (part_of(WEIGHTS_ROOM, x, 0.0, 5.75, 8.0) for x in (0.0, 5.75))
    assert [d.name for d in left.doors] == ["door to the hall"]
    assert right.doors == ()
    assert left.ceiling_zones == ()
    assert len(right.ceiling_zones) == 1
    south, north = (part_of(MAT_HALL, 0.0, y, 14.0, 6.0) for y in (0.0, 6.0))
    (wall,) = south.throw_walls
    assert (wall.start, wall.end) == ((0.0, 0.0), (14.0, 0.0))
    assert north.throw_walls == ()
    (short,) = part_of(MAT_HALL, 3.0, 0.0, 5.0, 6.0).throw_walls
    assert (short.start, short.end) == ((3.0, 0.0), (8.0, 0.0))


def test_a_slanted_throw_wall_is_cut_where_it_crosses_the_line() -> None:
    wall = ThrowWall("slanted", (12.0, 0.0), (9.0, 8.0))
    room = Room("s", "Slanted", SLANTED.outline, 3.0, throw_walls=(wall,))
    (cut,) = part_of(room, 0.0, 0.0, 12.0, 4.0).throw_walls
    shared = LineString([wall.start, wall.end]).intersection(box(0, 0, 12, 4))
    assert LineString([cut.start, cut.end]).equals_exact(shared, 0.001)


def test_a_part_beside_the_room_is_refused_with_its_numbers() -> None:
    with pytest.raises(InvalidInput, match=r"3 x 3 m from 20, 20 m hold 0 m2 of Weights room"):
        part_of(WEIGHTS_ROOM, 20.0, 20.0, 3.0, 3.0)
