"""A roster as the coach has it: a CSV or XLSX file read into rows of text, nothing interpreted.

Whatever the file holds, it gives a table or one clear sentence. Formulas are not computed, macros
are not looked at, and sizes are checked before anything is unpacked.
"""

import csv
import io
from dataclasses import dataclass

from squadwright.errors import InvalidInput
from squadwright.exchange.text_file import decoded_text
from squadwright.exchange.workbook import OLD_EXCEL_START, ZIP_START, cell_text, require_workbook

MOST_BYTES = 1_000_000
MOST_ROWS = 120
MOST_COLUMNS = 40
LONGEST_CELL = 300
MOST_UNPACKED_BYTES = 12_000_000
MOST_PARTS = 200
DELIMITERS = (",", ";", "\t", "|")
PLACE = "The file"
SAVE_AS = "Save the sheet as CSV or XLSX and choose that file"


@dataclass(frozen=True)
class Table:
    """Head cells and rows of text, all of one width; row numbers are those of the file."""

    heads: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]


def read_roster_file(name: str, data: bytes, *, most_rows: int = MOST_ROWS) -> Table:
    """The table in a file; its kind is seen from its content, not from its name."""
    if not data.strip():
        raise _refused("is empty", "Choose a file with a head line and one line for each athlete")
    if len(data) > MOST_BYTES:
        raise _refused(
            f"has {len(data) / 1e6:.1f} MB, more than {MOST_BYTES / 1e6:.0f} MB",
            "Leave out pictures and other sheets",
        )
    if data.startswith(OLD_EXCEL_START):
        raise _refused("is of an old or locked kind of spreadsheet", SAVE_AS)
    cells = _from_xlsx(data) if data.startswith(ZIP_START) else _from_text(name, data)
    return table_of(cells, most_rows=most_rows)


def table_of(cells: list[list[str]], *, most_rows: int = MOST_ROWS) -> Table:
    """Rows of cells as a table: the first row that holds anything is its head."""
    rows = [[_clean(cell) for cell in row] for row in cells]
    rows = [row for row in rows if any(row)]
    if rows and not any(cell.isalnum() for cell in "".join(rows[0])):
        rows = []
    if len(rows) < 2:
        raise _refused(
            "has no line under its head" if rows else "holds nothing that can be read",
            "It needs a head line (name, birth date, ...) and one line for each athlete",
        )
    width = max(max(i for i, cell in enumerate(row) if cell) + 1 for row in rows)
    if width > MOST_COLUMNS:
        raise _refused(
            f"has {width if width < 2 * MOST_COLUMNS else f'more than {MOST_COLUMNS}'} columns; "
            f"{MOST_COLUMNS} are the most",
            "Keep the columns about the athletes themselves",
        )
    if len(rows) - 1 > most_rows:
        raise _refused(f"has more than {most_rows} lines", f"Take in {most_rows} at a time")
    filled = [tuple((row + [""] * width)[:width]) for row in rows]
    return Table(filled[0], tuple(filled[1:]))


def _from_text(name: str, data: bytes) -> list[list[str]]:
    text = decoded_text(name, data, problem="is no text and no XLSX file", advice=SAVE_AS)
    best: list[list[str]] = []
    for delimiter in DELIMITERS:
        rows = _parsed(text, delimiter)
        if _shape(rows) > _shape(best):
            best = rows
    return best


def _parsed(text: str, delimiter: str) -> list[list[str]]:
    rows: list[list[str]] = []
    try:
        for row in csv.reader(io.StringIO(text, newline=""), delimiter=delimiter):
            rows.append(row[: MOST_COLUMNS + 1])
            if len(rows) > 4 * MOST_ROWS:
                break
    except csv.Error:
        return []
    return rows


def _shape(rows: list[list[str]]) -> tuple[int, int]:
    """How well a delimiter divides: lines as wide as the head (if that is divided), its width."""
    filled = [row for row in rows if any(cell.strip() for cell in row)]
    if not filled:
        return (0, 0)
    width = len(filled[0])
    alike = sum(1 for row in filled if len(row) == width)
    return (alike if width > 1 else 1, width)


def _from_xlsx(data: bytes) -> list[list[str]]:
    require_workbook(data, most_parts=MOST_PARTS, most_bytes=MOST_UNPACKED_BYTES, advice=SAVE_AS)
    import openpyxl

    try:
        book = openpyxl.load_workbook(io.BytesIO(data), read_only=True, keep_links=False)
        sheet = next((each for each in book.worksheets if each.sheet_state == "visible"), None)
        if sheet is None:
            raise _refused("has no sheet that is shown", SAVE_AS)
        rows = sheet.iter_rows(max_row=4 * MOST_ROWS, max_col=MOST_COLUMNS + 1, values_only=True)
        return [[cell_text(value) for value in row] for row in rows]
    except InvalidInput:
        raise
    except Exception as error:  # whatever the library finds wrong with a broken file
        raise _refused("is a spreadsheet that cannot be read", SAVE_AS) from error


def _clean(cell: str) -> str:
    """One line without spaces at its ends; what is too long is cut where it can be seen."""
    words = " ".join(cell.replace("\ufeff", "").split())
    if len(words) <= LONGEST_CELL:
        return words
    return f"{words[: LONGEST_CELL - 1]}\N{HORIZONTAL ELLIPSIS}"


def _refused(problem: str, advice: str) -> InvalidInput:
    return InvalidInput(PLACE, problem, advice)
