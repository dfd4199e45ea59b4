"""The demo club's two sessions, planned end to end.

Targets, swaps, rounds, counts and timing are the hand-worked facts of the invented demo club;
none of them is published. Facts of the trade are marked "common practice, no source".
"""

from datetime import date

import pytest

from squadwright.demo import demo_club
from squadwright.demo.sessions import BARBELL_SESSION, PLYOMETRIC_SESSION
from squadwright.exchange.plan_file import write_plan
from squadwright.library import exercise
from squadwright.model.club import Club
from squadwright.model.plan import Basis, Plan, Severity
from squadwright.planning.plan import make_plan
from squadwright.planning.verify import verify_plan

MONDAY = date(2026, 3, 2)
# 60 % of the best strict press for five, worked out by hand [kg]
COACH_TARGETS_KG = {
    "A01": 19.5, "A02": 34.5, "A03": 18.0, "A04": 42.0, "A05": 19.5, "A06": 39.0, "A07": 22.5,
    "A09": 45.0, "A11": 25.5, "A12": 10.0, "A13": 36.0, "A14": 27.0,
}  # fmt: skip


@pytest.fixture(scope="module")
def club() -> Club:
    return demo_club(MONDAY)


@pytest.fixture(scope="module")
def barbell(club: Club) -> Plan:
    return make_plan(club, club.session(BARBELL_SESSION))


@pytest.fixture(scope="module")
def jumps(club: Club) -> Plan:
    return make_plan(club, club.session(PLYOMETRIC_SESSION))


def test_both_plans_pass_the_independent_check(club: Club, barbell: Plan, jumps: Plan) -> None:
    assert verify_plan(club, club.session(BARBELL_SESSION), barbell) == ()
    assert verify_plan(club, club.session(PLYOMETRIC_SESSION), jumps) == ()


def test_twelve_lift_and_nobody_is_above_his_target(barbell: Plan) -> None:
    lifting = {d.athlete: d for d in barbell.doses if d.load_kg is not None}
    assert set(lifting) == set(COACH_TARGETS_KG)
    for athlete, dose in lifting.items():
        assert dose.load_kg is not None
        assert dose.target_kg is not None
        assert dose.load_kg <= dose.target_kg + 1e-9
        assert dose.target_kg <= COACH_TARGETS_KG[athlete] + 1e-9


def test_a_first_dose_is_neither_silly_nor_bold(barbell: Plan) -> None:
    """Between 40 and 60 % of the press for five: common practice, no source."""
    for dose in barbell.doses:
        if dose.basis is not Basis.TECHNIQUE_BAR:
            assert dose.load_kg is not None
            press_for_five_kg = COACH_TARGETS_KG[dose.athlete] / 0.6
            assert 0.40 <= dose.load_kg / press_for_five_kg <= 0.60


def test_each_load_names_its_limiting_exercise_round_and_reason(barbell: Plan) -> None:
    for dose in barbell.doses:
        assert dose.reason
        if dose.basis is Basis.TECHNIQUE_BAR:
            continue
        assert dose.limiting_exercise in {e.exercise for e in dose.exercises}
        assert dose.limiting_round is not None
        assert dose.first_round <= dose.limiting_round < dose.first_round + dose.rounds
        assert exercise(str(dose.limiting_exercise)).name in dose.reason
        assert dose.completion_probability is not None
        assert dose.completion_probability >= 0.90


@pytest.mark.parametrize(
    ("athlete", "step", "swap"),
    [
        ("A04", "6", "front-rack-march"),
        ("A09", "5", "front-rack-heel-raise-hold"),
        ("A11", "1", "snatch-grip-hip-set-hold"),
        ("A11", "3", "tall-stance-shrug-pull"),
    ],
)
def test_a_barred_exercise_gets_a_swap_that_keeps_the_bar_in_the_hands(
    barbell: Plan, athlete: str, step: str, swap: str
) -> None:
    dose = barbell.dose_of(athlete)
    assert dose is not None
    assert {(s.step, s.to_exercise) for s in dose.swaps} >= {(step, swap)}
    assert exercise(swap).start is exercise(swap).end


def test_the_head_knock_gets_no_dose_and_the_drill_medical_staff_set(barbell: Plan) -> None:
    assert barbell.dose_of("A10") is None
    line = next(a for a in barbell.attendance if a.athlete == "A10")
    assert line.status == "not training"
    assert "walking and breathing drill set by physio" in line.note
    stops = [f for f in barbell.audit if f.severity is Severity.STOP and f.athlete == "A10"]
    assert stops


def test_rounds_follow_event_lateness_and_age(barbell: Plan) -> None:
    rounds = {d.athlete: (d.first_round, d.rounds) for d in barbell.doses}
    assert rounds["A13"] == (1, 2)
    assert rounds["A05"] == (2, 3)
    assert rounds["A12"] == (1, 4)
    assert all(rounds[a] == (1, 4) for a in set(rounds) - {"A13", "A05"})


def test_the_fourteen_year_old_has_the_bare_technique_bar_and_no_load_from_a_test(
    barbell: Plan,
) -> None:
    dose = barbell.dose_of("A12")
    assert dose is not None
    assert (dose.load_kg, dose.basis) == (10.0, Basis.TECHNIQUE_BAR)
    assert dose.completion_probability is None
    user = next(u for b in barbell.bars for u in b.wave_users if u.athlete == "A12")
    assert user.per_side == ()


def test_the_complex_takes_sixteen_minutes_and_everybody_rests_140_seconds(barbell: Plan) -> None:
    work = [line for line in barbell.run_sheet if line.activity == "work"]
    change = [line for line in barbell.run_sheet if line.activity == "change-over"]
    assert max(line.end_s for line in change) - min(line.start_s for line in work) == 16 * 60
    assert {line.rest_s for line in work} == {140}
    assert max(line.end_s for line in barbell.run_sheet) == 60 * 60


def test_a_short_store_of_collars_is_a_stop(barbell: Plan) -> None:
    collars = next(f for f in barbell.audit if f.rule == "collars")
    assert (collars.value, collars.limit) == (5.0, 6.0)


def test_two_of_one_name_are_never_shown_alike(barbell: Plan) -> None:
    names = [line.shown_name for line in barbell.attendance]
    assert len(set(names)) == len(names)
    assert {"Sami Darwazin '01", "Sami Darwazin '12"} <= set(names)


def test_the_jump_session_has_fifty_contacts_and_forty_two_throws(jumps: Plan) -> None:
    counts = {d.athlete: (d.contacts, d.throws) for d in jumps.doses}
    assert counts["A01"] == (50, 42)
    assert counts["A12"] == (24, 42)  # half of each jump's sets, rounded down
    assert counts["A09"] == (0, 42)


def test_the_sore_knee_leaves_the_jumps_and_throws_sitting(jumps: Plan) -> None:
    groups = {
        block: sorted(len(g.athletes) for g in jumps.groups if g.block == block)
        for block in ("A", "B")
    }
    assert groups == {"A": [2, 3, 3, 3], "B": [3, 3, 3, 3]}
    dose = jumps.dose_of("A09")
    assert dose is not None
    assert all("Seated" in e.name for e in dose.exercises)


def test_the_young_athlete_lands_on_the_sound_low_box(jumps: Plan) -> None:
    dose = jumps.dose_of("A12")
    assert dose is not None
    assert {e.box_height_m for e in dose.exercises if e.box} == {0.30}
    assert {e.ball_kg for e in dose.exercises if e.ball} == {2.0}


def test_the_same_club_session_and_seed_give_the_same_document(club: Club, barbell: Plan) -> None:
    again = make_plan(demo_club(MONDAY), club.session(BARBELL_SESSION))
    assert write_plan(again) == write_plan(barbell)
