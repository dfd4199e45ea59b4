"""What the pages of the roster import show."""

from dataclasses import dataclass

from squadwright.web.forms import FormView
from squadwright.web.page import template

Options = tuple[tuple[str, str], ...]


@dataclass(frozen=True)
@template("roster/upload.html")
class UploadPage:
    """Choose a file."""

    view: FormView
    heads: tuple[str, ...]
    most_rows: int
    has_squad: bool


@dataclass(frozen=True)
class ColumnView:
    """One column of the file, and what it is taken for."""

    field: str
    head: str
    example: str
    holds: str


@dataclass(frozen=True)
class CellView:
    """One cell: its text, its doubt, and what may be meant."""

    name: str
    label: str
    text: str
    doubt: str
    code: str
    stands: bool
    is_confirmed: bool
    meanings: Options
    is_input: bool


@dataclass(frozen=True)
class RowView:
    """One athlete of the file."""

    number: int
    name: str
    cells: tuple[CellView, ...]
    is_left_out: bool

    @property
    def inputs(self) -> tuple[CellView, ...]:
        """Cells that can be written in."""
        return tuple(c for c in self.cells if c.is_input)

    @property
    def said(self) -> tuple[CellView, ...]:
        """Cells that are only told."""
        return tuple(c for c in self.cells if c.text and not c.is_input)


@dataclass(frozen=True)
@template("roster/preview.html")
class PreviewPage:
    """The file as it would be taken in."""

    line: str
    wrong: str
    table: str
    file_name: str
    is_all_open: bool
    view: FormView
    columns: tuple[ColumnView, ...]
    holds: Options
    for_all: tuple[tuple[str, str, Options], ...]
    doubtful: tuple[RowView, ...]
    sound: tuple[RowView, ...]
    count: int
