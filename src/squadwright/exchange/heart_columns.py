"""What the columns of a heart recording hold: told by their heads, else by their numbers."""

import math
import re
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from itertools import pairwise
from statistics import median

from squadwright.errors import InvalidInput
from squadwright.exchange.heart_recording import HeartRecording, Measure, recording_of, refused

SHOWN = 40
MOST_COLUMNS = 200
RR_HEADS = frozenset(
    {"rr", "rr interval", "rr intervals", "rri", "r r", "r r interval", "ibi", "nn", "nn interval"}
)
RATE_HEADS = frozenset(
    {"hr", "heart rate", "heartrate", "pulse", "pulse rate", "beats per minute", "bpm"}
)
TIME_HEADS = frozenset(
    {"time", "t", "second", "seconds", "elapsed", "elapsed time", "timestamp", "date time"}
)
LOST = frozenset({"", "-", "--", "na", "n/a", "null", "none"})
TO_MS = {"ms": 1.0, "s": 1000.0, "sec": 1000.0}
TO_SECONDS = {"s": 1.0, "sec": 1.0, "seconds": 1.0, "ms": 0.001, "min": 60.0}
RATE_UNITS = frozenset({"", "bpm", "beats/min", "1/min", "/min", "beats per minute"})
_NUMBER = re.compile(r"[+-]?(?:\d{1,15}\.?\d{0,15}|\.\d{1,15})(?:[eE][+-]?\d{1,3})?")
_CLOCK = re.compile(r"(\d{1,3}):(\d{2})(?::(\d{2}(?:\.\d{1,6})?))?")
_UNIT_IN_HEAD = re.compile(r"^(.*?)\s*[(\[]\s*([^)\]]{1,20}?)\s*[)\]]$")
_UNIT_AT_END = re.compile(r"^(.+?)[ _](ms|s|sec|bpm)$")


@dataclass(frozen=True)
class Column:
    """A column by its plain head, the unit its head names, and its place."""

    head: str
    unit: str
    place: int


def column_of(head: str, place: int) -> Column:
    """``RR interval (ms)`` and ``rr_interval_ms`` are the same column."""
    plain = head.strip().casefold()
    match = _UNIT_IN_HEAD.match(plain) or _UNIT_AT_END.match(plain)
    name, unit = (match[1], match[2]) if match else (plain, "")
    return Column(" ".join(re.split(r"[\s_\-]+", name)).strip(), unit, place)


def recording_from_rows(
    heads: Sequence[str] | None,
    rows: Sequence[Sequence[str]],
    lines: Sequence[str],
    *,
    interval_s: float | None = None,
    starts_at: datetime | None = None,
) -> HeartRecording:
    """A recording from rows of cells; ``lines`` say where each row stands in the file.

    ``interval_s`` is the time between two readings of a heart rate where no column holds it.
    """
    if not rows:
        raise refused("has no line of readings", "It needs one line for each reading")
    notes: list[str] = []
    if heads is None:
        columns, measure, unit, time = _without_heads(rows, notes)
    else:
        columns, measure, unit, time = _by_heads(heads)
    name = columns[0].head or f"column {columns[0].place + 1}"
    factor = _factor_of(measure, unit, rows, columns[0].place, notes)
    places = [f"{line}, {name}" for line in lines]
    values = [
        _reading(_cell(row, columns[0].place), place, factor)
        for row, place in zip(rows, places, strict=True)
    ]
    seconds: list[float] | None = None
    if time is not None:
        seconds, first = _times(rows, lines, time)
        starts_at = starts_at or first
    elif measure == "beats_per_minute":
        if interval_s is None:
            raise refused(
                "has heart rates and no column of times",
                "Say how many seconds lie between two readings",
            )
        seconds = [number * interval_s for number in range(len(values))]
        notes.append(f"The file has no times: one reading every {interval_s:g} s.")
    return recording_of(measure, values, seconds, places, starts_at=starts_at, notes=notes)


def _by_heads(heads: Sequence[str]) -> tuple[list[Column], Measure, str, Column | None]:
    if len(heads) > MOST_COLUMNS:
        raise refused(f"has {len(heads)} columns, more than {MOST_COLUMNS}", "Export fewer columns")
    columns = [column_of(head, place) for place, head in enumerate(heads)]
    time = next((each for each in columns if each.head in TIME_HEADS), None)
    for measure, known in (("rr_ms", RR_HEADS), ("beats_per_minute", RATE_HEADS)):
        found = [each for each in columns if each.head in known]
        if len(found) > 1:
            raise refused(
                f"has {len(found)} columns called {found[0].head!r}", "Keep the one that counts"
            )
        if found:
            is_rr = measure == "rr_ms"
            return found, "rr_ms" if is_rr else "beats_per_minute", found[0].unit, time
    shown = ", ".join(head[:SHOWN] for head in heads[:8]) or "none"
    raise refused(
        f"has no column of RR intervals or heart rate (heads: {shown})",
        "Call the column rr_ms, or heart_rate, in its head line",
    )


def _without_heads(
    rows: Sequence[Sequence[str]], notes: list[str]
) -> tuple[list[Column], Measure, str, Column | None]:
    """One column of readings, or times and readings, told apart by the size of the numbers."""
    width = len(rows[0])
    if width > 2:
        raise refused(
            f"has {width} columns and no head line", "Add a head line, for example time_s,rr_ms"
        )
    place = width - 1
    numbers = [n for row in rows[:1000] if (n := _number(_cell(row, place))) is not None]
    middle = median(numbers) if numbers else math.nan
    time = Column("time", "", 0) if width == 2 else None
    for low, high, measure, unit, words in (
        (0.25, 2.5, "rr_ms", "s", "RR intervals in seconds"),
        (25, 240, "beats_per_minute", "", "heart rate in beats/min"),
        (300, 2500, "rr_ms", "ms", "RR intervals in ms"),
    ):
        if low <= middle <= high:
            notes.append(f"The file has no head line: its numbers are read as {words}.")
            is_rr = measure == "rr_ms"
            return (
                [Column("", unit, place)],
                "rr_ms" if is_rr else "beats_per_minute",
                str(unit),
                time,
            )
    raise refused(
        f"has no head line, and its numbers (middle {middle:g}) could be anything",
        "Add a head line: rr_ms or heart_rate",
    )


def _factor_of(
    measure: Measure, unit: str, rows: Sequence[Sequence[str]], place: int, notes: list[str]
) -> float:
    if measure == "beats_per_minute":
        if unit not in RATE_UNITS:
            raise refused(
                f"has the heart rate in {unit[:SHOWN]!r}, not in beats/min", "Export in beats/min"
            )
        return 1.0
    if unit:
        if unit not in TO_MS:
            raise refused(f"has RR intervals in {unit[:SHOWN]!r}, not in ms or s", "Export in ms")
        return TO_MS[unit]
    numbers = [n for row in rows[:1000] if (n := _number(_cell(row, place))) is not None]
    if numbers and median(numbers) <= 20:
        notes.append("The file names no unit: RR intervals are read as seconds.")
        return 1000.0
    return 1.0


def _times(
    rows: Sequence[Sequence[str]], lines: Sequence[str], time: Column
) -> tuple[list[float], datetime | None]:
    """Seconds since the first reading, and the moment of it where the file has dates."""
    if time.unit and time.unit not in TO_SECONDS:
        raise refused(f"has times in {time.unit[:SHOWN]!r}, not in s", "Export times in seconds")
    factor = TO_SECONDS.get(time.unit, 1.0)
    read = [
        _moment(_cell(row, time.place), f"{line}, {time.head}", factor)
        for row, line in zip(rows, lines, strict=True)
    ]
    first = read[0]
    if isinstance(first, datetime):
        since = [
            (each - first).total_seconds()
            for each in read
            if isinstance(each, datetime) and (each.tzinfo is None) == (first.tzinfo is None)
        ]
        if len(since) != len(read):
            raise refused("has dates in some lines and not in others", "Export with one of the two")
        return since, first
    numbers = [each for each in read if isinstance(each, float)]
    if len(numbers) != len(read):
        raise refused("has dates in some lines and not in others", "Export with one of the two")
    _require_times(numbers)
    return [each - numbers[0] for each in numbers], None


def _require_times(numbers: Sequence[float]) -> None:
    if len(numbers) > 1 and all(before == after for before, after in pairwise(numbers)):
        raise refused("has one and the same time in every line", "Export with the time of each")


def _moment(cell: str, place: str, factor: float) -> float | datetime:
    number = _number(cell)
    if number is not None:
        return number * factor
    clock = _CLOCK.fullmatch(cell)
    if clock is not None:
        if clock[3] is None:
            return int(clock[1]) * 60.0 + int(clock[2])
        return int(clock[1]) * 3600.0 + int(clock[2]) * 60.0 + float(clock[3])
    try:
        return datetime.fromisoformat(cell)
    except ValueError:
        raise InvalidInput(
            place,
            f"{cell[:SHOWN]!r} is not a time",
            "Write seconds, minutes:seconds, or 2026-03-02T18:00:00",
        ) from None


def _reading(cell: str, place: str, factor: float) -> float | None:
    """A value in ms or beats a minute; None where the reading was lost."""
    if cell.casefold() in LOST:
        return None
    number = _number(cell)
    if number is None:
        raise InvalidInput(
            place, f"{cell[:SHOWN]!r} is not a number", "Mend that line, or export the file again"
        )
    # A heart rate or an interval of 0 is how many devices write a reading they lost.
    return number * factor if number else None


def _number(cell: str) -> float | None:
    if cell.count(",") == 1 and "." not in cell:
        cell = cell.replace(",", ".")
    if _NUMBER.fullmatch(cell) is None:
        return None
    value = float(cell)
    return value if math.isfinite(value) else None


def _cell(row: Sequence[str], place: int) -> str:
    return row[place].strip() if place < len(row) else ""
