"""What the use cases ask of a database. Only they open a unit of work."""

from collections.abc import Collection, Mapping, Sequence
from contextlib import AbstractContextManager
from datetime import date
from pathlib import Path
from typing import Protocol

from squadwright.model.club import Club
from squadwright.model.device import Device
from squadwright.model.diary import DiaryEntry, DiaryKind, DiaryStep
from squadwright.model.erased import Erased
from squadwright.model.health_log import HealthTouch
from squadwright.model.plan import Plan
from squadwright.model.record import RecordEvent
from squadwright.model.step import Step, Touch
from squadwright.planning.live.course import Course


class Diary(Protocol):
    """What can be read and written of the diary inside one unit of work."""

    def entries(
        self,
        *,
        of: Collection[str] | None = None,
        kinds: Collection[DiaryKind] = (),
        since: date | None = None,
        until: date | None = None,
    ) -> tuple[DiaryEntry, ...]:
        """Entries in force by day, then as written; ``until`` is the last day, in it."""

    def entry(self, entry_id: str) -> DiaryEntry:
        """The entry with an id, in force or not; raises NotFound."""

    def write(self, added: Sequence[DiaryEntry], taken_out: Sequence[str], step: DiaryStep) -> None:
        """Bring entries in, take others out, and remember both as one step."""

    def put(self, ids: Sequence[str], *, in_force: bool) -> None:
        """Put entries in force or out of it; Conflict where one already is, or is gone."""

    def step(self, mark: str) -> DiaryStep:
        """A write by its mark; raises NotFound."""

    def erase(self, athlete_id: str) -> int:
        """Delete every entry of an athlete for good; gives how many there were."""


class Erasure(Protocol):
    """Erasing athletes for good, and remembering what an import brought."""

    def erased(self) -> tuple[Erased, ...]:
        """Everybody who was erased."""

    def remember(self, erased: Sequence[Erased]) -> None:
        """Add to the list those who are not on it."""

    def erase(self, athlete_id: str, name: str, pseudonym: str) -> None:
        """Delete an athlete's diary, events and steps; put a pseudonym for him in old plans."""

    def drop_events(self, ids: Sequence[str]) -> None:
        """Delete events that an import brought."""

    def keep_import(
        self, mark: str, club_step: str, diary_mark: str, events: Sequence[str]
    ) -> None:
        """Remember what an import brought."""

    def take_import(self, mark: str) -> tuple[str, str, tuple[str, ...]]:
        """What an import brought, and forget it; raises NotFound."""


class Store(Protocol):
    """What can be read and written inside one unit of work."""

    @property
    def diary(self) -> Diary:
        """The diary of the athletes."""

    @property
    def erasure(self) -> Erasure:
        """Erasing athletes, and taking imports back."""

    def load_club(self) -> Club | None:
        """The stored club, or None."""

    def save_club(self, club: Club) -> None:
        """Store a club in place of the one there is."""

    def load_plan(self, session_id: str, revision: int | None = None) -> Plan:
        """A kept plan; raises NotFound."""

    def save_plan(self, plan: Plan) -> int:
        """Keep a plan; gives its revision."""

    def routine_versions(self) -> Mapping[str, int]:
        """The highest version ever stored of each routine, those no more in the club included."""

    def keep_step(self, step: Step) -> None:
        """Remember what a write changed."""

    def load_step(self, step_id: str) -> Step:
        """A step that is remembered; raises NotFound."""

    def touches(self, parts: Collection[str]) -> tuple[Touch, ...]:
        """What the remembered steps changed in some parts of the club, the oldest first.

        The first is about nothing: it stands for all the steps before.
        """

    def add_events(self, brought: Sequence[RecordEvent]) -> int:
        """Add the events that are not there yet; gives how many were new."""

    def events_of(self, session_id: str, *, after: int) -> tuple[tuple[RecordEvent, ...], int]:
        """The events of a session after the first so many, and how many there are then."""

    def recorded_sessions(self) -> frozenset[str]:
        """Ids of the sessions of which anything is noted."""

    def record_marks(self) -> Mapping[str, tuple[int, int]]:
        """How many events and how many courses each session has that was ever started."""

    def add_course(self, session_id: str, start: str, course: Course, revision: str) -> int:
        """Keep a course of a session as it was started by an event; gives its number."""

    def courses_of(self, session_id: str, start: str) -> tuple[Course, ...]:
        """The courses of a session since it was started by an event, the last at the end."""

    def last_course(self, session_id: str) -> tuple[int, str, str]:
        """Number, start and revision of the last course of a session; 0 without one."""

    def log_health(self, lines: Sequence[HealthTouch]) -> None:
        """Add lines to the log of health fields."""

    def health_log(self, athlete_id: str = "") -> tuple[HealthTouch, ...]:
        """The log of health fields of everybody, or of one athlete, the newest first."""

    def devices(self) -> Sequence[Device]:
        """Second devices: those that may join with a code, and those that have joined."""

    def device_of_token(self, token_hash: str) -> Device | None:
        """The device that has joined with a token, by the hash of it."""

    def put_device(self, device: Device) -> None:
        """Keep a device in place of the one with its id."""

    def drop_device(self, device_id: str) -> None:
        """Forget a device."""


class Keeper(Protocol):
    """A database that opens units of work: each is stored whole or not at all."""

    @property
    def shown(self) -> str:
        """Its address without a password."""

    def initialise(self) -> bool:
        """Make its tables or bring them up to date; True if there was something to do."""

    def reading(self) -> AbstractContextManager[Store]:
        """A unit of work that only reads."""

    def writing(self) -> AbstractContextManager[Store]:
        """A unit of work that writes."""

    def staying_open(self) -> AbstractContextManager[None]:
        """Hold the database open while a server runs on it."""

    def faults(self) -> list[str]:
        """What is wrong with the database itself."""

    def back_up(self, target: Path) -> None:
        """Copy everything into a new file."""

    def restore(self, source: Path) -> Path | None:
        """Take everything from a backup; gives the file in which the old data is kept."""
