"""The session second by second: parts before and after, blocks, late people; back to run lines."""

from collections.abc import Iterable, Sequence
from dataclasses import replace
from typing import Any

from squadwright.model.routine import Block, Rest, RestKind, Routine, Step
from squadwright.model.session import Session
from squadwright.planning.attendance import PersonToday
from squadwright.planning.bar_flow import ends_at, flow_breaks, leaves_at
from squadwright.planning.bar_flow.transition import way
from squadwright.planning.contacts import count_set
from squadwright.planning.personal import Lookup, step_keys
from squadwright.planning.run_sheet import (
    FixedPart,
    LateArrival,
    NotFitting,
    PartKind,
    RunSheetProblem,
    RunSheetSolution,
    solve_run_sheet,
)
from squadwright.planning.run_sheet.blocks import BarUser, ComplexBlock, TimedExercise
from squadwright.planning.run_sheet.blocks import Block as TimedBlock

MINUTE_S = 60
SET_UP_S = 15 * MINUTE_S
TIME_LIMIT_S = 2.0
SHORT_SLOT_MINUTES = 50


def usual_parts(minutes: int) -> dict[str, Any]:
    """Fields of a session around its routine: 6 minutes each, less in a short slot.

    Common practice, no source.
    """
    is_short = minutes <= SHORT_SLOT_MINUTES
    return {
        "arrive_minutes": 3 if is_short else 6,
        "spare_minutes": 2 if is_short else 6,
        "close_minutes": 3 if is_short else 6,
        "pack_minutes": 3 if is_short else 6,
    }


def parts_before(session: Session, routine: Routine) -> tuple[FixedPart, ...]:
    """Set-up (before the slot), arrival, warm-up, rehearsal."""
    warm_up_s = max(routine.warm_up_s, session.settings.least_warm_up_minutes * MINUTE_S)
    parts = [
        FixedPart(PartKind.SET_UP, SET_UP_S),
        FixedPart(PartKind.ARRIVE, session.arrive_minutes * MINUTE_S),
        FixedPart(
            PartKind.WARM_UP,
            warm_up_s,
            min(warm_up_s, session.settings.least_warm_up_minutes * MINUTE_S),
        ),
        FixedPart(PartKind.REHEARSAL, routine.rehearsal_s),
    ]
    return tuple(part for part in parts if part.duration_s)


def least_warm_up_s(session: Session, before: Iterable[FixedPart]) -> int:
    """The shortest warm-up the coach allows, never more than the one planned [s]."""
    planned = next((p.duration_s for p in before if p.kind is PartKind.WARM_UP), MINUTE_S)
    return min(session.settings.least_warm_up_minutes * MINUTE_S, planned)


def parts_after(session: Session) -> tuple[FixedPart, ...]:
    """Spare time, cool-down with scores, packing away."""
    parts = [
        FixedPart(PartKind.SPARE, session.spare_minutes * MINUTE_S),
        FixedPart(PartKind.COOL_DOWN, session.close_minutes * MINUTE_S),
        FixedPart(PartKind.PACK, session.pack_minutes * MINUTE_S),
    ]
    return tuple(part for part in parts if part.duration_s)


def late_arrivals(
    people: Iterable[PersonToday], session: Session, routine: Routine
) -> tuple[LateArrival, ...]:
    """Late people warm up on their own track, then rehearse as long as the squad did."""
    return tuple(
        LateArrival(
            athlete=person.id,
            arrives_s=person.late_minutes * MINUTE_S,
            warm_up_s=max(
                session.settings.late_warm_up_minutes, session.settings.least_warm_up_minutes
            )
            * MINUTE_S,
            rehearsal_s=routine.rehearsal_s,
        )
        for person in people
        if person.status == "late"
    )


def work_seconds(block: Block, lookup: Lookup) -> tuple[int, ...]:
    """Seconds of each step of one round of a complex; they add up to the block's ``work_s``."""
    own = [
        count_set(lookup(step.exercise), step.scheme).times(step.scheme.sets).work_s
        for step in block.steps
    ]
    total = block.work_s or max(len(own), round(sum(own)))
    shares = [max(1.0, second * total / sum(own)) for second in own]
    whole = [int(share) for share in shares]
    by_rest = sorted(range(len(own)), key=lambda i: (whole[i] - shares[i], i))
    for place in range(max(0, total - sum(whole))):
        whole[by_rest[place % len(whole)]] += 1
    return tuple(whole)


def least_rest_s(rest: Rest, work_s: int) -> int:
    """Rest a lifter is owed between two rounds [s]; while the partner works, none is fixed."""
    match rest.kind:
        case RestKind.SECONDS:
            return rest.seconds
        case RestKind.WORK_TO_REST:
            return round(rest.ratio * work_s)
        case RestKind.PARTNER_WORKS:
            return 0


def complex_block(block: Block, users: tuple[BarUser, ...], lookup: Lookup) -> ComplexBlock:
    """A complex as the run sheet times it."""
    seconds = work_seconds(block, lookup)
    last = steps_that_must_stay(block, lookup)
    return ComplexBlock(
        name=block.name,
        exercises=tuple(
            TimedExercise(key, second, can_be_cut=place >= last)
            for place, (key, second) in enumerate(zip(step_keys(block), seconds, strict=True))
        ),
        users=users,
        rounds=block.rounds,
        change_s=block.changeover_s,
        minimum_rest_s=least_rest_s(block.rest, sum(seconds)),
    )


def steps_that_must_stay(block: Block, lookup: Lookup) -> int:
    """How many first steps stay when the last ones are cut one by one: the bar must still flow."""
    stay, as_written = len(block.steps), len(flow_breaks(block.steps, lookup))
    while stay > 1:
        left = with_last_end(block.steps[: stay - 1], block.steps[-1], lookup)
        if len(flow_breaks(left, lookup)) > as_written:
            break
        stay -= 1
    return stay


def with_last_end(steps: tuple[Step, ...], last: Step, lookup: Lookup) -> tuple[Step, ...]:
    """Steps whose last one leaves the bar where the last one before a cut left it, if it can."""
    ends = leaves_at(last, lookup(last.exercise))
    kept = steps[-1]
    if kept.last_ends is not None or way(ends_at(lookup(kept.exercise)), ends) is None:
        return steps
    return (*steps[:-1], replace(kept, last_ends=ends))


def complex_cycle_s(block: Block, waves: int, lookup: Lookup) -> tuple[int, int]:
    """Seconds of work of a round, and from one own round to the next [s]."""
    work_s = sum(work_seconds(block, lookup))
    turns = waves * (work_s + block.changeover_s)
    return work_s, max(turns, work_s + least_rest_s(block.rest, work_s))


def time_session(
    session: Session,
    routine: Routine,
    people: Sequence[PersonToday],
    blocks: tuple[TimedBlock, ...],
    parts: tuple[tuple[FixedPart, ...], tuple[FixedPart, ...]] | None = None,
) -> tuple[RunSheetProblem, RunSheetSolution | NotFitting]:
    """Time the whole slot; ``parts`` replaces the fixed parts where cuts have shortened them."""
    before, after = parts or (parts_before(session, routine), parts_after(session))
    problem = RunSheetProblem(
        slot_s=session.minutes * MINUTE_S,
        before=before,
        blocks=blocks,
        after=after,
        late=late_arrivals(people, session, routine),
        time_limit_s=TIME_LIMIT_S,
        least_warm_up_s=least_warm_up_s(session, before),
    )
    return problem, solve_run_sheet(problem)
