"""A plan made from a stored club is kept, and comes back as it was made."""

import json
from datetime import date

import pytest
from jsonschema import Draft202012Validator

from services.fakes import FakeKeeper, FakeStore
from squadwright.demo import demo_club
from squadwright.demo.sessions import BARBELL_SESSION, PLYOMETRIC_SESSION
from squadwright.errors import NotFound
from squadwright.exchange.plan_file import read_plan, write_plan
from squadwright.exchange.schema import plan_schema
from squadwright.services.planning import plan_session
from squadwright.storage.database import Database
from squadwright.storage.keeper import SqlKeeper

MONDAY = date(2026, 3, 2)


@pytest.fixture(scope="module")
def keeper(tmp_path_factory: pytest.TempPathFactory) -> SqlKeeper:
    """A SQLite database that holds the demo club."""
    made = SqlKeeper(Database(f"sqlite:///{tmp_path_factory.mktemp('plans') / 'club.sqlite3'}"))
    made.initialise()
    with made.writing() as store:
        store.save_club(demo_club(MONDAY))
    return made


@pytest.mark.parametrize("session", [BARBELL_SESSION, PLYOMETRIC_SESSION])
def test_a_plan_of_the_demo_club_is_kept_written_and_read_without_loss(
    keeper: SqlKeeper, session: str
) -> None:
    plan = plan_session(keeper, session, today=MONDAY).plan
    with keeper.reading() as store:
        assert store.load_plan(session) == plan
    text = write_plan(plan)
    assert read_plan(text) == plan
    schema = Draft202012Validator(plan_schema())
    assert [error.message for error in schema.iter_errors(json.loads(text))] == []


def test_the_same_session_planned_again_adds_no_plan(keeper: SqlKeeper) -> None:
    first = plan_session(keeper, BARBELL_SESSION, today=MONDAY).plan
    assert plan_session(keeper, BARBELL_SESSION, today=MONDAY).plan == first
    with keeper.reading() as store, pytest.raises(NotFound, match="no plan revision 2"):
        store.load_plan(BARBELL_SESSION, 2)


def test_without_a_name_the_session_of_today_is_planned_else_the_next() -> None:
    keeper = FakeKeeper(FakeStore(demo_club(MONDAY)), is_ready=True)
    planned = plan_session(keeper, None, today=date(2026, 3, 3))
    assert planned.plan.session.id == PLYOMETRIC_SESSION
    assert keeper.store.plans[PLYOMETRIC_SESSION] == [planned.plan]


def test_a_session_nobody_knows_is_not_found() -> None:
    keeper = FakeKeeper(FakeStore(demo_club(MONDAY)), is_ready=True)
    with pytest.raises(NotFound, match="no session has the id 'sunday'"):
        plan_session(keeper, "sunday", today=MONDAY)
