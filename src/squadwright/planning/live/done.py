"""What each athlete did, from the plan and the record: nothing here is stored."""

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import datetime

from squadwright.model.plan import Dose, Plan, RunLine
from squadwright.model.record import EventKind, RecordEvent, in_force
from squadwright.planning.live.clock import clock_of


@dataclass(frozen=True)
class Fault:
    """One fault as it was tapped."""

    words: str
    round: int
    exercise: str


@dataclass(frozen=True)
class AthleteDone:
    """One athlete's share of a session.

    ``rounds_done`` counts rounds finished, ``lost`` repetitions lost by round; ``planned_rounds``
    is what the plan gave him, so that fewer planned are never read as a failure.
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


def done(plan: Plan, events: Iterable[RecordEvent], *, now: datetime) -> tuple[AthleteDone, ...]:
    """What each athlete with a dose has done so far."""
    record = in_force(events)
    place = clock_of(record).place_at(now)
    return tuple(_of_one(plan, dose, record, place) for dose in _first_doses(plan))


def _first_doses(plan: Plan) -> list[Dose]:
    seen: dict[str, Dose] = {}
    for dose in plan.doses:
        seen.setdefault(dose.athlete, dose)
    return list(seen.values())


def _of_one(plan: Plan, dose: Dose, record: Sequence[RecordEvent], place_s: float) -> AthleteDone:
    own = [event for event in record if event.athlete == dose.athlete]
    stopped = _stopped_in(own)
    finished = _rounds_finished(plan.run_sheet, dose.athlete, place_s)
    if stopped is not None:
        finished = {number for number in finished if number < stopped}
    lost: Counter[int] = Counter()
    for event in own:
        if event.kind is EventKind.REPETITIONS_LOST:
            lost[event.round] += int(event.value or 0)
    return AthleteDone(
        athlete=dose.athlete,
        planned_rounds=dose.rounds,
        rounds_done=len(finished),
        load_kg=_last(own, EventKind.LOAD_CHANGED, dose.load_kg),
        lost=tuple(sorted(lost.items())),
        faults=tuple(
            Fault(event.words, event.round, event.exercise)
            for event in own
            if event.kind is EventKind.FAULT
        ),
        stopped_in_round=stopped,
        effort=_last(own, EventKind.EFFORT, None),
        reserve=_last(own, EventKind.RESERVE, None),
        kit_limited=dose.kit_limited,
    )


def _stopped_in(own: Sequence[RecordEvent]) -> int | None:
    """The round in which somebody stopped for good; None where he went on."""
    stopped: int | None = None
    for event in own:
        if event.kind is EventKind.ATHLETE_STOPPED:
            stopped = event.round
        elif event.kind is EventKind.ATHLETE_WENT_ON:
            stopped = None
    return stopped


def _rounds_finished(run_sheet: Sequence[RunLine], athlete: str, place_s: float) -> set[int]:
    return {
        line.round
        for line in run_sheet
        if line.round is not None
        and line.activity.startswith("work")
        and athlete in line.athletes
        and line.end_s <= place_s
    }


def _last(own: Sequence[RecordEvent], kind: EventKind, otherwise: float | None) -> float | None:
    values = [event.value for event in own if event.kind is kind]
    return values[-1] if values else otherwise


@dataclass(frozen=True)
class FaultPattern:
    """How one fault of one athlete came: from the first round, or only late."""

    words: str
    count: int
    first_round: int
    is_late_only: bool


def fault_patterns(faults: Sequence[Fault], planned_rounds: int) -> tuple[FaultPattern, ...]:
    """Faults by name: those that begin in the second half of the rounds speak of fatigue.

    A rule of ours: it describes when a fault was seen, and does not say why.
    """
    found = []
    for words in dict.fromkeys(fault.words for fault in faults):
        rounds = [fault.round for fault in faults if fault.words == words]
        first = min(rounds)
        found.append(
            FaultPattern(
                words, len(rounds), first, planned_rounds >= 2 and first > planned_rounds / 2
            )
        )
    return tuple(found)


def asks_to_stop(
    record: Iterable[RecordEvent], athlete: str, round_number: int, *, limit: int
) -> str:
    """The fault that was seen ``limit`` times in one round of one athlete; empty if none was."""
    seen = Counter(
        event.words
        for event in in_force(record)
        if event.kind is EventKind.FAULT
        and event.athlete == athlete
        and event.round == round_number
    )
    return next((words for words, count in seen.items() if count >= limit), "")
