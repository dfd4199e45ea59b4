"""What the pages of a day of competition show."""

from dataclasses import dataclass

from squadwright.planning.mat_side import RoutineStep
from squadwright.web.forms import FormView
from squadwright.web.page import template


@dataclass(frozen=True)
class DayLink:
    """A day on which somebody competes."""

    words: str
    who: str
    path: str


@dataclass(frozen=True)
@template("event_day/days.html")
class DaysPage:
    """The days of competition that lie ahead."""

    days: tuple[DayLink, ...]


@dataclass(frozen=True)
class QueueLine:
    """One line of the queue: who, what now, and the estimate; ``is_now`` where he must move.

    ``where`` names his event on a day of several events, which may be in several towns.
    """

    name: str
    anchor: str
    move: str
    estimate: str
    is_now: bool
    where: str


@dataclass(frozen=True)
class Card:
    """One athlete at the mats; ``key`` is his and his event's, ``over`` his bouts until now.

    ``barred`` says why he may not compete; ``where`` is his event on a day of several.
    """

    key: str
    athlete_id: str
    event_id: str
    name: str
    over: str
    barred: str
    event: str
    weigh_in: str
    bouts: str
    where: str


@dataclass(frozen=True)
@template("event_day/day.html")
class MatSidePage:
    """The sheet of one day; it needs nothing from the server once it is open."""

    title: str
    line: str
    path: str
    record: str
    events: str
    devices_path: str
    is_coach: bool
    author: str
    view: FormView
    queue: tuple[QueueLine, ...]
    cards: tuple[Card, ...]
    weigh_ins: str
    ahead_keys: tuple[tuple[str, str], ...]
    steps: tuple[RoutineStep, ...]
    sources: tuple[str, ...]
