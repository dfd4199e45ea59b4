"""The gate of a session: what is entered about an athlete is obeyed by the whole plan.

Cases by number are those of the club's list of weigh-in and gate cases; their figures are from the
tables named beside them. Times are those of the cases.
"""

from dataclasses import replace
from datetime import UTC, date, datetime, time, timedelta

import pytest

from squadwright.demo import demo_club
from squadwright.demo.sessions import BARBELL_SESSION
from squadwright.errors import InvalidInput, NoSolution
from squadwright.exchange.club_file import read_club, write_club
from squadwright.library import exercise
from squadwright.model.athlete import Athlete
from squadwright.model.club import Club, GateLimit, GateLimits
from squadwright.model.exercise import Demand, Region
from squadwright.model.medical import (
    FirstWeeks,
    HeadKnock,
    Illness,
    Medical,
    MedicalClearance,
    Outcome,
    ReturnStage,
    Screening,
    Sign,
    Suspension,
    SymptomsTold,
    TechniqueSeen,
)
from squadwright.model.muscles import BodyArea
from squadwright.model.plan import Basis, Plan, Severity
from squadwright.model.session import CheckIn, HeatReading, Pain, Session
from squadwright.planning.gates.concussion import CLEARS_CONTACT
from squadwright.planning.gates.gate import Gate, gate_of
from squadwright.planning.plan import make_plan
from squadwright.planning.verify import verify_plan

MONDAY = date(2026, 3, 2)
CLUB = demo_club(MONDAY)
WHO = "A01"
CLEARANCE = "clearance before training"


def at(day: int, hour: int = 18, minute: int = 0) -> datetime:
    """A moment so many days from the Monday."""
    return datetime.combine(MONDAY + timedelta(days=day), time(hour, minute), tzinfo=UTC)


def club_with(medical: Medical, who: str = WHO, **changes: object) -> tuple[Club, Session]:
    """The demo club with medical entries of one athlete, and its barbell session."""
    athletes = tuple(replace(a, medical=medical) if a.id == who else a for a in CLUB.athletes)
    session = replace(CLUB.session(BARBELL_SESSION), **changes)  # type: ignore[arg-type]
    sessions = tuple(session if s.id == session.id else s for s in CLUB.sessions)
    return replace(CLUB, athletes=athletes, sessions=sessions), session


def gate_for(medical: Medical, who: str = WHO, **changes: object) -> Gate:
    club, session = club_with(medical, who, **changes)
    return gate_of(club, club.athlete(who), session)


def plan_for(medical: Medical, who: str = WHO, **changes: object) -> Plan:
    """The whole plan, checked again by a second reading of the entries."""
    club, session = club_with(medical, who, **changes)
    plan = make_plan(club, session)
    assert [str(breach) for breach in verify_plan(club, session, plan)] == []
    return plan


def is_out(plan: Plan, who: str = WHO) -> bool:
    """Not a line, a dose, a bar, a group or a minute of work of his."""
    line = next(each for each in plan.attendance if each.athlete == who)
    named = {d.athlete for d in plan.doses}
    named |= {user.athlete for bar in plan.bars for user in bar.wave_users}
    named |= {athlete for group in plan.groups for athlete in group.athletes}
    named |= {athlete for run in plan.run_sheet for athlete in run.athletes}
    return line.status == "not training" and who not in named


def stage(step: int, day: int, hour: int = 18, **more: object) -> ReturnStage:
    return ReturnStage(step, at(day, hour), "Dr Ilse Mbeki-Ruane", "Ferrow 4411", **more)  # type: ignore[arg-type]


def knock(*stages: ReturnStage, **more: object) -> HeadKnock:
    return HeadKnock("knock", at(-9, 17), "Dr Ilse Mbeki-Ruane", "Ferrow 4411", stages, **more)  # type: ignore[arg-type]


def cleared(*lifts: str, day: int = -1, **more: object) -> MedicalClearance:
    given_on = MONDAY + timedelta(days=day)
    return MedicalClearance(
        "c",
        "Dr Ilse Mbeki-Ruane",
        "Ferrow 4411",
        given_on,
        lifts,
        **more,  # type: ignore[arg-type]
    )


UP_TO = tuple(stage(step, day) for step, day in ((1, -9), (2, -8), (3, -7), (4, -5), (5, -3)))


def test_a_head_knock_without_a_step_keeps_him_out_of_everything() -> None:
    entered = Medical(head_knocks=(knock(),))
    assert gate_for(entered).bars_all_training
    assert is_out(plan_for(entered))


def test_a_knock_later_that_day_bars_the_session_and_symptoms_hold_all_day() -> None:
    late = HeadKnock("late", at(0, 19), "Coach")
    assert is_out(plan_for(Medical(head_knocks=(late,))))
    back = knock(*UP_TO, stage(3, 0, 21))
    held = gate_for(Medical(head_knocks=(back,), clearances=(cleared(CLEARS_CONTACT),)))
    assert Demand.CONTACT in held.bars[0].demands


def test_step_one_is_rest_and_step_two_keeps_the_head_safe() -> None:
    """Steps of return_to_sport_2017: daily life first, then light endurance and light lifting."""
    assert gate_for(Medical(head_knocks=(knock(*UP_TO[:1]),))).bars_all_training
    second = gate_for(Medical(head_knocks=(knock(*UP_TO[:2]),)))
    assert not second.bars_all_training
    (bar,) = second.bars
    assert {Demand.CONTACT, Demand.MAXIMAL_EFFORT, Demand.BREATH_HOLD} <= set(bar.demands)
    assert BodyArea.NECK in bar.body_areas
    plan = plan_for(Medical(head_knocks=(knock(*UP_TO[:2]),)))
    mine = [exercise(e.exercise) for d in plan.doses if d.athlete == WHO for e in d.exercises]
    assert mine
    assert not any(set(bar.demands) & set(each.demands) for each in mine)


def test_on_the_way_back_he_lifts_no_more_than_half_of_his_maximum() -> None:
    free = next(d for d in plan_for(Medical()).doses if d.athlete == WHO)
    light = next(
        d for d in plan_for(Medical(head_knocks=(knock(*UP_TO[:2]),))).doses if d.athlete == WHO
    )
    assert free.load_kg is not None
    assert light.load_kg is not None
    assert light.load_kg <= free.load_kg


@pytest.mark.parametrize("hour", [17, 19])
def test_case_16_and_18_a_step_of_less_than_24_hours_is_refused(hour: int) -> None:
    """Case 16 and 18: 24 h a step; 23 h 59 min is refused."""
    first = stage(1, -3)
    if hour < 18:
        with pytest.raises(InvalidInput, match="a step lasts 24 h"):
            knock(first, stage(2, -2, hour))
    else:
        assert knock(first, stage(2, -2, hour)).stages[-1].step == 2


def test_case_18_counts_elapsed_hours_across_a_change_of_the_clock() -> None:
    """Clocks go forward in the night: the same hour next day is only 23 hours later."""
    before = datetime.fromisoformat("2026-03-28T18:00:00+01:00")
    same_hour = datetime.fromisoformat("2026-03-29T18:00:00+02:00")
    first = ReturnStage(1, before, "Doctor", "4411")
    with pytest.raises(InvalidInput, match=r"23\.0 h after step 1"):
        HeadKnock("k", before, "Doctor", stages=(first, ReturnStage(2, same_hour, "Doctor")))


def test_case_17_step_four_without_a_clearance_is_held_at_three_everywhere() -> None:
    entered = Medical(head_knocks=(knock(*UP_TO),))
    gate = gate_for(entered)
    assert [f.severity for f in gate.findings] == [Severity.STOP]
    assert "step 3 holds" in gate.findings[0].sentence
    assert Demand.CONTACT in gate.bars[0].demands
    plan = plan_for(entered)
    assert any(f.athlete == WHO and "without a clearance" in f.sentence for f in plan.audit)


def test_a_clearance_opens_contact_and_one_older_than_the_symptoms_does_not() -> None:
    word = cleared(CLEARS_CONTACT)
    assert gate_for(Medical(head_knocks=(knock(*UP_TO),), clearances=(word,))).bars == ()
    told = SymptomsTold(at(-1), 4, 120)
    late = knock(*UP_TO, symptoms=(told,))
    assert gate_for(Medical(head_knocks=(late,), clearances=(word,))).bars != ()


def test_case_19_symptoms_at_step_five_lead_back_to_three() -> None:
    """From memory (return_recalled): back to step 3, and the hours begin again."""
    back = knock(*UP_TO, stage(3, -1), symptoms=(SymptomsTold(at(-1), 3, 90),))
    assert Demand.CONTACT in gate_for(Medical(head_knocks=(back,))).bars[0].demands
    with pytest.raises(InvalidInput, match="24 h"):
        knock(*UP_TO, stage(3, -1), stage(4, 0, 12))


def test_case_20_a_suspension_ends_by_its_date_and_an_open_one_does_not() -> None:
    """KO on 2025-03-01, 60 days from the next day (Ohio): first free day 2025-05-01."""
    last = date(2025, 4, 30)
    dated = Suspension("ko", "Ohio commission", "KO", last, last)
    opened = replace(dated, id="open", needs=("neurology",), is_open=True)
    free = {"held_on": date(2025, 5, 1)}
    assert gate_for(Medical(suspensions=(dated,)), held_on=last).bars[0].demands == (
        Demand.CONTACT,
    )
    ended = gate_for(Medical(suspensions=(dated,)), **free)
    assert ended.bars == ()
    assert [f.rule for f in ended.findings] == ["suspension ended"]
    assert gate_for(Medical(suspensions=(opened,)), **free).bars != ()
    word = cleared("neurology", day=-400)
    assert gate_for(Medical(suspensions=(opened,), clearances=(word,)), **free).bars == ()


def test_case_21_known_disease_needs_a_clearance_within_twelve_months() -> None:
    ill = Medical(known_disease="heart", is_active=True)
    assert is_out(plan_for(ill))
    for days, out in ((-360, False), (-370, True)):
        word = replace(ill, clearances=(cleared(CLEARANCE, day=days),))
        assert gate_for(word).bars_all_training is out
    assert not is_out(plan_for(replace(ill, clearances=(cleared(CLEARANCE),))))


def test_case_22_who_is_not_active_starts_light() -> None:
    gate = gate_for(Medical(is_active=False))
    assert gate.bars == ()
    assert [f.severity for f in gate.findings] == [Severity.NOTE]
    assert "light to moderate" in gate.findings[0].advice


def test_a_form_that_refers_him_keeps_him_out_until_a_doctor_writes() -> None:
    form = Screening("club form", 2026, MONDAY, Outcome.REFER, MONDAY + timedelta(days=365))
    assert gate_for(Medical(screening=form)).bars_all_training
    word = cleared(CLEARANCE, day=0)
    assert gate_for(Medical(screening=form, clearances=(word,))).bars == ()


def test_case_23_pain_of_six_loads_nothing_in_that_half_and_is_referred() -> None:
    """Above 5 of 10 is high risk (pain_monitoring_recalled)."""
    session = CLUB.session(BARBELL_SESSION)
    others = tuple(c for c in session.check_ins if c.athlete != WHO)
    sore = CheckIn(WHO, pains=(Pain(BodyArea.SHOULDER, 6),))
    plan = plan_for(Medical(), check_ins=(*others, sore))
    stops = [f for f in plan.audit if f.athlete == WHO and f.severity is Severity.STOP]
    assert any(f.value == 6 for f in stops)
    mine = [e for d in plan.doses if d.athlete == WHO for e in d.exercises]
    assert not any(Demand.OVERHEAD in exercise(e.exercise).demands for e in mine)
    assert not any(exercise(e.exercise).region is Region.UPPER for e in mine)


def test_case_24_fever_and_sore_throat_rest_until_a_day_after_it_is_gone() -> None:
    fever = Illness("f", "Coach", MONDAY - timedelta(days=2), (Sign.SORE_THROAT,), 38.1)
    assert is_out(plan_for(Medical(illnesses=(fever,))))
    for hour, out in ((17, False), (19, True)):
        gone = replace(fever, gone_at=at(-1, hour))
        assert gate_for(Medical(illnesses=(gone,))).bars_all_training is out


@pytest.mark.parametrize(
    ("sign", "out"),
    [
        (Sign.RUNNY_NOSE, False),
        (Sign.CHEST_COUGH, True),
        (Sign.CHEST_PAIN, True),
        (Sign.SKIN_INFECTION, True),
        (Sign.GLANDULAR_FEVER, True),
    ],
)
def test_an_illness_below_the_neck_is_rest_and_some_wait_for_a_doctor(
    sign: Sign, *, out: bool
) -> None:
    told = Illness("i", "Coach", MONDAY - timedelta(days=10), (sign,), gone_at=at(-9, 8))
    waits = sign not in (Sign.RUNNY_NOSE, Sign.CHEST_COUGH)
    assert gate_for(Medical(illnesses=(told,))).bars_all_training is waits
    now = replace(told, gone_at=None)
    assert gate_for(Medical(illnesses=(now,))).bars_all_training is out
    word = cleared("illness")
    held = gate_for(Medical(illnesses=(told,), clearances=(word,))).bars_all_training
    # Three weeks at least after glandular fever, whatever was written.
    assert held is (sign is Sign.GLANDULAR_FEVER)


HEAT_OF_CASE_15 = HeatReading(28.7)


def test_case_15_row_two_halves_the_rounds_of_who_is_not_used_to_it() -> None:
    """28.7 degC outdoors, not acclimatised: row 2, rest as long as the work (heat_rows_2007)."""
    gate = gate_for(Medical(), heat=HEAT_OF_CASE_15)
    assert [f.severity for f in gate.findings] == [Severity.WARNING]
    plan = plan_for(Medical(), heat=HEAT_OF_CASE_15)
    assert {d.rounds for d in plan.doses} <= {1, 2}
    used = gate_for(Medical(is_used_to_heat=True), heat=HEAT_OF_CASE_15)
    assert used.caps.share_of_rounds == 1


def test_case_15_above_32_degrees_nobody_trains() -> None:
    club, session = club_with(Medical(is_used_to_heat=True), heat=HeatReading(32.3))
    assert gate_of(club, club.athlete(WHO), session).bars_all_training
    with pytest.raises(NoSolution, match="nobody trains"):
        make_plan(club, session)


def test_who_was_ill_from_heat_waits_for_a_doctor_when_it_is_hot() -> None:
    ill = Medical(is_used_to_heat=True, has_had_heat_illness=True)
    assert gate_for(ill, heat=HEAT_OF_CASE_15).bars_all_training
    assert not gate_for(ill, heat=HeatReading(20.0)).bars_all_training
    word = replace(ill, clearances=(cleared("earlier heat illness"),))
    assert not gate_for(word, heat=HEAT_OF_CASE_15).bars_all_training


def test_heat_is_estimated_from_air_and_humidity_where_there_is_no_globe() -> None:
    """32 degC at 60 %: 0.567 x 32 + 0.393 x 28.4 hPa + 3.94, worked out by hand, is 33.3."""
    gate = gate_for(Medical(), heat=HeatReading(air_c=32.0, humidity_fraction=0.6))
    assert gate.bars_all_training
    assert "33.3" in gate.findings[0].sentence
    with pytest.raises(InvalidInput, match="neither"):
        HeatReading(air_c=32.0)


def test_case_29_more_than_thirty_units_in_the_first_weeks_is_told() -> None:
    """sets x repetitions x share: 3 x 10 x 0.70 = 21 is fine, 5 x 10 x 0.65 = 32.5 is not."""
    new = Medical(first_weeks=FirstWeeks(MONDAY))
    plan = plan_for(new)
    mine = next(d for d in plan.doses if d.athlete == WHO)
    whole = next(d for d in plan_for(Medical()).doses if d.athlete == WHO)
    assert mine.rounds == whole.rounds // 2
    assert not any(f.rule == "first weeks" for f in plan.audit)
    limit = GateLimits((GateLimit("sets x repetitions x share", 1.0),))
    club, session = club_with(new)
    strict = make_plan(replace(club, gate_limits=limit), session)
    over = [f for f in strict.audit if f.rule == "first weeks"]
    assert over
    assert {f.athlete for f in over} == {WHO}


@pytest.mark.parametrize(
    ("week", "new", "share"), [(1, True, 0.5), (3, True, 0.8), (2, False, 0.7), (3, False, 1.0)]
)
def test_the_first_weeks_take_rounds_off(week: int, *, new: bool, share: float) -> None:
    weeks = FirstWeeks(MONDAY - timedelta(days=7 * (week - 1)), is_newcomer=new)
    assert float(gate_for(Medical(first_weeks=weeks)).caps.share_of_rounds) == share


def test_the_young_lift_with_a_load_only_once_their_technique_was_seen() -> None:
    seen = Medical(technique=TechniqueSeen(MONDAY, "Head coach"))
    for medical, basis in ((Medical(), True), (seen, False)):
        dose = next(d for d in plan_for(medical, "A03").doses if d.athlete == "A03")
        assert (dose.basis is Basis.TECHNIQUE_BAR) is basis


def test_a_coach_s_limit_may_be_stricter_and_a_looser_one_is_refused() -> None:
    strict = GateLimits((GateLimit("heat, row 1", 70.0),))
    club, session = club_with(Medical(), heat=HeatReading(22.0))
    assert gate_of(club, club.athlete(WHO), session).findings[0].severity is Severity.NOTE
    held = gate_of(replace(club, gate_limits=strict), club.athlete(WHO), session)
    assert held.findings[0].severity is Severity.WARNING
    loose = replace(club, gate_limits=GateLimits((GateLimit("heat, row 1", 90.0),)))
    with pytest.raises(InvalidInput, match="looser"):
        read_club(write_club(loose), today=MONDAY)


def test_medical_entries_survive_the_club_file() -> None:
    told = Illness("f", "Coach", MONDAY, (Sign.SORE_THROAT,), 38.1, at(0, 9))
    form = Screening("club form", 2026, MONDAY, Outcome.CLEARED, MONDAY + timedelta(days=365))
    everything = Medical(
        head_knocks=(knock(*UP_TO, symptoms=(SymptomsTold(at(-1), 3, 90),)),),
        suspensions=(Suspension("s", "Ohio", "KO", MONDAY, None),),
        illnesses=(told,),
        clearances=(cleared(CLEARS_CONTACT),),
        screening=form,
        known_disease="heart",
        first_weeks=FirstWeeks(MONDAY),
        technique=TechniqueSeen(MONDAY, "Head coach"),
    )
    club, _ = club_with(everything)
    again = read_club(write_club(club), today=MONDAY)
    assert again == club


def test_the_reason_stands_on_no_line_that_others_read() -> None:
    plan = plan_for(Medical(head_knocks=(knock(*UP_TO[:2]),), known_disease=""))
    line = next(each for each in plan.attendance if each.athlete == WHO)
    assert not any("head knock" in words for words in line.barred)
    assert any("head knock" in words for words in line.restrictions)


def test_nobody_is_touched_whose_entries_are_empty() -> None:
    free = [a for a in CLUB.athletes if a.id not in ("A10", "A14", "A03", "A12")]
    session = CLUB.session(BARBELL_SESSION)

    def found(athlete: Athlete) -> Gate:
        return gate_of(CLUB, athlete, session)

    assert all(found(a).bars == () and found(a).findings == () for a in free)
