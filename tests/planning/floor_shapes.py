"""Rooms of many shapes, in metres, and a rectangle as Shapely sees it."""

from shapely import Polygon, box

from squadwright.planning.floor import Rectangle

L_SHAPE = ((1.0, 2.0), (9.0, 2.0), (9.0, 5.0), (5.0, 5.0), (5.0, 10.0), (1.0, 10.0))
U_SHAPE = (
    *((0.0, 0.0), (9.0, 0.0), (9.0, 8.0), (6.0, 8.0)),
    *((6.0, 3.0), (3.0, 3.0), (3.0, 6.0), (0.0, 6.0)),
)
SLANTED = ((0.0, 0.0), (10.0, 1.0), (8.0, 7.0), (3.0, 9.0), (1.0, 5.0))
SQUARE = ((0.0, 0.0), (8.0, 0.0), (8.0, 6.0), (0.0, 6.0))
ROOMS = {"L": L_SHAPE, "U": U_SHAPE, "slanted": SLANTED, "turned": SLANTED[::-1]}


def polygon(where: Rectangle) -> Polygon:
    return box(where.x_m, where.y_m, where.right_m, where.top_m)
