"""The pages of the roster import, put together from the file and what was said to it."""

from collections.abc import Sequence
from datetime import date

from squadwright.exchange.roster import REQUIRED, SHOWN, Cell, Row, preview
from squadwright.exchange.roster_cells import Field
from squadwright.exchange.roster_file import MOST_ROWS
from squadwright.model.athlete import Level, Sex
from squadwright.model.club import Club
from squadwright.model.erased import Erased
from squadwright.web.forms import FormView, cell_name
from squadwright.web.roster.contexts import (
    CellView,
    ColumnView,
    Options,
    PreviewPage,
    RowView,
    UploadPage,
)
from squadwright.web.roster.forms import FOR_ALL, NOTHING, Sent, all_name, column_name, write_table
from squadwright.web.wording import capital, count_text

LEAVE_OUT = "-"
CHOICES: dict[Field, Options] = {
    Field.SEX: ((NOTHING, "ask for each"), *((s.value, s.value) for s in Sex)),
    Field.LEVEL: ((NOTHING, "ask for each"), *((level.value, level.value) for level in Level)),
    Field.SPORT: (),
}


def upload_page(club: Club, view: FormView | None = None) -> UploadPage:
    """Choose a file."""
    return UploadPage(
        view or FormView(), tuple(head.value for head in SHOWN), MOST_ROWS, bool(club.athletes)
    )


def rows_of(club: Club, sent: Sent, today: date, erased: Sequence[Erased] = ()) -> tuple[Row, ...]:
    """The lines of a preview as they would be taken in."""
    return preview(
        sent.table, sent.columns, club.athletes, sent.answers, today=today, erased=erased
    )


def preview_page(sent: Sent, rows: tuple[Row, ...], *, wrong: str = "") -> PreviewPage:
    """The file as it would be taken in."""
    views = tuple(_row(row, sent) for row in rows)
    count = sum(not row.is_left_out for row in rows)
    waiting = sum(len(row.open_cells) for row in rows)
    told = count_text(waiting, "cell waits", "cells wait") if waiting else "Nothing waits"
    return PreviewPage(
        line=f"{count_text(count, 'athlete')} from {sent.file_name or 'the file'}. {told} for "
        "an answer. Nothing is stored yet.",
        wrong=wrong,
        table=write_table(sent.table),
        file_name=sent.file_name,
        is_all_open=sent.is_all_open,
        view=_view(sent, rows),
        columns=_columns(sent),
        holds=((LEAVE_OUT, "leave it out"), *((f.value, f.value) for f in Field)),
        for_all=tuple(
            (all_name(f), f.value, CHOICES[f])
            for f in FOR_ALL
            if f in REQUIRED and f not in sent.columns
        ),
        doubtful=tuple(view for view in views if view.inputs),
        sound=tuple(view for view in views if not view.inputs),
        count=count,
    )


def _row(row: Row, sent: Sent) -> RowView:
    return RowView(
        number=row.number,
        name=row.name or "no name",
        cells=tuple(_cell(row, cell, sent) for cell in row.cells),
        is_left_out=row.is_left_out,
    )


def _cell(row: Row, cell: Cell, sent: Sent) -> CellView:
    is_edited = (row.number, cell.field) in sent.answers.edited
    return CellView(
        name=cell_name(row.number, cell.field),
        label=capital(cell.field.value),
        text=cell.text,
        doubt=cell.reading.doubt,
        code=cell.code,
        stands=cell.reading.stands,
        is_confirmed=cell.is_confirmed,
        meanings=tuple(
            (f"{row.number}|{cell.field.name}|{text}", words)
            for text, words in cell.reading.meanings
        ),
        is_input=sent.is_all_open or is_edited or bool(cell.reading.doubt),
    )


def _view(sent: Sent, rows: tuple[Row, ...]) -> FormView:
    typed = {cell_name(row.number, cell.field): (cell.text,) for row in rows for cell in row.cells}
    typed |= {column_name(i): (f.value if f else LEAVE_OUT,) for i, f in enumerate(sent.columns)}
    typed |= {all_name(f): (text,) for f, text in (sent.answers.for_all or {}).items()}
    errors = {
        cell_name(row.number, cell.field): capital(cell.reading.doubt)
        for row in rows
        for cell in row.cells
        if cell.is_open and not row.is_left_out
    }
    return FormView(typed, errors)


def _columns(sent: Sent) -> tuple[ColumnView, ...]:
    return tuple(
        ColumnView(
            field=column_name(index),
            head=head or f"column {index + 1}",
            example=next((row[index] for row in sent.table.rows if row[index]), "empty"),
            holds=field.value if field else LEAVE_OUT,
        )
        for index, (head, field) in enumerate(zip(sent.table.heads, sent.columns, strict=True))
    )
