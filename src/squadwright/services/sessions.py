"""Use cases of sessions: add, change, copy to another day, remove."""

from dataclasses import dataclass, field, fields, replace
from datetime import date, time
from typing import Any

from squadwright.errors import InvalidInput
from squadwright.exchange.session_doubts import doubts_of_session
from squadwright.model.athlete import Athlete
from squadwright.model.club import Club
from squadwright.model.session import CheckIn, HeatReading, Override, Session, Settings
from squadwright.services.asking import ask
from squadwright.services.club_changes import Changed, change_club, require_unchanged
from squadwright.services.free_id import free_id, id_words
from squadwright.services.purpose import refuse_purpose
from squadwright.services.routines import current_routine
from squadwright.services.session_changes import with_session
from squadwright.services.unit_of_work import Keeper

LONGEST_NAME_IN_ID = 40


@dataclass(frozen=True)
class Entry:
    """What the coach says of a session: all but the day's own check-ins and overrides."""

    name: str
    held_on: date
    starts_at: time
    minutes: int
    room: str
    routine: str
    athletes: tuple[str, ...]
    staff: tuple[str, ...] = ()
    arrive_minutes: int = 6
    spare_minutes: int = 6
    close_minutes: int = 6
    pack_minutes: int = 6
    settings: Settings = field(default_factory=Settings)
    heat: HeatReading | None = None


@dataclass(frozen=True)
class Stored:
    """A session as stored now, and the change that stored it."""

    session: Session
    changed: Changed


def add_session(keeper: Keeper, entry: Entry, *, today: date, answer: str = "") -> Stored:
    """Put a session into the club with the newest version of its routine; Asked in doubt."""
    _refuse_purpose(keeper, entry, today)
    changed = change_club(
        keeper, lambda club: with_new_session(club, entry, today, answer), today=today
    )
    return Stored(changed.club.sessions[-1], changed)


def with_new_session(club: Club, entry: Entry, today: date, answer: str = "") -> Club:
    """The club with one more session; Asked in doubt."""
    return _with_new(club, _new(club, entry), today, answer)


def edit_session(
    keeper: Keeper, session_id: str, entry: Entry, shown: str, *, today: date, answer: str = ""
) -> Stored:
    """Change a session; ``shown`` is the fingerprint of what the form was filled from.

    The version of the routine stays where the routine does. Check-ins and overrides of people who
    are no longer expected go with them.
    """
    _refuse_purpose(keeper, entry, today)

    def change(club: Club) -> Club:
        former = club.session(session_id)
        require_unchanged(entry_of(former), shown, "session")
        session = _edited(club, former, entry)
        _ask(club, session, former, today, answer)
        return with_session(club, session)

    changed = change_club(keeper, change, today=today)
    return Stored(changed.club.session(session_id), changed)


def _refuse_purpose(keeper: Keeper, entry: Entry, today: date) -> None:
    refuse_purpose(keeper, "name", entry.name, entry.athletes, today=today, heat=entry.heat)


def copy_session(
    keeper: Keeper, session_id: str, held_on: date, *, today: date, answer: str = ""
) -> Stored:
    """The same session on another day; what belonged to the day itself is not taken along."""

    def change(club: Club) -> Club:
        return _with_new(club, _copy(club, club.session(session_id), held_on), today, answer)

    changed = change_club(keeper, change, today=today)
    return Stored(changed.club.sessions[-1], changed)


def remove_session(keeper: Keeper, session_id: str, *, today: date) -> Changed:
    """Take a session out of the club; plans kept of it stay."""

    def change(club: Club) -> Club:
        gone = club.session(session_id)
        return replace(club, sessions=tuple(s for s in club.sessions if s is not gone))

    return change_club(keeper, change, today=today)


def entry_of(session: Session) -> Entry:
    """What the coach said of a session."""
    return Entry(**{each.name: getattr(session, each.name) for each in fields(Entry)})


def is_expected(athlete: Athlete, day: date) -> bool:
    """Whether somebody of the squad is expected on a day: a guest only until his day."""
    return athlete.guest_until is None or day < athlete.guest_until


def _new(club: Club, entry: Entry) -> Session:
    routine = current_routine(club, entry.routine)
    return Session(
        id=_free_id(club, entry.held_on, entry.name),
        routine_version=routine.version,
        **_as_fields(entry),
    )


def _copy(club: Club, session: Session, held_on: date) -> Session:
    """A session on another day, with the newest version of its routine."""
    entry = entry_of(session)
    known = {a.id for a in club.athletes if is_expected(a, held_on)}
    here = tuple(a for a in entry.athletes if a in known)
    copied = replace(entry, held_on=held_on, athletes=here, heat=None)
    return replace(_new(club, copied), seed=session.seed)


def _edited(club: Club, former: Session, entry: Entry) -> Session:
    same = entry.routine == former.routine
    version = former.routine_version if same else current_routine(club, entry.routine).version
    expected = set(entry.athletes)
    check_ins: tuple[CheckIn, ...] = tuple(c for c in former.check_ins if c.athlete in expected)
    overrides: tuple[Override, ...] = tuple(o for o in former.overrides if o.athlete in expected)
    if not same:
        # A swap names a step of the routine it was made for.
        overrides = tuple(replace(o, swaps=()) for o in overrides)
    return replace(
        former,
        **_as_fields(entry),
        routine_version=version,
        check_ins=check_ins,
        overrides=overrides,
        # The part of a room that was free belongs to that room.
        floor_today=former.floor_today if entry.room == former.room else None,
    )


def _with_new(club: Club, session: Session, today: date, answer: str) -> Club:
    _ask(club, session, None, today, answer)
    return replace(club, sessions=(*club.sessions, session))


def _ask(club: Club, session: Session, former: Session | None, today: date, answer: str) -> None:
    """Refuse what cannot be planned; ask about what is odd and was not so before."""
    _require_sense(club, session)
    known = set() if former is None else {*doubts_of_session(club, former, today=today)}
    ask((d for d in doubts_of_session(club, session, today=today) if d not in known), answer)


def _require_sense(club: Club, session: Session) -> None:
    club.room(session.room)
    if not session.athletes:
        raise InvalidInput("who", "nobody is expected", "Choose the squad, or tick names")
    least = session.settings.least_warm_up_minutes
    if session.minutes <= least:
        raise InvalidInput(
            "minutes",
            f"{session.minutes} minutes are not longer than the least warm-up of {least} minutes",
            "Find more minutes, or shorten the least warm-up in the settings",
        )
    _require_pairs(club, session)


def _require_pairs(club: Club, session: Session) -> None:
    shown = club.shown_names()
    banned = {frozenset(pair) for pair in session.settings.banned_pairs}
    for pair in (*session.settings.banned_pairs, *session.settings.required_pairs):
        if pair[0] == pair[1]:
            raise InvalidInput(
                "pairs", f"{shown[pair[0]]} stands twice in one pair", "Name two people"
            )
    for pair in session.settings.required_pairs:
        if frozenset(pair) in banned:
            names = f"{shown[pair[0]]} and {shown[pair[1]]}"
            raise InvalidInput(
                "pairs", f"{names} are to be together and never together", "Take out one of the two"
            )


def _free_id(club: Club, day: date, name: str) -> str:
    start = f"{day.isoformat()}-{id_words(name, LONGEST_NAME_IN_ID) or 'session'}"
    return free_id(start, {session.id for session in club.sessions})


def _as_fields(entry: Entry) -> dict[str, Any]:
    return {each.name: getattr(entry, each.name) for each in fields(Entry)}
