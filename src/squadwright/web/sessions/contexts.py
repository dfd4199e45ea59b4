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
@template("sessions/week.html")
class WeekPage:
    """The week, day by day, and a form for another slot."""

    days: tuple[DayOfSlots, ...]
    view: FormView
    weekdays: Options
    squads: Options


@dataclass(frozen=True)
@template("sessions/slot.html")
class SlotPage:
    """One slot of the week, to be changed."""

    name: str
    action: str
    view: FormView
    weekdays: Options
    squads: Options


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
