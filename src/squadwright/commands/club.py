"""``squadwright init | import | export``: make the database, take a club in, give it out."""

from pathlib import Path
from typing import Annotated

import typer

from squadwright.commands.options import DatabaseOption, DemoOption, JsonOption


def init(database: DatabaseOption = None, as_json: JsonOption = False) -> None:
    """Make the database, or bring it up to date; what is in it stays."""
    import json

    from squadwright.bootstrap import open_keeper
    from squadwright.services.clubs import initialise

    keeper = open_keeper(database)
    changed = initialise(keeper)
    if as_json:
        typer.echo(json.dumps({"database": keeper.shown, "changed": changed}, ensure_ascii=False))
        return
    typer.echo(f"{keeper.shown}: {'ready' if changed else 'ready before, nothing to do'}")


def import_(
    file: Annotated[Path, typer.Argument(help="A club file (JSON).")],
    database: DatabaseOption = None,
    replace: Annotated[
        bool, typer.Option("--replace", help="Give up a stored club of another name.")
    ] = False,
    as_json: JsonOption = False,
) -> None:
    """Take in a club file: all of it, or nothing if anything in it is wrong."""
    import json
    from datetime import date

    from squadwright.bootstrap import open_keeper
    from squadwright.services.clubs import import_club

    done = import_club(open_keeper(database), file, today=date.today(), replace_other_club=replace)
    club = done.club
    counts = {
        "athletes": len(club.athletes),
        "rooms": len(club.rooms),
        "routines": len(club.routines),
        "sessions": len(club.sessions),
    }
    if as_json:
        notes = [str(complaint) for complaint in done.attention]
        told = {"club": club.name, **counts, "attention": notes}
        typer.echo(json.dumps(told, indent=2, ensure_ascii=False))
        return
    held = ", ".join(f"{count} {what}" for what, count in counts.items())
    instead = ", in place of the one stored" if done.took_the_place_of_another else ""
    typer.echo(f"{club.name}: {held}{instead}")
    for complaint in done.attention:
        typer.echo(f"look at {complaint}")


def export(
    file: Annotated[
        Path | None, typer.Argument(help="Where to write; leave out for standard output.")
    ] = None,
    database: DatabaseOption = None,
    demo: DemoOption = False,
) -> None:
    """Write the club as a club file (JSON), complete and as typed."""
    from squadwright.bootstrap import open_keeper
    from squadwright.exchange.document import write_text
    from squadwright.services.clubs import export_club

    text = export_club(open_keeper(database, demo=demo))
    if file is None:
        typer.echo(text.encode(), nl=False)
        return
    write_text(file, text)
    typer.echo(f"{file}: written")
