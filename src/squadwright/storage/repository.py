"""A club, its sessions and plans, into the tables and back without loss, on one connection.

The caller opens the transaction: nothing here commits, so nothing can be half-stored.
"""

from collections import OrderedDict, defaultdict
from collections.abc import Sequence
from secrets import token_hex
from threading import Lock
from typing import Any

from sqlalchemy import Connection, Table, bindparam, delete, insert, select, update

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
    WeightPlan,
)
from squadwright.model.calendar import ClashLimits, Closure, Fixture, SchoolTerm, SlotChange, Travel
from squadwright.model.camp_rules import CampRules
from squadwright.model.club import Club, EmergencyCard, GateLimits, StaffMember, WeekSlot
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
from squadwright.model.measured import Measured
from squadwright.model.medical import Medical
from squadwright.model.room import Room
from squadwright.model.shape import is_same
from squadwright.model.shelf import Shelf, pieces_on
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
    ("weight_plans", tables.weight_plan, WeightPlan),
    ("restrictions", tables.restriction, Restriction),
    ("clearances", tables.clearance, Clearance),
    ("consents", tables.consent, Consent),
)

# What lies in the store: the shelf, its table, its dataclass.
IN_STORE: tuple[tuple[Shelf, Table, type], ...] = (
    (Shelf.BARS, tables.bar, Bar),
    (Shelf.PLATES, tables.plate_pair, PlatePair),
    (Shelf.SINGLE_PLATES, tables.single_plate, SinglePlate),
    (Shelf.COLLARS, tables.collar_pairs, CollarPairs),
    (Shelf.BALLS, tables.ball, Ball),
    (Shelf.BOXES, tables.box, Box),
    (Shelf.OTHER, tables.other_kit, OtherKit),
)

ATHLETE_PARTS = (*(field for field, _, _ in OF_ATHLETE), "guardian", "medical", "measured")
# A clearance rests on a restriction: it is taken out before it and written after it.
ATHLETE_TABLES = (
    tables.clearance,
    *(table for _, table, _ in OF_ATHLETE if table is not tables.clearance),
    tables.guardian,
)

# What is stored as a whole when anything in it has changed: field of the club, table, dataclass.
WHOLE: tuple[tuple[str, Table, type], ...] = (
    ("staff", tables.staff_member, StaffMember),
    ("week", tables.week_slot, WeekSlot),
    ("closures", tables.closure, Closure),
    ("terms", tables.school_term, SchoolTerm),
    ("travel", tables.travel, Travel),
    ("slot_changes", tables.slot_change, SlotChange),
    ("fixtures", tables.fixture, Fixture),
)

MOST_IN_MIND = 8
_in_mind: OrderedDict[str, Club] = OrderedDict()
_lock = Lock()


def save_club(connection: Connection, club: Club) -> None:
    """Store a club in place of the one there is; what is equal already is left as it is.

    A stored version of a routine is never overwritten: different content under the same id and
    version is a Conflict.
    """
    stored = load_club(connection)
    for field, table, _ in WHOLE:
        if stored is None or not is_same(getattr(stored, field), getattr(club, field)):
            _replace(connection, table, [row_of(each) for each in getattr(club, field)])
    if stored is None or not is_same(stored.rooms, club.rooms):
        rows = [{"id": room.id, "document": to_document(room)} for room in club.rooms]
        _replace(connection, tables.room, rows)
    for shelf, table, _ in IN_STORE:
        pieces = pieces_on(club.kit, shelf)
        if stored is None or not is_same(pieces_on(stored.kit, shelf), pieces):
            _replace(connection, table, [row_of(piece) for piece in pieces])
    _save_athletes(connection, club.athletes, () if stored is None else stored.athletes)
    if stored is None or not is_same(stored.routines, club.routines):
        save_routines(connection, club.routines)
    save_sessions(connection, club.sessions, () if stored is None else stored.sessions)
    connection.execute(delete(tables.club))
    connection.execute(insert(tables.club), [_club_row(club)])


def load_club(connection: Connection) -> Club | None:
    """The stored club, or None where none has been stored.

    Every write gives the club another stamp, so that one read before need not be read again.
    """
    found = connection.execute(select(tables.club)).mappings().one_or_none()
    if found is None:
        return None
    stamp = str(found["stamp"])
    with _lock:
        known = _in_mind.get(stamp)
        if known is not None:
            _in_mind.move_to_end(stamp)
            return known
    club = _read_club(connection, dict(found))
    if stamp:
        with _lock:
            _in_mind[stamp] = club
            while len(_in_mind) > MOST_IN_MIND:
                _in_mind.popitem(last=False)
    return club


def _read_club(connection: Connection, row: dict[str, Any]) -> Club:
    shelves: dict[str, Any] = {
        shelf: tuple(value_of(kind, piece) for piece in _rows(connection, table))
        for shelf, table, kind in IN_STORE
    }
    return value_of(
        Club,
        row,
        emergency=from_document(EmergencyCard, row["emergency"]),
        clash_limits=from_document(ClashLimits, row["clash_limits"]),
        gate_limits=from_document(GateLimits, row["gate_limits"]),
        camp_rules=from_document(CampRules, row["camp_rules"]),
        athletes=_load_athletes(connection),
        kit=value_of(Kit, row, **shelves),
        rooms=tuple(from_document(Room, r["document"]) for r in _rows(connection, tables.room)),
        routines=load_routines(connection),
        sessions=load_sessions(connection),
        **{
            field: tuple(value_of(kind, each) for each in _rows(connection, table))
            for field, table, kind in WHOLE
        },
    )


def _club_row(club: Club) -> dict[str, Any]:
    whole = (field for field, _, _ in WHOLE)
    own = (
        *("emergency", "athletes", "kit", "rooms", "routines", "sessions"),
        *("clash_limits", "gate_limits", "camp_rules"),
    )
    return {
        "number": 1,
        **row_of(club, without=(*own, *whole)),
        **row_of(club.kit, without=tuple(Shelf)),
        "emergency": to_document(club.emergency),
        "clash_limits": to_document(club.clash_limits),
        "gate_limits": to_document(club.gate_limits),
        "camp_rules": to_document(club.camp_rules),
        "stamp": token_hex(16),
    }


def _replace(connection: Connection, table: Table, rows: Sequence[dict[str, Any]]) -> None:
    connection.execute(delete(table))
    if rows:
        numbered = [{**row, "position": position} for position, row in enumerate(rows)]
        connection.execute(insert(table), numbered)


def _rows(connection: Connection, table: Table) -> list[dict[str, Any]]:
    found = connection.execute(select(table).order_by(table.c.position)).mappings()
    return [dict(row) for row in found]


def _save_athletes(
    connection: Connection, athletes: Sequence[Athlete], stored: Sequence[Athlete]
) -> None:
    """Write whoever is new or changed, take out whoever is gone, put all in order."""
    before = {athlete.id: (place, athlete) for place, athlete in enumerate(stored)}
    changed: list[tuple[int, Athlete]] = []
    moved: list[dict[str, Any]] = []
    for position, athlete in enumerate(athletes):
        place, known = before.pop(athlete.id, (-1, None))
        if known is None or not is_same(known, athlete):
            changed.append((position, athlete))
        elif place != position:
            moved.append({"moved": athlete.id, "to": position})
    held = {athlete.id for athlete in stored}
    gone = [*before, *(athlete.id for _, athlete in changed if athlete.id in held)]
    if gone:
        for table in ATHLETE_TABLES:
            connection.execute(delete(table).where(table.c.athlete_id.in_(gone)))
        connection.execute(delete(tables.athlete).where(tables.athlete.c.id.in_(gone)))
    if moved:
        table = tables.athlete
        put = update(table).where(table.c.id == bindparam("moved"))
        connection.execute(put.values(position=bindparam("to")), moved)
    _insert_athletes(connection, changed)


def _insert_athletes(connection: Connection, placed: Sequence[tuple[int, Athlete]]) -> None:
    rows: dict[Table, list[dict[str, Any]]] = defaultdict(list)
    for place, athlete in placed:
        own = {
            **row_of(athlete, without=ATHLETE_PARTS),
            "medical": to_document(athlete.medical),
            "measured": to_document(athlete.measured),
            "position": place,
        }
        rows[tables.athlete].append(own)
        for field, table, _ in OF_ATHLETE:
            rows[table] += [
                {"athlete_id": athlete.id, "position": position, **row_of(part)}
                for position, part in enumerate(getattr(athlete, field))
            ]
        if athlete.guardian is not None:
            guardian = {"athlete_id": athlete.id, "position": 0, **row_of(athlete.guardian)}
            rows[tables.guardian].append(guardian)
    for table in (tables.athlete, *reversed(ATHLETE_TABLES)):
        if rows[table]:
            connection.execute(insert(table), rows[table])


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
            medical=from_document(Medical, row["medical"]),
            measured=from_document(Measured, row["measured"]),
            **{field: tuple(parts[field][row["id"]]) for field in parts},
        )
        for row in _rows(connection, tables.athlete)
    )
