"""``squadwright schema``: the published schemas, for other programs."""

from enum import StrEnum
from typing import Annotated

import typer


class Document(StrEnum):
    """Documents that have a schema."""

    CLUB = "club"
    PLAN = "plan"
    ROUTINE = "routine"
    RECORD = "record"


def schema(
    document: Annotated[Document, typer.Argument(help="Which document.")],
) -> None:
    """Print the JSON Schema (draft 2020-12) of the club or routine file, the plan or the record."""
    import json

    from squadwright.exchange.schema import (
        club_schema,
        plan_schema,
        record_schema,
        routine_schema,
    )

    schema_of = {
        Document.CLUB: club_schema,
        Document.PLAN: plan_schema,
        Document.ROUTINE: routine_schema,
        Document.RECORD: record_schema,
    }
    typer.echo(json.dumps(schema_of[document](), indent=2, ensure_ascii=False))
