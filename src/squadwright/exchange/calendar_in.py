"""Fixtures from an iCalendar file (RFC 5545), read within limits and without trust."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import UTC, date, datetime, time, timedelta
from typing import TYPE_CHECKING, Any

from squadwright.errors import InvalidInput
from squadwright.exchange.calendar_repeats import (
    PLACE,
    Dates,
    Moment,
    Window,
    dates_of,
    day_of,
    recurrence_of,
    repeats,
    shifted,
)
from squadwright.model.calendar import Fixture, time_zones

if TYPE_CHECKING:
    from icalendar import Component

LARGEST_BYTES = 500_000
MOST_EVENTS = 1000
MOST_SERIES = 60
OLDER = "is older than the one that is stored"
LONGEST_NAME = 120
LONGEST_TEXT = 1000
LONGEST_DAYS = 60
EARLIEST, LATEST = 2000, 2100
ADVICE = "Export it again from the calendar it comes from, as .ics"


@dataclass(frozen=True)
class LeftOut:
    """An entry of the file that is not taken, and why."""

    name: str
    why: str


@dataclass(frozen=True)
class Difference:
    """What a file would change: ``changed`` are pairs of before and after."""

    new: tuple[Fixture, ...]
    changed: tuple[tuple[Fixture, Fixture], ...]
    gone: tuple[Fixture, ...]
    same: int
    left_out: tuple[LeftOut, ...]

    @property
    def is_empty(self) -> bool:
        """Whether nothing would be stored."""
        return not (self.new or self.changed or self.gone)


def difference(known: Sequence[Fixture], data: bytes, *, today: date) -> Difference:
    """What a calendar file would change in the fixtures there are; nothing is stored.

    An entry is known by its UID, a date of what repeats by its RECURRENCE-ID as well. One that is
    cancelled, or no more in the file, is gone; what repeats is not looked for a season back.
    """
    window = Window.around(today)
    found, left_out = read_fixtures(data, today=today)
    before = {fixture.key: fixture for fixture in known}
    new = [each for each in found if each.key not in before]
    known_ones = [(before[each.key], each) for each in found if each.key in before]
    older = [LeftOut(n.name, OLDER) for b, n in known_ones if n.sequence < b.sequence]
    kept = [(old, now) for old, now in known_ones if now.sequence >= old.sequence]
    changed = [(old, replace(now, id=old.id)) for old, now in kept]
    changed = [(old, now) for old, now in changed if old != now]
    keys = {each.key for each in found}
    gone = [
        fixture
        for fixture in known
        if fixture.key not in keys and not (fixture.recurrence and fixture.ends_on < window.first)
    ]
    return Difference(
        tuple(new), tuple(changed), tuple(gone), len(kept) - len(changed), (*left_out, *older)
    )


def read_fixtures(data: bytes, *, today: date) -> tuple[tuple[Fixture, ...], tuple[LeftOut, ...]]:
    """The fixtures of a calendar file, without ids of their own, and what was left out."""
    found: dict[tuple[str, str], Fixture] = {}
    left_out: list[LeftOut] = []
    # Single dates of what repeats come last: they take the place of the date by the rule.
    entries = sorted(_events(data), key=lambda event: "recurrence-id" in event)
    if sum(repeats(event) for event in entries) > MOST_SERIES:
        problem = f"holds more than {MOST_SERIES} entries that repeat"
        raise InvalidInput(PLACE, problem, "Export fewer of them at a time")
    written: set[tuple[str, str]] = set()
    for event in entries:
        name = _text(event, "summary", LONGEST_NAME) or "without a name"
        try:
            for fixture in _fixtures(event, name, Window.around(today), left_out):
                former = found.get(fixture.key)
                if fixture.key in written:
                    said = "stands twice in the file; the later change is taken"
                    left_out.append(LeftOut(name, said))
                if fixture.key not in written or not former or fixture.sequence >= former.sequence:
                    found[fixture.key] = fixture
                if not repeats(event):
                    written.add(fixture.key)
            if _is_cancelled(event) and "recurrence-id" in event:
                found.pop((_text(event, "uid", LONGEST_TEXT), _recurrence(event)), None)
        except InvalidInput as error:
            left_out.append(LeftOut(name, f"{error.problem}. {error.advice}"))
        except (ValueError, TypeError, OverflowError, AttributeError):
            left_out.append(LeftOut(name, "has a date or a length that cannot be"))
        if len(found) > MOST_EVENTS:
            problem = f"comes to more than {MOST_EVENTS} dates, those that repeat counted"
            raise InvalidInput(PLACE, problem, "Export fewer months")
    return tuple(found.values()), tuple(left_out)


def _events(data: bytes) -> "Iterator[Component]":
    from icalendar import Calendar

    if len(data) > LARGEST_BYTES:
        raise InvalidInput(
            PLACE,
            f"holds {len(data) / 1e6:.2f} MB; the limit is {LARGEST_BYTES / 1e6:g} MB",
            "Export fewer months",
        )
    if b"BEGIN:VCALENDAR" not in data[:4096].upper():
        raise InvalidInput(PLACE, "does not begin with BEGIN:VCALENDAR", ADVICE)
    if not data.upper().rstrip().endswith(b"END:VCALENDAR"):
        raise InvalidInput(PLACE, "is cut off: it does not end with END:VCALENDAR", ADVICE)
    if data.upper().count(b"BEGIN:VEVENT") > MOST_EVENTS:
        raise InvalidInput(PLACE, f"holds more than {MOST_EVENTS} entries", "Export fewer months")
    if data.upper().count(b"BEGIN:") > 4 * MOST_EVENTS:
        raise InvalidInput(PLACE, "holds too many parts", ADVICE)
    try:
        calendars = Calendar.from_ical(data, multiple=True)
        yield from [event for each in calendars for event in each.walk("VEVENT")]
    except InvalidInput:
        raise
    # What the library raises on a broken file depends on where it is broken.
    except Exception as error:
        said = " ".join(str(error).split())[:120]
        raise InvalidInput(PLACE, f"cannot be read ({said})", ADVICE) from error


def _fixtures(
    event: "Component", name: str, window: Window, left_out: list[LeftOut]
) -> Iterator[Fixture]:
    """The dates of one entry, none where it is cancelled; InvalidInput where it cannot be taken."""
    uid = _text(event, "uid", LONGEST_TEXT + 1)
    if not uid or len(uid) > LONGEST_TEXT:
        raise _no("has no id (UID) by which it could be known again")
    if _is_cancelled(event):
        return
    starts, ends = _raw_span(event)
    if not repeats(event):
        yield _fixture(event, uid, name, _span(starts, ends), _recurrence(event))
        return
    dates = dates_of(event, starts, window)
    length = _length(starts, ends)
    for each in dates.starts:
        span = _span(each, shifted(each, length))
        yield _fixture(event, uid, name, span, recurrence_of(each))
    said = _beyond(dates, window)
    if said:
        left_out.append(LeftOut(name, said))


def _beyond(dates: Dates, window: Window) -> str:
    """What is said of dates that were not taken; empty where all were."""
    if not dates.starts:
        return f"has no date from {window.first} to {window.last}"
    if dates.goes_on:
        return f"dates after {window.last} are not taken yet. Take the file in again later"
    return ""


def _is_cancelled(event: "Component") -> bool:
    return str(event.get("status", "")).upper() == "CANCELLED"


def _recurrence(event: "Component") -> str:
    """Which date of what repeats an entry is; empty where it is none."""
    when = _when(event, "recurrence-id")
    if when is None:
        return ""
    if event["recurrence-id"].params.get("RANGE"):
        raise _no("changes all dates from one on", "Give it a rule of its own from that date on")
    return recurrence_of(when)


def _length(starts: Moment, ends: Moment) -> timedelta:
    """How long an entry lasts: time that passes."""
    if isinstance(starts, datetime) and isinstance(ends, datetime):
        return ends - starts if starts.tzinfo is None else ends.astimezone(UTC) - starts
    return day_of(ends) - day_of(starts)


def _fixture(
    event: "Component",
    uid: str,
    name: str,
    span: "tuple[_Moment, _Moment]",
    recurrence: str,
) -> Fixture:
    starts, ends = span
    sequence = event.get("sequence", 0)
    return Fixture(
        id="",
        uid=uid,
        name=name,
        starts_on=starts.day,
        ends_on=ends.day,
        starts_at=starts.clock,
        ends_at=ends.clock,
        time_zone=starts.zone,
        place=_text(event, "location", LONGEST_TEXT),
        sequence=sequence if isinstance(sequence, int) and 0 <= sequence <= 1_000_000 else 0,
        recurrence=recurrence,
    )


@dataclass(frozen=True)
class _Moment:
    """A day, with a clock time and its zone where it has them."""

    day: date
    clock: time | None
    zone: str


def _raw_span(event: "Component") -> tuple[Moment, Moment]:
    """Start and end as the entry says them, whole days or times."""
    starts, ends = _when(event, "dtstart"), _when(event, "dtend")
    if starts is None:
        raise _no("has no start (DTSTART)")
    is_timed = isinstance(starts, datetime)
    if ends is None:
        length = getattr(event.get("duration"), "dt", None)
        usual = timedelta() if is_timed else timedelta(days=1)
        length = length if isinstance(length, timedelta) else usual
        # A day is a day on the calendar, hours are hours that pass.
        is_days = not length % timedelta(days=1)
        ends = starts + length if is_days else shifted(starts, length)
    if isinstance(ends, datetime) != is_timed:
        raise _no("has a day at one end and a time at the other")
    if isinstance(starts, datetime) and isinstance(ends, datetime):
        is_floating = starts.tzinfo is None or ends.tzinfo is None
        return (
            (starts.replace(tzinfo=None), ends.replace(tzinfo=None))
            if is_floating
            else (
                starts,
                ends,
            )
        )
    return starts, ends


def _span(starts: Moment, ends: Moment) -> tuple[_Moment, _Moment]:
    if isinstance(starts, datetime) and isinstance(ends, datetime):
        return _timed(starts, ends)
    # The last day of RFC 5545 is the first one that is free again.
    last = max(starts, ends - timedelta(days=1))
    _require_plausible(starts, last)
    return _Moment(starts, None, ""), _Moment(last, None, "")


def _timed(starts: datetime, ends: datetime) -> tuple[_Moment, _Moment]:
    zone = str(getattr(starts.tzinfo, "key", "") or "")
    if starts.tzinfo is None:
        zone = ""
    elif zone not in time_zones():
        # A zone that only the file knows: the instants are kept.
        starts, ends, zone = starts.astimezone(UTC), ends.astimezone(UTC), "UTC"
    else:
        ends = ends.astimezone(starts.tzinfo)
    if ends < starts:
        raise _no("ends before it starts")
    _require_plausible(starts.date(), ends.date())
    first, last = (moment.replace(microsecond=0, tzinfo=None) for moment in (starts, ends))
    return _Moment(first.date(), first.time(), zone), _Moment(last.date(), last.time(), zone)


def _require_plausible(first: date, last: date) -> None:
    if not (first.year >= EARLIEST and last.year <= LATEST):
        raise _no(f"lies outside the years {EARLIEST} to {LATEST}")
    if (last - first).days > LONGEST_DAYS:
        raise _no(f"lasts more than {LONGEST_DAYS} days")


def _when(event: "Component", name: str) -> date | datetime | None:
    held: Any = event.get(name)
    if held is None:
        return None
    when = getattr(held, "dt", None)
    if not isinstance(when, date):
        raise _no(f"has a {name.upper()} that is no date")
    return when


def _text(event: "Component", name: str, longest: int) -> str:
    held = event.get(name, "")
    if isinstance(held, list):
        held = held[0] if held else ""
    plain = "".join(c if c.isprintable() else " " for c in str(held))
    return " ".join(plain.split())[:longest].strip()


def _no(problem: str, advice: str = "Correct it in the calendar it comes from") -> InvalidInput:
    return InvalidInput(PLACE, problem, advice)
