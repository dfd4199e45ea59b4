"""What the pages of tests show."""

from dataclasses import dataclass

from markupsafe import Markup

from squadwright.web.forms import FormView
from squadwright.web.page import template
from squadwright.web.question import Question
from squadwright.web.today.contexts import Rests


@dataclass(frozen=True)
class BatteryRow:
    """One test of the battery, and who was tested last."""

    name: str
    path: str
    measures: str
    last: str
    due: str


@dataclass(frozen=True)
class BatteryFamily:
    """Tests of one family."""

    name: str
    id: str
    rows: tuple[BatteryRow, ...]


@dataclass(frozen=True)
@template("testing/battery.html")
class BatteryPage:
    """The battery by family."""

    has_club: bool
    line: str
    families: tuple[BatteryFamily, ...]
    due: tuple[tuple[str, str, str], ...]
    due_words: str


@dataclass(frozen=True)
class SquadRow:
    """The last result of one athlete by one method; ``change`` says what may be said of it."""

    name: str
    path: str
    result: str
    day: str
    method: str
    change: str


@dataclass(frozen=True)
@template("testing/test.html")
class TestPage:
    """A test: how it is done, what is known of its error, the last results of the squad."""

    __test__ = False

    name: str
    line: str
    enter_path: str
    file_path: str
    has_club: bool
    facts: tuple[tuple[str, str], ...]
    rows: tuple[SquadRow, ...]
    repeats: tuple[str, ...]
    published: tuple[str, ...]
    bands: tuple[str, ...]
    no_norm: str
    rests: tuple[Rests, ...]


@dataclass(frozen=True)
class ColumnHead:
    """One column of a sheet of results."""

    key: str
    label: str


@dataclass(frozen=True)
class SheetRow:
    """One athlete on a sheet of results.

    ``barred`` says why he is not tested today by the method chosen; ``is_open`` if he may be by
    another one.
    """

    id: str
    name: str
    place: str
    last: str
    barred: str
    is_open: bool


@dataclass(frozen=True)
@template("testing/enter.html")
class EnterPage:
    """A sheet of results for the squad, as it was typed."""

    title: str
    line: str
    action: str
    back: str
    view: FormView
    question: Question | None
    methods: tuple[tuple[str, str], ...]
    units: tuple[tuple[str, str], ...]
    columns: tuple[ColumnHead, ...]
    rows: tuple[SheetRow, ...]
    squads: tuple[tuple[str, str], ...]
    squad: str
    left_out: str


@dataclass(frozen=True)
class PointRow:
    """One result of a line; ``entry`` is empty where it is changed on the page of the athlete."""

    day: str
    typed: str
    attempts: str
    note: str
    entry: str
    words: str


@dataclass(frozen=True)
class LineView:
    """Results by one method as a picture in two widths, and what may be said of the last step.

    ``worked`` is what follows from the last result, ``beside`` where it lies among other people.
    """

    id: str
    heading: str
    path: str
    verdict: str
    narrow: Markup
    wide: Markup
    sentences: tuple[str, ...]
    worked: tuple[str, ...]
    beside: tuple[str, ...]
    points: tuple[PointRow, ...]


@dataclass(frozen=True)
@template("testing/athlete.html")
class AthleteTestsPage:
    """All results of one athlete, one line for each method."""

    name: str
    line: str
    back: str
    path: str
    lines: tuple[LineView, ...]
    no_norm: str
    rests: tuple[Rests, ...]
