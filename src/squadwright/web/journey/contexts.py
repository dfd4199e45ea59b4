"""What the page of a session away from home shows."""

from dataclasses import dataclass

from squadwright.printing.travel_sheet import TravelWords
from squadwright.web.forms import FormView
from squadwright.web.page import template


@dataclass(frozen=True)
@template("journey/session.html")
class JourneyPage:
    """The travel version of a session; ``words`` is None where what was typed cannot be used."""

    title: str
    line: str
    path: str
    plan_path: str
    view: FormView
    athletes: tuple[tuple[str, str], ...]
    words: TravelWords | None
    sheet_path: str
    own_cards: tuple[tuple[str, str], ...]
