"""Everything as CSV files in one zip, and back."""

import csv
import io
import zipfile
from collections.abc import Sequence
from typing import Any

from squadwright.errors import InvalidInput
from squadwright.exchange.data_rows import CellTable
from squadwright.exchange.spreadsheet_cell import csv_bytes, kept_text, read_text
from squadwright.exchange.text_file import decoded_text
from squadwright.exchange.workbook import opened_package

MOST_PARTS = 120
MOST_UNPACKED_BYTES = 80_000_000
EXPORT_AGAIN = "Choose a file that `squadwright export --all` or the page Records wrote"
EARLY = (1980, 1, 1, 0, 0, 0)


def write_zip(tables: Sequence[CellTable]) -> bytes:
    """One CSV file for each table; the same tables give the same bytes."""
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as package:
        for table in tables:
            rows = ([_text(cell) for cell in row] for row in table.rows)
            info = zipfile.ZipInfo(f"{table.name}.csv", EARLY)
            info.compress_type = zipfile.ZIP_DEFLATED
            package.writestr(info, csv_bytes(table.heads, rows))
    return out.getvalue()


def read_zip(data: bytes, *, leave_out: frozenset[str]) -> list[CellTable]:
    """The tables of a zip; InvalidInput for anything that is no CSV file of ours."""
    found = []
    with opened_package(
        data,
        most_parts=MOST_PARTS,
        most_bytes=MOST_UNPACKED_BYTES,
        advice=EXPORT_AGAIN,
        what="zip file",
    ) as package:
        for part in package.infolist():
            name = part.filename
            if part.is_dir() or name.removesuffix(".csv") in leave_out:
                continue
            if not name.endswith(".csv") or "/" in name or "\\" in name:
                raise InvalidInput(
                    "The file", f"holds {name[:60]!r}, which is no table of ours", EXPORT_AGAIN
                )
            found.append(_table(name, package.read(part)))
    return found


def _table(name: str, data: bytes) -> CellTable:
    text = decoded_text(name, data, problem="is no text", advice=EXPORT_AGAIN)
    rows: list[list[Any]] = []
    lines: list[str] = []
    try:
        reader = csv.reader(io.StringIO(text, newline=""), strict=True)
        heads = next(reader, [])
        for row in reader:
            if any(row):
                rows.append([read_text(cell) for cell in row])
                lines.append(f"{name}, line {reader.line_num}")
            if len(row) > len(heads):
                raise InvalidInput(
                    f"{name}, line {reader.line_num}",
                    f"has {len(row)} cells where the head has {len(heads)}",
                    "The file may be damaged: export it again",
                )
    except csv.Error as error:
        raise InvalidInput(name, f"cannot be taken apart ({error})", EXPORT_AGAIN) from error
    return CellTable(name.removesuffix(".csv"), tuple(heads), tuple(map(tuple, rows)), tuple(lines))


def _text(cell: str | int | float | None) -> str:
    if cell is None:
        return ""
    return kept_text(cell) if isinstance(cell, str) else repr(cell)
