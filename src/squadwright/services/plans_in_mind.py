"""Plans that were made lately, by database and by the club and session they were made for."""

from collections.abc import Mapping
from dataclasses import dataclass

from squadwright.errors import NoSolution, NotFound, OutOfTime
from squadwright.model.club import Club
from squadwright.model.plan import Plan
from squadwright.model.session import Session
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


def _made(keeper: Keeper, part: Club, session: Session, previous: Plan | None) -> Made:
    try:
        made = Made(make_timed(part, session, previous=previous))
    except (NoSolution, NotFound, OutOfTime) as error:
        made = Made(None, str(error))
    _in_mind.keep((keeper.shown, session.id), (session, part), made)
    return made
