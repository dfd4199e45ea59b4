"""Query: rounds each athlete did in the week before a camp, from the record of its sessions."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import UTC, date, datetime, time, timedelta

from squadwright.camp.problem import DAYS_IN_A_WEEK, CampSession, RoundsBefore
from squadwright.camp.timetable import belongs, camp_sessions, held_works
from squadwright.camp.week import DatedWork
from squadwright.model.club import Club
from squadwright.planning.by_hand import rounds_of_dose
from squadwright.planning.live.done import AthleteDone
from squadwright.services.done import SessionDone, session_done
from squadwright.services.in_mind import InMind
from squadwright.services.unit_of_work import Keeper

WEEK = timedelta(days=DAYS_IN_A_WEEK)
Marks = tuple[tuple[str, tuple[int, int]], ...]

_in_mind: InMind[tuple[str, str], tuple[Club, Marks], dict[str, RoundsBefore]] = InMind(
    most_keys=8, most_of_a_key=3
)


@dataclass(frozen=True)
class _Held:
    """A session of the week before, with what is on record of it or None."""

    session: CampSession
    work: DatedWork
    done: Mapping[str, int] | None


def rounds_before(
    keeper: Keeper, club: Club, first_day: date, *, today: date
) -> dict[str, RoundsBefore]:
    """By athlete, what he did in the seven days before a camp.

    Nobody of whom no session is on record then is named: missing is not rest. A session of the
    same week that is not on record counts with its usual rounds, and is counted as assumed.
    """
    week = camp_sessions(club, held_works(club, first_day - WEEK, DAYS_IN_A_WEEK), first_day - WEEK)
    with keeper.reading() as store:
        marks = store.record_marks()
    on_record = tuple((w.session, marks[w.session]) for _, w in week if w.session in marks)
    if not on_record:
        return {}
    key = (keeper.shown, first_day.isoformat())
    known = _in_mind.find(key, (club, on_record))
    if known is None:
        known = _worked_out(keeper, club, week, {name for name, _ in on_record}, today)
        _in_mind.keep(key, (club, on_record), known)
    return known


def _worked_out(
    keeper: Keeper,
    club: Club,
    week: list[tuple[CampSession, DatedWork]],
    on_record: set[str],
    today: date,
) -> dict[str, RoundsBefore]:
    held = [
        _Held(
            session,
            work,
            _rounds_done(keeper, work, today) if work.session in on_record else None,
        )
        for session, work in week
    ]
    found = {}
    for athlete in club.athletes:
        mine = [each for each in held if belongs(club, athlete, each.work)]
        recorded = [each for each in mine if each.done is not None]
        if not recorded:
            continue
        assumed = [each for each in mine if each.done is None and each.session.usual_rounds]
        rounds = sum(each.session.usual_rounds for each in assumed)
        rounds += sum(each.done.get(athlete.id, 0) for each in recorded if each.done)
        found[athlete.id] = RoundsBefore(rounds, len(recorded), len(assumed))
    return found


def _rounds_done(keeper: Keeper, work: DatedWork, today: date) -> dict[str, int] | None:
    """Rounds by athlete; None where the clock was not run, or the plan is not kept."""
    later = datetime.combine(work.day + timedelta(days=2), time(), UTC)
    found = session_done(keeper, work.session, today=today, now=later)
    if not found.is_started or found.plan is None:
        return None
    return {row.athlete: _of_one(found, row) for row in found.rows}


def _of_one(found: SessionDone, row: AthleteDone) -> int:
    """His share of what was planned for him, in rounds as a camp counts them; part of a round is
    none.
    """
    assert found.plan is not None
    planned = row.planned_rounds + row.planned_sets
    doses = [dose for dose in found.plan.doses if dose.athlete == row.athlete]
    most = max((rounds_of_dose(dose) for dose in doses), default=0)
    done = min(row.rounds_done, row.planned_rounds) + min(row.sets_done, row.planned_sets)
    return most * done // planned if planned else 0
