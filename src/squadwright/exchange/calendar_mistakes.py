"""What cannot be right in the week and the calendar of a club: names, dates, time zones."""

from collections.abc import Iterator
from difflib import get_close_matches

from squadwright.exchange.complaint import Complaint
from squadwright.exchange.names import twins, unknown
from squadwright.model.calendar import time_zones
from squadwright.model.club import Club

# A closure, a term or a journey longer than this is a slip of the finger (our estimate).
LONGEST_DAYS = 400


def calendar_mistakes(club: Club) -> Iterator[Complaint]:
    """Every name or date of the week and the calendar that cannot be right."""
    yield from _zone("time_zone", club.time_zone)
    yield from _slots(club)
    for part in ("closures", "terms", "travel", "slot_changes", "fixtures"):
        yield from twins(part, [each.id for each in getattr(club, part)])
    rooms = [room.id for room in club.rooms]
    for index, closure in enumerate(club.closures):
        for number, room in enumerate(closure.rooms):
            yield from unknown(f"closures[{index}].rooms[{number}]", room, rooms, "a room")
    ids = [athlete.id for athlete in club.athletes]
    for index, journey in enumerate(club.travel):
        where = f"travel[{index}]"
        yield from unknown(f"{where}.athlete", journey.athlete, ids, "an athlete of the club")
        yield from _zone(f"{where}.time_zone", journey.time_zone)
    for index, fixture in enumerate(club.fixtures):
        yield from _zone(f"fixtures[{index}].time_zone", fixture.time_zone)
    for index, athlete in enumerate(club.athletes):
        for number, event in enumerate(athlete.events):
            if event.weigh_in is not None:
                where = f"athletes[{index}].events[{number}].weigh_in.zone"
                yield from _zone(where, event.weigh_in.zone)
    for part in ("closures", "terms", "travel", "fixtures"):
        for index, each in enumerate(getattr(club, part)):
            yield from _days(f"{part}[{index}].ends_on", each)
    yield from _changes(club)


def _slots(club: Club) -> Iterator[Complaint]:
    rooms = [room.id for room in club.rooms]
    staff = [member.name for member in club.staff]
    for index, slot in enumerate(club.week):
        if slot.room is not None:
            yield from unknown(f"week[{index}].room", slot.room, rooms, "a room")
        for number, name in enumerate(slot.staff):
            yield from unknown(f"week[{index}].staff[{number}]", name, staff, "one of the staff")


def _changes(club: Club) -> Iterator[Complaint]:
    slots = {slot.id: slot for slot in club.week}
    rooms = [room.id for room in club.rooms]
    for index, change in enumerate(club.slot_changes):
        where = f"slot_changes[{index}]"
        yield from unknown(f"{where}.slot", change.slot, list(slots), "a slot of the week")
        if change.room is not None:
            yield from unknown(f"{where}.room", change.room, rooms, "a room")
        slot = slots.get(change.slot)
        if slot is None:
            continue
        starts, ends = change.starts_at or slot.starts_at, change.ends_at or slot.ends_at
        if ends <= starts:
            yield Complaint(
                f"{where}.ends_at",
                f"{ends:%H:%M} is not after the start {starts:%H:%M}",
                "Give a later end on the same day",
            )


def _days(place: str, each: object) -> Iterator[Complaint]:
    starts_on, ends_on = each.starts_on, each.ends_on  # type: ignore[attr-defined]
    if ends_on < starts_on:
        yield Complaint(
            place, f"{ends_on} is before the first day {starts_on}", "Give the last day it lasts"
        )
    elif (ends_on - starts_on).days > LONGEST_DAYS:
        yield Complaint(
            place,
            f"{ends_on} is {(ends_on - starts_on).days} days after {starts_on}; the limit is "
            f"{LONGEST_DAYS} days",
            "Check the year",
        )


def _zone(place: str, name: str) -> Iterator[Complaint]:
    if not name or name in time_zones():
        return
    near = get_close_matches(name, time_zones(), n=1, cutoff=0.5)
    yield Complaint(
        place,
        f"{name!r} is not a time zone of the IANA database",
        f"Did you mean {near[0]!r}?" if near else 'Write region and town, like "Europe/Lisbon"',
    )
