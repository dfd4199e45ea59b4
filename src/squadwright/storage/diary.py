"""The diary in the database: entries are written once; taking one out marks it, until erased."""

import json
from collections.abc import Collection, Sequence
from dataclasses import dataclass
from datetime import date

from sqlalchemy import Connection, delete, insert, select, update

from squadwright.errors import Conflict, NotFound
from squadwright.model.diary import DiaryEntry, DiaryKind, DiaryStep
from squadwright.storage import log_tables
from squadwright.storage.documents import from_document, to_document

MOST_AT_ONCE = 500


@dataclass(frozen=True)
class SqlDiary:
    """Reads and writes the diary on one connection, inside somebody else's transaction."""

    connection: Connection

    def entries(
        self,
        *,
        of: Collection[str] | None = None,
        kinds: Collection[DiaryKind] = (),
        since: date | None = None,
        until: date | None = None,
    ) -> tuple[DiaryEntry, ...]:
        """Entries in force by day, then as written; ``until`` is the last day, in it."""
        table = log_tables.diary_entry
        query = select(table.c.document).where(table.c.in_force)
        if of is not None:
            query = query.where(table.c.athlete_id.in_(list(of)))
        if kinds:
            query = query.where(table.c.kind.in_([kind.value for kind in kinds]))
        if since is not None:
            query = query.where(table.c.day >= since)
        if until is not None:
            query = query.where(table.c.day <= until)
        found = self.connection.execute(query.order_by(table.c.day, table.c.written)).scalars()
        return tuple(from_document(DiaryEntry, document) for document in found)

    def entry(self, entry_id: str) -> DiaryEntry:
        """The entry with an id, in force or not; raises NotFound."""
        table = log_tables.diary_entry
        query = select(table.c.document).where(table.c.id == entry_id)
        document = self.connection.execute(query).scalars().first()
        if document is None:
            raise NotFound("This entry of the diary is not there any more. Load the page afresh")
        return from_document(DiaryEntry, document)

    def write(self, added: Sequence[DiaryEntry], taken_out: Sequence[str], step: DiaryStep) -> None:
        """Bring entries in, take others out, and remember both as one step.

        Conflict where an entry that is to be taken out is not in force.
        """
        rows = [
            {
                "id": entry.id,
                "athlete_id": entry.athlete,
                "day": entry.day,
                "kind": entry.content.kind.value,
                "written": entry.written_at.isoformat(),
                "in_force": True,
                "document": to_document(entry),
            }
            for entry in added
        ]
        if rows:
            self.connection.execute(insert(log_tables.diary_entry), rows)
        self.put(taken_out, in_force=False)
        self.connection.execute(
            insert(log_tables.diary_step).values(
                mark=step.mark,
                made_on=step.made_on,
                added=json.dumps(step.added),
                taken_out=json.dumps(step.taken_out),
            )
        )

    def put(self, ids: Sequence[str], *, in_force: bool) -> None:
        """Put entries in force or out of it; Conflict where one already is, or is gone."""
        table = log_tables.diary_entry
        for start in range(0, len(ids), MOST_AT_ONCE):
            part = list(ids[start : start + MOST_AT_ONCE])
            query = update(table).where(table.c.id.in_(part), table.c.in_force != in_force)
            done = self.connection.execute(query.values(in_force=in_force))
            if done.rowcount != len(set(part)):
                raise Conflict(
                    "An entry was changed somewhere else since. Load the page afresh and look"
                )

    def step(self, mark: str) -> DiaryStep:
        """A write by its mark; raises NotFound."""
        table = log_tables.diary_step
        found = self.connection.execute(select(table).where(table.c.mark == mark)).mappings()
        row = found.one_or_none()
        if row is None:
            raise NotFound("This step is not remembered any more. Change it by hand")
        added, taken_out = json.loads(row["added"]), json.loads(row["taken_out"])
        return DiaryStep(row["mark"], row["made_on"], tuple(added), tuple(taken_out))

    def erase(self, athlete_id: str) -> int:
        """Delete every entry of an athlete for good; gives how many there were."""
        table = log_tables.diary_entry
        done = self.connection.execute(delete(table).where(table.c.athlete_id == athlete_id))
        return int(done.rowcount)
