"""``squadwright record``: what was noted and done in a session, to read or as a file."""

from typing import TYPE_CHECKING, Annotated

import typer

from squadwright.commands.options import DatabaseOption, DemoOption, JsonOption
from squadwright.errors import InvalidInput

if TYPE_CHECKING:
    from squadwright.services.done import SessionDone


def record(
    session: Annotated[
        str | None,
        typer.Argument(help="Id of a session; leave out for today's, else the next one."),
    ] = None,
    database: DatabaseOption = None,
    demo: DemoOption = False,
    as_json: JsonOption = False,
    as_csv: Annotated[
        bool, typer.Option("--csv", help="Print CSV, one line for each event.")
    ] = False,
    as_done_csv: Annotated[
        bool, typer.Option("--done-csv", help="Print CSV, one line for each athlete.")
    ] = False,
) -> None:
    """Show what was done in a session, or write its record as JSON or CSV."""
    if as_json + as_csv + as_done_csv > 1:
        raise InvalidInput(
            "--json, --csv, --done-csv", "only one can be printed at a time", "Choose one"
        )
    found = done_of(session, database, demo=demo)
    typer.echo(_written(found, as_json=as_json, as_csv=as_csv, as_done_csv=as_done_csv), nl=False)


def done_of(session: str | None, database: str | None, *, demo: bool) -> "SessionDone":
    """What was done in a session, the last one with a record where none is named."""
    from datetime import UTC, date, datetime

    from squadwright.bootstrap import open_keeper
    from squadwright.services.done import session_done

    keeper = open_keeper(database, demo=demo)
    return session_done(keeper, session, today=date.today(), now=datetime.now(UTC))


def _written(found: "SessionDone", *, as_json: bool, as_csv: bool, as_done_csv: bool) -> bytes:
    from squadwright.exchange.record_out import done_csv, record_csv, write_record
    from squadwright.printing.done_text import done_text_view
    from squadwright.services.done import record_file

    names = found.club.shown_names()
    if as_json:
        return write_record(record_file(found)).encode()
    if as_csv:
        return record_csv(record_file(found), names)
    if as_done_csv:
        return done_csv(record_file(found), names)
    return done_text_view(found).encode()
