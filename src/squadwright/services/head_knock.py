"""A head knock on the floor: out at once, and on the register until cleared in writing."""

from collections.abc import Sequence
from datetime import date
from hashlib import sha256

from squadwright.model.athlete import Athlete, AuthorRole, Restriction
from squadwright.model.club import Club
from squadwright.model.muscles import BodyArea
from squadwright.model.record import EventKind, RecordEvent
from squadwright.planning.gates.bars import in_force
from squadwright.services.restrictions import with_restriction
from squadwright.services.squad import with_athlete
from squadwright.services.unit_of_work import Keeper

AUTHOR = "Coach"
INSTRUCTION = "No training until medical staff give clearance in writing"


def taken_out(club: Club, out: Sequence[RecordEvent], *, from_day: date) -> Club:
    """The club with each of these athletes on the register, about the head, without an end.

    Two devices that note the same knock put him there once.
    """
    for event in out:
        athlete = club.athlete(event.athlete)
        if not any(_is_of_knock(r, from_day) for r in athlete.restrictions_on(from_day)):
            club = with_athlete(club, with_restriction(athlete, _restriction(event, from_day)))
    return club


def cleared_since(keeper: Keeper, session_id: str) -> tuple[str, ...]:
    """Ids of the events that took somebody out of a session who is cleared in writing since."""
    with keeper.reading() as store:
        club = store.load_club()
        events, _ = store.events_of(session_id, after=0)
    if club is None:
        return ()
    day = club.session(session_id).held_on
    people = {athlete.id: athlete for athlete in club.athletes}
    return tuple(
        event.id
        for event in events
        if event.kind is EventKind.OUT
        and event.athlete in people
        and not _is_held_back(people[event.athlete], day)
    )


def _restriction(event: RecordEvent, from_day: date) -> Restriction:
    mark = sha256(event.id.encode()).hexdigest()[:12]
    return Restriction(
        id=f"{event.athlete[:40]}-{mark}",
        author=event.author.strip() or AUTHOR,
        author_role=AuthorRole.COACH,
        starts_on=from_day,
        body_areas=(BodyArea.HEAD,),
        all_training=True,
        reason="head knock",
        instruction=INSTRUCTION,
    )


def _is_of_knock(restriction: Restriction, day: date) -> bool:
    return (
        restriction.starts_on == day
        and restriction.all_training
        and BodyArea.HEAD in restriction.body_areas
    )


def _is_held_back(athlete: Athlete, day: date) -> bool:
    return any(r.all_training for r in in_force(athlete, day))
