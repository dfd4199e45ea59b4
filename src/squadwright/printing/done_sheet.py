"""What was done, on one page: each athlete's share, the review, and who is still to be asked."""

from dataclasses import dataclass

from squadwright.errors import NoSolution
from squadwright.printing.choices import PrintedUnit
from squadwright.printing.done_rows import DoneRow, done_rows
from squadwright.printing.typesetting import Heading, Settled, heading, largest_size_on
from squadwright.printing.wording import as_sentence
from squadwright.services.done import SessionDone

SIZES_PT = (10.0, 9.5, 9.0, 8.5, 8.0, 7.5, 7.0, 6.6)
TEMPLATE = "done_sheet.typ"


@dataclass(frozen=True)
class ReviewLine:
    """One line of the review under its head."""

    head: str
    words: str


@dataclass(frozen=True)
class PrintedRow:
    """One athlete: his share, and what was noted as sentences."""

    name: str
    done: str
    notes: tuple[str, ...]
    load: str
    noted: tuple[str, ...]
    effort: str
    is_short: bool


@dataclass(frozen=True)
class DoneSheet:
    """Context of ``done_sheet.typ``."""

    heading: Heading
    state: str
    review: tuple[ReviewLine, ...]
    is_accepted: bool
    rows: tuple[PrintedRow, ...]
    not_asked: tuple[str, ...]


def done_sheet(found: SessionDone, unit: PrintedUnit) -> DoneSheet:
    """The context of the sheet; NoSolution where the session has no plan to be measured by."""
    if found.plan is None:
        raise NoSolution(f"What was done cannot be printed without a plan. {found.trouble}")
    if not found.held:
        raise NoSolution(f"Nothing is noted of {found.session.name} yet. Run it, then print")
    rows = done_rows(
        found.plan, found.rows, found.shown_name, is_started=found.is_started, unit=unit
    )
    review = found.review or found.draft
    lines = (
        ReviewLine("Planned and done", review.work),
        ReviewLine("What went wrong", review.trouble),
        ReviewLine("Next time", review.change),
    )
    return DoneSheet(
        heading=heading(found.plan),
        state=found.state,
        review=tuple(line for line in lines if line.words),
        is_accepted=found.review is not None,
        rows=tuple(_printed(row) for row in rows),
        not_asked=tuple(found.shown_name(athlete) for athlete in found.not_asked),
    )


def set_done_sheet(found: SessionDone, unit: PrintedUnit) -> bytes:
    """The sheet as PDF, in the largest text that keeps it to one page."""
    document = Settled(TEMPLATE, done_sheet(found, unit))
    return document.pdf(largest_size_on(document, SIZES_PT, most_pages=1))


def _printed(row: DoneRow) -> PrintedRow:
    return PrintedRow(
        name=row.name,
        done=row.done,
        notes=tuple(as_sentence(words) for words in row.notes),
        load=row.load,
        noted=tuple(as_sentence(words) for words in row.noted),
        effort=row.answers,
        is_short=row.is_short,
    )
