"""Use case: look at a routine before anyone does it, in the club's own store and rooms."""

from dataclasses import dataclass

from squadwright.model.club import Club
from squadwright.model.plan import Severity
from squadwright.model.room import Room
from squadwright.model.routine import Routine
from squadwright.model.session import Session
from squadwright.planning.attendance import people_today
from squadwright.planning.floor_plan import LaidOut
from squadwright.planning.routine_check import (
    RoutineFinding,
    Trial,
    check_routine,
    try_routine,
)
from squadwright.planning.routine_check.dose import level_of
from squadwright.planning.routine_check.trial import MOST_ATHLETES, slot_of, usual_mass_kg

USUAL_ATHLETES = 12
ROOM_RULES = ("room", "wall", "ceiling")


@dataclass(frozen=True)
class Setting:
    """For how many athletes, in which room, and like which session a routine is looked at."""

    athletes: int
    room: str = ""
    like: Session | None = None


@dataclass(frozen=True)
class LookedAt:
    """What was found, and the floor as it would be laid out."""

    findings: tuple[RoutineFinding, ...]
    room: Room | None
    floor: LaidOut | None


def usual_setting(club: Club, routine: Routine | None = None) -> Setting:
    """As the last session that uses the routine; else the whole squad in the first room it fits."""
    like = last_session_of(club, routine.id) if routine else None
    if like is not None:
        training = sum(person.trains for person in people_today(club, like))
        return Setting(_between(training), like.room, like)
    athletes = _between(len(club.athletes))
    rooms = [Setting(athletes, room.id) for room in club.rooms] or [Setting(athletes)]
    if routine is None:
        return rooms[0]
    return min(rooms, key=lambda setting: _room_troubles(club, routine, setting))


def last_session_of(club: Club, routine_id: str) -> Session | None:
    """The last session that uses a routine, of whatever version."""
    using = (s for s in club.sessions if s.routine == routine_id)
    return max(using, key=lambda s: (s.held_on, s.starts_at), default=None)


def _between(athletes: int) -> int:
    return min(athletes, MOST_ATHLETES) or USUAL_ATHLETES


def _room_troubles(club: Club, routine: Routine, setting: Setting) -> int:
    found = look_at(club, routine, setting).findings
    return sum(f.rule in ROOM_RULES and f.severity is not Severity.NOTE for f in found)


def look_at(club: Club, routine: Routine, setting: Setting) -> LookedAt:
    """Everything that can be said of a routine; one without exercises says nothing."""
    room = next((r for r in club.rooms if r.id == setting.room), None)
    if not routine.blocks:
        return LookedAt((), room, None)
    trial = Trial(
        routine=routine,
        athletes=setting.athletes,
        level=level_of(routine),
        kit=club.kit,
        session=slot_of(routine.slot_minutes, setting.like),
        room=room,
        body_mass_kg=usual_mass_kg(club.athletes),
    )
    tried = try_routine(trial)
    return LookedAt(check_routine(trial, tried), room, tried.floor)
