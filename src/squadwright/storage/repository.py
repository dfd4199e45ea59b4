"""A club, its sessions and plans, into the tables and back without loss, on one connection.

The caller opens the transaction: nothing here commits, so nothing can be half-stored.
"""

from collections import defaultdict
from collections.abc import Sequence
from typing import Any

from sqlalchemy import Connection, Table, delete, insert, select

from squadwright.model.athlete import (
    Athlete,
    Clearance,
    Consent,
    Event,
    Guardian,
    JumpTest,
    MassReading,
    Restriction,
    StrengthTest,
)
from squadwright.model.club import Club, EmergencyCard, StaffMember, WeekSlot
from squadwright.model.kit import (
    Ball,
    Bar,
    Box,
    CollarPairs,
    Kit,
    OtherKit,
    PlatePair,
    SinglePlate,
)
from squadwright.model.room import Room
from squadwright.storage import tables
from squadwright.storage.documents import (
    from_document,
    load_routines,
    load_sessions,
    save_routines,
    save_sessions,
    to_document,
)
from squadwright.storage.rows import row_of, value_of

# What an athlete has several of: the field of the model, its table, its dataclass.
OF_ATHLETE: tuple[tuple[str, Table, type], ...] = (
    ("tests", tables.strength_test, StrengthTest),
    ("jump_tests", tables.jump_test, JumpTest),
    ("body_mass", tables.mass_reading, MassReading),
    ("events", tables.event, Event),
    ("restrictions", tables.restriction, Restriction),
    ("clearances", tables.clearance, Clearance),
    ("consents", tables.consent, Consent),
)

# What lies in the store: the field of the model, its table, its dataclass.
IN_STORE: tuple[tuple[str, Table, type], ...] = (
    ("bars", tables.bar, Bar),
    ("plates", tables.plate_pair, PlatePair),
    ("single_plates", tables.single_plate, SinglePlate),
    ("collars", tables.collar_pairs, CollarPairs),
    ("balls", tables.ball, Ball),
    ("boxes", tables.box, Box),
    ("other", tables.other_kit, OtherKit),
)

ATHLETE_PARTS = (*(field for field, _, _ in OF_ATHLETE), "guardian")

# Emptied before a club is stored, children first. Routines, sessions and plans are kept.
REPLACED = (
    tables.clearance,
    *(table for _, table, _ in OF_ATHLETE if table is not tables.clearance),
    tables.guardian,
    tables.athlete,
    *(table for _, table, _ in IN_STORE),
    tables.room,
    tables.week_slot,
    tables.staff_member,
    tables.club,
)


def save_club(connection: Connection, club: Club) -> None:
    """Store a club in place of the one there is.

    A stored version of a routine is never overwritten: different content under the same id and
    version is a Conflict.
    """
    for table in REPLACED:
        connection.execute(delete(table))
    connection.execute(insert(tables.club), [_club_row(club)])
    _insert(connection, tables.staff_member, [row_of(member) for member in club.staff])
    _insert(connection, tables.week_slot, [row_of(slot) for slot in club.week])
    _insert(connection, tables.room, [{"id": r.id, "document": to_document(r)} for r in club.rooms])
    for field, table, _ in IN_STORE:
        _insert(connection, table, [row_of(piece) for piece in getattr(club.kit, field)])
    _save_athletes(connection, club.athletes)
    save_routines(connection, club.routines)
    save_sessions(connection, club.sessions)


def load_club(connection: Connection) -> Club | None:
    """The stored club, or None where none has been stored."""
    found = connection.execute(select(tables.club)).mappings().one_or_none()
    if found is None:
        return None
    row = dict(found)
    shelves: dict[str, Any] = {
        field: tuple(value_of(kind, piece) for piece in _rows(connection, table))
        for field, table, kind in IN_STORE
    }
    return value_of(
        Club,
        row,
        emergency=from_document(EmergencyCard, row["emergency"]),
        staff=tuple(value_of(StaffMember, r) for r in _rows(connection, tables.staff_member)),
        athletes=_load_athletes(connection),
        kit=value_of(Kit, row, **shelves),
        rooms=tuple(from_document(Room, r["document"]) for r in _rows(connection, tables.room)),
        week=tuple(value_of(WeekSlot, r) for r in _rows(connection, tables.week_slot)),
        routines=load_routines(connection),
        sessions=load_sessions(connection),
    )


def _club_row(club: Club) -> dict[str, Any]:
    parts = ("staff", "emergency", "athletes", "kit", "rooms", "week", "routines", "sessions")
    return {
        "number": 1,
        **row_of(club, without=parts),
        **row_of(club.kit, without=tuple(field for field, _, _ in IN_STORE)),
        "emergency": to_document(club.emergency),
    }


def _insert(connection: Connection, table: Table, rows: Sequence[dict[str, Any]]) -> None:
    if rows:
        numbered = [{**row, "position": position} for position, row in enumerate(rows)]
        connection.execute(insert(table), numbered)


def _rows(connection: Connection, table: Table) -> list[dict[str, Any]]:
    found = connection.execute(select(table).order_by(table.c.position)).mappings()
    return [dict(row) for row in found]


def _save_athletes(connection: Connection, athletes: Sequence[Athlete]) -> None:
    _insert(connection, tables.athlete, [row_of(a, without=ATHLETE_PARTS) for a in athletes])
    for field, table, _ in OF_ATHLETE:
        rows = [
            {"athlete_id": athlete.id, "position": position, **row_of(part)}
            for athlete in athletes
            for position, part in enumerate(getattr(athlete, field))
        ]
        if rows:
            connection.execute(insert(table), rows)
    guardians = [
        {"athlete_id": a.id, "position": 0, **row_of(a.guardian)}
        for a in athletes
        if a.guardian is not None
    ]
    if guardians:
        connection.execute(insert(tables.guardian), guardians)


def _load_athletes(connection: Connection) -> tuple[Athlete, ...]:
    parts: dict[str, dict[str, list[Any]]] = {}
    for field, table, kind in OF_ATHLETE:
        parts[field] = defaultdict(list)
        for row in _rows(connection, table):
            parts[field][row["athlete_id"]].append(value_of(kind, row))
    guardians = {
        row["athlete_id"]: value_of(Guardian, row) for row in _rows(connection, tables.guardian)
    }
    return tuple(
        value_of(
            Athlete,
            row,
            guardian=guardians.get(row["id"]),
            **{field: tuple(parts[field][row["id"]]) for field in parts},
        )
        for row in _rows(connection, tables.athlete)
    )
