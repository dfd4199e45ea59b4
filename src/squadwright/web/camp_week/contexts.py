"""What the pages of a dated week show."""

from dataclasses import dataclass

from squadwright.web.forms import FormView
from squadwright.web.page import template

Options = tuple[tuple[str, str], ...]


@dataclass(frozen=True)
class WorkLine:
    """One session of the week; ``change_path`` is empty where it comes from no slot.

    ``travel_path`` leads to what can be done elsewhere where the room is lost.
    """

    name: str
    hours: str
    line: str
    mark: str
    change_path: str
    travel_path: str


@dataclass(frozen=True)
class DayOfWork:
    """One day with its sessions and what else is on it."""

    day: str
    notes: tuple[str, ...]
    works: tuple[WorkLine, ...]


@dataclass(frozen=True)
class MoveButton:
    """One move, taken in a tap: its words and the fields it sends."""

    words: str
    hidden: dict[str, str]


@dataclass(frozen=True)
class ClashCard:
    """A clash as sentences, with what can be done about it."""

    words: str
    rule: str
    source: str
    is_changed: bool
    moves: tuple[MoveButton, ...]
    lighter_words: str
    lighter_session: str


@dataclass(frozen=True)
class LoadRow:
    """The planned loads of a squad: seven days, the week, monotony, strain."""

    squad: str
    days: tuple[str, ...]
    week: str
    monotony: str
    strain: str


@dataclass(frozen=True)
class RegionRow:
    """Planned load of the sessions that load a region, by day."""

    region: str
    days: tuple[str, ...]


@dataclass(frozen=True)
class RegionTable:
    """The regions of one squad."""

    squad: str
    rows: tuple[RegionRow, ...]


@dataclass(frozen=True)
@template("camp_week/week.html")
class CampWeekPage:
    """A week: clashes first, then the timetable and its load."""

    title: str
    day: str
    earlier_path: str
    later_path: str
    first_clashes: tuple[ClashCard, ...]
    more_clashes: tuple[ClashCard, ...]
    waiting: int
    unstated: tuple[str, ...]
    days: tuple[DayOfWork, ...]
    heads: tuple[str, ...]
    loads: tuple[LoadRow, ...]
    formula: str
    worked: tuple[str, ...]
    regions: tuple[RegionTable, ...]
    message: str
    files: tuple[tuple[str, str], ...]


@dataclass(frozen=True)
@template("camp_week/date.html")
class DatePage:
    """One date of a slot, to be changed."""

    title: str
    line: str
    action: str
    back: str
    view: FormView
    rooms: Options


@dataclass(frozen=True)
@template("camp_week/limits.html")
class LimitsPage:
    """The coach's hours between sessions."""

    view: FormView
    fields: tuple[tuple[str, str, str], ...]
    back: str


@dataclass(frozen=True)
class FixtureLine:
    """One fixture: when and where; ``before`` is what it was, ``who`` competes there.

    ``path`` takes it out, ``events_path`` makes it an event of athletes.
    """

    name: str
    when: str
    before: str
    path: str
    who: str
    events_path: str


@dataclass(frozen=True)
class FixtureAthlete:
    """An athlete in the form of a fixture; ``held`` says that it is his event already."""

    id: str
    name: str
    held: str


@dataclass(frozen=True)
@template("camp_week/fixture_events.html")
class FixtureEventsPage:
    """A fixture, to be made an event of athletes."""

    title: str
    line: str
    action: str
    back: str
    view: FormView
    choices: Options
    rows: tuple[FixtureAthlete, ...]


@dataclass(frozen=True)
@template("camp_week/fixtures.html")
class FixturesPage:
    """The fixtures there are, and a file with others."""

    view: FormView
    fixtures: tuple[FixtureLine, ...]
    back: str


@dataclass(frozen=True)
@template("camp_week/preview.html")
class FixturesPreview:
    """What a calendar file would change, before anything is stored."""

    line: str
    new: tuple[FixtureLine, ...]
    changed: tuple[FixtureLine, ...]
    gone: tuple[FixtureLine, ...]
    left_out: tuple[tuple[str, str], ...]
    content: str
    can_take: bool
