"""Migrations: run in order, each in one transaction with its record, never edited after release."""

from functools import cache

from alembic import command
from alembic.config import Config
from alembic.runtime.migration import MigrationContext
from alembic.script import ScriptDirectory
from sqlalchemy import Connection, Engine, text

RECORD_TABLE = "alembic_version"
SCRIPTS = "squadwright.storage:migrations"
# Any fixed number: two programs that ask for the same lock wait for each other.
_POSTGRESQL_LOCK = 7_281_946


def _config() -> Config:
    config = Config()
    config.set_main_option("script_location", SCRIPTS)
    return config


@cache
def _scripts() -> ScriptDirectory:
    return ScriptDirectory.from_config(_config())


def head() -> str:
    """The revision this program works with."""
    found = _scripts().get_current_head()
    if found is None:
        raise AssertionError("there is no migration")
    return found


def known() -> tuple[str, ...]:
    """Every revision this program knows, the newest first."""
    return tuple(script.revision for script in _scripts().walk_revisions())


def recorded(connection: Connection) -> str | None:
    """The revision a database says it has."""
    return MigrationContext.configure(connection).get_current_revision()


def upgrade(engine: Engine, revision: str = "head") -> None:
    """Bring a database up to a revision; a failing migration leaves neither change nor record."""
    with engine.connect().execution_options(writes=True) as connection:
        is_postgresql = connection.dialect.name == "postgresql"
        if is_postgresql:
            connection.execute(text(f"SELECT pg_advisory_lock({_POSTGRESQL_LOCK})"))
            connection.commit()
        config = _config()
        config.attributes["connection"] = connection
        try:
            command.upgrade(config, revision)
        finally:
            connection.rollback()
            if is_postgresql:
                connection.execute(text(f"SELECT pg_advisory_unlock({_POSTGRESQL_LOCK})"))
                connection.commit()
