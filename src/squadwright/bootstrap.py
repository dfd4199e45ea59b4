"""All wiring in one place: which database the use cases work on."""

import os
import tempfile
from datetime import date
from pathlib import Path

from squadwright.config import database_url, demo_database_url, sqlite_url
from squadwright.demo import demo_club
from squadwright.demo.diary import demo_diary
from squadwright.errors import InvalidInput, SquadwrightError
from squadwright.model.calendar import monday_of
from squadwright.model.club import Club
from squadwright.model.diary import DiaryEntry, DiaryStep
from squadwright.services.unit_of_work import Keeper
from squadwright.storage.database import Database
from squadwright.storage.keeper import SqlKeeper


def open_keeper(database: str | None = None, *, demo: bool = False) -> Keeper:
    """The database named, the user's own, or that of the demo club (never the user's)."""
    if not demo:
        return SqlKeeper(Database(database_url(database)))
    if database is not None:
        raise InvalidInput("--demo", "has a database of its own", "Leave out --demo or --database")
    return open_demo(demo_database_url(), today=date.today())


def open_demo(address: str, *, today: date) -> Keeper:
    """The database of the demo club, made anew when its club is not the one of this week."""
    wanted = demo_club(monday_of(today))
    database = Database(address)
    if _held(database) != wanted:
        database.close()
        _make_anew(database.path, wanted, demo_diary(monday_of(today)))
    return SqlKeeper(Database(address))


def _held(database: Database) -> Club | None:
    try:
        with SqlKeeper(database).reading() as store:
            return store.load_club()
    except (SquadwrightError, ValueError, KeyError, TypeError):
        return None


def _make_anew(path: Path, club: Club, diary: tuple[DiaryEntry, ...]) -> None:
    """Fill a new file beside the old one, then put it in its place in one step."""
    try:
        path.parent.mkdir(parents=True, exist_ok=True, mode=0o700)
        with tempfile.TemporaryDirectory(dir=path.parent, prefix=".demo-") as folder:
            made = Database(sqlite_url(Path(folder) / path.name))
            made.initialise()
            with SqlKeeper(made).writing() as store:
                store.save_club(club)
                step = DiaryStep("demo", club.sessions[0].held_on, tuple(e.id for e in diary))
                store.diary.write(diary, (), step)
            made.close()
            for ending in ("-wal", "-shm"):
                Path(f"{path}{ending}").unlink(missing_ok=True)
            os.replace(made.path, path)
    except OSError as error:
        raise InvalidInput(
            str(path), f"cannot be made ({error.strerror})", "Check the folder and your rights"
        ) from error
