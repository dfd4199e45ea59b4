"""Plans that were made lately, by database and by the club and session they were made for."""

from collections import OrderedDict
from threading import Lock

from squadwright.errors import NoSolution, NotFound, OutOfTime
from squadwright.model.club import Club
from squadwright.model.plan import Plan
from squadwright.model.session import Session
from squadwright.planning.plan import make_plan

MOST_IN_MIND = 64
Outcome = tuple[Plan | None, str]

_in_mind: OrderedDict[tuple[str, Club, Session], Outcome] = OrderedDict()
_lock = Lock()


def outcome(database: str, club: Club, session: Session, *, previous: Plan | None) -> Outcome:
    """The plan of a session, else why there is none; what is in mind is not made again."""
    with _lock:
        known = _in_mind.get((database, club, session))
        if known is not None:
            _in_mind.move_to_end((database, club, session))
            return known
    return fresh_outcome(database, club, session, previous=previous)


def fresh_outcome(database: str, club: Club, session: Session, *, previous: Plan | None) -> Outcome:
    """As ``outcome``, made afresh: whoever a change does not touch stays as he was before."""
    made: Outcome
    try:
        made = make_plan(club, session, previous=previous), ""
    except (NoSolution, NotFound, OutOfTime) as error:
        made = None, str(error)
    with _lock:
        _in_mind[database, club, session] = made
        _in_mind.move_to_end((database, club, session))
        while len(_in_mind) > MOST_IN_MIND:
            _in_mind.popitem(last=False)
    return made
