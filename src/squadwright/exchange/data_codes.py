"""What explains the tables: each column with its unit, each word a column may hold."""

from collections.abc import Iterable, Iterator
from datetime import UTC, datetime
from enum import EnumType
from inspect import getdoc
from typing import Any, Literal, get_args, get_origin

from squadwright.exchange.data_rows import CellTable
from squadwright.exchange.data_shape import Column, all_shapes
from squadwright.library import exercises
from squadwright.model.club import Club
from squadwright.model.health_log import HealthTouch
from squadwright.model.record import VALUE_OF, EventKind, RecordEvent, in_force

READ_ME, COLUMNS, CODES, INCIDENTS = "read_me", "columns", "codes", "incidents"
HEALTH_LOG = "health_log"
EXPLAINING = frozenset({READ_ME, COLUMNS, CODES, INCIDENTS, HEALTH_LOG})
HEALTH_LOG_HEADS = ("time [UTC]", "who", "athlete", "field", "what was done")
COLUMN_HEADS = ("table", "column", "unit", "kind", "may be empty", "words", "what it holds")
CODE_HEADS = ("words", "code", "what it is")
INCIDENT_HEADS = ("time", "session", "athlete", "name", "kind", "words", "author")
WORDS = (
    "Everything of one club. The tables columns and codes explain the others.",
    "A row of a table with a dot in its name belongs to the row that its column 'of' names.",
    "A text that would start a formula has the mark ' before it; it goes away when it is read.",
    "An empty cell is nothing known. Masses stay as typed, with their unit.",
    "The tables read_me, columns, codes, incidents and health_log are not read in again.",
    "It holds dates of birth, body masses and health data: keep it where only you can read it.",
)


def explaining_tables(club: Club, events: tuple[RecordEvent, ...]) -> tuple[CellTable, ...]:
    """What goes with the tables, for whoever reads them; none of it is read in."""
    return (
        CellTable(READ_ME, ("about these tables",), tuple((line,) for line in WORDS)),
        CellTable(COLUMNS, COLUMN_HEADS, tuple(column_rows())),
        CellTable(CODES, CODE_HEADS, tuple(code_rows())),
        CellTable(INCIDENTS, INCIDENT_HEADS, tuple(_incidents(club, events))),
    )


def _utc(at: datetime) -> str:
    return f"{at.astimezone(UTC):%Y-%m-%d %H:%M:%S}"


def health_log_table(lines: Iterable[HealthTouch]) -> CellTable:
    """Who touched which health field, and when; never what it holds."""
    return CellTable(
        HEALTH_LOG,
        HEALTH_LOG_HEADS,
        tuple(
            (_utc(each.at), each.who, each.athlete, each.field, each.how.value) for each in lines
        ),
    )


def column_rows() -> Iterator[tuple[str, ...]]:
    """Each column of each table."""
    for shape in all_shapes():
        keys = (*(("row",) if shape.has_key else ()), *(("of",) if shape.has_of else ()))
        for key in keys:
            words = "the row other tables name" if key == "row" else "the row it belongs to"
            yield (shape.name, key, "", "text", "no", "", words)
        for column in shape.columns:
            may = "yes" if column.is_optional else "no"
            yield (
                *(shape.name, column.name, column.unit, column.kind, may),
                *(words_name(column), column.note),
            )


def code_rows() -> Iterator[tuple[str, str, str]]:
    """Each word that a column may hold."""
    seen: set[type] = set()
    for shape in all_shapes():
        for column in shape.columns:
            words = _enumeration(column.plain)
            if words is not None and words not in seen:
                seen.add(words)
                yield from _codes(words)
    for exercise in sorted(exercises(), key=lambda each: each.id):
        yield ("exercise", exercise.id, exercise.name)


def words_name(column: Column) -> str:
    """The list of words a column takes from; empty where it takes any."""
    found = _enumeration(column.plain)
    if found is not None:
        return found.__name__
    is_exercise = column.field in ("exercise", "swap_exercise")
    return "exercise" if is_exercise else ""


def _enumeration(plain: Any) -> EnumType | None:
    if get_origin(plain) is Literal:
        return _enumeration(type(get_args(plain)[0]))
    if get_origin(plain) is tuple and get_args(plain):
        return _enumeration(get_args(plain)[0])
    return plain if isinstance(plain, EnumType) else None


def _codes(words: Any) -> Iterator[tuple[str, str, str]]:
    for member in words:
        about = " ".join((getdoc(words) or "").split())
        if words is EventKind and member in VALUE_OF:
            about = f"{about} Its value is in {VALUE_OF[member][0]}."
        yield (words.__name__, str(member.value), about)


def _incidents(club: Club, events: tuple[RecordEvent, ...]) -> Iterator[tuple[str, ...]]:
    names = club.shown_names()
    for event in in_force(events):
        if event.kind in (EventKind.INCIDENT, EventKind.OUT):
            yield (
                event.at.isoformat(),
                event.session,
                event.athlete,
                names.get(event.athlete, ""),
                event.kind.value,
                event.words,
                event.author,
            )
