"""A database in memory, for use cases: a unit of work that fails leaves nothing behind."""

from collections.abc import Collection, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, field
from pathlib import Path

from squadwright.errors import NotFound
from squadwright.model.club import Club
from squadwright.model.device import Device
from squadwright.model.erased import Erased
from squadwright.model.health_log import HealthTouch
from squadwright.model.plan import Plan
from squadwright.model.record import RecordEvent
from squadwright.model.step import Step, Touch
from squadwright.planning.live.course import Course
from squadwright.services.unit_of_work import Diary


class FakeErasure:
    """Nobody was erased; the rest is tested on a database."""

    def erased(self) -> tuple[Erased, ...]:
        return ()

    def remember(self, erased: Sequence[Erased]) -> None:
        raise AssertionError

    def erase(self, athlete_id: str, name: str, pseudonym: str) -> None:
        raise AssertionError

    def drop_events(self, ids: Sequence[str]) -> None:
        raise AssertionError

    def keep_import(
        self, mark: str, club_step: str, diary_mark: str, events: Sequence[str]
    ) -> None:
        raise AssertionError

    def take_import(self, mark: str) -> tuple[str, str, tuple[str, ...]]:
        raise AssertionError


@dataclass
class FakeStore:
    """What one unit of work sees."""

    club: Club | None = None
    plans: dict[str, list[Plan]] = field(default_factory=dict)
    fails: bool = False
    steps: dict[str, Step] = field(default_factory=dict)
    events: list[RecordEvent] = field(default_factory=list)
    versions: dict[str, int] = field(default_factory=dict)
    courses: list[tuple[str, str, Course, str]] = field(default_factory=list)
    known_devices: dict[str, Device] = field(default_factory=dict)
    health_lines: list[HealthTouch] = field(default_factory=list)

    @property
    def diary(self) -> Diary:
        raise AssertionError("use cases of the diary are tested on a database")

    def log_health(self, lines: Sequence[HealthTouch]) -> None:
        self.health_lines.extend(lines)

    def health_log(self, athlete_id: str = "") -> tuple[HealthTouch, ...]:
        lines = reversed(self.health_lines)
        return tuple(each for each in lines if athlete_id in ("", each.athlete))

    @property
    def erasure(self) -> "FakeErasure":
        return FakeErasure()

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

    def touches(self, parts: Collection[str]) -> tuple[Touch, ...]:
        raise AssertionError("calendar files are tested on a database")

    def add_events(self, brought: Sequence[RecordEvent]) -> int:
        known = {event.id for event in self.events}
        new = [event for event in brought if event.id not in known]
        self.events += new
        return len(new)

    def recorded_sessions(self) -> frozenset[str]:
        return frozenset(event.session for event in self.events)

    def record_marks(self) -> dict[str, tuple[int, int]]:
        return {
            session: (
                sum(event.session == session for event in self.events),
                self.last_course(session)[0],
            )
            for session in {each[0] for each in self.courses}
        }

    def events_of(self, session_id: str, *, after: int) -> tuple[tuple[RecordEvent, ...], int]:
        found = [e for e in self.events if e.session == session_id][after:]
        return tuple(found), after + len(found)

    def add_course(self, session_id: str, start: str, course: Course, revision: str) -> int:
        self.courses.append((session_id, start, course, revision))
        return len(self.courses)

    def courses_of(self, session_id: str, start: str) -> tuple[Course, ...]:
        return tuple(
            c for session, since, c, _ in self.courses if (session, since) == (session_id, start)
        )

    def last_course(self, session_id: str) -> tuple[int, str, str]:
        own = [
            (start, revision)
            for session, start, _, revision in self.courses
            if session == session_id
        ]
        return (len(own), *own[-1]) if own else (0, "", "")

    def devices(self) -> tuple[Device, ...]:
        return tuple(self.known_devices.values())

    def device_of_token(self, token_hash: str) -> Device | None:
        return next((d for d in self.devices() if d.token_hash == token_hash), None)

    def put_device(self, device: Device) -> None:
        self.known_devices[device.id] = device

    def drop_device(self, device_id: str) -> None:
        self.known_devices.pop(device_id, None)


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
        club, events = self.store.club, list(self.store.events)
        try:
            yield self.store
        except BaseException:
            self.store.club, self.store.events = club, events
            raise

    @contextmanager
    def staying_open(self) -> Iterator[None]:
        yield

    def faults(self) -> list[str]:
        return self.told_faults

    def back_up(self, target: Path) -> None:
        raise NotImplementedError(target)

    def restore(self, source: Path) -> Path | None:
        raise NotImplementedError(source)
