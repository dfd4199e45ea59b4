"""Use cases of a running session: the plan is pinned at the start, and follows what is changed."""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from datetime import date, datetime
from threading import Lock

from squadwright.errors import NoSolution, NotFound, OutOfTime
from squadwright.model.athlete import Restriction
from squadwright.model.club import Club
from squadwright.model.plan import Plan
from squadwright.model.record import EventKind, RecordEvent, in_force
from squadwright.model.session import Session
from squadwright.planning.gates.gate import held_by_all
from squadwright.planning.live.changes import (
    OF_THE_COURSE,
    Change,
    changes_of,
    stopped_by,
    worked_in,
)
from squadwright.planning.live.clock import clock_of
from squadwright.planning.live.course import (
    BarOfBlock,
    Course,
    FormerBars,
    bars_in_order,
    started,
)
from squadwright.planning.needed import needed
from squadwright.planning.plan import Timed
from squadwright.services.club_changes import fingerprint
from squadwright.services.learning import taught_club
from squadwright.services.planning import ShownSession, last_kept_plan, show_session
from squadwright.services.plans_in_mind import in_whole
from squadwright.services.unit_of_work import Keeper, Store

FOLLOWED = OF_THE_COURSE | {EventKind.STARTED, EventKind.TAKEN_BACK}
"""Events after which the course is looked at again."""

ONE_AT_A_TIME = Lock()
"""Held from the writing of such an event to its course: two devices may bring the same start."""


@dataclass(frozen=True)
class Running:
    """A session with the plan it runs by.

    ``course`` is what was pinned and changed, and ``number`` counts it; before the start there is
    none, and the number is 0.
    """

    club: Club
    session: Session
    plan: Plan
    revision: str
    number: int = 0
    course: Course | None = None

    @property
    def told(self) -> tuple[str, ...]:
        """What each change has done, in a sentence."""
        return self.course.told if self.course else ()

    @property
    def bar_order(self) -> tuple[BarOfBlock, ...]:
        """The bars of each block in the order of their numbers."""
        return self.course.bar_order if self.course else bars_in_order(self.plan)

    @property
    def former(self) -> tuple[FormerBars, ...]:
        """Bars with their users as they were before a change."""
        return self.course.former if self.course else ()


def running(keeper: Keeper, session_id: str, *, today: date) -> Running:
    """The session as it runs, or as it would be started now; NotFound where it has no plan."""
    with keeper.reading() as store:
        club = store.load_club()
        if club is not None:
            session = club.session(session_id)
            number, start, revision = store.last_course(session_id)
            if number and _pinned_since(store, session_id, start):
                course = store.courses_of(session_id, start)[-1]
                return Running(club, session, course.plan, revision, number, course)
    shown = show_session(keeper, session_id, today=today)
    if not isinstance(shown, ShownSession):
        raise NotFound("There is no club yet, so there is no session to run")
    if shown.plan is None:
        raise NotFound(f"{shown.session.name} has no plan to run: {shown.trouble}")
    return Running(shown.club, shown.session, shown.plan, revision_of(shown.plan))


def held_in(run: Running, athlete_id: str) -> tuple[Restriction, ...]:
    """All that holds for an athlete in a running session: as written, and by medical entries."""
    return held_by_all(run.club, run.club.athlete(athlete_id), run.session)


@dataclass(frozen=True)
class Pinned:
    """A session whose sheet is kept as it was at the start: since when, and whether it is over."""

    since: datetime
    is_ended: bool


def pinned(keeper: Keeper, session_id: str) -> Pinned | None:
    """How a session stands that was started; None where it was not, or its sheet is not kept."""
    with keeper.reading() as store:
        number, start, _ = store.last_course(session_id)
        return _pinned_since(store, session_id, start) if number else None


def _pinned_since(store: Store, session_id: str, start: str) -> Pinned | None:
    """How a session stands that was pinned at this start; None where it runs by it no more."""
    clock = clock_of(store.events_of(session_id, after=0)[0])
    if clock.start is None or clock.start.id != start:
        return None
    return Pinned(clock.start.at, clock.is_ended)


def revision_of(plan: Plan, told: Sequence[str] = ()) -> str:
    """A mark of what a device runs; another one, and the device takes the sheet afresh."""
    shown = (plan.run_sheet, plan.doses, plan.bars)
    return fingerprint((*shown, *told) if told else shown)


def present_revision(keeper: Keeper, session_id: str) -> str:
    """The mark of the last course of a session; empty before its first start."""
    with keeper.reading() as store:
        return store.last_course(session_id)[2]


def moves_the_sheet(brought: Iterable[RecordEvent]) -> bool:
    """Whether the course is to be looked at again after these events."""
    return any(event.kind in FOLLOWED for event in brought)


def follow(keeper: Keeper, session_id: str, events: Iterable[RecordEvent]) -> None:
    """Pin the plan where the session was started, and work in what was changed since.

    ``events`` is the whole record; who calls holds ``ONE_AT_A_TIME`` since before he read it.
    What was taken back is left out again. A session whose plan cannot be made stays unpinned.
    """
    record = in_force(events)
    start = clock_of(record).start
    if start is None:
        return
    with keeper.reading() as store:
        club = store.load_club()
        if club is None:
            return
        known = store.courses_of(session_id, start.id)
        kept = last_kept_plan(store, session_id)
    session = club.session(session_id)
    try:
        part = needed(taught_club(keeper, club, session), session)
        found = _followed(
            part, session, record, known, lambda: _as_shown(keeper, club, session, kept)
        )
    except (NoSolution, NotFound, OutOfTime):
        return
    if not found:
        return
    with keeper.writing() as store:
        if not known:
            store.save_plan(found[0].plan)
        for course in found:
            store.add_course(session_id, start.id, course, revision_of(course.plan, course.told))


def _followed(
    club: Club,
    session: Session,
    record: Sequence[RecordEvent],
    known: Sequence[Course],
    as_shown: Callable[[], Timed],
) -> list[Course]:
    """The courses to be added to those known, so that the last one follows the whole record."""
    changes = changes_of(record)
    wanted = tuple(change.event.id for change in changes)
    if known and known[-1].changes == wanted:
        return []
    added: list[Course] = []
    fitting = [course for course in known if course.changes == wanted[: len(course.changes)]]
    course = max(fitting, key=lambda each: len(each.changes)) if fitting else started(as_shown())
    if course is not (known[-1] if known else None):
        added.append(course)
    for number in range(len(course.changes) + 1, len(changes) + 1):
        course = _next(course, club, session, record, changes[:number])
        added.append(course)
    return added


def _as_shown(keeper: Keeper, club: Club, session: Session, kept: Plan | None) -> Timed:
    """The plan the coach has seen: another one may be as good, and have other plates."""
    made = in_whole(keeper, club, session, previous=kept)
    if made.timed is None:
        raise NotFound(f"{session.name} has no plan to run: {made.trouble}")
    return made.timed


def _next(
    course: Course,
    club: Club,
    session: Session,
    record: Sequence[RecordEvent],
    changes: Sequence[Change],
) -> Course:
    return worked_in(course, club, session, changes, stopped_by(record, changes[-1].event))
