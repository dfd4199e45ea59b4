"""The calendar of the club: its pages, and the form of an entry."""

from collections.abc import Callable
from dataclasses import dataclass, fields
from urllib.parse import quote

from squadwright.model.calendar import CalendarEntry as Entry
from squadwright.model.calendar import Closure, SchoolTerm, Travel
from squadwright.model.club import Club
from squadwright.services.calendar import PARTS
from squadwright.services.club_changes import fingerprint
from squadwright.web.forms import Form, FormView
from squadwright.web.sessions.contexts import (
    CalendarEntryPage,
    CalendarKind,
    CalendarLine,
    CalendarPage,
)
from squadwright.web.wording import short_day_text

CALENDAR = "/sessions/calendar"


@dataclass(frozen=True)
class Words:
    """What a kind of entry is called on the pages."""

    kind: type[Entry]
    title: str
    new_words: str
    empty: str
    line: Callable[[Club, Entry], str]


def _lost(club: Club, entry: Entry) -> str:
    rooms = entry.rooms if isinstance(entry, Closure) else ()
    return ", ".join(club.room(room).name for room in rooms) or "The whole place."


def _away(club: Club, entry: Entry) -> str:
    if not isinstance(entry, Travel):
        return ""
    there = f", {entry.time_zone}" if entry.time_zone else ""
    return f"{club.shown_names()[entry.athlete]}{there}."


KINDS: dict[str, Words] = {
    "closures": Words(
        Closure, "Days the place is lost", "Another closure", "None is known.", _lost
    ),
    "terms": Words(
        SchoolTerm, "School terms", "Another term", "None is written down.", lambda c, e: ""
    ),
    "travel": Words(Travel, "Travel", "Another journey", "Nobody travels.", _away),
}


def calendar_page(club: Club, view: FormView | None = None) -> CalendarPage:
    """Everything in the calendar, and the form of the time zone."""
    return CalendarPage(
        view=view or FormView.of(time_zone=club.time_zone),
        kinds=tuple(_kind(club, part, words) for part, words in KINDS.items()),
    )


def _kind(club: Club, part: str, words: Words) -> CalendarKind:
    held: tuple[Entry, ...] = getattr(club, PARTS[words.kind])
    lines = tuple(
        CalendarLine(each.name, _when(each), words.line(club, each), entry_path(part, each.id))
        for each in sorted(held, key=lambda e: (e.starts_on, e.name))
    )
    return CalendarKind(words.title, lines, entry_path(part, "new"), words.new_words, words.empty)


def _when(entry: Entry) -> str:
    first, last = (short_day_text(day) for day in (entry.starts_on, entry.ends_on))
    days = first if first == last else f"{first} to {last}"
    return f"{days} {entry.ends_on.year}"


def entry_path(part: str, entry_id: str) -> str:
    """Where an entry is changed."""
    return f"{CALENDAR}/{part}/{quote(entry_id, safe='')}"


def entry_page(
    club: Club, part: str, entry: Entry | None, view: FormView | None = None
) -> CalendarEntryPage:
    """A new entry, or one in its form."""
    filled = FormView()
    if entry is not None:
        values = {field.name: getattr(entry, field.name) for field in fields(entry)}
        filled = FormView.of(**values, shown=fingerprint(entry))
    return CalendarEntryPage(
        title=entry.name if entry else KINDS[part].new_words,
        kind=part,
        action=entry_path(part, entry.id if entry else "new"),
        view=view or filled,
        rooms=tuple((room.id, room.name) for room in club.rooms),
        athletes=tuple(club.shown_names().items()),
        can_remove=entry is not None,
    )


def read_entry(form: Form, club: Club, part: str, entry_id: str) -> Entry:
    """An entry as typed."""
    name = form.text("name", "Name")
    first, last = form.day("starts_on", "First day"), form.day("ends_on", "Last day")
    entry: Entry
    if part == "closures":
        rooms = form.choices("rooms", "Rooms", [room.id for room in club.rooms])
        entry = Closure(entry_id, name, first, last, rooms)
    elif part == "terms":
        entry = SchoolTerm(entry_id, name, first, last)
    else:
        athlete = form.choice("athlete", "Who", [a.id for a in club.athletes])
        zone = form.text("time_zone", "Time zone there", is_required=False)
        entry = Travel(entry_id, name, athlete, first, last, zone)
    form.done()
    return entry
