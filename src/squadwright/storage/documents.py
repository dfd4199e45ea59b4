"""Routines, sessions and plans: documents kept by version, each with its SHA-256."""

from collections.abc import Sequence
from functools import lru_cache
from hashlib import sha256
from typing import Any, TypeVar, cast

from pydantic import TypeAdapter
from sqlalchemy import Connection, RowMapping, Table, func, insert, select, update

from squadwright.errors import Conflict, NotFound
from squadwright.model.plan import Plan
from squadwright.model.routine import Routine
from squadwright.model.session import Session
from squadwright.model.shape import is_same
from squadwright.storage import tables

_T = TypeVar("_T")


@lru_cache
def _adapter(kind: Any) -> TypeAdapter[Any]:
    return TypeAdapter(kind)


def to_document(value: Any) -> str:
    """A frozen dataclass as JSON text, always the same for equal values."""
    return _adapter(cast(Any, type(value))).dump_json(value).decode()


def from_document(kind: type[_T], document: str) -> _T:
    """The frozen dataclass a document holds."""
    value: _T = _adapter(cast(Any, kind)).validate_json(document)
    return value


def fingerprint(document: str) -> str:
    """The SHA-256 of a document."""
    return sha256(document.encode()).hexdigest()


def _says_the_same(row: RowMapping, value: Any) -> bool:
    """Whether a stored document is this value, even if it was stored before a field was added."""
    document = to_document(value)
    if row["sha256"] == fingerprint(document):
        return True
    return to_document(from_document(type(value), row["document"])) == document


def save_routines(connection: Connection, routines: Sequence[Routine]) -> None:
    """Store the club's routines; a version stored earlier must have the same content."""
    table = tables.routine
    connection.execute(update(table).values(position=None))
    stored = {
        (row["id"], row["version"]): row for row in connection.execute(select(table)).mappings()
    }
    for position, routine in enumerate(routines):
        known = stored.get((routine.id, routine.version))
        if known is None:
            _insert_routine(connection, routine, position)
            continue
        if not _says_the_same(known, routine):
            latest = max(version for name, version in stored if name == routine.id)
            raise Conflict(
                f"routines[{position}]: routine {routine.id!r} version {routine.version} is stored "
                f"with other content, and stored plans rest on it. "
                f"Give the changed routine version {latest + 1}"
            )
        connection.execute(
            update(table)
            .where(table.c.id == routine.id, table.c.version == routine.version)
            .values(position=position)
        )


def _insert_routine(connection: Connection, routine: Routine, position: int) -> None:
    document = to_document(routine)
    connection.execute(
        insert(tables.routine).values(
            id=routine.id,
            version=routine.version,
            position=position,
            document=document,
            sha256=fingerprint(document),
        )
    )


def load_routines(connection: Connection) -> tuple[Routine, ...]:
    """The routines of the club, in its order."""
    return tuple(
        from_document(Routine, row["document"]) for row in _current(connection, tables.routine)
    )


def routine_versions(connection: Connection) -> dict[str, int]:
    """The highest version ever stored of each routine, those no more in the club included."""
    table = tables.routine
    query = select(table.c.id, func.max(table.c.version)).group_by(table.c.id)
    return {name: int(version) for name, version in connection.execute(query)}


def save_sessions(
    connection: Connection, sessions: Sequence[Session], stored: Sequence[Session]
) -> None:
    """Store the club's sessions in place of those stored; a changed one becomes a new revision."""
    table = tables.session
    before = {session.id: (place, session) for place, session in enumerate(stored)}
    for position, session in enumerate(sessions):
        place, known = before.pop(session.id, (-1, None))
        if known is not None and is_same(known, session):
            if place != position:
                _place(connection, session.id, position)
            continue
        _place(connection, session.id, None)
        last = _last(connection, table, session.id, key="id")
        if last is not None and _says_the_same(last, session):
            _place(connection, session.id, position, revision=last["revision"])
            continue
        _insert_session(connection, session, position, 1 if last is None else last["revision"] + 1)
    for gone in before:
        _place(connection, gone, None)


def _place(
    connection: Connection, session: str, position: int | None, *, revision: int | None = None
) -> None:
    """Put the revision of a session that is in the club, or the one named, at a position."""
    table = tables.session
    which = table.c.position.is_not(None) if revision is None else table.c.revision == revision
    query = update(table).where(table.c.id == session, which)
    connection.execute(query.values(position=position))


def _insert_session(connection: Connection, session: Session, position: int, revision: int) -> None:
    document = to_document(session)
    connection.execute(
        insert(tables.session).values(
            id=session.id,
            revision=revision,
            position=position,
            held_on=session.held_on,
            routine=session.routine,
            routine_version=session.routine_version,
            document=document,
            sha256=fingerprint(document),
        )
    )


def load_sessions(connection: Connection) -> tuple[Session, ...]:
    """The sessions of the club, in its order, each in its last revision."""
    return tuple(
        from_document(Session, row["document"]) for row in _current(connection, tables.session)
    )


def save_plan(connection: Connection, plan: Plan) -> int:
    """Keep a plan and give its revision; the same plan again adds none."""
    table = tables.plan
    document = to_document(plan)
    last = _last(connection, table, plan.session.id, key="session")
    if last is not None and last["sha256"] == fingerprint(document):
        return int(last["revision"])
    revision = 1 if last is None else int(last["revision"]) + 1
    connection.execute(
        insert(table).values(
            session=plan.session.id,
            revision=revision,
            held_on=plan.session.held_on,
            document=document,
            sha256=fingerprint(document),
        )
    )
    return revision


def load_plan(connection: Connection, session_id: str, revision: int | None = None) -> Plan:
    """A kept plan of a session: the last, or the one of a revision; raises NotFound."""
    table = tables.plan
    if revision is None:
        row = _last(connection, table, session_id, key="session")
    else:
        query = select(table).where(table.c.session == session_id, table.c.revision == revision)
        row = connection.execute(query).mappings().one_or_none()
    if row is None:
        which = "" if revision is None else f" revision {revision}"
        raise NotFound(
            f"no plan{which} is stored for session {session_id!r}; make one with `squadwright plan`"
        )
    return _plan(row["document"])


@lru_cache(maxsize=32)
def _plan(document: str) -> Plan:
    """The plan of a document; those looked at lately are not read again."""
    return from_document(Plan, document)


def altered_documents(connection: Connection) -> list[str]:
    """Stored versions whose text no longer has the SHA-256 it was stored with."""
    found: list[str] = []
    for table, columns in (
        (tables.routine, ("id", "version")),
        (tables.session, ("id", "revision")),
        (tables.plan, ("session", "revision")),
    ):
        for row in connection.execute(select(table)).mappings():
            if fingerprint(row["document"]) != row["sha256"]:
                name, number = (row[column] for column in columns)
                found.append(
                    f"{table.name} {name!r} {columns[1]} {number} was altered after storing"
                )
    return found


def _current(connection: Connection, table: Table) -> Sequence[RowMapping]:
    query = select(table).where(table.c.position.is_not(None)).order_by(table.c.position)
    return connection.execute(query).mappings().all()


def _last(connection: Connection, table: Table, name: str, *, key: str) -> RowMapping | None:
    newest = select(func.max(table.c.revision)).where(table.c[key] == name).scalar_subquery()
    query = select(table).where(table.c[key] == name, table.c.revision == newest)
    return connection.execute(query).mappings().one_or_none()
