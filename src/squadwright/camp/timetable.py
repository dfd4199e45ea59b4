"""The squad's timetable of a camp: what is held day by day, and the rounds usual in each."""

from collections.abc import Iterable
from datetime import date, timedelta

from squadwright.camp.problem import CampSession
from squadwright.camp.week import DatedWork, works_between
from squadwright.formulas.session_load import session_load_foster
from squadwright.model.athlete import Athlete
from squadwright.model.calendar import Work
from squadwright.model.club import Club, Weekday
from squadwright.model.routine import Block
from squadwright.model.session import Session
from squadwright.planning.gates.competing import may_meet_a_partner

STRENGTH = "strength and conditioning"
OF_THE_CAMP = (Work.BARBELL, Work.PLYOMETRIC, Work.CONDITIONING)
STRENGTH_EFFORT, HARD_EFFORT, EASY_EFFORT = 6, 7, 4
"""Effort of work in which none is planned: our estimate, after kirk_2021."""

MINUTES_PER_ROUND = 12
FULL_ROUNDS, OPTIONAL_ROUNDS = 4, 2
NOON, SATURDAY = 12, 5


def held_works(club: Club, first_day: date, days: int) -> tuple[DatedWork, ...]:
    """Everything that is held in some days, in order; lost and cancelled work left out."""
    last_day = first_day + timedelta(days=days - 1)
    return tuple(work for work in works_between(club, first_day, last_day) if work.is_held)


def is_of_camp(club: Club, work: DatedWork) -> bool:
    """Whether the camp sets its rounds; the rest is mat work, fixed by others."""
    if work.work is not Work.NOT_STATED:
        return work.work in OF_THE_CAMP
    return any(slot.id == work.slot and slot.kind.casefold() == STRENGTH for slot in club.week)


def belongs(club: Club, athlete: Athlete, work: DatedWork) -> bool:
    """Whether it is for him, were he not away on that day."""
    if athlete.id in work.athletes:
        return True
    if work.work.is_contact and not may_meet_a_partner(athlete, work.day):
        return False
    away = any(
        trip.athlete == athlete.id and trip.starts_on <= work.day <= trip.ends_on
        for trip in club.travel
    )
    return away and (not work.squads or athlete.squad in work.squads)


def planned_load(club: Club, work: DatedWork) -> float:
    """Planned load [AU]: by the planned effort, else our estimate by its kind."""
    if work.load is not None:
        return work.load
    others = HARD_EFFORT if work.is_hard else EASY_EFFORT
    effort = STRENGTH_EFFORT if is_of_camp(club, work) else others
    return session_load_foster(effort, max(1, work.minutes))


def camp_sessions(
    club: Club, works: Iterable[DatedWork], first_day: date
) -> list[tuple[CampSession, DatedWork]]:
    """What the camp sets the rounds of; its id is a session's own, else slot and day."""
    ours = [work for work in works if is_of_camp(club, work)]
    later = any(not _is_early(work) for work in ours)
    return [
        (_session(club, work, first_day, is_shared=not (later and _is_early(work))), work)
        for work in ours
    ]


def _is_early(work: DatedWork) -> bool:
    """Whether it is before noon on a working day: besides the squad's, which are later."""
    return work.starts_at.hour < NOON and work.day.weekday() < SATURDAY


def _session(club: Club, work: DatedWork, first_day: date, *, is_shared: bool) -> CampSession:
    usual = usual_rounds(club, work)
    load = planned_load(club, work) / usual
    return CampSession(
        id=work.key,
        name=work.name,
        day=(work.day - first_day).days,
        usual_rounds=usual if is_shared else 0,
        most_rounds=usual if is_shared else OPTIONAL_ROUNDS,
        load_per_round=max(load, 1.0),
        is_shared=is_shared,
    )


def usual_rounds(club: Club, work: DatedWork) -> int:
    """Rounds (or sets): those of its session, of the latest one in its slot, else by minutes."""
    session = session_behind(club, work)
    if session is not None:
        return rounds_of_routine(club, session)
    return max(1, min(FULL_ROUNDS, work.minutes // MINUTES_PER_ROUND))


def session_behind(club: Club, work: DatedWork) -> Session | None:
    """The session of a work, or the latest one in its slot; None where there is none."""
    if work.session:
        return club.session(work.session)
    slot = next((slot for slot in club.week if slot.id == work.slot), None)
    if slot is None:
        return None
    there = [s for s in club.sessions if _starts(s) == (slot.day, slot.starts_at)]
    return max(there, key=lambda s: s.held_on, default=None)


def _starts(session: Session) -> tuple[Weekday, object]:
    return list(Weekday)[session.held_on.weekday()], session.starts_at


def rounds_of_routine(club: Club, session: Session) -> int:
    """Rounds of a session's routine, or the most sets of an exercise worked in one round."""
    routine = club.routine(session.routine, session.routine_version)
    return max(_rounds_of(block) for block in routine.blocks)


def _rounds_of(block: Block) -> int:
    if block.rounds > 1:
        return block.rounds
    return max(step.scheme.sets for step in block.steps)
