"""The command line: registers the commands and turns errors into one line and an exit code."""

import sys
from typing import Annotated

import typer

from squadwright import __version__
from squadwright.commands.backups import backup, restore
from squadwright.commands.camp import camp
from squadwright.commands.check import check
from squadwright.commands.club import export, import_, init
from squadwright.commands.formula import formula
from squadwright.commands.kit import kit
from squadwright.commands.plan import plan, print_
from squadwright.commands.record import record
from squadwright.commands.schema import schema
from squadwright.commands.serve import serve
from squadwright.commands.simulate import simulate
from squadwright.errors import SquadwrightError

app = typer.Typer(
    help="Plan a strength and conditioning session for a combat team.",
    no_args_is_help=True,
    add_completion=False,
    rich_markup_mode=None,
    pretty_exceptions_enable=False,
)

app.command()(init)
app.command(name="import")(import_)
app.command()(serve)
app.command()(plan)
app.command(name="print")(print_)
app.command()(camp)
app.command()(record)
app.command()(export)
app.command()(check)
app.command()(schema)
app.command()(kit)
app.command()(formula)
app.add_typer(simulate, name="simulate")
app.command()(backup)
app.command()(restore)


def _show_version(wanted: bool) -> None:
    if wanted:
        typer.echo(__version__)
        raise typer.Exit


@app.callback()
def _root(
    version: Annotated[
        bool, typer.Option("--version", callback=_show_version, is_eager=True, help="The version.")
    ] = False,
) -> None:
    """Plan a strength and conditioning session for a combat team."""


def main() -> None:
    """Run the command line; a known error becomes one line on standard error."""
    try:
        app()
    except SquadwrightError as error:
        sys.stderr.write(f"squadwright: {error}\n")
        sys.exit(error.exit_code)
    except BrokenPipeError:
        sys.stderr.close()
        sys.exit(1)
