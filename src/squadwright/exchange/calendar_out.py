"""The week, the closures and the events as an iCalendar file (RFC 5545).

One entry a date, known by an id that stays: moved, it has another time; off or lost, it is
cancelled. SEQUENCE is the number of the last step that touched it, so that it never falls.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import UTC, date, datetime, time, timedelta
from typing import TYPE_CHECKING
from uuid import NAMESPACE_URL, uuid5
from zoneinfo import ZoneInfo

from squadwright.camp.week import DatedWork
from squadwright.camp.week_words import work_words
from squadwright.exchange.calendar_repeats import moment_of
from squadwright.model.calendar import Fixture
from squadwright.model.club import Club
from squadwright.model.step import Touch

if TYPE_CHECKING:
    from icalendar import Calendar, Event

PRODUCT = "-//Squadwright//Week and events//EN"
# Parts of the club that a calendar is made from.
PARTS = ("week", "slot_changes", "sessions", "closures", "athletes", "fixtures", "time_zone")
OF_ALL = ("closures", "time_zone", "")


@dataclass(frozen=True)
class Revision:
    """How often something was changed, and the last time."""

    number: int
    made_on: date


def week_calendar(club: Club, works: Iterable[DatedWork], touches: Iterable[Touch]) -> bytes:
    """The dated week, the days the place is lost, and the athletes' events."""
    known = tuple(touches)
    calendar = _calendar(club.name)
    for work in works:
        calendar.add_component(_work(club, work, _revision_of_work(work, known)))
    for closure in club.closures:
        event = _event(f"closure/{closure.id}", closure.name, _of(known, "closures", closure.id))
        _whole_days(event, closure.starts_on, closure.ends_on)
        calendar.add_component(event)
    shown = club.shown_names()
    for athlete in club.athletes:
        for each in athlete.events:
            revision = _of(known, "athletes", athlete.id)
            name = f"{each.name}: {shown[athlete.id]}"
            event = _event(f"event/{athlete.id}/{each.id}", name, revision)
            _whole_days(event, each.starts_on, each.starts_on)
            calendar.add_component(event)
    return _bytes(calendar)


def fixtures_calendar(club: Club, touches: Iterable[Touch]) -> bytes:
    """The fixtures taken in, under the ids they came with."""
    known = tuple(touches)
    calendar = _calendar(f"{club.name}, fixtures")
    for fixture in club.fixtures:
        revision = _of(known, "fixtures", fixture.id)
        event = _event("", fixture.name, Revision(fixture.sequence, revision.made_on))
        event.add("uid", fixture.uid)
        if fixture.recurrence:
            event.add("recurrence-id", moment_of(fixture.recurrence))
        _fixture_time(event, fixture)
        if fixture.place:
            event.add("location", fixture.place)
        calendar.add_component(event)
    return _bytes(calendar)


def _work(club: Club, work: DatedWork, revision: Revision) -> "Event":
    own = f"slot/{work.slot}/{work.held_on}" if work.slot else f"session/{work.session}"
    event = _event(own, work.name, revision)
    starts = _on_clock(work.day, work.starts_at, club.time_zone)
    # The end is counted from the start, so that a session past midnight ends on the next day.
    ends = datetime.combine(work.day, work.starts_at) + timedelta(minutes=work.minutes)
    event.add("dtstart", starts)
    event.add("dtend", _on_clock(ends.date(), ends.time(), club.time_zone))
    if not work.is_held:
        event.add("status", "CANCELLED")
    room = next((room.name for room in club.rooms if room.id == work.room), "")
    if room:
        event.add("location", room)
    squads = f"For: {', '.join(work.squads)}. " if work.squads else ""
    event.add("description", f"{squads}Planned: {work_words(work)}.")
    return event


def _calendar(name: str) -> "Calendar":
    from icalendar import Calendar

    calendar = Calendar()
    calendar.add("prodid", PRODUCT)
    calendar.add("version", "2.0")
    calendar.add("calscale", "GREGORIAN")
    calendar.add("name", name)
    return calendar


def _event(own: str, name: str, revision: Revision) -> "Event":
    from icalendar import Event

    event = Event()
    if own:
        event.add("uid", f"{uuid5(NAMESPACE_URL, f'squadwright:{own}')}")
    event.add("summary", name)
    changed = datetime.combine(revision.made_on, time(), UTC)
    event.add("dtstamp", changed)
    event.add("last-modified", changed)
    event.add("sequence", revision.number)
    return event


def _whole_days(event: "Event", first: date, last: date) -> None:
    event.add("dtstart", first)
    event.add("dtend", last + timedelta(days=1))
    event.add("transp", "TRANSPARENT")


def _fixture_time(event: "Event", fixture: Fixture) -> None:
    if fixture.starts_at is None or fixture.ends_at is None:
        _whole_days(event, fixture.starts_on, fixture.ends_on)
        return
    event.add("dtstart", _on_clock(fixture.starts_on, fixture.starts_at, fixture.time_zone))
    event.add("dtend", _on_clock(fixture.ends_on, fixture.ends_at, fixture.time_zone))


def _on_clock(day: date, moment: time, zone: str) -> datetime:
    """A clock time with its zone; without one it floats, the same on the clock everywhere."""
    return datetime.combine(day, moment, ZoneInfo(zone) if zone else None)


def _bytes(calendar: "Calendar") -> bytes:
    days = [component.get("dtstart").dt for component in calendar.walk("VEVENT")]
    years = [day.year for day in days]
    if years:
        first, last = date(min(years) - 1, 1, 1), date(max(years) + 2, 1, 1)
        calendar.add_missing_timezones(first_date=first, last_date=last)
    return bytes(calendar.to_ical())


def _revision_of_work(work: DatedWork, touches: Iterable[Touch]) -> Revision:
    return _last(
        touch
        for touch in touches
        if touch.part in OF_ALL
        or (touch.part == "week" and touch.key == work.slot)
        or (touch.part == "slot_changes" and touch.slot == work.slot)
        or (touch.part == "sessions" and touch.key == work.session)
    )


def _of(touches: Iterable[Touch], part: str, key: str) -> Revision:
    return _last(t for t in touches if not t.part or (t.part, t.key) == (part, key))


def _last(touches: Iterable[Touch]) -> Revision:
    last = max(touches, key=lambda touch: touch.number)
    return Revision(last.number, last.made_on)
