"""The layout as a constraint model: no two rectangles overlap, everything lies inside."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import combinations
from typing import Any

from ortools.sat.python import cp_model

from squadwright.planning.floor.footing import Footing, Spot
from squadwright.planning.floor.region import Box, WallSide

FARTHEST_CM = 100_000
"""Beyond what a corner, a piece and the clear floor round it come to in the largest room."""


@dataclass(frozen=True)
class Outcome:
    """What a search came to. ``spots`` is None where none was found."""

    spots: list[Spot] | None
    is_impossible: bool
    extra: int = 0
    extra_bound: int = 0


@dataclass(frozen=True)
class _Placing:
    """The variables of one piece."""

    footing: Footing
    x: Any
    y: Any
    turned: Any
    width: Any
    depth: Any
    walls: tuple[tuple[WallSide, Any], ...]


@dataclass(frozen=True)
class Search:
    """How to look: extra gap wanted at least and at most [cm], where from, how long.

    ``positions`` restricts where pieces may start along and across the room (for proofs).
    """

    work_limit: float
    seed: int = 1
    least_extra: int = 0
    most_extra: int = 0
    start: Sequence[Spot] | None = None
    positions: tuple[Sequence[int], Sequence[int]] | None = None


def search(footings: Sequence[Footing], how: Search) -> Outcome:
    """Place all pieces with the widest gap, or prove that they cannot be."""
    if any(not _has_room(footing) for footing in footings):
        return Outcome(None, is_impossible=True)
    model = cp_model.CpModel()
    extra = model.new_int_var(how.least_extra, how.most_extra, "extra")
    placings = [_placing(model, footing, how) for footing in footings]
    for placing in placings:
        _keep_out_of_boxes(model, placing, extra)
    _keep_pieces_apart(model, placings, extra, how)
    _order_equal_pieces(model, placings)
    if how.most_extra > how.least_extra:
        model.maximize(extra)
    if how.start is not None:
        _hint(model, placings, how.start)
    solver = cp_model.CpSolver()
    # Else Ctrl-C would end the whole program at once, from the first search on.
    solver.parameters.catch_sigint_signal = False
    solver.parameters.num_workers = 1
    solver.parameters.random_seed = how.seed
    solver.parameters.max_deterministic_time = how.work_limit
    status = solver.solve(model)
    if status == cp_model.INFEASIBLE:
        return Outcome(None, is_impossible=True)
    if status not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
        return Outcome(None, is_impossible=False, extra_bound=how.most_extra)
    bound = how.least_extra
    if how.most_extra > how.least_extra:
        bound = int(solver.best_objective_bound + 1e-6)
    spots = [_read(solver, placing) for placing in placings]
    return Outcome(spots, is_impossible=False, extra=int(solver.value(extra)), extra_bound=bound)


def _has_room(footing: Footing) -> bool:
    left, low, right, high = footing.area
    if footing.piece.at_throw_wall:
        return any(wall.end - wall.start >= footing.width for wall in footing.walls)
    ways = (False, True) if footing.may_turn else (False,)
    return any(
        footing.size(turned)[0] <= right - left and footing.size(turned)[1] <= high - low
        for turned in ways
    )


def _placing(model: Any, footing: Footing, how: Search) -> _Placing:
    """Position and way round of one piece, inside the room."""
    left, low, right, high = footing.area
    name = footing.piece.id
    if how.positions is None:
        x = model.new_int_var(left, max(left, right), f"x of {name}")
        y = model.new_int_var(low, max(low, high), f"y of {name}")
    else:
        domains = [cp_model.Domain.from_values(list(values)) for values in how.positions]
        x = model.new_int_var_from_domain(domains[0], f"x of {name}")
        y = model.new_int_var_from_domain(domains[1], f"y of {name}")
    may_differ = footing.may_turn and footing.width != footing.depth
    turned = model.new_bool_var(f"{name} turned")
    if not may_differ and not footing.walls:
        model.add(turned == 0)
    difference = footing.depth - footing.width
    width = footing.width + difference * turned
    depth = footing.depth - difference * turned
    model.add(x + width <= right)
    model.add(y + depth <= high)
    walls = tuple(
        (wall, model.new_bool_var(f"{name} at wall {place}"))
        for place, wall in enumerate(footing.walls)
    )
    if footing.piece.at_throw_wall:
        _stand_at_a_wall(model, footing, (x, y, turned), walls)
    return _Placing(footing, x, y, turned, width, depth, walls)


def _stand_at_a_wall(
    model: Any, footing: Footing, place: tuple[Any, Any, Any], walls: Sequence[tuple[WallSide, Any]]
) -> None:
    """A throw faces a safe wall, its whole width in front of the safe stretch."""
    x, y, turned = place
    model.add_exactly_one(chosen for _, chosen in walls)
    for wall, chosen in walls:
        across = wall.at if wall.inside == 1 else wall.at - footing.depth
        along, off = (x, y) if wall.along_x else (y, x)
        model.add(turned == (0 if wall.along_x else 1)).only_enforce_if(chosen)
        model.add(off == across).only_enforce_if(chosen)
        model.add(along >= wall.start).only_enforce_if(chosen)
        model.add(along <= wall.end - footing.width).only_enforce_if(chosen)


def _keep_out_of_boxes(model: Any, placing: _Placing, extra: Any) -> None:
    """Outside the walls, in kept-clear floor and under low ceilings nothing stands; from obstacles
    the clear floor is kept.
    """
    for box in placing.footing.fixed:
        _beside(model, placing, box, 0)
    for box in placing.footing.obstacles:
        _beside(model, placing, box, placing.footing.clear + extra)


def _beside(model: Any, placing: _Placing, box: Box, gap: Any) -> None:
    sides = [model.new_bool_var("") for _ in range(4)]
    model.add_bool_or(sides)
    model.add(placing.x + placing.width + gap <= box[0]).only_enforce_if(sides[0])
    model.add(placing.x >= box[2] + gap).only_enforce_if(sides[1])
    model.add(placing.y + placing.depth + gap <= box[1]).only_enforce_if(sides[2])
    model.add(placing.y >= box[3] + gap).only_enforce_if(sides[3])


def _keep_pieces_apart(model: Any, placings: Sequence[_Placing], extra: Any, how: Search) -> None:
    """Two pieces keep the larger of their clear floors; each is grown by it to the right and up."""
    by_clear: dict[int, list[_Placing]] = {}
    for placing in placings:
        by_clear.setdefault(placing.footing.clear, []).append(placing)
    for clear, alike in by_clear.items():
        _no_overlap(model, alike, clear, extra, how)
    for first, second in combinations(placings, 2):
        wanted = (first.footing.clear, second.footing.clear)
        if wanted[0] != wanted[1]:
            _no_overlap(model, [first, second], max(wanted), extra, how)


def _no_overlap(
    model: Any, placings: Sequence[_Placing], clear: int, extra: Any, how: Search
) -> None:
    across, along = [], []
    is_fixed = how.least_extra == how.most_extra
    for placing in placings:
        x, y = placing.x, placing.y
        along.append(_interval(model, (x, placing.width), clear + extra))
        across.append(_interval(model, (y, placing.depth), clear + extra))
    model.add_no_overlap_2d(along, across)
    if is_fixed and how.positions is not None:
        _fill_at_most_the_room(model, placings, clear + how.least_extra, along, across)


def _interval(model: Any, stretch: tuple[Any, Any], gap: Any) -> Any:
    """A stretch of a piece with the clear floor after it."""
    start, size = stretch
    grown = model.new_int_var(0, FARTHEST_CM, "")
    end = model.new_int_var(-FARTHEST_CM, FARTHEST_CM, "")
    model.add(grown == size + gap)
    model.add(end == start + grown)
    return model.new_interval_var(start, grown, end, "")


def _fill_at_most_the_room(
    model: Any, placings: Sequence[_Placing], gap: int, along: list[Any], across: list[Any]
) -> None:
    """Any line across the room meets at most what fits on it (helps a proof along)."""
    area = placings[0].footing.area
    model.add_cumulative(along, [p.depth + gap for p in placings], area[3] - area[1] + gap)
    model.add_cumulative(across, [p.width + gap for p in placings], area[2] - area[0] + gap)


def _order_equal_pieces(model: Any, placings: Sequence[_Placing]) -> None:
    """Equal pieces stand in order along the room, then across it."""
    last: dict[tuple[object, ...], _Placing] = {}
    for placing in placings:
        key = placing.footing.piece.alike()
        if key in last:
            before = last[key]
            model.add(before.x <= placing.x)
            same = model.new_bool_var("")
            model.add(before.x + 1 <= placing.x).only_enforce_if(~same)
            model.add(before.y <= placing.y).only_enforce_if(same)
        last[key] = placing


def _hint(model: Any, placings: Sequence[_Placing], start: Sequence[Spot]) -> None:
    spots = list(start)
    order: dict[tuple[object, ...], list[Spot]] = {}
    for placing, spot in zip(placings, spots, strict=True):
        order.setdefault(placing.footing.piece.alike(), []).append(spot)
    queues = {k: iter(sorted(v, key=lambda s: (s.x, s.y))) for k, v in order.items()}
    for placing in placings:
        spot = next(queues[placing.footing.piece.alike()])
        model.add_hint(placing.x, spot.x)
        model.add_hint(placing.y, spot.y)
        model.add_hint(placing.turned, spot.turned)


def _read(solver: Any, placing: _Placing) -> Spot:
    wall = next((wall for wall, chosen in placing.walls if solver.value(chosen)), None)
    return Spot(
        solver.value(placing.x), solver.value(placing.y), bool(solver.value(placing.turned)), wall
    )
