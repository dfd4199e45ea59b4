"""The database as the use cases see it: units of work on a real connection."""

from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

from sqlalchemy import Connection

from squadwright.model.club import Club
from squadwright.model.plan import Plan
from squadwright.model.record import RecordEvent
from squadwright.model.step import Step
from squadwright.storage import backup, documents, events, repository, steps
from squadwright.storage.database import Database, State


@dataclass(frozen=True)
class SqlStore:
    """Reads and writes on one connection, inside the transaction somebody else opened."""

    connection: Connection

    def load_club(self) -> Club | None:
        """The stored club, or None."""
        return repository.load_club(self.connection)

    def save_club(self, club: Club) -> None:
        """Store a club in place of the one there is."""
        repository.save_club(self.connection, club)

    def load_plan(self, session_id: str, revision: int | None = None) -> Plan:
        """A kept plan; raises NotFound."""
        return documents.load_plan(self.connection, session_id, revision)

    def save_plan(self, plan: Plan) -> int:
        """Keep a plan; gives its revision."""
        return documents.save_plan(self.connection, plan)

    def routine_versions(self) -> dict[str, int]:
        """The highest version ever stored of each routine, those no more in the club included."""
        return documents.routine_versions(self.connection)

    def keep_step(self, step: Step) -> None:
        """Remember what a write changed."""
        steps.keep_step(self.connection, step)

    def load_step(self, step_id: str) -> Step:
        """A step that is remembered; raises NotFound."""
        return steps.load_step(self.connection, step_id)

    def add_events(self, brought: Sequence[RecordEvent]) -> int:
        """Add the events that are not there yet; gives how many were new."""
        return events.add_events(self.connection, brought)

    def events_of(self, session_id: str, *, after: int) -> tuple[tuple[RecordEvent, ...], int]:
        """The events of a session after the first so many, and how many there are then."""
        return events.events_of(self.connection, session_id, after=after)


@dataclass(frozen=True)
class SqlKeeper:
    """Opens units of work on a database."""

    database: Database

    @property
    def shown(self) -> str:
        """Its address without a password."""
        return f"database {self.database.shown}"

    def initialise(self) -> bool:
        """Make its tables or bring them up to date; True if there was something to do."""
        return self.database.initialise() is not State.CURRENT

    @contextmanager
    def reading(self) -> Iterator[SqlStore]:
        """A unit of work that only reads."""
        with self.database.reading() as connection:
            yield SqlStore(connection)

    @contextmanager
    def writing(self) -> Iterator[SqlStore]:
        """A unit of work that writes: all of it is stored, or none."""
        with self.database.writing() as connection:
            yield SqlStore(connection)

    def faults(self) -> list[str]:
        """What is wrong with the database itself."""
        return self.database.faults()

    def back_up(self, target: Path) -> None:
        """Copy everything into a new file."""
        backup.back_up(self.database, target)

    def restore(self, source: Path) -> Path | None:
        """Take everything from a backup; gives the file in which the old data is kept."""
        return backup.restore(self.database, source)
