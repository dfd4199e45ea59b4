"""Use case: a device meets the server. What it noted is stored, and the running sheet follows."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import UTC, date, datetime

from squadwright.errors import InvalidInput
from squadwright.exchange.record_file import Brought, DeviceRecord
from squadwright.model.record import EventKind, RecordEvent, day_of_record
from squadwright.services.live_heat import follow_heat
from squadwright.services.record import MOST_AT_ONCE, Exchange, exchange
from squadwright.services.running import (
    ONE_AT_A_TIME,
    follow,
    moves_the_sheet,
    present_revision,
)
from squadwright.services.unit_of_work import Keeper


@dataclass(frozen=True)
class Met:
    """The answer to a device, and the mark of the sheet the session runs by."""

    exchange: Exchange
    revision: str


def meet(
    keeper: Keeper,
    session_id: str,
    brought: Brought,
    *,
    today: date,
    now: datetime | None = None,
) -> Met:
    """Exchange events with a device.

    Before it the record is told what the heat of the session asks for: what was entered on the
    site stands before what the device brings.

    What it brings is taken in two goes where it holds a start and somebody taken out after it:
    the sheet is pinned with him, as it ran, and then he is put on the register.
    """
    if day_of_record(session_id) is None:
        follow_heat(keeper, session_id, today=today, now=now or datetime.now(UTC))
    goes = [
        _gone(keeper, session_id, replace(brought, events=events), today)
        for events in _in_goes(brought.events)
    ]
    stored = tuple(event.id for event in brought.events)
    answer = replace(goes[-1], stored=stored, added=sum(go.added for go in goes))
    return Met(answer, present_revision(keeper, session_id))


def _gone(keeper: Keeper, session_id: str, brought: Brought, today: date) -> Exchange:
    """Store what is brought at once, and have the sheet follow the record as it is then."""

    def stored() -> Exchange:
        return exchange(
            keeper,
            session_id,
            brought.events,
            after=brought.after,
            device=brought.device,
            today=today,
        )

    if day_of_record(session_id) is not None or not moves_the_sheet(brought.events):
        return stored()
    with ONE_AT_A_TIME:
        answer = stored()
        follow(keeper, session_id, answer.whole)
    return answer


def take_in(keeper: Keeper, session_id: str, record: DeviceRecord, *, today: date) -> int:
    """Take in what a device has saved to a file; gives how many events were new.

    What is in the record already stays as it is, so a file may be read twice. What takes something
    back comes last, so that a long record can be stored in parts.
    """
    if record.session != session_id:
        raise InvalidInput(
            "file",
            f"it is the record of {record.session!r}, not of {session_id!r}",
            "Open the page of that session and read it in there",
        )
    added = 0
    ordered = sorted(record.events, key=lambda e: (e.kind is EventKind.TAKEN_BACK, e.order))
    for first in range(0, len(ordered), MOST_AT_ONCE):
        part = tuple(ordered[first : first + MOST_AT_ONCE])
        met = meet(keeper, session_id, Brought(0, part, record.device), today=today)
        added += met.exchange.added
    return added


def _in_goes(events: Sequence[RecordEvent]) -> tuple[tuple[RecordEvent, ...], ...]:
    last = (EventKind.OUT, EventKind.TAKEN_BACK)
    first = tuple(event for event in events if event.kind not in last)
    if not first or not any(event.kind is EventKind.OUT for event in events):
        return (tuple(events),)
    return first, tuple(event for event in events if event.kind in last)
