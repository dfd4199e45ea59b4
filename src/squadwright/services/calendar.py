"""Use cases of the club's calendar: time zone, days the place is lost, school terms, travel."""

from collections.abc import Iterable
from dataclasses import replace
from datetime import date
from secrets import token_hex
from typing import Any

from squadwright.errors import NotFound
from squadwright.model.calendar import CalendarEntry, Closure, SchoolTerm, Travel
from squadwright.model.club import Club
from squadwright.services.club_changes import Changed, change_club, require_unchanged
from squadwright.services.unit_of_work import Keeper

NEW = "new"
# The field of the club that holds each kind.
PARTS: dict[type, str] = {Closure: "closures", SchoolTerm: "terms", Travel: "travel"}


def add_entry(keeper: Keeper, entry: CalendarEntry, *, today: date) -> Changed:
    """Put an entry into the calendar; it gets an id of its own."""

    def change(club: Club) -> Club:
        new = replace(entry, id=f"{PARTS[type(entry)]}-{token_hex(4)}")
        return _with(club, type(entry), (*_held(club, type(entry)), new))

    return change_club(keeper, change, today=today)


def edit_entry(keeper: Keeper, entry: CalendarEntry, shown: str, *, today: date) -> Changed:
    """Change an entry; ``shown`` is the fingerprint of the one the form was filled from."""

    def change(club: Club) -> Club:
        former = entry_named(club, type(entry), entry.id)
        require_unchanged(former, shown, "entry")
        held = tuple(entry if e.id == entry.id else e for e in _held(club, type(entry)))
        return _with(club, type(entry), held)

    return change_club(keeper, change, today=today)


def remove_entry(
    keeper: Keeper, kind: type[CalendarEntry], entry_id: str, *, today: date
) -> Changed:
    """Take an entry out of the calendar."""

    def change(club: Club) -> Club:
        gone = entry_named(club, kind, entry_id)
        return _with(club, kind, tuple(e for e in _held(club, kind) if e is not gone))

    return change_club(keeper, change, today=today)


def set_time_zone(keeper: Keeper, name: str, *, today: date) -> Changed:
    """Say in which time zone the club is."""
    return change_club(keeper, lambda club: replace(club, time_zone=name), today=today)


def entry_named(club: Club, kind: type[CalendarEntry], entry_id: str) -> CalendarEntry:
    """The entry of a kind with an id; raises NotFound."""
    for entry in _held(club, kind):
        if entry.id == entry_id:
            return entry
    raise NotFound("The calendar has no such entry; it may have been taken out")


def _held(club: Club, kind: type[CalendarEntry]) -> tuple[CalendarEntry, ...]:
    held: tuple[CalendarEntry, ...] = getattr(club, PARTS[kind])
    return held


def _with(club: Club, kind: type[CalendarEntry], entries: tuple[CalendarEntry, ...]) -> Club:
    changed: dict[str, Any] = {PARTS[kind]: entries}
    return replace(club, **changed)


def without_room(closures: Iterable[Closure], room_id: str) -> tuple[Closure, ...]:
    """The closures where a room is no more: one that was for it alone goes as well."""
    return tuple(
        replace(c, rooms=tuple(r for r in c.rooms if r != room_id))
        for c in closures
        if c.rooms != (room_id,)
    )
