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
    file: Annotated[
        Path, typer.Argument(help="A club file (JSON), or a data file (JSON, XLSX, zip of CSV).")
    ],
    database: DatabaseOption = None,
    replace: Annotated[
        bool, typer.Option("--replace", help="Give up a stored club of another name.")
    ] = False,
    accept: Annotated[
        bool, typer.Option("--accept", help="Take a data file in; without it, only look at it.")
    ] = False,
    as_json: JsonOption = False,
) -> None:
    """Take in a club file: all of it, or nothing if anything in it is wrong.

    A data file is looked at first: what is new, changed and doubtful. --accept takes it in.
    """
    import json
    from datetime import date

    from squadwright.bootstrap import open_keeper
    from squadwright.exchange.data_read import is_data_file
    from squadwright.exchange.document import read_bytes
    from squadwright.services.clubs import import_club

    keeper = open_keeper(database)
    data = read_bytes(file)
    if is_data_file(data):
        looked = _looked_at(keeper, data, file, accept=accept)
        text = json.dumps(looked, indent=2, ensure_ascii=False) if as_json else _lines(looked)
        typer.echo(text)
        return
    done = import_club(keeper, file, today=date.today(), replace_other_club=replace)
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


def _looked_at(
    keeper: "Keeper", data: bytes, file: Path, *, accept: bool
) -> dict[str, str | list[str]]:
    from datetime import UTC, date, datetime

    from squadwright.exchange.data_read import read_data
    from squadwright.services.data_in import look_at, take_in

    read = read_data(data, place=str(file))
    keeper.initialise()
    if accept:
        found, _ = take_in(keeper, read, today=date.today(), now=datetime.now(UTC))
    else:
        found = look_at(keeper, read, today=date.today())
    return {
        "club": found.club.name,
        "new": list(found.new),
        "changed": list(found.changed),
        "doubtful": list(found.doubtful),
        "wrong": found.wrong,
        "state": "taken in" if accept else "nothing stored: add --accept to take it in",
    }


def _lines(told: dict[str, str | list[str]]) -> str:
    rows = [(key, [held] if isinstance(held, str) else held) for key, held in told.items()]
    return "\n".join(f"{key}: {words}" for key, held in rows for words in held if words)


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
    _log_given_out(keeper)
    if file is None:
        typer.echo(data, nl=False)
        return
    write_file(file, data)
    typer.echo(f"{file}: written")


def _log_given_out(keeper: "Keeper") -> None:
    from squadwright.services.clubs import load_club
    from squadwright.services.health_log import log_given_out

    log_given_out(keeper, [athlete.id for athlete in load_club(keeper).athletes])


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
