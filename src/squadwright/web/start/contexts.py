"""What each page of the first day shows."""

from dataclasses import dataclass

from squadwright.web.forms import FormView
from squadwright.web.page import template
from squadwright.web.question import Question


@dataclass(frozen=True)
@template("start/name.html")
class NamePage:
    """The club gets its name."""

    view: FormView


@dataclass(frozen=True)
class StepLine:
    """One step: what it is, whether it is done, and what stands there now."""

    name: str
    path: str
    is_done: bool
    words: str


@dataclass(frozen=True)
@template("start/steps.html")
class StepsPage:
    """All steps, and the way on."""

    club: str
    progress: str
    steps: tuple[StepLine, ...]
    on_path: str
    on_words: str
    print_path: str


@dataclass(frozen=True)
class ReadLine:
    """One typed athlete as understood."""

    number: int
    name: str
    born: str
    sex: str
    level: str
    body_mass: str
    press: str
    wrong: tuple[str, ...]
    doubts: tuple[str, ...]
    notes: tuple[str, ...]


@dataclass(frozen=True)
@template("start/squad.html")
class SquadPage:
    """A box for names, and below it what was understood."""

    progress: str
    view: FormView
    lines: tuple[ReadLine, ...]
    code: str
    can_take: bool
    summary: str
    is_young_by_rule: bool
    example: str
    import_path: str
    known: int


@dataclass(frozen=True)
class StoreLink:
    """A store to start from."""

    name: str
    words: str
    path: str
    is_chosen: bool


@dataclass(frozen=True)
class RowField:
    """One count of the store."""

    name: str
    label: str


@dataclass(frozen=True)
@template("start/kit.html")
class KitPage:
    """A store to start from, and its counts."""

    progress: str
    view: FormView
    stores: tuple[StoreLink, ...]
    store: str
    groups: tuple[tuple[str, tuple[RowField, ...]], ...]
    has_kit: bool


@dataclass(frozen=True)
@template("start/room.html")
class RoomPage:
    """A rectangle, its ceiling and its column; or a field."""

    progress: str
    view: FormView


@dataclass(frozen=True)
class ShelfChoice:
    """A routine of the shelf in a few words."""

    id: str
    name: str
    aim: str
    line: str
    lacks: str


@dataclass(frozen=True)
@template("start/routine.html")
class RoutinePage:
    """The shelf, what suits first."""

    progress: str
    view: FormView
    suits: tuple[ShelfChoice, ...]
    others: tuple[ShelfChoice, ...]
    first: str


@dataclass(frozen=True)
@template("start/session.html")
class SessionPage:
    """When the first session is."""

    progress: str
    view: FormView
    question: Question | None
    days: tuple[tuple[str, str], ...]
    line: str
