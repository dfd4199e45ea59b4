"""Backup of a SQLite database while it is in use, and the way back, checked before it is taken."""

import os
import sqlite3
import tempfile
import time
from collections.abc import Callable, Iterator
from contextlib import closing, contextmanager
from datetime import datetime
from pathlib import Path

from squadwright.errors import Conflict, InvalidInput, NotFound
from squadwright.storage import repository
from squadwright.storage.database import Database, State

LONGEST_WAIT_S = 10.0
SIDE_FILES = ("-wal", "-shm", "-journal")


def back_up(database: Database, target: Path) -> None:
    """Copy a database into a new file; an existing file is never overwritten."""
    _require_sqlite(database, "pg_dump")
    if database.state() in (State.MISSING, State.EMPTY, State.FOREIGN):
        raise NotFound(f"database {database.shown} holds no club yet; there is nothing to back up")
    if target.exists():
        raise Conflict(
            f"{target}: is there already. Name a new file, for example with today's date"
        )
    with _told_in_one_line(str(target)), _draft_beside(target) as draft:
        _copy(database.path, draft)
        with closing(sqlite3.connect(draft)) as copy:
            # One plain file, so that it can be read from where nothing may be written.
            copy.execute("PRAGMA journal_mode = DELETE")
        os.replace(draft, target)


def restore(database: Database, source: Path) -> Path | None:
    """Put a backup in place of a database; gives the file in which the old data is kept.

    The backup is copied, brought up to date and checked first; if anything is wrong with it,
    nothing changes.
    """
    _require_sqlite(database, "pg_restore")
    _require_file(source)
    path = database.path
    with _told_in_one_line(str(source)):
        path.parent.mkdir(parents=True, exist_ok=True, mode=0o700)
        with _draft_beside(path) as draft:
            _copy(source, draft)
            _require_sound(draft, source)
            database.close()
            if not path.exists():
                os.replace(draft, path)
                return None
            kept = _new_name(path)
            try:
                _copy(path, kept)
                _copy(draft, path)
            except sqlite3.DatabaseError as error:
                if "locked" in str(error):
                    kept.unlink(missing_ok=True)
                    raise
                _set_aside(path, kept)
                os.replace(draft, path)
            return kept


def _require_sqlite(database: Database, tool: str) -> None:
    if not database.is_sqlite:
        raise InvalidInput(
            f"database {database.shown}",
            "is on a PostgreSQL server",
            f"Use the server's own {tool}, which keeps everything the server knows",
        )


def _require_file(source: Path) -> None:
    if not source.exists():
        raise NotFound(f"{source}: there is no such file. Name a file made by `squadwright backup`")
    if not source.is_file():
        raise InvalidInput(str(source), "is not a file", "Name a file made by `squadwright backup`")


def _require_sound(draft: Path, source: Path) -> None:
    """Bring a copy up to date and read all of it; refuse the backup if that fails."""
    copy = Database(f"sqlite:///{draft}")
    place, advice = str(source), "Name another backup; nothing has been changed"
    try:
        state = copy.state()
        if state in (State.MISSING, State.EMPTY, State.FOREIGN):
            raise InvalidInput(place, "is no backup of this program", advice)
        if state is State.NEWER:
            raise Conflict(f"{place}: was made by a newer version. Install that version or newer")
        copy.initialise()
        faults = copy.faults()
        if faults:
            raise InvalidInput(place, f"is damaged ({faults[0]})", advice)
        with copy.reading() as connection:
            repository.load_club(connection)
    except (ValueError, KeyError, TypeError) as error:
        if isinstance(error, InvalidInput) and error.place == place:
            raise
        reason = error.problem if isinstance(error, InvalidInput) else "its data cannot be read"
        raise InvalidInput(place, reason, advice) from error
    finally:
        copy.close()


def _copy(source: Path, target: Path) -> None:
    """Copy by SQLite's own means, page by page, while others may read and write the source."""
    with (
        closing(sqlite3.connect(f"{source.absolute().as_uri()}?mode=ro", uri=True)) as read,
        closing(sqlite3.connect(target, timeout=0.1)) as written,
    ):
        read.execute("SELECT count(*) FROM sqlite_master").fetchone()
        read.backup(written, pages=256, progress=_patience())


def _patience() -> Callable[[int, int, int], None]:
    """Give up on a database that stays locked; without this the copy would wait for ever."""
    last = [time.monotonic(), -1]

    def progress(_: int, remaining: int, total: int) -> None:
        now = time.monotonic()
        if remaining != last[1]:
            last[:] = [now, remaining]
        elif now - last[0] > LONGEST_WAIT_S:
            raise sqlite3.OperationalError("database is locked")

    return progress


@contextmanager
def _draft_beside(target: Path) -> Iterator[Path]:
    """A private file in the same folder, removed with its side files if it was not moved."""
    number, name = tempfile.mkstemp(prefix=f".{target.name}.", dir=target.parent)
    os.close(number)
    draft = Path(name)
    try:
        yield draft
    finally:
        for ending in ("", *SIDE_FILES):
            Path(f"{draft}{ending}").unlink(missing_ok=True)


def _new_name(path: Path) -> Path:
    """A free name for the old data: club.before-restore-20260302-181500.sqlite3."""
    moment = datetime.now().strftime("%Y%m%d-%H%M%S")
    for number in range(1, 1000):
        again = "" if number == 1 else f"-{number}"
        name = path.with_name(f"{path.stem}.before-restore-{moment}{again}{path.suffix}")
        if not name.exists():
            os.close(os.open(name, os.O_CREAT | os.O_EXCL | os.O_WRONLY, 0o600))
            return name
    raise Conflict(f"{path.parent}: holds too many copies of this second. Remove some")


def _set_aside(path: Path, kept: Path) -> None:
    """Keep a database that cannot be read, as the files it is."""
    for ending in SIDE_FILES:
        side = Path(f"{path}{ending}")
        if side.exists():
            os.replace(side, f"{kept}{ending}")
    os.replace(path, kept)


@contextmanager
def _told_in_one_line(place: str) -> Iterator[None]:
    try:
        yield
    except sqlite3.Error as error:
        if "locked" in str(error):
            raise Conflict(
                "the database is in use by another program. Try again when it has finished"
            ) from error
        raise InvalidInput(place, f"cannot be used ({error})", "Name another file") from error
    except OSError as error:
        raise InvalidInput(
            place, f"cannot be used ({error.strerror})", "Check the folder and your rights"
        ) from error
