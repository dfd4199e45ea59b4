"""What the pages of the camp show."""

from dataclasses import dataclass

from squadwright.printing.camp_words import AthleteWords, CampWords, WeekWords
from squadwright.printing.season_words import SeasonWords
from squadwright.web.forms import FormView
from squadwright.web.page import template
from squadwright.web.today.contexts import Rests


@dataclass(frozen=True)
class CampRow:
    """One athlete of the start page: what stands now, and the rounds of this week."""

    name: str
    path: str
    phase: str
    next_event: str
    this_week: str


@dataclass(frozen=True)
@template("camp/camp.html")
class CampPage:
    """The camp this week; ``trouble`` says why there is no plan."""

    line: str
    rows: tuple[CampRow, ...]
    in_short: str
    trouble: str


@dataclass(frozen=True)
class OfferRow:
    """A session into which rounds can be taken over; ``more`` is what stays to be done by hand."""

    name: str
    path: str
    action: str
    words: tuple[str, ...]
    more: tuple[str, ...]


@dataclass(frozen=True)
class PlanRow:
    """One athlete in the list of the plan."""

    name: str
    path: str
    next_event: str
    in_short: str


@dataclass(frozen=True)
@template("camp/plan.html")
class PlanPage:
    """The plan of the squad; ``words`` is None where there is none."""

    line: str
    trouble: str
    words: CampWords | None
    rows: tuple[PlanRow, ...]
    offers: tuple[OfferRow, ...]
    never: str
    rests: tuple[Rests, ...]


@dataclass(frozen=True)
@template("camp/athlete.html")
class AthletePage:
    """One athlete's line of the camp."""

    words: AthleteWords
    squad: tuple[WeekWords, ...]
    phases: tuple[str, ...]
    person_path: str
    bars_path: str
    never: str


@dataclass(frozen=True)
@template("camp/season.html")
class SeasonPage:
    """The season of the squad; ``words`` is None where the day typed cannot be used."""

    view: FormView
    words: SeasonWords | None
    sheet_path: str


@dataclass(frozen=True)
class DateRow:
    """An athlete in the form of dates: the names of his fields, and what is ahead already."""

    id: str
    name: str
    ahead: str


@dataclass(frozen=True)
@template("camp/dates.html")
class DatesPage:
    """Events of many athletes, entered together."""

    view: FormView
    rows: tuple[DateRow, ...]
    priorities: tuple[tuple[str, str], ...]
