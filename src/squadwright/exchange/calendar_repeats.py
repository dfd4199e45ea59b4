"""Dates of an entry that repeats (RFC 5545: RRULE, RDATE, EXDATE), within a bounded time.

Rules are worked out on the clock of the entry's own zone, so that 19:00 stays 19:00 when summer
time begins; the length that has passed stays the same.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import UTC, date, datetime, time, timedelta
from typing import TYPE_CHECKING, Any

from squadwright.errors import InvalidInput

if TYPE_CHECKING:
    from icalendar import Component

PLACE = "the calendar file"
MOST_DATES = 200
"""Dates of one entry that are taken; a league that meets more often is a slot of the week."""
BEFORE_D, AHEAD_D = 400, 400
"""Days before and after today on which dates of what repeats are taken: a season and some more."""
ALLOWED = ("DAILY", "WEEKLY", "MONTHLY", "YEARLY")
CYCLE_YEARS, CYCLE_D = 400, 146_097
"""The Gregorian calendar repeats itself, weekdays included, after so many years and days."""
LAST_CYCLE = 19
Moment = date | datetime


@dataclass(frozen=True)
class Window:
    """The days on which dates are taken."""

    first: date
    last: date

    @classmethod
    def around(cls, today: date) -> "Window":
        """A season back and one ahead."""
        return cls(today - timedelta(days=BEFORE_D), today + timedelta(days=AHEAD_D))


@dataclass(frozen=True)
class Dates:
    """The dates on which an entry begins, and whether more come after the window."""

    starts: tuple[Moment, ...]
    goes_on: bool


def repeats(event: "Component") -> bool:
    """Whether an entry has more dates than its own."""
    return "rrule" in event or "rdate" in event


def recurrence_of(starts: Moment) -> str:
    """What RECURRENCE-ID says of a date: the day, the time that floats, or the instant in UTC."""
    if not isinstance(starts, datetime):
        return f"{starts:%Y%m%d}"
    if starts.tzinfo is None:
        return f"{starts:%Y%m%dT%H%M%S}"
    return f"{starts.astimezone(UTC):%Y%m%dT%H%M%SZ}"


def moment_of(recurrence: str) -> Moment:
    """The date that a RECURRENCE-ID names; ValueError where it is none."""
    if len(recurrence) == 8:
        return datetime.strptime(recurrence, "%Y%m%d").date()
    if recurrence.endswith("Z"):
        return datetime.strptime(recurrence, "%Y%m%dT%H%M%SZ").replace(tzinfo=UTC)
    return datetime.strptime(recurrence, "%Y%m%dT%H%M%S")


def day_of(moment: Moment) -> date:
    """The day of a moment on its own clock."""
    return moment.date() if isinstance(moment, datetime) else moment


def dates_of(event: "Component", starts: Moment, window: Window) -> Dates:
    """The dates of an entry that repeats; InvalidInput for a rule that is not taken."""
    left_out = {recurrence_of(each) for each in _listed(event, "exdate")}
    days_out = {f"{each:%Y%m%d}" for each in _listed(event, "exdate") if type(each) is date}
    extra = list(_listed(event, "rdate"))
    found: dict[str, Moment] = {}
    goes_on = False
    for each in (*_by_rule(event, starts, window), *extra):
        day = day_of(each)
        if day > window.last:
            goes_on = True
        elif day >= window.first:
            found[recurrence_of(each)] = each
        if len(found) > MOST_DATES:
            raise InvalidInput(
                PLACE,
                f"repeats more than {MOST_DATES} times up to {window.last}",
                "Put it into the week as a slot, or export fewer months",
            )
    kept = [
        each
        for own, each in found.items()
        if own not in left_out and f"{day_of(each):%Y%m%d}" not in days_out
    ]
    return Dates(tuple(sorted(kept, key=recurrence_of)), goes_on)


def shifted(starts: Moment, length: timedelta) -> Moment:
    """The end of a date that lasts so long: time that passes, not hours that a clock shows.

    Where the clock would show an end before the start, in the hour that comes twice, it is the
    clock that counts: which of the two hours is meant cannot be told apart later.
    """
    if not isinstance(starts, datetime) or starts.tzinfo is None:
        return starts + length
    ends = (starts.astimezone(UTC) + length).astimezone(starts.tzinfo)
    is_told_apart = ends.replace(tzinfo=None) >= starts.replace(tzinfo=None)
    return ends if is_told_apart else starts + length


def _by_rule(event: "Component", starts: Moment, window: Window) -> Iterator[Moment]:
    """Dates by the rule from the first one on, up to one after the window."""
    yield starts
    rule = event.get("rrule")
    if rule is None:
        return
    if isinstance(rule, list):
        raise _no("has two rules by which it repeats")
    _require_usual(rule)
    is_timed = isinstance(starts, datetime)
    zone = starts.tzinfo if isinstance(starts, datetime) else None
    until = _until(rule, zone)
    clock = starts.replace(tzinfo=None) if isinstance(starts, datetime) else _midnight(starts)
    for each in _on_clock(rule, clock):
        if until is not None and each > until:
            return
        yield _in_zone(each, zone) if is_timed else each.date()
        if each.date() > window.last:
            return


def _on_clock(rule: Any, clock: datetime) -> Iterator[datetime]:
    """Dates of a rule on a clock without a zone.

    They are worked out in the last cycle of the calendar that fits: a rule that no day fulfils
    (30 February) is looked for to the end of the years that the library knows.
    """
    from dateutil.rrule import rrulestr

    parts = {name: value for name, value in rule.items() if name.upper() != "UNTIL"}
    text = type(rule)(parts).to_ical().decode()
    cycles = LAST_CYCLE if clock.year <= 9999 - CYCLE_YEARS * LAST_CYCLE - 100 else 0
    later = clock.replace(year=clock.year + CYCLE_YEARS * cycles)
    back = timedelta(days=CYCLE_D * cycles)
    try:
        found = rrulestr(text, dtstart=later)
    except (ValueError, TypeError, KeyError, AttributeError) as error:
        raise _no("repeats by a rule that cannot be read") from error
    for each in found:
        yield each - back


def _require_usual(rule: Any) -> None:
    often = [str(each).upper() for each in rule.get("FREQ", [])]
    if len(often) != 1 or often[0] not in ALLOWED:
        raise _no(f"repeats {', '.join(often).lower() or 'by no rule'}, not by days or longer")
    if any(name in rule for name in ("BYHOUR", "BYMINUTE", "BYSECOND")):
        raise _no("repeats several times a day")
    if "COUNT" in rule and "UNTIL" in rule:
        raise _no("has both a number of dates and a last one")


def _until(rule: Any, zone: Any) -> datetime | None:
    """The last moment of a rule, on the clock of the entry; a day counts to its end."""
    held = rule.get("UNTIL")
    if not held:
        return None
    last = held[0] if isinstance(held, list) else held
    if not isinstance(last, date):
        raise _no("repeats until what is no date")
    if not isinstance(last, datetime):
        return datetime.combine(last, time.max)
    if last.tzinfo is None:
        return last
    return (last.astimezone(zone) if zone is not None else last).replace(tzinfo=None)


def _in_zone(clock: datetime, zone: Any) -> datetime:
    """A time on the clock of a zone; one that summer time leaves out is an hour later."""
    if zone is None:
        return clock
    return clock.replace(tzinfo=zone).astimezone(UTC).astimezone(zone)


def _listed(event: "Component", name: str) -> Iterator[Moment]:
    held = event.get(name)
    for line in held if isinstance(held, list) else [held] if held is not None else []:
        for each in getattr(line, "dts", [line]):
            when = getattr(each, "dt", None)
            if not isinstance(when, date):
                raise _no(f"lists a date ({name.upper()}) that is none, or a period")
            yield when


def _midnight(day: date) -> datetime:
    return datetime.combine(day, time())


def _no(problem: str) -> InvalidInput:
    return InvalidInput(PLACE, problem, "Enter each date, or put it into the week as a slot")
