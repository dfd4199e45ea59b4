"""The first weeks name the signs of an emergency, in the plan and on the card of the athlete.

That unaccustomed hard work breaks down muscle was read; the signs, and for how many weeks, are from
memory.
"""

from dataclasses import replace
from datetime import date, timedelta

import pytest

from printing.printed import pypdf_text
from squadwright.demo import demo_club
from squadwright.demo.sessions import BARBELL_SESSION
from squadwright.model.club import Club
from squadwright.model.medical import FirstWeeks, Medical
from squadwright.model.plan import Severity
from squadwright.planning.gates.first_weeks import RED_FLAGS, SIGNS
from squadwright.planning.gates.gate import gate_of
from squadwright.planning.plan import make_plan
from squadwright.printing.choices import Sheet
from squadwright.printing.sheets import sheet_pdf

MONDAY = date(2026, 3, 2)
WHO = "A01"


def club_of(weeks: FirstWeeks | None) -> Club:
    club = demo_club(MONDAY)
    medical = Medical(first_weeks=weeks)
    return replace(
        club,
        athletes=tuple(replace(a, medical=medical) if a.id == WHO else a for a in club.athletes),
    )


@pytest.mark.parametrize(
    ("week", "new", "told"),
    [
        (1, True, True),
        (4, True, True),
        (5, True, False),
        (2, False, True),
        (3, False, False),
        (0, True, False),
    ],
)
def test_they_are_told_in_each_week_of_less_and_not_after(
    week: int, *, new: bool, told: bool
) -> None:
    club = club_of(FirstWeeks(MONDAY - timedelta(days=7 * (week - 1)), is_newcomer=new))
    findings = gate_of(club, club.athlete(WHO), club.session(BARBELL_SESSION)).findings
    said = [each for each in findings if each.rule == SIGNS]
    assert len(said) == int(told)
    for each in said:
        assert each.severity is Severity.NOTE
        assert all(flag in each.advice for flag in RED_FLAGS)
        assert each.advice.endswith("emergency care at once.")


def test_they_stand_on_the_card_of_that_athlete_alone_and_on_the_session_sheet() -> None:
    def printed(weeks: FirstWeeks | None, sheet: Sheet) -> str:
        club = club_of(weeks)
        return pypdf_text(sheet_pdf(make_plan(club, club.session(BARBELL_SESSION)), None, sheet))

    assert printed(FirstWeeks(MONDAY), Sheet.CARDS).count("dark urine") == 1
    assert "emergency care" in printed(FirstWeeks(MONDAY), Sheet.SESSION)
    assert "dark urine" not in printed(None, Sheet.CARDS)
