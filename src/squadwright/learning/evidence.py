"""From the record of a session to what it teaches of each athlete.

Only complexes with a load teach. What an athlete lost counts against his strength only where
nothing else explains it: who came late, had pain, was stopped by heat, or worked under a
restriction is spared, and his rounds stand as a floor of what he can do. A load below the dose
for want of plates is one as well: to have done it says little, and never that he is weak.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from math import inf

from squadwright.learning.history import Trial, Work
from squadwright.library import exercise as library_exercise
from squadwright.model.plan import Basis, Dose, Plan
from squadwright.model.record import FOR_HEAT, OF_THE_CLOCK, EventKind, RecordEvent, in_force
from squadwright.model.session import Session
from squadwright.planning.complex_movement import asks_for_strength, complex_movement
from squadwright.planning.live.clock import clock_of
from squadwright.planning.live.done import AthleteDone, done
from squadwright.planning.live.onset import Onset, fault_patterns

LATE, PAIN, HEAT = "came late", "had pain", "was stopped by heat"
RESTRICTED, SWAPPED = "worked under a restriction", "did something else instead"


@dataclass(frozen=True)
class _Part:
    """One complex of one athlete, with what was noted of it; ``plan`` has no other block.

    What is called at the door is about his last complex: ``is_last``. ``heat_s`` is the second of
    the run sheet at which heat stopped everybody; infinity where it did not.
    """

    session: Session
    plan: Plan
    dose: Dose
    done: AthleteDone
    events: tuple[RecordEvent, ...]
    is_last: bool
    heat_s: float

    def own_round(self, number: int) -> int:
        """A round of the sheet, counted from the first one of his."""
        return max(1, number - self.dose.first_round + 1)


def trials_of(
    session: Session, plan: Plan, events: Iterable[RecordEvent], *, now: datetime
) -> dict[str, tuple[Trial, ...]]:
    """What a session teaches of each athlete, by athlete; nothing where it was never started."""
    record = in_force(events)
    if not clock_of(record).is_started:
        return {}
    block_at = _blocks_of_events(plan, record)
    stops = [e.value for e in record if e.kind is EventKind.HEAT_STOP and e.value is not None]
    heat_s = min(stops, default=inf)
    found: dict[str, list[Trial]] = {}
    for block in dict.fromkeys(dose.block for dose in plan.doses if dose.block):
        part = _only(plan, block)
        own = tuple(e for e in record if block_at.get(e.id, block) == block)
        for row in done(part, own, now=now, stop_after=session.settings.stop_after_faults):
            dose = next(d for d in part.doses if d.athlete == row.athlete)
            noted = tuple(e for e in own if e.athlete == row.athlete)
            last = [each.block for each in plan.doses if each.athlete == row.athlete][-1]
            trial = _trial(_Part(session, part, dose, row, noted, last == block, heat_s))
            if trial is not None:
                found.setdefault(row.athlete, []).append(trial)
    return {athlete: tuple(trials) for athlete, trials in found.items()}


def work_of(plan: Plan, dose: Dose) -> Work | None:
    """The complex of a dose as it was asked for; None where nothing in it asks for strength."""
    moves = tuple(
        complex_movement(exercise, max(1, planned.repetitions_per_set))
        for planned in dose.exercises
        if planned.block == dose.block
        and asks_for_strength(exercise := library_exercise(planned.exercise))
    )
    rests = [
        line.rest_s
        for line in plan.run_sheet
        if line.block == dose.block and dose.athlete in line.athletes and line.rest_s is not None
    ]
    if not moves or dose.rounds < 1:
        return None
    return Work(moves, dose.rounds, float(min(rests, default=0)))


def _only(plan: Plan, block: str) -> Plan:
    """The plan as if it had no other block."""
    return replace(
        plan,
        doses=tuple(dose for dose in plan.doses if dose.block == block),
        run_sheet=tuple(line for line in plan.run_sheet if line.block == block),
    )


def _blocks_of_events(plan: Plan, record: Sequence[RecordEvent]) -> dict[str, str]:
    """The block that was under way for an athlete when something was noted of him.

    What is said at the door after the last block belongs to it.
    """
    found: dict[str, str] = {}
    clock = [event for event in record if event.kind in OF_THE_CLOCK]
    for event in record:
        if not event.athlete:
            continue
        place_s = clock_of(e for e in clock if e.order <= event.order).place_at(event.at)
        begun = [
            line
            for line in plan.run_sheet
            if line.activity.startswith("work")
            and event.athlete in line.athletes
            and line.start_s <= place_s
        ]
        if begun:
            found[event.id] = max(begun, key=lambda line: line.start_s).block
    return found


def _trial(part: _Part) -> Trial | None:
    dose, row = part.dose, part.done
    if dose.load_kg is None or dose.basis is Basis.TECHNIQUE_BAR or not row.planned_rounds:
        return None
    work = work_of(part.plan, dose)
    if work is None:
        return None
    first_kg, changed_in = _load(part)
    last_round = work.rounds if changed_in is None else changed_in - 1
    went = min(row.rounds_done, last_round)
    lost = [(part.own_round(number), count) for number, count in row.lost if count]
    lost = [(number, count) for number, count in lost if number <= last_round]
    clean = min([went, *(number - 1 for number, _ in lost)])
    spared = _spared(part)
    count = sum(n for number, n in lost if number == clean + 1) if not spared else 0
    if not went and not count:
        return None
    whole = clean == work.rounds
    return Trial(
        session=part.session.id,
        held_on=part.session.held_on,
        work=work,
        load_kg=first_kg,
        clean_rounds=clean,
        lost_repetitions=count,
        called_reserve=row.reserve if whole and part.is_last else None,
        strained_round=0 if spared else _strained(part, work.rounds, changed_in),
        wanted_kg=dose.target_kg if dose.kit_limited else None,
        spared=spared,
        faults=tuple((pattern.words, pattern.count) for pattern in fault_patterns(row)),
        effort=row.effort,
    )


def _load(part: _Part) -> tuple[float, int | None]:
    """The load he began with, and his round in which it was changed, if it was."""
    assert part.dose.load_kg is not None
    load_kg = part.dose.load_kg
    for event in part.events:
        if event.kind is EventKind.LOAD_CHANGED and event.value is not None and event.value > 0:
            own = part.own_round(event.round)
            if own > 1:
                return load_kg, own
            load_kg = event.value
    return load_kg, None


def _strained(part: _Part, rounds: int, changed_in: int | None) -> int:
    """The first round in which form gave way late, or the load was taken down for it."""
    late = [
        part.own_round(pattern.first_round)
        for pattern in fault_patterns(part.done)
        if pattern.onset is Onset.FATIGUE
    ]
    if changed_in is not None and part.done.load_kg is not None and part.dose.load_kg is not None:
        late += [changed_in] if part.done.load_kg < part.dose.load_kg else []
    return min([number for number in late if number <= rounds], default=0)


def _spared(part: _Part) -> str:
    """Why what he lost is no sign of weakness; empty where it is one."""
    line = next((a for a in part.plan.attendance if a.athlete == part.dose.athlete), None)
    check_in = next((c for c in part.session.check_ins if c.athlete == part.dose.athlete), None)
    if check_in is not None and check_in.pains:
        return PAIN
    if line is not None and line.restrictions:
        return RESTRICTED
    if part.dose.first_round > 1 or (line is not None and line.status == "late"):
        return LATE
    if _is_cut_by_heat(part):
        return HEAT
    if any(event.kind is EventKind.SWAPPED for event in part.events):
        return SWAPPED
    return ""


def _is_cut_by_heat(part: _Part) -> bool:
    """Whether heat stopped him, or everybody, before the last of his rounds was over."""
    if any(e.kind is EventKind.ATHLETE_STOPPED and e.words == FOR_HEAT for e in part.events):
        return True
    athlete = part.dose.athlete
    return any(line.end_s > part.heat_s for line in part.plan.run_sheet if athlete in line.athletes)
