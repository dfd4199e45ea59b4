"""One suite on both databases: every test that asks for ``database`` runs on each."""

from collections.abc import Iterator
from pathlib import Path

import pytest

from postgresql_server import PostgresqlServer
from squadwright.storage.database import Database


@pytest.fixture(scope="session")
def postgresql_template(postgresql_server: PostgresqlServer) -> str:
    """A database with the tables made, from which each test's own is cloned."""
    name = "squadwright_template"
    postgresql_server.create_database(name)
    database = Database(postgresql_server.url(name))
    try:
        database.initialise()
    finally:
        database.close()
    return name


@pytest.fixture(params=["sqlite", "postgresql"])
def database(request: pytest.FixtureRequest, tmp_path: Path) -> Iterator[Database]:
    """A database with its tables and no club."""
    if request.param == "sqlite":
        made = Database(f"sqlite:///{tmp_path / 'club.sqlite3'}")
        made.initialise()
    else:
        made = Database(request.getfixturevalue("postgresql_url"))
    yield made
    made.close()


@pytest.fixture(params=["sqlite", "postgresql"])
def bare_database(request: pytest.FixtureRequest, tmp_path: Path) -> Iterator[Database]:
    """A database without tables."""
    if request.param == "sqlite":
        made = Database(f"sqlite:///{tmp_path / 'club.sqlite3'}")
        yield made
        made.close()
        return
    server: PostgresqlServer = request.getfixturevalue("postgresql_server")
    name = f"bare_{tmp_path.name}".replace("-", "_")[:60]
    server.create_database(name)
    made = Database(server.url(name))
    yield made
    made.close()
    server.drop_database(name)
