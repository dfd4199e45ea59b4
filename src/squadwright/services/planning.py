"""Use cases of planning: choose a session, plan it, keep the plan."""

from dataclasses import dataclass
from datetime import date

from squadwright.errors import NotFound
from squadwright.model.club import Club
from squadwright.model.plan import Plan
from squadwright.model.session import Session
from squadwright.planning.plan import make_plan
from squadwright.services.clubs import load_club
from squadwright.services.learning import taught_club
from squadwright.services.plans_in_mind import outcome
from squadwright.services.unit_of_work import Keeper, Store


@dataclass(frozen=True)
class Planned:
    """A plan with the club it was made for."""

    club: Club
    plan: Plan


def choose_session(club: Club, session_id: str | None, *, today: date) -> Session:
    """The session named, else today's, else the next one, else the last one."""
    if session_id is not None:
        return club.session(session_id)
    in_order = sorted(club.sessions, key=lambda s: (s.held_on, s.starts_at))
    if not in_order:
        raise NotFound(f"{club.name} has no session. Add one under sessions in the club file")
    coming = [s for s in in_order if s.held_on >= today]
    return coming[0] if coming else in_order[-1]


def plan_session(keeper: Keeper, session_id: str | None, *, today: date) -> Planned:
    """Plan a session of the stored club and keep the plan."""
    club = load_club(keeper)
    session = choose_session(club, session_id, today=today)
    plan = make_plan(taught_club(keeper, club, session), session)
    with keeper.writing() as store:
        store.save_plan(plan)
    return Planned(club, plan)


@dataclass(frozen=True)
class NothingAhead:
    """A club whose sessions are all over; ``last`` is the latest of them."""

    club: Club
    last: Session


def nothing_ahead(keeper: Keeper, *, today: date) -> NothingAhead | None:
    """The club where no session is on today or later; None where one is, or there never was."""
    with keeper.reading() as store:
        club = store.load_club()
    if club is None or not club.sessions:
        return None
    last = choose_session(club, None, today=today)
    return NothingAhead(club, last) if last.held_on < today else None


@dataclass(frozen=True)
class ShownSession:
    """A session as it would be planned now; ``trouble`` says why there is no plan."""

    club: Club
    session: Session
    plan: Plan | None
    trouble: str = ""


def show_session(
    keeper: Keeper, session_id: str | None, *, today: date
) -> ShownSession | Club | None:
    """The session named, else today's, else the next one, with its plan; nothing is stored.

    A club without any session gives the club, a database without a club gives None.
    """
    with keeper.reading() as store:
        club = store.load_club()
        if club is None or (session_id is None and not club.sessions):
            return club
        session = choose_session(club, session_id, today=today)
        kept = last_kept_plan(store, session.id)
    club = taught_club(keeper, club, session)
    plan, trouble = outcome(keeper, club, session, previous=kept)
    return ShownSession(club, session, plan, trouble)


def last_kept_plan(store: Store, session_id: str) -> Plan | None:
    """The plan of a session that was kept last, or None."""
    try:
        return store.load_plan(session_id)
    except NotFound:
        return None
