"""What the pages of the store show."""

from dataclasses import dataclass

from squadwright.web.forms import FormView
from squadwright.web.page import template
from squadwright.web.question import Question


@dataclass(frozen=True)
class PieceRow:
    """One piece on its shelf. ``fewer`` and ``more`` are where a count for today is sent."""

    name: str
    facts: tuple[str, ...]
    note: str
    path: str
    has_service: bool
    is_in_service: bool
    missing: str
    can_miss: bool
    can_find: bool


@dataclass(frozen=True)
class ShelfView:
    """One shelf, in store-walk order."""

    name: str
    value: str
    rows: tuple[PieceRow, ...]
    add_words: str


@dataclass(frozen=True)
class StoreLink:
    """The way to another page."""

    words: str
    path: str


@dataclass(frozen=True)
@template("store/store.html")
class StorePage:
    """Everything by piece."""

    title: str
    line: str
    wrong: str
    links: tuple[StoreLink, ...]
    shelves: tuple[ShelfView, ...]
    today_word: str


@dataclass(frozen=True)
@template("store/piece.html")
class PiecePage:
    """The form of one piece, and what is asked about it."""

    title: str
    line: str
    shelf: str
    action: str
    view: FormView
    question: Question | None
    shown: str
    remove: str
    back: str


@dataclass(frozen=True)
class FetchLine:
    """One thing to fetch. ``counts`` are the numbers that may be missing, with their words."""

    key: str
    item: str
    goes_to: str
    short: str
    is_found: bool
    counts: tuple[tuple[str, str], ...]


@dataclass(frozen=True)
class FetchPlace:
    """One stop on the walk through the store."""

    name: str
    lines: tuple[FetchLine, ...]


@dataclass(frozen=True)
class MissingLine:
    """Something that is not there for this session."""

    words: str
    piece: str
    count: int


@dataclass(frozen=True)
class HeldLoad:
    """A load on a bar, and how far it is below the one wanted."""

    name: str
    wanted: str
    load: str
    below: str
    is_held: bool


@dataclass(frozen=True)
class WayRow:
    """One way to run the session, in numbers; ``trouble`` where it does not work."""

    words: str
    largest: str
    total: str
    moves: str
    minutes: str
    cuts: str
    trouble: str
    waves: int | None


@dataclass(frozen=True)
@template("store/missing.html")
class MissingPage:
    """What to fetch for a session, what is missing, and what that does."""

    title: str
    line: str
    path: str
    plan_path: str
    wrong: str
    trouble: str
    tolerance: tuple[str, str]
    advice: tuple[str, ...]
    missing: tuple[MissingLine, ...]
    places: tuple[FetchPlace, ...]
    found: str
    loads: tuple[HeldLoad, ...]
    held: str
    ways: tuple[WayRow, ...]
    worth: tuple[str, ...]
    can_work_out: bool
    chosen: str


@dataclass(frozen=True)
class NextRow:
    """One piece to buy, with its effect in words."""

    piece: str
    effects: tuple[str, ...]


@dataclass(frozen=True)
@template("store/next.html")
class NextPage:
    """Which one piece helps most; ``is_ready`` once it is worked out."""

    title: str
    line: str
    is_ready: bool
    now: tuple[str, ...]
    rows: tuple[NextRow, ...]
    nothing: str
