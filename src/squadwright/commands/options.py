"""Options that several commands share."""

from typing import Annotated

import typer

DatabaseOption = Annotated[
    str | None,
    typer.Option(
        "--database",
        metavar="URL",
        help="sqlite:///PATH, postgresql://USER@HOST/NAME or a path; "
        "else SQUADWRIGHT_DATABASE, else a file in your data folder.",
    ),
]
DemoOption = Annotated[
    bool, typer.Option("--demo", help="Use the demo club, in a database of its own.")
]
JsonOption = Annotated[bool, typer.Option("--json", help="Print JSON.")]
