"""Plans that were made lately, by database and by the club and session they were made for."""

from collections import OrderedDict
from dataclasses import dataclass
from threading import Lock

from squadwright.errors import NoSolution, NotFound, OutOfTime
from squadwright.model.club import Club
from squadwright.model.plan import Plan
from squadwright.model.session import Session
from squadwright.planning.needed import needed
from squadwright.planning.plan import make_plan

MOST_IN_MIND = 64
MOST_OF_A_SESSION = 8
Outcome = tuple[Plan | None, str]


@dataclass(frozen=True)
class _Made:
    club: Club
    session: Session
    outcome: Outcome


# The newest of a session stands last. Clubs are compared, not hashed: what was not written since
# is the same object, and a hash of five years of records takes longer than a page may.
_in_mind: OrderedDict[tuple[str, str], tuple[_Made, ...]] = OrderedDict()
_lock = Lock()


def outcome(database: str, club: Club, session: Session, *, previous: Plan | None) -> Outcome:
    """The plan of a session, else why there is none; what is in mind is not made again."""
    key = (database, session.id)
    with _lock:
        held = _in_mind.get(key, ())
        if held:
            _in_mind.move_to_end(key)
    part = needed(club, session)
    for made in reversed(held):
        if made.session == session and made.club == part:
            return made.outcome
    return fresh_outcome(database, club, session, previous=previous)


def fresh_outcome(database: str, club: Club, session: Session, *, previous: Plan | None) -> Outcome:
    """As ``outcome``, made afresh: whoever a change does not touch stays as he was before."""
    made: Outcome
    part = needed(club, session)
    try:
        made = make_plan(part, session, previous=previous), ""
    except (NoSolution, NotFound, OutOfTime) as error:
        made = None, str(error)
    key = (database, session.id)
    with _lock:
        others = tuple(
            m for m in _in_mind.get(key, ()) if not (m.session == session and m.club == part)
        )
        _in_mind[key] = (*others, _Made(part, session, made))[-MOST_OF_A_SESSION:]
        _in_mind.move_to_end(key)
        while len(_in_mind) > MOST_IN_MIND:
            _in_mind.popitem(last=False)
    return made
