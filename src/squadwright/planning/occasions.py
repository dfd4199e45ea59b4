"""When somebody is expected to train: slots of the week and sessions of the club, date by date."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import date, datetime, time, timedelta

from squadwright.model.calendar import SlotChange
from squadwright.model.club import Club, Weekday, WeekSlot
from squadwright.model.session import CheckIn, Presence, Session

MINUTE_S = 60
DAYS = tuple(Weekday)


@dataclass(frozen=True)
class Occasion:
    """A session or a slot of the week on one day, with who is expected in it.

    One of ``slot`` and ``session`` is an id, the other empty. ``minutes`` and ``effort`` are those
    planned; ``late`` are minutes somebody came late, ``absent`` who was not there.
    """

    name: str
    activity: str
    day: date
    starts_at: time
    minutes: int
    effort: int | None
    athletes: tuple[str, ...]
    slot: str = ""
    session: str = ""
    absent: frozenset[str] = frozenset()
    late: tuple[tuple[str, int], ...] = ()

    @property
    def planned_load(self) -> float | None:
        """Planned minutes times planned effort; None where no effort is planned."""
        return None if self.effort is None else float(self.effort * self.minutes)

    def minutes_of(self, athlete: str) -> int:
        """The minutes somebody had: those planned, less those he came late."""
        return max(1, self.minutes - dict(self.late).get(athlete, 0))

    @property
    def ends_at(self) -> datetime:
        """When it is over."""
        return datetime.combine(self.day, self.starts_at) + timedelta(minutes=self.minutes)

    def overlaps(self, other: "Occasion") -> bool:
        """Whether the two take place at once."""
        start, begin = (datetime.combine(o.day, o.starts_at) for o in (self, other))
        return start < other.ends_at and begin < self.ends_at


def occasions(club: Club, first: date, last: date) -> tuple[Occasion, ...]:
    """Every occasion from a first to a last day, in order of time.

    Where an athlete is expected in a session of the club while a slot of the week runs, the
    session is what the slot was for: he is not expected twice.
    """
    sessions = [_of_session(club, s) for s in club.sessions if first <= s.held_on <= last]
    slots = [_of_slot(club, slot, change, day) for slot, change, day in _dates(club, first, last)]
    # A session takes over what its slot plans, where the session itself plans no effort.
    planned = [_with_effort(each, slots) for each in sessions]
    left = [_without(slot, planned) for slot in slots]
    found = [*planned, *(slot for slot in left if slot.athletes)]
    return tuple(sorted(found, key=lambda o: (o.day, o.starts_at, o.name, o.slot, o.session)))


def _dates(
    club: Club, first: date, last: date
) -> Iterator[tuple[WeekSlot, SlotChange | None, date]]:
    """The dates of each slot that hold: moved, off or shut days are seen to."""
    for slot in club.week:
        changes = {c.held_on: c for c in club.slot_changes if c.slot == slot.id}
        start = first + timedelta(days=(DAYS.index(slot.day) - first.weekday()) % len(DAYS))
        days = {start + timedelta(days=7 * week) for week in range((last - start).days // 7 + 1)}
        moved = {c.held_on for c in changes.values() if c.moved_to is not None}
        for held_on in sorted(days | moved):
            change = changes.get(held_on)
            day = change.moved_to or held_on if change else held_on
            room = (change.room if change else None) or slot.room
            is_off = change is not None and change.is_off
            if is_off or not first <= day <= last:
                continue
            if not any(closure.shuts(room, day) for closure in club.closures):
                yield slot, change, day


def _of_slot(club: Club, slot: WeekSlot, change: SlotChange | None, day: date) -> Occasion:
    starts_at = (change.starts_at if change else None) or slot.starts_at
    ends_at = (change.ends_at if change else None) or slot.ends_at
    effort = change.planned_effort if change and change.planned_effort is not None else None
    length = datetime.combine(day, ends_at) - datetime.combine(day, starts_at)
    return Occasion(
        name=slot.name,
        activity=slot.kind,
        day=day,
        starts_at=starts_at,
        minutes=max(1, int(length.total_seconds()) // MINUTE_S),
        effort=slot.planned_effort if effort is None else effort,
        athletes=tuple(a.id for a in club.athletes if a.squad and a.squad in slot.squads),
        slot=slot.id,
    )


def _of_session(club: Club, session: Session) -> Occasion:
    routine = next((r.name for r in club.routines if r.id == session.routine), session.routine)
    here: dict[str, CheckIn] = {check_in.athlete: check_in for check_in in session.check_ins}
    return Occasion(
        name=session.name,
        activity=routine,
        day=session.held_on,
        starts_at=session.starts_at,
        minutes=session.as_held().minutes,
        effort=None,
        athletes=session.athletes,
        session=session.id,
        absent=frozenset(a for a, c in here.items() if c.presence is Presence.ABSENT),
        late=tuple((a, c.late_minutes) for a, c in here.items() if c.late_minutes),
    )


def _with_effort(session: Occasion, slots: list[Occasion]) -> Occasion:
    efforts = (slot.effort for slot in slots if slot.overlaps(session))
    return replace(session, effort=next(efforts, None))


def _without(slot: Occasion, sessions: list[Occasion]) -> Occasion:
    taken = {a for session in sessions if session.overlaps(slot) for a in session.athletes}
    return replace(slot, athletes=tuple(a for a in slot.athletes if a not in taken))
