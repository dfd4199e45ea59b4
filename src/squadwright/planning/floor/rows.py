"""Layouts made by hand: straight rows of equal pieces, places along a wall, and first fit.

They are quick and tidy. The solver only has to say whether anything is better.
"""

from collections.abc import Iterator
from math import ceil

import numpy as np
from numpy.typing import NDArray

from squadwright.planning.floor.footing import (
    Footing,
    Spot,
    at_wall,
    box_of,
    spare,
    spare_of_all,
)
from squadwright.planning.floor.region import Box

MOST_FIRST_FIT = 40


def by_hand(footings: list[Footing], widest: int) -> list[Spot] | None:
    """The tidy layout with the widest gaps, or None when none was found."""
    return in_rows(footings, widest) or first_fit(footings)


def in_rows(footings: list[Footing], widest: int) -> list[Spot] | None:
    """The straight rows with the widest gaps, for equal pieces."""
    if len({footing.piece.alike() for footing in footings}) == 1:
        made = list(_rows(footings, widest))
        scored = [
            (min(value, widest), -place, spots)
            for place, spots in enumerate(made)
            if (value := spare_of_all(footings, spots)) is not None
        ]
        if scored:
            return max(scored, key=lambda entry: entry[:2])[2]
    return None


def _rows(footings: list[Footing], widest: int) -> Iterator[list[Spot]]:
    footing, count = footings[0], len(footings)
    if footing.piece.at_throw_wall:
        for wall in footing.walls:
            for starts in _spread(
                wall.start, wall.end, footing.width, count, footing.clear, widest
            ):
                yield [at_wall(footing, wall, start) for start in starts]
        return
    left, low, right, high = footing.area
    for turned in (False, True) if footing.may_turn else (False,):
        width, depth = footing.size(turned)
        for rows in range(1, count + 1):
            across = list(_spread(low, high, depth, rows, footing.clear, widest))
            if not across:
                break
            for columns in sorted({ceil(count / rows), *_one_more(count, rows)}):
                for xs in _spread(left, right, width, columns, footing.clear, widest):
                    for ys in across:
                        spots = [Spot(x, y, turned) for y in ys for x in xs]
                        free = [s for s in spots if _stands(footing, s)]
                        if len(free) >= count:
                            yield free[:count]


def _one_more(count: int, rows: int) -> tuple[int, ...]:
    """A spare column, so that one place of a row may be lost to an obstacle."""
    return (ceil(count / rows) + 1,) if count > 1 else ()


def _stands(footing: Footing, spot: Spot) -> bool:
    return spare(footing, box_of(footing, spot), ()) is not None


def _spread(
    start: int, end: int, size: int, count: int, clear: int, widest: int
) -> Iterator[list[int]]:
    """Starts of so many equal stretches: as far apart as there is room, and at the widest gap."""
    room = end - start - count * size
    if room < (count - 1) * clear:
        return
    if count == 1:
        yield [start + room // 2]
        yield [start]
        yield [end - size]
        return
    full = room // (count - 1)
    yield [start + place * (size + full) for place in range(count)]
    gap = min(full, clear + widest)
    margin = (room - gap * (count - 1)) // 2
    if gap < full:
        yield [start + margin + place * (size + gap) for place in range(count)]
    if clear < full:
        yield [start + place * (size + clear) for place in range(count)]


def first_fit(footings: list[Footing]) -> list[Spot] | None:
    """Each piece, the deepest first, at the lowest place where it fits."""
    if len(footings) > MOST_FIRST_FIT:
        return None
    order = sorted(
        range(len(footings)),
        key=lambda i: (
            not footings[i].piece.at_throw_wall,
            -max(footings[i].width, footings[i].depth),
            i,
        ),
    )
    spots: dict[int, Spot] = {}
    placed: list[tuple[Box, int]] = []
    for index in order:
        found = lowest_place(footings[index], placed)
        if found is None:
            return None
        spots[index] = found
        placed.append((box_of(footings[index], found), footings[index].clear))
    return [spots[index] for index in range(len(footings))]


def as_many_as_fit(footing: Footing, most: int) -> list[Spot]:
    """Equal pieces one after another, each at the lowest place, until none is left."""
    spots: list[Spot] = []
    placed: list[tuple[Box, int]] = []
    while len(spots) < most:
        found = lowest_place(footing, placed)
        if found is None:
            break
        spots.append(found)
        placed.append((box_of(footing, found), footing.clear))
    return spots


def lowest_place(footing: Footing, placed: list[tuple[Box, int]]) -> Spot | None:
    """The lowest place right beside the walls, obstacles and pieces that are there."""
    boxes = [
        *((box, 0) for box in footing.fixed),
        *((box, footing.clear) for box in footing.obstacles),
        *((box, max(footing.clear, other)) for box, other in placed),
    ]
    if footing.piece.at_throw_wall:
        return _first_at_a_wall(footing, boxes, placed)
    ways = (False, True) if footing.may_turn else (False,)
    found = [spot for turned in ways if (spot := _lowest(footing, boxes, turned)) is not None]
    return min(found, key=lambda spot: (spot.y, spot.x, spot.turned), default=None)


def _first_at_a_wall(
    footing: Footing, boxes: list[tuple[Box, int]], placed: list[tuple[Box, int]]
) -> Spot | None:
    for wall in footing.walls:
        side = 2 if wall.along_x else 3
        starts = {wall.start, *(box[side] + gap for box, gap in boxes)}
        for start in sorted(s for s in starts if wall.start <= s <= wall.end - footing.width):
            spot = at_wall(footing, wall, start)
            if spare(footing, box_of(footing, spot), placed) is not None:
                return spot
    return None


def _lowest(footing: Footing, boxes: list[tuple[Box, int]], turned: bool) -> Spot | None:
    """The lowest free start, then the one furthest left, of all crossings of edges."""
    width, depth = footing.size(turned)
    left, low, right, high = footing.area
    xs = _starts(left, right - width, [box[2] + gap for box, gap in boxes])
    ys = _starts(low, high - depth, [box[3] + gap for box, gap in boxes])
    free = np.ones((len(ys), len(xs)), dtype=bool)
    for (x1, y1, x2, y2), gap in boxes:
        along = (xs > x1 - gap - width) & (xs < x2 + gap)
        across = (ys > y1 - gap - depth) & (ys < y2 + gap)
        free[np.ix_(across, along)] = False
    rows, columns = np.nonzero(free)
    if not len(rows):
        return None
    return Spot(int(xs[columns[0]]), int(ys[rows[0]]), turned)


def _starts(first: int, last: int, edges: list[int]) -> NDArray[np.int64]:
    values = sorted({edge for edge in (first, *edges) if first <= edge <= last})
    return np.array(values, dtype=np.int64)
