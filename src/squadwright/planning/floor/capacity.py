"""How many equal stations fit, and the proof that one more does not."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from squadwright.planning.floor.footing import Footing, Spot, footing_of
from squadwright.planning.floor.model import Search, search
from squadwright.planning.floor.problem import FloorProblem, Piece
from squadwright.planning.floor.region import Region, region_of
from squadwright.planning.floor.rows import as_many_as_fit, in_rows
from squadwright.planning.floor.solution import Proof

WORK_LIMIT = 4.0
MOST_COUNTED = 60


@dataclass(frozen=True)
class Capacity:
    """The greatest number that fits, a layout of so many, and why not one more.

    ``at_most`` equals ``count`` where it is proven.
    """

    count: int
    at_most: int
    proof: Proof
    spots: tuple[Spot, ...]

    @property
    def is_proven(self) -> bool:
        """Whether one more is proven not to fit."""
        return self.count == self.at_most


def capacity(
    problem: FloorProblem, piece: Piece, *, work_limit: float = WORK_LIMIT, most: int = MOST_COUNTED
) -> Capacity:
    """How many pieces like ``piece`` fit into the room of a problem, whose own pieces are ignored.

    A counting argument is tried first; where it leaves a gap, the solver either finds one more or
    proves that there is none. Counting stops at ``most``.
    """
    region, generous = region_of(problem), region_of(problem, generous=True)
    footing = footing_of(problem, region, piece)
    loose = footing_of(problem, generous, piece, generous=True)
    limit = upper_limit(loose)
    upper = min(limit.count, most)
    spots = _most_by_hand(footing, upper)
    while len(spots) < upper:
        wanted = len(spots) + 1
        found = search(_copies(footing, wanted), _how(footing, work_limit))
        if found.spots is not None:
            spots = found.spots
            continue
        proof = _proof_by_search(wanted, (footing, loose), (region, generous), found.is_impossible)
        if proof is None and not found.is_impossible:
            return Capacity(len(spots), upper, _unproven(len(spots), upper), tuple(spots))
        if proof is None:
            again = search(_copies(loose, wanted), _how(loose, work_limit))
            if not again.is_impossible:
                return Capacity(len(spots), upper, _unproven(len(spots), upper), tuple(spots))
            proof = _searched(wanted)
        return Capacity(len(spots), len(spots), proof, tuple(spots))
    if upper < limit.count:
        return Capacity(upper, limit.count, _stopped(upper), tuple(spots))
    return Capacity(upper, upper, limit.proof, tuple(spots))


@dataclass(frozen=True)
class Limit:
    """A number that is never passed, and why."""

    count: int
    proof: Proof


def upper_limit(footing: Footing) -> Limit:
    """The better of the counting arguments, on the rectangle round the room.

    Each station takes its size and one shared strip along and across. If no line across the room
    meets more than k of them, they can be told apart into k rows of stations side by side (their
    extents along the room are intervals; intervals of which at most k share a point fall into k
    classes without overlap), and each row holds what fits along the room.
    """
    if footing.piece.at_throw_wall:
        return _wall_limit(footing)
    left, low, right, high = footing.area
    along, across = right - left + footing.clear, high - low + footing.clear
    width, depth = footing.width + footing.clear, footing.depth + footing.clear
    thin = (min(width, depth),) * 2 if footing.may_turn else (width, depth)
    side_by_side, deep = max(0, along // thin[0]), max(0, across // thin[1])
    rows = side_by_side * deep
    area = max(0, along) * max(0, across) // (width * depth)
    takes = (
        f"A station with its shared strip takes {width / 100:.2f} x {depth / 100:.2f} m, and the "
        f"room has {along / 100:.2f} x {across / 100:.2f} m for them"
    )
    if rows <= area:
        turn = ", whichever way they are turned" if footing.may_turn else ""
        return Limit(
            rows,
            Proof(
                "rows",
                f"{takes}: at most {side_by_side} side by side and {deep} one behind the other"
                f"{turn}, so at most {rows} fit",
            ),
        )
    return Limit(
        area,
        Proof("area", f"{takes}: {along * across / 1e4:.1f} m2 hold at most {area} of them"),
    )


def _wall_limit(footing: Footing) -> Limit:
    counts = [
        max(0, (wall.end - wall.start + footing.clear) // (footing.width + footing.clear))
        for wall in footing.walls
    ]
    long_m = sum(wall.end - wall.start for wall in footing.walls) / 100
    return Limit(
        sum(counts),
        Proof(
            "wall",
            f"The walls safe for throws are {long_m:.2f} m long; each place takes "
            f"{footing.width / 100:.2f} m and {footing.clear / 100:.2f} m to the next, so at most "
            f"{sum(counts)} fit",
        ),
    )


def _copies(footing: Footing, count: int) -> list[Footing]:
    return [
        replace(footing, piece=replace(footing.piece, id=f"{footing.piece.id} {place}"))
        for place in range(1, count + 1)
    ]


def _how(footing: Footing, work_limit: float) -> Search:
    positions = None if footing.piece.at_throw_wall else pushed_positions(footing)
    return Search(work_limit, positions=positions)


def pushed_positions(footing: Footing) -> tuple[Sequence[int], Sequence[int]]:
    """Where equal pieces may start if each is pushed towards the first corner as far as it goes.

    Any layout can be pushed so, one piece after another, until each touches a wall, a box or the
    piece before it; its start is then an edge plus whole pieces.
    """
    sizes = {footing.width, footing.depth} if footing.may_turn else set()
    return (
        _pushed(footing, 0, sizes or {footing.width}),
        _pushed(footing, 1, sizes or {footing.depth}),
    )


def _pushed(footing: Footing, axis: int, sizes: set[int]) -> list[int]:
    start, end = footing.area[axis], footing.area[axis + 2]
    edges = {start, *(box[axis + 2] for box in footing.fixed)}
    edges |= {box[axis + 2] + footing.clear for box in footing.obstacles}
    found = {edge for edge in edges if start <= edge <= end}
    fresh = set(found)
    while fresh:
        fresh = {at + size + footing.clear for at in fresh for size in sizes} - found
        fresh = {at for at in fresh if at <= end}
        found |= fresh
    least = min(sizes)
    return sorted(at for at in found if at + least <= end) or [start]


def _most_by_hand(footing: Footing, upper: int) -> list[Spot]:
    """The most that straight rows or first fit get in."""
    fitted = as_many_as_fit(footing, upper)
    for count in range(upper, len(fitted), -1):
        spots = in_rows(_copies(footing, count), 0)
        if spots is not None:
            return spots
    return fitted


def _proof_by_search(
    wanted: int,
    footings: tuple[Footing, Footing],
    regions: tuple[Region, Region],
    is_impossible: bool,
) -> Proof | None:
    """The proof, where both readings of the room are one."""
    same = regions[0] == regions[1] and footings[0] == footings[1]
    return _searched(wanted) if is_impossible and same else None


def _searched(wanted: int) -> Proof:
    return Proof(
        "search",
        f"A full search found no place for {wanted}; lengths were rounded in their favour, so it "
        f"holds for any positions along or across the room",
    )


def _unproven(count: int, upper: int) -> Proof:
    return Proof(
        "none", f"{count} fit for sure; up to {upper} were neither found nor ruled out in the time"
    )


def _stopped(count: int) -> Proof:
    return Proof("none", f"{count} fit; counting stopped there")
