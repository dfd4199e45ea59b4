"""What the pages of Routines show."""

from collections.abc import Mapping
from dataclasses import dataclass

from squadwright.web.drawing.floor import FloorPicture
from squadwright.web.forms import FormView
from squadwright.web.page import template

Pairs = tuple[tuple[str, str], ...]


@dataclass(frozen=True)
class FixView:
    """One way to mend a break: the button's words, and what it sends."""

    words: str
    do: str


@dataclass(frozen=True)
class FindingView:
    """A sentence about a routine, why, and what mends it."""

    severity: str
    sentence: str
    advice: str
    why: tuple[str, ...]
    fixes: tuple[FixView, ...] = ()


@dataclass(frozen=True)
class Checks:
    """Everything that is said of a routine; ``line`` is the shortest form of it."""

    line: str
    findings: tuple[FindingView, ...] = ()
    floor: tuple[FloorPicture, ...] = ()


@dataclass(frozen=True)
@template("routines/checks.html")
class ChecksPart:
    """The checks alone, for a page that is already open."""

    checks: Checks


@dataclass(frozen=True)
class RoutineLine:
    """A routine in a list."""

    name: str
    path: str
    aim: str
    facts: str
    fits: tuple[str, ...]
    note: str = ""
    copy_path: str = ""


@dataclass(frozen=True)
class RoutineGroup:
    """Routines of one style."""

    name: str
    lines: tuple[RoutineLine, ...]


@dataclass(frozen=True)
@template("routines/list.html")
class RoutineList:
    """The club's routines."""

    line: str
    has_club: bool
    routines: tuple[RoutineLine, ...]
    put_away: tuple[RoutineLine, ...]


@dataclass(frozen=True)
@template("routines/shelf.html")
class ShelfPage:
    """The routines that come with the program."""

    line: str
    chosen: FormView
    levels: Pairs
    kits: Pairs
    groups: tuple[RoutineGroup, ...]


@dataclass(frozen=True)
class StepLine:
    """One exercise of a block as it is read."""

    label: str
    name: str
    amount: str
    bar: str
    note: str
    cues: tuple[str, ...] = ()
    faults: tuple[str, ...] = ()


@dataclass(frozen=True)
class BlockLine:
    """One block as it is read."""

    name: str
    words: tuple[str, ...]
    steps: tuple[StepLine, ...]
    note: str
    has_bar: bool


@dataclass(frozen=True)
class VersionLine:
    """One version, and the sessions that name it."""

    words: str
    path: str
    is_shown: bool
    sessions: Pairs


@dataclass(frozen=True)
class Actions:
    """What can be done with a routine; an empty path cannot be done."""

    edit: str = ""
    sheet: str = ""
    copy: str = ""
    file: str = ""
    name: str = ""
    remove: str = ""
    bring_back: str = ""
    build: str = ""
    take: str = ""


@dataclass(frozen=True)
@template("routines/routine.html")
class RoutinePage:
    """One routine: what is done, what is said of it, its versions."""

    title: str
    line: str
    facts: str
    fits: tuple[str, ...]
    blocks: tuple[BlockLine, ...]
    cautions: tuple[str, ...]
    note: str
    looked_at: str
    checks: Checks
    versions: tuple[VersionLine, ...]
    coming: tuple[str, ...]
    move_path: str
    actions: Actions
    back: str
    back_words: str
    old: str


@dataclass(frozen=True)
@template("routines/sheet.html")
class HandoverPage:
    """What an assistant needs to run a routine."""

    title: str
    line: str
    facts: str
    blocks: tuple[BlockLine, ...]
    kit: str
    length: str
    cautions: tuple[str, ...]
    emergency: Pairs
    sessions: Pairs
    back: str


@dataclass(frozen=True)
class StepView:
    """One row of the editor; ``choices`` are what a few letters may mean."""

    at: str
    choices: Pairs
    is_filled: bool


@dataclass(frozen=True)
class BlockView:
    """One block of the editor."""

    at: str
    key: str
    title: str
    style: str
    steps: tuple[StepView, ...]
    can_be_removed: bool


@dataclass(frozen=True)
class ExerciseName:
    """An exercise to choose by its name."""

    name: str
    has_bar: bool


@dataclass(frozen=True)
class Words:
    """The choices of the editor, in plain words."""

    styles: Pairs
    levels: Pairs
    counted: Pairs
    rests: Pairs
    orders: Pairs
    groups: Pairs
    places: Pairs
    facings: Pairs
    aims: tuple[str, ...]


@dataclass(frozen=True)
@template("routines/editor.html")
class EditorPage:
    """The editor: everything typed, and what is said of it."""

    title: str
    action: str
    back: str
    routine: str
    view: FormView
    blocks: tuple[BlockView, ...]
    usual: Mapping[str, str]
    exercises: tuple[ExerciseName, ...]
    words: Words
    rooms: Pairs
    checks: Checks
    focus: str
    trouble: str
    most_steps: int


@dataclass(frozen=True)
@template("routines/name.html")
class NamePage:
    """Another name for a routine."""

    title: str
    action: str
    back: str
    view: FormView


@dataclass(frozen=True)
@template("routines/take_in.html")
class TakeInPage:
    """A routine file looked at before it is taken in."""

    view: FormView
    complaints: tuple[str, ...]
    title: str
    line: str
    blocks: tuple[BlockLine, ...]
    cautions: tuple[str, ...]
    can_be_stored: bool
