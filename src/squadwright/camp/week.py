"""A dated week from the standing slots, their changed dates, the sessions and the closures.

Loads here are planned: the coach's effort times minutes. What athletes report is kept apart.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from datetime import UTC, date, datetime, time, timedelta
from zoneinfo import ZoneInfo

from squadwright.camp.routine_work import regions_of, work_of
from squadwright.formulas.session_load import (
    DAYS_IN_A_WEEK,
    WeekSummary,
    load_of_day,
    session_load_foster,
    summarise_week,
)
from squadwright.model.calendar import BodyRegion, SlotChange, Work
from squadwright.model.club import Club, Weekday, WeekSlot
from squadwright.model.session import Session
from squadwright.planning.gates.competing import may_meet_a_partner

# From here on a session counts as hard: 7 is "very hard" on the scale; mixed and wrestling
# sparring is rated 7 and more (Kirk 2021).
HARD_EFFORT = 7
# From here on strength work with the legs counts as heavy: 5 is "hard" (our estimate).
HEAVY_EFFORT = 5
MINUTE_S = 60


@dataclass(frozen=True)
class DatedWork:
    """A slot or a session on its date; ``held_on`` is the day on which the week has it.

    ``starts`` and ``ends`` are instants in UTC, so that hours between them are hours that pass.
    ``lost_to`` is the closure that takes it, ``is_off`` a word of the coach.
    """

    key: str
    name: str
    held_on: date
    day: date
    starts_at: time
    ends_at: time
    starts: datetime
    ends: datetime
    work: Work
    effort: int | None
    is_hard: bool
    regions: tuple[BodyRegion, ...]
    to_failure: bool
    room: str | None
    squads: tuple[str, ...]
    athletes: frozenset[str]
    staff: tuple[str, ...]
    slot: str = ""
    session: str = ""
    change: str = ""
    is_off: bool = False
    lost_to: str = ""

    @property
    def is_held(self) -> bool:
        """Whether it takes place."""
        return not (self.is_off or self.lost_to)

    @property
    def minutes(self) -> int:
        """How long it lasts on the clock of the club."""
        first, last = (datetime.combine(date.min, t) for t in (self.starts_at, self.ends_at))
        return int((last - first).total_seconds() // MINUTE_S) % (24 * 60)

    @property
    def load(self) -> float | None:
        """Planned load [AU]; None where no effort is planned, 0 where it is not held."""
        if not self.is_held:
            return 0.0
        return None if self.effort is None else session_load_foster(self.effort, self.minutes)

    @property
    def is_heavy_on_legs(self) -> bool:
        """Whether it is strength or power work for the legs that needs fresh ones after it."""
        is_heavy = self.is_hard or self.to_failure or (self.effort or 0) >= HEAVY_EFFORT
        return self.work.is_strength and BodyRegion.LEGS in self.regions and is_heavy


def works_between(club: Club, first: date, last: date) -> tuple[DatedWork, ...]:
    """Everything the week and the diary have on the days from ``first`` to ``last``."""
    slots = [*slots_between(club, first, last)]
    found: list[DatedWork] = []
    for session in club.sessions:
        if not first <= session.held_on <= last:
            continue
        slot = next((w for w in slots if _is_of(session, w)), None)
        if slot is not None:
            slots.remove(slot)
        found.append(_of_session(club, session, slot))
    return tuple(sorted((*slots, *found), key=lambda w: (w.starts, w.name, w.key)))


def instant(day: date, moment: time, zone: str) -> datetime:
    """A clock time of the club as an instant; without a time zone, as if its clock were UTC.

    A time that summer time leaves out is read as if the clock had not been put forward; one that
    comes twice is the first of the two.
    """
    return datetime.combine(day, moment, ZoneInfo(zone or "UTC")).astimezone(UTC)


def slots_between(club: Club, first: date, last: date) -> Iterator[DatedWork]:
    """The standing slots on their dates, as they were changed; the diary is left aside."""
    changes = {(c.slot, c.held_on): c for c in club.slot_changes}
    for slot in club.week:
        days = {day for day in _days(first, last) if list(Weekday)[day.weekday()] is slot.day} | {
            c.held_on for c in club.slot_changes if c.slot == slot.id
        }
        for held_on in sorted(days):
            work = slot_on(club, slot, held_on, changes.get((slot.id, held_on)))
            if first <= work.day <= last:
                yield work


def slot_on(
    club: Club, slot: WeekSlot, held_on: date, change: SlotChange | None = None
) -> DatedWork:
    """A slot on the day the week has it, as it was changed."""
    change = change or SlotChange("", slot.id, held_on)
    day = change.moved_to or held_on
    starts_at, ends_at = change.starts_at or slot.starts_at, change.ends_at or slot.ends_at
    effort = slot.planned_effort if change.planned_effort is None else change.planned_effort
    hard = slot.is_hard if change.planned_effort is None else False
    room = change.room or slot.room
    return DatedWork(
        key=f"{slot.id} {held_on}",
        name=slot.name,
        held_on=held_on,
        day=day,
        starts_at=starts_at,
        ends_at=ends_at,
        starts=instant(day, starts_at, club.time_zone),
        ends=instant(day, ends_at, club.time_zone),
        work=slot.work,
        effort=effort,
        is_hard=hard or (effort or 0) >= HARD_EFFORT,
        regions=slot.regions,
        to_failure=slot.to_failure and change.planned_effort is None,
        room=room,
        squads=slot.squads,
        athletes=_there(
            club,
            (a.id for a in club.athletes if in_squads(a.squad, slot)),
            day,
            is_contact=slot.work.is_contact,
        ),
        staff=slot.staff,
        slot=slot.id,
        change=change.id,
        is_off=change.is_off,
        lost_to=_lost(club, room, day),
    )


def in_squads(squad: str, slot: WeekSlot) -> bool:
    """Whether a squad comes to a slot: one without squads is for everybody."""
    return not slot.squads or squad in slot.squads


def _of_session(club: Club, session: Session, slot: DatedWork | None) -> DatedWork:
    """A session of the diary; from a slot it has what the slot plans."""
    held = session.as_held()
    starts = instant(held.held_on, held.starts_at, club.time_zone)
    ends = starts + timedelta(minutes=held.minutes)
    end_on_clock = datetime.combine(held.held_on, held.starts_at) + timedelta(minutes=held.minutes)
    routine = club.routine(session.routine, session.routine_version)
    own = DatedWork(
        key=session.id,
        name=session.name,
        held_on=session.held_on,
        day=session.held_on,
        starts_at=held.starts_at,
        ends_at=end_on_clock.time(),
        starts=starts,
        ends=ends,
        work=work_of(routine),
        effort=None,
        is_hard=False,
        regions=regions_of(routine),
        to_failure=False,
        room=session.room,
        squads=(),
        athletes=_there(club, session.athletes, session.held_on, is_contact=False),
        staff=session.staff,
        session=session.id,
        lost_to=_lost(club, session.room, session.held_on),
    )
    if slot is None:
        return own
    return replace(
        own,
        held_on=slot.held_on,
        work=slot.work,
        effort=slot.effort,
        is_hard=slot.is_hard,
        regions=slot.regions,
        to_failure=slot.to_failure,
        squads=slot.squads,
        slot=slot.slot,
        change=slot.change,
    )


def _is_of(session: Session, slot: DatedWork) -> bool:
    """Whether a session is what a slot holds on that day."""
    is_own_work = slot.work.is_strength or slot.work in (Work.NOT_STATED, Work.CONDITIONING)
    same_room = slot.room is None or slot.room == session.room
    start = session.starts_at
    return (
        is_own_work
        and same_room
        and slot.day == session.held_on
        and slot.starts_at <= start < slot.ends_at
    )


def _there(club: Club, athletes: Iterable[str], day: date, *, is_contact: bool) -> frozenset[str]:
    """Who comes: nobody who is away, and to live rounds nobody who must not meet a partner."""
    away = {t.athlete for t in club.travel if t.starts_on <= day <= t.ends_on}
    barred = {a.id for a in club.athletes if is_contact and not may_meet_a_partner(a, day)}
    return frozenset(athletes) - away - barred


def _lost(club: Club, room: str | None, day: date) -> str:
    return next((c.name for c in club.closures if c.shuts(room, day)), "")


def _days(first: date, last: date) -> Iterator[date]:
    return (first + timedelta(days=n) for n in range((last - first).days + 1))


@dataclass(frozen=True)
class GroupWeek:
    """Planned load of one squad, day by day, None for a day with work of unknown effort."""

    name: str
    athletes: int
    days: tuple[float | None, ...]
    summary: WeekSummary
    regions: tuple[tuple[BodyRegion, tuple[float, ...]], ...]


def group_week(club: Club, works: Iterable[DatedWork], monday: date, squad: str) -> GroupWeek:
    """The planned week of a squad: a day without work is planned rest, 0.

    Work counts for a squad where it is for the squad, or where somebody of it is expected.
    """
    members = {a.id for a in club.athletes if a.squad == squad}
    mine = [w for w in works if squad in w.squads or (not w.squads and w.athletes & members)]
    by_day = [
        [w for w in mine if w.day == monday + timedelta(days=n)] for n in range(DAYS_IN_A_WEEK)
    ]
    days = tuple(load_of_day([w.load for w in day], is_rest_confirmed=True) for day in by_day)
    regions = tuple(
        (region, tuple(sum(w.load or 0.0 for w in day if region in w.regions) for day in by_day))
        for region in BodyRegion
    )
    return GroupWeek(squad, len(members), days, summarise_week(days), regions)
