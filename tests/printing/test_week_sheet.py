"""The week on one page, and with the season as a workbook that other programs read."""

import io
from dataclasses import replace
from datetime import date, time, timedelta
from typing import Any

import openpyxl
import pytest

from printing.overlaps import clashes, words_off_the_page
from printing.printed import flat, pypdf_text, reader
from squadwright.camp.weeks_ahead import weeks_ahead
from squadwright.demo import demo_club
from squadwright.exchange.week_xlsx import week_workbook
from squadwright.model.calendar import BodyRegion, Work
from squadwright.model.club import Club, Weekday, WeekSlot
from squadwright.printing.week_sheet import set_week_sheet
from squadwright.services.camp_week import WeekView, week_view

MONDAY = date(2026, 3, 2)
DEMO = demo_club(MONDAY)


def seen(club: Club, day: date = MONDAY) -> WeekView:
    return week_view(club, day, today=MONDAY)


def week_pdf(view: WeekView) -> bytes:
    found = tuple(choices.clash for choices in view.choices)
    return set_week_sheet(view.club, view.monday, view.works, view.squads, found)


def crowded() -> Club:
    """Five slots with long names on each day of the week, for eight squads."""
    squads = tuple(f"Squad with a long name {n}" for n in range(8))
    slots = tuple(
        WeekSlot(
            f"{day} {n}",
            f"Wrestling from the par terre position, group {n}",
            day,
            time(7 + 3 * n),
            time(9 + 3 * n),
            "live",
            squads=squads[n : n + 3],
            work=Work.LIVE,
            planned_effort=8,
            regions=tuple(BodyRegion),
        )
        for day in Weekday
        for n in range(5)
    )
    athletes = tuple(replace(a, squad=squads[n % 8]) for n, a in enumerate(DEMO.athletes))
    return replace(DEMO, squads=squads, week=slots, athletes=athletes, sessions=())


@pytest.mark.parametrize("club", [DEMO, crowded()], ids=["demo", "crowded"])
def test_the_week_stays_on_one_page_that_can_be_read(club: Club) -> None:
    document = week_pdf(seen(club))
    assert len(reader(document).pages) == 1
    assert words_off_the_page(document) == []
    assert clashes(document) == []


def test_the_printed_week_holds_what_the_page_shows() -> None:
    text = flat(pypdf_text(week_pdf(seen(DEMO))))
    assert "The week of Monday 2 March 2026" in text
    assert "effort 8 x 90 min = 720 AU, hard" in text
    assert "MMA sparring starts 11 h 15 min later" in text
    assert "Medical staff, local rules and licensed practice come first" in text
    lost = flat(pypdf_text(week_pdf(seen(DEMO, MONDAY + timedelta(days=28)))))
    assert "lost: floor varnish" in lost


def book_of(club: Club) -> Any:
    view = seen(club)
    found = [choices.clash for choices in view.choices]
    data = week_workbook(club, view.works, view.squads, found, weeks_ahead(club, MONDAY, 12))
    return openpyxl.load_workbook(io.BytesIO(data))


def test_the_workbook_holds_numbers_days_and_clock_times() -> None:
    book = book_of(DEMO)
    assert book.sheetnames == ["Week", "Load", "Clashes", "Season"]
    rows = list(book["Week"].iter_rows(min_row=2, values_only=True))
    sparring = next(row for row in rows if row[3] == "MMA sparring")
    assert sparring[0].date() == date(2026, 3, 3)
    assert sparring[1:3] == (time(19), time(20, 30))
    assert sparring[5:8] == (8, 90, 720)
    cage = next(r for r in book["Load"].iter_rows(values_only=True) if r[0] == "Cage")
    assert sum(cage[1:8]) == cage[8] == 2975
    assert cage[10] == pytest.approx(cage[8] * cage[9])
    season = list(book["Season"].iter_rows(min_row=2, values_only=True))
    assert len(season) == 12
    assert season[4][5:] == (0, 0, 0, 0)


def test_a_name_that_begins_like_a_formula_stays_a_name() -> None:
    first, *rest = DEMO.week
    club = replace(DEMO, week=(replace(first, name='=HYPERLINK("x")'), *rest), sessions=())
    cells = [c for row in book_of(club)["Week"].iter_rows() for c in row]
    (named,) = [c for c in cells if c.value == '=HYPERLINK("x")']
    assert named.data_type == "s"
