"""A stored club is the club that was stored, on SQLite and on PostgreSQL."""

import json
from dataclasses import fields, replace
from datetime import date
from pathlib import Path
from random import Random

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from sqlalchemy import func, insert, select, text, update
from sqlalchemy.exc import IntegrityError

from cases import cases
from exchange.clubs import clubs
from squadwright.demo import demo_club
from squadwright.errors import Conflict, NotFound, SquadwrightError
from squadwright.exchange.club_file import write_club
from squadwright.model.athlete import Athlete
from squadwright.model.club import Club, StaffMember, WeekSlot
from squadwright.model.kit import Kit
from squadwright.model.plan import FloorPlan, Plan, SessionHead
from squadwright.model.routine import Routine
from squadwright.model.session import Override
from squadwright.model.shape import plain_types
from squadwright.model.step import Step
from squadwright.services.club_entries import differences
from squadwright.storage import repository, tables
from squadwright.storage.database import Database
from squadwright.storage.documents import fingerprint, load_plan, save_plan
from squadwright.storage.repository import (
    ATHLETE_PARTS,
    IN_STORE,
    OF_ATHLETE,
    load_club,
    save_club,
)
from squadwright.storage.steps import MOST_KEPT, keep_step, load_step
from squadwright.units import Mass, kilograms

MONDAY = date(2026, 3, 2)


def stored(database: Database, club: Club) -> Club | None:
    with database.writing() as connection:
        save_club(connection, club)
    with database.reading() as connection:
        return load_club(connection)


def test_the_demo_club_comes_back_to_the_last_digit_typed(database: Database) -> None:
    club = demo_club(MONDAY)
    loaded = stored(database, club)
    assert loaded == club
    assert loaded is not None
    assert write_club(loaded) == write_club(club)


@settings(
    max_examples=cases(30), suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large]
)
@given(club=clubs())
def test_any_club_comes_back_from_sqlite(
    tmp_path_factory: pytest.TempPathFactory, club: Club
) -> None:
    database = Database(f"sqlite:///{tmp_path_factory.mktemp('any') / 'club.sqlite3'}")
    database.initialise()
    loaded = stored(database, club)
    assert loaded == club
    assert loaded is not None
    assert write_club(loaded) == write_club(club)


@settings(
    max_examples=cases(30), suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large]
)
@given(before=clubs(), other=clubs(), order=st.randoms(use_true_random=False))
def test_a_changed_club_is_stored_as_if_it_were_the_first(
    tmp_path_factory: pytest.TempPathFactory, before: Club, other: Club, order: Random
) -> None:
    database = Database(f"sqlite:///{tmp_path_factory.mktemp('other') / 'club.sqlite3'}")
    database.initialise()
    assert stored(database, before) == before
    held = {a.id for a in before.athletes}
    athletes = [*before.athletes, *(a for a in other.athletes if a.id not in held)]
    athletes = [replace(a, note="n") if order.random() < 0.3 else a for a in athletes]
    sessions = [replace(s, minutes=31) if order.random() < 0.5 else s for s in before.sessions]
    order.shuffle(athletes)
    order.shuffle(sessions)
    after = replace(
        other, athletes=tuple(athletes), routines=before.routines, sessions=tuple(sessions[:2])
    )
    loaded = stored(database, after)
    assert loaded is not None
    assert write_club(loaded) == write_club(after)
    assert database.faults() == []


def test_a_second_club_takes_the_place_of_the_first_whole(database: Database) -> None:
    first = demo_club(MONDAY)
    stored(database, first)
    second = replace(first, name="Another", athletes=first.athletes[:2], sessions=(), week=())
    assert stored(database, second) == second


def test_an_empty_database_holds_no_club(database: Database) -> None:
    with database.reading() as connection:
        assert load_club(connection) is None


def test_two_athletes_of_one_name_stay_two(database: Database) -> None:
    club = demo_club(MONDAY)
    loaded = stored(database, club)
    assert loaded is not None
    samis = [a for a in loaded.athletes if a.name == "Sami Darwazin"]
    assert [a.id for a in samis] == ["A08", "A12"]
    assert samis[0].tests
    assert not samis[1].tests


def test_a_mass_is_kept_as_typed_and_in_kilograms_for_queries(database: Database) -> None:
    stored(database, demo_club(MONDAY))
    table = tables.mass_reading
    query = select(table).where(table.c.athlete_id == "A06", table.c.reading_unit == "lb")
    with database.reading() as connection:
        row = connection.execute(query).mappings().one()
    assert row["reading_amount"] == "184"
    # 184 lb x 0.45359237 kg (international pound, exact)
    assert row["reading_kg"] == pytest.approx(83.46099608, abs=1e-8)


def test_a_club_that_fails_half_way_leaves_the_one_before(
    database: Database, monkeypatch: pytest.MonkeyPatch
) -> None:
    before = demo_club(MONDAY)
    stored(database, before)

    def fails(*_: object) -> None:
        raise RuntimeError("the lights went out")

    monkeypatch.setattr(repository, "save_sessions", fails)
    with pytest.raises(RuntimeError, match="lights"), database.writing() as connection:
        save_club(connection, replace(before, name="Another", week=()))
    with database.reading() as connection:
        assert load_club(connection) == before


def test_a_routine_version_is_never_overwritten_with_other_content(database: Database) -> None:
    club = demo_club(MONDAY)
    stored(database, club)
    changed = replace(club.routines[0], aim="something else")
    other = replace(club, routines=(changed, *club.routines[1:]))
    with pytest.raises(Conflict, match=r"routines\[0\].*'ropewalk' version 1.*version 2"):
        stored(database, other)
    with database.reading() as connection:
        assert load_club(connection) == club
    as_new = replace(changed, version=2)
    both = replace(club, routines=(*club.routines, as_new))
    assert stored(database, both) == both


def test_a_document_stored_before_a_field_was_added_is_still_the_same(database: Database) -> None:
    club = demo_club(MONDAY)
    stored(database, club)
    with database.writing() as connection:
        for table in (tables.routine, tables.session):
            for row in connection.execute(select(table)).mappings().all():
                older = json.loads(row["document"])
                del older["seed" if table is tables.session else "warm_up_s"]
                text_of_older = json.dumps(older)
                connection.execute(
                    update(table)
                    .where(table.c.id == row["id"])
                    .values(document=text_of_older, sha256=fingerprint(text_of_older))
                )
    defaults = Routine("x", 1, "x", "x", ())
    as_loaded = replace(
        club,
        routines=tuple(replace(r, warm_up_s=defaults.warm_up_s) for r in club.routines),
    )
    assert stored(database, as_loaded) == as_loaded
    with database.reading() as connection:
        assert list(connection.execute(select(tables.session.c.revision)).scalars()) == [1, 1]


def test_a_load_typed_with_another_zero_is_a_new_revision(database: Database) -> None:
    club = demo_club(MONDAY)

    def with_load(amount: str) -> Club:
        override = Override("A01", "as felt", load=kilograms(amount))
        return replace(
            club, sessions=(replace(club.sessions[0], overrides=(override,)), club.sessions[1])
        )

    stored(database, with_load("20"))
    loaded = stored(database, with_load("20.0"))
    assert loaded is not None
    assert str(loaded.sessions[0].overrides[0].load) == "20.0 kg"


def test_a_routine_that_left_the_club_is_kept_for_old_plans(database: Database) -> None:
    club = demo_club(MONDAY)
    stored(database, club)
    without = replace(club, routines=(), sessions=())
    assert stored(database, without) == without
    with database.reading() as connection:
        kept = connection.execute(select(func.count()).select_from(tables.routine)).scalar_one()
    assert kept == len(club.routines)
    assert stored(database, club) == club


def test_a_changed_session_is_a_new_revision_beside_the_old(database: Database) -> None:
    club = demo_club(MONDAY)
    stored(database, club)
    stored(database, club)
    changed = replace(club.sessions[0], minutes=45)
    after = replace(club, sessions=(changed, club.sessions[1]))
    assert stored(database, after) == after
    table = tables.session
    query = select(table.c.revision).where(table.c.id == changed.id).order_by(table.c.revision)
    with database.reading() as connection:
        assert list(connection.execute(query).scalars()) == [1, 2]


def plan_of(club: Club, *, seed: int) -> Plan:
    session = club.sessions[0]
    head = SessionHead(
        session.id,
        session.name,
        club.name,
        session.held_on,
        session.starts_at,
        session.minutes,
        session.routine,
        session.routine_version,
        "Ropewalk",
        "complex",
        "strength endurance",
    )
    floor = FloorPlan(session.room, "Weights room")
    return Plan(head, (), (), (), None, (), (), floor, (), (), (), (), seed)


def test_plans_are_kept_by_revision_and_the_same_plan_adds_none(database: Database) -> None:
    club = demo_club(MONDAY)
    one, two = plan_of(club, seed=1), plan_of(club, seed=2)
    with database.writing() as connection:
        assert save_plan(connection, one) == 1
        assert save_plan(connection, one) == 1
        assert save_plan(connection, two) == 2
    with database.reading() as connection:
        assert load_plan(connection, one.session.id) == two
        assert load_plan(connection, one.session.id, 1) == one
        with pytest.raises(NotFound, match="no plan revision 3 is stored"):
            load_plan(connection, one.session.id, 3)
        with pytest.raises(NotFound, match="squadwright plan"):
            load_plan(connection, "no such session")


def test_a_document_altered_behind_our_back_is_found(database: Database) -> None:
    stored(database, demo_club(MONDAY))
    assert database.faults() == []
    table = tables.routine
    with database.writing() as connection:
        connection.execute(
            update(table).where(table.c.id == "ropewalk").values(document='{"id": "ropewalk"}')
        )
    assert database.faults() == ["routine 'ropewalk' version 1 was altered after storing"]


def test_a_clearance_must_lift_a_restriction_that_is_there(database: Database) -> None:
    stored(database, demo_club(MONDAY))
    row = {
        "athlete_id": "A01",
        "position": 0,
        "id": "x",
        "restriction": "A04-shoulder",
        "author": "nobody",
        "given_on": MONDAY,
        "licence": "none",
        "note": "",
    }
    with pytest.raises(SquadwrightError), database.writing() as connection:
        connection.execute(insert(tables.clearance).values(row))


def test_only_one_club_fits_into_a_database(database: Database) -> None:
    stored(database, demo_club(MONDAY))
    others = ", ".join(column.name for column in tables.club.columns if column.name != "number")
    with pytest.raises(SquadwrightError) as caught, database.writing() as connection:
        connection.execute(
            text(f"INSERT INTO club (number, {others}) SELECT 2, {others} FROM club")
        )
    assert isinstance(caught.value.__cause__, IntegrityError)


def _column_names(kind: type, *, without: tuple[str, ...] = ()) -> list[str]:
    """The columns a table of this dataclass needs."""
    names: list[str] = []
    for name, plain in plain_types(kind).items():
        if name in without:
            continue
        names += (
            [f"{name}_{part}" for part in ("amount", "unit", "kg")] if plain is Mass else [name]
        )
    return names


@pytest.mark.parametrize(
    ("kind", "table", "without"),
    [
        (Athlete, tables.athlete, ATHLETE_PARTS),
        (StaffMember, tables.staff_member, ()),
        (WeekSlot, tables.week_slot, ()),
        *((kind, table, ()) for _, table, kind in (*OF_ATHLETE, *IN_STORE)),
    ],
)
def test_every_field_of_the_model_has_its_columns(
    kind: type, table: object, without: tuple[str, ...]
) -> None:
    keys = {"position", "athlete_id"}
    keys |= {"medical", "measured"} if kind is Athlete else set()
    columns = {column.name for column in table.columns}  # type: ignore[attr-defined]
    assert columns - keys == set(_column_names(kind, without=without))


def test_every_shelf_of_the_store_has_a_table() -> None:
    assert {f.name for f in fields(Kit)} == {*(name for name, _, _ in IN_STORE), "store_walk"}


def test_what_an_athlete_has_several_of_has_a_table() -> None:
    several = {f.name for f in fields(Athlete) if "tuple" in str(f.type)}
    assert several == {name for name, _, _ in OF_ATHLETE}


def test_a_stored_file_can_be_read_by_its_owner_only(tmp_path: Path) -> None:
    path = tmp_path / "new folder" / "club.sqlite3"
    Database(f"sqlite:///{path}").initialise()
    assert path.stat().st_mode & 0o077 == 0
    assert path.parent.stat().st_mode & 0o077 == 0


def test_a_step_comes_back_as_it_was_kept(database: Database) -> None:
    club = demo_club(MONDAY)
    other = replace(
        club,
        name="Another",
        squads=club.squads[:2],
        athletes=club.athletes[1:],
        staff=(),
        week=club.week[:3],
        kit=replace(club.kit, bars=club.kit.bars[:1], store_walk=("plates", "bars")),
        emergency=replace(club.emergency, access="by the yard"),
        sessions=(),
    )
    step = Step("abc", MONDAY, differences(club, other))
    with database.writing() as connection:
        keep_step(connection, step)
    with database.reading() as connection:
        assert load_step(connection, "abc") == step
        with pytest.raises(NotFound, match="not remembered"):
            load_step(connection, "abd")


def test_only_so_many_steps_are_remembered(database: Database) -> None:
    with database.writing() as connection:
        for number in range(MOST_KEPT + 2):
            keep_step(connection, Step(f"s{number}", MONDAY, ()))
    with database.reading() as connection:
        assert load_step(connection, "s2").id == "s2"
        with pytest.raises(NotFound):
            load_step(connection, "s1")
