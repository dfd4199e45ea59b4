"""Courses of running sessions: rows are added, never changed; the last one of a session counts."""

from functools import lru_cache

from sqlalchemy import Connection, func, insert, select

from squadwright.planning.live.course import Course
from squadwright.storage import log_tables
from squadwright.storage.documents import from_document, to_document


def add_course(
    connection: Connection, session_id: str, start: str, course: Course, revision: str
) -> int:
    """Keep a course of a session as it was started by an event; gives its number."""
    table = log_tables.course
    last = select(func.max(table.c.number)).where(table.c.session == session_id)
    number = (connection.scalar(last) or 0) + 1
    connection.execute(
        insert(table).values(
            session=session_id,
            number=number,
            start=start,
            revision=revision,
            document=to_document(course),
        )
    )
    return number


def courses_of(connection: Connection, session_id: str, start: str) -> tuple[Course, ...]:
    """The courses of a session since it was started by an event, the last one at the end."""
    table = log_tables.course
    query = (
        select(table.c.document)
        .where(table.c.session == session_id, table.c.start == start)
        .order_by(table.c.number)
    )
    return tuple(_course(document) for document in connection.execute(query).scalars())


def last_course(connection: Connection, session_id: str) -> tuple[int, str, str]:
    """Number, start and revision of the last course of a session; 0 and nothing without one."""
    table = log_tables.course
    query = (
        select(table.c.number, table.c.start, table.c.revision)
        .where(table.c.session == session_id)
        .order_by(table.c.number.desc())
        .limit(1)
    )
    row = connection.execute(query).one_or_none()
    return (0, "", "") if row is None else (row.number, row.start, row.revision)


def record_marks(connection: Connection) -> dict[str, tuple[int, int]]:
    """How many events and how many courses each session has that was ever started."""
    event, table = log_tables.record_event, log_tables.course
    noted = (
        select(event.c.session, func.count().label("events")).group_by(event.c.session).subquery()
    )
    query = (
        select(table.c.session, noted.c.events, func.max(table.c.number))
        .join(noted, noted.c.session == table.c.session)
        .group_by(table.c.session, noted.c.events)
    )
    return {session: (events, last) for session, events, last in connection.execute(query)}


@lru_cache(maxsize=32)
def _course(document: str) -> Course:
    """The course of a document; those looked at lately are not read again."""
    return from_document(Course, document)
