"""Pain told at the door, as the plan tells it: what medical staff see first, and what is swapped.

From 3 of 10 an exercise is swapped and from 6 on medical staff see it: the coach's defaults, not
published. Head pain at any score and neck pain from 3 bar all training (our choice, the stricter).
"""

from dataclasses import replace
from datetime import date

import pytest

from squadwright.demo import demo_club
from squadwright.demo.sessions import BARBELL_SESSION
from squadwright.model.muscles import BodyArea
from squadwright.model.plan import Finding, Severity
from squadwright.model.session import CheckIn, Pain
from squadwright.planning.audit.people import PAIN_RULE
from squadwright.planning.plan import make_plan

MONDAY = date(2026, 3, 2)
WHO = "A01"


def found(pain: Pain) -> list[Finding]:
    club = demo_club(MONDAY)
    old = club.session(BARBELL_SESSION)
    others = tuple(each for each in old.check_ins if each.athlete != WHO)
    session = replace(old, check_ins=(*others, CheckIn(WHO, pains=(pain,))))
    sessions = tuple(session if s.id == session.id else s for s in club.sessions)
    plan = make_plan(replace(club, sessions=sessions), session)
    return [each for each in plan.audit if each.rule == PAIN_RULE and each.athlete == WHO]


@pytest.mark.parametrize(
    ("area", "score", "limit", "advice"),
    [
        (BodyArea.HEAD, 1, 1, "No training today"),
        (BodyArea.NECK, 3, 3, "No training today"),
        (BodyArea.KNEE, 6, 6, "No loading of that half"),
    ],
)
def test_what_medical_staff_see_first_stops(
    area: BodyArea, score: int, limit: int, advice: str
) -> None:
    (told,) = found(Pain(area, score))
    assert told.severity is Severity.STOP
    assert told.limit == limit
    assert told.advice.startswith(advice)
    assert "medical staff" in told.advice


def test_less_pain_is_swapped_and_little_is_not_told() -> None:
    (told,) = found(Pain(BodyArea.KNEE, 5))
    assert told.severity is Severity.WARNING
    assert found(Pain(BodyArea.KNEE, 2)) == []
    assert found(Pain(BodyArea.NECK, 2)) == []
