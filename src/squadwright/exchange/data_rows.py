"""Everything as tables of cells, and back: every value comes back as it went out."""

import json
import re
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime, time
from typing import Any

from squadwright.errors import InvalidInput
from squadwright.exchange.complaint import Complaint, shown
from squadwright.exchange.data_file import DataFile, sound
from squadwright.exchange.data_shape import (
    CLUB,
    DIARY,
    EVENTS,
    READINGS,
    Column,
    TableShape,
    all_shapes,
    club_shape,
    diary_shapes,
    events_shape,
)
from squadwright.exchange.reading import adapter, read_strictly

Cell = str | int | float | None
Row = tuple[Cell, ...]
_UNIT = re.compile(r" \[[^\]]*\]$")
_WHOLE = re.compile(r"-?[0-9]{1,15}(\.0)?")
_NUMBER = re.compile(r"-?[0-9]{1,17}(\.[0-9]{1,20})?([eE][+-]?[0-9]{1,3})?")
MOST_SHOWN = 60


@dataclass(frozen=True)
class CellTable:
    """A table as a file has it; ``lines`` say where each row stands, for whoever must mend it."""

    name: str
    heads: tuple[str, ...]
    rows: tuple[tuple[Any, ...], ...]
    lines: tuple[str, ...] = ()


def tables_of(data: DataFile) -> tuple[CellTable, ...]:
    """Everything as tables; those without a row are left out, but for the club."""
    held = adapter(DataFile).dump_python((data,), mode="json")[0]
    rows: dict[str, list[Row]] = {}
    _fill(rows, club_shape(), [held["club"]], "")
    for shape in diary_shapes():
        kind = shape.name.partition(".")[2]
        _fill(rows, shape, [e for e in held["diary"] if e["content"]["kind"] == kind], "")
    _fill(rows, events_shape(), held["events"], "")
    return tuple(
        CellTable(shape.name, shape.heads, tuple(rows[shape.name]))
        for shape in all_shapes()
        if rows.get(shape.name)
    )


def data_of(tables: Sequence[CellTable], *, place: str) -> DataFile:
    """Everything in tables; InvalidInput names the table, the line and the column."""
    reader = _Reader(tables)
    document: dict[str, Any] = {"diary": []}
    clubs = reader.objects(club_shape(), "", "club")
    if len(clubs) != 1:
        raise InvalidInput(
            place, f"has {len(clubs)} rows of the table {CLUB!r}", "It needs one, with the name"
        )
    document["club"] = clubs[0]
    for shape in diary_shapes():
        start = len(document["diary"])
        document["diary"] += reader.objects(shape, "", DIARY, start)
    document["events"] = reader.objects(events_shape(), "", EVENTS)
    reader.refuse_what_is_left()
    data, complaints = read_strictly(DataFile, json.dumps(document), place=place)
    return sound(data, [reader.told(complaint) for complaint in complaints])


def _fill(rows: dict[str, list[Row]], shape: TableShape, items: Sequence[Any], of: str) -> None:
    ids = [item.get("id") for item in items]
    for number, item in enumerate(items, start=1):
        own = item.get("id")
        key = f"{of}/{number}"
        if not shape.has_of:
            key = own if isinstance(own, str) and ids.count(own) == 1 else f"{own or ''}~{number}"
        keys = (*((key,) if shape.has_key else ()), *((of,) if shape.has_of else ()))
        cells = (_to_cell(_at(item, column.name.split(".")), column) for column in shape.columns)
        rows.setdefault(shape.name, []).append((*keys, *cells))
        for child in shape.children:
            _fill(rows, child, _items(child, item), key)


def _items(shape: TableShape, item: Any) -> list[Any]:
    held = _at(item, shape.path)
    if shape.is_paired:
        pairs = zip(*(held[name] for name in READINGS), strict=True)
        return [dict(zip(READINGS, pair, strict=True)) for pair in pairs]
    if shape.is_single:
        return [] if held is None else [held]
    return list(held or ())


def _at(item: Any, path: Sequence[str]) -> Any:
    for step in path:
        item = item.get(step) if isinstance(item, dict) else None
    return item


def _to_cell(value: Any, column: Column) -> Cell:
    if value is None:
        return None
    if column.kind == "yes or no":
        return "yes" if value else "no"
    if column.kind == "list as JSON":
        return json.dumps(value, ensure_ascii=False) if value else None
    assert isinstance(value, str | int | float)
    return None if value == "" else value


class _Reader:
    """Puts rows back into the objects they came from, and remembers where each one stood."""

    def __init__(self, tables: Sequence[CellTable]) -> None:
        known = {shape.name: shape for shape in all_shapes()}
        self._rows: dict[str, dict[str, list[tuple[str, dict[str, Any], str]]]] = {}
        self._places: dict[str, str] = {}
        for table in tables:
            shape = known.get(table.name)
            if shape is None:
                raise InvalidInput(
                    f"table {shown(table.name)}", "is none of ours", "Take it out of the file"
                )
            self._rows[table.name] = _rows_by_parent(shape, table)

    def objects(
        self, shape: TableShape, of: str, path: str, start: int = 0
    ) -> list[dict[str, Any]]:
        """The objects of a table that belong to a row, with all that belongs to them."""
        found = self._rows.get(shape.name, {}).pop(of, [])
        objects = []
        for number, (key, held, line) in enumerate(found, start=start):
            here = path if shape.name == CLUB or shape.is_single else f"{path}[{number}]"
            self._places[here] = line
            for child in shape.children:
                at = ".".join((here, *child.path))
                self._put(held, child, self.objects(child, key if child.has_of else "", at))
            objects.append(held)
        return objects

    @staticmethod
    def _put(held: dict[str, Any], child: TableShape, items: list[dict[str, Any]]) -> None:
        into = held
        for step in child.path if child.is_paired else child.path[:-1]:
            into = into.setdefault(step, {})
        if child.is_paired:
            for name in READINGS:
                into[name] = [item.get(name) for item in items]
        elif child.is_single:
            into[child.path[-1]] = items[0] if items else None
        else:
            into[child.path[-1]] = items

    def refuse_what_is_left(self) -> None:
        """Every row must belong to one that is there."""
        for name, by_parent in self._rows.items():
            for of, rows in by_parent.items():
                raise InvalidInput(
                    rows[0][2],
                    f"belongs to {shown(of)}, and no row of that name is there",
                    f"Correct the column 'of' of the table {name}",
                )

    def told(self, complaint: Complaint) -> Complaint:
        """A complaint by table, line and column instead of the place in the document."""
        place, rest = complaint.place, ""
        while place and place not in self._places:
            place, _, last = place.rpartition(".")
            rest = f"{last}.{rest}" if rest else last
        if not place:
            return complaint
        column = f", {rest}" if rest else ""
        return Complaint(f"{self._places[place]}{column}", complaint.problem, complaint.advice)


def _rows_by_parent(
    shape: TableShape, table: CellTable
) -> dict[str, list[tuple[str, dict[str, Any], str]]]:
    heads = [_UNIT.sub("", str(head).strip()) for head in table.heads]
    columns = {column.name: column for column in shape.columns}
    for head in heads:
        if head not in columns and head not in ("row", "of"):
            raise InvalidInput(
                f"table {table.name}",
                f"has a column {shown(head)}, which is none of ours",
                f"Take it out; it may have: {', '.join(shape.heads)}"[:400],
            )
    if len(set(heads)) != len(heads):
        raise InvalidInput(f"table {table.name}", "has one column twice", "Keep one of the two")
    held: dict[str, list[tuple[str, dict[str, Any], str]]] = {}
    for row, line in zip(table.rows, table.lines, strict=True):
        cells = dict(zip(heads, row, strict=False))
        item: dict[str, Any] = {}
        for at in shape.inline:
            _set(item, at, {})
        for name, column in columns.items():
            value = _from_cell(cells.get(name), column, f"{line}, {name}")
            if value is None and name in cells and not column.is_optional:
                value = "" if column.kind == "text" else None
            if value is not None:
                _set(item, name, value)
        key = _key(cells.get("row")) if shape.has_key else ""
        of = _key(cells.get("of")) if shape.has_of else ""
        held.setdefault(of, []).append((key, item, line))
    return held


def _key(cell: Any) -> str:
    if cell is None:
        return ""
    return f"{cell:.10g}" if isinstance(cell, float) else str(cell)


def _set(item: dict[str, Any], at: str, value: Any) -> None:
    *steps, last = at.split(".")
    for step in steps:
        item = item.setdefault(step, {})
    item.setdefault(last, value) if value == {} else item.__setitem__(last, value)


def _from_cell(cell: Any, column: Column, place: str) -> Any:
    """The JSON value of a cell; None where it is empty."""
    if cell is None or cell == "":
        return None
    if column.kind in ("whole number", "number"):
        return _number(cell, column, place)
    if column.kind == "yes or no":
        word = {True: "yes", False: "no"}.get(cell, cell) if isinstance(cell, bool) else cell
        if word not in ("yes", "no"):
            raise InvalidInput(place, f"{_brief(cell)} is not yes or no", "Write yes or no")
        return word == "yes"
    if column.kind == "list as JSON":
        return _listed(str(cell), place)
    return _text(cell, column)


def _number(cell: Any, column: Column, place: str) -> int | float:
    is_whole = column.kind == "whole number"
    text = repr(cell) if isinstance(cell, int | float) else str(cell)
    pattern = _WHOLE if is_whole else _NUMBER
    if isinstance(cell, bool) or pattern.fullmatch(text) is None:
        unit = f" [{column.unit}]" if column.unit else ""
        raise InvalidInput(
            place,
            f"{_brief(cell)} is not a {column.kind}{unit}",
            "Write it like 32.5, with a point",
        )
    return int(float(text)) if is_whole else float(text)


def _text(cell: Any, column: Column) -> str:
    if isinstance(cell, datetime):
        return cell.date().isoformat() if column.kind == "date" else cell.isoformat()
    if isinstance(cell, date | time):
        return cell.isoformat()
    return f"{cell:.10g}" if isinstance(cell, float) else str(cell)


def _listed(text: str, place: str) -> Any:
    try:
        value = json.loads(text, parse_constant=_refuse_constant)
    except (ValueError, RecursionError):
        value = None
    if not isinstance(value, list | dict):
        raise InvalidInput(place, f"{_brief(text)} is not a list", 'Write it like ["Mat", "Cage"]')
    return value


def _refuse_constant(word: str) -> Any:
    raise ValueError(word)


def _brief(cell: Any) -> str:
    return shown(str(cell)[:MOST_SHOWN])
