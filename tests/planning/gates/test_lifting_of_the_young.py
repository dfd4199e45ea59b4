"""Lifting under 18 in a whole plan: who may have a load, and what the plan says of it.

That the young are supervised and learn technique first was read (Lloyd 2014, second hand); the
numbers are from memory. The demo club has one minor of 17 who lifts with a load, A03.
"""

from dataclasses import replace
from datetime import date, timedelta

import pytest

from squadwright.demo import demo_club
from squadwright.demo.sessions import BARBELL_SESSION
from squadwright.library.fitness_tests import fitness_tests
from squadwright.model.athlete import Athlete
from squadwright.model.medical import NOTHING_WRITTEN
from squadwright.model.plan import Basis, Finding, Plan, Severity
from squadwright.model.session import Override, Session
from squadwright.planning.gates.young_lifters import NO_CONSENT, NO_TECHNIQUE, RULE
from squadwright.planning.plan import make_plan
from squadwright.planning.test_day.barred import SUBMAXIMAL, barred_from
from squadwright.planning.verify import verify_plan
from squadwright.units import kilograms

MONDAY = date(2026, 3, 2)
CLUB = demo_club(MONDAY)
WHO = "A03"
SESSION = CLUB.session(BARBELL_SESSION)


def plan_of(*others: Session, session: Session = SESSION, **changes: object) -> Plan:
    """The plan with the minor changed, checked again by a second reading."""
    athletes = tuple(
        replace(a, **changes) if a.id == WHO else a  # type: ignore[arg-type]
        for a in CLUB.athletes
    )
    kept = tuple(each for each in CLUB.sessions if each.id != session.id)
    club = replace(CLUB, athletes=athletes, sessions=(*kept, *others, session))
    plan = make_plan(club, session)
    assert [str(fault) for fault in verify_plan(club, session, plan)] == []
    return plan


def told(plan: Plan) -> list[Finding]:
    return [each for each in plan.audit if each.rule == RULE and each.athlete == WHO]


def is_bare(plan: Plan) -> bool:
    (dose,) = [each for each in plan.doses if each.athlete == WHO and each.load_kg is not None]
    return dose.basis is Basis.TECHNIQUE_BAR


def test_with_everything_in_place_he_lifts_and_nothing_is_told() -> None:
    plan = plan_of()
    assert not is_bare(plan)
    assert told(plan) == []


@pytest.mark.parametrize(
    ("changes", "words"),
    [
        ({"consents": ()}, NO_CONSENT),
        ({"guardian": None}, NO_CONSENT),
        ({"medical": NOTHING_WRITTEN}, NO_TECHNIQUE),
    ],
)
def test_without_consent_or_technique_he_has_no_load_whatever_the_coach_says(
    changes: dict[str, object], words: str
) -> None:
    for overrides in ((), (Override(WHO, "asked for it", load=kilograms("40")),)):
        session = replace(SESSION, overrides=overrides)
        plan = plan_of(session=session, **changes)
        assert is_bare(plan)
        (dose,) = [each for each in plan.doses if each.athlete == WHO and each.load_kg is not None]
        assert words in dose.reason.casefold()
        assert any(words in each.sentence for each in told(plan))


def test_a_session_that_names_nobody_of_the_staff_stops() -> None:
    plan = plan_of(session=replace(SESSION, staff=()))
    (finding,) = told(plan)
    assert finding.severity is Severity.STOP
    assert "names no supervisor" in finding.sentence


def before(days: int, routine: str = SESSION.routine) -> Session:
    like = SESSION if routine == SESSION.routine else CLUB.session("wednesday-plyometric")
    return replace(
        like,
        id=f"before-{days}",
        held_on=MONDAY - timedelta(days=days),
        check_ins=(),
        overrides=(),
    )


def test_days_of_lifting_are_counted_and_a_day_of_jumps_is_none() -> None:
    """More than 3 days of lifting within a week, and a day after one."""
    assert told(plan_of(before(2), before(4))) == []
    (much,) = told(plan_of(before(2), before(4), before(6)))
    assert (much.value, much.limit) == (4.0, 3.0)
    (yesterday,) = told(plan_of(before(1)))
    assert "lifted yesterday" in yesterday.sentence
    assert told(plan_of(before(1, "plyometric"))) == []


def test_a_strength_test_of_a_minor_waits_for_the_growth_check() -> None:
    press = next(t for t in fitness_tests() if t.is_maximal_strength and SUBMAXIMAL in t.methods[1])
    several = press.methods[1]
    ready = CLUB.athlete(WHO)
    assert barred_from(press, ready, MONDAY, method=several) == ()
    assert any("no test of maximal strength" in each for each in barred_from(press, ready, MONDAY))
    seen = ready.medical.technique
    assert seen is not None

    def with_check(on: date | None) -> Athlete:
        technique = replace(seen, growth_checked_on=on)  # type: ignore[type-var]
        return replace(ready, medical=replace(ready.medical, technique=technique))

    for on in (None, MONDAY + timedelta(days=1)):
        (reason,) = barred_from(press, with_check(on), MONDAY, method=several)
        assert reason == "17 years: growth is not checked"
    grown = replace(with_check(None), birth_date=date(2000, 1, 1))
    assert barred_from(press, grown, MONDAY, method=several) == ()
