"""Erasing an athlete in the database, the list of who was erased, and imports to be taken back."""

import json
from collections.abc import Sequence
from dataclasses import asdict, dataclass
from typing import Any

from sqlalchemy import Connection, Table, delete, insert, select, update

from squadwright.errors import NotFound
from squadwright.model.erased import Erased
from squadwright.storage import log_tables, tables
from squadwright.storage.diary import MOST_AT_ONCE, SqlDiary
from squadwright.storage.documents import fingerprint
from squadwright.storage.health_log import put_pseudonym

NOBODY = "erased athlete"
# Documents that stay as they were run or planned, under a name that says nobody's.
KEPT: tuple[tuple[Table, bool], ...] = (
    (tables.session, True),
    (tables.plan, True),
    (log_tables.course, False),
)


@dataclass(frozen=True)
class SqlErasure:
    """Erases on one connection, inside somebody else's transaction."""

    connection: Connection

    def erased(self) -> tuple[Erased, ...]:
        """Everybody who was erased."""
        found = self.connection.execute(select(log_tables.erased)).mappings()
        return tuple(Erased(**dict(row)) for row in found)

    def remember(self, erased: Sequence[Erased]) -> None:
        """Add to the list those who are not on it."""
        known = {each.salt for each in self.erased()}
        rows = [asdict(each) for each in erased if each.salt not in known]
        if rows:
            self.connection.execute(insert(log_tables.erased), rows)

    def erase(self, athlete_id: str, name: str, pseudonym: str) -> None:
        """Delete an athlete's diary, events and steps; put a pseudonym for him in old plans."""
        if self.connection.dialect.name == "sqlite":
            # What is deleted is overwritten, in this unit of work and after it.
            self.connection.exec_driver_sql("PRAGMA secure_delete = ON")
        SqlDiary(self.connection).erase(athlete_id)
        put_pseudonym(self.connection, athlete_id, pseudonym)
        quoted = json.dumps(athlete_id, ensure_ascii=False)
        written = json.dumps(name, ensure_ascii=False)[1:-1]
        self._drop_events(quoted)
        # A step that names him, or his name alone, holds him as he was.
        for text in (quoted, json.dumps(name, ensure_ascii=False)):
            table = log_tables.step
            where = table.c.entries.contains(text, autoescape=True)
            self.connection.execute(delete(table).where(where))
        for table, has_mark in KEPT:
            self._put_pseudonym(table, has_mark, quoted, written, pseudonym)

    def drop_events(self, ids: Sequence[str]) -> None:
        """Delete events that an import brought."""
        table = log_tables.record_event
        for start in range(0, len(ids), MOST_AT_ONCE):
            part = list(ids[start : start + MOST_AT_ONCE])
            self.connection.execute(delete(table).where(table.c.id.in_(part)))

    def keep_import(
        self, mark: str, club_step: str, diary_mark: str, events: Sequence[str]
    ) -> None:
        """Remember what an import brought."""
        row = {"mark": mark, "club_step": club_step, "diary_mark": diary_mark}
        self.connection.execute(
            insert(log_tables.taken_in).values(**row, events=json.dumps(list(events)))
        )

    def take_import(self, mark: str) -> tuple[str, str, tuple[str, ...]]:
        """What an import brought, and forget it; raises NotFound."""
        table = log_tables.taken_in
        found = self.connection.execute(select(table).where(table.c.mark == mark)).mappings()
        row = found.one_or_none()
        if row is None:
            raise NotFound("This import is not remembered any more, or was taken back already")
        self.connection.execute(delete(table).where(table.c.mark == mark))
        return row["club_step"], row["diary_mark"], tuple(json.loads(row["events"]))

    def _drop_events(self, quoted: str) -> None:
        table = log_tables.record_event
        where = table.c.document.contains(f'"athlete":{quoted}', autoescape=True)
        self.connection.execute(delete(table).where(where))

    def _put_pseudonym(
        self, table: Table, has_mark: bool, quoted: str, name: str, pseudonym: str
    ) -> None:
        keys = list(table.primary_key.columns)
        query = select(*keys, table.c.document).where(
            table.c.document.contains(quoted, autoescape=True)
        )
        for row in self.connection.execute(query).mappings().all():
            document = row["document"].replace(quoted, json.dumps(pseudonym)).replace(name, NOBODY)
            changed: dict[str, Any] = {"document": document}
            if has_mark:
                changed["sha256"] = fingerprint(document)
            where = [key == row[key.name] for key in keys]
            self.connection.execute(update(table).where(*where).values(**changed))
