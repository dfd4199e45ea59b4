"""What was read of the heat on the floor becomes the heat of the session."""

from collections.abc import Sequence
from dataclasses import replace

from squadwright.model.club import Club
from squadwright.model.record import EventKind, RecordEvent, in_force
from squadwright.model.session import HeatReading
from squadwright.planning.gates.warmth import wet_bulb_globe_c
from squadwright.services.session_changes import with_session


def newest_reading(record: Sequence[RecordEvent]) -> RecordEvent | None:
    """The heat that was read last, as the record stands; None where nobody read it."""
    read = [event for event in in_force(record) if event.kind is EventKind.HEAT_READ]
    return read[-1] if read else None


def with_newest_reading(club: Club, session_id: str, record: Sequence[RecordEvent]) -> Club:
    """The club with the heat that was read last on the floor of a session."""
    read = newest_reading(record)
    if read is None:
        return club
    session = club.session(session_id)
    newest = HeatReading(wet_bulb_globe_c=read.value)
    if session.heat is not None and wet_bulb_globe_c(session.heat) == wet_bulb_globe_c(newest):
        return club
    return with_session(club, replace(session, heat=newest))
