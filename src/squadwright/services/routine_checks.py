"""Use case: look at a routine before anyone does it, in the club's own store and rooms."""

from dataclasses import dataclass

from squadwright.model.club import Club
from squadwright.model.room import Room
from squadwright.model.routine import Routine
from squadwright.model.session import Session
from squadwright.planning.floor_plan import LaidOut
from squadwright.planning.routine_check import (
    RoutineFinding,
    Trial,
    Tried,
    check_routine,
    try_routine,
)
from squadwright.planning.routine_check.dose import level_of
from squadwright.planning.routine_check.trial import MOST_ATHLETES, slot_of, usual_mass_kg

USUAL_ATHLETES = 12


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


def usual_setting(club: Club, routine_id: str = "") -> Setting:
    """As the last session that uses the routine; else the whole squad in the first room."""
    using = [s for s in club.sessions if s.routine == routine_id]
    like = max(using, key=lambda s: (s.held_on, s.starts_at), default=None)
    expected = len(like.athletes) if like else len(club.athletes)
    room = like.room if like else club.rooms[0].id if club.rooms else ""
    return Setting(min(expected, MOST_ATHLETES) or USUAL_ATHLETES, room, like)


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
    tried: Tried = try_routine(trial)
    return LookedAt(check_routine(trial, tried), room, tried.floor)
