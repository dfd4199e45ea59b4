"""``squadwright schema``: the published schemas, for other programs."""

from enum import StrEnum
from typing import Annotated

import typer


class Document(StrEnum):
    """Documents that have a schema."""

    CLUB = "club"
    PLAN = "plan"


def schema(
    document: Annotated[Document, typer.Argument(help="Which document.")],
) -> None:
    """Print the JSON Schema (draft 2020-12) of the club file or of the plan."""
    import json

    from squadwright.exchange.schema import club_schema, plan_schema

    made = club_schema() if document is Document.CLUB else plan_schema()
    typer.echo(json.dumps(made, indent=2, ensure_ascii=False))
