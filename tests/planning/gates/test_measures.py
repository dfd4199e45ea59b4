"""What was measured beside the sessions follows into a plan, and is checked by a second reading.

Borders are those of the table of limits; "memory" and "choice" are marks of that table. The demo
club is invented.
"""

from dataclasses import replace
from datetime import date, timedelta
from typing import Any

import pytest

from squadwright.demo import demo_club
from squadwright.demo.sessions import BARBELL_SESSION
from squadwright.errors import InvalidInput
from squadwright.model.athlete import Athlete
from squadwright.model.club import Club, GateLimit, GateLimits
from squadwright.model.exercise import Demand
from squadwright.model.measured import (
    AroundTraining,
    Measured,
    MorningUrine,
    NextMorning,
    NotForTheScale,
    PainReading,
    WatchedPain,
    WeekTrend,
    both_measured,
)
from squadwright.model.medical import NOTHING_WRITTEN, Medical, MedicalClearance
from squadwright.model.muscles import BodyArea
from squadwright.model.plan import Plan, Severity
from squadwright.model.session import Session
from squadwright.planning.gates.gate import Gate, gate_of
from squadwright.planning.plan import make_plan
from squadwright.planning.verify import verify_plan
from squadwright.units import kilograms

MONDAY = date(2026, 3, 2)
CLUB = demo_club(MONDAY)
WHO = "A01"
AS_PUBLISHED = GateLimits()


def on(day: int) -> date:
    """A day so many days from the Monday."""
    return MONDAY + timedelta(days=day)


def club_with(
    measured: Measured, medical: Medical = NOTHING_WRITTEN, limits: GateLimits = AS_PUBLISHED
) -> tuple[Club, Session, Athlete]:
    """The demo club with what was measured of one athlete."""
    athletes = tuple(
        replace(a, measured=measured, medical=medical) if a.id == WHO else a for a in CLUB.athletes
    )
    club = replace(CLUB, athletes=athletes, gate_limits=limits)
    return club, club.session(BARBELL_SESSION), club.athlete(WHO)


def gate_for(measured: Measured, medical: Medical = NOTHING_WRITTEN, day: int = 0) -> Gate:
    club, session, athlete = club_with(measured, medical)
    return gate_of(club, athlete, replace(session, held_on=on(day)))


def plan_for(measured: Measured, limits: GateLimits = AS_PUBLISHED) -> Plan:
    """The whole plan, checked again by a second reading of what was measured."""
    club, session, _ = club_with(measured, limits=limits)
    plan = make_plan(club, session)
    assert [str(breach) for breach in verify_plan(club, session, plan)] == []
    return plan


def urine(gravity: float, day: int = 0) -> MorningUrine:
    return MorningUrine(f"u{day}", on(day), gravity)


def weighed(before: str, after: str, day: int = 0, drunk_l: float = 0.0) -> AroundTraining:
    return AroundTraining("t", on(day), kilograms(before), kilograms(after), 1.5, drunk_l)


@pytest.mark.parametrize(
    ("gravity", "words", "holds"),
    [(1.020, "", False), (1.021, "significant", False), (1.030, "significant", False),
     (1.0301, "serious", True), (1.031, "serious", True)],
)  # fmt: skip
def test_serious_urine_holds_hard_work_and_significant_urine_warns(
    gravity: float, words: str, *, holds: bool
) -> None:
    """Bands of 1.020 and 1.030 from memory (urine_bands_recalled); a border is still inside."""
    gate = gate_for(Measured(urine=(urine(gravity),)))
    assert [f.severity for f in gate.findings] == ([Severity.WARNING] if words else [])
    assert all(words in f.sentence and "memory" in f.source for f in gate.findings)
    assert bool(gate.bars) is holds
    assert (gate.caps.share_of_rounds < 1) is holds
    if holds:
        assert Demand.MAXIMAL_EFFORT in gate.bars[0].demands
        assert not gate.bars_all_training
        assert gate.caps.why == ("no hard work",)


def test_a_plan_with_hard_work_held_has_half_the_rounds_and_light_loads() -> None:
    held = plan_for(Measured(urine=(urine(1.031),)))
    free = plan_for(Measured())
    mine, usual = (next(d for d in p.doses if d.athlete == WHO) for p in (held, free))
    assert mine.rounds == usual.rounds // 2
    assert mine.load_kg is not None
    assert usual.load_kg is not None
    assert mine.load_kg < usual.load_kg
    assert any(f.athlete == WHO and "serious" in f.sentence for f in held.audit)
    line = next(each for each in held.attendance if each.athlete == WHO)
    assert not any("urine" in words for words in line.barred)


def test_the_next_reading_or_a_written_word_opens_hard_work_again() -> None:
    serious = urine(1.031, -3)
    assert gate_for(Measured(urine=(serious,))).bars
    assert not gate_for(Measured(urine=(serious, urine(1.015, 0)))).bars
    # A later reading that was entered first, and one of the same day: the later one counts.
    assert not gate_for(Measured(urine=(urine(1.015, 0), serious))).bars
    assert gate_for(Measured(urine=(urine(1.015, 0), urine(1.031, 0)))).bars
    word = MedicalClearance("c", "Dr A", "1", on(-2), ("urine",))
    assert not gate_for(Measured(urine=(serious,)), Medical(clearances=(word,))).bars
    old = replace(word, given_on=on(-4))
    assert gate_for(Measured(urine=(serious,)), Medical(clearances=(old,))).bars


def test_a_caution_of_urine_is_told_on_its_morning_alone() -> None:
    measured = Measured(urine=(urine(1.025),))
    assert gate_for(measured).findings
    assert gate_for(measured, day=1).findings == ()
    assert gate_for(measured, day=-1).findings == ()


def test_a_stricter_limit_of_urine_holds_in_the_plan_and_its_second_reading() -> None:
    own = GateLimits((GateLimit("urine, serious", 1.022),))
    plan = plan_for(Measured(urine=(urine(1.025),)), own)
    assert any(f.athlete == WHO and f.source.startswith("coach's setting") for f in plan.audit)


@pytest.mark.parametrize(
    ("before", "after", "told"), [("80.0", "80.0", False), ("80.0", "80.1", True)]
)
def test_who_is_heavier_after_training_is_told_of_that_day_and_the_next(
    before: str, after: str, *, told: bool
) -> None:
    """A gain of mass in exercise is a risk: read (nata_hydration_page)."""
    measured = Measured(training=(weighed(before, after, drunk_l=1.0),))
    for day, counts in ((-1, False), (0, True), (1, True), (2, False)):
        found = gate_for(measured, day=day).findings
        assert bool(found) is (told and counts)
        assert all("medical help at once" in f.advice for f in found)


def test_a_mass_from_nowhere_is_refused_and_exactly_what_was_drunk_is_not() -> None:
    assert weighed("80.0", "80.5", drunk_l=0.5).lost_kg == 0
    with pytest.raises(InvalidInput, match=r"after: 80\.6 kg is 0\.10 kg more than"):
        weighed("80.0", "80.6", drunk_l=0.5)


@pytest.mark.parametrize("hours", [0.0, -1.0, 8.1])
def test_no_time_between_two_weighings_is_refused(hours: float) -> None:
    with pytest.raises(InvalidInput, match="is not more than 0 and at most 8 h"):
        AroundTraining("t", MONDAY, kilograms("80"), kilograms("79"), hours)


@pytest.mark.parametrize("amount", ["19.9", "300.1"])
def test_a_mass_no_athlete_has_is_refused(amount: str) -> None:
    with pytest.raises(InvalidInput, match="is not 20 to 300 kg"):
        weighed(amount, amount)


def watched(*readings: PainReading, area: BodyArea = BodyArea.KNEE, **changes: Any) -> Measured:
    """A left knee that medical staff have him watch since a week before the Monday."""
    pain = WatchedPain("w", on(-7), area, "Dr A", "1", side="left", readings=readings, **changes)
    return Measured(pains=(pain,))


def pain_on(day: int, during: int, **more: Any) -> PainReading:
    return PainReading(on(day), during, **more)


@pytest.mark.parametrize(
    ("reading", "severity", "share", "stops"),
    [
        (pain_on(-1, 2, after=2, next_morning=NextMorning.SAME), None, 1, False),
        (pain_on(-1, 5, after=5, next_morning=NextMorning.SAME), Severity.NOTE, 1, False),
        (pain_on(-1, 1, next_morning=NextMorning.WORSE), Severity.WARNING, 0.5, False),
        (pain_on(-1, 3, week=WeekTrend.RISING), Severity.WARNING, 0.5, False),
        (pain_on(-1, 2, after=6), Severity.STOP, 1, True),
        (pain_on(-1, 6), Severity.STOP, 1, True),
    ],
)
def test_case_23_a_watched_pain_goes_into_the_dose_of_the_next_session(
    reading: PainReading, severity: Severity | None, share: float, *, stops: bool
) -> None:
    """Case 23 and the table of pain: 2 and 5 of 10 from memory (pain_monitoring_recalled)."""
    gate = gate_for(watched(reading))
    assert [f.severity for f in gate.findings] == ([] if severity is None else [severity])
    assert all("left knee" in f.sentence and "memory" in f.source for f in gate.findings)
    assert float(gate.caps.share_of_rounds) == share
    assert gate.caps.why == (("volume taken down",) if share < 1 else ())
    assert gate.bars_all_training is stops


def test_a_plan_takes_volume_down_after_a_worse_morning_and_stops_above_five() -> None:
    worse = plan_for(watched(pain_on(-1, 1, next_morning=NextMorning.WORSE)))
    free = plan_for(Measured())
    mine, usual = (next(d for d in p.doses if d.athlete == WHO) for p in (worse, free))
    assert mine.rounds == usual.rounds // 2
    assert "Volume taken down: 2 rounds." in mine.reason
    assert any(f.athlete == WHO and "up the morning after" in f.sentence for f in worse.audit)
    stopped = plan_for(watched(pain_on(-1, 6)))
    line = next(each for each in stopped.attendance if each.athlete == WHO)
    assert line.status == "not training"
    assert not any("pain" in words for words in line.barred)
    assert not any(d.athlete == WHO for d in stopped.doses)


def test_a_stop_waits_for_medical_staff_and_not_for_a_better_day() -> None:
    stopped = watched(pain_on(-3, 7))
    assert gate_for(stopped).bars_all_training
    word = MedicalClearance("c", "Dr A", "1", on(-2), ("pain under load",))
    assert not gate_for(stopped, Medical(clearances=(word,))).bars
    old = replace(word, given_on=on(-4))
    assert gate_for(stopped, Medical(clearances=(old,))).bars
    again = watched(pain_on(-3, 7), pain_on(-1, 7))
    assert gate_for(again, Medical(clearances=(word,))).bars_all_training


@pytest.mark.parametrize(
    ("area", "not_for", "stops"),
    [
        (BodyArea.KNEE, (NotForTheScale.FRESH_INJURY,), True),
        (BodyArea.KNEE, (NotForTheScale.NERVE,), True),
        (BodyArea.NECK, (), True),
        (BodyArea.KNEE, (), False),
    ],
)
def test_what_the_scale_is_not_for_stops_before_any_reading(
    area: BodyArea, not_for: tuple[NotForTheScale, ...], *, stops: bool
) -> None:
    """Common practice, no source: these go to medical staff before any load."""
    assert gate_for(watched(area=area, not_for=not_for)).bars_all_training is stops
    low = watched(pain_on(-1, 1), area=area, not_for=not_for)
    assert gate_for(low).bars_all_training is stops
    plan_for(low)


def test_nobody_without_a_licence_has_a_pain_watched() -> None:
    with pytest.raises(InvalidInput, match="licence: is not stated"):
        WatchedPain("w", MONDAY, BodyArea.KNEE, "Coach", "none")


def test_two_that_are_one_person_keep_the_readings_of_both_once() -> None:
    one = Measured((weighed("80", "79"),), (urine(1.020),))
    other = Measured((weighed("80", "79"),), (urine(1.031, 1),))
    both = both_measured(one, other)
    assert (len(both.training), len(both.urine)) == (1, 2)
