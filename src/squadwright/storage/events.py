"""The record in the database: events are added once each, and never changed or taken out."""

from collections.abc import Sequence

from sqlalchemy import Connection, func, insert, select

from squadwright.errors import Conflict
from squadwright.model.record import RecordEvent
from squadwright.storage import log_tables
from squadwright.storage.documents import from_document, to_document


def add_events(connection: Connection, events: Sequence[RecordEvent]) -> int:
    """Add the events that are not there yet; gives how many were new.

    The same id with other content is a Conflict: an event is never changed.
    """
    table = log_tables.record_event
    known = _documents(connection, [event.id for event in events])
    arrival = connection.scalar(select(func.max(table.c.arrival))) or 0
    rows = []
    for event in events:
        document = to_document(event)
        if event.id in known:
            if from_document(RecordEvent, known[event.id]) != event:
                raise Conflict(
                    f"event {event.id!r} is in the record already and says something else. "
                    "Load the page afresh"
                )
            continue
        known[event.id] = document
        arrival += 1
        rows.append(
            {"arrival": arrival, "id": event.id, "session": event.session, "document": document}
        )
    if rows:
        connection.execute(insert(table), rows)
    return len(rows)


def events_of(
    connection: Connection, session_id: str, *, after: int = 0
) -> tuple[tuple[RecordEvent, ...], int]:
    """The events of a session after the first so many, and how many there are then."""
    table = log_tables.record_event
    query = (
        select(table.c.document)
        .where(table.c.session == session_id)
        .order_by(table.c.arrival)
        .offset(after)
    )
    events = tuple(from_document(RecordEvent, d) for d in connection.execute(query).scalars())
    return events, after + len(events)


def recorded_sessions(connection: Connection) -> frozenset[str]:
    """Ids of the sessions of which anything is noted."""
    query = select(log_tables.record_event.c.session).distinct()
    return frozenset(connection.execute(query).scalars())


def _documents(connection: Connection, ids: Sequence[str]) -> dict[str, str]:
    table = log_tables.record_event
    query = select(table.c.id, table.c.document).where(table.c.id.in_(ids))
    return {row.id: row.document for row in connection.execute(query)}
