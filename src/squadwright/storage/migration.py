"""Migrations: run in order, each in one transaction with its record, never edited after release.

Alembic is imported only to run them: finding out what a database has needs one row of it.
"""

from sqlalchemy import Connection, Engine, text

RECORD_TABLE = "alembic_version"
SCRIPTS = "squadwright.storage:migrations"
# Every revision, the oldest first; a test holds them to the scripts.
REVISIONS = tuple(f"{number:04}" for number in range(1, 16))
# Any fixed number: two programs that ask for the same lock wait for each other.
_POSTGRESQL_LOCK = 7_281_946


def head() -> str:
    """The revision this program works with."""
    return REVISIONS[-1]


def recorded(connection: Connection) -> str | None:
    """The revision a database says it has."""
    found: str | None = connection.scalar(text(f"SELECT version_num FROM {RECORD_TABLE}"))
    return found


def upgrade(engine: Engine, revision: str = "head") -> None:
    """Bring a database up to a revision; a failing migration leaves neither change nor record."""
    from alembic import command
    from alembic.config import Config

    with engine.connect().execution_options(writes=True) as connection:
        is_postgresql = connection.dialect.name == "postgresql"
        if is_postgresql:
            connection.execute(text(f"SELECT pg_advisory_lock({_POSTGRESQL_LOCK})"))
            connection.commit()
        config = Config()
        config.set_main_option("script_location", SCRIPTS)
        config.attributes["connection"] = connection
        try:
            command.upgrade(config, revision)
        finally:
            connection.rollback()
            if is_postgresql:
                connection.execute(text(f"SELECT pg_advisory_unlock({_POSTGRESQL_LOCK})"))
                connection.commit()
