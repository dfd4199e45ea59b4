"""A database is made ready before pages work on it."""

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest

from squadwright.config import sqlite_url
from squadwright.errors import Conflict
from squadwright.services.opening import make_ready
from squadwright.services.unit_of_work import Store
from squadwright.storage.database import Database
from squadwright.storage.keeper import SqlKeeper


def test_a_new_database_is_made_once(tmp_path: Path) -> None:
    keeper = SqlKeeper(Database(sqlite_url(tmp_path / "new.sqlite3")))
    assert make_ready(keeper)
    assert not make_ready(keeper)
    with keeper.reading() as store:
        assert store.load_club() is None


class OlderKeeper(SqlKeeper):
    """A database of an older version."""

    @contextmanager
    def reading(self) -> Iterator[Store]:
        raise Conflict("was made by an older version")
        yield

    def initialise(self) -> bool:
        raise AssertionError("it must not be changed without a backup")


def test_a_database_of_an_older_version_is_left_as_it_is(tmp_path: Path) -> None:
    with pytest.raises(Conflict):
        make_ready(OlderKeeper(Database(sqlite_url(tmp_path / "old.sqlite3"))))
