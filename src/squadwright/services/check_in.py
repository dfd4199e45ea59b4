"""Use cases of the door: who is here, who is late, what hurts; the plan follows at once."""

from collections.abc import Callable, Sequence
from dataclasses import replace
from datetime import date

from squadwright.errors import InvalidInput, NotFound, range_text
from squadwright.model.club import Club
from squadwright.model.session import CheckIn, Pain, Presence, Session
from squadwright.services.session_changes import (
    Replanned,
    change_session,
    check_in_of,
    state_words,
)
from squadwright.services.unit_of_work import Keeper

MOST_NAMED = 6


def mark_presence(
    keeper: Keeper,
    session_id: str,
    athlete: str,
    presence: Presence,
    late_minutes: int = 0,
    *,
    today: date,
) -> Replanned:
    """Somebody is here, absent, or late by some minutes."""

    def change(session: Session, now: CheckIn) -> CheckIn:
        if presence is Presence.LATE:
            _require_minutes(session, late_minutes)
        minutes = late_minutes if presence is Presence.LATE else 0
        # A note of somebody absent or late says why; it is over when he is here.
        is_over = presence is Presence.PRESENT and now.presence is not Presence.PRESENT
        note = "" if is_over else now.note
        return replace(now, presence=presence, late_minutes=minutes, note=note)

    return _change(keeper, session_id, (athlete,), change, today=today)


def mark_late(
    keeper: Keeper, session_id: str, athletes: Sequence[str], minutes: int, *, today: date
) -> Replanned:
    """Several come late together, by the same minutes."""
    if not athletes:
        raise InvalidInput("athletes", "nobody is marked", "Mark everybody who comes late")

    def change(session: Session, now: CheckIn) -> CheckIn:
        _require_minutes(session, minutes)
        return replace(now, presence=Presence.LATE, late_minutes=minutes)

    return _change(keeper, session_id, tuple(athletes), change, today=today)


def mark_pain(
    keeper: Keeper, session_id: str, athlete: str, pain: Pain, *, today: date
) -> Replanned:
    """Somebody names pain in one area; a score of 0 says that there is none there."""

    def change(session: Session, now: CheckIn) -> CheckIn:
        others = tuple(p for p in now.pains if p.area is not pain.area)
        return replace(now, pains=(*others, pain) if pain.score else others)

    return _change(keeper, session_id, (athlete,), change, today=today)


def write_note(
    keeper: Keeper, session_id: str, athlete: str, note: str, *, today: date
) -> Replanned:
    """What somebody says at the door, in words; an empty note takes it away."""

    def change(session: Session, now: CheckIn) -> CheckIn:
        return replace(now, note=note)

    return _change(keeper, session_id, (athlete,), change, today=today)


def _require_minutes(session: Session, minutes: int) -> None:
    if not 1 <= minutes < session.minutes:
        raise InvalidInput(
            "minutes",
            f"{minutes} minutes late is outside {range_text(1, session.minutes - 1)}",
            "Write how late, or tap Absent",
        )


def _change(
    keeper: Keeper,
    session_id: str,
    athletes: tuple[str, ...],
    change: Callable[[Session, CheckIn], CheckIn],
    *,
    today: date,
) -> Replanned:
    def on_session(club: Club, session: Session) -> Session:
        for athlete in athletes:
            if athlete not in session.athletes:
                raise NotFound(f"{athlete!r} is not expected in {session.name}")
            now = change(session, check_in_of(session, athlete))
            session = replace(session, check_ins=_with(session.check_ins, now))
        return session

    def said(club: Club, session: Session) -> str:
        return _said(club, session, athletes)

    return change_session(keeper, session_id, on_session, today=today, said=said, athletes=athletes)


def _with(check_ins: tuple[CheckIn, ...], now: CheckIn) -> tuple[CheckIn, ...]:
    """The check-ins with one in the place of the athlete's former one; none where all is usual."""
    if now == CheckIn(now.athlete):
        return tuple(c for c in check_ins if c.athlete != now.athlete)
    if not any(c.athlete == now.athlete for c in check_ins):
        return (*check_ins, now)
    return tuple(now if c.athlete == now.athlete else c for c in check_ins)


def _said(club: Club, session: Session, athletes: tuple[str, ...]) -> str:
    names = club.shown_names()
    if len(athletes) == 1:
        now = check_in_of(session, athletes[0])
        note = f" ({now.note})" if now.note else ""
        return f"{names[athletes[0]]} {state_words(now)}{note}."
    named = ", ".join(names[a] for a in athletes[:MOST_NAMED])
    more = f" and {len(athletes) - MOST_NAMED} more" if len(athletes) > MOST_NAMED else ""
    minutes = check_in_of(session, athletes[0]).late_minutes
    return f"{named}{more} are {minutes} minutes late."
