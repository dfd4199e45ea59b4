"""Layouts made by hand: straight rows of equal pieces, places along a wall, and first fit.

They are quick and tidy. The solver only has to say whether anything is better.
"""

from collections.abc import Iterator
from math import ceil

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
    if not footings:
        return []
    if len({footing.piece.alike() for footing in footings}) == 1:
        made = list(_rows(footings, widest))
        scored = [
            (min(value, widest), -place, spots)
            for place, spots in enumerate(made)
            if (value := spare_of_all(footings, spots)) is not None
        ]
        if scored:
            return max(scored, key=lambda entry: entry[:2])[2]
    return first_fit(footings)


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
        footing = footings[index]
        found = next(
            (
                spot
                for spot in _candidates(footing, placed)
                if spare(footing, box_of(footing, spot), placed) is not None
            ),
            None,
        )
        if found is None:
            return None
        spots[index] = found
        placed.append((box_of(footing, found), footing.clear))
    return [spots[index] for index in range(len(footings))]


def _candidates(footing: Footing, placed: list[tuple[Box, int]]) -> Iterator[Spot]:
    """Places right beside the walls, obstacles and pieces that are there, lowest first."""
    clear = footing.clear
    boxes = [
        *((box, 0) for box in footing.fixed),
        *((box, clear) for box in footing.obstacles),
        *((box, max(clear, other)) for box, other in placed),
    ]
    for wall in footing.walls:
        side = 2 if wall.along_x else 3
        starts = {wall.start, *(box[side] + gap for box, gap in boxes)}
        for start in sorted(s for s in starts if wall.start <= s <= wall.end - footing.width):
            yield at_wall(footing, wall, start)
    if footing.piece.at_throw_wall:
        return
    xs = sorted({footing.area[0], *(box[2] + gap for box, gap in boxes)})
    ys = sorted({footing.area[1], *(box[3] + gap for box, gap in boxes)})
    for y in ys:
        for x in xs:
            yield Spot(x, y, False)
            if footing.may_turn:
                yield Spot(x, y, True)
