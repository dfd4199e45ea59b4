"""Write the sheets of a plan as PDF files."""

import re
from collections.abc import Callable, Collection
from datetime import date
from pathlib import Path

from squadwright.errors import InvalidInput
from squadwright.model.club import Club
from squadwright.model.plan import Plan
from squadwright.printing.athlete_cards import set_athlete_cards
from squadwright.printing.choices import PrintedUnit, Sheet
from squadwright.printing.session_sheet import set_session_sheet
from squadwright.printing.set_up_sheet import set_set_up_sheet
from squadwright.printing.wall_sheet import set_wall_sheet

_PRESSES: dict[Sheet, Callable[[Plan, Club | None, PrintedUnit], bytes]] = {
    Sheet.SESSION: set_session_sheet,
    Sheet.SET_UP: set_set_up_sheet,
    Sheet.CARDS: set_athlete_cards,
    Sheet.WALL: set_wall_sheet,
}


def sheet_pdf(
    plan: Plan, club: Club | None, sheet: Sheet, unit: PrintedUnit = PrintedUnit.KILOGRAM
) -> bytes:
    """One sheet as PDF; the same plan always gives the same bytes."""
    return _PRESSES[sheet](plan, club, unit)


def write_sheets(
    plan: Plan,
    club: Club | None,
    folder: Path,
    *,
    sheets: Collection[Sheet] = tuple(Sheet),
    unit: PrintedUnit = PrintedUnit.KILOGRAM,
) -> tuple[Path, ...]:
    """Write the chosen sheets into a folder, made if need be; give the files in print order.

    All are set before the first is written, so that a failure leaves no half of a set behind.
    """
    _require_folder(folder)
    chosen = [sheet for sheet in Sheet if sheet in sheets]
    documents = {sheet: sheet_pdf(plan, club, sheet, unit) for sheet in chosen}
    return tuple(
        write_document(document, folder, f"{file_stem(plan)}-{sheet.value}.pdf")
        for sheet, document in documents.items()
    )


def write_document(document: bytes, folder: Path, name: str) -> Path:
    """Write one file into a folder, made if need be; InvalidInput where that cannot be."""
    _require_folder(folder)
    try:
        folder.mkdir(parents=True, exist_ok=True)
        path = folder / name
        path.write_bytes(document)
        return path
    except OSError as failure:
        raise InvalidInput(
            "--out", f"cannot write to {folder}: {failure.strerror}", "Name a folder you may write"
        ) from failure


def _require_folder(folder: Path) -> None:
    if folder.exists() and not folder.is_dir():
        raise InvalidInput(
            "--out", f"{folder} is a file, not a folder", "Name a folder for the sheets"
        )


def file_stem(plan: Plan) -> str:
    """Date and session of a plan, in characters every file system takes."""
    return session_stem(plan.session.id, plan.session.held_on)


def session_stem(session_id: str, held_on: date) -> str:
    """Date and session, in characters every file system takes; the date stands once."""
    session = re.sub(r"[^A-Za-z0-9._-]+", "-", session_id).strip(".-") or "session"
    day = held_on.isoformat()
    return session if session.startswith(f"{day}-") else f"{day}-{session}"
