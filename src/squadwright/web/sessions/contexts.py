"""What each page of the sessions shows."""

from collections.abc import Mapping
from dataclasses import dataclass

from squadwright.web.forms import FormView
from squadwright.web.page import template
from squadwright.web.question import Question

Options = tuple[tuple[str, str], ...]


@dataclass(frozen=True)
class SessionLine:
    """One session in the list; ``done_path`` is empty where nothing is noted of it."""

    name: str
    when: str
    place: str
    path: str
    plan_path: str
    done_path: str


@dataclass(frozen=True)
@template("sessions/list.html")
class SessionList:
    """Sessions by date: what comes first, then what was, the latest first."""

    coming: tuple[SessionLine, ...]
    past: tuple[SessionLine, ...]
    page: int
    pages: int
    can_add: bool


@dataclass(frozen=True)
class Choices:
    """What can be chosen in the form of a session; ``numbers`` are labels and units by field."""

    rooms: Options
    routines: Options
    squads: Options
    names: Options
    staff: Options
    people: Options
    minor_rules: Options
    odd_squads: Options
    pair_rows: tuple[int, ...]
    numbers: Mapping[str, tuple[str, str]]


@dataclass(frozen=True)
@template("sessions/form.html")
class SessionForm:
    """A new session, or one to be changed."""

    title: str
    line: str
    action: str
    view: FormView
    choices: Choices
    question: Question | None
    settings_open: bool
    store_words: str
    path: str


@dataclass(frozen=True)
@template("sessions/missing.html")
class MissingPage:
    """What is needed before a session can be made."""

    words: str
    path: str
    link_words: str


@dataclass(frozen=True)
@template("sessions/copy.html")
class CopyPage:
    """The day a session is copied to."""

    name: str
    line: str
    action: str
    view: FormView
    question: Question | None
    back: str


@dataclass(frozen=True)
class SlotLine:
    """One slot of the week."""

    name: str
    hours: str
    line: str
    path: str
    new_path: str
    new_words: str


@dataclass(frozen=True)
class DayOfSlots:
    """The slots of one day of the week."""

    day: str
    slots: tuple[SlotLine, ...]


@dataclass(frozen=True)
class SlotChoices:
    """What can be chosen in the form of a slot."""

    weekdays: Options
    squads: Options
    works: Options
    regions: Options
    rooms: Options
    staff: Options


@dataclass(frozen=True)
@template("sessions/week.html")
class WeekPage:
    """The week, day by day, and a form for another slot."""

    days: tuple[DayOfSlots, ...]
    view: FormView
    choices: SlotChoices


@dataclass(frozen=True)
@template("sessions/slot.html")
class SlotPage:
    """One slot of the week, to be changed."""

    name: str
    action: str
    view: FormView
    choices: SlotChoices


@dataclass(frozen=True)
class CalendarLine:
    """One entry of the calendar."""

    name: str
    when: str
    line: str
    path: str


@dataclass(frozen=True)
class CalendarKind:
    """The entries of one kind, and where another is written."""

    title: str
    lines: tuple[CalendarLine, ...]
    new_path: str
    new_words: str
    empty: str


@dataclass(frozen=True)
@template("sessions/calendar.html")
class CalendarPage:
    """The calendar of the club: time zone, days the place is lost, school terms, travel."""

    view: FormView
    kinds: tuple[CalendarKind, ...]


@dataclass(frozen=True)
@template("sessions/calendar_entry.html")
class CalendarEntryPage:
    """One entry of the calendar in its form."""

    title: str
    kind: str
    action: str
    view: FormView
    rooms: Options
    athletes: Options
    can_remove: bool


@dataclass(frozen=True)
class SheetLine:
    """One printed sheet."""

    name: str
    words: str
    path: str


@dataclass(frozen=True)
@template("sessions/sheets.html")
class SheetsPage:
    """The sheets of a session, a press each."""

    title: str
    line: str
    trouble: str
    sheets: tuple[SheetLine, ...]
    all_path: str
    plan_path: str
    units: tuple[tuple[str, str, bool], ...]
