"""What the pages of the squad show."""

from dataclasses import dataclass

from squadwright.web.drawing.interval import IntervalPicture
from squadwright.web.forms import FormView
from squadwright.web.page import template
from squadwright.web.question import Question


@dataclass(frozen=True)
class SquadRow:
    """One athlete in the list."""

    name: str
    path: str
    born: str
    level: str
    squad: str
    weight_class: str
    mass: str
    mass_day: str
    restrictions: tuple[str, ...]
    event: str
    event_in: str
    is_guest: bool


@dataclass(frozen=True)
@template("squad/list.html")
class SquadPage:
    """Everybody, or those whom the filter leaves."""

    line: str
    has_club: bool
    rows: tuple[SquadRow, ...]
    is_filtered: bool
    chosen: FormView
    squads: tuple[tuple[str, str], ...]
    levels: tuple[tuple[str, str], ...]


@dataclass(frozen=True)
class Remark:
    """A finding about an athlete, with a page where it can be mended."""

    severity: str
    words: str
    advice: str = ""
    path: str = ""
    path_words: str = ""


@dataclass(frozen=True)
class EntryRow:
    """One entry: its cells after the first, and where it is changed."""

    head: str
    cells: tuple[str, ...]
    path: str
    path_words: str


@dataclass(frozen=True)
class EntrySection:
    """Entries of one kind, the newest first; ``all_path`` where more are kept than shown."""

    heading: str
    id: str
    heads: tuple[str, ...]
    rows: tuple[EntryRow, ...]
    none_words: str
    add_path: str
    add_words: str
    all_path: str = ""
    all_words: str = ""


@dataclass(frozen=True)
class CapacityWhy:
    """What a capacity rests on: sentences, and the works they name."""

    summary: str
    sentences: tuple[str, ...]
    sources: tuple[str, ...]


@dataclass(frozen=True)
class CapacityView:
    """Strength in the reference lifts; ``trouble`` says why there is none."""

    picture: IntervalPicture | None
    whys: tuple[CapacityWhy, ...]
    trouble: str = ""


@dataclass(frozen=True)
class SessionsSay:
    """What his recorded sessions say: maximum by lift as (lift, by tests, now), then sentences."""

    taught: str
    lifts: tuple[tuple[str, str, str], ...] = ()
    sentences: tuple[str, ...] = ()


@dataclass(frozen=True)
class PlannedLine:
    """What a kept plan held for an athlete."""

    words: str
    amounts: tuple[str, ...]
    path: str


@dataclass(frozen=True)
@template("squad/athlete.html")
class AthletePage:
    """One athlete."""

    name: str
    line: str
    path: str
    incidents_path: str
    record_path: str
    right_path: str
    load_path: str
    tests_path: str
    event_day_path: str
    event_links: tuple[tuple[str, str], ...]
    note: str
    remarks: tuple[Remark, ...]
    restrictions: tuple[str, ...]
    next_event: str
    mass_line: str
    capacity: CapacityView
    sessions_say: SessionsSay
    sections: tuple[EntrySection, ...]
    planned: tuple[PlannedLine, ...]
    guardian: str
    is_minor: bool


@dataclass(frozen=True)
@template("squad/person.html")
class PersonPage:
    """The form of a person, new or known."""

    title: str
    line: str
    action: str
    back: str
    back_words: str
    view: FormView
    question: Question | None
    squads: tuple[tuple[str, str], ...]
    levels: tuple[tuple[str, str], ...]
    sexes: tuple[tuple[str, str], ...]
    submit: str
    is_new: bool


@dataclass(frozen=True)
@template("squad/entry.html")
class EntryPage:
    """The form of one entry, new or known; ``remove`` is where a known one is taken out."""

    title: str
    line: str
    kind: str
    action: str
    back: str
    view: FormView
    question: Question | None
    submit: str
    remove: str
    remove_words: str
    shown: str
    lifts: tuple[tuple[str, str], ...]
    priorities: tuple[tuple[str, str], ...]


@dataclass(frozen=True)
@template("squad/entries.html")
class EntriesPage:
    """All entries of one kind, page by page."""

    title: str
    line: str
    back: str
    section: EntrySection
    page: int
    pages: int
    pages_path: str


@dataclass(frozen=True)
class SamePerson:
    """One of two who may be the same: who he is and what is kept of him."""

    id: str
    name: str
    lines: tuple[str, ...]


@dataclass(frozen=True)
@template("squad/same.html")
class SamePage:
    """Choose who is the same person as an athlete."""

    name: str
    back: str
    near: tuple[tuple[str, str], ...]
    others: tuple[tuple[str, str], ...]


@dataclass(frozen=True)
@template("squad/merge.html")
class MergePage:
    """Two side by side, before they become one."""

    one: SamePerson
    other: SamePerson
    action: str
    back: str
    differences: tuple[str, ...]
    clashes: tuple[str, ...]
    view: FormView
    shown: str
