"""Everything as one XLSX workbook, a sheet for each table, and back. No cell is a formula."""

import io
from collections.abc import Iterator, Sequence
from typing import Any

from squadwright.errors import InvalidInput
from squadwright.exchange.data_rows import CellTable
from squadwright.exchange.data_shape import all_shapes
from squadwright.exchange.spreadsheet_cell import kept_text, read_text
from squadwright.exchange.workbook import require_workbook

MOST_CELLS = 400_000
MOST_COLUMNS = 60
MOST_PARTS = 300
MOST_UNPACKED_BYTES = 60_000_000
LONGEST_TEXT = 32_000
LONGEST_SHEET_NAME = 31
TAKE_ANOTHER = "Use the CSV files or JSON for that much"
EXPORT_AGAIN = "Choose a file that `squadwright export --all` or the page Records wrote"


def write_workbook(tables: Sequence[CellTable]) -> bytes:
    """One sheet for each table; InvalidInput where a sheet cannot hold it."""
    count = sum(len(table.rows) * len(table.heads) for table in tables)
    if count > MOST_CELLS:
        raise InvalidInput(
            "The workbook", f"would have {count} cells, more than {MOST_CELLS}", TAKE_ANOTHER
        )
    import openpyxl

    book = openpyxl.Workbook(write_only=True)
    for table in tables:
        sheet = book.create_sheet(sheet_name(table.name))
        sheet.freeze_panes = "A2"
        sheet.append([_cell(sheet, head, table.name) for head in table.heads])
        for row in table.rows:
            sheet.append([_cell(sheet, cell, table.name) for cell in row])
    out = io.BytesIO()
    book.save(out)
    return out.getvalue()


def read_workbook(data: bytes, *, leave_out: frozenset[str]) -> list[CellTable]:
    """The tables of a workbook; formulas are never computed."""
    require_workbook(
        data, most_parts=MOST_PARTS, most_bytes=MOST_UNPACKED_BYTES, advice=EXPORT_AGAIN
    )
    import openpyxl

    names = {sheet_name(shape.name): shape.name for shape in all_shapes()}
    try:
        book = openpyxl.load_workbook(io.BytesIO(data), read_only=True, keep_links=False)
        found, count = [], 0
        for sheet in book.worksheets:
            if sheet.title in leave_out:
                continue
            table = _table(names.get(sheet.title, sheet.title), sheet, MOST_CELLS - count)
            count += sum(len(row) for row in table.rows)
            found.append(table)
        return found
    except InvalidInput:
        raise
    except Exception as error:  # whatever the library finds wrong with a broken file
        raise InvalidInput(
            "The file", "is a spreadsheet that cannot be read", EXPORT_AGAIN
        ) from error


def sheet_name(table: str) -> str:
    """The name of a table's sheet, which may be no longer than 31 characters."""
    if len(table) <= LONGEST_SHEET_NAME:
        return table
    *above, last = table.split(".")
    return f"{'.'.join(part[:4] for part in above)}.{last}"[:LONGEST_SHEET_NAME]


def _table(name: str, sheet: Any, most: int) -> CellTable:
    heads: tuple[str, ...] = ()
    rows: list[tuple[Any, ...]] = []
    lines: list[str] = []
    for number, row in enumerate(_rows(sheet, most), start=1):
        if number == 1:
            heads = tuple(str(head) for head in row if head is not None)
        elif any(cell is not None for cell in row):
            rows.append(row)
            lines.append(f"sheet {name[:60]}, line {number}")
    return CellTable(name, heads, tuple(rows), tuple(lines))


def _rows(sheet: Any, most: int) -> Iterator[tuple[Any, ...]]:
    count = 0
    for row in sheet.iter_rows(max_col=MOST_COLUMNS, values_only=True):
        count += len(row)
        if count > most:
            raise InvalidInput("The workbook", f"has more than {MOST_CELLS} cells", TAKE_ANOTHER)
        yield tuple(read_text(cell) if isinstance(cell, str) else cell for cell in row)


def _cell(sheet: Any, value: str | int | float | None, table: str) -> Any:
    from openpyxl.cell import WriteOnlyCell

    if isinstance(value, float) and float(f"{value:.16g}") != value:
        # The library writes 16 digits, and a few numbers need 17 to come back.
        number = WriteOnlyCell(sheet, value)
        number._value = repr(value)
        return number
    if not isinstance(value, str):
        return value
    if len(value) > LONGEST_TEXT:
        raise InvalidInput(
            f"table {table}",
            f"has a text of {len(value)} characters; a cell holds {LONGEST_TEXT}",
            TAKE_ANOTHER,
        )
    cell = WriteOnlyCell(sheet, kept_text(value))
    cell.data_type = "s"
    return cell
