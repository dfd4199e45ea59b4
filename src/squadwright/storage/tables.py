"""Tables, apart from the model. A mass is kept as typed (amount and unit) and in kg for queries.

``position`` keeps the order of the club file. Rooms, routines, sessions and plans are documents:
JSON text with its SHA-256, so that a stored version can never change unseen.
"""

from collections.abc import Iterator
from typing import Any

from sqlalchemy import (
    Boolean,
    CheckConstraint,
    Column,
    Date,
    Double,
    ForeignKey,
    ForeignKeyConstraint,
    Index,
    Integer,
    MetaData,
    Table,
    Text,
    Time,
    UniqueConstraint,
    false,
)

metadata = MetaData(
    naming_convention={
        "pk": "pk_%(table_name)s",
        "fk": "fk_%(table_name)s_%(column_0_name)s",
        "uq": "uq_%(table_name)s_%(column_0_N_name)s",
        "ck": "ck_%(table_name)s_%(constraint_name)s",
        "ix": "ix_%(table_name)s_%(column_0_N_name)s",
    }
)


def _text(name: str, *, key: bool = False) -> Column[Any]:
    return Column(name, Text, primary_key=key, nullable=False)


def _number(name: str, *, key: bool = False, optional: bool = False) -> Column[Any]:
    return Column(name, Integer, primary_key=key, nullable=optional)


def _day(name: str, *, optional: bool = False) -> Column[Any]:
    return Column(name, Date, nullable=optional)


def _flag(name: str) -> Column[Any]:
    return Column(name, Boolean, nullable=False)


def _size(name: str, *, optional: bool = False) -> Column[Any]:
    return Column(name, Double, nullable=optional)


def _mass(name: str, *, optional: bool = False) -> Iterator[Column[Any]]:
    yield Column(f"{name}_amount", Text, nullable=optional)
    yield Column(f"{name}_unit", Text, nullable=optional)
    yield Column(f"{name}_kg", Double, nullable=optional)


def _piece(name: str, *columns: Column[Any]) -> Table:
    """A shelf of the store: one row a piece, or a number of equal pieces."""
    return Table(
        name,
        metadata,
        _text("id", key=True),
        _number("position"),
        *columns,
        _flag("in_service") if name != "single_plate" else _number("count"),
        _text("note"),
    )


def _of_athlete(name: str, *columns: Column[Any], has_id: bool = False) -> Table:
    """What an athlete has several of, in order."""
    return Table(
        name,
        metadata,
        Column(
            "athlete_id",
            Text,
            ForeignKey("athlete.id", ondelete="CASCADE"),
            primary_key=True,
            nullable=False,
        ),
        _number("position", key=True),
        *((_text("id"),) if has_id else ()),
        *columns,
        *((UniqueConstraint("athlete_id", "id"),) if has_id else ()),
    )


club = Table(
    "club",
    metadata,
    Column("number", Integer, primary_key=True, autoincrement=False),
    _text("name"),
    _number("format_version"),
    _text("squads"),
    _text("emergency"),
    _text("store_walk"),
    _text("note"),
    Column("time_zone", Text, nullable=False, server_default=""),
    Column("clash_limits", Text, nullable=False, server_default="{}"),
    # Another one with every write: equal stamps mean the same club.
    Column("stamp", Text, nullable=False, server_default=""),
    CheckConstraint("number = 1", name="one_club"),
)

staff_member = Table(
    "staff_member",
    metadata,
    _text("name", key=True),
    _number("position"),
    _text("role"),
    _text("days"),
)

week_slot = Table(
    "week_slot",
    metadata,
    _text("id", key=True),
    _number("position"),
    _text("name"),
    _text("day"),
    Column("starts_at", Time, nullable=False),
    Column("ends_at", Time, nullable=False),
    _text("kind"),
    _flag("is_hard"),
    _text("squads"),
    Column("work", Text, nullable=False, server_default="not stated"),
    _number("planned_effort", optional=True),
    Column("regions", Text, nullable=False, server_default="[]"),
    Column("to_failure", Boolean, nullable=False, server_default=false()),
    Column("room", Text, nullable=True),
    Column("staff", Text, nullable=False, server_default="[]"),
)


def _of_calendar(name: str, *columns: Column[Any]) -> Table:
    """What the calendar has several of, in order."""
    return Table(name, metadata, _text("id", key=True), _number("position"), *columns)


def _days(*, optional_clock: bool = False) -> Iterator[Column[Any]]:
    yield _day("starts_on")
    yield _day("ends_on")
    if optional_clock:
        yield Column("starts_at", Time, nullable=True)
        yield Column("ends_at", Time, nullable=True)


closure = _of_calendar("closure", _text("name"), *_days(), _text("rooms"))
school_term = _of_calendar("school_term", _text("name"), *_days())
travel = _of_calendar("travel", _text("name"), _text("athlete"), *_days(), _text("time_zone"))
slot_change = _of_calendar(
    "slot_change",
    _text("slot"),
    _day("held_on"),
    _day("moved_to", optional=True),
    Column("starts_at", Time, nullable=True),
    Column("ends_at", Time, nullable=True),
    Column("room", Text, nullable=True),
    _number("planned_effort", optional=True),
    _flag("is_off"),
    _text("reason"),
)
fixture = _of_calendar(
    "fixture",
    _text("uid"),
    _text("name"),
    *_days(optional_clock=True),
    _text("time_zone"),
    _text("place"),
    _number("sequence"),
)

athlete = Table(
    "athlete",
    metadata,
    _text("id", key=True),
    _number("position"),
    _text("name"),
    _day("birth_date"),
    _text("sex"),
    _text("level"),
    _text("sport"),
    _text("squad"),
    _text("weight_class"),
    _size("training_age_years"),
    _size("stature_m", optional=True),
    _text("note"),
    _day("guest_until", optional=True),
)

strength_test = _of_athlete(
    "strength_test",
    _text("lift"),
    *_mass("load"),
    _number("repetitions"),
    _day("taken_on"),
    _text("method"),
)

jump_test = _of_athlete(
    "jump_test", _text("kind"), _size("height_m"), _day("taken_on"), _text("method")
)

mass_reading = _of_athlete("mass_reading", *_mass("reading"), _day("taken_on"), _text("note"))

event = _of_athlete(
    "event",
    _text("name"),
    _day("starts_on"),
    _text("priority"),
    *_mass("mass_limit", optional=True),
    _text("weigh_in_rule"),
    _number("bouts_expected", optional=True),
    has_id=True,
)

restriction = _of_athlete(
    "restriction",
    _text("author"),
    _text("author_role"),
    _day("starts_on"),
    _day("until", optional=True),
    _text("demands"),
    _text("body_areas"),
    _flag("all_training"),
    _text("reason"),
    _text("instruction"),
    has_id=True,
)

clearance = _of_athlete(
    "clearance",
    _text("restriction"),
    _text("author"),
    _day("given_on"),
    _text("licence"),
    _text("note"),
    has_id=True,
)
clearance.append_constraint(
    ForeignKeyConstraint(
        ["athlete_id", "restriction"],
        ["restriction.athlete_id", "restriction.id"],
        name="fk_clearance_restriction",
    )
)

guardian = _of_athlete("guardian", _text("name"), _text("relation"), _text("telephone"))

consent = _of_athlete(
    "consent", _text("purpose"), _text("given_by"), _day("given_on"), _text("text_version")
)

bar = _piece(
    "bar",
    _text("name"),
    *_mass("mass"),
    *_mass("maximum_load", optional=True),
    _size("length_m"),
    _flag("is_technique_bar"),
)

plate_pair = _piece(
    "plate_pair",
    *_mass("plate"),
    _number("pairs"),
    *_mass("stamped", optional=True),
    _flag("is_full_size"),
)

single_plate = _piece("single_plate", *_mass("plate"))

collar_pairs = _piece("collar_pairs", _number("pairs"), *_mass("pair_mass", optional=True))

ball = _piece("ball", *_mass("mass"), _number("count"), _flag("bounces"), _flag("fit_for_walls"))

box = _piece(
    "box",
    _text("heights_m"),
    _size("top_width_m"),
    _size("top_depth_m"),
    _flag("is_foam"),
    _flag("fit_for_landing"),
    *_mass("maximum_body_mass", optional=True),
)

other_kit = _piece("other_kit", _text("name"), _number("count"), _size("height_m", optional=True))

room = Table("room", metadata, _text("id", key=True), _number("position"), _text("document"))

# A position of none: no longer in the club, kept because a stored plan may rest on it.
routine = Table(
    "routine",
    metadata,
    _text("id", key=True),
    _number("version", key=True),
    _number("position", optional=True),
    _text("document"),
    _text("sha256"),
)

session = Table(
    "session",
    metadata,
    _text("id", key=True),
    _number("revision", key=True),
    _number("position", optional=True),
    _day("held_on"),
    _text("routine"),
    _number("routine_version"),
    _text("document"),
    _text("sha256"),
    ForeignKeyConstraint(["routine", "routine_version"], ["routine.id", "routine.version"]),
)

plan = Table(
    "plan",
    metadata,
    _text("session", key=True),
    _number("revision", key=True),
    _day("held_on"),
    _text("document"),
    _text("sha256"),
)

# What a write changed, by part of the club, so that it can be taken back.
step = Table(
    "step",
    metadata,
    _number("number", key=True),
    _text("id"),
    _day("made_on"),
    _text("entries"),
    UniqueConstraint("id"),
)

# What happened on the floor: rows are added, never changed. ``arrival`` is the order they came in.
record_event = Table(
    "record_event",
    metadata,
    _number("arrival", key=True),
    _text("id"),
    _text("session"),
    _text("document"),
    UniqueConstraint("id"),
    Index(None, "session", "arrival"),
)

# How a session runs: rows are added, the one with the highest number counts. ``start`` is the id
# of the event with which it was started.
course = Table(
    "course",
    metadata,
    _text("session", key=True),
    _number("number", key=True),
    _text("start"),
    _text("revision"),
    _text("document"),
)

# Second devices: a code that waits, or who has joined until the end of the day.
device = Table(
    "device",
    metadata,
    _text("id", key=True),
    _text("token_hash"),
    _text("document"),
    Index(None, "token_hash"),
)
