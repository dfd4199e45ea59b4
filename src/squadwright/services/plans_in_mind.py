"""Plans that were made lately, by database and by the club and session they were made for."""

from squadwright.errors import NoSolution, NotFound, OutOfTime
from squadwright.model.club import Club
from squadwright.model.plan import Plan
from squadwright.model.session import Session
from squadwright.planning.needed import needed
from squadwright.planning.plan import make_plan
from squadwright.services.in_mind import InMind

Outcome = tuple[Plan | None, str]
_in_mind: InMind[tuple[str, str], tuple[Session, Club], Outcome] = InMind(
    most_keys=64, most_of_a_key=8
)


def outcome(database: str, club: Club, session: Session, *, previous: Plan | None) -> Outcome:
    """The plan of a session, else why there is none; what is in mind is not made again."""
    part = needed(club, session)
    known = _in_mind.find((database, session.id), (session, part))
    return _made(database, part, session, previous) if known is None else known


def fresh_outcome(database: str, club: Club, session: Session, *, previous: Plan | None) -> Outcome:
    """As ``outcome``, made afresh: whoever a change does not touch stays as he was before."""
    return _made(database, needed(club, session), session, previous)


def _made(database: str, part: Club, session: Session, previous: Plan | None) -> Outcome:
    made: Outcome
    try:
        made = make_plan(part, session, previous=previous), ""
    except (NoSolution, NotFound, OutOfTime) as error:
        made = None, str(error)
    _in_mind.keep((database, session.id), (session, part), made)
    return made
