"""The log of health fields in the database: lines are added, and never changed but in erasing."""

from collections.abc import Sequence
from datetime import datetime

from sqlalchemy import Connection, delete, func, insert, select, update

from squadwright.model.health_log import HealthTouch, How
from squadwright.storage import log_tables

MOST_KEPT = 20_000
TABLE = log_tables.health_log


def log_health(connection: Connection, lines: Sequence[HealthTouch]) -> None:
    """Add lines; the oldest ones are forgotten."""
    last = connection.scalar(select(func.max(TABLE.c.number))) or 0
    rows = [
        {
            "number": last + place,
            "at": line.at.isoformat(),
            "who": line.who,
            "athlete_id": line.athlete,
            "field": line.field,
            "how": line.how.value,
        }
        for place, line in enumerate(lines, start=1)
    ]
    connection.execute(insert(TABLE), rows)
    connection.execute(delete(TABLE).where(TABLE.c.number <= last + len(rows) - MOST_KEPT))


def health_log(connection: Connection, athlete_id: str) -> tuple[HealthTouch, ...]:
    """The lines of everybody, or of one athlete, the newest first."""
    query = select(TABLE).order_by(TABLE.c.number.desc())
    if athlete_id:
        query = query.where(TABLE.c.athlete_id == athlete_id)
    return tuple(
        HealthTouch(
            datetime.fromisoformat(row["at"]),
            row["who"],
            row["athlete_id"],
            row["field"],
            How(row["how"]),
        )
        for row in connection.execute(query).mappings()
    )


def put_pseudonym(connection: Connection, athlete_id: str, pseudonym: str) -> None:
    """Who was erased has his lines under a name that says nobody's."""
    where = TABLE.c.athlete_id == athlete_id
    connection.execute(update(TABLE).where(where).values(athlete_id=pseudonym))
