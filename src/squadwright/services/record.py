"""Use cases of the record: devices bring what they noted and take what others noted."""

from collections.abc import Sequence
from dataclasses import dataclass

from squadwright.errors import InvalidInput, NotFound
from squadwright.model.club import Club
from squadwright.model.record import EventKind, RecordEvent
from squadwright.services.unit_of_work import Keeper, Store

MOST_AT_ONCE = 500


@dataclass(frozen=True)
class Exchange:
    """The answer to a device: what of it is stored for good, and what it has not seen yet.

    ``upto`` is what the device sends as ``after`` the next time.
    """

    stored: tuple[str, ...]
    events: tuple[RecordEvent, ...]
    upto: int


def exchange(
    keeper: Keeper, session_id: str, brought: Sequence[RecordEvent], *, after: int
) -> Exchange:
    """Store what a device brings, all of it or nothing; give it what came after the first so many.

    Bringing the same events again changes nothing, so a device that got no answer sends again.
    """
    if len(brought) > MOST_AT_ONCE:
        raise InvalidInput(
            "events", f"{len(brought)} are too many at once, at most {MOST_AT_ONCE}", "Send fewer"
        )
    for event in brought:
        if event.session != session_id:
            raise InvalidInput(
                "events.session",
                f"event {event.id} belongs to {event.session!r}, not to {session_id!r}",
                "Send it to its own session",
            )
    if not brought:
        with keeper.reading() as store:
            _club_of(store, session_id)
            events, upto = store.events_of(session_id, after=after)
        return Exchange((), events, upto)
    with keeper.writing() as store:
        _require_known(store, _club_of(store, session_id), session_id, brought)
        store.add_events(brought)
        events, upto = store.events_of(session_id, after=after)
    return Exchange(tuple(event.id for event in brought), events, upto)


def record_of(keeper: Keeper, session_id: str) -> tuple[RecordEvent, ...]:
    """Everything noted of a session, in the order it arrived."""
    with keeper.reading() as store:
        return store.events_of(session_id, after=0)[0]


def _club_of(store: Store, session_id: str) -> Club:
    """The club, which must have the session."""
    club = store.load_club()
    if club is None:
        raise NotFound("There is no club yet, so there is no session to record")
    club.session(session_id)
    return club


def _require_known(
    store: Store, club: Club, session_id: str, brought: Sequence[RecordEvent]
) -> None:
    """An athlete must be of the club; what is taken back must be of the same session."""
    people = {athlete.id for athlete in club.athletes}
    for event in brought:
        if event.athlete and event.athlete not in people:
            raise InvalidInput(
                "events.athlete",
                f"{event.athlete!r} is not an athlete of the club",
                "Load the page afresh",
            )
    wanted = {e.takes_back for e in brought if e.kind is EventKind.TAKEN_BACK}
    here = {event.id for event in brought}
    missing = wanted - here
    if missing:
        stored = {event.id for event in store.events_of(session_id, after=0)[0]}
        if missing - stored:
            raise InvalidInput(
                "events.takes_back",
                f"{min(missing - stored)!r} is not in the record of {session_id!r}",
                "Send the event itself before what takes it back",
            )
