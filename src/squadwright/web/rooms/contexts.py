"""What the pages of the rooms show."""

from dataclasses import dataclass

from markupsafe import Markup

from squadwright.web.forms import FormView
from squadwright.web.page import template
from squadwright.web.question import Question
from squadwright.web.rooms.kinds import NumberLine
from squadwright.web.rooms.positions import Position


@dataclass(frozen=True)
class RoomCard:
    """One room of the list."""

    name: str
    path: str
    line: str
    fits: str
    picture: Markup


@dataclass(frozen=True)
@template("rooms/list.html")
class RoomsPage:
    """All rooms."""

    rooms: tuple[RoomCard, ...]


@dataclass(frozen=True)
@template("rooms/new.html")
class NewRoomPage:
    """A room in one line."""

    view: FormView
    question: Question | None
    surfaces: tuple[str, ...]


@dataclass(frozen=True)
class FitRow:
    """How many of a usual station fit."""

    sentence: str
    why: str
    size: str
    path: str
    is_shown: bool


@dataclass(frozen=True)
class ThingRow:
    """One thing in the room."""

    name: str
    words: str
    path: str
    shown: str


@dataclass(frozen=True)
class ThingSection:
    """All things of a kind."""

    heading: str
    about: str
    one: str
    rows: tuple[ThingRow, ...]
    new: str


@dataclass(frozen=True)
class LowRow:
    """What cannot be done under a ceiling."""

    words: str
    advice: str
    more: tuple[str, ...]


@dataclass(frozen=True)
@template("rooms/room.html")
class RoomPage:
    """One room: drawn, what fits, what is in it."""

    title: str
    line: str
    path: str
    picture: Markup
    caption: str
    wrong: tuple[tuple[str, str], ...]
    fits: tuple[FitRow, ...]
    walk: tuple[str, ...]
    walk_line: str
    low: tuple[LowRow, ...]
    sections: tuple[ThingSection, ...]
    note: str
    used_by: tuple[str, ...]


@dataclass(frozen=True)
@template("rooms/shape.html")
class ShapePage:
    """The form of a room itself."""

    title: str
    path: str
    view: FormView
    question: Question | None
    shown: str
    shapes: tuple[tuple[str, str], ...]
    surfaces: tuple[str, ...]


@dataclass(frozen=True)
@template("rooms/thing.html")
class ThingPage:
    """The form of one thing."""

    title: str
    about: str
    action: str
    back: str
    view: FormView
    lines: tuple[NumberLine, ...]
    shown: str
    remove: str
    one: str
    picture: Markup


@dataclass(frozen=True)
class EditorFrame:
    """How metres become units of the drawing: from where, and which way is up [units]."""

    left: float
    high: float


@dataclass(frozen=True)
@template("rooms/move.html")
class MovePage:
    """Every corner and thing by its numbers, beside the drawing."""

    title: str
    path: str
    view: FormView
    shown: str
    picture: Markup
    frame_of: EditorFrame
    corners: tuple[Position, ...]
    things: tuple[Position, ...]
