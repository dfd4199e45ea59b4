"""The heat of a session on the open floor: what was read there, and whom it stops.

A device decides by itself where it has no server. Here the rest comes to the record: a reading
entered on the site, a limit or a medical entry that was changed while the session runs.
"""

from collections.abc import Sequence
from datetime import date, datetime, timedelta

from squadwright.errors import NotFound
from squadwright.model.record import FOR_HEAT, EventKind, RecordEvent, in_force, stop_of
from squadwright.model.session import Presence, Session
from squadwright.planning.gates.heat_stop import end_of_work_s, is_stopped_by_heat
from squadwright.planning.gates.warmth import wet_bulb_globe_c
from squadwright.planning.live.clock import Clock, clock_of
from squadwright.services.after import DEVICE, Batch
from squadwright.services.heat_reading import newest_reading
from squadwright.services.running import running
from squadwright.services.unit_of_work import Keeper

OWN_TIME = timedelta(seconds=10)
"""So long a device that has read the heat is left to say itself what follows."""
CANCEL = "cancel: nobody is started into another round"


def follow_heat(keeper: Keeper, session_id: str, *, today: date, now: datetime) -> None:
    """Write into the record what the heat of a session asks for, where it does not say so yet.

    A session that is over is left alone, and so is one whose heat nobody has read.
    """
    with keeper.reading() as store:
        club = store.load_club()
        if club is None or club.session(session_id).heat is None:
            return
        record = store.events_of(session_id, after=0)[0]
    clock = clock_of(record)
    session = club.session(session_id)
    if clock.is_ended or _is_being_told(session, record, now):
        return
    new = Batch(session_id, record, now)
    own = _own(in_force(record))
    here = _taking_part(session, own)
    hot = {each for each in here if is_stopped_by_heat(club, club.athlete(each), session)}
    is_over = bool(hot) and len(hot) == len(here)
    if not clock.is_started and not is_over and clock.stops_at_s is None:
        return
    _read(new, session, record)
    if is_over and clock.stops_at_s is None:
        place_s = _stop_place(keeper, session_id, clock, today, now)
        new.add(EventKind.HEAT_STOP, value=place_s, words=CANCEL)
    elif not is_over:
        if clock.stops_at_s is not None:
            new.add(EventKind.HEAT_OVER)
        for each in here:
            is_out = stop_of(own.get(each, ())) is not None
            if is_out != (each in hot):
                kind = EventKind.ATHLETE_WENT_ON if is_out else EventKind.ATHLETE_STOPPED
                new.add(kind, athlete=each, words=FOR_HEAT)
    if new.holds_any:
        new.stored(keeper)


def _is_being_told(session: Session, record: Sequence[RecordEvent], now: datetime) -> bool:
    """Whether a device has just read what the session has, and will say what follows."""
    read = newest_reading(record)
    return (
        read is not None
        and session.heat is not None
        and read.device != DEVICE
        and read.value == float(wet_bulb_globe_c(session.heat))
        and now - read.at < OWN_TIME
    )


def _own(record: Sequence[RecordEvent]) -> dict[str, list[RecordEvent]]:
    own: dict[str, list[RecordEvent]] = {}
    for event in record:
        if event.athlete:
            own.setdefault(event.athlete, []).append(event)
    return own


def _taking_part(session: Session, own: dict[str, list[RecordEvent]]) -> list[str]:
    """Who is here and has not stopped for another reason than the heat."""
    absent = {c.athlete for c in session.check_ins if c.presence is Presence.ABSENT}
    stops = {each: stop_of(own.get(each, ())) for each in session.athletes}
    return [
        each
        for each, stop in stops.items()
        if each not in absent
        and (stop is None or (stop.kind is EventKind.ATHLETE_STOPPED and stop.words == FOR_HEAT))
    ]


def _read(new: Batch, session: Session, record: Sequence[RecordEvent]) -> None:
    """The reading entered on the site, where the record has not got it."""
    assert session.heat is not None
    value = float(wet_bulb_globe_c(session.heat))
    read = newest_reading(record)
    if read is None or read.value != value:
        new.add(EventKind.HEAT_READ, value=value)


def _stop_place(keeper: Keeper, session_id: str, clock: Clock, today: date, now: datetime) -> float:
    """Where the work under way ends; at once where the bars are down or nothing was started."""
    place_s = clock.place_at(now)
    if not clock.is_running:
        return place_s
    try:
        lines = running(keeper, session_id, today=today).plan.run_sheet
    except NotFound:
        return place_s
    return end_of_work_s(lines, place_s)
