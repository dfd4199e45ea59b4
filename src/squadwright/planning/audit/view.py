"""What the audit reads: the session with everything decided so far."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from squadwright.model.club import Club
from squadwright.model.exercise import Exercise
from squadwright.model.plan import BarPlan, Dose, PlannedExercise, RunLine
from squadwright.model.room import Room
from squadwright.model.routine import Routine
from squadwright.model.session import Session
from squadwright.planning.attendance import PersonToday
from squadwright.planning.floor_plan import LaidOut
from squadwright.planning.less_floor import LessFloor


@dataclass(frozen=True)
class AuditView:
    """A session as planned, before its findings are added."""

    club: Club
    session: Session
    room: Room
    routine: Routine
    people: tuple[PersonToday, ...]
    doses: tuple[Dose, ...]
    bars: tuple[BarPlan, ...]
    run_sheet: tuple[RunLine, ...]
    exercises: Mapping[str, Exercise]
    previous_jump_sessions: tuple[Session, ...] = ()
    missing: tuple[tuple[str, str, str], ...] = ()
    cuts: tuple[str, ...] = ()
    minutes_needed: float | None = None
    kit_advice: tuple[str, ...] = ()
    flow_breaks: tuple[tuple[str, str], ...] = ()
    kit_that_saves_time: tuple[tuple[str, int, int], ...] = ()
    floor: LaidOut | None = None
    less_floor: tuple[LessFloor, ...] = ()

    def training(self) -> tuple[PersonToday, ...]:
        """People who work today."""
        return tuple(p for p in self.people if p.trains)

    def planned(self) -> Iterator[tuple[PersonToday, Dose, PlannedExercise, Exercise]]:
        """Every exercise of every athlete who trains."""
        people = {p.id: p for p in self.people}
        for dose in self.doses:
            for planned in dose.exercises:
                yield people[dose.athlete], dose, planned, self.exercises[planned.exercise]
