"""Efforts from a file as they come back from the preview: the lines it carries, what was mended."""

import json
from collections.abc import Mapping
from dataclasses import dataclass

from squadwright.errors import InvalidInput
from squadwright.exchange.efforts import MOST_LINES, NEEDED, Column
from squadwright.web.forms import Form, cell_name

LONGEST_CELL = 300


@dataclass(frozen=True)
class SentLines:
    """The cells of each line, those mended already, and the numbers of lines left out."""

    cells: tuple[Mapping[Column, str], ...]
    edited: frozenset[tuple[int, Column]]
    left_out: frozenset[int]


def write_cells(cells: tuple[Mapping[Column, str], ...]) -> str:
    """The lines as a hidden field carries them."""
    return json.dumps([{c.value: text for c, text in line.items()} for line in cells])


def read_sent(form: Form) -> SentLines:
    """What was sent: checked as if it came from anywhere."""
    cells = [dict(line) for line in _cells(form.raw("lines"))]
    edited: set[tuple[int, Column]] = set()
    typed = dict(form.items())
    for number, line in enumerate(cells, start=1):
        for column in Column:
            text = typed.get(cell_name(number, column))
            if text is not None:
                line[column] = " ".join(text[:LONGEST_CELL].split())
                edited.add((number, column))
    out = {int(v) for k, v in form.items() if k == "out" and v.isascii() and v.isdecimal()}
    return SentLines(tuple(cells), frozenset(edited), frozenset(out))


def _cells(text: str) -> tuple[Mapping[Column, str], ...]:
    known = {column.value: column for column in Column}
    try:
        lines = json.loads(text)
        if not isinstance(lines, list) or not 1 <= len(lines) <= MOST_LINES:
            raise ValueError
        found = tuple(
            {known[head]: str(cell)[:LONGEST_CELL] for head, cell in line.items()} for line in lines
        )
        if not all(column in line for line in found for column in NEEDED):
            raise ValueError
    except (ValueError, KeyError, AttributeError, RecursionError) as error:
        raise InvalidInput("The file", "did not come back whole", "Choose it again") from error
    return found
