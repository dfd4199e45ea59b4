"""The preview as it comes back: the table it carries, and what the coach has said to it."""

import json
from dataclasses import dataclass

from starlette.datastructures import FormData

from squadwright.errors import InvalidInput
from squadwright.exchange.roster import SHOWN, Answers, recognised
from squadwright.exchange.roster_cells import Field
from squadwright.exchange.roster_file import LONGEST_CELL, Table, table_of
from squadwright.web.forms import cell_name

LONGEST_FILE_NAME = 120
FOR_ALL = (Field.SEX, Field.LEVEL, Field.SPORT)
NOTHING = ""


@dataclass(frozen=True)
class Sent:
    """A preview sent back; ``is_all_open`` asks for every cell to be written in."""

    table: Table
    columns: tuple[Field | None, ...]
    answers: Answers
    file_name: str
    is_all_open: bool


def read_preview(data: FormData) -> Sent:
    """What was sent: checked as if it came from anywhere."""
    table = _table(_text(data, "table"))
    return Sent(
        table=table,
        columns=_columns(data, table),
        answers=Answers(
            edited=_edited(data, len(table.rows)),
            confirmed=frozenset(_texts(data, "ok")),
            left_out=frozenset(int(n) for n in _texts(data, "out") if n.isdecimal() and len(n) < 5),
            for_all={f: _text(data, all_name(f))[:LONGEST_CELL] for f in FOR_ALL},
        ),
        file_name=_text(data, "file_name")[:LONGEST_FILE_NAME],
        is_all_open=_text(data, "open") == "all" or _text(data, "do") == "open",
    )


def column_name(index: int) -> str:
    """The name of the choice of what a column holds."""
    return f"column-{index}"


def all_name(field: Field) -> str:
    """The name of what stands in every empty cell of a field."""
    return f"all-{field.name}"


def write_table(table: Table) -> str:
    """The table as a hidden field carries it."""
    return json.dumps([table.heads, *table.rows], ensure_ascii=False, separators=(",", ":"))


def _table(text: str) -> Table:
    try:
        cells = json.loads(text)
        is_table = isinstance(cells, list) and all(
            isinstance(row, list) and all(isinstance(cell, str) for cell in row) for row in cells
        )
    except (ValueError, RecursionError):
        is_table = False
    if not is_table:
        raise InvalidInput("The file", "did not come back whole", "Choose it again")
    return table_of(cells)


def _columns(data: FormData, table: Table) -> tuple[Field | None, ...]:
    by_head = recognised(table.heads)
    known = {field.value: field for field in Field}
    chosen: list[Field | None] = []
    for index, guess in enumerate(by_head):
        sent = data.get(column_name(index))
        field = known.get(sent) if isinstance(sent, str) else guess
        chosen.append(None if field in chosen else field)
    return tuple(chosen)


def _edited(data: FormData, rows: int) -> dict[tuple[int, Field], str]:
    found = {}
    for number in range(1, rows + 1):
        for field in SHOWN:
            text = data.get(cell_name(number, field))
            if isinstance(text, str):
                found[number, field] = " ".join(text[:LONGEST_CELL].split())
    use = _text(data, "use").split("|", 2)
    if len(use) == 3 and use[0].isdecimal() and len(use[0]) < 5:
        meant = next((f for f in SHOWN if f.name == use[1]), None)
        if meant is not None:
            found[int(use[0]), meant] = use[2][:LONGEST_CELL]
    return found


def _text(data: FormData, name: str) -> str:
    value = data.get(name)
    return value if isinstance(value, str) else ""


def _texts(data: FormData, name: str) -> tuple[str, ...]:
    return tuple(value for value in data.getlist(name) if isinstance(value, str))
