"""Where the coach stands, and what a column or a corner hides from him.

He stands at the door if he sees every station from there; else in the middle of the longest wall
from which he does; else anywhere along the walls where he does; else where he sees the most. A
station is seen when no part of it is hidden.
"""

import math
from collections.abc import Iterator, Sequence
from itertools import combinations

from squadwright.planning.floor.problem import FloorProblem, Point, Rectangle, side_of
from squadwright.planning.floor.region import inside_room

FROM_WALL_M = 0.45
STEP_M = 0.5


def coach_spot(
    problem: FloorProblem, places: Sequence[Rectangle]
) -> tuple[Point, str, tuple[int, ...]]:
    """Where he stands, in words, and which stations he cannot see from there."""
    best: tuple[Point, str, tuple[int, ...]] | None = None
    for spot, words in _spots(problem):
        if not _may_stand(problem, places, spot):
            continue
        hidden = tuple(i for i, place in enumerate(places) if not is_seen(problem, spot, place))
        if best is None or len(hidden) < len(best[2]):
            best = (spot, words, hidden)
        if not hidden:
            break
    if best is not None:
        return best
    spot = problem.doors[0].middle if problem.doors else problem.outline[0]
    hidden = tuple(i for i, place in enumerate(places) if not is_seen(problem, spot, place))
    return spot, "at the door" if problem.doors else "in the first corner", hidden


def is_seen(problem: FloorProblem, eye: Point, place: Rectangle) -> bool:
    """Whether the whole of a station is in sight."""
    corners = _corners(place)
    blocks = [_corners(item.place) for item in problem.obstacles]
    for first, second in combinations(corners, 2):
        view = (eye, first, second)
        if any(_share_floor(view, block) for block in blocks):
            return False
        if any(_share_floor(view, (corner,)) for corner in problem.outline):
            return False
    sides = list(zip(problem.outline, (*problem.outline[1:], problem.outline[0]), strict=True))
    return not any(_cut(eye, corner, *side) for corner in corners for side in sides)


def _corners(place: Rectangle) -> tuple[Point, ...]:
    return (
        (place.x_m, place.y_m),
        (place.right_m, place.y_m),
        (place.right_m, place.top_m),
        (place.x_m, place.top_m),
    )


def _share_floor(view: Sequence[Point], block: Sequence[Point]) -> bool:
    """Whether a triangle and a block overlap: no straight line keeps them apart."""
    sides = [
        (end[1] - start[1], start[0] - end[0])
        for points in (view, block)
        for start, end in zip(points, (*points[1:], points[0]), strict=True)
    ]
    for across in sides:
        if across == (0.0, 0.0):
            continue
        spans = [[across[0] * x + across[1] * y for x, y in points] for points in (view, block)]
        if min(spans[0]) >= max(spans[1]) - 1e-9 or min(spans[1]) >= max(spans[0]) - 1e-9:
            return False
    return True


def _cut(a: Point, b: Point, c: Point, d: Point) -> bool:
    return (
        side_of(a, b, c) * side_of(a, b, d) < -1e-9 and side_of(c, d, a) * side_of(c, d, b) < -1e-9
    )


def _spots(problem: FloorProblem) -> Iterator[tuple[Point, str]]:
    for door in problem.doors:
        for spot in _off_the_wall(problem, door.middle):
            yield spot, "at the door"
    sides = list(zip(problem.outline, (*problem.outline[1:], problem.outline[0]), strict=True))
    sides.sort(key=lambda side: (-round(math.dist(*side), 6), side))
    for place, ((x1, y1), (x2, y2)) in enumerate(sides):
        words = "in the middle of a long wall" if place < 2 else "in the middle of a wall"
        for spot in _off_the_wall(problem, ((x1 + x2) / 2, (y1 + y2) / 2)):
            yield spot, words
    for (x1, y1), (x2, y2) in sides:
        parts = max(1, int(math.dist((x1, y1), (x2, y2)) / STEP_M))
        for part in range(1, parts):
            share = part / parts
            point = (x1 + share * (x2 - x1), y1 + share * (y2 - y1))
            for spot in _off_the_wall(problem, point):
                yield spot, "by the wall"


def _off_the_wall(problem: FloorProblem, point: Point) -> Iterator[Point]:
    """Half a step from the wall into the room."""
    for x, y in ((1, 0), (-1, 0), (0, 1), (0, -1)):
        spot = (point[0] + x * FROM_WALL_M, point[1] + y * FROM_WALL_M)
        behind = (point[0] - x * 0.05, point[1] - y * 0.05)
        if inside_room(problem.outline, spot) and not inside_room(problem.outline, behind):
            yield (round(spot[0], 3), round(spot[1], 3))


def _may_stand(problem: FloorProblem, places: Sequence[Rectangle], spot: Point) -> bool:
    taken = [*places, *(item.place for item in problem.obstacles)]
    return not any(
        place.x_m < spot[0] < place.right_m and place.y_m < spot[1] < place.top_m for place in taken
    )
