"""Use cases of the record: devices bring what they noted and take what others noted."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from squadwright.errors import InvalidInput, NotFound
from squadwright.model.club import Club
from squadwright.model.record import AT_THE_MATS, EventKind, RecordEvent, day_of_record
from squadwright.services.club_changes import change_within
from squadwright.services.event_day import require_competition
from squadwright.services.head_knock import taken_out
from squadwright.services.health_log import log_events
from squadwright.services.heat_reading import with_newest_reading
from squadwright.services.running import FOLLOWED
from squadwright.services.unit_of_work import Keeper, Store

MOST_AT_ONCE = 500
# What an incident was, how hard the session was for somebody, and the review: no device needs it.
FOR_THE_COACH = frozenset(
    {EventKind.INCIDENT, EventKind.EFFORT, EventKind.RESERVE, EventKind.REVIEW}
)
# With one of these the whole record is looked at, else only what a device has not seen.
OF_THE_WHOLE = FOLLOWED | {EventKind.OUT, EventKind.HEAT_READ}


@dataclass(frozen=True)
class Exchange:
    """The answer to a device: what of it is stored for good, and what it has not seen yet.

    ``upto`` is what the device sends as ``after`` the next time. ``added`` counts the events that
    were new; ``whole`` is the record after them where one of them had it read, else empty.
    """

    stored: tuple[str, ...]
    events: tuple[RecordEvent, ...]
    upto: int
    added: int = 0
    whole: tuple[RecordEvent, ...] = ()


def exchange(
    keeper: Keeper,
    session_id: str,
    brought: Sequence[RecordEvent],
    *,
    after: int,
    device: str = "",
    today: date | None = None,
) -> Exchange:
    """Store what a device brings, all of it or nothing; give it what came after the first so many.

    Bringing the same events again changes nothing, so a device that got no answer sends again.
    What is for the coach goes back to the ``device`` that wrote it and to no other. Who is out
    until cleared is put on the register in the same unit of work, from ``today`` on at the latest.
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
        _require_fitting(session_id, event)
    if not brought:
        with keeper.reading() as store:
            _club_of(store, session_id)
            events, upto = store.events_of(session_id, after=after)
        return Exchange((), _for_device(events, device), upto)
    is_whole = any(event.kind in OF_THE_WHOLE for event in brought)
    with keeper.writing() as store:
        club = _club_of(store, session_id)
        _require_members(club, brought)
        added = store.add_events(brought)
        if added:
            log_events(store, brought)
        read, upto = store.events_of(session_id, after=0 if is_whole else after)
        if is_whole:
            _require_known(session_id, brought, read)
            # What is brought again takes nobody out again.
            out = [event for event in read[len(read) - added :] if event.kind is EventKind.OUT]
            held_on = day_of_record(session_id) or club.session(session_id).held_on
            day = min(filter(None, (today, held_on)))
            if out:
                change_within(store, lambda c: taken_out(c, out, from_day=day), today=today or day)
            if any(event.kind is EventKind.HEAT_READ for event in brought):
                _keep_heat(store, club, session_id, read, today or day)
    return Exchange(
        tuple(event.id for event in brought),
        _for_device(read[after:] if is_whole else read, device),
        max(after, upto),
        added,
        read if is_whole else (),
    )


def _keep_heat(
    store: Store, club: Club, session_id: str, record: Sequence[RecordEvent], today: date
) -> None:
    """What was read last on the floor is the heat of the session."""
    if with_newest_reading(club, session_id, record) is not club:
        change_within(store, lambda c: with_newest_reading(c, session_id, record), today=today)


def record_of(keeper: Keeper, session_id: str) -> tuple[RecordEvent, ...]:
    """Everything noted of a session, in the order it arrived."""
    with keeper.reading() as store:
        return store.events_of(session_id, after=0)[0]


def _for_device(events: tuple[RecordEvent, ...], device: str) -> tuple[RecordEvent, ...]:
    """What a device may know: what is for the coach goes back only to who wrote it."""
    return tuple(e for e in events if e.kind not in FOR_THE_COACH or e.device == device)


def _club_of(store: Store, session_id: str) -> Club:
    """The club, which must have the session."""
    club = store.load_club()
    if club is None:
        raise NotFound("There is no club yet, so there is no session to record")
    require_recorded(club, session_id)
    return club


def require_recorded(club: Club, session_id: str) -> None:
    """Raise NotFound where the club has no such session, and no such day of competition."""
    day = day_of_record(session_id)
    if day is None:
        club.session(session_id)
    else:
        require_competition(club, day)


def _require_fitting(session_id: str, event: RecordEvent) -> None:
    """What happens at the mats goes into the record of its day, and nothing else does."""
    is_of_mats = day_of_record(session_id) is not None
    if event.kind is not EventKind.TAKEN_BACK and (event.kind in AT_THE_MATS) != is_of_mats:
        raise InvalidInput(
            "events.kind",
            f"{event.kind.value!r} does not happen in {session_id!r}",
            "Load the page afresh",
        )


def _require_members(club: Club, brought: Sequence[RecordEvent]) -> None:
    """An athlete must be of the club."""
    people = {athlete.id for athlete in club.athletes}
    for event in brought:
        if event.athlete and event.athlete not in people:
            raise InvalidInput(
                "events.athlete",
                f"{event.athlete!r} is not an athlete of the club",
                "Load the page afresh",
            )


def _require_known(
    session_id: str, brought: Sequence[RecordEvent], record: Sequence[RecordEvent]
) -> None:
    """What is taken back must be of the same session."""
    wanted = {event.takes_back for event in brought if event.kind is EventKind.TAKEN_BACK}
    missing = wanted - {event.id for event in record}
    if missing:
        raise InvalidInput(
            "events.takes_back",
            f"{min(missing)!r} is not in the record of {session_id!r}",
            "Send the event itself before what takes it back",
        )
