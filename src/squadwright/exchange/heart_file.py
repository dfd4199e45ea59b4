"""Heart rate or RR intervals from a file of an open kind: CSV, JSON or EDF+.

The file is read as a whole or not at all; its kind is seen from its content. A refusal says where,
the value, the limit, the unit and what to do. No name in a file is kept: whose it is, the coach
says.
"""

import csv
import io
import re
from collections.abc import Sequence
from datetime import datetime
from typing import Any

from squadwright.errors import InvalidInput
from squadwright.exchange.document import parse_object
from squadwright.exchange.heart_columns import recording_from_rows
from squadwright.exchange.heart_edf import is_edf, read_heart_edf
from squadwright.exchange.heart_recording import (
    MOST_BYTES,
    MOST_VALUES,
    HeartRecording,
    refused,
)
from squadwright.exchange.text_file import decoded_text

LONGEST_LINE = 20_000
MOST_HEAD_LINES = 60
DEEPEST = 3
EXPORT_AS = "Export it as CSV, JSON or EDF+"
DELIMITERS = (";", "\t", ",")
STARTS = ("starts_at", "start", "start_time", "startTime")


def read_heart_file(name: str, data: bytes, *, interval_s: float | None = None) -> HeartRecording:
    """The recording in a file; ``interval_s`` parts heart rates that have no times [s]."""
    if not data.strip():
        raise refused("is empty", EXPORT_AS)
    if len(data) > MOST_BYTES:
        raise refused(
            f"has {len(data) / 1e6:.1f} MB, more than {MOST_BYTES / 1e6:.1f} MB",
            "Export one session, and only heart rate or RR intervals",
        )
    if is_edf(data):
        return read_heart_edf(data)
    text = decoded_text(name, data, problem="is no text and no EDF+ file", advice=EXPORT_AS)
    if text.lstrip()[:1] in ("{", "["):
        return _from_json(text, interval_s)
    return _from_text(text, interval_s)


def _from_text(text: str, interval_s: float | None) -> HeartRecording:
    lines = text.splitlines()
    for number, line in enumerate(lines, start=1):
        if len(line) > LONGEST_LINE:
            raise refused(
                f"has {len(line)} characters in line {number}, more than {LONGEST_LINE}",
                "Export text with one line for each reading",
            )
    if len(lines) > MOST_VALUES + MOST_HEAD_LINES:
        raise refused(
            f"has {len(lines)} lines, more than {MOST_VALUES}", "Export one session at a time"
        )
    first, delimiter = _first_row(lines)
    rows: list[list[str]] = []
    places: list[str] = []
    for number, line in enumerate(lines[first:], start=first + 1):
        if line.strip():
            rows.append(_cells(line, delimiter))
            places.append(f"line {number}")
    width = len(rows[0])
    for row, place in zip(rows, places, strict=True):
        if len(row) != width:
            raise InvalidInput(
                place,
                f"has {len(row)} cells where line {first + 1} has {width}",
                "The file may be cut off or damaged: export it again",
            )
    heads = _heads(lines[:first], delimiter, width)
    return recording_from_rows(heads, rows, places, interval_s=interval_s)


def _first_row(lines: Sequence[str]) -> tuple[int, str]:
    """Index of the first line of readings, and what parts its cells."""
    for index, line in enumerate(lines[: MOST_HEAD_LINES + 1]):
        if not line.strip():
            continue
        for delimiter in DELIMITERS:
            cells = _cells(line, delimiter)
            is_parted = len(cells) > 1 or delimiter == DELIMITERS[-1]
            if is_parted and any(cell.strip()[:1].isdigit() for cell in cells[:2]):
                return index, _not_a_decimal_comma(delimiter, lines[:index], line)
    raise refused(
        f"has no line of readings among its first {min(len(lines), MOST_HEAD_LINES + 1)}",
        "It needs one line for each reading: a time and a number, or a number alone",
    )


def _not_a_decimal_comma(delimiter: str, above: Sequence[str], line: str) -> str:
    """The delimiter; another one where "0,812" stands under a head without a comma."""
    head = next((each for each in reversed(above) if each.strip()), ",")
    is_decimal = re.fullmatch(r"\s*\d+,\d+\s*", line) is not None and "," not in head
    return DELIMITERS[0] if delimiter == "," and is_decimal else delimiter


def _cells(line: str, delimiter: str) -> list[str]:
    try:
        return next(csv.reader(io.StringIO(line), delimiter=delimiter), [])
    except csv.Error as error:
        raise refused(f"holds a line that cannot be taken apart ({error})", EXPORT_AS) from error


def _heads(above: Sequence[str], delimiter: str, width: int) -> list[str] | None:
    for line in reversed(above):
        cells = _cells(line, delimiter)
        if len(cells) == width and any(cell.strip() for cell in cells):
            return cells
    return None


def _from_json(text: str, interval_s: float | None) -> HeartRecording:
    is_list = text.lstrip()[:1] == "["
    held: Any = parse_object(f'{{"samples": {text}}}' if is_list else text, place="The file")
    starts_at: datetime | None = None
    for _ in range(DEEPEST):
        if not isinstance(held, dict):
            break
        starts_at = starts_at or _start(held)
        columns = {key: value for key, value in held.items() if _is_column(value)}
        if columns:
            return _from_columns(held, columns, interval_s, starts_at)
        listed = next((v for v in held.values() if isinstance(v, list) and v), None)
        if listed is not None:
            return _from_objects(listed, interval_s, starts_at)
        held = next((v for v in held.values() if isinstance(v, dict)), None)
    raise refused(
        "is JSON without a list of readings",
        'It needs one, for example {"rr_ms": [812, 798, ...]}',
    )


def _is_column(value: Any) -> bool:
    """Whether a JSON value is a list of readings: numbers, texts and nothing else."""
    return (
        isinstance(value, list)
        and bool(value)
        and all(each is None or isinstance(each, str | int | float) for each in value[:100])
    )


def _from_columns(
    held: dict[str, Any],
    columns: dict[str, list[Any]],
    interval_s: float | None,
    starts_at: datetime | None,
) -> HeartRecording:
    measure = held.get("measure")
    heads: list[str] | None = [
        measure if key == "values" and isinstance(measure, str) else key for key in columns
    ]
    if list(columns) == ["samples"]:
        heads = None
    lengths = {key: len(values) for key, values in columns.items()}
    if len(set(lengths.values())) > 1:
        told = ", ".join(f"{key[:40]} {length}" for key, length in list(lengths.items())[:5])
        raise refused(f"has lists of unequal length ({told})", "Give one time for each reading")
    rows = [[_text(each) for each in row] for row in zip(*columns.values(), strict=True)]
    places = [f"reading {number}" for number in range(1, len(rows) + 1)]
    return recording_from_rows(heads, rows, places, interval_s=interval_s, starts_at=starts_at)


def _from_objects(
    listed: list[Any], interval_s: float | None, starts_at: datetime | None
) -> HeartRecording:
    if not isinstance(listed[0], dict) or not listed[0]:
        raise refused("is JSON without a list of readings", 'Use {"rr_ms": [812, 798, ...]}')
    heads = [key for key, value in listed[0].items() if not isinstance(value, dict | list)]
    rows = []
    for number, each in enumerate(listed, start=1):
        if not isinstance(each, dict):
            raise InvalidInput(f"reading {number}", "is not an object", "Correct it there")
        rows.append([_text(each.get(key)) for key in heads])
    places = [f"reading {number}" for number in range(1, len(rows) + 1)]
    return recording_from_rows(heads, rows, places, interval_s=interval_s, starts_at=starts_at)


def _text(value: Any) -> str:
    """A JSON value as the cell of a table."""
    if value is None or value is False:
        return ""
    return value if isinstance(value, str) else str(value)[:60]


def _start(held: dict[str, Any]) -> datetime | None:
    for key in STARTS:
        value = held.get(key)
        if isinstance(value, str):
            try:
                return datetime.fromisoformat(value)
            except ValueError:
                return None
    return None
