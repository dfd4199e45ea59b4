"""A change to a session, and its plan at once: stored, planned anew, told in one line."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from datetime import date

from squadwright.model.club import Club
from squadwright.model.plan import Plan
from squadwright.model.session import CheckIn, Presence, Session
from squadwright.planning.restriction_words import pain_words
from squadwright.services.club_changes import change_club
from squadwright.services.club_changes import take_back as take_step_back
from squadwright.services.clubs import load_club
from squadwright.services.plan_changes import changes
from squadwright.services.planning import last_kept_plan
from squadwright.services.plans_in_mind import (
    as_it_stood,
    fresh_outcome,
    outcome,
    remember_it_stood,
)
from squadwright.services.unit_of_work import Keeper


@dataclass(frozen=True)
class Replanned:
    """What a change did, in one line, and the name of the step that takes it back.

    ``former`` and ``plan`` are the plan of the session before and after, where there is one.
    """

    words: str
    step: str
    former: Plan | None = None
    plan: Plan | None = None


def change_session(
    keeper: Keeper,
    session_id: str,
    change: Callable[[Club, Session], Session],
    *,
    today: date,
    said: Callable[[Club, Session], str],
    athletes: Sequence[str] = (),
    then: Callable[[Plan], str] = lambda _plan: "",
    recalls: bool = False,
) -> Replanned:
    """Change one session and plan it anew; whoever the change does not touch keeps his place.

    Parameters
    ----------
    change : gives the changed session; may raise InvalidInput, Conflict or NotFound.
    said : what was done, in words, by the club and the session as they are stored now.
    athletes : those the change is about: the line names them first.
    then : what is to be said about the plan that came out.
    recalls : whether a plan that was made for the session as it is now may be taken again.
    """

    def on_club(club: Club) -> Club:
        session = club.session(session_id)
        return with_session(club, change(club, session))

    before = _standing(keeper, session_id)
    done = change_club(keeper, on_club, today=today)
    telling = _Telling(said, tuple(athletes), then)
    return _planned(keeper, before, done.club, session_id, done.step, telling, recalls=recalls)


def change_and_plan(
    keeper: Keeper,
    session_id: str,
    change: Callable[[Club], Club],
    *,
    today: date,
    said: Callable[[Club, Session], str],
    athletes: Sequence[str] = (),
) -> Replanned:
    """As ``change_session``, for a change that touches more of the club than its session."""
    before = _standing(keeper, session_id)
    done = change_club(keeper, change, today=today)
    return _planned(
        keeper, before, done.club, session_id, done.step, _Telling(said, tuple(athletes))
    )


def take_back(keeper: Keeper, session_id: str, step: str, *, today: date) -> Replanned:
    """Put back what stood before a step, and plan the session anew."""
    before = _standing(keeper, session_id)
    done = take_step_back(keeper, step, today=today)
    after = done.club.session(session_id)

    def said(club: Club, session: Session) -> str:
        names = club.shown_names()
        at_the_door = sorted({c.athlete for c in {*before.session.check_ins} ^ {*after.check_ins}})
        told = [f"{names[a]} {state_words(check_in_of(session, a))}." for a in at_the_door]
        return " ".join(told) or "Taken back."

    who = _touched(before.session, after)
    telling = _Telling(said, who)
    return _planned(keeper, before, done.club, session_id, done.step, telling, recalls=True)


def check_in_of(session: Session, athlete: str) -> CheckIn:
    """What stands about an athlete at the door; nothing noted means that he is here."""
    return next((c for c in session.check_ins if c.athlete == athlete), CheckIn(athlete))


def state_words(now: CheckIn) -> str:
    """A check-in in words: "is 12 minutes late, left knee pain 4 of 10"."""
    presence = {
        Presence.PRESENT: "is here",
        Presence.ABSENT: "is absent",
        Presence.LATE: f"is {now.late_minutes} {'minute' if now.late_minutes == 1 else 'minutes'}"
        " late",
    }[now.presence]
    return ", ".join([presence, *map(pain_words, now.pains)])


def with_session(club: Club, session: Session) -> Club:
    """The club with a session in place of the one with its id."""
    return replace(
        club, sessions=tuple(session if s.id == session.id else s for s in club.sessions)
    )


@dataclass(frozen=True)
class _Telling:
    """What the line says besides what changed in the plan."""

    said: Callable[[Club, Session], str]
    athletes: tuple[str, ...]
    then: Callable[[Plan], str] = lambda _plan: ""


@dataclass(frozen=True)
class _Standing:
    """What stood before a change."""

    club: Club
    session: Session


def _standing(keeper: Keeper, session_id: str) -> _Standing:
    club = load_club(keeper)
    return _Standing(club, club.session(session_id))


def _planned(
    keeper: Keeper,
    before: _Standing,
    club: Club,
    session_id: str,
    step: str,
    telling: _Telling,
    *,
    recalls: bool = False,
) -> Replanned:
    with keeper.reading() as store:
        kept = last_kept_plan(store, session_id)
    session = club.session(session_id)
    former, _ = outcome(keeper, before.club, before.session, previous=kept)
    remember_it_stood(keeper, before.club, before.session)
    make = outcome if recalls else fresh_outcome
    plan, trouble = as_it_stood(keeper, club, session) or make(
        keeper, club, session, previous=former or kept
    )
    if plan is None:
        done = f"There is no plan now: {trouble.rstrip('.')}."
    else:
        with keeper.writing() as store:
            store.save_plan(plan)
        done = " ".join(
            filter(None, (telling.then(plan), changes(former, plan, *telling.athletes)))
        )
    return Replanned(f"{telling.said(club, session)} {done}", step, former, plan)


def _touched(before: Session, after: Session) -> tuple[str, ...]:
    """Whose check-in or whose word by the coach differs."""
    differing = set(before.check_ins) ^ set(after.check_ins)
    names = [c.athlete for c in differing]
    names += [o.athlete for o in set(before.overrides) ^ set(after.overrides)]
    return tuple(a for a in after.athletes if a in names)
