"""Use cases of the log of health fields: kept with each write, looked through, given out.

A line says who, when, whom and which field, never the value. Looking at a page writes nothing,
so reading on a screen is not in it; what is changed and what leaves as a file is.
"""

from collections.abc import Iterable
from contextlib import suppress
from dataclasses import dataclass
from datetime import UTC, datetime

from squadwright.errors import NotFound
from squadwright.model.club import Club
from squadwright.model.diary import DiaryEntry, DiaryKind
from squadwright.model.health_log import ALL_OF_HIM, HealthTouch, How, health_fields_changed
from squadwright.model.plan import Plan
from squadwright.model.record import EventKind, RecordEvent
from squadwright.model.role import Role
from squadwright.model.session import Session
from squadwright.model.step import Entry
from squadwright.services.actor import WHO
from squadwright.services.unit_of_work import Keeper, Store

DIARY_KINDS = (DiaryKind.WELLNESS, DiaryKind.PAIN, DiaryKind.BODY_COMPOSITION, DiaryKind.HEART)
EVENT_KINDS = (EventKind.INCIDENT, EventKind.OUT)
MOST_SHOWN = 200
MOST_KEPT = 20_000
"""So many lines are kept; the oldest ones are forgotten."""


@dataclass(frozen=True)
class HealthLog:
    """The latest lines, the newest first; ``more`` are the older ones that are kept."""

    club: Club
    lines: tuple[HealthTouch, ...]
    more: int


def health_log(keeper: Keeper, athlete_id: str = "", *, most: int = MOST_SHOWN) -> HealthLog:
    """The log of the club, or of one athlete."""
    with keeper.reading() as store:
        club = store.load_club()
        found = store.health_log(athlete_id)
    if club is None:
        raise NotFound("There is no club yet, so nothing was touched. Name it first")
    return HealthLog(club, found[:most], max(0, len(found) - most))


def log_entries(store: Store, entries: Iterable[Entry]) -> None:
    """Keep which health fields a write to the club changed."""
    touched: dict[tuple[str, str], None] = {}
    for entry in entries:
        if entry.part == "athletes":
            names = health_fields_changed(entry.before, entry.after)
            touched |= dict.fromkeys((entry.key, name) for name in names)
        elif entry.part == "sessions":
            touched |= dict.fromkeys((who, "pain at the door") for who in _pains(entry))
    _log(store, touched, How.CHANGED)


def log_diary_ids(store: Store, ids: Iterable[str]) -> None:
    """As ``log_diary`` by the ids of entries; one that is no more there is left out."""
    found = []
    for each in ids:
        with suppress(NotFound):
            found.append(store.diary.entry(each))
    log_diary(store, found)


def log_diary(store: Store, entries: Iterable[DiaryEntry]) -> None:
    """Keep which health entries of the diary were written, or taken out."""
    touched = {
        (e.athlete, f"diary: {e.content.kind.value}"): None
        for e in entries
        if e.content.kind in DIARY_KINDS
    }
    _log(store, touched, How.CHANGED)


def log_events(store: Store, events: Iterable[RecordEvent]) -> None:
    """Keep that an incident, or somebody being out, was noted on the floor."""
    touched = {
        (e.athlete, f"floor: {e.kind.value}"): None
        for e in events
        if e.kind in EVENT_KINDS and e.athlete
    }
    _log(store, touched, How.CHANGED)


def log_given_out(keeper: Keeper, athletes: Iterable[str]) -> None:
    """Keep that everything of somebody left as a file."""
    with keeper.writing() as store:
        _log(store, dict.fromkeys((each, ALL_OF_HIM) for each in athletes), How.GIVEN_OUT)


def log_sheet(keeper: Keeper, athletes: Iterable[str], role: Role) -> None:
    """Keep that a sheet with what a role may see of somebody was printed."""
    _log_printed(keeper, athletes, f"sheet for the {role.value}")


def log_session_sheet(keeper: Keeper, plan: Plan) -> None:
    """Keep whose restrictions, or pain told at the door, stand on a session sheet written."""
    told = (line.athlete for line in plan.attendance if line.restrictions or line.note)
    _log_printed(keeper, told, "session sheet")


def _log_printed(keeper: Keeper, athletes: Iterable[str], name: str) -> None:
    with keeper.writing() as store:
        _log(store, dict.fromkeys((each, name) for each in athletes), How.GIVEN_OUT)


def _log(store: Store, touched: Iterable[tuple[str, str]], how: How) -> None:
    now = datetime.now(UTC).replace(microsecond=0)
    lines = [HealthTouch(now, WHO.get(), athlete, name, how) for athlete, name in touched]
    if lines:
        store.log_health(lines)


def _pains(entry: Entry) -> list[str]:
    """Of whom the pain told at the door of a session differs."""
    before, after = (_told(each) for each in (entry.before, entry.after))
    return [who for who in {**before, **after} if before.get(who, ()) != after.get(who, ())]


def _told(session: object) -> dict[str, object]:
    if not isinstance(session, Session):
        return {}
    return {c.athlete: c.pains for c in session.check_ins if c.pains}
