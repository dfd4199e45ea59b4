"""The club: squads, staff, store, rooms, week, routines, sessions. One club is one file."""

from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass, field
from datetime import time
from enum import StrEnum
from typing import Literal
from unicodedata import category, normalize

from squadwright.errors import InvalidInput, NotFound
from squadwright.model.athlete import Athlete
from squadwright.model.calendar import (
    BodyRegion,
    ClashLimits,
    Closure,
    Fixture,
    SchoolTerm,
    SlotChange,
    Travel,
    Work,
)
from squadwright.model.camp_rules import CampRules
from squadwright.model.field import Effort, GateValue, Identifier, Label, Name, Note
from squadwright.model.kit import Kit
from squadwright.model.room import Room
from squadwright.model.room_part import part_of
from squadwright.model.routine import Routine
from squadwright.model.session import Session


@dataclass(frozen=True)
class StaffMember:
    """Somebody who coaches or treats."""

    name: Name
    role: Name
    days: tuple[Name, ...] = ()


class Weekday(StrEnum):
    """Days of the week."""

    MONDAY = "Monday"
    TUESDAY = "Tuesday"
    WEDNESDAY = "Wednesday"
    THURSDAY = "Thursday"
    FRIDAY = "Friday"
    SATURDAY = "Saturday"
    SUNDAY = "Sunday"


@dataclass(frozen=True)
class WeekSlot:
    """A standing slot of the week, mat work included.

    ``kind`` is the coach's word for it, ``work`` the one the clash rules go by.
    """

    id: Identifier
    name: Name
    day: Weekday
    starts_at: time
    ends_at: time
    kind: Name
    is_hard: bool = False
    squads: tuple[Name, ...] = ()
    work: Work = Work.NOT_STATED
    planned_effort: Effort | None = None
    regions: tuple[BodyRegion, ...] = ()
    to_failure: bool = False
    room: Identifier | None = None
    staff: tuple[Name, ...] = ()


@dataclass(frozen=True)
class EmergencyCard:
    """What is needed when somebody is hurt."""

    address: Note = ""
    access: Note = ""
    defibrillator: Note = ""
    contacts: tuple[Note, ...] = ()


@dataclass(frozen=True)
class GateLimit:
    """A limit of the safety gates that the coach has made stricter, by its name."""

    name: Name
    value: GateValue


@dataclass(frozen=True)
class GateLimits:
    """The coach's own limits of the safety gates; whatever is not named is as published."""

    chosen: tuple[GateLimit, ...] = ()


@dataclass(frozen=True)
class Club:
    """Everything the coach keeps, as one value."""

    name: Name
    format_version: Literal[1] = 1
    squads: tuple[Name, ...] = ()
    staff: tuple[StaffMember, ...] = ()
    emergency: EmergencyCard = EmergencyCard()
    athletes: tuple[Athlete, ...] = ()
    kit: Kit = field(default_factory=Kit)
    rooms: tuple[Room, ...] = ()
    week: tuple[WeekSlot, ...] = ()
    routines: tuple[Routine, ...] = ()
    sessions: tuple[Session, ...] = ()
    note: Note = ""
    time_zone: Label = ""
    closures: tuple[Closure, ...] = ()
    terms: tuple[SchoolTerm, ...] = ()
    travel: tuple[Travel, ...] = ()
    slot_changes: tuple[SlotChange, ...] = ()
    fixtures: tuple[Fixture, ...] = ()
    clash_limits: ClashLimits = field(default_factory=ClashLimits)
    gate_limits: GateLimits = GateLimits()
    camp_rules: CampRules = field(default_factory=CampRules)

    def __post_init__(self) -> None:
        _refuse_twins("athletes", [a.id for a in self.athletes])
        _refuse_twins("rooms", [r.id for r in self.rooms])
        _refuse_twins("routines", [f"{r.id} version {r.version}" for r in self.routines])
        _refuse_twins("sessions", [s.id for s in self.sessions])
        known = {a.id for a in self.athletes}
        for index, session in enumerate(self.sessions):
            for athlete in session.athletes:
                if athlete not in known:
                    raise InvalidInput(
                        f"sessions[{index}].athletes",
                        f"{athlete!r} is not an athlete of the club",
                        "Name an athlete by the id under athletes",
                    )

    def athlete(self, athlete_id: str) -> Athlete:
        """The athlete with an id; raises NotFound."""
        for athlete in self.athletes:
            if athlete.id == athlete_id:
                return athlete
        raise NotFound(f"no athlete has the id {athlete_id!r}; see the ids under athletes")

    def room(self, room_id: str) -> Room:
        """The room with an id; raises NotFound."""
        for room in self.rooms:
            if room.id == room_id:
                return room
        raise NotFound(f"no room has the id {room_id!r}; see the ids under rooms")

    def room_of(self, session: Session) -> Room:
        """The floor a session has: its room, another one, or the part of it that is free."""
        today = session.floor_today
        if today is None:
            return self.room(session.room)
        room = self.room(today.room or session.room)
        part = today.part
        if part is None:
            return room
        return part_of(room, part.x_m, part.y_m, part.width_m, part.depth_m)

    def routine(self, routine_id: str, version: int) -> Routine:
        """The routine with an id and version; raises NotFound."""
        for routine in self.routines:
            if (routine.id, routine.version) == (routine_id, version):
                return routine
        raise NotFound(f"no routine has the id {routine_id!r} and version {version}; see routines")

    def session(self, session_id: str) -> Session:
        """The session with an id; raises NotFound."""
        for session in self.sessions:
            if session.id == session_id:
                return session
        raise NotFound(f"no session has the id {session_id!r}; see the ids under sessions")

    def shown_names(self) -> dict[str, str]:
        """Name to show per athlete id: two alike show the birth year, then the id."""
        return names_told_apart(self.athletes)


def names_told_apart(athletes: Iterable[Athlete]) -> dict[str, str]:
    """Unambiguous names: "Sami Darwazin '01"; the id is added if that is still not enough.

    Names that look alike count as one name: letter case, spaces, accents composed or not, and
    characters that show nothing make no difference.
    """
    people = list(athletes)
    looks = Counter(_look(a.name) for a in people)
    with_year = {
        a.id: a.name if looks[_look(a.name)] == 1 else f"{a.name} '{a.birth_date.year % 100:02d}"
        for a in people
    }
    looks = Counter(_look(name) for name in with_year.values())
    return {
        athlete_id: name if looks[_look(name)] == 1 else f"{name} ({athlete_id})"
        for athlete_id, name in with_year.items()
    }


def _look(name: str) -> str:
    """What the eye sees of a name."""
    visible = "".join(c for c in normalize("NFKC", name) if category(c) != "Cf")
    return " ".join(visible.casefold().split())


def _refuse_twins(place: str, ids: list[str]) -> None:
    seen: set[str] = set()
    for index, name in enumerate(ids):
        if name in seen:
            raise InvalidInput(
                f"{place}[{index}].id",
                f"{name!r} is used twice",
                "Give each its own id; two of one name keep separate ids",
            )
        seen.add(name)
