"""Use case: a session that ran from paper is written into the record afterwards.

What stands on the score sheet becomes the events a device would have noted: the start and the end
by the clock of the session, and between them only what went otherwise than planned.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta
from zoneinfo import ZoneInfo

from squadwright.errors import Conflict, InvalidInput
from squadwright.exchange.record_file import Brought
from squadwright.model.calendar import time_zones
from squadwright.model.plan import Plan, RunLine
from squadwright.model.record import NOT_THERE, EventKind, RecordEvent, in_force
from squadwright.planning.live.clock import clock_of
from squadwright.services.after import DEVICE, Batch, Noted
from squadwright.services.meeting import meet
from squadwright.services.record import record_of
from squadwright.services.running import Running, running
from squadwright.services.unit_of_work import Keeper


@dataclass(frozen=True)
class OnPaper:
    """What stands on the score sheet of one athlete where it is not as planned.

    ``rounds`` is how many he did, None for all of his; ``lost`` holds repetitions lost by round.
    """

    athlete: str
    rounds: int | None = None
    load_kg: float | None = None
    lost: tuple[tuple[int, int], ...] = ()
    seen: str = ""
    effort: int | None = None
    was_there: bool = True


def rounds_of(plan: Plan, athlete: str) -> tuple[int, ...]:
    """The rounds in which somebody works, by their numbers; empty where drills have none."""
    lines = _work_of(plan, athlete)
    return tuple(sorted({line.round for line in lines if line.round is not None}))


def require_open(keeper: Keeper, session_id: str, *, today: date) -> Running:
    """The session as it is to be entered; Conflict where a clock has run or its day is to come."""
    run = running(keeper, session_id, today=today)
    record = record_of(keeper, session_id)
    if clock_of(record).is_started:
        why = (
            "it was entered from paper. Take that back first"
            if mark_of_paper(record)
            else "it ran by the clock of the live floor, and what was noted there stands"
        )
        raise Conflict(f"{run.session.name} is in the record already: {why}")
    if run.session.held_on > today:
        raise Conflict(
            f"{run.session.name} is on {run.session.held_on}, today is {today}. "
            "Enter it when it is over"
        )
    return run


def mark_of_paper(record: Sequence[RecordEvent]) -> str:
    """By which mark an entry from paper is taken back; empty where there is none."""
    started = [event for event in in_force(record) if event.kind is EventKind.STARTED]
    theirs = [event.id for event in started if event.device == DEVICE]
    return theirs[-1].removeprefix(f"{DEVICE}-").rpartition("-")[0] if theirs else ""


def enter_from_paper(
    keeper: Keeper, session_id: str, lines: Sequence[OnPaper], *, today: date
) -> Noted:
    """Write a session into the record: as planned, but for what the lines say."""
    run = require_open(keeper, session_id, today=today)
    people = {dose.athlete for dose in run.plan.doses}
    for line in lines:
        if line.athlete not in people:
            raise InvalidInput("athlete", f"{line.athlete!r} has no dose", "Load the page afresh")
    began = _begin(run)
    new = Batch(session_id, record_of(keeper, session_id), began)
    new.add(EventKind.STARTED, value=0.0)
    for line in lines:
        for place_s, kind, more in _events(run.plan, line):
            at = began + timedelta(seconds=place_s)
            new.add(kind, athlete=line.athlete, at=at, **more)  # type: ignore[arg-type]
    end_s = max(line.end_s for line in run.plan.run_sheet)
    over = began + timedelta(seconds=end_s)
    new.add(EventKind.ENDED, at=over)
    for line in lines:
        if line.effort is not None:
            new.add(EventKind.EFFORT, athlete=line.athlete, value=float(line.effort), at=over)
    meet(keeper, session_id, Brought(0, new.events, DEVICE), today=today)
    return Noted(new.mark)


def _begin(run: Running) -> datetime:
    zone = ZoneInfo(run.club.time_zone) if run.club.time_zone in time_zones() else UTC
    return datetime.combine(run.session.held_on, run.session.starts_at, tzinfo=zone)


def _work_of(plan: Plan, athlete: str) -> list[RunLine]:
    own = (line for line in plan.run_sheet if athlete in line.athletes)
    return sorted(
        (line for line in own if line.activity.startswith("work")), key=lambda line: line.start_s
    )


def _events(plan: Plan, line: OnPaper) -> Iterator[tuple[float, EventKind, dict[str, object]]]:
    """Place on the run sheet [s], kind, and the rest of each event of one athlete."""
    work = _work_of(plan, line.athlete)
    if not work:
        return
    starts = {each.round: each.start_s for each in reversed(work) if each.round is not None}
    rounds = sorted(starts)
    if not line.was_there:
        yield work[0].start_s, EventKind.REMARK, {"words": NOT_THERE}
        yield work[0].start_s, EventKind.ATHLETE_STOPPED, {"round": rounds[0] if rounds else 1}
        return
    if line.load_kg is not None:
        yield work[0].start_s, EventKind.LOAD_CHANGED, {"value": line.load_kg}
    for number, count in line.lost:
        more: dict[str, object] = {"round": number, "value": float(count)}
        yield starts.get(number, work[-1].start_s) + 1, EventKind.REPETITIONS_LOST, more
    if line.seen:
        last = rounds[-1] if rounds else 1
        yield work[-1].start_s + 1, EventKind.FAULT, {"round": last, "words": line.seen}
    if line.rounds is not None and line.rounds < len(rounds):
        number = rounds[line.rounds]
        yield starts[number] + 1, EventKind.ATHLETE_STOPPED, {"round": number}
