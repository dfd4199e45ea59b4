"""What was changed while a session ran, read from its record and worked into its course."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from squadwright.errors import InvalidInput, NoSolution, NotFound, OutOfTime
from squadwright.model.club import Club
from squadwright.model.marks import wave_letter
from squadwright.model.plan import Plan
from squadwright.model.record import EventKind, RecordEvent, in_force, stop_of
from squadwright.model.session import CheckIn, MissingKit, Presence, Session
from squadwright.planning.live.bar_out import moved_off
from squadwright.planning.live.clock import clock_of
from squadwright.planning.live.course import (
    BarOfBlock,
    Course,
    bars_in_order,
    with_new_plan,
    with_time_left,
)
from squadwright.planning.plan import Timed, make_timed
from squadwright.planning.run_sheet import ComplexBlock

OF_THE_COURSE = frozenset({EventKind.TIME_LEFT, EventKind.JOINED_LATE, EventKind.BAR_OUT})
"""What moves the sheet of a running session."""

ON_TIME_S = 120


@dataclass(frozen=True)
class Change:
    """One change and the place of the sheet at which it came [s]."""

    event: RecordEvent
    place_s: float


def changes_of(events: Iterable[RecordEvent]) -> tuple[Change, ...]:
    """What was changed since the start, in order, each with its place on the sheet."""
    record = in_force(events)
    start = clock_of(record).start
    if start is None:
        return ()
    return tuple(
        Change(event, clock_of(record[:number]).place_at(event.at))
        for number, event in enumerate(record)
        if event.kind in OF_THE_COURSE and event.order > start.order
    )


def stopped_by(events: Iterable[RecordEvent], last: RecordEvent) -> frozenset[str]:
    """Athletes who had stopped for good when an event came."""
    by_athlete: dict[str, list[RecordEvent]] = {}
    for event in in_force(events):
        if event.athlete and event.order <= last.order:
            by_athlete.setdefault(event.athlete, []).append(event)
    return frozenset(athlete for athlete, own in by_athlete.items() if stop_of(own))


def worked_in(
    course: Course,
    club: Club,
    session: Session,
    changes: Sequence[Change],
    stopped: frozenset[str] = frozenset(),
) -> Course:
    """The course after the last of the changes; it follows the others already.

    A change that cannot be worked in leaves the sheet as it is, and the sentence says why.
    """
    change = changes[-1]
    event = change.event
    followed = (*course.changes, event.id)
    try:
        if event.kind is EventKind.TIME_LEFT:
            moved = with_time_left(course, change.place_s, round((event.value or 0) * 60))
        elif event.kind is EventKind.BAR_OUT:
            moved = _bar_out(course, club, session, changes, stopped)
        else:
            moved = _late(course, club, session, changes, stopped)
    except (InvalidInput, NoSolution, NotFound, OutOfTime) as error:
        moved = replace(course, told=(*course.told, f"The sheet stays as it is: {error}"))
    return replace(moved, changes=followed)


def _bar_out(
    course: Course,
    club: Club,
    session: Session,
    changes: Sequence[Change],
    stopped: frozenset[str],
) -> Course:
    change = changes[-1]
    bar = next((b for b in club.kit.bars if b.id == change.event.words), None)
    if bar is None:
        raise NotFound(f"{change.event.words!r} is not a bar of the club")
    now = _as_now(session, changes, stopped)
    timed = moved_off(
        course, club, now, bar.id, stopped=stopped, place_s=change.place_s
    ) or make_timed(club, now, previous=course.plan)
    order = bars_in_order(timed.plan, course.bar_order)
    numbers = [n for n, each in enumerate(order, start=1) if each.bar == bar.id]
    called = f"Bar {numbers[0]} ({bar.name})" if numbers else bar.name
    words = f"{called} is out of use. {_moves(course.plan, timed, order)}"
    return with_new_plan(course, change.place_s, timed, words=words)


def _moves(former: Plan, timed: Timed, order: Sequence[BarOfBlock]) -> str:
    """Who goes to which bar from the next round on, and whether there are more waves."""
    plan = timed.plan
    blocks = [block for block in timed.problem.blocks if isinstance(block, ComplexBlock)]
    working = {(user.athlete, block.name) for block in blocks for user in block.users}
    was = {(u.athlete, x.block): (x.bar, u.wave) for x in former.bars for u in x.wave_users}
    number = {(each.block, each.bar): n for n, each in enumerate(order, start=1)}
    said = [
        f"{plan.shown_name(user.athlete)} to bar {number[line.block, line.bar]} "
        f"in wave {wave_letter(user.wave)} with {user.load_kg:g} kg"
        for line in plan.bars
        for user in line.wave_users
        if was.get((user.athlete, line.block)) != (line.bar, user.wave)
    ]
    placed = {(user.athlete, line.block) for line in plan.bars for user in line.wave_users}
    said += [
        f"{plan.shown_name(athlete)} "
        f"{'goes on with a stick' if (athlete, block) in working else 'helps and watches'}"
        for athlete, block in was
        if (athlete, block) not in placed
    ]
    before, now = _waves(former), _waves(plan)
    if now != before:
        said.append(f"{now} waves instead of {before}")
    return f"From the next round: {'; '.join(said)}" if said else "Nobody needs it any more"


def _waves(plan: Plan) -> int:
    return max([user.wave for line in plan.bars for user in line.wave_users], default=0)


def _late(
    course: Course,
    club: Club,
    session: Session,
    changes: Sequence[Change],
    stopped: frozenset[str],
) -> Course:
    change = changes[-1]
    athlete = change.event.athlete
    name = course.plan.shown_name(athlete)
    line = next((a for a in course.plan.attendance if a.athlete == athlete), None)
    is_on_time = (
        line is not None
        and line.status == "late"
        and change.place_s <= line.late_minutes * 60 + ON_TIME_S
    )
    if is_on_time:
        return replace(
            course, told=(*course.told, f"{name} is here: that is on the sheet already.")
        )
    timed = make_timed(club, _as_now(session, changes, stopped), previous=course.plan)
    return with_new_plan(course, change.place_s, timed, words=f"{name} is here", late=athlete)


def _as_now(session: Session, changes: Sequence[Change], stopped: frozenset[str]) -> Session:
    """The session with everything that has changed: who came, who stopped, which bars are out."""
    check_ins = {each.athlete: each for each in session.check_ins}
    for athlete in stopped:
        known = check_ins.get(athlete, CheckIn(athlete))
        check_ins[athlete] = replace(known, presence=Presence.ABSENT, late_minutes=0)
    missing = list(session.missing)
    athletes = list(session.athletes)
    for change in changes:
        event = change.event
        if event.kind is EventKind.BAR_OUT:
            missing.append(MissingKit(event.words))
        elif event.kind is EventKind.JOINED_LATE:
            known = check_ins.get(event.athlete, CheckIn(event.athlete))
            minutes = max(1, -int(-change.place_s // 60))
            check_ins[event.athlete] = replace(
                known, presence=Presence.LATE, late_minutes=min(minutes, session.minutes - 1)
            )
            if event.athlete not in athletes:
                athletes.append(event.athlete)
    return replace(
        session,
        check_ins=tuple(check_ins.values()),
        missing=tuple(missing),
        athletes=tuple(athletes),
    )
