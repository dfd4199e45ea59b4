"""What the pages after a session show."""

from dataclasses import dataclass

from squadwright.planning.live.review import Review
from squadwright.printing.done_rows import DoneRow
from squadwright.web.forms import FormView
from squadwright.web.page import template
from squadwright.web.today.contexts import Rests


@dataclass(frozen=True)
class EventLine:
    """One event of the record."""

    clock: str
    what: str
    author: str
    is_taken_back: bool


@dataclass(frozen=True)
class DonePaths:
    """Where the pages of a session are."""

    page: str
    effort: str
    review: str
    plan: str
    floor: str
    next: str = ""
    next_words: str = ""
    paper: str = ""


@dataclass(frozen=True)
@template("done/session.html")
class DonePage:
    """What was done in a session."""

    title: str
    line: str
    paths: DonePaths
    trouble: str
    state: str
    is_empty: bool
    rows: tuple[DoneRow, ...]
    not_asked: tuple[str, ...]
    accepted: Review | None
    review: FormView
    events: tuple[EventLine, ...]
    rests: tuple[Rests, ...]


@dataclass(frozen=True)
class AskedPerson:
    """One athlete at the door."""

    athlete: str
    name: str
    effort: str
    reserve: str


@dataclass(frozen=True)
@template("done/effort.html")
class EffortPage:
    """How hard was it: everybody, each with his two taps."""

    title: str
    line: str
    wrong: str
    paths: DonePaths
    to_ask: tuple[AskedPerson, ...]
    noted: tuple[AskedPerson, ...]
    efforts: tuple[tuple[int, str], ...]
    reserves: tuple[int, ...]
    rests: tuple[Rests, ...]
