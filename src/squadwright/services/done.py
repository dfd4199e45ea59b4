"""Use case: what was done in a session, from the plan it ran by and the record."""

from dataclasses import dataclass
from datetime import date, datetime

from squadwright.errors import NotFound
from squadwright.exchange.record_out import RecordFile, RecordHead
from squadwright.model.club import Club
from squadwright.model.plan import Plan
from squadwright.model.record import EventKind, RecordEvent, in_force, in_order
from squadwright.model.session import Session
from squadwright.planning.live.clock import clock_of
from squadwright.planning.live.done import AthleteDone, done
from squadwright.planning.live.review import Review, draft_review
from squadwright.services.clubs import load_club
from squadwright.services.planning import choose_session
from squadwright.services.record import record_of
from squadwright.services.running import running
from squadwright.services.unit_of_work import Keeper


@dataclass(frozen=True)
class SessionDone:
    """What was done in a session.

    ``plan`` is None where it cannot be planned, and ``trouble`` says why. ``events`` is the whole
    record in order, what was taken back included; ``held`` what is left of it.
    """

    club: Club
    session: Session
    plan: Plan | None
    trouble: str
    events: tuple[RecordEvent, ...]
    held: tuple[RecordEvent, ...]
    rows: tuple[AthleteDone, ...]
    is_started: bool
    is_ended: bool

    @property
    def people(self) -> tuple[str, ...]:
        """Ids of those who are asked how hard it was: who did a dose, else who was expected."""
        came = tuple(row.athlete for row in self.rows if row.was_there)
        return came if self.plan else self.session.athletes

    def shown_name(self, athlete_id: str) -> str:
        """The name that nobody else has, as the club has it, else the plan; else the id."""
        known = self.club.shown_names().get(athlete_id, "")
        return known or (self.plan.shown_name(athlete_id) if self.plan else athlete_id)

    def value_of(self, kind: EventKind, athlete_id: str) -> float | None:
        """The last value noted of an athlete, or None."""
        values = [e.value for e in self.held if e.kind is kind and e.athlete == athlete_id]
        return values[-1] if values else None

    @property
    def not_asked(self) -> tuple[str, ...]:
        """Ids of those of whom no effort is noted."""
        return tuple(a for a in self.people if self.value_of(EventKind.EFFORT, a) is None)

    @property
    def state(self) -> str:
        """How the session went, in a sentence."""
        if not self.is_started:
            return "Not run by the clock: rounds are not noted."
        if not self.is_ended:
            return "The clock has not been ended: this is how it stands now."
        came = [row for row in self.rows if row.was_there]
        whole = sum(row.is_all_done for row in came)
        away = len(self.rows) - len(came)
        gone = f" {away} {'was' if away == 1 else 'were'} not there." if away else ""
        return f"{whole} of {len(came)} did everything that was planned.{gone}"

    @property
    def review(self) -> Review | None:
        """The review as the coach accepted it, or None."""
        kept = [event.words for event in self.held if event.kind is EventKind.REVIEW]
        return Review.of_words(kept[-1]) if kept else None

    @property
    def draft(self) -> Review:
        """The review as it is worked out from the record."""
        names = {row.athlete: self.shown_name(row.athlete) for row in self.rows}
        incidents = sum(event.kind is EventKind.INCIDENT for event in self.held)
        return draft_review(self.rows, names, is_started=self.is_started, incidents=incidents)


def session_done(
    keeper: Keeper, session_id: str | None, *, today: date, now: datetime
) -> SessionDone:
    """What was done in a session, or in today's where none is named; NotFound without one."""
    club, session, plan, trouble = _as_run(keeper, session_id, today)
    events = in_order(record_of(keeper, session.id))
    clock = clock_of(events)
    return SessionDone(
        club=club,
        session=session,
        plan=plan,
        trouble=trouble,
        events=events,
        held=in_force(events),
        rows=done(plan, events, now=now, stop_after=session.settings.stop_after_faults)
        if plan
        else (),
        is_started=clock.is_started,
        is_ended=clock.is_ended,
    )


def record_file(found: SessionDone) -> RecordFile:
    """The whole record of a session, to be written into a file."""
    session = found.session
    held = {event.id for event in found.held}
    return RecordFile(
        session=RecordHead(
            session.id,
            session.name,
            found.club.name,
            session.held_on,
            session.starts_at,
            session.minutes,
        ),
        events=found.events,
        taken_back=tuple(e.id for e in found.events if e.id not in held and not e.takes_back),
        done=found.rows if found.is_started else (),
    )


def recorded_sessions(keeper: Keeper) -> frozenset[str]:
    """Ids of the sessions of which anything is noted."""
    with keeper.reading() as store:
        return store.recorded_sessions()


def _as_run(
    keeper: Keeper, session_id: str | None, today: date
) -> tuple[Club, Session, Plan | None, str]:
    """The plan a session ran by, or runs by; without one, why there is none."""
    club = load_club(keeper)
    session = choose_session(club, session_id, today=today)
    try:
        found = running(keeper, session.id, today=today)
    except NotFound as trouble:
        return club, session, None, str(trouble)
    return found.club, found.session, found.plan, ""
