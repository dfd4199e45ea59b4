"""Body mass towards the weigh-in: the view of one athlete, texts, plans that were written down.

Rates of the demo club are those printed in the table it was invented with, arithmetic from mass,
limit and days; nothing of it is published. Gate limits are named in the tests of the gates.
"""

from dataclasses import replace
from datetime import UTC, date, datetime, time, timedelta

import pytest

from squadwright.demo import demo_club
from squadwright.demo.sessions import BARBELL_SESSION
from squadwright.errors import InvalidInput
from squadwright.library.weigh_ins import limit_in_force, verdict_on_scale
from squadwright.model.athlete import Athlete, Event, MassReading
from squadwright.model.club import GateLimit, GateLimits
from squadwright.model.event_weigh_in import EventWeighIn
from squadwright.model.medical import MedicalClearance
from squadwright.model.plan import Severity
from squadwright.planning.gates import mass
from squadwright.planning.gates.means import RULE as MEANS
from squadwright.planning.gates.reference import NEVER_LIFTED
from squadwright.planning.plan import make_plan
from squadwright.planning.verify.check import verify_plan
from squadwright.services.body_mass import MassOf, mass_of, show_mass, who_weighs_in
from squadwright.services.body_mass_text import (
    clinician_text,
    coach_text,
    expected_text,
    scale_text,
)
from squadwright.services.club_changes import fingerprint
from squadwright.services.clubs import load_club
from squadwright.services.medical import enter_clearance
from squadwright.services.squad_entries import change_entry
from squadwright.services.weigh_in import set_weigh_in, shown_of
from squadwright.services.weight_plans import write_weight_plan
from squadwright.storage.keeper import SqlKeeper
from squadwright.units import Mass, kilograms
from squadwright.words import mass_in_both

MONDAY = date(2026, 3, 2)
CLUB = demo_club(MONDAY)
# The week of readings worked out by hand and by three statistics libraries.
WEEK_KG = ("80.4", "80.1", "80.3", "79.8", "79.9", "79.6", "79.5")


def seen(athlete: Athlete, today: date = MONDAY) -> MassOf:
    others = tuple(athlete if a.id == athlete.id else a for a in CLUB.athletes)
    return mass_of(replace(CLUB, athletes=others), athlete, today=today)


def weighing(athlete_id: str, kg: str, day: date = MONDAY) -> Athlete:
    athlete = CLUB.athlete(athlete_id)
    return replace(athlete, body_mass=(MassReading(kilograms(kg), day),))


def rules_of(found: MassOf) -> dict[str, Severity]:
    return {item.rule: item.severity for item in found.findings}


@pytest.mark.parametrize(
    ("athlete", "percent", "weekly"),
    [
        ("A01", 5.0, 1.06),
        ("A02", 2.1, 1.23),
        ("A04", 3.5, 1.31),
        ("A06", 7.8, 1.36),
        ("A10", 5.8, 0.60),
        ("A11", 4.9, 0.73),
        ("A13", 2.1, 2.42),
        ("A14", 2.1, 0.37),
    ],
)
def test_rates_are_those_of_the_table_of_the_demo_club(
    athlete: str, percent: float, weekly: float
) -> None:
    loss = mass_of(CLUB, CLUB.athlete(athlete), today=MONDAY).coming[0].loss
    assert loss is not None
    assert float(loss.percent) == pytest.approx(percent, abs=0.05)
    assert float(loss.weekly_percent) == pytest.approx(weekly, abs=0.005)


def test_only_the_one_above_the_weekly_limit_is_stopped() -> None:
    stopped = {a.id for a in CLUB.athletes if mass_of(CLUB, a, today=MONDAY).is_stopped}
    # A03 is 17 and above her limit: that is no rate, and no plan either.
    assert stopped == {"A03", "A13"}


def test_the_coach_and_medical_staff_get_a_text_each() -> None:
    found = mass_of(CLUB, CLUB.athlete("A13"), today=MONDAY)
    said = coach_text(found)
    assert "1.8 kg over, 2.1 % of the mass of today: 2.42 % a week for 6 days." in said
    assert "no work is added" in said
    assert "Refer to medical staff" in said
    assert "86.8 kg (191.4 lb)" in clinician_text(found)
    assert "proposes no way to lose mass" in said


def test_a_reading_in_pounds_stays_in_pounds_and_shows_kilograms() -> None:
    # 184 lb x 0.45359237 = 83.461 kg; 86.8 kg / 0.45359237 = 191.361 lb.
    assert mass_in_both(Mass.parse("184 lb")) == "184 lb (83.5 kg)"
    assert mass_in_both(Mass.parse("86.8 kg")) == "86.8 kg (191.4 lb)"
    readings = mass_of(CLUB, CLUB.athlete("A06"), today=MONDAY).readings
    assert [str(r.reading) for r in readings] == ["83.6 kg", "184 lb"]


def test_a_minor_has_no_rate_and_no_plan() -> None:
    found = mass_of(CLUB, CLUB.athlete("A03"), today=MONDAY)
    assert rules_of(found) == {mass.MINOR: Severity.STOP}
    assert "% a week" not in coach_text(found)
    assert "limit" not in coach_text(found)


def test_the_trend_is_that_of_the_published_week_with_its_interval() -> None:
    """-1.025 kg a week by hand; 0.067589 kg a day half a width by a statistics library."""
    readings = tuple(
        MassReading(kilograms(kg), MONDAY - timedelta(days=6 - n)) for n, kg in enumerate(WEEK_KG)
    )
    found = seen(replace(CLUB.athlete("A08"), body_mass=readings))
    assert found.trend is not None
    assert 7 * (found.trend.slope_kg_a_day or 0) == pytest.approx(-1.025, abs=0.0005)
    assert found.trend.half_width_kg_a_day == pytest.approx(0.067589, abs=5e-7)
    # 1.2822 % of the mean a week is more than 1.0 and not more than 1.5.
    assert rules_of(found) == {mass.WEEKLY: Severity.WARNING}
    assert "kg a week, -1.3 % of the mean, between -1.50 and -0.55 (95 %)" in coach_text(found)


def test_where_the_trend_leads_by_the_weigh_in_is_told_with_its_interval() -> None:
    """Day 20 of the week: 77.454 kg, 76.243 to 78.665 by a statistics library (statsmodels)."""
    readings = tuple(
        MassReading(kilograms(kg), MONDAY - timedelta(days=6 - n)) for n, kg in enumerate(WEEK_KG)
    )
    event = replace(CLUB.athlete("A13").events[0], starts_on=MONDAY + timedelta(days=14))
    event = replace(event, weigh_in=None, mass_limit=kilograms("79"))
    found = seen(replace(CLUB.athlete("A08"), body_mass=readings, events=(event,)))
    said = expected_text(found, found.coming[0])
    assert "77.5 kg on 16 Mar 2026 if the line goes on, between 76.2 and 78.7 (95 %)" in said
    # 79.503571 kg today, 0.503571 kg above, 0.146429 kg a day: 3.44 days, so the fourth.
    assert "at the limit: 6 Mar 2026." in said
    flat = replace(CLUB.athlete("A08"), body_mass=readings[::-1], events=(event,))
    assert expected_text(seen(flat), found.coming[0]) == said


def test_readings_of_before_the_window_do_not_bend_the_trend() -> None:
    old = MassReading(kilograms("95"), MONDAY - timedelta(days=28))
    new = tuple(MassReading(kilograms("80"), MONDAY - timedelta(days=days)) for days in (27, 14, 0))
    found = seen(replace(CLUB.athlete("A08"), body_mass=(old, *new)))
    assert found.trend is not None
    assert found.trend.slope_kg_a_day == pytest.approx(0)
    assert len(found.readings) == 4


def test_three_days_before_a_weigh_in_of_the_same_day_is_judged_by_it() -> None:
    """A choice of the program: caution above 2 %, refer above 3 % of the mass of today."""
    day = MONDAY + timedelta(days=3)
    assert rules_of(seen(weighing("A13", "86.8", day), day))[mass.SAME_DAY] is Severity.WARNING
    assert rules_of(seen(weighing("A13", "87.7", day), day))[mass.SAME_DAY] is Severity.STOP
    assert mass.SAME_DAY not in rules_of(seen(weighing("A13", "86.7", day), day))


def test_far_above_the_class_and_a_low_morning_are_told() -> None:
    assert mass.OUT_OF_CAMP in rules_of(seen(weighing("A14", "79.4")))
    week = tuple(MassReading(kilograms("80"), MONDAY - timedelta(days=n)) for n in (1, 2, 3))
    low = replace(CLUB.athlete("A08"), body_mass=(*week, MassReading(kilograms("77.5"), MONDAY)))
    assert rules_of(seen(low))[mass.MORNING] is Severity.STOP


def test_a_stricter_limit_is_taken_and_a_looser_one_refused() -> None:
    strict = replace(CLUB, gate_limits=GateLimits((GateLimit("weekly loss, stop", 1.2),)))
    athlete = CLUB.athlete("A02")
    assert rules_of(mass_of(strict, athlete, today=MONDAY)) == {mass.WEEKLY: Severity.STOP}
    assert rules_of(mass_of(CLUB, athlete, today=MONDAY)) == {mass.WEEKLY: Severity.WARNING}
    loose = replace(CLUB, gate_limits=GateLimits((GateLimit("weekly loss, stop", 1.6),)))
    with pytest.raises(InvalidInput, match="is looser than"):
        mass_of(loose, athlete, today=MONDAY)


def test_a_stricter_limit_takes_rounds_off_as_well() -> None:
    strict = replace(CLUB, gate_limits=GateLimits((GateLimit("weekly loss, stop", 1.2),)))
    session = CLUB.session(BARBELL_SESSION)
    plan = make_plan(strict, session)
    rounds = {dose.athlete: dose.rounds for dose in plan.doses}
    # 1.23, 1.31 and 1.36 % a week are more than 1.2; 1.06 is not.
    assert {a: rounds[a] for a in ("A02", "A04", "A06")} == {"A02": 2, "A04": 2, "A06": 2}
    assert rounds["A01"] == 4
    assert verify_plan(strict, session, plan) == ()
    dose = plan.dose_of("A06")
    assert dose is not None
    assert "2 rounds at the same load before the weigh-in" in dose.reason


@pytest.mark.parametrize(
    ("weigh_in", "limit"),
    [
        (EventWeighIn("unified_rules_2017", 2017, "bout"), "170 lb"),
        (
            EventWeighIn(
                "unified_rules_2017", 2017, "bout", confirmed_by="Coach", confirmed_on=MONDAY
            ),
            "171 lb",
        ),
        (
            EventWeighIn(
                "unified_rules_2017", 2017, "title", confirmed_by="Coach", confirmed_on=MONDAY
            ),
            "170 lb",
        ),
        (
            EventWeighIn("no such rule", None, "x", confirmed_by="Coach", confirmed_on=MONDAY),
            "170 lb",
        ),
        (None, "170 lb"),
    ],
)
def test_an_allowance_counts_only_when_confirmed(weigh_in: EventWeighIn | None, limit: str) -> None:
    """1 lb in a bout without a title, none in a title bout (memory)."""
    event = replace(CLUB.athlete("A06").events[0], weigh_in=weigh_in)
    held = limit_in_force(event)
    assert held is not None
    assert str(held.limit) == limit


def test_a_weigh_in_is_confirmed_by_a_name_and_stays_so(keeper: SqlKeeper) -> None:
    (event,) = CLUB.athlete("A06").events
    shown = fingerprint(shown_of(CLUB, "A06", event))
    opens = datetime(2026, 4, 10, 17)
    known = EventWeighIn(
        "unified_rules_2017",
        2017,
        "bout",
        zone="America/Denver",
        opens_at=opens,
        confirmed_by="Coach",
        confirmed_on=MONDAY,
    )
    set_weigh_in(keeper, "A06", event.id, known, shown, today=MONDAY)
    (coming,) = show_mass(keeper, "A06", today=MONDAY).coming
    assert coming.event.weigh_in == known
    # The day before: 39 days instead of 40, and a pound more allowed.
    assert coming.days == 39
    assert str(coming.held.limit) == "171 lb"
    with pytest.raises(InvalidInput, match="changed somewhere else"):
        set_weigh_in(keeper, "A06", event.id, known, shown, today=MONDAY)
    far = replace(known, opens_at=datetime(2026, 4, 1, 17))
    now = fingerprint(shown_of(CLUB, "A06", replace(event, weigh_in=known)))
    with pytest.raises(InvalidInput, match="not within 7 days before"):
        set_weigh_in(keeper, "A06", event.id, far, now, today=MONDAY)


def test_who_weighs_in_next_comes_first(keeper: SqlKeeper) -> None:
    found = who_weighs_in(keeper, today=MONDAY)
    days = [each.coming[0].days for each in found]
    assert days == sorted(days)
    assert "A08" not in {each.athlete.id for each in found}


def test_a_plan_with_a_prohibited_means_is_refused_told_and_kept(keeper: SqlKeeper) -> None:
    written = write_weight_plan(keeper, "A13", "Sauna on Friday ", today=MONDAY)
    assert [item.rule for item in written.answer.findings] == [MEANS]
    (kept,) = load_club(keeper).athlete("A13").weight_plans
    assert kept.kept_text == "Sauna on Friday"
    assert kept.told == ("medical contact",)
    assert "sauna" not in " ".join(kept.refused).casefold()
    found = show_mass(keeper, "A13", today=MONDAY)
    assert "Sauna on Friday" in clinician_text(found)
    assert "Sauna" not in coach_text(found)


def test_case_12_a_minor_s_plan_is_refused_whatever_it_says(keeper: SqlKeeper) -> None:
    """Case 12 of the list: 16 years, a plan with a prohibited means; so is a harmless one."""
    for text in ("sauna", "eat with the dietitian"):
        written = write_weight_plan(keeper, "A03", text, today=MONDAY)
        assert written.answer.is_refused
        assert written.plan.told == ("medical contact", "guardian")
    assert len(load_club(keeper).athlete("A03").weight_plans) == 2


def test_a_clearance_lifts_neither_a_prohibited_means_nor_the_age(keeper: SqlKeeper) -> None:
    written = MedicalClearance("word", "Dr Example", "1", MONDAY, NEVER_LIFTED)
    enter_clearance(keeper, "A03", written, now=datetime(2026, 3, 2, 12, tzinfo=UTC))
    answer = write_weight_plan(keeper, "A03", "sauna", today=MONDAY).answer
    assert answer.is_refused
    assert {item.rule for item in answer.findings} == {MEANS, mass.MINOR} == set(NEVER_LIFTED)


def test_a_plan_without_one_is_kept(keeper: SqlKeeper) -> None:
    written = write_weight_plan(keeper, "A01", "With the dietitian until April", today=MONDAY)
    assert not written.plan.refused
    with pytest.raises(InvalidInput, match="plan: is empty"):
        write_weight_plan(keeper, "A01", "  ", today=MONDAY)


def test_a_changed_event_keeps_its_weigh_in_and_of_another_day_the_rule_alone(
    keeper: SqlKeeper,
) -> None:
    (event,) = CLUB.athlete("A13").events
    typed = replace(event, name="Open", weigh_in=None)
    change_entry(keeper, "A13", "events", 0, typed, fingerprint(event), today=MONDAY)
    (kept,) = load_club(keeper).athlete("A13").events
    assert kept == replace(event, name="Open")
    later = replace(typed, starts_on=event.starts_on + timedelta(days=7))
    change_entry(keeper, "A13", "events", 0, later, fingerprint(kept), today=MONDAY)
    (moved,) = load_club(keeper).athlete("A13").events
    assert moved.weigh_in == EventWeighIn("grappling", None, "before_first_match")
    assert not moved.weigh_in.is_confirmed


def test_once_weighed_nothing_is_to_lose_and_the_day_of_the_bout_is_judged_by_regain() -> None:
    """Case 8 (second hand): 155 lb, 170.5 lb on the day is 10.0 % and no flag; 178.26 stops."""
    day = MONDAY + timedelta(days=5)
    before = datetime.combine(day - timedelta(days=1), time(17))
    event = Event(
        "bout",
        "Bout",
        day,
        mass_limit=Mass.parse("155 lb"),
        weigh_in=EventWeighIn(zone="UTC", opens_at=before),
    )

    def on_the_day(reading: str) -> MassOf:
        him = replace(CLUB.athlete("A08"), events=(event,))
        return seen(replace(him, body_mass=(MassReading(Mass.parse(reading), day),)), day)

    assert rules_of(on_the_day("170.5 lb")) == {}
    assert on_the_day("170.5 lb").coming[0].loss is None
    assert rules_of(on_the_day("170.6 lb")) == {mass.REGAIN: Severity.WARNING}
    assert rules_of(on_the_day("178.26 lb")) == {mass.REGAIN: Severity.STOP}


def test_a_second_weigh_in_counts_once_the_first_is_over() -> None:
    first = CLUB.athlete("A02").events[0]
    assert first.weighs_next(MONDAY) == date(2026, 3, 14)
    assert first.weighs_next(date(2026, 3, 15)) == date(2026, 3, 15)
    assert first.weighs_next(date(2026, 3, 16)) is None


@pytest.mark.parametrize(
    ("rule", "weigh_in", "limit", "reading", "told"),
    [
        # Case 7 (memory): 155.9 lb, a pound is allowed without a title.
        ("unified_rules_2017", "bout", "155 lb", "155.9 lb", "makes weight"),
        ("unified_rules_2017", "title", "155 lb", "155.9 lb", "over 155 lb by 0.9 lb"),
        # Case 9 (memory): 5 % above 66 kg is 69.30 kg.
        ("ijf", "morning_check", "66 kg", "69.30 kg", "makes weight"),
        ("ijf", "morning_check", "66 kg", "69.31 kg", "fails the check"),
        # Case 10 (second hand): women 50 at 50.1.
        ("uww_senior_2018", "day_2", "50 kg", "50.1 kg", "eliminated, ranked last"),
        # Case 11 (second hand): 65 at 66.9, 2 kg at a World Cup only.
        ("uww_senior_2018", "world_cup", "65 kg", "66.9 kg", "makes weight"),
        ("uww_senior_2018", "ranking", "65 kg", "66.9 kg", "over 65 kg by 1.9 kg"),
        # Not in the unit of the rule: no verdict, for a converted figure may be wrong.
        ("ijf", "official", "66 kg", "145 lb", ""),
        ("ijf", "official", "145 lb", "145 lb", ""),
    ],
)
def test_a_reading_of_the_weighing_day_is_judged_by_the_confirmed_rule(
    rule: str, weigh_in: str, limit: str, reading: str, told: str
) -> None:
    asked = EventWeighIn(rule, None, weigh_in, confirmed_by="Coach", confirmed_on=MONDAY)
    event = Event("e", "Open", MONDAY, mass_limit=Mass.parse(limit), weigh_in=asked)
    him = replace(
        CLUB.athlete("A08"),
        events=(event,),
        body_mass=(MassReading(Mass.parse(reading), MONDAY),),
    )
    found = seen(him)
    said = scale_text(found, found.coming[0])
    assert told in said
    assert bool(said) is bool(told)
    unasked = replace(event, weigh_in=replace(asked, confirmed_by="", confirmed_on=None))
    assert scale_text(found, replace(found.coming[0], event=unasked)) == ""


def test_a_second_weigh_in_is_judged_by_the_rule_of_the_second_day() -> None:
    """Case 10 (second hand): on day 2 no tolerance, eliminated, ranked last."""
    event = CLUB.athlete("A02").events[0]
    assert event.weigh_in is not None
    event = replace(event, weigh_in=replace(event.weigh_in, weigh_in="world_cup"))
    first = verdict_on_scale(event, MassReading(kilograms("75.9"), date(2026, 3, 14)))
    second = verdict_on_scale(event, MassReading(kilograms("74.1"), date(2026, 3, 15)))
    assert first is not None
    assert first.makes_weight
    assert second is not None
    assert second.consequence == "eliminated, ranked last"
    assert verdict_on_scale(event, MassReading(kilograms("74"), MONDAY)) is None
