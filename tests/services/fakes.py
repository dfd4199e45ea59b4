"""A database in memory, for use cases: a unit of work that fails leaves nothing behind."""

from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, field
from pathlib import Path

from squadwright.errors import NotFound
from squadwright.model.club import Club
from squadwright.model.plan import Plan
from squadwright.model.record import RecordEvent
from squadwright.model.step import Step


@dataclass
class FakeStore:
    """What one unit of work sees."""

    club: Club | None = None
    plans: dict[str, list[Plan]] = field(default_factory=dict)
    fails: bool = False
    steps: dict[str, Step] = field(default_factory=dict)
    events: list[RecordEvent] = field(default_factory=list)
    versions: dict[str, int] = field(default_factory=dict)

    def load_club(self) -> Club | None:
        return self.club

    def save_club(self, club: Club) -> None:
        self.routine_versions()
        self.club = club
        self.routine_versions()
        if self.fails:
            raise RuntimeError("the lights went out")

    def load_plan(self, session_id: str, revision: int | None = None) -> Plan:
        kept = self.plans.get(session_id, [])
        number = len(kept) if revision is None else revision
        if not 1 <= number <= len(kept):
            raise NotFound(f"no plan is stored for session {session_id!r}")
        return kept[number - 1]

    def save_plan(self, plan: Plan) -> int:
        kept = self.plans.setdefault(plan.session.id, [])
        kept.append(plan)
        return len(kept)

    def routine_versions(self) -> dict[str, int]:
        for routine in self.club.routines if self.club else ():
            last = self.versions.get(routine.id, 0)
            self.versions[routine.id] = max(last, routine.version)
        return dict(self.versions)

    def keep_step(self, step: Step) -> None:
        self.steps[step.id] = step

    def load_step(self, step_id: str) -> Step:
        if step_id not in self.steps:
            raise NotFound("This step is not remembered any more")
        return self.steps[step_id]

    def add_events(self, brought: Sequence[RecordEvent]) -> int:
        known = {event.id for event in self.events}
        new = [event for event in brought if event.id not in known]
        self.events += new
        return len(new)

    def events_of(self, session_id: str, *, after: int) -> tuple[tuple[RecordEvent, ...], int]:
        found = [e for e in self.events if e.session == session_id][after:]
        return tuple(found), after + len(found)


@dataclass
class FakeKeeper:
    """A database without a disk."""

    store: FakeStore = field(default_factory=FakeStore)
    is_ready: bool = False
    told_faults: list[str] = field(default_factory=list)
    shown: str = "database in memory"

    def initialise(self) -> bool:
        was_ready, self.is_ready = self.is_ready, True
        return not was_ready

    @contextmanager
    def reading(self) -> Iterator[FakeStore]:
        if not self.is_ready:
            raise NotFound(f"{self.shown} holds no club yet")
        yield self.store

    @contextmanager
    def writing(self) -> Iterator[FakeStore]:
        before = self.store.club
        try:
            yield self.store
        except BaseException:
            self.store.club = before
            raise

    def faults(self) -> list[str]:
        return self.told_faults

    def back_up(self, target: Path) -> None:
        raise NotImplementedError(target)

    def restore(self, source: Path) -> Path | None:
        raise NotImplementedError(source)
