"""The database as the use cases see it: units of work on a real connection."""

from collections.abc import Collection, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

from sqlalchemy import Connection

from squadwright.model.club import Club
from squadwright.model.device import Device
from squadwright.model.health_log import HealthTouch
from squadwright.model.plan import Plan
from squadwright.model.record import RecordEvent
from squadwright.model.step import Step, Touch
from squadwright.planning.live.course import Course
from squadwright.storage import (
    backup,
    courses,
    devices,
    documents,
    events,
    health_log,
    repository,
    steps,
)
from squadwright.storage.database import Database, State
from squadwright.storage.diary import SqlDiary
from squadwright.storage.erasure import SqlErasure


@dataclass(frozen=True)
class SqlStore:
    """Reads and writes on one connection, inside the transaction somebody else opened."""

    connection: Connection

    @property
    def diary(self) -> SqlDiary:
        """The diary of the athletes."""
        return SqlDiary(self.connection)

    @property
    def erasure(self) -> SqlErasure:
        """Erasing athletes, and taking imports back."""
        return SqlErasure(self.connection)

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

    def touches(self, parts: Collection[str]) -> tuple[Touch, ...]:
        """What the remembered steps changed in some parts of the club, the oldest first."""
        return steps.touches(self.connection, parts)

    def add_events(self, brought: Sequence[RecordEvent]) -> int:
        """Add the events that are not there yet; gives how many were new."""
        return events.add_events(self.connection, brought)

    def events_of(self, session_id: str, *, after: int) -> tuple[tuple[RecordEvent, ...], int]:
        """The events of a session after the first so many, and how many there are then."""
        return events.events_of(self.connection, session_id, after=after)

    def recorded_sessions(self) -> frozenset[str]:
        """Ids of the sessions of which anything is noted."""
        return events.recorded_sessions(self.connection)

    def record_marks(self) -> dict[str, tuple[int, int]]:
        """How many events and how many courses each session has that was ever started."""
        return courses.record_marks(self.connection)

    def add_course(self, session_id: str, start: str, course: Course, revision: str) -> int:
        """Keep a course of a session as it was started by an event; gives its number."""
        return courses.add_course(self.connection, session_id, start, course, revision)

    def courses_of(self, session_id: str, start: str) -> tuple[Course, ...]:
        """The courses of a session since it was started by an event, the last at the end."""
        return courses.courses_of(self.connection, session_id, start)

    def last_course(self, session_id: str) -> tuple[int, str, str]:
        """Number, start and revision of the last course of a session; 0 without one."""
        return courses.last_course(self.connection, session_id)

    def log_health(self, lines: Sequence[HealthTouch]) -> None:
        """Add lines to the log of health fields."""
        health_log.log_health(self.connection, lines)

    def health_log(self, athlete_id: str = "") -> tuple[HealthTouch, ...]:
        """The log of health fields, the newest first."""
        return health_log.health_log(self.connection, athlete_id)

    def devices(self) -> tuple[Device, ...]:
        """Second devices: those that may join with a code, and those that have joined."""
        return devices.devices(self.connection)

    def device_of_token(self, token_hash: str) -> Device | None:
        """The device that has joined with a token, by the hash of it."""
        return devices.device_of_token(self.connection, token_hash)

    def put_device(self, device: Device) -> None:
        """Keep a device in place of the one with its id."""
        devices.put_device(self.connection, device)

    def drop_device(self, device_id: str) -> None:
        """Forget a device."""
        devices.drop_device(self.connection, device_id)


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

    @contextmanager
    def staying_open(self) -> Iterator[None]:
        """Hold the database open while a server runs on it."""
        with self.database.staying_open():
            yield

    def faults(self) -> list[str]:
        """What is wrong with the database itself."""
        return self.database.faults()

    def back_up(self, target: Path) -> None:
        """Copy everything into a new file."""
        backup.back_up(self.database, target)

    def restore(self, source: Path) -> Path | None:
        """Take everything from a backup; gives the file in which the old data is kept."""
        return backup.restore(self.database, source)
