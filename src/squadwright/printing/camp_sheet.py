"""The camp on paper: the plan athlete by athlete, and the season on one sheet."""

from dataclasses import dataclass
from datetime import date

from squadwright.camp.problem import CampProblem
from squadwright.camp.season import Season
from squadwright.errors import NoSolution
from squadwright.model.club import Club
from squadwright.printing.camp_words import NEVER_TRUTH, CampWords, camp_words
from squadwright.printing.season_words import MEANINGS, SeasonWords, season_words
from squadwright.printing.typesetting import Heading, Settled, largest_size_on
from squadwright.services.camp import CampView

PLAN_SIZES_PT = (9.0, 8.0, 7.0)
PLAN_PAGES = 8
SEASON_SIZES_PT = (10.0, 9.0, 8.5, 8.0, 7.5, 7.0, 6.6)
CAUTION = (
    f"{NEVER_TRUTH} Stop on pain, dizziness or loss of form. Medical staff, local rules and "
    "licensed practice come first. It names people: give it only to whom they agreed to."
)


@dataclass(frozen=True)
class CampSheet:
    """Context of ``camp_sheet.typ``."""

    heading: Heading
    words: CampWords


@dataclass(frozen=True)
class SeasonSheet:
    """Context of ``squad_season.typ``."""

    heading: Heading
    words: SeasonWords
    meanings: tuple[tuple[str, str], ...]


def set_camp_sheet(view: CampView) -> bytes:
    """The plan as PDF; NoSolution where there is none."""
    words = camp_words(view)
    if words is None:
        raise NoSolution(f"There is no camp to print: {view.trouble}")
    sheet = CampSheet(_heading(view.club, "Camp plan", view.problem.first_day), words)
    document = Settled("camp_sheet.typ", sheet)
    return document.pdf(largest_size_on(document, PLAN_SIZES_PT, most_pages=PLAN_PAGES))


def set_season_sheet(
    club: Club, problem: CampProblem, season: Season, tests_on: date | None = None
) -> bytes:
    """The season as PDF, in the largest text that keeps it to one page."""
    words = season_words(club, problem, season, tests_on)
    sheet = SeasonSheet(_heading(club, "Season", problem.first_day), words, MEANINGS)
    document = Settled("squad_season.typ", sheet)
    return document.pdf(largest_size_on(document, SEASON_SIZES_PT, most_pages=1))


def _heading(club: Club, title: str, first_day: date) -> Heading:
    return Heading(
        club=club.name,
        session=title,
        held_on=first_day.isoformat(),
        cautions=(CAUTION,),
    )
