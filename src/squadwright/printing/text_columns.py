"""Columns of text for a terminal, measured in cells, that never run past the width."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from rich.cells import cell_len
from rich.text import Text

GAP = 2


@dataclass(frozen=True)
class Column:
    """One column: its title and the side its cells keep to."""

    title: str
    side: Literal["left", "right"] = "left"
    style: str = ""


def used_columns(
    columns: Sequence[Column], rows: Sequence[Sequence[str]]
) -> tuple[list[Column], list[list[str]]]:
    """The columns in which at least one row says something, and the rows cut down to them."""
    keep = [i for i in range(len(columns)) if any(row[i] for row in rows)]
    return [columns[i] for i in keep], [[row[i] for i in keep] for row in rows]


def column_widths(columns: Sequence[Column], rows: Sequence[Sequence[str]]) -> list[int]:
    """The width of each column, in cells."""
    return [
        max([cell_len(column.title), *(cell_len(row[i]) for row in rows)])
        for i, column in enumerate(columns)
    ]


def total_width(widths: Sequence[int]) -> int:
    """The width of a line of columns, gaps included."""
    return sum(widths) + GAP * max(0, len(widths) - 1)


def titles_line(columns: Sequence[Column], widths: Sequence[int]) -> Text:
    """The line of titles."""
    return _line(columns, [column.title for column in columns], widths, is_title=True)


def cells_line(columns: Sequence[Column], cells: Sequence[str], widths: Sequence[int]) -> Text:
    """One row."""
    return _line(columns, cells, widths, is_title=False)


def _line(
    columns: Sequence[Column], cells: Sequence[str], widths: Sequence[int], *, is_title: bool
) -> Text:
    line = Text()
    for index, (column, cell, width) in enumerate(zip(columns, cells, widths, strict=True)):
        if index:
            line.append(" " * GAP)
        free = " " * (width - cell_len(cell))
        padded = free + cell if column.side == "right" else cell + free
        line.append(padded, style="dim" if is_title else column.style)
    line.rstrip()
    return line
