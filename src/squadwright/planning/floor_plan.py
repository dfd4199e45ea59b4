"""The floor plan of a session: everything placed once for all blocks where it fits, else by block.

Where not all of a block fits, what fits is placed and the trouble is told, with what to do.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import lru_cache

from squadwright.model.plan import FloorPlan, StationPlace
from squadwright.planning.floor import (
    DoesNotFit,
    FloorProblem,
    FloorSolution,
    Piece,
    PieceKind,
    RanOut,
    Rectangle,
    Station,
    capacity,
)
from squadwright.planning.floor.region import door_zone
from squadwright.planning.floor.solver import Missing, attempt, what_fits
from squadwright.planning.floor_pieces import (
    FloorTask,
    Needed,
    merged,
    needed_floor,
    room_problem,
)

COACH_M = 0.6


@dataclass(frozen=True)
class NoRoom:
    """A block of which not everything fits."""

    block: str
    what: str
    wanted: int
    fits: int
    reason: str
    advice: str


@dataclass(frozen=True)
class Low:
    """A station under a ceiling that is too low for its work."""

    station: str
    ceiling: str
    ceiling_m: float
    need_m: float
    exercise: str


@dataclass(frozen=True)
class LaidOut:
    """The floor plan with what is wrong with it."""

    plan: FloorPlan
    no_room: tuple[NoRoom, ...] = ()
    low: tuple[Low, ...] = ()
    no_wall: tuple[str, ...] = ()
    closer: bool = False
    hidden: tuple[str, ...] = ()


def floor_plan(task: FloorTask) -> LaidOut:
    """Lay the floor out for a session."""
    empty = room_problem(task.room, task.settings)
    needed = needed_floor(task)
    no_wall = tuple(
        dict.fromkeys(n.block for n in needed if n.piece.at_throw_wall and not _has_wall(empty))
    )
    needed = tuple(_without_wall(n) if n.block in no_wall else n for n in needed)
    if not needed:
        return LaidOut(_named(task, (), (), ()))
    gaps = (False, True) if any(n.piece.clear_m is not None for n in needed) else (False,)
    for closer in gaps:
        once = _for_all_blocks(_closer(needed) if closer else needed)
        is_whole = len({n.block for n in needed}) == 1
        found = _attempt(_with(empty if is_whole else _by_hand_only(empty), once))
        if isinstance(found, FloorSolution):
            return _laid_out(task, [("", found, once)], no_wall=no_wall, closer=closer)
    return _block_by_block(task, empty, needed, no_wall)


@lru_cache(maxsize=128)
def _attempt(problem: FloorProblem) -> FloorSolution | Missing:
    """Lay a room out; a change that leaves the floor alone need not do so again."""
    return attempt(problem)


def _with(problem: FloorProblem, needed: Sequence[Needed]) -> FloorProblem:
    return replace(problem, pieces=tuple(n.piece for n in needed))


def _by_hand_only(problem: FloorProblem) -> FloorProblem:
    return replace(problem, settings=replace(problem.settings, work_limit=0.0))


def _has_wall(problem: FloorProblem) -> bool:
    return any(wall.lies_along_a_side for wall in problem.safe_walls)


def _without_wall(needed: Needed) -> Needed:
    piece = replace(needed.piece, at_throw_wall=False, throw_m=0.0, kind=PieceKind.GROUP)
    return replace(needed, piece=piece)


def _closer(needed: Sequence[Needed]) -> tuple[Needed, ...]:
    """Places as near each other as stations may be."""
    return tuple(
        replace(n, piece=replace(n.piece, clear_m=None)) if n.piece.clear_m is not None else n
        for n in needed
    )


def _for_all_blocks(needed: Sequence[Needed]) -> tuple[Needed, ...]:
    """One place for what is the same in several blocks: a bar, or the group of a number."""
    spots: dict[str, list[Needed]] = {}
    for item in needed:
        spots.setdefault(item.spot, []).append(item)
    found = [
        Needed(
            piece=merged([item.piece for item in items]),
            block="",
            holds=tuple(dict.fromkeys(h for item in items for h in item.holds)),
            spot=spot,
            tallest=max(items, key=lambda item: item.piece.ceiling_m).tallest,
        )
        for spot, items in spots.items()
    ]
    return _of_equal_size([item for item in found if item.spot.startswith("place ")], found)


def _of_equal_size(places: Sequence[Needed], everything: Sequence[Needed]) -> tuple[Needed, ...]:
    if not places:
        return tuple(everything)
    largest = merged([item.piece for item in places])
    return tuple(
        replace(n, piece=replace(largest, id=n.piece.id)) if n in places else n for n in everything
    )


def _block_by_block(
    task: FloorTask, empty: FloorProblem, needed: Sequence[Needed], no_wall: tuple[str, ...]
) -> LaidOut:
    """A layout for each block by itself: what is in the way is cleared between them."""
    layouts: list[tuple[str, FloorSolution, tuple[Needed, ...]]] = []
    troubles: list[NoRoom] = []
    is_closer = False
    for block in dict.fromkeys(n.block for n in needed):
        mine = tuple(n for n in needed if n.block == block)
        found = _attempt(_with(empty, mine))
        if not isinstance(found, FloorSolution) and any(n.piece.clear_m for n in mine):
            mine = _closer(mine)
            found = _attempt(_with(empty, mine))
            is_closer = is_closer or isinstance(found, FloorSolution)
        if not isinstance(found, FloorSolution):
            result = what_fits(_with(empty, mine), found)
            troubles.append(_trouble(block, mine, result))
            mine = mine[: result.fits]
            found = _attempt(_with(empty, mine))
        if isinstance(found, FloorSolution) and mine:
            layouts.append((block, found, mine))
    laid = _laid_out(task, layouts, no_wall=no_wall, closer=is_closer)
    return replace(laid, no_room=tuple(troubles))


def _trouble(block: str, needed: Sequence[Needed], result: DoesNotFit | RanOut) -> NoRoom:
    kinds = {n.piece.kind for n in needed}
    what = "bar stations" if kinds == {PieceKind.BAR} else "places"
    if isinstance(result, DoesNotFit):
        reason = result.proof.sentence
    else:
        reason = f"For more than {result.fits} no layout was found in the time allowed"
    return NoRoom(block, what, result.wanted, result.fits, reason, result.advice)


def _laid_out(
    task: FloorTask,
    layouts: Sequence[tuple[str, FloorSolution, tuple[Needed, ...]]],
    *,
    no_wall: tuple[str, ...],
    closer: bool,
) -> LaidOut:
    stations: list[StationPlace] = []
    zones: dict[tuple[str, str], StationPlace] = {}
    low: list[Low] = []
    notes: list[str] = []
    hidden: list[str] = []
    for block, found, needed in layouts:
        by_id = {item.piece.id: item for item in needed}
        for station in found.stations:
            stations.append(station_of(station, block, by_id[station.piece.id].holds))
            low += _lows(found.problem, station, by_id[station.piece.id])
        for zone in zones_of(found, block):
            zones[zone.block, zone.id] = zone
        notes += _notes(found, block)
        hidden += found.hidden
    if len(layouts) > 1:
        notes.append("Each block has the floor to itself: clear it between blocks.")
    return LaidOut(
        plan=_named(task, tuple(stations), tuple(zones.values()), tuple(notes)),
        low=tuple(low),
        no_wall=no_wall,
        closer=closer,
        hidden=tuple(hidden),
    )


def _named(
    task: FloorTask,
    stations: tuple[StationPlace, ...],
    zones: tuple[StationPlace, ...],
    notes: tuple[str, ...],
) -> FloorPlan:
    return FloorPlan(task.room.id, task.room.name, stations, zones, notes)


def station_of(station: Station, block: str = "", holds: tuple[str, ...] = ()) -> StationPlace:
    """A station as it stands in a plan."""
    return replace(
        zone_of(station.piece.id, station.place, station.piece.kind.value, block),
        angle_deg=float(station.angle_deg),
        number=station.number,
        holds=holds,
    )


def zone_of(name: str, where: Rectangle, kind: str, block: str = "") -> StationPlace:
    """A rectangle of the floor as it stands in a plan."""
    return StationPlace(
        id=name,
        x_m=round(where.x_m, 3),
        y_m=round(where.y_m, 3),
        width_m=round(where.width_m, 3),
        depth_m=round(where.depth_m, 3),
        kind=kind,
        block=block,
    )


def zones_of(found: FloorSolution, block: str = "") -> list[StationPlace]:
    """Landing zones, throw lines, what is kept clear behind doors, and the coach."""
    zones = [
        zone_of(f"{word} of {station.piece.id}", where, kind, block)
        for station in found.stations
        for word, kind, where in (
            ("landing", "landing", station.landing),
            ("throw line", "throw line", station.throw_line),
        )
        if where is not None
    ]
    zones += [
        zone_of(f"kept clear: {door.name}", door_zone(found.problem, door), "door", "")
        for door in found.problem.doors
    ]
    x, y = found.coach
    coach = Rectangle(x - COACH_M / 2, y - COACH_M / 2, COACH_M, COACH_M)
    return [*zones, zone_of("coach", coach, "coach", block)]


def _lows(problem: FloorProblem, station: Station, needed: Needed) -> list[Low]:
    need = station.piece.ceiling_m
    over = [
        (zone.ceiling_m, f"under {zone.name}")
        for zone in problem.low_ceilings
        if _meet(zone.place, station.place)
    ]
    ceiling_m, words = min([(problem.ceiling_m, "in this room"), *over])
    if ceiling_m >= need:
        return []
    return [Low(station.piece.id, words, ceiling_m, need, needed.tallest)]


def _meet(first: Rectangle, second: Rectangle) -> bool:
    return (
        first.x_m < second.right_m
        and second.x_m < first.right_m
        and first.y_m < second.top_m
        and second.y_m < first.top_m
    )


def _notes(found: FloorSolution, block: str) -> list[str]:
    start = f"{block}: " if block else ""
    bars = [s.piece for s in found.stations if s.piece.kind is PieceKind.BAR]
    said = []
    if bars and len(bars) == len(found.stations):
        said.append(start + _how_many_more(found.problem, bars[0], len(bars)))
    seen = (
        "sees every station"
        if not found.hidden
        else f"cannot see the whole of {', '.join(found.hidden)}; walk round there"
    )
    said.append(f"{start}The coach stands {found.coach_place} and {seen}.")
    return said


def _how_many_more(problem: FloorProblem, bar: Piece, placed: int) -> str:
    most = capacity(problem, bar, work_limit=problem.settings.work_limit, most=max(placed + 1, 2))
    if most.count > placed:
        return f"{placed} bar stations are placed; one more would fit."
    if most.is_proven:
        return f"{placed} bar stations are placed; one more does not fit. {most.proof.sentence}."
    return f"{placed} bar stations are placed; whether one more fits is not known."
