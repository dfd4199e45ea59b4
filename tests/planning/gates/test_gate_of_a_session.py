"""What the one gate of a session finds, bars and takes off, each entry at its limits.

The day is 2 March 2026, the session begins at 18:00.
"""

from dataclasses import replace
from datetime import UTC, date, datetime, timedelta
from decimal import Decimal
from typing import Any

import pytest

from planning.verify.sound_plan import CLUB, SESSION, TODAY, person
from squadwright.model.athlete import Athlete, Consent, Event, Guardian, Level, WeightPlan
from squadwright.model.measured import (
    AroundTraining,
    EnergyDay,
    Measured,
    MorningUrine,
    NextMorning,
    PainReading,
    WatchedPain,
)
from squadwright.model.medical import (
    FirstWeeks,
    HeadKnock,
    Medical,
    MedicalClearance,
    ReturnStage,
    Suspension,
    SymptomsTold,
    TechniqueSeen,
)
from squadwright.model.muscles import BodyArea
from squadwright.model.plan import Severity
from squadwright.model.session import HeatReading
from squadwright.planning.gates.competing import barred_from_competing, may_meet_a_partner
from squadwright.planning.gates.concussion import CLEARS_CONTACT
from squadwright.planning.gates.gate import Caps, gate_of
from squadwright.units import kilograms

NOTE, WARNING, STOP = Severity.NOTE, Severity.WARNING, Severity.STOP
NOON = datetime(2026, 3, 2, 12, tzinfo=UTC)


def days(count: int) -> date:
    return TODAY + timedelta(days=count)


def who(written: Medical | None = None, **facts: Any) -> Athlete:
    return replace(person("A1"), medical=written or Medical(), **facts)


def told(he: Athlete, heat_c: float | None = None) -> list[tuple[str, Severity]]:
    session = SESSION if heat_c is None else replace(SESSION, heat=HeatReading(heat_c))
    return [(each.rule, each.severity) for each in gate_of(CLUB, he, session).findings]


def caps(he: Athlete, heat_c: float | None = None) -> Caps:
    session = SESSION if heat_c is None else replace(SESSION, heat=HeatReading(heat_c))
    return gate_of(CLUB, he, session).caps


def clearance(*lifts: str, given: int = 0) -> MedicalClearance:
    return MedicalClearance("c", "Dr Fell", "L 1", days(given), lifts)


def on_step(step: int, *, cleared: bool = False, out: bool = False, **more: Any) -> Medical:
    """A knock of ten days ago, with a step that began yesterday at noon."""
    stage = ReturnStage(step, NOON - timedelta(days=1), "Dr Fell", "L 1", no_training=out)
    knock = HeadKnock("k", NOON - timedelta(days=10), "Dr Fell", stages=(stage,), **more)
    return Medical((knock,), clearances=(clearance(CLEARS_CONTACT),) if cleared else ())


RETURN = "return after a head knock"
LIGHT = Decimal("0.50")


@pytest.mark.parametrize(
    ("written", "found", "most"),
    [
        (on_step(1), [], LIGHT),
        (on_step(2), [(RETURN, WARNING)], LIGHT),
        (on_step(2, out=True), [], LIGHT),
        (on_step(3), [(RETURN, WARNING)], LIGHT),
        # A step from 4 on without a clearance: step 3 holds, and that is told.
        (on_step(4), [(RETURN, STOP)], LIGHT),
        (on_step(4, cleared=True), [(RETURN, WARNING)], None),
        (on_step(5), [(RETURN, STOP)], LIGHT),
        (on_step(5, cleared=True), [], None),
        (on_step(6, cleared=True), [], None),
    ],
)
def test_a_step_of_the_return(
    written: Medical, found: list[tuple[str, Severity]], most: Decimal | None
) -> None:
    assert told(who(written)) == found
    assert caps(who(written)).share_of_maximum == most
    assert ("light loads only" in caps(who(written)).why) == (most is not None)


def test_symptoms_that_last_are_told_until_the_last_step() -> None:
    # Told fifteen days after the knock; two weeks are usual.
    began, knocked = NOON - timedelta(days=1), NOON - timedelta(days=20)
    last = SymptomsTold(knocked + timedelta(days=15), 1, 5)
    short = SymptomsTold(knocked + timedelta(days=14), 1, 5)
    lasting = ("symptoms after a concussion last", WARNING)
    for step, symptoms, is_told in ((2, last, True), (2, short, False), (6, last, False)):
        stage = ReturnStage(step, began, "Dr Fell", "L 1")
        knock = HeadKnock("k", knocked, "Dr Fell", stages=(stage,), symptoms=(symptoms,))
        # A clearance given since the symptoms.
        written = Medical((knock,), clearances=(clearance(CLEARS_CONTACT),))
        assert (lasting in told(who(written))) == is_told


@pytest.mark.parametrize(
    ("last", "is_told"), [(0, False), (-1, True), (-14, True), (-15, False), (3, False)]
)
def test_a_suspension_that_ended_is_told_for_two_weeks(last: int, is_told: bool) -> None:
    held = Suspension("s", "Board", "as written", days(last), days(last))
    assert (("suspension ended", NOTE) in told(who(Medical(suspensions=(held,))))) == is_told


def test_an_open_suspension_never_ends_by_itself() -> None:
    held = Suspension("s", "Board", "as written", days(-5), days(-5), ("scan",), is_open=True)
    assert told(who(Medical(suspensions=(held,)))) == []
    cleared = Medical(suspensions=(held,), clearances=(clearance("scan"),))
    assert told(who(cleared)) == [("suspension ended", NOTE)]


def losing(written: int = 0, weighs: int = 9, limit: bool = True, refused: bool = False) -> Athlete:
    plan = WeightPlan(days(written), "as typed", refused=("no",) if refused else ())
    mass = kilograms(60) if limit else None
    event = Event("e", "Meet", days(weighs), mass_limit=mass)
    return who(weight_plans=(plan,), events=(event,))


@pytest.mark.parametrize(
    ("he", "heat_c", "is_told"),
    [
        (losing(), 27.8, True),
        (losing(), 27.7, False),
        (losing(1), 27.8, False),
        (losing(weighs=0), 27.8, True),
        (losing(weighs=-1), 27.8, False),
        (losing(limit=False), 27.8, False),
        (losing(refused=True), 27.8, False),
        (who(), 27.8, False),
    ],
)
def test_nobody_loses_mass_in_heat(he: Athlete, heat_c: float, is_told: bool) -> None:
    found = told(he, heat_c)
    assert (("loss of mass in heat", STOP) in found) == is_told
    bars = gate_of(CLUB, he, replace(SESSION, heat=HeatReading(heat_c))).bars
    assert [bar.all_training for bar in bars] == ([True] if is_told else [])


def test_heat_halves_the_rounds_where_it_is_a_warning_and_not_where_it_is_a_note() -> None:
    used = who(Medical(is_used_to_heat=True))
    assert caps(used, 27.8).share_of_rounds == 1
    assert caps(used, 30.1) == Caps(Decimal("0.5"), why=("heat, half of the rounds",))
    new = who(Medical(first_weeks=FirstWeeks(days(-7))))
    assert caps(new).why == ("first weeks, 70% of the rounds",)
    assert caps(new, 28.0).share_of_rounds == Decimal("0.5")
    later = who(Medical(first_weeks=FirstWeeks(days(1))))
    assert caps(later) == Caps()
    done = who(Medical(first_weeks=FirstWeeks(days(-28))))
    assert caps(done) == Caps()


def test_shares_of_the_most_for_the_young() -> None:
    guardian, consent = Guardian("Eva", "mother"), Consent("lifting", "Eva", TODAY)
    seen = Medical(technique=TechniqueSeen(TODAY, "Coach"))
    facts = {"birth_date": date(2008, 3, 3), "guardian": guardian, "consents": (consent,)}
    for level, share in ((Level.NOVICE, "0.60"), (Level.INTERMEDIATE, "0.80")):
        assert caps(who(seen, level=level, **facts)) == Caps(Decimal(1), Decimal(share))
    grown = facts | {"birth_date": date(2008, 3, 2)}
    assert caps(who(seen, **grown)) == Caps()
    assert "technique" in caps(who(**facts)).no_load
    assert "consent" in caps(who(seen, **(facts | {"consents": ()}))).no_load
    # On the way back the smaller of the two shares holds.
    back = replace(on_step(2), technique=TechniqueSeen(TODAY, "Coach"))
    assert caps(who(back, **facts)).share_of_maximum == LIGHT


def measured(**found: Any) -> Athlete:
    return who(measured=Measured(**found))


def weighed(day: int, before: str, after: str) -> AroundTraining:
    return AroundTraining("t", days(day), kilograms(before), kilograms(after), 1.5, drunk_l=2.0)


@pytest.mark.parametrize(
    ("he", "found"),
    [
        # A gain in training is told on the day and the day after.
        (measured(training=(weighed(0, "70", "70.1"),)), [("heavier after training", WARNING)]),
        (measured(training=(weighed(-1, "70", "70.1"),)), [("heavier after training", WARNING)]),
        (measured(training=(weighed(-2, "70", "70.1"),)), []),
        (measured(training=(weighed(1, "70", "70.1"),)), []),
        (measured(training=(weighed(0, "70", "70"),)), []),
        # Urine that only asks for care is told on its day, a serious one until it is lifted.
        (measured(urine=(MorningUrine("u", days(0), 1.021),)), [("urine", WARNING)]),
        (measured(urine=(MorningUrine("u", days(-1), 1.021),)), []),
        (measured(urine=(MorningUrine("u", days(-1), 1.031),)), [("urine", WARNING)]),
        (measured(urine=(MorningUrine("u", days(0), 1.02),)), []),
    ],
)
def test_what_was_measured_is_told(he: Athlete, found: list[tuple[str, Severity]]) -> None:
    assert told(he) == found


def pain(during: int, **more: Any) -> Athlete:
    reading = PainReading(TODAY, during, **more)
    watched = WatchedPain("p", days(-9), BodyArea.KNEE, "Dr Fell", "L 1", "left", (), (reading,))
    return measured(pains=(watched,))


@pytest.mark.parametrize(
    ("he", "worth", "share"),
    [
        (pain(2), None, 1),
        (pain(3), NOTE, 1),
        (pain(2, after=3), NOTE, 1),
        (pain(5), NOTE, 1),
        (pain(6), STOP, 1),
        (pain(2, next_morning=NextMorning.WORSE), WARNING, Decimal("0.5")),
    ],
)
def test_a_watched_pain_is_told_by_what_becomes_of_the_load(
    he: Athlete, worth: Severity | None, share: Decimal
) -> None:
    assert [severity for _, severity in told(he)] == ([] if worth is None else [worth])
    assert caps(he).share_of_rounds == share


def energy(intake: float, *, day: int = 0, **foods: float) -> EnergyDay:
    """500 kcal of exercise and 50 kg without fat: 2750 kcal are 45 for each, 2000 are 30."""
    return EnergyDay("e", days(day), intake, 500.0, kilograms(50), "Dr Fell", "L 1", **foods)


@pytest.mark.parametrize(
    ("he", "worth"),
    [
        (measured(energy=(energy(2750.0),)), None),
        (measured(energy=(energy(2749.0),)), NOTE),
        (measured(energy=(energy(2000.0),)), NOTE),
        (measured(energy=(energy(1999.0),)), WARNING),
        (measured(energy=(energy(1999.0, day=1),)), None),
        (measured(energy=(energy(2750.0, body_mass=kilograms(70), protein_g=84.0),)), None),
        (measured(energy=(energy(2750.0, body_mass=kilograms(70), protein_g=83.0),)), WARNING),
    ],
)
def test_of_energy_only_that_medical_staff_want_to_see_him_is_told(
    he: Athlete, worth: Severity | None
) -> None:
    assert told(he) == ([] if worth is None else [("status from medical staff", worth)])
    lifted = replace(he, medical=Medical(clearances=(clearance("energy availability"),)))
    assert told(lifted) == []


def test_who_may_meet_a_partner_and_compete() -> None:
    assert may_meet_a_partner(who(), TODAY)
    assert barred_from_competing(who(), TODAY) == ""
    for written, partner, competes in (
        (on_step(4, cleared=True), False, False),
        (on_step(5, cleared=True), True, True),
        (Medical(suspensions=(Suspension("s", "Board", "r", days(0), None),)), False, False),
        (Medical(suspensions=(Suspension("s", "Board", "r", days(-1), days(0)),)), True, False),
        (Medical(suspensions=(Suspension("s", "Board", "r", days(-1), days(-1)),)), True, True),
        (
            Medical(suspensions=(Suspension("s", "Board", "r", days(9), None, starts_on=days(1)),)),
            True,
            True,
        ),
    ):
        he = who(written)
        assert may_meet_a_partner(he, TODAY) == partner
        assert (barred_from_competing(he, TODAY) == "") == competes
