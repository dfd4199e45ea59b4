"""Plans that were made lately, by database and by the club and session they were made for."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from squadwright.errors import NoSolution, NotFound, OutOfTime
from squadwright.model.club import Club
from squadwright.model.plan import Plan
from squadwright.model.session import Session
from squadwright.planning.dose.problem import ComplexDoseProblem
from squadwright.planning.needed import needed
from squadwright.planning.plan import make_timed
from squadwright.services.in_mind import InMind
from squadwright.services.learning import taught_club
from squadwright.services.unit_of_work import Keeper

Outcome = tuple[Plan | None, str]


@dataclass(frozen=True)
class Made:
    """A plan, else why there is none, and what each dose was worked out from."""

    plan: Plan | None
    trouble: str = ""
    doses: Mapping[tuple[str, str], ComplexDoseProblem] = field(default_factory=dict)


_in_mind: InMind[tuple[str, str], tuple[Session, Club], Made] = InMind(
    most_keys=64, most_of_a_key=8
)


def outcome(keeper: Keeper, club: Club, session: Session, *, previous: Plan | None) -> Outcome:
    """The plan of a session, else why there is none; what is in mind is not made again.

    It goes by what the sessions before it have taught.
    """
    made = with_doses(keeper, club, session, previous=previous)
    return made.plan, made.trouble


def with_doses(keeper: Keeper, club: Club, session: Session, *, previous: Plan | None) -> Made:
    """As ``outcome``, with what each dose was worked out from, by athlete and block."""
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


def _made(keeper: Keeper, part: Club, session: Session, previous: Plan | None) -> Made:
    try:
        timed = make_timed(part, session, previous=previous)
        made = Made(timed.plan, doses=timed.doses)
    except (NoSolution, NotFound, OutOfTime) as error:
        made = Made(None, str(error))
    _in_mind.keep((keeper.shown, session.id), (session, part), made)
    return made
