"""Migrations run on both databases, whole or not at all, and say what they found."""

from pathlib import Path

import pytest
from alembic.autogenerate import compare_metadata
from alembic.config import Config
from alembic.operations import Operations
from alembic.runtime.migration import MigrationContext
from alembic.script import ScriptDirectory
from sqlalchemy import create_engine, inspect, text

from squadwright.errors import Conflict, InvalidInput, NotFound
from squadwright.storage import migration
from squadwright.storage.columns import metadata
from squadwright.storage.database import Database, State


def test_a_bare_database_is_brought_to_the_head_and_matches_the_tables(
    bare_database: Database,
) -> None:
    assert bare_database.state() in (State.MISSING, State.EMPTY)
    bare_database.initialise()
    assert bare_database.state() is State.CURRENT
    assert bare_database.initialise() is State.CURRENT
    with bare_database.reading() as connection:
        context = MigrationContext.configure(connection, opts={"compare_type": True})
        assert compare_metadata(context, metadata) == []


def test_a_migration_that_fails_leaves_neither_tables_nor_record(
    bare_database: Database, monkeypatch: pytest.MonkeyPatch
) -> None:
    create = Operations.create_table

    def fails_at_sessions(self: Operations, name: str, *rest: object, **more: object) -> object:
        if name == "session":
            raise RuntimeError("the lights went out")
        return create(self, name, *rest, **more)  # type: ignore[arg-type]

    monkeypatch.setattr(Operations, "create_table", fails_at_sessions)
    with pytest.raises(RuntimeError, match="lights"):
        bare_database.initialise()
    engine = create_engine(bare_database.url)
    assert set(inspect(engine).get_table_names()) <= {migration.RECORD_TABLE}
    engine.dispose()
    assert bare_database.state() is State.EMPTY
    monkeypatch.undo()
    bare_database.initialise()
    assert bare_database.state() is State.CURRENT


def test_the_program_knows_every_migration_in_order() -> None:
    config = Config()
    config.set_main_option("script_location", migration.SCRIPTS)
    scripts = ScriptDirectory.from_config(config)
    newest_first = [script.revision for script in scripts.walk_revisions()]
    assert tuple(reversed(newest_first)) == migration.REVISIONS
    assert scripts.get_heads() == [migration.head()]


def set_record(database: Database, revision: str) -> None:
    with database.engine.begin() as connection:
        connection.execute(text("UPDATE alembic_version SET version_num = :v"), {"v": revision})


def test_a_database_of_a_newer_version_is_left_alone(database: Database) -> None:
    set_record(database, "9999")
    assert database.state() is State.NEWER
    with pytest.raises(Conflict, match="newer version"), database.reading():
        pass
    with pytest.raises(Conflict, match="newer version"):
        database.initialise()


def test_the_tables_of_another_program_are_left_alone(bare_database: Database) -> None:
    if bare_database.is_sqlite:
        bare_database.path.touch()
    with bare_database.engine.begin() as connection:
        connection.execute(text("CREATE TABLE recipes (name TEXT)"))
    assert bare_database.state() is State.FOREIGN
    with pytest.raises(InvalidInput, match="another program"):
        bare_database.initialise()


def test_a_missing_file_is_not_made_by_reading(tmp_path: Path) -> None:
    database = Database(f"sqlite:///{tmp_path / 'none.sqlite3'}")
    with pytest.raises(NotFound, match="squadwright import"), database.reading():
        pass
    assert list(tmp_path.iterdir()) == []


def test_a_file_that_is_no_database_is_refused_in_one_line(tmp_path: Path) -> None:
    path = tmp_path / "club.sqlite3"
    path.write_text("these are notes about Tuesday, not a database at all\n" * 40)
    database = Database(f"sqlite:///{path}")
    with pytest.raises(InvalidInput, match=r"club\.sqlite3: cannot be read") as caught:
        database.initialise()
    assert "\n" not in str(caught.value)
    assert path.read_text().startswith("these are notes")


def test_a_folder_that_cannot_be_made_is_refused_in_one_line(tmp_path: Path) -> None:
    (tmp_path / "file").touch()
    database = Database(f"sqlite:///{tmp_path / 'file' / 'club.sqlite3'}")
    with pytest.raises(InvalidInput, match="cannot be made"):
        database.initialise()


@pytest.mark.parametrize(
    ("address", "told"),
    [
        ("mysql://a@b/c", "'mysql' is not supported"),
        ("nonsense://x", "'nonsense' is not supported"),
        ("sqlite://", "names no plain file"),
        ("sqlite:///:memory:", "names no plain file"),
        ("://", "is not an address"),
        ("", "is not an address"),
    ],
)
def test_an_address_that_cannot_work_is_refused(address: str, told: str) -> None:
    with pytest.raises(InvalidInput, match=told):
        Database(address)


def test_a_server_that_does_not_answer_is_told_without_its_password(tmp_path: Path) -> None:
    database = Database(f"postgresql://coach:hunter2@/club?host={tmp_path}")
    with pytest.raises(InvalidInput) as caught:
        database.initialise()
    assert "hunter2" not in str(caught.value)
    assert "\n" not in str(caught.value)


def test_a_writer_waits_for_another_and_then_says_so(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("squadwright.storage.database.BUSY_TIMEOUT_MS", 20)
    database = Database(f"sqlite:///{tmp_path / 'club.sqlite3'}")
    database.initialise()
    other = Database(str(database.url))
    with (
        database.writing(),
        pytest.raises(Conflict, match="in use by another program"),
        other.writing(),
    ):
        pass
