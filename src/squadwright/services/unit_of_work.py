"""What the use cases ask of a database. Only they open a unit of work."""

from collections.abc import Mapping, Sequence
from contextlib import AbstractContextManager
from pathlib import Path
from typing import Protocol

from squadwright.model.club import Club
from squadwright.model.plan import Plan
from squadwright.model.record import RecordEvent
from squadwright.model.step import Step


class Store(Protocol):
    """What can be read and written inside one unit of work."""

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

    def add_events(self, brought: Sequence[RecordEvent]) -> int:
        """Add the events that are not there yet; gives how many were new."""

    def events_of(self, session_id: str, *, after: int) -> tuple[tuple[RecordEvent, ...], int]:
        """The events of a session after the first so many, and how many there are then."""


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

    def faults(self) -> list[str]:
        """What is wrong with the database itself."""

    def back_up(self, target: Path) -> None:
        """Copy everything into a new file."""

    def restore(self, source: Path) -> Path | None:
        """Take everything from a backup; gives the file in which the old data is kept."""
