"""The reference page of the data files, written from the tables themselves."""

from squadwright.exchange.data_codes import code_rows, column_rows
from squadwright.exchange.data_shape import all_shapes

HEAD = """# Data files

Everything a club has, as one file: JSON, an XLSX workbook with a sheet for each table, or a zip
with a CSV file for each table. `squadwright export --all FILE` and the page **Records** write
them; this page lists each table, column, unit and word. [How to take everything with
you](../how-to/take-everything-with-you.md) says how they are used.

- Text is UTF-8; CSV files follow RFC 4180. Dates are `2026-03-02`, instants carry their offset
  from UTC.
- A head names the unit of its column in square brackets: `stature_m [m]`.
- A table with a dot in its name holds the lists of another one: its column `of` names the row
  there (`row`, or `id`).
- An empty cell is nothing known. A mass stays as typed, with its unit. A list in a cell is JSON.
- A text that would start a formula (`=`, `+`, `-`, `@`, tab, line end, or the mark itself) has
  the mark `'` before it; reading the file takes it away. Numbers are numbers.
- The tables `read_me`, `columns`, `codes` and `incidents` go out and are not read in again.
- A heart recording's readings stand in `diary.heart.content.readings`, one a row.
- In a workbook a name longer than 31 characters is shortened.
"""


def page() -> str:
    """The page as Markdown."""
    lines = [HEAD]
    rows = list(column_rows())
    for shape in all_shapes():
        lines += [
            f"## {shape.name}\n",
            "| Column | Unit | Kind | May be empty | Words | What it holds |",
            "| --- | --- | --- | --- | --- | --- |",
        ]
        lines += [f"| {' | '.join(row[1:])} |" for row in rows if row[0] == shape.name]
        lines.append("")
    lines += ["## Words\n", "| Words | Code | What it is |", "| --- | --- | --- |"]
    lines += [f"| {' | '.join(row)} |" for row in code_rows()]
    return "\n".join(lines) + "\n"
