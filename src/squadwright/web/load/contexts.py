"""What the pages of load show."""

from dataclasses import dataclass

from squadwright.web.forms import FormView
from squadwright.web.page import template
from squadwright.web.today.contexts import Rests


@dataclass(frozen=True)
class Asking:
    """Something somebody has not told of yet, and where it is asked."""

    when: str
    what: str
    who: str
    path: str
    button: str


@dataclass(frozen=True)
class DayCell:
    """One day: what was told, and below it what was planned."""

    head: str
    told: str
    planned: str


@dataclass(frozen=True)
class WeekRow:
    """One week of somebody, in words."""

    name: str
    path: str
    cells: tuple[DayCell, ...]
    told: str
    planned: str
    known: str
    monotony: str
    strain: str
    formula: str


@dataclass(frozen=True)
@template("load/week.html")
class WeekPage:
    """A week of the whole squad."""

    line: str
    earlier: str
    later: str
    asking: tuple[Asking, ...]
    most_asked: int
    heads: tuple[str, ...]
    rows: tuple[WeekRow, ...]
    rests: tuple[Rests, ...]


@dataclass(frozen=True)
class AskedOne:
    """One athlete at the door, with what he has told."""

    athlete: str
    name: str
    told: str
    view: FormView
    is_open: bool


@dataclass(frozen=True)
@template("load/door.html")
class DoorPage:
    """How hard was it: everybody who was expected."""

    title: str
    line: str
    path: str
    back: str
    minutes: int
    wrong: str
    to_ask: tuple[AskedOne, ...]
    told: tuple[AskedOne, ...]
    efforts: tuple[tuple[int, str], ...]
    rests: tuple[Rests, ...]


@dataclass(frozen=True)
@template("load/rest.html")
class RestPage:
    """Who had a day without training."""

    title: str
    line: str
    path: str
    back: str
    people: tuple[tuple[str, str], ...]
    view: FormView


@dataclass(frozen=True)
class ToldLine:
    """One thing an athlete told, and where it is taken out; empty where the record says it."""

    day: str
    what: str
    load: str
    take_out: str


@dataclass(frozen=True)
class HardBefore:
    """A hard session of his own just before one of the club's, and the way to that one."""

    words: str
    advice: str
    name: str
    path: str


@dataclass(frozen=True)
@template("load/athlete.html")
class AthleteLoadPage:
    """The load of one athlete, week by week."""

    title: str
    line: str
    path: str
    person_path: str
    recent: tuple[str, ...]
    hidden: str
    limits: tuple[tuple[str, str], ...]
    bias: str
    rows: tuple[WeekRow, ...]
    told: tuple[ToldLine, ...]
    hard_before: HardBefore | None
    view: FormView
    efforts: tuple[tuple[str, str], ...]
    rests: tuple[Rests, ...]
