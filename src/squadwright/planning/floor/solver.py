"""Place every piece: straight rows where nothing better is proven to exist, else by the solver."""

from collections.abc import Sequence
from dataclasses import dataclass
from enum import Enum
from math import ceil

from squadwright.planning.floor.capacity import capacity, upper_limit
from squadwright.planning.floor.footing import (
    Footing,
    Spot,
    box_of,
    footing_of,
    rectangle,
    spare_of_all,
)
from squadwright.planning.floor.model import Search, search
from squadwright.planning.floor.problem import FloorProblem, Piece, Rectangle
from squadwright.planning.floor.region import region_of, up
from squadwright.planning.floor.rows import by_hand
from squadwright.planning.floor.sight import coach_spot
from squadwright.planning.floor.solution import (
    DoesNotFit,
    FloorResult,
    FloorSolution,
    Proof,
    RanOut,
    Station,
)
from squadwright.planning.floor.walk import walking_order

TIDY_CM = 5
"""Straight rows are kept when nothing else has gaps wider by more than this [cm]."""
MOST_SPREAD = 10
"""Beyond so many pieces straight rows are taken as they are, and wider gaps are not looked for."""


@dataclass(frozen=True)
class _Layout:
    spots: list[Spot]
    extra: int
    bound: int


def place(problem: FloorProblem) -> FloorResult:
    """Lay a room out, or say how much of it fits.

    The goal is the widest gap between neighbours, the same for all, up to the widest that is of any
    use; then a short walking order. Stations keep out from under ceilings that are too low for them
    where that is possible.
    """
    found = attempt(problem)
    return found if isinstance(found, FloorSolution) else what_fits(problem, found)


class Missing(Enum):
    """Why there is no layout: proven impossible, or not found within the work allowed."""

    IMPOSSIBLE = "impossible"
    NOT_FOUND = "not found"


def what_fits(problem: FloorProblem, missing: Missing) -> DoesNotFit | RanOut:
    """How many of the pieces fit where not all do."""
    return _does_not_fit(problem) if missing is Missing.IMPOSSIBLE else _ran_out(problem)


def attempt(problem: FloorProblem) -> FloorSolution | Missing:
    """Lay a room out, without looking into what would fit where it fails.

    With a ``work_limit`` of 0 only layouts made by hand are tried.
    """
    region, generous = region_of(problem), region_of(problem, generous=True)
    if any(
        zone.ceiling_m < piece.ceiling_m
        for zone in problem.low_ceilings
        for piece in problem.pieces
    ):
        high = [
            footing_of(problem, region, piece, under_low_ceilings=False) for piece in problem.pieces
        ]
        layout = _best(problem, high)
        if isinstance(layout, _Layout):
            return _solution(problem, high, layout)
    footings = [footing_of(problem, region, piece) for piece in problem.pieces]
    layout = _best(problem, footings)
    if isinstance(layout, _Layout):
        return _solution(problem, footings, layout)
    loose = [footing_of(problem, generous, p, generous=True) for p in problem.pieces]
    if layout is Missing.IMPOSSIBLE and (
        footings == loose
        or too_many(loose)
        or search(loose, Search(problem.settings.work_limit)).is_impossible
    ):
        return Missing.IMPOSSIBLE
    return Missing.NOT_FOUND


def _best(problem: FloorProblem, footings: list[Footing]) -> _Layout | Missing:
    """The layout with the widest gaps, else whether there is none at all."""
    asked = max((footing.clear for footing in footings), default=0)
    most = max(0, up(problem.settings.widest_useful_gap_m) - asked)
    if too_many(footings):
        return Missing.IMPOSSIBLE
    by_rows = by_hand(footings, most)
    if problem.settings.work_limit == 0:
        if by_rows is None:
            return Missing.NOT_FOUND
        return _Layout(by_rows, min(most, spare_of_all(footings, by_rows) or 0), most)
    if by_rows is None:
        found = search(footings, Search(problem.settings.work_limit, most_extra=most))
        if found.spots is None:
            return Missing.IMPOSSIBLE if found.is_impossible else Missing.NOT_FOUND
        return _Layout(found.spots, found.extra, found.extra_bound)
    extra = min(most, spare_of_all(footings, by_rows) or 0)
    if extra >= most or len(footings) > MOST_SPREAD:
        return _Layout(by_rows, extra, most)
    how = Search(problem.settings.work_limit, least_extra=extra + 1, most_extra=most, start=by_rows)
    found = search(footings, how)
    if found.is_impossible:
        return _Layout(by_rows, extra, extra)
    if found.spots is not None and found.extra > extra + TIDY_CM:
        return _Layout(found.spots, found.extra, found.extra_bound)
    return _Layout(by_rows, extra, max(extra, found.extra_bound))


def too_many(footings: Sequence[Footing]) -> bool:
    """Whether a counting argument shows that equal pieces are too many."""
    alike = {footing.piece.alike() for footing in footings}
    return any(
        sum(footing.piece.alike() == key for footing in footings)
        > next(upper_limit(f) for f in footings if f.piece.alike() == key).count
        for key in alike
    )


def _solution(problem: FloorProblem, footings: list[Footing], layout: _Layout) -> FloorSolution:
    boxes = [box_of(f, spot) for f, spot in zip(footings, layout.spots, strict=True)]
    places = [rectangle(box) for box in boxes]
    start = problem.doors[0].middle if problem.doors else problem.outline[0]
    order, walk_m, is_shortest = walking_order(start, [p.middle for p in places])
    owner = _in_walking_order(problem.pieces, order)
    spot, words, hidden = coach_spot(problem, places)
    stations = tuple(
        _station(problem.pieces[owner[index]], places[index], layout.spots[index], number, spot)
        for number, index in enumerate(order, start=1)
    )
    return FloorSolution(
        problem=problem,
        stations=stations,
        extra_m=layout.extra / 100,
        extra_bound_m=layout.bound / 100,
        walk_m=walk_m,
        walk_is_shortest=is_shortest,
        coach=spot,
        coach_place=words,
        hidden=tuple(problem.pieces[owner[index]].id for index in hidden),
        under_low_ceiling=tuple(s.piece.id for s in stations if _is_low(problem, s)),
    )


def _in_walking_order(pieces: Sequence[Piece], order: Sequence[int]) -> dict[int, int]:
    """Which piece stands where: equal pieces change places so that they follow the walk."""
    waiting: dict[tuple[object, ...], list[int]] = {}
    for index, piece in enumerate(pieces):
        waiting.setdefault(piece.alike(), []).append(index)
    return {index: waiting[pieces[index].alike()].pop(0) for index in order}


def _station(
    piece: Piece, where: Rectangle, spot: Spot, number: int, coach: tuple[float, float]
) -> Station:
    wall = spot.wall
    near_low = wall.inside == 1 if wall else False
    landing = None
    if piece.landing_m > 0:
        at_top = near_low if wall else _is_farther(where, spot.turned, coach)
        landing = _end(where, spot.turned, piece.landing_m, at_top)
    line = None
    if piece.throw_m > 0 and wall is not None:
        line = _end(where, spot.turned, piece.throw_m, not near_low)
    return Station(
        piece=piece,
        place=where,
        angle_deg=90 if spot.turned else 0,
        number=number,
        landing=landing,
        throw_line=line,
        wall=wall.name if wall else "",
    )


def _is_farther(where: Rectangle, turned: bool, coach: tuple[float, float]) -> bool:
    """Whether the far end of a lane, seen along its length, is the one away from the coach."""
    at, low, high = (
        (coach[0], where.x_m, where.right_m) if turned else (coach[1], where.y_m, where.top_m)
    )
    return abs(high - at) >= abs(low - at)


def _end(where: Rectangle, turned: bool, long_m: float, at_top: bool) -> Rectangle:
    """The last stretch of a lane at one of its ends."""
    if turned:
        x = where.right_m - long_m if at_top else where.x_m
        return Rectangle(round(x, 3), where.y_m, long_m, where.depth_m)
    y = where.top_m - long_m if at_top else where.y_m
    return Rectangle(where.x_m, round(y, 3), where.width_m, long_m)


def _is_low(problem: FloorProblem, station: Station) -> bool:
    need = station.piece.ceiling_m
    return problem.ceiling_m < need or any(
        zone.ceiling_m < need and overlaps(zone.place, station.place)
        for zone in problem.low_ceilings
    )


def overlaps(first: Rectangle, second: Rectangle) -> bool:
    """Whether two rectangles share floor."""
    return (
        min(first.right_m, second.right_m) - max(first.x_m, second.x_m) > 1e-6
        and min(first.top_m, second.top_m) - max(first.y_m, second.y_m) > 1e-6
    )


def _does_not_fit(problem: FloorProblem) -> DoesNotFit:
    wanted = len(problem.pieces)
    if len({piece.alike() for piece in problem.pieces}) == 1:
        found = capacity(problem, problem.pieces[0], work_limit=2 * problem.settings.work_limit)
        return DoesNotFit(wanted, found.count, found.proof, _advice(wanted, found.count))
    fits = _first_that_fit(problem)
    proof = Proof(
        "search", f"A full search found no place for all {wanted}; the first {fits} fit together"
    )
    return DoesNotFit(wanted, fits, proof, _advice(wanted, fits))


def _first_that_fit(problem: FloorProblem) -> int:
    """How many of the pieces, in their order, fit together (by hand, then by the solver)."""
    region = region_of(problem)
    footings = [footing_of(problem, region, piece) for piece in problem.pieces]
    for count in range(len(footings) - 1, 0, -1):
        if not too_many(footings[:count]) and by_hand(footings[:count], 0) is not None:
            return count
    return 0


def _ran_out(problem: FloorProblem) -> RanOut:
    wanted = len(problem.pieces)
    fits = _first_that_fit(problem)
    return RanOut(wanted, fits, wanted, _advice(wanted, fits))


def _advice(wanted: int, fits: int) -> str:
    if fits == 0:
        return "Find a larger room, or choose work that needs less floor"
    waves = ceil(wanted / fits)
    return f"Set up {fits} at once and work in {waves} waves, or find a larger room"
