"""What the page of a day of testing shows."""

from dataclasses import dataclass

from squadwright.web.forms import FormView
from squadwright.web.page import template
from squadwright.web.today.contexts import Rests


@dataclass(frozen=True)
class DayRow:
    """One athlete: his tests in his order, each with its time."""

    name: str
    path: str
    tests: tuple[str, ...]
    waits: str


@dataclass(frozen=True)
class StationRow:
    """One test: who is at it when, and where the results are written in that order."""

    name: str
    id: str
    enter_path: str
    turns: tuple[tuple[str, str], ...]
    about: str


@dataclass(frozen=True)
class DayView:
    """A planned day in words."""

    summary: tuple[str, ...]
    left_out: tuple[str, ...]
    other_orders: tuple[str, ...]
    athletes: tuple[DayRow, ...]
    stations: tuple[StationRow, ...]
    sheet_path: str


@dataclass(frozen=True)
@template("testing/day.html")
class DayPage:
    """What is asked of a day of testing, and the day; None before it is asked for."""

    view: FormView
    athletes: tuple[tuple[str, str], ...]
    tests: tuple[tuple[str, str], ...]
    orders: tuple[tuple[str, str], ...]
    places: tuple[tuple[str, str], ...]
    trouble: str
    planned: DayView | None
    rests: tuple[Rests, ...]
