"""Plans that were made lately, by database and by the club and session they were made for."""

from collections.abc import Mapping
from dataclasses import dataclass, replace

from squadwright.errors import NoSolution, NotFound, OutOfTime
from squadwright.model.club import Club
from squadwright.model.plan import Plan
from squadwright.model.session import OddSquad, Session
from squadwright.planning.dose.problem import ComplexDoseProblem
from squadwright.planning.needed import needed
from squadwright.planning.plan import Timed, make_timed
from squadwright.services.in_mind import InMind
from squadwright.services.learning import taught_club
from squadwright.services.unit_of_work import Keeper

Outcome = tuple[Plan | None, str]


@dataclass(frozen=True)
class Made:
    """A plan with what it was worked out from, else why there is none."""

    timed: Timed | None
    trouble: str = ""

    @property
    def plan(self) -> Plan | None:
        """The plan alone."""
        return self.timed.plan if self.timed else None

    @property
    def doses(self) -> Mapping[tuple[str, str], ComplexDoseProblem]:
        """What each dose was worked out from, by athlete and block."""
        return self.timed.doses if self.timed else {}


_in_mind: InMind[tuple[str, str], tuple[Session, Club], Made] = InMind(
    most_keys=64, most_of_a_key=8
)
_stood: InMind[tuple[str, str], tuple[Session, Club], Made] = InMind(most_keys=16, most_of_a_key=16)
"""Plans that a session had, where those above may be ones that were only thought of."""


def outcome(keeper: Keeper, club: Club, session: Session, *, previous: Plan | None) -> Outcome:
    """The plan of a session, else why there is none; what is in mind is not made again.

    It goes by what the sessions before it have taught.
    """
    made = in_whole(keeper, club, session, previous=previous)
    return made.plan, made.trouble


def in_whole(keeper: Keeper, club: Club, session: Session, *, previous: Plan | None) -> Made:
    """As ``outcome``, with what doses and run sheet were worked out from."""
    part = needed(taught_club(keeper, club, session), session)
    known = _in_mind.find((keeper.shown, session.id), (session, part))
    return _made(keeper, part, session, previous) if known is None else known


def fresh_outcome(
    keeper: Keeper, club: Club, session: Session, *, previous: Plan | None
) -> Outcome:
    """As ``outcome``, made afresh: whoever a change does not touch stays as he was before."""
    part = needed(taught_club(keeper, club, session), session)
    made = _made(keeper, part, session, previous)
    return made.plan, made.trouble


def as_it_stood(keeper: Keeper, club: Club, session: Session) -> Outcome | None:
    """The plan a session had when all was as it is again now; None where it was never so."""
    part = needed(taught_club(keeper, club, session), session)
    for alike in (session, _with_odd(session, OddSquad.ONE_THREE)):
        made = _stood.find((keeper.shown, session.id), _state(alike, part))
        if made is not None and (alike == session or _is_even(made)):
            _in_mind.keep((keeper.shown, session.id), (session, part), made)
            return made.plan, made.trouble
    return None


def remember_it_stood(keeper: Keeper, club: Club, session: Session) -> None:
    """The plan in mind of a session is the one it has: it gets it again when all is as now."""
    part = needed(taught_club(keeper, club, session), session)
    made = _in_mind.find((keeper.shown, session.id), (session, part))
    if made is None or made.plan is None:
        return
    if _is_even(made):
        session = _with_odd(session, OddSquad.ONE_THREE)
    _stood.keep((keeper.shown, session.id), _state(session, part), made)


def _is_even(made: Made) -> bool:
    """Whether so many train that it does not matter how an odd number is divided."""
    return made.plan is not None and len({d.athlete for d in made.plan.doses}) % 2 == 0


def _with_odd(session: Session, odd: OddSquad) -> Session:
    return replace(session, settings=replace(session.settings, odd_squad=odd))


def _state(session: Session, part: Club) -> tuple[Session, Club]:
    """What a plan is made from, whatever the order in which people came to the door."""
    session = replace(session, check_ins=tuple(sorted(session.check_ins, key=lambda c: c.athlete)))
    sessions = tuple(session if s.id == session.id else s for s in part.sessions)
    return session, replace(part, sessions=sessions)


def _made(keeper: Keeper, part: Club, session: Session, previous: Plan | None) -> Made:
    try:
        made = Made(make_timed(part, session, previous=previous))
    except (NoSolution, NotFound, OutOfTime) as error:
        made = Made(None, str(error))
    _in_mind.keep((keeper.shown, session.id), (session, part), made)
    return made
