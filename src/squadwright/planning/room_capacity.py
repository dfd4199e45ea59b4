"""How many of the usual stations a room takes, with the proof, and where they stand."""

from dataclasses import dataclass, replace
from enum import StrEnum
from functools import lru_cache

from squadwright.library import exercises
from squadwright.model.exercise import Demand
from squadwright.model.plan import FloorPlan, StationPlace
from squadwright.model.room import Room
from squadwright.planning.floor import (
    FloorSettings,
    FloorSolution,
    Piece,
    PieceKind,
    capacity,
    place,
)
from squadwright.planning.floor_pieces import BAR_DEPTH_M, BAR_WIDTH_M, LANDING_M, room_problem
from squadwright.planning.floor_plan import station_of, zones_of

WORK_LIMIT = 0.4
MOST_SHOWN = 24


class Usual(StrEnum):
    """The usual kinds of station; sizes are ours, those of a plan follow from its exercises."""

    BARS = "bars"
    LANES = "lanes"
    THROWS = "throws"
    PAIRS = "pairs"


_WORDS = {
    Usual.BARS: ("bar station", "bar stations"),
    Usual.LANES: ("jump lane", "jump lanes"),
    Usual.THROWS: ("throw place at the wall", "throw places at the wall"),
    Usual.PAIRS: ("place for a pair", "places for pairs"),
}
_NAMES = {Usual.BARS: "bar", Usual.LANES: "lane", Usual.THROWS: "throw", Usual.PAIRS: "pair"}
_PIECES = {
    Usual.BARS: Piece("bar", PieceKind.BAR, BAR_WIDTH_M, BAR_DEPTH_M),
    Usual.LANES: Piece("lane", PieceKind.LANE, 1.5, 7.0, clear_m=2.0, landing_m=LANDING_M),
    Usual.THROWS: Piece(
        "throw", PieceKind.THROW, 2.0, 4.0, clear_m=2.0, at_throw_wall=True, throw_m=4.0
    ),
    Usual.PAIRS: Piece("pair", PieceKind.GROUP, 2.0, 2.0),
}


@dataclass(frozen=True)
class HowMany:
    """How many stations of a kind fit: "6 bar stations fit, 7 do not", and why."""

    kind: Usual
    count: int
    is_proven: bool
    sentence: str
    why: str
    size: str


@lru_cache(maxsize=64)
def how_many(room: Room) -> tuple[HowMany, ...]:
    """Every usual kind that the room may take; throws only where a wall is safe for them."""
    kinds = [k for k in Usual if k is not Usual.THROWS or room.throw_walls]
    return tuple(_count(room, kind) for kind in kinds)


def _count(room: Room, kind: Usual) -> HowMany:
    piece = _PIECES[kind]
    found = capacity(room_problem(room, FloorSettings()), piece, work_limit=WORK_LIMIT)
    one, many = _WORDS[kind]
    if found.count == 0 and found.is_proven:
        words = f"No {one} fits"
    elif found.is_proven:
        fits = f"{one} fits" if found.count == 1 else f"{many} fit"
        words = f"{found.count} {fits}, {found.count + 1} do not"
    else:
        words = f"At least {found.count} {many} fit"
    clear = FloorSettings().between_m if piece.clear_m is None else piece.clear_m
    size = f"{piece.width_m:g} x {piece.depth_m:g} m each, {clear:g} m apart"
    return HowMany(kind, found.count, found.is_proven, words, f"{found.proof.sentence}.", size)


@dataclass(frozen=True)
class Layout:
    """So many stations in a room, in walking order from the door, and how far the walk is [m]."""

    plan: FloorPlan
    walk_m: float
    is_shortest: bool
    coach: str


@lru_cache(maxsize=64)
def layout(room: Room, kind: Usual) -> Layout | None:
    """As many stations of a kind as fit, placed; None where none is, or no layout was found."""
    count = min(MOST_SHOWN, next((h.count for h in how_many(room) if h.kind is kind), 0))
    if count == 0:
        return None
    pieces = tuple(
        replace(_PIECES[kind], id=f"{_NAMES[kind]} {number}") for number in range(1, count + 1)
    )
    found = place(replace(room_problem(room, FloorSettings()), pieces=pieces))
    if not isinstance(found, FloorSolution):
        return None
    stations = tuple(station_of(station) for station in found.stations)
    plan = FloorPlan(room.id, room.name, stations, tuple(zones_of(found)))
    seen = "sees every station" if not found.hidden else "has to walk round to see every station"
    return Layout(
        plan,
        found.walk_m,
        found.walk_is_shortest,
        f"The coach stands {found.coach_place} and {seen}.",
    )


def walking_order(plan: FloorPlan) -> tuple[StationPlace, ...]:
    """The stations of a plan in the order of the walk from the door."""
    return tuple(sorted(plan.stations, key=lambda station: (station.block, station.number)))


@dataclass(frozen=True)
class TooLow:
    """Exercises that want more height than a part of the room has."""

    where: str
    ceiling_m: float
    exercises: tuple[tuple[str, float], ...]


def too_low(room: Room) -> tuple[TooLow, ...]:
    """Overhead work and throws for which the room, or a zone of it, is too low."""
    places = [("", room.ceiling_m), *((z.name, z.ceiling_m) for z in room.ceiling_zones)]
    found = []
    for where, ceiling_m in places:
        asking = tuple(
            sorted(
                (
                    (e.name, e.needs.ceiling_m)
                    for e in exercises()
                    if e.needs.ceiling_m > ceiling_m
                    and (Demand.OVERHEAD in e.demands or e.throws_per_repetition)
                ),
                key=lambda each: (-each[1], each[0]),
            )
        )
        if asking:
            found.append(TooLow(where, ceiling_m, asking))
    return tuple(found)
