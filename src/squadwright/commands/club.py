"""``squadwright init | import | export``: make the database, take a club in, give it out."""

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from squadwright.commands.options import DatabaseOption, DemoOption, JsonOption

if TYPE_CHECKING:
    from squadwright.services.unit_of_work import Keeper


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
    everything: Annotated[
        bool,
        typer.Option(
            "--all", help="Diary and records as well: FILE ends in .json, .xlsx or .zip (CSV)."
        ),
    ] = False,
) -> None:
    """Write the club as a club file (JSON), complete and as typed; with --all everything."""
    from squadwright.bootstrap import open_keeper
    from squadwright.exchange.document import write_file

    keeper = open_keeper(database, demo=demo)
    data = _all_of(keeper, file) if everything else _club_of(keeper)
    if file is None:
        typer.echo(data, nl=False)
        return
    write_file(file, data)
    typer.echo(f"{file}: written")


def _club_of(keeper: "Keeper") -> bytes:
    from squadwright.services.clubs import export_club

    return export_club(keeper).encode()


def _all_of(keeper: "Keeper", file: Path | None) -> bytes:
    from squadwright.errors import InvalidInput
    from squadwright.exchange.data_read import KINDS, write_as
    from squadwright.services.data_out import everything

    kind = file.suffix.lower().lstrip(".") if file else "json"
    if kind not in KINDS:
        endings = ", ".join(f".{each}" for each in KINDS)
        raise InvalidInput("FILE", f"ends in {kind!r}", f"Give it one of these endings: {endings}")
    return write_as(kind, everything(keeper))
