"""Questions about a session: its day, its room, its people's other sessions, its minutes.

Each is asked once and then taken as it is: a hall may be shared, a session may be entered late.
"""

from collections.abc import Iterable, Iterator
from datetime import date, datetime, time, timedelta

from squadwright.exchange.doubtful import Doubt
from squadwright.model.club import Club, Weekday, WeekSlot
from squadwright.model.session import Session
from squadwright.words import full_date

FAR_DAYS = 400
MINUTE_S = 60


def doubts_of_session(club: Club, session: Session, *, today: date) -> Iterator[Doubt]:
    """What is odd about a session of a club; the club may hold the session already."""
    yield from _day(session, today)
    yield from _lost(club, session)
    yield from clashes(club, session, club.sessions)
    yield from _week(club, session)
    yield from _minutes(club, session)


def clashes(club: Club, session: Session, others: Iterable[Session]) -> Iterator[Doubt]:
    """Two at once in a room, or somebody expected in two at once."""
    for other in others:
        if other.id == session.id or not _overlap(session, other):
            continue
        if other.room == session.room:
            room = next((r.name for r in club.rooms if r.id == other.room), other.room)
            yield Doubt(
                "room", f"{room} has {_named(other)}. Do both share it?", "both share the room"
            )
            continue
        both = set(other.athletes) & set(session.athletes)
        if both:
            shown = club.shown_names()
            who = shown[next(iter(both))] if len(both) == 1 else f"{len(both)} of the expected"
            verb = "is" if len(both) == 1 else "are"
            yield Doubt(
                "who",
                f"{who} {verb} expected in {_named(other)} as well. Is that so?",
                "expected in both",
            )


def _day(session: Session, today: date) -> Iterator[Doubt]:
    days, shown = (session.held_on - today).days, full_date(session.held_on)
    if days < 0:
        back = "yesterday" if days == -1 else f"{-days} days back"
        yield Doubt("held_on", f"{shown} was {back}. Is the day right?", "held")
    elif days > FAR_DAYS:
        yield Doubt(
            "held_on",
            f"{shown} is {days} days away. Is the year right?",
            "so far",
        )


def _lost(club: Club, session: Session) -> Iterator[Doubt]:
    """Whether the room is lost on that day, by the calendar."""
    for closure in club.closures:
        if closure.shuts(session.room, session.held_on):
            yield Doubt(
                "held_on",
                f"{full_date(session.held_on)} is lost: {closure.name}. Is it held all the same?",
                "held all the same",
            )


def _week(club: Club, session: Session) -> Iterator[Doubt]:
    """Against the standing slots of the week, where the club has any."""
    if not club.week:
        return
    day = weekday_of(session.held_on)
    slots = [slot for slot in club.week if slot.day is day]
    start, end = _span(session)
    if any(_at(session, slot.starts_at) <= start < _at(session, slot.ends_at) for slot in slots):
        own = [s for s in slots if _at(session, s.starts_at) <= start < _at(session, s.ends_at)]
        if all(end > _at(session, slot.ends_at) for slot in own):
            last = max(own, key=lambda slot: slot.ends_at)
            yield Doubt(
                "minutes",
                f"It ends at {end:%H:%M}, and {_slot(last)} ends at {last.ends_at:%H:%M}. Is that "
                "so?",
                f"until {end:%H:%M}",
            )
        return
    squads = {a.squad for a in club.athletes if a.id in session.athletes}
    for slot in slots:
        meets = start < _at(session, slot.ends_at) and _at(session, slot.starts_at) < end
        if meets and squads & set(slot.squads):
            yield Doubt(
                "starts_at",
                f"{_slot(slot)} is from {slot.starts_at:%H:%M} to {slot.ends_at:%H:%M} that day, "
                f"for {', '.join(s for s in slot.squads if s in squads)}. Is that so?",
                "beside it",
            )
            return
    yield Doubt(
        "starts_at",
        f"The week has no slot on {day.value} at {start:%H:%M}. Is there room and time?",
        "there is room and time",
    )


def _minutes(club: Club, session: Session) -> Iterator[Doubt]:
    """Whether the parts around the routine leave anything for it."""
    routine = club.routine(session.routine, session.routine_version)
    rehearsal = -(-routine.rehearsal_s // MINUTE_S)
    around = (
        session.arrive_minutes
        + session.settings.least_warm_up_minutes
        + rehearsal
        + session.close_minutes
        + session.pack_minutes
    )
    if around >= session.minutes:
        yield Doubt(
            "minutes",
            f"Arriving, the least warm-up, rehearsal, close and packing take {around} of "
            f"{session.minutes} minutes: nothing is left for {routine.name}. Is that so?",
            f"{session.minutes} minutes",
        )


def weekday_of(day: date) -> Weekday:
    """The day of the week of a date."""
    return list(Weekday)[day.weekday()]


def _span(session: Session) -> tuple[datetime, datetime]:
    start = datetime.combine(session.held_on, session.starts_at)
    return start, start + timedelta(minutes=session.minutes)


def _at(session: Session, moment: time) -> datetime:
    return datetime.combine(session.held_on, moment)


def _overlap(one: Session, other: Session) -> bool:
    starts, ends = _span(one)
    other_starts, other_ends = _span(other)
    return starts < other_ends and other_starts < ends


def _named(session: Session) -> str:
    starts, ends = _span(session)
    return f"{session.name} from {starts:%H:%M} to {ends:%H:%M} that day"


def _slot(slot: WeekSlot) -> str:
    return f"the slot {slot.name}"
