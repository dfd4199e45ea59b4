"""``squadwright backup | restore``: keep a copy of everything, and come back to it."""

from pathlib import Path
from typing import Annotated

import typer

from squadwright.commands.options import DatabaseOption


def backup(
    file: Annotated[Path, typer.Argument(help="A new file for the copy.")],
    database: DatabaseOption = None,
) -> None:
    """Copy the whole database into a new file; it may be in use meanwhile."""
    from squadwright.bootstrap import open_keeper
    from squadwright.services.backups import backup as back_up

    back_up(open_keeper(database), file)
    typer.echo(f"{file}: written. It holds health data: keep one copy elsewhere, under lock")


def restore(
    file: Annotated[Path, typer.Argument(help="A file made by `squadwright backup`.")],
    database: DatabaseOption = None,
) -> None:
    """Come back to a backup; it is checked first, and the data there is now is kept beside it."""
    from squadwright.bootstrap import open_keeper
    from squadwright.services.backups import restore as come_back

    keeper = open_keeper(database)
    kept = come_back(keeper, file)
    typer.echo(f"{keeper.shown}: restored from {file}")
    if kept is not None:
        typer.echo(f"what was there before is kept in {kept}")
