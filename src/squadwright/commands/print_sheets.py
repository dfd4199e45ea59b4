"""``squadwright print``: write the sheets of a planned session and say where they are."""

from enum import StrEnum
from pathlib import Path
from typing import TYPE_CHECKING

import typer

from squadwright.printing.choices import PrintedUnit, Sheet

if TYPE_CHECKING:
    from squadwright.model.club import Club
    from squadwright.model.plan import Plan


class SheetChoice(StrEnum):
    """Values of ``--sheet``: one sheet, or all of them."""

    SESSION = "session"
    SET_UP = "set-up"
    CARDS = "cards"
    WALL = "wall"
    ALL = "all"

    @property
    def sheets(self) -> tuple[Sheet, ...]:
        """The sheets meant."""
        return tuple(Sheet) if self is SheetChoice.ALL else (Sheet(self.value),)


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
