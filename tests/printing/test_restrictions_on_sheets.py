"""A restriction follows the athlete to every sheet: what; by whose word and why on one alone."""

from datetime import date
from functools import cache

import pytest

from printing.printed import pypdf_text
from squadwright.demo import demo_club
from squadwright.demo.sessions import BARBELL_SESSION, PLYOMETRIC_SESSION
from squadwright.model.plan import Plan
from squadwright.planning.plan import make_plan
from squadwright.printing.choices import Sheet
from squadwright.printing.sheets import sheet_pdf

MONDAY = date(2026, 3, 2)
# Athlete, what he must not do, by whose word and until when: from the demo club as it is entered.
IN_FORCE = (
    ("Birk Aldervoll", "no overhead (Rutger Vantongerle, until 20 Mar 2026)"),
    ("Lobsang Tsewangpa", "no training (Rutger Vantongerle, until cleared in writing)"),
    ("Lobsang Tsewangpa", "no contact with a partner (Ringside doctor, until 26 Mar 2026)"),
    ("Sami Darwazin '12", "no maximal effort (Head coach, until lifted)"),
)


@cache
def planned(session: str) -> Plan:
    club = demo_club(MONDAY)
    return make_plan(club, club.session(session))


@pytest.mark.parametrize("session", [BARBELL_SESSION, PLYOMETRIC_SESSION])
@pytest.mark.parametrize("sheet", list(Sheet))
def test_what_to_leave_stands_on_every_sheet(session: str, sheet: Sheet) -> None:
    text = pypdf_text(sheet_pdf(planned(session), None, sheet))
    said = [(name, line.partition(" (")[0]) for name, line in IN_FORCE]
    assert [(n, words) for n, words in said if n not in text or words not in text] == []


@pytest.mark.parametrize("session", [BARBELL_SESSION, PLYOMETRIC_SESSION])
@pytest.mark.parametrize("sheet", list(Sheet))
def test_by_whose_word_and_until_when_stands_on_the_coach_s_own_sheet_alone(
    session: str, sheet: Sheet
) -> None:
    text = pypdf_text(sheet_pdf(planned(session), None, sheet))
    if sheet is Sheet.SESSION:
        assert [line for _, line in IN_FORCE if line not in text] == []
    else:
        told = ("Rutger", "Ringside doctor", "Club doctor", "cleared in writing")
        assert [words for words in told if words in text] == []


def test_whoever_is_absent_has_no_line_on_a_sheet_that_is_passed_round() -> None:
    # Ngaire Waipuhia misses Wednesday.
    plan = planned(PLYOMETRIC_SESSION)
    line = next(a for a in plan.attendance if a.athlete == "A14")
    assert line.barred == ("no breath-holding (Club doctor, until cleared in writing)",)
    for sheet in (Sheet.CARDS, Sheet.WALL, Sheet.SET_UP):
        assert "breath-holding" not in pypdf_text(sheet_pdf(plan, None, sheet))


def test_a_card_without_a_restriction_has_no_such_line() -> None:
    plan = planned(BARBELL_SESSION)
    cards = pypdf_text(sheet_pdf(plan, None, Sheet.CARDS))
    barred = [
        what
        for a in plan.attendance
        if a.status != "absent"
        for what in {line.partition(" (")[0] for line in a.barred}
    ]
    assert barred
    assert cards.count("Today:") == len(barred)
