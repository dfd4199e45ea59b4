"""Use cases of two events close together: what is between them, and which one he peaks for."""

from dataclasses import dataclass, replace
from datetime import date

from squadwright.errors import NotFound
from squadwright.model.athlete import Athlete, Event
from squadwright.model.club import Club
from squadwright.model.session import Session
from squadwright.planning.attendance import people_today
from squadwright.planning.close_events import Peak, Rounds, close_pairs, rounds_left
from squadwright.planning.done_before import ENOUGH_SESSIONS, done_before
from squadwright.services.club_changes import Changed, change_club
from squadwright.services.clubs import load_club
from squadwright.services.unit_of_work import Keeper


@dataclass(frozen=True)
class SessionBetween:
    """A session between two events: rounds left of its blocks, and what would be new to him."""

    session: Session
    rounds: tuple[tuple[str, Rounds], ...]
    new: tuple[str, ...]


@dataclass(frozen=True)
class CloseEvents:
    """Two events of an athlete, and the sessions he is expected in until the second."""

    club: Club
    athlete: Athlete
    name: str
    first: Event
    second: Event
    sessions: tuple[SessionBetween, ...]


def close_events(keeper: Keeper, athlete_id: str, first_id: str) -> CloseEvents:
    """Two events that are close, by the id of the first; NotFound where they are not."""
    club = load_club(keeper)
    athlete = club.athlete(athlete_id)
    first, second = _pair(athlete, first_id)
    between = sorted(
        (
            session
            for session in club.sessions
            if athlete_id in session.athletes
            and first.starts_on <= session.held_on <= second.starts_on
        ),
        key=lambda session: (session.held_on, session.starts_at),
    )
    return CloseEvents(
        club,
        athlete,
        club.shown_names()[athlete_id],
        first,
        second,
        tuple(_session(club, session, athlete_id) for session in between),
    )


def choose_peak(
    keeper: Keeper, athlete_id: str, first_id: str, peak: Peak, *, today: date
) -> Changed:
    """Say which of two close events he peaks for: A that one, B the other."""

    def change(club: Club) -> Club:
        athlete = club.athlete(athlete_id)
        first, second = _pair(athlete, first_id)
        wanted = dict(zip((first.id, second.id), peak.priorities(), strict=True))
        events = tuple(replace(e, priority=wanted.get(e.id, e.priority)) for e in athlete.events)
        return replace(
            club,
            athletes=tuple(
                replace(a, events=events) if a.id == athlete_id else a for a in club.athletes
            ),
        )

    return change_club(keeper, change, today=today)


def _pair(athlete: Athlete, first_id: str) -> tuple[Event, Event]:
    for first, second in close_pairs(athlete.events):
        if first.id == first_id:
            return first, second
    raise NotFound(f"No event of {athlete.name} follows {first_id!r} within 8 days")


def _session(club: Club, session: Session, athlete: str) -> SessionBetween:
    routine = club.routine(session.routine, session.routine_version)
    count, done = done_before(club, session, athlete)
    steps = {step.exercise for block in routine.blocks for step in block.steps}
    person = next(p for p in people_today(club, session) if p.id == athlete)
    is_known = count >= ENOUGH_SESSIONS and person.trains
    return SessionBetween(
        session,
        tuple(
            (block.name, rounds_left(block.rounds)) for block in routine.blocks if block.rounds > 1
        ),
        tuple(sorted(steps - done)) if is_known else (),
    )
