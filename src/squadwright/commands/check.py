"""``squadwright check``: every mistake of a club file or of the database, at once."""

from pathlib import Path
from typing import Annotated

import typer

from squadwright.commands.options import DatabaseOption, JsonOption
from squadwright.errors import InvalidInput


def check(
    file: Annotated[
        Path | None, typer.Argument(help="A club file; leave out to check the database.")
    ] = None,
    database: DatabaseOption = None,
    as_json: JsonOption = False,
) -> None:
    """Look through a club file or the database: what is wrong, and what to look at."""
    import json
    from dataclasses import asdict
    from datetime import date

    from squadwright.bootstrap import open_keeper
    from squadwright.services.checks import check_database, check_file

    today = date.today()
    if file is not None:
        report = check_file(file, today=today)
    else:
        report = check_database(open_keeper(database), today=today)
    if as_json:
        typer.echo(json.dumps(asdict(report) | {"sound": report.is_sound}, ensure_ascii=False))
    else:
        for complaint in report.wrong:
            typer.echo(f"wrong: {complaint}")
        for complaint in report.attention:
            typer.echo(f"look at {complaint}")
        ending = "nothing is wrong" if report.is_sound else f"{len(report.wrong)} to mend"
        typer.echo(f"{report.looked_at}: {ending}, {len(report.attention)} to look at")
    if not report.is_sound:
        raise typer.Exit(InvalidInput.exit_code)
