"""What the pages of wellness show."""

from dataclasses import dataclass

from squadwright.web.forms import FormView
from squadwright.web.page import template
from squadwright.web.today.contexts import Rests


@dataclass(frozen=True)
class Answering:
    """One athlete: what he answered today, empty where nothing, and where his page is."""

    name: str
    words: str
    path: str


@dataclass(frozen=True)
@template("wellness/list.html")
class WellnessList:
    """Everybody, those still to be asked first."""

    line: str
    to_ask: tuple[Answering, ...]
    answered: tuple[Answering, ...]


@dataclass(frozen=True)
class ChartRow:
    """One answer of the charts, in words."""

    day: str
    total: str
    mean: str
    limits: str
    gathered: str


@dataclass(frozen=True)
@template("wellness/athlete.html")
class WellnessPage:
    """Five items for one athlete, and his charts."""

    title: str
    line: str
    path: str
    view: FormView
    items: tuple[tuple[str, str], ...]
    steps: tuple[tuple[str, str], ...]
    state: str
    rows: tuple[ChartRow, ...]
    earlier: str
    rests: tuple[Rests, ...]
