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
    ForeignKey,
    ForeignKeyConstraint,
    Integer,
    Table,
    Text,
    Time,
    UniqueConstraint,
    false,
)

from squadwright.storage.columns import day, flag, mass, metadata, number, size, text


def _piece(name: str, *columns: Column[Any]) -> Table:
    """A shelf of the store: one row a piece, or a number of equal pieces."""
    return Table(
        name,
        metadata,
        text("id", key=True),
        number("position"),
        *columns,
        flag("in_service") if name != "single_plate" else number("count"),
        text("note"),
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
        number("position", key=True),
        *((text("id"),) if has_id else ()),
        *columns,
        *((UniqueConstraint("athlete_id", "id"),) if has_id else ()),
    )


club = Table(
    "club",
    metadata,
    Column("number", Integer, primary_key=True, autoincrement=False),
    text("name"),
    number("format_version"),
    text("squads"),
    text("emergency"),
    text("store_walk"),
    text("note"),
    Column("time_zone", Text, nullable=False, server_default=""),
    Column("clash_limits", Text, nullable=False, server_default="{}"),
    Column("gate_limits", Text, nullable=False, server_default="{}"),
    Column("camp_rules", Text, nullable=False, server_default="{}"),
    # Another one with every write: equal stamps mean the same club.
    Column("stamp", Text, nullable=False, server_default=""),
    CheckConstraint("number = 1", name="one_club"),
)

staff_member = Table(
    "staff_member",
    metadata,
    text("name", key=True),
    number("position"),
    text("role"),
    text("days"),
)

week_slot = Table(
    "week_slot",
    metadata,
    text("id", key=True),
    number("position"),
    text("name"),
    text("day"),
    Column("starts_at", Time, nullable=False),
    Column("ends_at", Time, nullable=False),
    text("kind"),
    flag("is_hard"),
    text("squads"),
    Column("work", Text, nullable=False, server_default="not stated"),
    number("planned_effort", optional=True),
    Column("regions", Text, nullable=False, server_default="[]"),
    Column("to_failure", Boolean, nullable=False, server_default=false()),
    Column("room", Text, nullable=True),
    Column("staff", Text, nullable=False, server_default="[]"),
)


def _of_calendar(name: str, *columns: Column[Any]) -> Table:
    """What the calendar has several of, in order."""
    return Table(name, metadata, text("id", key=True), number("position"), *columns)


def _days(*, optional_clock: bool = False) -> Iterator[Column[Any]]:
    yield day("starts_on")
    yield day("ends_on")
    if optional_clock:
        yield Column("starts_at", Time, nullable=True)
        yield Column("ends_at", Time, nullable=True)


closure = _of_calendar("closure", text("name"), *_days(), text("rooms"))
school_term = _of_calendar("school_term", text("name"), *_days())
travel = _of_calendar("travel", text("name"), text("athlete"), *_days(), text("time_zone"))
slot_change = _of_calendar(
    "slot_change",
    text("slot"),
    day("held_on"),
    day("moved_to", optional=True),
    Column("starts_at", Time, nullable=True),
    Column("ends_at", Time, nullable=True),
    Column("room", Text, nullable=True),
    number("planned_effort", optional=True),
    flag("is_off"),
    text("reason"),
)
fixture = _of_calendar(
    "fixture",
    text("uid"),
    text("name"),
    *_days(optional_clock=True),
    text("time_zone"),
    text("place"),
    number("sequence"),
    Column("recurrence", Text, nullable=False, server_default=""),
)

athlete = Table(
    "athlete",
    metadata,
    text("id", key=True),
    number("position"),
    text("name"),
    day("birth_date"),
    text("sex"),
    text("level"),
    text("sport"),
    text("squad"),
    text("weight_class"),
    size("training_age_years"),
    size("stature_m", optional=True),
    text("note"),
    day("guest_until", optional=True),
    Column("medical", Text, nullable=False, server_default="{}"),
    Column("measured", Text, nullable=False, server_default="{}"),
)

strength_test = _of_athlete(
    "strength_test",
    text("lift"),
    *mass("load"),
    number("repetitions"),
    day("taken_on"),
    text("method"),
)

jump_test = _of_athlete(
    "jump_test", text("kind"), size("height_m"), day("taken_on"), text("method")
)

mass_reading = _of_athlete("mass_reading", *mass("reading"), day("taken_on"), text("note"))

event = _of_athlete(
    "event",
    text("name"),
    day("starts_on"),
    text("priority"),
    *mass("mass_limit", optional=True),
    text("weigh_in_rule"),
    number("bouts_expected", optional=True),
    Column("weigh_in", Text, nullable=True),
    number("bout_minutes", optional=True),
    has_id=True,
)

weight_plan = _of_athlete(
    "weight_plan", day("written_on"), text("kept_text"), text("refused"), text("told")
)

restriction = _of_athlete(
    "restriction",
    text("author"),
    text("author_role"),
    day("starts_on"),
    day("until", optional=True),
    text("demands"),
    text("body_areas"),
    flag("all_training"),
    text("reason"),
    text("instruction"),
    has_id=True,
)

clearance = _of_athlete(
    "clearance",
    text("restriction"),
    text("author"),
    day("given_on"),
    text("licence"),
    text("note"),
    has_id=True,
)
clearance.append_constraint(
    ForeignKeyConstraint(
        ["athlete_id", "restriction"],
        ["restriction.athlete_id", "restriction.id"],
        name="fk_clearance_restriction",
    )
)

guardian = _of_athlete("guardian", text("name"), text("relation"), text("telephone"))

consent = _of_athlete(
    "consent", text("purpose"), text("given_by"), day("given_on"), text("text_version")
)

bar = _piece(
    "bar",
    text("name"),
    *mass("mass"),
    *mass("maximum_load", optional=True),
    size("length_m"),
    flag("is_technique_bar"),
)

plate_pair = _piece(
    "plate_pair",
    *mass("plate"),
    number("pairs"),
    *mass("stamped", optional=True),
    flag("is_full_size"),
)

single_plate = _piece("single_plate", *mass("plate"))

collar_pairs = _piece("collar_pairs", number("pairs"), *mass("pair_mass", optional=True))

ball = _piece("ball", *mass("mass"), number("count"), flag("bounces"), flag("fit_for_walls"))

box = _piece(
    "box",
    text("heights_m"),
    size("top_width_m"),
    size("top_depth_m"),
    flag("is_foam"),
    flag("fit_for_landing"),
    *mass("maximum_body_mass", optional=True),
)

other_kit = _piece("other_kit", text("name"), number("count"), size("height_m", optional=True))

room = Table("room", metadata, text("id", key=True), number("position"), text("document"))

# A position of none: no longer in the club, kept because a stored plan may rest on it.
routine = Table(
    "routine",
    metadata,
    text("id", key=True),
    number("version", key=True),
    number("position", optional=True),
    text("document"),
    text("sha256"),
)

session = Table(
    "session",
    metadata,
    text("id", key=True),
    number("revision", key=True),
    number("position", optional=True),
    day("held_on"),
    text("routine"),
    number("routine_version"),
    text("document"),
    text("sha256"),
    ForeignKeyConstraint(["routine", "routine_version"], ["routine.id", "routine.version"]),
)

plan = Table(
    "plan",
    metadata,
    text("session", key=True),
    number("revision", key=True),
    day("held_on"),
    text("document"),
    text("sha256"),
)
