"""Use cases of a dated week: what is held, what clashes, one change, a move, a lighter session."""

from dataclasses import dataclass, replace
from datetime import date, time, timedelta
from secrets import token_hex

from squadwright.camp.clashes import Clash, clashes
from squadwright.camp.lighter import Lighter, lighter
from squadwright.camp.message import message, original_of
from squadwright.camp.moves import Move, Mover
from squadwright.camp.week import DatedWork, GroupWeek, group_week, works_between
from squadwright.errors import Conflict, NotFound
from squadwright.model.calendar import ClashLimits, SlotChange, minutes_between, monday_of
from squadwright.model.club import Club, WeekSlot
from squadwright.model.session import Session
from squadwright.services.club_changes import (
    Changed,
    change_club,
    require_unchanged,
)
from squadwright.services.session_changes import with_session
from squadwright.services.unit_of_work import Keeper
from squadwright.services.week import slot_named

# So far back and ahead a session can still be too near to one of this week.
AROUND_DAYS = 10
# More clashes than this nobody reads; the first ones are solved first.
MOST_CLASHES = 30
DAYS_IN_A_WEEK = 7
SHORTEST_MINUTES, LONGEST_MINUTES = 5, 300


@dataclass(frozen=True)
class Choices:
    """What can be done about a clash: two moves, and the lighter session where there is one."""

    clash: Clash
    moves: tuple[Move, ...]
    work: DatedWork | None
    lighter: Lighter | None


@dataclass(frozen=True)
class WeekView:
    """A week as it stands; ``works`` are those of the week, sorted.

    ``choices`` are for the first clashes; ``more_clashes`` wait until those are solved.
    """

    club: Club
    monday: date
    works: tuple[DatedWork, ...]
    choices: tuple[Choices, ...]
    more_clashes: int
    squads: tuple[GroupWeek, ...]
    message: str


@dataclass(frozen=True)
class DateEntry:
    """What the coach says of one date of a slot."""

    day: date
    starts_at: time
    ends_at: time
    room: str | None
    planned_effort: int | None
    is_off: bool = False
    reason: str = ""


def week_view(club: Club, day: date, *, today: date) -> WeekView:
    """The week a day lies in, with its clashes and what can be done about them."""
    monday = monday_of(day)
    sunday = monday + timedelta(days=DAYS_IN_A_WEEK - 1)
    around = timedelta(days=AROUND_DAYS)
    everything = works_between(club, monday - around, sunday + around)
    mine = tuple(w for w in everything if monday <= w.day <= sunday)
    keys = {work.key for work in mine}
    found = [
        clash
        for clash in clashes(everything, club.clash_limits)
        if {clash.earlier.key, clash.later.key} & keys
    ]
    # What was changed comes first: the coach has just moved it.
    found.sort(key=lambda c: not (c.earlier.change or c.later.change))
    mover = Mover(club, everything, not_before=today)
    return WeekView(
        club=club,
        monday=monday,
        works=mine,
        choices=tuple(_choices(c, club, mover, today) for c in found[:MOST_CLASHES]),
        more_clashes=max(0, len(found) - MOST_CLASHES),
        squads=tuple(group_week(club, mine, monday, squad) for squad in club.squads),
        message=message(club, mine, monday),
    )


def _choices(clash: Clash, club: Club, mover: Mover, today: date) -> Choices:
    moves = mover.moves(clash)
    work = next((w for w in (clash.earlier, clash.later) if w.session and w.day >= today), None)
    if work is None or not work.slot:
        return Choices(clash, moves, None, None)
    session = club.session(work.session)
    made = lighter(club.routine(session.routine, session.routine_version))
    is_less = made.routine is not None and (made.dropped or made.rounds)
    is_lighter = original_of(club, session.routine) is not None
    return Choices(clash, moves, work, made if is_less and not is_lighter else None)


def change_date(
    keeper: Keeper, slot_id: str, held_on: date, entry: DateEntry, shown: str, *, today: date
) -> Changed:
    """Change one date of a slot; ``shown`` is the fingerprint of the date as it was shown."""

    def change(club: Club) -> Club:
        slot = slot_named(club, slot_id)
        former = date_entry(club, slot, held_on)
        require_unchanged(former, shown, "date")
        session = _session_of(club, slot_id, held_on, former.day)
        club = _with_date(club, slot, held_on, entry)
        return club if session is None else _along(club, session, former, entry)

    return change_club(keeper, change, today=today)


def date_entry(club: Club, slot: WeekSlot, held_on: date) -> DateEntry:
    """One date of a slot as it stands."""
    found = change_of(club, slot.id, held_on) or SlotChange("", slot.id, held_on)
    effort = found.planned_effort
    return DateEntry(
        day=found.moved_to or held_on,
        starts_at=found.starts_at or slot.starts_at,
        ends_at=found.ends_at or slot.ends_at,
        room=found.room or slot.room,
        planned_effort=slot.planned_effort if effort is None else effort,
        is_off=found.is_off,
        reason=found.reason,
    )


def change_of(club: Club, slot_id: str, held_on: date) -> SlotChange | None:
    """What was changed on one date of a slot."""
    return next((c for c in club.slot_changes if (c.slot, c.held_on) == (slot_id, held_on)), None)


def take_move(keeper: Keeper, move: Move, *, today: date) -> Changed:
    """Do what was proposed; Conflict where the week has changed so that it is not the same."""

    def change(club: Club) -> Club:
        work = work_named(club, move.key, move.held_on)
        former = DateEntry(work.day, work.starts_at, work.ends_at, work.room, work.effort)
        if work.slot:
            former = date_entry(club, slot_named(club, work.slot), work.held_on)
        entry = replace(
            former,
            day=move.day,
            starts_at=move.starts_at,
            ends_at=move.ends_at,
            is_off=move.is_off,
            planned_effort=former.planned_effort if move.effort is None else move.effort,
        )
        if work.slot:
            club = _with_date(club, slot_named(club, work.slot), work.held_on, entry)
        if work.session:
            club = _along(club, club.session(work.session), former, entry)
        return club

    return change_club(keeper, change, today=today)


def make_lighter(keeper: Keeper, session_id: str, *, today: date) -> Changed:
    """Give a session the lighter version of its routine, and plan the effort for it."""

    def change(club: Club) -> Club:
        session = club.session(session_id)
        work = _work_of_session(club, session)
        before = club.routine(session.routine, session.routine_version)
        made = lighter(before)
        if made.routine is None or not (made.dropped or made.rounds):
            raise Conflict(f"{before.name} has nothing that could be left out. Change it by hand")
        routine = made.routine
        known = {(each.id, each.version) for each in club.routines}
        if (routine.id, routine.version) not in known:
            club = replace(club, routines=(*club.routines, routine))
        labels = {step.label for block in routine.blocks for step in block.steps}
        overrides = tuple(
            replace(each, swaps=tuple(s for s in each.swaps if s.step_label in labels))
            for each in session.overrides
        )
        club = with_session(
            club,
            replace(
                session,
                routine=routine.id,
                routine_version=routine.version,
                overrides=overrides,
            ),
        )
        if not work.slot or work.effort is None:
            return club
        slot = slot_named(club, work.slot)
        entry = date_entry(club, slot, work.held_on)
        eased = replace(entry, planned_effort=work.effort // 2)
        return _with_date(club, slot, work.held_on, eased)

    return change_club(keeper, change, today=today)


def _session_of(club: Club, slot_id: str, held_on: date, day: date) -> Session | None:
    """The session of the diary that a date of a slot has."""
    works = works_between(club, day, day)
    found = next((w for w in works if (w.slot, w.held_on) == (slot_id, held_on)), None)
    return None if found is None or not found.session else club.session(found.session)


def _along(club: Club, session: Session, former: DateEntry, entry: DateEntry) -> Club:
    """The session of a date goes where the date goes; off, it leaves the diary."""
    if entry.is_off:
        return replace(club, sessions=tuple(s for s in club.sessions if s is not session))
    heat = session.heat if entry.day == session.held_on else None
    moved = replace(session, held_on=entry.day, heat=heat)
    if entry.starts_at != former.starts_at:
        moved = replace(moved, starts_at=entry.starts_at)
    lasts = minutes_between(entry.starts_at, entry.ends_at)
    if lasts != minutes_between(former.starts_at, former.ends_at):
        moved = replace(moved, minutes=max(SHORTEST_MINUTES, min(LONGEST_MINUTES, lasts)))
    if entry.room is not None and entry.room != former.room:
        moved = replace(moved, room=entry.room, floor_today=None)
    return with_session(club, moved)


def set_limits(keeper: Keeper, limits: ClashLimits, shown: str, *, today: date) -> Changed:
    """Store the coach's hours between sessions."""

    def change(club: Club) -> Club:
        require_unchanged(club.clash_limits, shown, "limits")
        return replace(club, clash_limits=limits)

    return change_club(keeper, change, today=today)


def work_named(club: Club, key: str, held_on: date) -> DatedWork:
    """The work of a key near a day; raises NotFound."""
    around = timedelta(days=AROUND_DAYS)
    for work in works_between(club, held_on - around, held_on + around):
        if work.key == key:
            return work
    raise NotFound("The week has no such session any more. Look at the week as it is now")


def _work_of_session(club: Club, session: Session) -> DatedWork:
    return work_named(club, session.id, session.held_on)


def _with_date(club: Club, slot: WeekSlot, held_on: date, entry: DateEntry) -> Club:
    """The club with one date of a slot as said; as the week has it, nothing is kept."""
    former = change_of(club, slot.id, held_on)
    others = tuple(c for c in club.slot_changes if c is not former)
    made = SlotChange(
        id=former.id if former else f"change-{token_hex(4)}",
        slot=slot.id,
        held_on=held_on,
        moved_to=None if entry.day == held_on else entry.day,
        starts_at=None if entry.starts_at == slot.starts_at else entry.starts_at,
        ends_at=None if entry.ends_at == slot.ends_at else entry.ends_at,
        room=None if entry.room == slot.room else entry.room,
        planned_effort=(
            None if entry.planned_effort == slot.planned_effort else entry.planned_effort
        ),
        is_off=entry.is_off,
        reason=entry.reason,
    )
    is_as_usual = replace(made, reason="") == SlotChange(made.id, slot.id, held_on)
    if is_as_usual:
        return replace(club, slot_changes=others)
    if former is None:
        return replace(club, slot_changes=(*others, made))
    kept = tuple(made if c is former else c for c in club.slot_changes)
    return replace(club, slot_changes=kept)
