"""Use case: write a camp's rounds into a session as the coach's word, with the reason."""

from dataclasses import dataclass, replace
from datetime import date

from squadwright.camp.reasons import reason_in
from squadwright.errors import InvalidInput
from squadwright.model.club import Club
from squadwright.model.plan import Plan
from squadwright.model.session import Override, Session
from squadwright.planning.block_plan import override_of
from squadwright.planning.by_hand import by_hand
from squadwright.services.camp import CampView, camp_view
from squadwright.services.clubs import load_club
from squadwright.services.plans_in_mind import outcome
from squadwright.services.session_changes import Replanned, change_session
from squadwright.services.unit_of_work import Keeper

MARK = "camp plan"
"""Reasons of words that came from here begin so; only they are written over."""


@dataclass(frozen=True)
class Word:
    """Rounds of one athlete in a session that differ from its plan, and why."""

    athlete: str
    name: str
    rounds: int
    instead_of: int
    reason: str

    @property
    def is_fewer(self) -> bool:
        """Whether it takes rounds off: only such a word is written."""
        return self.rounds < self.instead_of


@dataclass(frozen=True)
class Offer:
    """A session of the club within the camp: what taking over changes in it, and where the camp
    has more rounds than the session gives, which only the coach's own hand raises.
    """

    session: Session
    words: tuple[Word, ...]
    more: tuple[Word, ...]


def offers(keeper: Keeper, view: CampView, *, today: date) -> tuple[Offer, ...]:
    """Sessions from today on that the camp speaks of, in order."""
    club = view.club
    ahead = [s for s in club.sessions if s.held_on >= today and _place(view, s) is not None]
    ahead.sort(key=lambda s: (s.held_on, s.starts_at, s.id))
    return tuple(_offer(keeper, view, session) for session in ahead)


def take_over(keeper: Keeper, session_id: str, *, today: date) -> Replanned:
    """Write the rounds of the camp as personal overrides into one session, and plan it anew.

    Only fewer rounds are written: what holds somebody below the camp may be a gate. A word the
    coach has given himself stays. InvalidInput where there is nothing to write.
    """
    view = camp_view(keeper, today=today)
    session = load_club(keeper).session(session_id)
    if session.held_on < today:
        raise InvalidInput(
            "session", f"{session.name} was on {session.held_on}", "Choose one still to come"
        )
    words = _offer(keeper, view, session).words
    if not words:
        raise InvalidInput(
            "session",
            f"the camp changes nothing in {session.name} on {session.held_on}",
            "It is as the camp has it, or holds your own words",
        )

    def change(club: Club, session: Session) -> Session:
        mine = {word.athlete: word for word in words}
        kept = tuple(o for o in session.overrides if not (o.athlete in mine and not o.block))
        new = tuple(
            replace(
                _own(session, word.athlete) or Override(word.athlete, word.reason),
                reason=word.reason,
                rounds=word.rounds,
            )
            for word in words
        )
        return replace(session, overrides=(*kept, *new))

    def said(club: Club, session: Session) -> str:
        return f"Rounds of {len(words)} from the camp are in {session.name}."

    who = tuple(word.athlete for word in words)
    return change_session(keeper, session_id, change, today=today, said=said, athletes=who)


def _place(view: CampView, session: Session) -> int | None:
    """The session's place in the camp."""
    if view.solution is None:
        return None
    return next((n for n, s in enumerate(view.problem.sessions) if s.id == session.id), None)


def _offer(keeper: Keeper, view: CampView, session: Session) -> Offer:
    found = _words(keeper, view, session)
    fewer = tuple(word for word in found if word.is_fewer)
    return Offer(session, fewer, tuple(word for word in found if not word.is_fewer))


def _words(keeper: Keeper, view: CampView, session: Session) -> list[Word]:
    """Everybody whose rounds in the plan of a session are not those of the camp."""
    place, solution = _place(view, session), view.solution
    plan, _ = outcome(keeper, view.club, session, previous=None)
    if place is None or solution is None or plan is None:
        return []
    found = []
    for number, athlete in enumerate(view.problem.athletes):
        rounds = solution.rounds[number][place]
        now = _rounds_in(view.club, session, plan, athlete.id)
        if not rounds or now is None or rounds == now or _is_coachs(session, athlete.id):
            continue
        reason = reason_in(view.problem, athlete, solution.rounds[number], place)
        found.append(Word(athlete.id, athlete.name, rounds, now, reason or MARK))
    return found


def _rounds_in(club: Club, session: Session, plan: Plan, athlete: str) -> int | None:
    """His rounds (or sets) in the plan of a session; None where he does nothing."""
    stands = [
        by_hand(club, session, plan, athlete, dose.block)
        for dose in plan.doses
        if dose.athlete == athlete
    ]
    return max((each.rounds for each in stands if each is not None), default=None)


def _own(session: Session, athlete: str) -> Override | None:
    return next((o for o in session.overrides if o.athlete == athlete and not o.block), None)


def _is_coachs(session: Session, athlete: str) -> bool:
    """Whether the coach has given his own word on somebody's rounds."""
    word = override_of(session, athlete)
    own = [o for o in session.overrides if o.athlete == athlete and o.rounds is not None]
    return any(not o.reason.startswith(MARK) for o in own) or (
        word is not None and word.rounds is not None and not word.reason.startswith(MARK)
    )
