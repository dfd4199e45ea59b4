"""``squadwright plan`` and ``squadwright print``: plan a session, show it, write its sheets."""

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from squadwright.commands.options import DatabaseOption, DemoOption, JsonOption
from squadwright.commands.print_sheets import (
    SheetChoice,
    write_and_tell,
    write_done_and_tell,
)
from squadwright.printing.choices import PrintedUnit, Sheet

if TYPE_CHECKING:
    from squadwright.services.planning import Planned

SessionArgument = Annotated[
    str | None,
    typer.Argument(help="Id of a session; leave out for today's, else the next one."),
]
UnitOption = Annotated[PrintedUnit, typer.Option("--unit", help="Unit in which loads are shown.")]


def plan(
    session: SessionArgument = None,
    database: DatabaseOption = None,
    demo: DemoOption = False,
    unit: UnitOption = PrintedUnit.KILOGRAM,
    as_json: JsonOption = False,
) -> None:
    """Plan a session: loads, plates, groups, run sheet, and what to look at."""
    planned = _planned(session, database, demo=demo)
    if as_json:
        from squadwright.exchange.plan_file import write_plan

        typer.echo(write_plan(planned.plan).encode(), nl=False)
        return
    import shutil
    import sys

    from squadwright.printing.text_view import plan_text

    width = max(80, min(120, shutil.get_terminal_size((100, 24)).columns))
    typer.echo(
        plan_text(
            planned.plan, width=width, colour=sys.stdout.isatty(), unit=unit, club=planned.club
        )
    )


def print_(
    session: SessionArgument = None,
    out: Annotated[
        Path, typer.Option("--out", help="Folder for the sheets; it is made if need be.")
    ] = Path("sheets"),
    sheet: Annotated[
        SheetChoice, typer.Option("--sheet", help="Which sheet to write.")
    ] = SheetChoice.ALL,
    database: DatabaseOption = None,
    demo: DemoOption = False,
    unit: UnitOption = PrintedUnit.KILOGRAM,
) -> None:
    """Plan a session and write its sheets as PDF; after it, also the sheet of what was done."""
    from squadwright.bootstrap import open_keeper
    from squadwright.services.health_log import log_session_sheet

    planned = _planned(session, database, demo=demo)
    if Sheet.SESSION in sheet.sheets:
        log_session_sheet(open_keeper(database, demo=demo), planned.plan)
    write_and_tell(planned.plan, planned.club, out, choice=sheet, unit=unit)
    if sheet.may_be_done:
        from squadwright.commands.record import done_of

        found = done_of(planned.plan.session.id, database, demo=demo)
        write_done_and_tell(found, out, choice=sheet, unit=unit)


def _planned(session: str | None, database: str | None, *, demo: bool) -> "Planned":
    from datetime import date

    from squadwright.bootstrap import open_keeper
    from squadwright.services.planning import plan_session

    if demo and session is None:
        from squadwright.demo.sessions import BARBELL_SESSION

        session = BARBELL_SESSION
    return plan_session(open_keeper(database, demo=demo), session, today=date.today())
