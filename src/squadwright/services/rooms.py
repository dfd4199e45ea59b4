"""Use cases of the rooms: make one, change its shape, add, change, move and remove things."""

from collections.abc import Callable
from dataclasses import dataclass, replace
from datetime import date
from typing import Any

from squadwright.errors import Conflict, InvalidInput, NotFound
from squadwright.exchange.doubtful_room import doubts_of_corners, doubts_of_size
from squadwright.exchange.plausible import CEILING_M
from squadwright.exchange.room_shape import misplaced
from squadwright.model.club import Club
from squadwright.model.room import CeilingZone, Door, LandingLane, Obstacle, Point, Room, ThrowWall
from squadwright.services.asking import ask
from squadwright.services.calendar import without_room
from squadwright.services.club_changes import Changed, change_club, require_unchanged
from squadwright.services.free_id import free_id, id_words
from squadwright.services.room_walls import with_walls_moved
from squadwright.services.unit_of_work import Keeper

Thing = Obstacle | CeilingZone | ThrowWall | Door | LandingLane
MOST_THINGS = 60
LONGEST_ID = 40
SHOWN = "shown"
TAKEN_IDS = frozenset({"new"})


@dataclass(frozen=True)
class NewRoom:
    """A room in one line: a rectangle and its ceiling, and what stands in it from the start."""

    name: str
    length_m: float
    width_m: float
    ceiling_m: float
    surface: str = "rubber"
    obstacles: tuple[Obstacle, ...] = ()
    note: str = ""

    @property
    def outline(self) -> tuple[Point, ...]:
        """Its four corners."""
        return rectangle(self.length_m, self.width_m)


@dataclass(frozen=True)
class Shape:
    """What a room itself is like, without the things in it."""

    name: str
    outline: tuple[Point, ...]
    ceiling_m: float
    surface: str
    north_deg: float
    note: str


def rectangle(length_m: float, width_m: float) -> tuple[Point, ...]:
    """The corners of a rectangle, from the first one round."""
    return (0.0, 0.0), (length_m, 0.0), (length_m, width_m), (0.0, width_m)


def is_rectangle(room: Room) -> bool:
    """Whether a room is a rectangle from 0, 0 m."""
    return room.outline == rectangle(*room.outline[2]) if len(room.outline) == 4 else False


def add_room(keeper: Keeper, new: NewRoom, *, today: date, so: str = "") -> tuple[Changed, Room]:
    """A new room; asks where a size is seldom right (Asked), refuses what cannot be."""
    _require_ceiling(new.ceiling_m)
    ask(doubts_of_size(new.length_m, new.width_m, new.ceiling_m), so)
    changed = change_club(keeper, lambda club: with_new_room(club, new), today=today)
    return changed, changed.club.rooms[-1]


def with_new_room(club: Club, new: NewRoom) -> Club:
    """The club with one more room, under a name of its own."""
    _require_own_name(club, new.name)
    room = Room(
        id=_id(club, new.name),
        name=new.name,
        outline=new.outline,
        ceiling_m=new.ceiling_m,
        surface=new.surface,
        obstacles=new.obstacles,
        note=new.note,
    )
    _require_possible(None, room)
    return replace(club, rooms=(*club.rooms, room))


def reshape(
    keeper: Keeper, room_id: str, shape: Shape, *, shown: str, today: date, so: str = ""
) -> Changed:
    """Name, outline, ceiling, surface, north and note of a room."""
    _require_ceiling(shape.ceiling_m)

    def change(room: Room) -> Room:
        require_unchanged(room, shown, SHOWN)
        after = replace(
            room,
            name=shape.name,
            outline=shape.outline,
            ceiling_m=shape.ceiling_m,
            surface=shape.surface,
            north_deg=shape.north_deg,
            note=shape.note,
        )
        if after.outline != room.outline or after.ceiling_m != room.ceiling_m:
            length, width = after.outline[2] if is_rectangle(after) else (0.0, 0.0)
            doubts = doubts_of_size(length, width, after.ceiling_m) if length else None
            ask(doubts or doubts_of_corners(after), so)
        return after

    return _change_room(keeper, room_id, change, today=today, name=shape.name)


def put_thing(
    keeper: Keeper,
    room_id: str,
    kind: str,
    index: int | None,
    thing: Thing,
    *,
    shown: str = "",
    today: date,
) -> Changed:
    """Add a thing of a kind (``index`` None), or put another in the place of one."""

    def change(room: Room) -> Room:
        held: tuple[Any, ...] = getattr(room, kind)
        if index is None:
            if len(held) >= MOST_THINGS:
                raise InvalidInput(
                    "name", f"{room.name} holds {len(held)}, the most there may be", "Remove one"
                )
            return _with(room, kind, (*held, thing))
        require_unchanged(thing_at(room, kind, index), shown, SHOWN)
        return _with(room, kind, (*held[:index], thing, *held[index + 1 :]))

    return _change_room(keeper, room_id, change, today=today)


def take_thing_out(
    keeper: Keeper, room_id: str, kind: str, index: int, *, shown: str, today: date
) -> Changed:
    """Remove a thing from a room."""

    def change(room: Room) -> Room:
        require_unchanged(thing_at(room, kind, index), shown, SHOWN)
        held: tuple[Any, ...] = getattr(room, kind)
        return _with(room, kind, (*held[:index], *held[index + 1 :]))

    return _change_room(keeper, room_id, change, today=today)


def move_things(
    keeper: Keeper, room_id: str, move: Callable[[Room], Room], *, shown: str, today: date
) -> Changed:
    """Corners and things of a room at other places, all at once."""

    def change(room: Room) -> Room:
        require_unchanged(room, shown, SHOWN)
        return move(room)

    return _change_room(keeper, room_id, change, today=today)


def remove_room(keeper: Keeper, room_id: str, *, today: date) -> Changed:
    """Take a room out of the club; Conflict while a session is held in it."""

    def change(club: Club) -> Club:
        room = club.room(room_id)
        used = [
            s.name
            for s in club.sessions
            if s.room == room_id or (s.floor_today and s.floor_today.room == room_id)
        ]
        used += [slot.name for slot in club.week if slot.room == room_id]
        if used:
            more = f" and {len(used) - 1} more" if len(used) > 1 else ""
            raise Conflict(
                f"{room.name} is the room of {used[0]}{more}. Give them another room first"
            )
        return replace(
            club,
            rooms=tuple(r for r in club.rooms if r.id != room_id),
            closures=without_room(club.closures, room_id),
            slot_changes=tuple(
                replace(c, room=None) if c.room == room_id else c for c in club.slot_changes
            ),
        )

    return change_club(keeper, change, today=today)


def thing_at(room: Room, kind: str, index: int) -> Thing:
    """A thing of a room by its number from 0; NotFound where there is none."""
    held: tuple[Thing, ...] = getattr(room, kind)
    if not 0 <= index < len(held):
        raise NotFound(f"{room.name} has {len(held)} of these, and no number {index + 1}")
    return held[index]


def _with(room: Room, kind: str, things: tuple[Thing, ...]) -> Room:
    changed: dict[str, Any] = {kind: things}
    return replace(room, **changed)


def _change_room(
    keeper: Keeper,
    room_id: str,
    change: Callable[[Room], Room],
    *,
    today: date,
    name: str | None = None,
) -> Changed:
    def changed(club: Club) -> Club:
        room = club.room(room_id)
        if name is not None and name != room.name:
            _require_own_name(club, name)
        after = with_walls_moved(room, change(room))
        _require_possible(room, after)
        return replace(club, rooms=tuple(after if r.id == room_id else r for r in club.rooms))

    return change_club(keeper, changed, today=today)


def _require_possible(before: Room | None, after: Room) -> None:
    """Refuse what cannot be, unless it was so already."""
    known = {c.problem for c in misplaced(before)} if before is not None else set()
    for complaint in misplaced(after):
        if complaint.problem not in known:
            raise InvalidInput(complaint.place, complaint.problem, complaint.advice)


def _require_ceiling(ceiling_m: float) -> None:
    low, high = CEILING_M
    if not low <= ceiling_m <= high:
        raise InvalidInput(
            "ceiling_m",
            f"a ceiling of {ceiling_m:g} m cannot be: the limits are {low:g} and {high:g} m",
            "Write it in metres, for example 3.4",
        )


def _require_own_name(club: Club, name: str) -> None:
    if any(room.name.casefold() == name.casefold() for room in club.rooms):
        raise InvalidInput("name", f"there is a room {name!r} already", "Give it another name")


def _id(club: Club, name: str) -> str:
    """An id from the name that no other room has."""
    taken = {room.id for room in club.rooms} | TAKEN_IDS
    return free_id(id_words(name, LONGEST_ID) or "room", taken)
