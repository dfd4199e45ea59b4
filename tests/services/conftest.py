"""What the use cases are tried on: a real database with the demo club."""

from datetime import date
from pathlib import Path

import pytest

from squadwright.config import sqlite_url
from squadwright.demo import demo_club
from squadwright.storage.database import Database
from squadwright.storage.keeper import SqlKeeper

MONDAY = date(2026, 3, 2)


@pytest.fixture
def keeper(tmp_path: Path) -> SqlKeeper:
    """A database of one test's own with the demo club."""
    made = SqlKeeper(Database(sqlite_url(tmp_path / "club.sqlite3")))
    made.initialise()
    with made.writing() as store:
        store.save_club(demo_club(MONDAY))
    return made
