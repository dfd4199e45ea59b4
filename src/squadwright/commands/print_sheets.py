"""``squadwright print``: write the sheets of a planned session and say where they are."""

from enum import StrEnum
from pathlib import Path
from typing import TYPE_CHECKING

import typer

from squadwright.printing.choices import PrintedUnit, Sheet

if TYPE_CHECKING:
    from squadwright.model.club import Club
    from squadwright.model.plan import Plan
    from squadwright.services.done import SessionDone


class SheetChoice(StrEnum):
    """Values of ``--sheet``: one sheet, or all; what was done only where a record exists."""

    SESSION = "session"
    SET_UP = "set-up"
    CARDS = "cards"
    WALL = "wall"
    DONE = "done"
    ALL = "all"

    @property
    def sheets(self) -> tuple[Sheet, ...]:
        """The sheets meant."""
        if self is SheetChoice.DONE:
            return ()
        return tuple(Sheet) if self is SheetChoice.ALL else (Sheet(self.value),)

    @property
    def may_be_done(self) -> bool:
        """Whether the sheet of what was done is meant."""
        return self in (SheetChoice.DONE, SheetChoice.ALL)


def write_and_tell(
    plan: "Plan",
    club: "Club | None",
    folder: Path,
    *,
    choice: SheetChoice,
    unit: PrintedUnit,
) -> None:
    """Write the chosen sheets and print one line for each file."""
    from squadwright.printing.sheets import write_sheets

    for path in write_sheets(plan, club, folder, sheets=choice.sheets, unit=unit):
        typer.echo(f"Wrote {path}")


def write_done_and_tell(
    found: "SessionDone", folder: Path, *, choice: SheetChoice, unit: PrintedUnit
) -> None:
    """Write the sheet of what was done, where it is meant and anything is noted."""
    if not choice.may_be_done or (choice is SheetChoice.ALL and not found.events):
        return
    from squadwright.printing.done_sheet import set_done_sheet
    from squadwright.printing.sheets import session_stem, write_document

    name = f"{session_stem(found.session.id, found.session.held_on)}-done.pdf"
    typer.echo(f"Wrote {write_document(set_done_sheet(found, unit), folder, name)}")
