"""What the page of today's floor shows."""

from dataclasses import dataclass

from markupsafe import Markup

from squadwright.web.forms import FormView
from squadwright.web.page import template


@dataclass(frozen=True)
class WayLink:
    """One thing that may be free, or one routine to run: a look at what it changes."""

    words: str
    path: str
    is_chosen: bool = False


@dataclass(frozen=True)
class FloorLook:
    """What a floor would do, before it is stored."""

    words: str
    effect: str
    fits: bool
    pictures: tuple[tuple[str, Markup], ...]
    walk: tuple[str, ...]
    hidden: tuple[tuple[str, str], ...]
    routine: str
    throws: tuple[WayLink, ...]


@dataclass(frozen=True)
@template("floor/floor.html")
class FloorPage:
    """The floor of one session: what is free, what it changes, and the way to store it."""

    title: str
    line: str
    path: str
    session_path: str
    now: str
    now_effect: str
    look: FloorLook | None
    view: FormView
    sizes: FormView
    typed: tuple[tuple[str, str], ...]
    halves: tuple[WayLink, ...]
    rooms: tuple[WayLink, ...]
    whole: WayLink | None
    picture: Markup
