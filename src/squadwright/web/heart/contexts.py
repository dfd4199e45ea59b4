"""What the pages of heart recordings show."""

from dataclasses import dataclass

from squadwright.web.forms import FormView
from squadwright.web.page import template

Options = tuple[tuple[str, str], ...]


@dataclass(frozen=True)
class RecordingRow:
    """One recording as a line."""

    path: str
    day: str
    name: str
    what: str
    during: str


@dataclass(frozen=True)
@template("heart/list.html")
class RecordingsPage:
    """The recordings of the club, and the way in for another one."""

    view: FormView
    rows: tuple[RecordingRow, ...]
    has_squad: bool


@dataclass(frozen=True)
@template("heart/preview.html")
class PreviewPage:
    """A recording as it was read, to be given to somebody."""

    view: FormView
    line: str
    facts: tuple[tuple[str, str], ...]
    notes: tuple[str, ...]
    athletes: Options
    packed: str


@dataclass(frozen=True)
class ImpulseRow:
    """A training impulse by one author, as words."""

    author: str
    value: str
    how: str


@dataclass(frozen=True)
@template("heart/recording.html")
class RecordingPage:
    """One recording and what it says."""

    view: FormView
    path: str
    title: str
    line: str
    athlete_path: str
    facts: tuple[tuple[str, str], ...]
    zones: tuple[tuple[str, str], ...]
    impulses: tuple[ImpulseRow, ...]
    variability: tuple[str, ...]
    note: str
