"""A private limit: what it bars follows the athlete everywhere, and no sentence says why.

That exercise is encouraged, and contact avoided, was read (pregnancy_2020); heat, what may fall and
the signs are from memory.
"""

from dataclasses import replace
from datetime import UTC, date, datetime, timedelta

import pytest

from squadwright.demo import demo_club
from squadwright.demo.sessions import BARBELL_SESSION
from squadwright.errors import InvalidInput
from squadwright.library import exercise
from squadwright.model.athlete import WeightPlan
from squadwright.model.club import Club
from squadwright.model.exercise import Demand
from squadwright.model.medical import Medical, MedicalClearance, PrivateLimit, both_medical
from squadwright.model.plan import Plan, Severity
from squadwright.model.session import HeatReading, Session
from squadwright.planning.gates.competing import barred_from_competing
from squadwright.planning.gates.gate import Gate, gate_of
from squadwright.planning.gates.heat_stop import stops_from_c
from squadwright.planning.gates.private_limit import (
    IN_HEAT,
    NO_PLAN,
    NOTE_WANTED,
    RULE,
    WARNING_SIGNS,
)
from squadwright.planning.plan import make_plan
from squadwright.planning.verify import verify_plan
from squadwright.services.body_mass import mass_of

MONDAY = date(2026, 3, 2)
CLUB = demo_club(MONDAY)
# A woman of the demo club who is of age and has a weigh-in with mass to lose before her.
WHO = "A01"
HELD = PrivateLimit(MONDAY - timedelta(days=3), "Own word")
WORDS_OF_A_REASON = ("pregnan", "midwife", "obstetric", "birth", *WARNING_SIGNS)


def club_with(medical: Medical, who: str = WHO, **changes: object) -> tuple[Club, Session]:
    athletes = tuple(replace(a, medical=medical) if a.id == who else a for a in CLUB.athletes)
    session = replace(CLUB.session(BARBELL_SESSION), **changes)  # type: ignore[arg-type]
    sessions = tuple(session if s.id == session.id else s for s in CLUB.sessions)
    return replace(CLUB, athletes=athletes, sessions=sessions), session


def gate_for(medical: Medical, **changes: object) -> Gate:
    club, session = club_with(medical, **changes)
    return gate_of(club, club.athlete(WHO), session)


def plan_for(medical: Medical, **changes: object) -> Plan:
    """The whole plan, checked again by a second reading of the entries."""
    club, session = club_with(medical, **changes)
    plan = make_plan(club, session)
    assert [str(breach) for breach in verify_plan(club, session, plan)] == []
    return plan


def word(*lifts: str, day: int = -1) -> MedicalClearance:
    return MedicalClearance("w", "Dr Example", "4411", MONDAY + timedelta(days=day), lifts)


def rules_of(gate: Gate) -> dict[str, Severity]:
    return {item.rule: item.severity for item in gate.findings}


def test_nothing_is_said_or_asked_before_it_is_declared() -> None:
    assert gate_for(Medical()).findings == ()
    later = PrivateLimit(MONDAY + timedelta(days=1), "Own word")
    assert gate_for(Medical(private_limit=later)) == gate_for(Medical())


def test_it_bars_contact_and_what_may_fall_in_the_whole_plan() -> None:
    gate = gate_for(Medical(private_limit=HELD))
    assert rules_of(gate) == {RULE: Severity.NOTE, NOTE_WANTED: Severity.WARNING}
    (bar,) = gate.bars
    assert set(bar.demands) == {Demand.CONTACT, Demand.CATCHING, Demand.OVERHEAD}
    plan = plan_for(Medical(private_limit=HELD))
    mine = [exercise(e.exercise) for d in plan.doses if d.athlete == WHO for e in d.exercises]
    assert mine
    assert not any(set(bar.demands) & set(each.demands) for each in mine)
    club, session = club_with(Medical(private_limit=HELD))
    assert barred_from_competing(club.athlete(WHO), session.held_on)


def test_heat_of_the_second_row_keeps_the_athlete_out_and_nobody_else() -> None:
    """27.8 degC is where row 2 of heat_rows_2007 begins; one tenth hotter is in it."""
    used = Medical(is_used_to_heat=True)
    held = replace(used, private_limit=HELD)
    assert not gate_for(used, heat=HeatReading(28.0)).bars_all_training
    hot = gate_for(held, heat=HeatReading(28.0))
    assert hot.bars_all_training
    assert rules_of(hot)[IN_HEAT] is Severity.STOP
    assert not gate_for(held, heat=HeatReading(27.7)).bars_all_training
    club, session = club_with(held)
    assert stops_from_c(club, club.athlete(WHO), session) == 27.8
    assert (
        next(
            line.status
            for line in plan_for(held, heat=HeatReading(28.0)).attendance
            if line.athlete == WHO
        )
        == "not training"
    )


def test_a_plan_to_lose_mass_stops_and_no_rate_is_shown() -> None:
    club, session = club_with(Medical(private_limit=HELD))
    athlete = club.athlete(WHO)
    planned = replace(athlete, weight_plans=(WeightPlan(MONDAY, "with the dietitian"),))
    assert rules_of(gate_of(club, planned, session))[NO_PLAN] is Severity.STOP
    found = mass_of(club, athlete, today=MONDAY)
    assert NO_PLAN in {item.rule for item in found.findings}
    assert found.no_plan == "no plan to lose mass now"
    free = mass_of(CLUB, CLUB.athlete(WHO), today=MONDAY)
    assert free.no_plan == ""
    assert NO_PLAN not in {item.rule for item in free.findings}


def test_a_note_is_wanted_until_a_clearance_names_it() -> None:
    with_note = Medical(private_limit=HELD, clearances=(word(NOTE_WANTED),))
    assert NOTE_WANTED not in rules_of(gate_for(with_note))
    old = Medical(private_limit=HELD, clearances=(word(NOTE_WANTED, day=-40),))
    assert NOTE_WANTED in rules_of(gate_for(old))
    assert gate_for(with_note).bars == gate_for(Medical(private_limit=HELD)).bars


def test_a_sign_stops_all_training_until_a_clearance_given_since() -> None:
    signed = replace(HELD, stopped_on=MONDAY - timedelta(days=1))
    assert gate_for(Medical(private_limit=signed)).bars_all_training
    before = Medical(private_limit=signed, clearances=(word(RULE, day=-2),))
    assert gate_for(before).bars_all_training
    since = Medical(private_limit=signed, clearances=(word(RULE, day=0),))
    assert not gate_for(since).bars_all_training
    assert gate_for(since).bars
    with pytest.raises(InvalidInput, match="is before"):
        replace(HELD, stopped_on=HELD.declared_on - timedelta(days=1))


def test_no_line_of_plan_or_finding_holds_a_reason() -> None:
    signed = replace(HELD, stopped_on=MONDAY - timedelta(days=1))
    texts = []
    for held in (HELD, signed):
        for heat in (None, HeatReading(28.0)):
            entered = Medical(private_limit=held)
            texts.append(str(plan_for(entered, heat=heat)))
            texts.append(str(gate_for(entered, heat=heat)))
    told = [*"\n".join(texts).casefold().splitlines()]
    plain = str(plan_for(Medical())).casefold()
    for each in WORDS_OF_A_REASON:
        if each not in plain:
            assert not any(each in line for line in told), each


def test_two_entries_of_one_person_keep_the_limit() -> None:
    at = datetime(2026, 3, 2, tzinfo=UTC).date()
    held = Medical(private_limit=PrivateLimit(at, "Own word"))
    assert both_medical(Medical(known_disease="heart"), held).private_limit == held.private_limit
