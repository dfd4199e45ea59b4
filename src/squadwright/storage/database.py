"""A database by its address: SQLite (write-ahead log, foreign keys on) or PostgreSQL."""

import os
from collections.abc import Iterator
from contextlib import contextmanager
from enum import Enum
from pathlib import Path
from typing import Any

from sqlalchemy import Connection, Engine, NullPool, create_engine, event, inspect, text
from sqlalchemy.engine import URL, make_url
from sqlalchemy.exc import ArgumentError, DBAPIError, SQLAlchemyError

from squadwright.errors import Conflict, InvalidInput, NotFound, SquadwrightError
from squadwright.storage import documents, migration

BUSY_TIMEOUT_MS = 5_000


class State(Enum):
    """What stands at the address of a database."""

    MISSING = "missing"
    EMPTY = "empty"
    OLDER = "older"
    CURRENT = "current"
    NEWER = "newer"
    FOREIGN = "foreign"


class Database:
    """One database. ``writing`` and ``reading`` each give a connection in one transaction."""

    def __init__(self, address: str) -> None:
        self.url = _parsed(address)
        self.shown = self.url.render_as_string(hide_password=True)
        self._engine: Engine | None = None

    @property
    def is_sqlite(self) -> bool:
        """Whether it is a SQLite file."""
        return self.url.get_backend_name() == "sqlite"

    @property
    def path(self) -> Path:
        """The SQLite file; only where ``is_sqlite``."""
        if not self.is_sqlite or self.url.database is None:
            raise InvalidInput(self.shown, "is not a SQLite file", "Use the server's own tools")
        return Path(self.url.database)

    @property
    def engine(self) -> Engine:
        """The engine, made when first needed."""
        if self._engine is None:
            self._engine = _engine(self.url)
        return self._engine

    def state(self) -> State:
        """What stands at the address; a SQLite file is never made by asking."""
        if self.is_sqlite and not self.path.exists():
            return State.MISSING
        with self._plainly_told(), self.engine.connect() as connection:
            return _state_of(connection)

    def initialise(self) -> State:
        """Make the tables, or bring them up to date; gives the state found."""
        found = self.state()
        if found in (State.FOREIGN, State.NEWER):
            self._require_current(found)
        if found is State.CURRENT:
            return found
        if found is State.MISSING:
            _make_private_file(self.path)
        with self._plainly_told():
            migration.upgrade(self.engine)
        return found

    @contextmanager
    def reading(self) -> Iterator[Connection]:
        """A connection that sees one state of the data and writes nothing."""
        self._require_there()
        with self._plainly_told(), self.engine.connect() as connection:
            self._require_current(_state_of(connection))
            yield connection
            connection.rollback()

    @contextmanager
    def writing(self) -> Iterator[Connection]:
        """A connection in one transaction: all of it is stored, or none."""
        self._require_there()
        with (
            self._plainly_told(),
            self.engine.connect().execution_options(writes=True) as connection,
            connection.begin(),
        ):
            self._require_current(_state_of(connection))
            yield connection

    @contextmanager
    def staying_open(self) -> Iterator[None]:
        """Hold a SQLite file open: else each last close writes its log back, and a tap waits."""
        if not self.is_sqlite:
            yield
            return
        with self._plainly_told(), self.engine.connect() as connection:
            _state_of(connection)
            connection.rollback()
            yield

    def faults(self) -> list[str]:
        """What is wrong with the database itself, apart from what the club says."""
        with self.reading() as connection:
            found = documents.altered_documents(connection)
            if self.is_sqlite:
                found += _sqlite_faults(connection)
        return found

    def close(self) -> None:
        """Give up every connection."""
        if self._engine is not None:
            self._engine.dispose()
            self._engine = None

    def _require_there(self) -> None:
        """Refuse before connecting, which would make an empty SQLite file."""
        if self.is_sqlite and not self.path.exists():
            self._require_current(State.MISSING)

    def _require_current(self, state: State) -> None:
        place = f"database {self.shown}"
        if state is State.MISSING or state is State.EMPTY:
            raise NotFound(
                f"{place} holds no club yet. Run `squadwright import FILE`, or use --demo"
            )
        if state is State.OLDER:
            raise Conflict(
                f"{place} was made by an older version. Make a backup, then run `squadwright init`"
            )
        if state is State.NEWER:
            raise Conflict(f"{place} was made by a newer version. Install that version or newer")
        if state is State.FOREIGN:
            raise InvalidInput(
                place, "holds the tables of another program", "Name another database"
            )

    @contextmanager
    def _plainly_told(self) -> Iterator[None]:
        """Turn an error of the database driver into one line."""
        try:
            yield
        except DBAPIError as error:
            reason = str(error.orig).strip().splitlines()[0] if error.orig else "no reason given"
            raise _told(f"database {self.shown}", reason) from error
        except SQLAlchemyError as error:
            raise InvalidInput(
                f"database {self.shown}", str(error).splitlines()[0], "Check the address"
            ) from error


def _state_of(connection: Connection) -> State:
    present = set(inspect(connection).get_table_names())
    if not present:
        return State.EMPTY
    if migration.RECORD_TABLE not in present:
        return State.FOREIGN
    recorded = migration.recorded(connection)
    if recorded is None:
        return State.EMPTY if present == {migration.RECORD_TABLE} else State.FOREIGN
    if recorded == migration.head():
        return State.CURRENT
    return State.OLDER if recorded in migration.REVISIONS else State.NEWER


def _told(place: str, reason: str) -> SquadwrightError:
    if "locked" in reason:
        return Conflict(f"{place} is in use by another program. Try again when it has finished")
    if "not a database" in reason or "malformed" in reason:
        return InvalidInput(
            place, f"cannot be read ({reason})", "Name a database, or restore a backup"
        )
    return InvalidInput(place, f"cannot be used ({reason})", "Check the address and the rights")


def _parsed(address: str) -> URL:
    try:
        url = make_url(address)
        backend = url.get_backend_name()
    except (ArgumentError, ValueError) as error:
        raise InvalidInput(
            "database",
            f"{address.split('@')[-1]!r} is not an address",
            "Write sqlite:///PATH, postgresql://USER@HOST/NAME or the path of a file",
        ) from error
    if backend == "postgresql":
        return url.set(drivername="postgresql+psycopg")
    if backend != "sqlite":
        raise InvalidInput("database", f"{backend!r} is not supported", "Use sqlite or postgresql")
    if not url.database or url.database == ":memory:" or url.query:
        raise InvalidInput(
            "database", "the address names no plain file", "Write sqlite:/// and a path"
        )
    return url


def _engine(url: URL) -> Engine:
    if url.get_backend_name() != "sqlite":
        return create_engine(url, pool_pre_ping=True)
    engine = create_engine(url, poolclass=NullPool)

    @event.listens_for(engine, "connect")
    def _prepare(connection: Any, _: Any) -> None:
        # The driver must not open or close transactions by itself: BEGIN below does.
        connection.isolation_level = None
        connection.execute(f"PRAGMA busy_timeout = {BUSY_TIMEOUT_MS}")
        connection.execute("PRAGMA journal_mode = WAL")
        connection.execute("PRAGMA foreign_keys = ON")

    @event.listens_for(engine, "begin")
    def _begin(connection: Connection) -> None:
        # A writer takes its lock at once, so that it waits instead of failing half-way.
        writes = connection.get_execution_options().get("writes", False)
        connection.exec_driver_sql("BEGIN IMMEDIATE" if writes else "BEGIN")

    return engine


def _make_private_file(path: Path) -> None:
    """An empty file that only its owner may read; the log beside it takes the same rights."""
    try:
        path.parent.mkdir(parents=True, exist_ok=True, mode=0o700)
        os.close(os.open(path, os.O_CREAT | os.O_WRONLY, 0o600))
    except OSError as error:
        raise InvalidInput(
            str(path), f"cannot be made ({error.strerror})", "Name a folder you may write to"
        ) from error


def _sqlite_faults(connection: Connection) -> list[str]:
    found = [
        str(row[0]) for row in connection.execute(text("PRAGMA integrity_check")) if row[0] != "ok"
    ]
    found += [
        f"table {row[0]} row {row[1]} refers to a row of {row[2]} that is not there"
        for row in connection.execute(text("PRAGMA foreign_key_check"))
    ]
    return found
