"""What the page of components shows."""

from dataclasses import dataclass

from squadwright.web.drawing.bar import BarDrawing
from squadwright.web.drawing.interval import IntervalPicture
from squadwright.web.drawing.shares import DrawnShare
from squadwright.web.drawing.time_band import TimeBand
from squadwright.web.forms import FormView
from squadwright.web.page import template
from squadwright.web.question import Question


@dataclass(frozen=True)
class Row:
    """One row of the table."""

    name: str
    wave: int
    bar: str
    load: str
    restriction: str


@dataclass(frozen=True)
@template("patterns/patterns.html")
class PatternsPage:
    """Every component, in one theme."""

    shown_theme: str
    rows: tuple[Row, ...]
    bars: tuple[tuple[str, BarDrawing], ...]
    band: TimeBand
    ranges: IntervalPicture
    shares: tuple[DrawnShare, ...]
    ticks: tuple[int, ...]
    question: Question
    fresh: FormView
    page_number: int
