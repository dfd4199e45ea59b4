"""The club's calendar: what kind of work a slot is, and what the year does to the week."""

from dataclasses import dataclass
from datetime import date, datetime, time, timedelta
from enum import StrEnum
from functools import lru_cache
from zoneinfo import available_timezones

from squadwright.model.field import Effort, Hours, Identifier, Label, Name, Note, Tally


def monday_of(day: date) -> date:
    """The Monday of the week a day lies in."""
    return day - timedelta(days=day.weekday())


def minutes_between(starts_at: time, ends_at: time) -> int:
    """Whole minutes from one time of a day to a later one."""
    start, end = (datetime.combine(date.min, moment) for moment in (starts_at, ends_at))
    return int((end - start).total_seconds() // 60)


class Work(StrEnum):
    """What kind of work a slot of the week is; the clash rules go by it."""

    NOT_STATED = "not stated"
    BARBELL = "barbell"
    PLYOMETRIC = "plyometric"
    CONDITIONING = "conditioning"
    TECHNIQUE = "mat technique"
    SKILLS = "skills"
    SPARRING = "sparring"
    LIVE = "live rounds"
    OPEN_MAT = "open mat"

    @property
    def is_strength(self) -> bool:
        """Whether it is done for strength or power."""
        return self in (Work.BARBELL, Work.PLYOMETRIC)

    @property
    def is_contact(self) -> bool:
        """Whether two athletes work against each other."""
        return self in (Work.SPARRING, Work.LIVE, Work.OPEN_MAT)


class BodyRegion(StrEnum):
    """Regions of the body that the mat and the bar both load."""

    LEGS = "legs"
    BACK = "back"
    SHOULDERS = "shoulders and arms"
    GRIP = "grip"
    NECK = "neck"


@dataclass(frozen=True)
class Closure:
    """Days on which the place is lost: all of it, or the rooms named."""

    id: Identifier
    name: Name
    starts_on: date
    ends_on: date
    rooms: tuple[Identifier, ...] = ()

    def shuts(self, room: str | None, day: date) -> bool:
        """Whether a room is lost on a day; None is a slot whose room is not stated."""
        return self.starts_on <= day <= self.ends_on and (not self.rooms or room in self.rooms)


@dataclass(frozen=True)
class SchoolTerm:
    """A school term: outside of it the youngest may be away."""

    id: Identifier
    name: Name
    starts_on: date
    ends_on: date


@dataclass(frozen=True)
class Travel:
    """An athlete is somewhere else, with the time zone there."""

    id: Identifier
    name: Name
    athlete: Identifier
    starts_on: date
    ends_on: date
    time_zone: Label = ""


CalendarEntry = Closure | SchoolTerm | Travel


@dataclass(frozen=True)
class SlotChange:
    """One date of a slot that is not as the week says: moved, shorter, easier, or off."""

    id: Identifier
    slot: Identifier
    held_on: date
    moved_to: date | None = None
    starts_at: time | None = None
    ends_at: time | None = None
    room: Identifier | None = None
    planned_effort: Effort | None = None
    is_off: bool = False
    reason: Note = ""


@dataclass(frozen=True)
class Fixture:
    """A date from somebody else's calendar, known by the id it has there.

    Without clock times it takes whole days; ``ends_on`` is its last day. ``recurrence`` says which
    date of something that repeats it is, as RECURRENCE-ID does (an instant in UTC, a day, or a time
    that floats); empty where it does not repeat.
    """

    id: Identifier
    uid: Note
    name: Name
    starts_on: date
    ends_on: date
    starts_at: time | None = None
    ends_at: time | None = None
    time_zone: Label = ""
    place: Note = ""
    sequence: Tally = 0
    recurrence: Label = ""

    @property
    def key(self) -> tuple[str, str]:
        """What it is known by in the calendar it comes from."""
        return (self.uid, self.recurrence)


@dataclass(frozen=True)
class ClashLimits:
    """Hours between sessions; the coach's settings, each with its default.

    Same region 48 h, to failure 72 h, two hard full-contact days 72 h, different qualities 6 h and
    never under 3 h are judgements from recovery studies; legs before live rounds is the coach's.
    """

    same_region_hours: Hours = 48
    to_failure_hours: Hours = 72
    contact_hours: Hours = 72
    legs_before_live_hours: Hours = 24
    qualities_hours: Hours = 6
    least_hours: Hours = 3
    strength_first: bool = True


@lru_cache(maxsize=1)
def time_zones() -> frozenset[str]:
    """Names of the time zones of the IANA database that are places, and UTC."""
    places = {name for name in available_timezones() if "/" in name and not name.startswith("Etc/")}
    return frozenset({"UTC", *places})
