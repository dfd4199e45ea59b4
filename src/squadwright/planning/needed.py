"""What of a club a plan is made from: whatever else changes leaves the plan as it is."""

from dataclasses import replace

from squadwright.learning.lesson import lessons_of, taught
from squadwright.model.athlete import Athlete
from squadwright.model.club import Club
from squadwright.model.medical import NOTHING_WRITTEN
from squadwright.model.session import Session


def needed(club: Club, session: Session) -> Club:
    """The club with only what the plan of a session can depend on.

    Kept are the store, the week with its changed and lost dates, the rooms and routines it names,
    whoever is expected, the names of everybody (two alike are told apart), and the sessions up to
    it (landings of the days before). The plan of this club is the plan of the whole one.
    """
    expected = set(session.athletes)
    sessions = tuple(
        other for other in club.sessions if other.id == session.id or other.is_before(session)
    )
    named = {(s.routine, s.routine_version) for s in (*sessions, session)}
    rooms: set[str | None] = {session.room}
    if session.floor_today is not None:
        rooms.add(session.floor_today.room)
    part = Club(
        name=club.name,
        athletes=tuple(a if a.id in expected else _name_only(a) for a in club.athletes),
        kit=club.kit,
        rooms=tuple(room for room in club.rooms if room.id in rooms),
        week=club.week,
        slot_changes=club.slot_changes,
        closures=club.closures,
        routines=tuple(r for r in club.routines if (r.id, r.version) in named),
        sessions=sessions,
        gate_limits=club.gate_limits,
    )
    return taught(part, (each for each in lessons_of(club) if each.athlete in expected))


def _name_only(athlete: Athlete) -> Athlete:
    return replace(
        athlete,
        squad="",
        weight_class="",
        training_age_years=0.0,
        stature_m=None,
        tests=(),
        jump_tests=(),
        body_mass=(),
        events=(),
        weight_plans=(),
        restrictions=(),
        clearances=(),
        guardian=None,
        consents=(),
        medical=NOTHING_WRITTEN,
        note="",
        guest_until=None,
    )
