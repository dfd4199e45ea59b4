"""A backup is whole, is checked before it replaces anything, and never costs the data there was."""

import shutil
import sqlite3
from collections.abc import Callable
from contextlib import closing
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest

from squadwright.demo import demo_club
from squadwright.errors import Conflict, InvalidInput, NotFound
from squadwright.model.club import Club
from squadwright.storage import backup
from squadwright.storage.backup import back_up, restore
from squadwright.storage.database import Database
from squadwright.storage.repository import load_club, save_club

MONDAY = date(2026, 3, 2)


@pytest.fixture
def stored(tmp_path: Path) -> Database:
    """A SQLite database that holds the demo club."""
    database = Database(f"sqlite:///{tmp_path / 'club.sqlite3'}")
    database.initialise()
    keep(database, demo_club(MONDAY))
    return database


def keep(database: Database, club: Club) -> None:
    with database.writing() as connection:
        save_club(connection, club)


def held(database: Database) -> Club | None:
    with database.reading() as connection:
        return load_club(connection)


def held_in(path: Path) -> Club | None:
    return held(Database(f"sqlite:///{path}"))


def test_a_backup_holds_all_and_is_one_plain_private_file(stored: Database, tmp_path: Path) -> None:
    target = tmp_path / "backups" / "monday.sqlite3"
    target.parent.mkdir()
    back_up(stored, target)
    assert [p.name for p in target.parent.iterdir()] == ["monday.sqlite3"]
    assert target.stat().st_mode & 0o077 == 0
    with closing(sqlite3.connect(target)) as connection:
        assert connection.execute("PRAGMA journal_mode").fetchone() == ("delete",)
        assert connection.execute("PRAGMA integrity_check").fetchone() == ("ok",)
    assert held_in(target) == demo_club(MONDAY)


def test_a_backup_is_taken_while_the_database_is_read(stored: Database, tmp_path: Path) -> None:
    with stored.reading() as connection:
        assert load_club(connection) is not None
        back_up(stored, tmp_path / "monday.sqlite3")
    assert held_in(tmp_path / "monday.sqlite3") == demo_club(MONDAY)


def test_a_backup_never_overwrites_a_file(stored: Database, tmp_path: Path) -> None:
    target = tmp_path / "monday.sqlite3"
    target.write_text("something else", encoding="utf-8")
    with pytest.raises(Conflict, match="is there already"):
        back_up(stored, target)
    assert target.read_text(encoding="utf-8") == "something else"


def test_a_backup_of_nothing_is_refused(tmp_path: Path) -> None:
    missing = Database(f"sqlite:///{tmp_path / 'none.sqlite3'}")
    with pytest.raises(NotFound, match="nothing to back up"):
        back_up(missing, tmp_path / "monday.sqlite3")
    assert list(tmp_path.iterdir()) == []


def test_a_backup_into_no_folder_is_refused(stored: Database, tmp_path: Path) -> None:
    with pytest.raises(InvalidInput, match="cannot be used"):
        back_up(stored, tmp_path / "none" / "monday.sqlite3")


def test_a_restored_backup_replaces_the_data_and_keeps_the_old(
    stored: Database, tmp_path: Path
) -> None:
    target = tmp_path / "monday.sqlite3"
    back_up(stored, target)
    later = replace(demo_club(MONDAY), note="a week later")
    keep(stored, later)
    kept = restore(stored, target)
    assert held(stored) == demo_club(MONDAY)
    assert kept is not None
    assert kept.name.startswith("club.before-restore-")
    assert kept.stat().st_mode & 0o077 == 0
    assert held_in(kept) == later
    again = restore(stored, target)
    assert again not in (None, kept)


def test_a_backup_is_restored_where_there_was_nothing(stored: Database, tmp_path: Path) -> None:
    target = tmp_path / "monday.sqlite3"
    back_up(stored, target)
    fresh = Database(f"sqlite:///{tmp_path / 'new' / 'club.sqlite3'}")
    assert restore(fresh, target) is None
    assert held(fresh) == demo_club(MONDAY)


def test_a_restored_database_still_takes_writers_and_readers(
    stored: Database, tmp_path: Path
) -> None:
    target = tmp_path / "monday.sqlite3"
    back_up(stored, target)
    restore(stored, target)
    keep(stored, replace(demo_club(MONDAY), note="after"))
    with closing(sqlite3.connect(stored.path)) as connection:
        assert connection.execute("PRAGMA journal_mode").fetchone() == ("wal",)
    assert stored.faults() == []


def truncated(path: Path) -> None:
    data = path.read_bytes()
    path.write_bytes(data[: len(data) // 2])


def scribbled(path: Path) -> None:
    data = bytearray(path.read_bytes())
    middle = len(data) // 2
    data[middle : middle + 20_000] = b"\xaa" * 20_000
    path.write_bytes(bytes(data))


def no_database(path: Path) -> None:
    path.write_text("these are notes about Tuesday\n" * 100, encoding="utf-8")


def empty(path: Path) -> None:
    path.write_bytes(b"")


def changed_document(path: Path) -> None:
    with closing(sqlite3.connect(path)) as connection, connection:
        connection.execute("UPDATE routine SET document = '{}' WHERE id = 'ropewalk'")


def of_another_program(path: Path) -> None:
    path.unlink()
    with closing(sqlite3.connect(path)) as connection, connection:
        connection.execute("CREATE TABLE recipes (name TEXT)")


def of_a_newer_version(path: Path) -> None:
    with closing(sqlite3.connect(path)) as connection, connection:
        connection.execute("UPDATE alembic_version SET version_num = '9999'")


def of_words_nobody_knows(path: Path) -> None:
    with closing(sqlite3.connect(path)) as connection, connection:
        connection.execute("UPDATE athlete SET sex = 'unknown' WHERE id = 'A01'")


@pytest.mark.parametrize(
    "damage",
    [
        truncated,
        scribbled,
        no_database,
        empty,
        changed_document,
        of_another_program,
        of_a_newer_version,
        of_words_nobody_knows,
    ],
)
def test_a_damaged_backup_changes_nothing(
    stored: Database, tmp_path: Path, damage: Callable[[Path], None]
) -> None:
    target = tmp_path / "monday.sqlite3"
    back_up(stored, target)
    damage(target)
    before = sorted(p.name for p in tmp_path.iterdir())
    with pytest.raises((InvalidInput, Conflict)) as caught:
        restore(stored, target)
    assert "\n" not in str(caught.value)
    assert sorted(p.name for p in tmp_path.iterdir()) == before
    assert held(stored) == demo_club(MONDAY)


def test_a_broken_database_is_set_aside_and_the_backup_takes_its_place(
    stored: Database, tmp_path: Path
) -> None:
    target = tmp_path / "monday.sqlite3"
    back_up(stored, target)
    no_database(stored.path)
    broken = stored.path.read_bytes()
    kept = restore(stored, target)
    assert kept is not None
    assert kept.read_bytes() == broken
    assert held(stored) == demo_club(MONDAY)


def test_a_database_in_use_by_another_writer_is_not_replaced(
    stored: Database, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    target = tmp_path / "monday.sqlite3"
    back_up(stored, target)
    monkeypatch.setattr(backup, "LONGEST_WAIT_S", 0.2)
    other = Database(str(stored.url))
    with other.writing(), pytest.raises(Conflict, match="in use by another program"):
        restore(stored, target)
    assert held(stored) == demo_club(MONDAY)
    assert not list(tmp_path.glob("*.before-restore-*"))


def test_a_backup_can_be_copied_about_like_any_file(stored: Database, tmp_path: Path) -> None:
    target = tmp_path / "monday.sqlite3"
    back_up(stored, target)
    shutil.copy(target, tmp_path / "copy.sqlite3")
    assert restore(stored, tmp_path / "copy.sqlite3") is not None


@pytest.mark.parametrize("what", [back_up, restore])
def test_a_server_is_backed_up_by_its_own_tools(
    what: Callable[[Database, Path], object], tmp_path: Path
) -> None:
    database = Database("postgresql://coach@localhost/club")
    with pytest.raises(InvalidInput, match=r"on a PostgreSQL server\. Use the server's own pg_"):
        what(database, tmp_path / "x")


@pytest.mark.parametrize(("name", "error"), [("none", NotFound), ("", InvalidInput)])
def test_a_backup_that_is_no_file_is_refused(
    stored: Database, tmp_path: Path, name: str, error: type[Exception]
) -> None:
    with pytest.raises(error, match="squadwright backup"):
        restore(stored, tmp_path / name)
