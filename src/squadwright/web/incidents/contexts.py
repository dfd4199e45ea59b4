"""What the pages of incidents show."""

from dataclasses import dataclass

from squadwright.web.forms import FormView
from squadwright.web.page import template


@dataclass(frozen=True)
class IncidentRow:
    """One incident as a line."""

    day: str
    clock: str
    session: str
    name: str
    athlete_path: str
    restrictions_path: str
    words: str
    author: str
    is_taken_back: bool
    is_out: bool


@dataclass(frozen=True)
@template("incidents/list.html")
class IncidentsPage:
    """The incidents of the club, or of one athlete."""

    title: str
    line: str
    rows: tuple[IncidentRow, ...]
    of_one: bool


@dataclass(frozen=True)
@template("incidents/card.html")
class CardPage:
    """The emergency card to write."""

    view: FormView
    shown: str
