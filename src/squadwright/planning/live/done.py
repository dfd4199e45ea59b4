"""What each athlete did, from the plan and the record: nothing here is stored."""

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from datetime import datetime

from squadwright.model.plan import Dose, Plan, RunLine
from squadwright.model.record import NOT_THERE, EventKind, RecordEvent, in_force, stop_of
from squadwright.planning.live.clock import clock_of
from squadwright.planning.live.noted_swaps import NotedSwap, noted_swaps


@dataclass(frozen=True)
class Fault:
    """One fault as it was tapped."""

    words: str
    round: int
    exercise: str


@dataclass(frozen=True)
class StopAsked:
    """A fault that came so often in a round that the coach's rule asked to stop or lighten."""

    round: int
    fault: str
    times: int

    @property
    def words(self) -> str:
        """As the coach reads it: "asked to stop in round 3: lower back rounds, 3 times"."""
        where = f" in round {self.round}" if self.round else ""
        times = "once" if self.times == 1 else f"{self.times} times"
        return f"asked to stop{where}: {self.fault}, {times}"


@dataclass(frozen=True)
class AthleteDone:
    """One athlete's share of a session.

    ``rounds_done`` counts rounds finished, ``sets_done`` sets of drills, which have no rounds;
    ``planned_rounds`` and ``planned_sets`` are what the plan gave him, so that fewer planned are
    never read as a failure. ``lost`` holds repetitions lost by round. Who was not there has done
    nothing and has not stopped.
    """

    athlete: str
    planned_rounds: int
    rounds_done: int
    load_kg: float | None
    lost: tuple[tuple[int, int], ...] = ()
    faults: tuple[Fault, ...] = ()
    stopped_in_round: int | None = None
    effort: float | None = None
    reserve: float | None = None
    kit_limited: bool = False
    planned_kg: float | None = None
    first_round: int = 1
    planned_sets: int = 0
    sets_done: int = 0
    swaps: tuple[NotedSwap, ...] = ()
    stops_asked: tuple[StopAsked, ...] = ()
    was_there: bool = True

    @property
    def is_all_done(self) -> bool:
        """Whether he did everything that was planned for him."""
        return self.rounds_done >= self.planned_rounds and self.sets_done >= self.planned_sets


@dataclass(frozen=True)
class _Course:
    """How the clock went over the run sheet: from where, to where, and who stopped where."""

    begun_s: float
    place_s: float
    stopped_s: dict[str, float]
    no_start_after_s: float | None = None


def done(
    plan: Plan, events: Iterable[RecordEvent], *, now: datetime, stop_after: int
) -> tuple[AthleteDone, ...]:
    """What each athlete with a dose has done so far; ``stop_after`` is the coach's stop rule."""
    record = in_force(events)
    course = _course_of(record, now)
    rows = (_of_one(plan, dose, record, course) for dose in _first_doses(plan))
    return tuple(replace(row, stops_asked=stops_asked(row.faults, stop_after)) for row in rows)


def _first_doses(plan: Plan) -> list[Dose]:
    seen: dict[str, Dose] = {}
    for dose in plan.doses:
        seen.setdefault(dose.athlete, dose)
    return list(seen.values())


def _course_of(record: Sequence[RecordEvent], now: datetime) -> _Course:
    set_to = [e.value or 0.0 for e in record if e.kind in (EventKind.STARTED, EventKind.MOVED)]
    stopped: dict[str, float] = {}
    for athlete in {event.athlete for event in record if event.athlete}:
        stop = stop_of(event for event in record if event.athlete == athlete)
        if stop is not None:
            until_then = record[: record.index(stop) + 1]
            stopped[athlete] = clock_of(until_then).place_at(stop.at)
    clock = clock_of(record)
    no_start = None if clock.stops_at_s is None else clock.stop_from_s
    return _Course(min(set_to, default=0.0), clock.place_at(now), stopped, no_start)


def _of_one(plan: Plan, dose: Dose, record: Sequence[RecordEvent], course: _Course) -> AthleteDone:
    own = [event for event in record if event.athlete == dose.athlete]
    work = [
        line
        for line in plan.run_sheet
        if line.activity.startswith("work") and dose.athlete in line.athletes
    ]
    was_there = not any(e.kind is EventKind.REMARK and e.words == NOT_THERE for e in own)
    stopped = _stopped_in(own)
    finished = _finished(work, stopped, course, dose.athlete)
    lost: Counter[int] = Counter()
    for event in own:
        if event.kind is EventKind.REPETITIONS_LOST:
            lost[event.round] += int(event.value or 0)
    return AthleteDone(
        athlete=dose.athlete,
        planned_rounds=len(_rounds(work)),
        rounds_done=len(_rounds(finished)),
        load_kg=_last(own, EventKind.LOAD_CHANGED, dose.load_kg),
        lost=tuple(sorted(lost.items())),
        faults=tuple(
            Fault(event.words, event.round, event.exercise)
            for event in own
            if event.kind is EventKind.FAULT
        ),
        stopped_in_round=stopped if was_there else None,
        effort=_last(own, EventKind.EFFORT, None),
        reserve=_last(own, EventKind.RESERVE, None),
        kit_limited=dose.kit_limited,
        planned_kg=dose.load_kg,
        first_round=dose.first_round,
        planned_sets=_sets(work),
        sets_done=_sets(finished),
        swaps=noted_swaps(plan, own),
        was_there=was_there,
    )


def _rounds(lines: Iterable[RunLine]) -> set[tuple[str, int]]:
    return {(line.block, line.round) for line in lines if line.round is not None}


def _sets(lines: Iterable[RunLine]) -> int:
    return sum(line.round is None for line in lines)


def _stopped_in(own: Sequence[RecordEvent]) -> int | None:
    """The round in which somebody stopped for good; None where he went on."""
    stop = stop_of(own)
    return None if stop is None else stop.round


def _finished(
    work: Sequence[RunLine], stopped: int | None, course: _Course, athlete: str
) -> list[RunLine]:
    """Work the clock went through to its end; for who stopped, what was over before that.

    The round he stopped in does not count, even where the tap came a little after its end; where
    no round is told, as with a stop for heat, the place of the clock alone says it.
    """
    passed = [line for line in work if course.begun_s < line.end_s <= course.place_s]
    if course.no_start_after_s is not None:
        passed = [line for line in passed if line.start_s <= course.no_start_after_s]
    if stopped is None:
        return passed
    place_s = course.stopped_s[athlete]
    begun = [line for line in work if line.start_s <= place_s]
    block = max(begun, key=lambda line: line.start_s).block if begun else ""
    return [
        line
        for line in passed
        if line.end_s <= place_s
        and not (
            stopped > 0 and line.round is not None and line.block == block and line.round >= stopped
        )
    ]


def _last(own: Sequence[RecordEvent], kind: EventKind, otherwise: float | None) -> float | None:
    values = [event.value for event in own if event.kind is kind]
    return values[-1] if values else otherwise


def stops_asked(faults: Iterable[Fault], limit: int) -> tuple[StopAsked, ...]:
    """Each fault that was tapped at least ``limit`` times in one round, by the first round first.

    The device asks by the same rule at the tap that reaches the limit.
    """
    seen = Counter((fault.round, fault.words) for fault in faults)
    return tuple(
        StopAsked(number, words, count)
        for (number, words), count in sorted(seen.items(), key=lambda each: each[0][0])
        if count >= limit
    )
