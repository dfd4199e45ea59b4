"""What the pages of how often the forecast was right show."""

from dataclasses import dataclass

from squadwright.web.drawing.shares import DrawnShare
from squadwright.web.page import template
from squadwright.web.today.contexts import Rests


@dataclass(frozen=True)
class BandRow:
    """Forecasts of about the same chance."""

    said: str
    count: str
    expected: str
    done: str
    bounds: str
    words: str


@dataclass(frozen=True)
class RuleRow:
    """How far off a rule was; ``words`` says which was nearer, it or the forecast."""

    name: str
    brier: str
    rounds: str
    difference: str
    words: str


@dataclass(frozen=True)
class AthleteRow:
    """One athlete in a line."""

    name: str
    path: str
    count: str
    expected: str
    done: str
    words: str


@dataclass(frozen=True)
@template("right/right.html")
class RightPage:
    """How often the forecast was right, of the club or of one athlete."""

    title: str
    line: str
    back: tuple[tuple[str, str], ...]
    is_empty: bool
    overall: str
    choice: str
    left_out: str
    bands: tuple[BandRow, ...]
    picture: tuple[DrawnShare, ...]
    ticks: tuple[int, ...]
    rules: tuple[RuleRow, ...]
    athletes: tuple[AthleteRow, ...]
    rests: tuple[Rests, ...]
