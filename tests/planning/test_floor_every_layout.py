"""How many pieces fit, and with what gaps, against every place of small rooms tried by a solver.

All lengths are multiples of half a metre. Then some best layout has every piece at a multiple of
half a metre as well (each is pushed towards the first corner until it meets something), so that
the places to try can be listed.
"""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from itertools import combinations, product
from random import Random

import numpy as np
import pytest
from ortools.sat.python import cp_model
from shapely import Polygon, box

from squadwright.planning.floor import (
    DoesNotFit,
    DoorWay,
    FloorProblem,
    FloorSettings,
    FloorSolution,
    NamedRectangle,
    Piece,
    PieceKind,
    RanOut,
    Rectangle,
    SafeWall,
    capacity,
    place,
)
from squadwright.planning.floor.capacity import upper_limit
from squadwright.planning.floor.footing import footing_of, spare_of_all
from squadwright.planning.floor.model import Search, search
from squadwright.planning.floor.region import door_zone, region_of
from squadwright.planning.floor.rows import MOST_FIRST_FIT, first_fit

HALF = 0.5
Place = tuple[float, float, float, float]
"""Left, lower, right and upper end [m]."""


@dataclass(frozen=True)
class Case:
    """A room and a kind of piece."""

    problem: FloorProblem
    piece: Piece


def halves(dice: Random, low: int, high: int) -> float:
    return dice.randint(low, high) * HALF


def small_room(seed: int, *, at_wall: bool = False) -> Case:
    """Up to 5.5 x 5 m, often with a corner cut out, a column and a door."""
    dice = Random(seed)
    width, depth = halves(dice, 5, 11), halves(dice, 5, 10)
    outline = [(0.0, 0.0), (width, 0.0), (width, depth), (0.0, depth)]
    if dice.random() < 0.4:
        x, y = halves(dice, 2, int(width / HALF) - 1), halves(dice, 2, int(depth / HALF) - 1)
        outline[2:3] = [(width, y), (x, y), (x, depth)]
    column = Rectangle(halves(dice, 1, 6), halves(dice, 1, 6), HALF, HALF)
    settings = FloorSettings(
        between_m=halves(dice, 0, 2),
        to_wall_m=halves(dice, 0, 1),
        door_clear_m=HALF,
        may_turn=dice.random() < 0.7,
    )
    walls = [SafeWall("s", (0.0, 0.0), (width, 0.0)), SafeWall("w", (0.0, 0.0), (0.0, depth))]
    if len(outline) == 4:
        walls.append(SafeWall("n", (HALF, depth), (width, depth)))
        walls.append(SafeWall("e", (width, 0.0), (width, depth - HALF)))
    lane = Rectangle(halves(dice, 0, 6), halves(dice, 0, 6), HALF, 1.5)
    problem = FloorProblem(
        tuple(outline),
        (),
        obstacles=(NamedRectangle("c", column),) if dice.random() < 0.6 else (),
        doors=(DoorWay("d", (0.0, 1.5)),) if dice.random() < 0.4 else (),
        safe_walls=tuple(dice.sample(walls, dice.randint(1, 2))) if at_wall else (),
        landing_lanes=(NamedRectangle("l", lane),) if dice.random() < 0.4 else (),
        settings=settings,
    )
    piece = Piece(
        "p",
        PieceKind.THROW if at_wall else PieceKind.GROUP,
        halves(dice, 1 if at_wall else 2, 3),
        halves(dice, 2, 5),
        at_throw_wall=at_wall,
    )
    return Case(problem, piece)


def steps(start: float, end: float) -> Iterable[float]:
    return (start + HALF * n for n in range(round((end - start) / HALF) + 1))


def places(case: Case) -> list[Place]:
    """Every place of the grid where one piece may stand by itself."""
    problem, piece = case.problem, case.piece
    room = Polygon(problem.outline)
    left, low, right, high = room.bounds
    wall = 0.0 if piece.at_throw_wall else problem.to_wall_m(piece)
    kept = [shape(door_zone(problem, door)) for door in problem.doors]
    if piece.at_throw_wall:
        kept += [shape(lane.place) for lane in problem.landing_lanes]
    turns = {(piece.width_m, piece.depth_m)}
    if problem.settings.may_turn and piece.may_turn:
        turns.add((piece.depth_m, piece.width_m))
    found = []
    spots = (
        _at_walls(case)
        if piece.at_throw_wall
        else product(steps(left, right), steps(low, high), turns)
    )
    for x, y, (w, d) in spots:
        own = box(x, y, x + w, y + d)
        strip = box(x - wall, y - wall, x + w + wall, y + d + wall)
        if strip.difference(room).area > 1e-9 or any(own.intersection(k).area > 1e-9 for k in kept):
            continue
        wide = grown((x, y, x + w, y + d), problem.clear_m(piece))
        if any(wide.intersection(shape(o.place)).area > 1e-9 for o in problem.obstacles):
            continue
        found.append((x, y, x + w, y + d))
    return found


def _at_walls(case: Case) -> Iterable[tuple[float, float, tuple[float, float]]]:
    """With its back to a safe wall, its width along it."""
    piece, room = case.piece, Polygon(case.problem.outline)
    for wall in case.problem.safe_walls:
        (x1, y1), (x2, y2) = wall.start, wall.end
        if y1 == y2:
            y = y1 if room.contains(box(x1, y1, x2, y1 + 0.1).centroid) else y1 - piece.depth_m
            for x in steps(x1, x2 - piece.width_m):
                yield x, y, (piece.width_m, piece.depth_m)
        else:
            x = x1 if room.contains(box(x1, y1, x1 + 0.1, y2).centroid) else x1 - piece.depth_m
            for y in steps(y1, y2 - piece.width_m):
                yield x, y, (piece.depth_m, piece.width_m)


def shape(where: Rectangle) -> Polygon:
    return box(where.x_m, where.y_m, where.right_m, where.top_m)


def grown(where: Place, by: float) -> Polygon:
    return box(where[0] - by, where[1] - by, where[2] + by, where[3] + by)


def gap(one: Place, other: Place) -> float:
    """Clear floor along the room or across it, whichever is more; below 0 where they overlap."""
    along = max(one[0] - other[2], other[0] - one[2])
    across = max(one[1] - other[3], other[1] - one[3])
    return max(along, across)


def most_together(spots: list[Place], clear: float) -> int:
    """The most of these places that keep so far apart, by CP-SAT."""
    model = cp_model.CpModel()
    chosen = [model.new_bool_var("") for _ in spots]
    for (one, first), (other, second) in combinations(zip(spots, chosen, strict=True), 2):
        if gap(one, other) < clear - 1e-9:
            model.add_at_most_one(first, second)
    model.maximize(sum(chosen))
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    assert solver.solve(model) == cp_model.OPTIMAL
    return round(solver.objective_value)


@pytest.mark.parametrize("at_wall", [False, True])
@pytest.mark.parametrize("seed", range(24))
def test_no_more_fit_than_every_place_tried_says_and_no_fewer(seed: int, at_wall: bool) -> None:
    case = small_room(seed, at_wall=at_wall)
    found = capacity(case.problem, case.piece)
    best = most_together(places(case), case.problem.clear_m(case.piece))
    assert found.is_proven
    assert found.count == best
    assert len(found.spots) == best
    region = region_of(case.problem)
    assert upper_limit(footing_of(case.problem, region, case.piece)).count >= best
    for most in {0, 1, max(0, best - 1)}:
        some = capacity(case.problem, case.piece, most=most)
        assert some.count == min(most, best)
        assert some.at_most >= best if most <= best else some.is_proven
    hurried = capacity(case.problem, case.piece, work_limit=1e-7)
    assert hurried.count <= best <= hurried.at_most
    assert len(hurried.spots) == hurried.count
    assert (hurried.proof.kind == "none") is not hurried.is_proven


@pytest.mark.parametrize("at_wall", [False, True])
def test_the_search_finds_what_fits_without_a_layout_by_hand(at_wall: bool) -> None:
    searched = 0
    for seed in range(200, 240):
        case = small_room(seed, at_wall=at_wall)
        best = most_together(places(case), case.problem.clear_m(case.piece))
        if best > 3:
            continue
        searched += 1
        region = region_of(case.problem)
        pieces = [replace(case.piece, id=f"p{n}") for n in range(best + 1)]
        footings = [footing_of(case.problem, region, piece) for piece in pieces]
        assert search(footings, Search(2.0)).spots is None
        if best:
            found = search(footings[:best], Search(2.0))
            assert found.spots is not None
            assert not found.is_impossible
            assert spare_of_all(footings[:best], found.spots) is not None
            hinted = search(footings[:best], Search(2.0, start=found.spots))
            assert hinted.spots is not None
    assert searched > 15


@pytest.mark.parametrize("at_wall", [False, True])
@pytest.mark.parametrize("seed", range(14))
def test_as_many_as_fit_are_placed_and_one_more_is_refused_with_the_number(
    seed: int, at_wall: bool
) -> None:
    case = small_room(100 + seed, at_wall=at_wall)
    best = most_together(places(case), case.problem.clear_m(case.piece))
    for count in {max(1, best), best + 1}:
        pieces = tuple(replace(case.piece, id=f"p{n}") for n in range(count))
        found = place(replace(case.problem, pieces=pieces))
        if count <= best:
            assert isinstance(found, FloorSolution)
            stand = [
                (s.place.x_m, s.place.y_m, s.place.right_m, s.place.top_m) for s in found.stations
            ]
            least = min((gap(a, b) for a, b in combinations(stand, 2)), default=9.0)
            assert least >= case.problem.clear_m(case.piece) + found.extra_m - 1e-9
        else:
            assert isinstance(found, DoesNotFit)
            assert (found.wanted, found.fits) == (count, best)
            assert found.is_proven
            waves = 1 if best == 0 else -(-count // best)
            assert (f"work in {waves} waves" in found.advice) is (best > 0)


def pushed(edges: set[float], sizes: set[float], gap_m: float, times: int) -> list[float]:
    """Starts of pieces pushed together: from an edge, after up to so many others."""
    found = set(edges)
    for _ in range(times):
        found |= {round(at + size + gap_m, 4) for at in found for size in sizes}
    return sorted(found)


def can_stand(problem: FloorProblem, more: float) -> bool:
    """Whether two or three pieces can stand so much further apart than asked, by trying all."""
    room = Polygon(problem.outline)
    left, low, right, high = room.bounds
    count = len(problem.pieces)
    wanted = max(problem.clear_m(p) for p in problem.pieces) + more
    sizes = {side for p in problem.pieces for side in (p.width_m, p.depth_m)}
    edges = [
        {low_edge + problem.settings.to_wall_m} | {end + wanted for end in ends}
        for low_edge, ends in (
            (left, [o.place.right_m for o in problem.obstacles]),
            (low, [o.place.top_m for o in problem.obstacles]),
        )
    ]
    xs, ys = (pushed(edge, sizes, wanted, count - 1) for edge in edges)
    wall = problem.settings.to_wall_m + 1e-6
    spots: list[list[Place]] = []
    for piece in problem.pieces:
        turns = {(piece.width_m, piece.depth_m), (piece.depth_m, piece.width_m)}
        own = [(x, y, x + w, y + d) for x, y, (w, d) in product(xs, ys, turns)]
        own = [b for b in own if b[2] <= right - wall + 2e-6 and b[3] <= high - wall + 2e-6]
        blocks = [
            (o.place.x_m, o.place.y_m, o.place.right_m, o.place.top_m) for o in problem.obstacles
        ]
        spots.append([b for b in own if all(gap(b, block) >= wanted - 1e-6 for block in blocks)])
    apart = {
        (i, j): np.array([[gap(a, b) >= wanted - 1e-6 for b in spots[j]] for a in spots[i]])
        for i, j in combinations(range(count), 2)
    }
    if any(not each for each in spots):
        return False
    if count == 2:
        return bool(apart[0, 1].any())
    third = apart[0, 2].astype(int) @ apart[1, 2].astype(int).T > 0
    return bool((apart[0, 1] & third).any())


@pytest.mark.parametrize("seed", range(16))
def test_no_layout_of_two_or_three_pieces_has_wider_gaps(seed: int) -> None:
    """Within the five centimetres that straight rows are allowed to be short of the widest."""
    dice = Random(seed)
    count = 2 + seed % 2
    width, depth = halves(dice, 6, 12), halves(dice, 5, 10)
    column = NamedRectangle("c", Rectangle(halves(dice, 2, 6), halves(dice, 2, 5), HALF, HALF))
    problem = FloorProblem(
        ((0.0, 0.0), (width, 0.0), (width, depth), (0.0, depth)),
        tuple(
            Piece(f"p{n}", PieceKind.GROUP, halves(dice, 1, 4), halves(dice, 2, 5))
            for n in range(count)
        ),
        obstacles=(column,) if count == 2 else (),
        settings=FloorSettings(
            between_m=halves(dice, 0, 2), to_wall_m=HALF, work_limit=3.0, widest_useful_gap_m=1.9
        ),
    )
    found = place(problem)
    if not can_stand(problem, 0.0):
        assert isinstance(found, DoesNotFit)
        assert found.fits < count
        return
    assert isinstance(found, FloorSolution)
    most = 1.9 - problem.settings.between_m
    assert found.extra_m <= most + 1e-9
    assert can_stand(problem, found.extra_m)
    if found.extra_m < most - 1e-9:
        assert not can_stand(problem, round(found.extra_m + 0.06, 2))
    if found.extra_bound_m < most - 1e-9:
        assert not can_stand(problem, round(found.extra_bound_m + 0.01, 2))


def test_what_lies_between_two_readings_of_a_room_is_neither_claimed_nor_denied() -> None:
    """Three of 1.002 m take 3.006 m: two fit in 3.005 m, and in whole centimetres three might."""
    bare = FloorSettings(between_m=0.0, to_wall_m=0.0, may_turn=False)
    room = FloorProblem(((0.0, 0.0), (3.005, 0.0), (3.005, 1.0), (0.0, 1.0)), (), settings=bare)
    found = capacity(room, Piece("p", PieceKind.GROUP, 1.002, 1.0))
    assert (found.count, found.at_most, found.proof.kind) == (2, 3, "none")
    exact = capacity(room, Piece("p", PieceKind.GROUP, 1.01, 1.0))
    assert (exact.count, exact.is_proven) == (2, True)


def test_what_cannot_be_in_either_reading_is_refused_and_what_might_be_is_not() -> None:
    """2.001 m do not stand beside a column with 1.4 m on either side, however it is rounded."""
    bare = FloorSettings(between_m=0.0, to_wall_m=0.0, may_turn=False, work_limit=2.0)
    outline = ((0.0, 0.0), (3.0, 0.0), (3.0, 1.0), (0.0, 1.0))
    column = NamedRectangle("c", Rectangle(1.4, 0.4, 0.2, 0.2))
    long = (Piece("p", PieceKind.GROUP, 2.001, 1.0),)
    found = place(FloorProblem(outline, long, obstacles=(column,), settings=bare))
    assert isinstance(found, DoesNotFit)
    wide = ((0.0, 0.0), (3.005, 0.0), (3.005, 1.0), (0.0, 1.0))
    three = tuple(Piece(f"p{n}", PieceKind.GROUP, 1.002, 1.0) for n in range(3))
    might = place(FloorProblem(wide, three, settings=bare))
    assert isinstance(might, RanOut)
    assert (might.wanted, might.fits) == (3, 2)


@pytest.mark.parametrize(("width", "fits"), [(4.0, True), (3.99, False)])
def test_two_pieces_keep_the_larger_of_their_clear_floors(width: float, fits: bool) -> None:
    """1 m each; one wants 1 m of clear floor, the others none: it stands at an end, 3 + 1 m."""
    bare = FloorSettings(between_m=0.0, to_wall_m=0.0, may_turn=False, work_limit=2.0)
    pieces = tuple(
        Piece(name, PieceKind.GROUP, 1.0, 1.0, clear_m=clear)
        for name, clear in (("a", 0.0), ("b", 1.0), ("c", 0.0))
    )
    room = FloorProblem(((0.0, 0.0), (width, 0.0), (width, 1.0), (0.0, 1.0)), pieces, settings=bare)
    found = place(room)
    assert isinstance(found, FloorSolution) is fits
    if isinstance(found, FloorSolution):
        at = {s.piece.id: s.place.x_m for s in found.stations}
        assert at["b"] in {0.0, 3.0}
    else:
        assert (found.wanted, found.fits) == (3, 2)


@pytest.mark.parametrize("count", [MOST_FIRST_FIT, MOST_FIRST_FIT + 1])
def test_first_fit_is_tried_for_so_many_and_no_more(count: int) -> None:
    bare = FloorSettings(between_m=0.0, to_wall_m=0.0)
    room = FloorProblem(((0.0, 0.0), (60.0, 0.0), (60.0, 1.0), (0.0, 1.0)), (), settings=bare)
    footing = footing_of(room, region_of(room), Piece("p", PieceKind.GROUP, 1.0, 1.0))
    spots = first_fit([footing] * count)
    assert (spots is None) is (count > MOST_FIRST_FIT)
    if spots is not None:
        assert sorted(spot.x for spot in spots) == [100 * n for n in range(count)]
