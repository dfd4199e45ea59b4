"""The week on one page: what hangs on the wall."""

from dataclasses import dataclass, replace
from datetime import date, timedelta

from squadwright.camp.clashes import Clash
from squadwright.camp.week import DatedWork, GroupWeek
from squadwright.camp.week_words import (
    FORMULA,
    clash_words,
    hours_words,
    load_words,
    rule_words,
    work_words,
)
from squadwright.formulas.session_load import DAYS_IN_A_WEEK
from squadwright.model.club import Club
from squadwright.printing.typesetting import Heading, Settled, largest_size_on
from squadwright.words import full_date, weekday_and_day

SIZES_PT = (10.0, 9.5, 9.0, 8.5, 8.0, 7.5, 7.0, 6.6)
MOST_CLASHES = 8
WEEK_TEMPLATE = "week_sheet.typ"
CAUTION = (
    "Planned loads describe; they forecast no injury. Medical staff, local rules and licensed "
    "practice come first."
)


@dataclass(frozen=True)
class PrintedWork:
    """One session of a day."""

    hours: str
    name: str
    line: str
    is_held: bool


@dataclass(frozen=True)
class PrintedDay:
    """One day of the week."""

    day: str
    works: tuple[PrintedWork, ...]


@dataclass(frozen=True)
class WeekSheet:
    """Context of ``week_sheet.typ``."""

    heading: Heading
    title: str
    days: tuple[PrintedDay, ...]
    heads: tuple[str, ...]
    loads: tuple[tuple[str, ...], ...]
    formula: str
    clashes: tuple[str, ...]
    more_clashes: int


def set_week_sheet(
    club: Club,
    monday: date,
    works: tuple[DatedWork, ...],
    groups: tuple[GroupWeek, ...],
    clashes: tuple[Clash, ...],
) -> bytes:
    """The week as PDF, in the largest text that keeps it to one page; clashes give way first."""
    days = tuple(monday + timedelta(days=n) for n in range(DAYS_IN_A_WEEK))
    title = f"The week of {full_date(monday)}"
    sheet = WeekSheet(
        heading=_heading(club, title, monday),
        title=title,
        days=tuple(
            PrintedDay(weekday_and_day(day), tuple(_work(w) for w in works if w.day == day))
            for day in days
        ),
        heads=("Squad", *(f"{day:%a}" for day in days), "Week", "Monotony", "Strain"),
        loads=tuple(_loads(group) for group in groups),
        formula=FORMULA,
        clashes=tuple(f"{clash_words(c)} {rule_words(c)}" for c in clashes[:MOST_CLASHES]),
        more_clashes=max(0, len(clashes) - MOST_CLASHES),
    )
    while sheet.clashes and Settled(WEEK_TEMPLATE, sheet).pages(SIZES_PT[-1]) > 1:
        kept = sheet.clashes[: len(sheet.clashes) // 2]
        sheet = replace(sheet, clashes=kept, more_clashes=len(clashes) - len(kept))
    document = Settled(WEEK_TEMPLATE, sheet)
    return document.pdf(largest_size_on(document, SIZES_PT, most_pages=1))


def _work(work: DatedWork) -> PrintedWork:
    said = (work_words(work), ", ".join(work.squads))
    return PrintedWork(hours_words(work), work.name, "; ".join(filter(None, said)), work.is_held)


def _loads(group: GroupWeek) -> tuple[str, ...]:
    summary = group.summary
    return (
        group.name,
        *(load_words(day) for day in group.days),
        f"{summary.load:g}",
        "none" if summary.monotony is None else f"{summary.monotony:.2f}",
        "none" if summary.strain is None else f"{summary.strain:.0f}",
    )


def _heading(club: Club, title: str, monday: date) -> Heading:
    return Heading(
        club=club.name,
        session=title,
        held_on=monday.isoformat(),
        cautions=(CAUTION,),
    )
