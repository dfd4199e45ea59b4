"""Steps: what each write changed, kept so that it can be taken back after a restart as well."""

import json
from collections.abc import Collection
from datetime import date
from functools import lru_cache
from typing import Any, get_args, get_origin

from pydantic import TypeAdapter
from sqlalchemy import Connection, delete, func, insert, select

from squadwright.errors import NotFound
from squadwright.model.club import Club
from squadwright.model.kit import Kit
from squadwright.model.shape import plain_types
from squadwright.model.step import Entry, Step, Touch
from squadwright.storage import log_tables

MOST_KEPT = 1000
# The day of a club of which no step was kept.
FIRST_DAY = date(2026, 1, 1)


def keep_step(connection: Connection, step: Step) -> None:
    """Remember a step; the oldest ones are forgotten."""
    table = log_tables.step
    number = (connection.scalar(select(func.max(table.c.number))) or 0) + 1
    entries = json.dumps([_written(entry) for entry in step.entries], ensure_ascii=False)
    connection.execute(
        insert(table).values(number=number, id=step.id, made_on=step.made_on, entries=entries)
    )
    connection.execute(delete(table).where(table.c.number <= number - MOST_KEPT))


def load_step(connection: Connection, step_id: str) -> Step:
    """A step that is remembered; raises NotFound."""
    table = log_tables.step
    query = select(table).where(table.c.id == step_id)
    row = connection.execute(query).mappings().one_or_none()
    if row is None:
        raise NotFound("This step is not remembered any more. Change it by hand")
    entries = tuple(_read(entry) for entry in json.loads(row["entries"]))
    return Step(row["id"], row["made_on"], entries)


def touches(connection: Connection, parts: Collection[str]) -> tuple[Touch, ...]:
    """What the steps that are remembered changed in some parts of the club, the oldest first.

    The first is about nothing: it stands for all the steps before, forgotten or never made.
    """
    table = log_tables.step
    found: list[Touch] = []
    oldest: tuple[int, date] | None = None
    for row in connection.execute(select(table).order_by(table.c.number)).mappings():
        number, made_on, written = row["number"], row["made_on"], row["entries"]
        oldest = oldest or (number - 1, made_on)
        if not any(f'"part": "{part}"' in written for part in parts):
            continue
        for entry in json.loads(written):
            if entry["part"] in parts:
                held = entry["after"] or entry["before"]
                slot = held.get("slot", "") if isinstance(held, dict) else ""
                found.append(Touch(number, made_on, entry["part"], entry["key"], slot))
    number, made_on = oldest or (0, FIRST_DAY)
    return (Touch(number, made_on, "", ""), *found)


def _written(entry: Entry) -> dict[str, Any]:
    kind = _adapter(entry.part)
    return {
        "part": entry.part,
        "key": entry.key,
        "position": entry.position,
        **{
            side: kind.dump_python(value, mode="json")
            for side, value in (("before", entry.before), ("after", entry.after))
        },
    }


def _read(written: dict[str, Any]) -> Entry:
    kind = _adapter(written["part"])
    before, after = (kind.validate_json(json.dumps(written[side])) for side in ("before", "after"))
    return Entry(written["part"], written["key"], written["position"], before, after)


@lru_cache
def _adapter(part: str) -> TypeAdapter[Any]:
    """Reads and writes one entry of a part, or None where there was none."""
    field, _, shelf = part.partition(".")
    kind = plain_types(Kit)[shelf] if shelf else plain_types(Club)[field]
    is_keyed = get_origin(kind) is tuple and isinstance(get_args(kind)[0], type)
    if is_keyed and hasattr(get_args(kind)[0], "__dataclass_fields__"):
        kind = get_args(kind)[0]
    return TypeAdapter(kind | None)
