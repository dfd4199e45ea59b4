"""Force over time from a text file: columns of numbers under any head, tab, comma or semicolon.

The file is read as a whole or not at all. A refusal says the line, the value, the unit and what to
do; sizes are checked before anything is taken apart.
"""

import re
from collections.abc import Sequence
from dataclasses import dataclass
from statistics import median

import numpy as np
from numpy.typing import NDArray

from squadwright.errors import InvalidInput
from squadwright.formulas.force_time.trace import LARGEST_FORCE_N, RATE, ForceTrace
from squadwright.formulas.published import PROGRAM_LIMIT

MOST_BYTES = 16_000_000
MOST_CELLS = 2_000_000
MOST_ROWS = 400_000
MOST_COLUMNS = 200
MOST_HEAD_LINES = 100
LONGEST_LINE = 20_000
FEWEST_ROWS = 50
UNEVEN_FRACTION = 0.1
"""A step of time may differ from the usual one by this share: times are printed rounded."""
SHOWN = 40

NEWTONS = {"n": 1.0, "newton": 1.0, "newtons": 1.0, "kn": 1000.0}
SECONDS = {"s": 1.0, "sec": 1.0, "seconds": 1.0, "ms": 0.001}
UNIT_WORDS = {*NEWTONS, *SECONDS, "m", "mm", "cm", "n m", "nm", "v", "mv", "kg", "kgf", "lbf", "-"}
_NUMBER = re.compile(r"[+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d{1,3})?")
_PLAIN_LINE = re.compile(r"[0-9eE+\-.\s;]*")
_UNIT_IN_HEAD = re.compile(r"[(\[]\s*([^)\]]{1,12}?)\s*[)\]]\s*$")
_BINARY = re.compile(r"[\x00-\x08\x0e-\x1f]")


@dataclass(frozen=True, eq=False)
class ForceTable:
    """The numbers of a file, with head and unit of each column ("" where the file has none)."""

    heads: tuple[str, ...]
    units: tuple[str, ...]
    first_line: int
    values: NDArray[np.float64]

    def column(self, name: str | int) -> int:
        """Place of a column by its head, or by its number counted from 1."""
        if isinstance(name, int):
            if 1 <= name <= len(self.heads):
                return name - 1
            raise InvalidInput(
                "column", f"{name} is outside 1 to {len(self.heads)}", "Count from 1 at the left"
            )
        found = [i for i, head in enumerate(self.heads) if _plain(head) == _plain(name)]
        if len(found) == 1:
            return found[0]
        heads = ", ".join(head for head in self.heads[:20] if head) or "none"
        raise InvalidInput(
            "column",
            f"{name[:SHOWN]!r} stands {len(found)} times in the head (heads: {heads})",
            "Give the number of the column instead, counted from 1 at the left",
        )

    def trace(
        self, force: str | int, *, time: str | int | None = None, rate_hz: float | None = None
    ) -> ForceTrace:
        """The force of one column; the rate comes from a column of times or is given."""
        if (time is None) == (rate_hz is None):
            raise InvalidInput(
                "rate_hz", "needs a column of times or a rate, and not both", "Give one of the two"
            )
        if rate_hz is None:
            assert time is not None
            rate_hz = self._rate(self.column(time))
        RATE.check("rate_hz", rate_hz, lambda: PROGRAM_LIMIT)
        place = self.column(force)
        factor = _factor(self.units[place], NEWTONS, f"column {place + 1}", "newtons")
        force_n = self.values[:, place] * factor
        too_large = np.flatnonzero(np.abs(force_n) > LARGEST_FORCE_N)
        if too_large.size:
            raise _refused(
                f"line {self.first_line + int(too_large[0])}, column {place + 1}",
                f"{force_n[too_large[0]]:g} N is more than {LARGEST_FORCE_N} N",
                "Check which column holds the vertical force, and its unit",
            )
        return ForceTrace(np.ascontiguousarray(force_n), rate_hz)

    def _rate(self, place: int) -> float:
        """Samples a second from the times, which must go up by even steps."""
        factor = _factor(self.units[place], SECONDS, f"column {place + 1}", "seconds")
        times = self.values[:, place] * factor
        steps = np.diff(times)
        usual = float(median(steps.tolist()))
        uneven = np.flatnonzero(~(np.abs(steps - usual) <= UNEVEN_FRACTION * abs(usual)))
        if usual <= 0 or uneven.size:
            where = int(uneven[0]) + 1 if uneven.size else 1
            raise _refused(
                f"line {self.first_line + where}, column {place + 1}",
                f"the time goes from {times[where - 1]:.6g} s to {times[where]:.6g} s where the "
                f"usual step is {usual:.6g} s",
                "Export again without gaps, or cut that part off",
            )
        exact = (len(times) - 1) / float(times[-1] - times[0])
        return float(round(exact)) if abs(exact - round(exact)) < 1e-3 * exact else exact


def read_force_file(data: bytes) -> ForceTable:
    """The columns of numbers in a file, under whatever head it has."""
    if len(data) > MOST_BYTES:
        raise _refused(
            "The file",
            f"has {len(data) / 1e6:.1f} MB, more than {MOST_BYTES / 1e6:.0f} MB",
            "Export one jump, not the whole session",
        )
    lines = _decoded(data).splitlines()
    for number, line in enumerate(lines, start=1):
        if len(line) > LONGEST_LINE:
            raise _refused(
                f"line {number}",
                f"has {len(line)} characters, more than {LONGEST_LINE}",
                "Export text with one line for each sample",
            )
    first, separator = _first_row(lines)
    values = _values(lines, first, separator)
    width = values.shape[1]
    heads, units = _heads(lines[:first], separator, width)
    return ForceTable(heads, units, first + 1, values)


def _decoded(data: bytes) -> str:
    if data.startswith((b"\xff\xfe", b"\xfe\xff")):
        text = data.decode("utf-16", errors="replace")
    else:
        try:
            text = data.decode("utf-8-sig")
        except UnicodeDecodeError:
            text = data.decode("cp1252", errors="replace")
    if not text.strip():
        raise _refused("The file", "is empty", "Choose a file with one line for each sample")
    if _BINARY.search(text):
        raise _refused("The file", "is no text", "Export as text or CSV: one line for each sample")
    return text


def _first_row(lines: Sequence[str]) -> tuple[int, str | None]:
    """Index of the first line of numbers, and what parts its cells."""
    for index, line in enumerate(lines[: MOST_HEAD_LINES + 1]):
        for separator in ("\t", ";", ",", None):
            cells = _cells(line, separator)
            is_comma = separator == ","
            if cells and all(_number(cell, is_comma=is_comma) is not None for cell in cells):
                if len(cells) == 1 and separator is not None:
                    continue
                return index, separator
    raise _refused(
        "The file",
        f"has no line of numbers among its first {min(len(lines), MOST_HEAD_LINES + 1)}",
        "It needs one line for each sample: numbers parted by tab, comma or semicolon",
    )


def _cells(line: str, separator: str | None) -> list[str]:
    cells = [cell.strip() for cell in line.strip("\r\n").split(separator)]
    while cells and not cells[-1]:
        cells.pop()
    return cells


def _number(cell: str, *, is_comma: bool) -> float | None:
    """A number with a point, or with a comma where the comma parts no cells; else nothing."""
    if not is_comma and cell.count(",") == 1 and "." not in cell:
        cell = cell.replace(",", ".")
    return float(cell) if _NUMBER.fullmatch(cell) else None


def _values(lines: Sequence[str], first: int, separator: str | None) -> NDArray[np.float64]:
    rows: list[list[float]] = []
    width = len(_cells(lines[first], separator))
    last = len(lines)
    while last > first and not lines[last - 1].strip():
        last -= 1
    _refuse_sizes(last - first, width)
    for number, line in enumerate(lines[first:last], start=first + 1):
        cells = _cells(line, separator)
        if len(cells) != width:
            raise _refused(
                f"line {number}",
                f"has {len(cells)} numbers where line {first + 1} has {width}",
                "The file may be cut off or damaged: export it again",
            )
        rows.append(_row(number, line, cells, is_comma=separator == ","))
    values = np.array(rows, dtype=np.float64)
    if not np.isfinite(values).all():
        row_number, place = (int(found[0]) for found in np.nonzero(~np.isfinite(values)))
        raise _refused(
            f"line {first + 1 + row_number}, column {place + 1}",
            "the number is too large",
            "Mend that line, or export the file again",
        )
    return values


def _row(number: int, line: str, cells: list[str], *, is_comma: bool) -> list[float]:
    """The numbers of one line; most lines hold nothing that needs a closer look."""
    if _PLAIN_LINE.fullmatch(line.replace(",", "")) and (is_comma or not {",", "."} <= {*line}):
        try:
            return [float(cell.replace(",", ".")) for cell in cells]
        except ValueError:
            pass
    row: list[float] = []
    for place, cell in enumerate(cells, start=1):
        value = _number(cell, is_comma=is_comma)
        if value is None:
            raise _refused(
                f"line {number}, column {place}",
                f"{cell[:SHOWN]!r} is not a number",
                "Mend that line, or export the file again",
            )
        row.append(value)
    return row


def _refuse_sizes(rows: int, width: int) -> None:
    if width > MOST_COLUMNS:
        raise _refused(
            "The file", f"has {width} columns, more than {MOST_COLUMNS}", "Export fewer columns"
        )
    if rows < FEWEST_ROWS:
        raise _refused(
            "The file",
            f"has {rows} lines of numbers, fewer than {FEWEST_ROWS}",
            "Export the whole jump, with standing still before it and the landing",
        )
    if rows > MOST_ROWS or rows * width > MOST_CELLS:
        raise _refused(
            "The file",
            f"has {rows} lines of {width} numbers; {MOST_ROWS} lines and {MOST_CELLS} numbers "
            "are the most",
            "Export one jump, and only the columns of time and force",
        )


def _heads(
    above: Sequence[str], separator: str | None, width: int
) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """Heads and units from the last lines above the numbers that have a cell for each column."""
    fitting = [cells for line in above[-3:] if len(cells := _cells(line, separator)) == width]
    none = ("",) * width
    if not fitting:
        return none, none
    if all(_plain(cell) in UNIT_WORDS for cell in fitting[-1]):
        return tuple(fitting[-2]) if len(fitting) > 1 else none, tuple(fitting[-1])
    heads = tuple(fitting[-1])
    found = (_UNIT_IN_HEAD.search(head) for head in heads)
    return heads, tuple(match[1] if match else "" for match in found)


def _factor(unit: str, known: dict[str, float], where: str, wanted: str) -> float:
    if not unit or unit == "-":
        return 1.0
    if _plain(unit) not in known:
        raise _refused(
            where,
            f"is in {unit[:SHOWN]!r}, not in {wanted}",
            f"Choose the column in {wanted}, or export in {wanted}",
        )
    return known[_plain(unit)]


def _plain(text: str) -> str:
    return " ".join(text.casefold().split())


def _refused(place: str, problem: str, advice: str) -> InvalidInput:
    return InvalidInput(place, problem, advice)
