"""The tables everything is written as, worked out from the model: a new field is a new column.

A list inside a row is a table of its own, whose column ``of`` names the row it belongs to.
"""

from collections.abc import Iterator
from dataclasses import dataclass, fields, is_dataclass, replace
from datetime import date, datetime, time
from enum import EnumType
from functools import cache
from types import NoneType, UnionType
from typing import Annotated, Any, Literal, Union, get_args, get_origin, get_type_hints

from squadwright.exchange.field_notes import UNITS, field_note
from squadwright.model.club import Club
from squadwright.model.diary import Content, DiaryEntry, HeartSeries
from squadwright.model.record import RecordEvent
from squadwright.model.shape import plain_type
from squadwright.units import Mass

DIARY_KINDS: tuple[type, ...] = get_args(get_args(Content)[0])
"""Every kind of entry: a new one is a new table without any further word."""

CLUB, EVENTS, DIARY = "club", "events", "diary"
READINGS = ("seconds", "values")
UNITS_OF_FIELDS = {
    "effort": "0 to 10",
    "planned_effort": "0 to 10",
    "score": "0 to 10",
    "seconds": "s",
    "values": "ms or beats/min, see measure",
    "attempts": "see unit",
    "minutes": "min",
    "millimetres": "mm",
    "measured_percent": "% fat",
    "error_percent": "% fat",
    "least_fat_percent": "% fat",
}
UNITS_OF_CLASSES = {
    "RecordEvent.value": "see codes, by kind",
    "TestResult.value": "see unit",
    "Answer.value": "from lowest to highest",
    "Room.outline": "m",
    "ThrowWall.start": "m",
    "ThrowWall.end": "m",
    "Rest.ratio": "times the work",
    "GateLimit.value": "as its limit says",
    "BodyComposition.specific_gravity": "1",
    "MorningUrine.specific_gravity": "1",
    "AroundTraining.hours": "h",
    "PainReading.during": "0 to 10",
    "PainReading.after": "0 to 10",
    **dict.fromkeys(
        ("CampRules.main_weight", "CampRules.other_weight", "CampRules.later_weight"),
        "times a percent of performance",
    ),
    **dict.fromkeys(
        (
            "CampRules.least_cut",
            "CampRules.most_cut",
            "CampRules.week_floor",
            "CampRules.coach_share",
        ),
        "share of the usual rounds, 0 to 1",
    ),
    "CampRules.change_cost": "percent of performance for a round",
}


@dataclass(frozen=True)
class Column:
    """A column: where its value stands in a row's object, of which kind, in which unit."""

    name: str
    kind: str
    unit: str
    is_optional: bool
    plain: Any
    owner: str
    field: str

    @property
    def head(self) -> str:
        """The head of the column, with its unit."""
        return f"{self.name} [{self.unit}]" if self.unit else self.name

    @property
    def note(self) -> str:
        """What it holds."""
        return field_note(self.owner, self.field)


@dataclass(frozen=True)
class TableShape:
    """A table: its columns, and the tables of the lists inside its rows.

    ``path`` is where its rows stand in the object of the row above. ``is_single`` where there is
    one of it or none, ``is_paired`` where two lists of equal length stand side by side.
    """

    name: str
    path: tuple[str, ...]
    columns: tuple[Column, ...]
    children: tuple["TableShape", ...]
    inline: tuple[str, ...] = ()
    is_single: bool = False
    is_paired: bool = False
    has_of: bool = True

    @property
    def has_key(self) -> bool:
        """Whether other tables name its rows."""
        return any(child.has_of for child in self.children)

    @property
    def heads(self) -> tuple[str, ...]:
        """The heads of its columns."""
        keys = (*(("row",) if self.has_key else ()), *(("of",) if self.has_of else ()))
        return (*keys, *(column.head for column in self.columns))


@cache
def club_shape() -> TableShape:
    """The club: one row, and a table for each list it has."""
    shape = _shape(Club, CLUB, (), is_single=True, has_of=False)
    tops = tuple(
        replace(child, has_of=False) if not child.is_single else child for child in shape.children
    )
    return replace(shape, children=tops)


@cache
def diary_shapes() -> tuple[TableShape, ...]:
    """One table for each kind of entry."""
    return tuple(
        replace(
            _shape(DiaryEntry, f"{DIARY}.{kind.kind.value}", (), content=kind),  # type: ignore[attr-defined]
            has_of=False,
        )
        for kind in DIARY_KINDS
    )


@cache
def events_shape() -> TableShape:
    """What was noted, one event a row."""
    return replace(_shape(RecordEvent, EVENTS, ()), has_of=False)


def all_shapes() -> tuple[TableShape, ...]:
    """Every table, those inside others after them."""
    roots = (club_shape(), *diary_shapes(), events_shape())
    return tuple(shape for root in roots for shape in _with_children(root))


def _with_children(shape: TableShape) -> Iterator[TableShape]:
    yield shape
    for child in shape.children:
        yield from _with_children(child)


def _shape(
    kind: Any,
    name: str,
    path: tuple[str, ...],
    *,
    is_single: bool = False,
    has_of: bool = True,
    content: type | None = None,
) -> TableShape:
    columns: list[Column] = []
    children: list[TableShape] = []
    inline: list[str] = []
    _collect(kind, name, "", columns, children, inline, content)
    return TableShape(
        name, path, tuple(columns), tuple(children), tuple(inline), is_single, has_of=has_of
    )


def _collect(
    kind: Any,
    table: str,
    prefix: str,
    columns: list[Column],
    children: list[TableShape],
    inline: list[str],
    content: type | None,
) -> None:
    for name, hint in get_type_hints(kind, include_extras=True).items():
        if name not in {field.name for field in fields(kind)}:
            continue
        at = f"{prefix}{name}"
        path = tuple(at.split("."))
        own = name if table == CLUB and not prefix else f"{table}.{at}"
        own = at if table == CLUB else own
        plain = content if content is not None and name == "content" else plain_type(hint)
        is_optional = _is_optional(hint)
        item = get_args(plain)[0] if get_origin(plain) is tuple and get_args(plain) else None
        if kind is HeartSeries and name in READINGS:
            if name == READINGS[0]:
                children.append(_readings(table, path[:-1]))
        elif _is_record(plain) and is_optional:
            children.append(_shape(plain, own, path, is_single=True))
        elif _is_record(plain):
            inline.append(at)
            _collect(plain, table, f"{at}.", columns, children, inline, None)
        elif _is_record(plain_type(item)):
            children.append(_shape(plain_type(item), own, path))
        else:
            unit = _unit(kind.__name__, name, plain)
            columns.append(Column(at, _kind(plain), unit, is_optional, plain, kind.__name__, name))


def _readings(table: str, path: tuple[str, ...]) -> TableShape:
    columns = tuple(
        Column(name, "number", UNITS_OF_FIELDS[name], False, float, "HeartSeries", name)
        for name in READINGS
    )
    return TableShape(f"{table}.readings", path, columns, (), is_paired=True)


def _is_record(plain: Any) -> bool:
    return isinstance(plain, type) and is_dataclass(plain) and plain is not Mass


def _is_optional(hint: Any) -> bool:
    if get_origin(hint) is Annotated:
        return _is_optional(get_args(hint)[0])
    return get_origin(hint) in (Union, UnionType) and NoneType in get_args(hint)


def _kind(plain: Any) -> str:
    """What a cell of the column holds."""
    if get_origin(plain) is Literal:
        return _kind(type(get_args(plain)[0]))
    simple = {
        bool: "yes or no",
        int: "whole number",
        float: "number",
        Mass: "mass as typed",
        datetime: "instant",
        date: "date",
        time: "time of day",
        str: "text",
    }
    if plain in simple:
        return simple[plain]
    return "word" if isinstance(plain, EnumType) else "list as JSON"


def _unit(owner: str, name: str, plain: Any) -> str:
    known = UNITS_OF_CLASSES.get(f"{owner}.{name}", "") or UNITS_OF_FIELDS.get(name, "")
    if plain is Mass:
        return "kg or lb, as typed"
    if known:
        return known
    return next((unit for ending, unit in UNITS.items() if name.endswith(ending)), "")
