"""The sheets of the demo club, planned in earnest."""

import re
from datetime import date
from functools import cache
from pathlib import Path

import pytest

from printing.overlaps import clashes, words_off_the_page
from printing.printed import pypdf_text, reader
from squadwright.demo import demo_club
from squadwright.model.club import Club
from squadwright.model.plan import Plan
from squadwright.planning.plan import make_plan
from squadwright.printing.choices import PrintedUnit, Sheet
from squadwright.printing.sheets import sheet_pdf
from squadwright.printing.text_view import plan_text

SESSIONS = ("monday-barbell", "wednesday-plyometric")
every_session = pytest.mark.parametrize("session", SESSIONS)
every_sheet = pytest.mark.parametrize("sheet", list(Sheet))


@cache
def planned(session: str) -> tuple[Club, Plan]:
    club = demo_club(date(2026, 3, 2))
    return club, make_plan(club, club.session(session))


@cache
def printed(session: str, sheet: Sheet) -> bytes:
    club, plan = planned(session)
    return sheet_pdf(plan, club, sheet, PrintedUnit.BOTH)


@every_session
@every_sheet
def test_no_word_leaves_the_page_or_stands_on_another(
    poppler: None, session: str, sheet: Sheet
) -> None:
    document = printed(session, sheet)
    assert words_off_the_page(document) == []
    assert clashes(document) == []


@every_session
@pytest.mark.parametrize("sheet", [Sheet.SESSION, Sheet.SET_UP])
def test_the_coachs_sheets_take_two_pages_at_most(session: str, sheet: Sheet) -> None:
    assert len(reader(printed(session, sheet)).pages) <= 2


@every_session
@pytest.mark.parametrize("sheet", [Sheet.CARDS, Sheet.WALL])
def test_no_reason_of_a_restriction_is_on_a_card_or_on_the_wall(session: str, sheet: Sheet) -> None:
    club, _ = planned(session)
    reasons = {r.reason.casefold() for a in club.athletes for r in a.restrictions if r.reason}
    assert reasons
    # "twists the low back only" is a fault to watch, not a reason
    faults = {
        fault.casefold()
        for dose in planned(session)[1].doses
        for exercise in dose.exercises
        for fault in exercise.faults
    }
    text = pypdf_text(printed(session, sheet)).casefold()
    for fault in faults:
        text = text.replace(fault, "")
    assert [reason for reason in reasons if reason in text] == []


@every_session
@pytest.mark.parametrize("sheet", [Sheet.CARDS, Sheet.WALL])
def test_no_body_mass_is_on_a_card_or_on_the_wall(session: str, sheet: Sheet) -> None:
    club, _ = planned(session)
    text = pypdf_text(printed(session, sheet))
    readings = {str(m.reading) for a in club.athletes for m in a.body_mass}
    assert readings
    assert [reading for reading in readings if f" {reading} " in text] == []


@every_session
@every_sheet
def test_every_caution_of_the_plan_is_on_every_sheet(session: str, sheet: Sheet) -> None:
    text = pypdf_text(printed(session, sheet))
    _, plan = planned(session)
    assert plan.cautions
    assert [caution for caution in plan.cautions if caution not in text] == []


@every_session
@pytest.mark.parametrize("width", [80, 120])
def test_the_text_view_fits_the_terminal(session: str, width: int) -> None:
    club, plan = planned(session)
    lines = plan_text(plan, width=width, colour=False, club=club).splitlines()
    assert max(len(line) for line in lines) <= width


def test_the_first_screen_of_the_project_shows_what_is_printed() -> None:
    readme = (Path(__file__).parents[2] / "README.md").read_text(encoding="utf-8")
    shown = re.findall(r"^```text\n(  Bar  Wave .*?)^```$", readme, re.MULTILINE | re.DOTALL)
    assert len(shown) == 1
    club, plan = planned("monday-barbell")
    printed = plan_text(plan, width=100, colour=False, club=club)
    head, _, athletes = shown[0].partition("\n")
    assert f"\n{head}\n" in printed
    assert f"\n{athletes}" in printed


def test_the_tutorial_reads_the_plan_in_the_order_it_is_printed() -> None:
    tutorial = Path(__file__).parents[2] / "docs" / "tutorial" / "first-session.md"
    parts = re.findall(r"^\d\. \*\*(.+?)\.\*\*", tutorial.read_text(encoding="utf-8"), re.M)
    printed = plan_text(planned("monday-barbell")[1], width=100, colour=False)
    heads = re.findall(r"^[A-Z]{3}[A-Z ]+", printed, re.MULTILINE)
    assert [part.upper() for part in parts] == [head.strip() for head in heads]


def test_two_athletes_of_one_name_are_told_apart_on_every_sheet() -> None:
    text = pypdf_text(printed("wednesday-plyometric", Sheet.CARDS))
    assert text.count("Sami Darwazin '01") == 1
    assert text.count("Sami Darwazin '12") == 1
