"""The pages of efforts from a file: choose it, and look at every doubtful cell."""

from collections.abc import Sequence
from dataclasses import dataclass

from squadwright.exchange.efforts import MOST_LINES, NEEDED, Column
from squadwright.model.club import Club
from squadwright.services.efforts_in import Incoming
from squadwright.web.forms import FormView, cell_name
from squadwright.web.load.file_forms import SentLines, write_cells
from squadwright.web.load.paths import LOAD
from squadwright.web.page import template
from squadwright.web.wording import capital, count_text, number_text, short_day_text

HERE = f"{LOAD}/file"


@dataclass(frozen=True)
class CellView:
    """One cell that can be written in."""

    name: str
    label: str
    options: tuple[tuple[str, str], ...]


@dataclass(frozen=True)
class LineView:
    """One line: what it says, what it would become, and the cells in doubt."""

    number: int
    said: str
    words: str
    cells: tuple[CellView, ...]
    is_left_out: bool


@dataclass(frozen=True)
@template("load/file.html")
class FilePage:
    """Choose a file."""

    view: FormView
    heads: tuple[str, ...]
    needed: tuple[str, ...]
    most_lines: int


@dataclass(frozen=True)
@template("load/lines.html")
class LinesPage:
    """The file as it would be taken in."""

    line: str
    wrong: str
    lines: str
    view: FormView
    doubtful: tuple[LineView, ...]
    sound: tuple[LineView, ...]
    path: str


def file_page(view: FormView | None = None) -> FilePage:
    """Choose a file."""
    return FilePage(
        view or FormView(),
        tuple(column.value for column in Column),
        tuple(column.value for column in NEEDED),
        MOST_LINES,
    )


def lines_page(
    club: Club, sent: SentLines, incoming: Sequence[Incoming], *, wrong: str = ""
) -> LinesPage:
    """The file as it would be taken in."""
    names = club.shown_names()
    people = (("", "Choose"), *names.items())
    views = tuple(_line(each, sent, names, people) for each in incoming)
    waiting = sum(len(e.line.doubts) for e in incoming if e.line.number not in sent.left_out)
    told = count_text(waiting, "cell waits", "cells wait") if waiting else "Nothing waits"
    typed: dict[str, tuple[str, ...]] = {}
    errors: dict[str, str] = {}
    for each in incoming:
        for column, text in each.line.cells.items():
            name = cell_name(each.line.number, column)
            typed[name] = (text,)
            if column in each.line.doubts and each.line.number not in sent.left_out:
                errors[name] = f"{capital(each.line.doubts[column])}."
    return LinesPage(
        line=f"{count_text(len(incoming), 'line')}. {told} for an answer. Nothing is stored yet.",
        wrong=wrong,
        lines=write_cells(sent.cells),
        view=FormView(typed, errors),
        doubtful=tuple(view for view in views if view.cells),
        sound=tuple(view for view in views if not view.cells),
        path=HERE,
    )


def _line(
    each: Incoming, sent: SentLines, names: dict[str, str], people: tuple[tuple[str, str], ...]
) -> LineView:
    line = each.line
    shown = [
        names.get(line.athlete or "", line.cells[Column.ATHLETE]),
        short_day_text(line.day) if line.day else line.cells[Column.DAY],
        line.session,
        f"{line.minutes} minutes" if line.minutes else line.cells[Column.MINUTES],
        f"{number_text(line.effort)} of 10"
        if line.effort is not None
        else line.cells[Column.EFFORT],
    ]
    return LineView(
        number=line.number,
        said=", ".join(filter(None, shown)),
        words=each.words,
        cells=tuple(
            CellView(
                cell_name(line.number, column),
                capital(column.value),
                people if column is Column.ATHLETE else (),
            )
            for column in NEEDED
            if column in line.doubts or (line.number, column) in sent.edited
        ),
        is_left_out=line.number in sent.left_out or each.is_there,
    )
