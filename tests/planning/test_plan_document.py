"""The plan as a document: who is told what, how long it would take, and when it gives up."""

from dataclasses import replace
from math import ceil

import pytest

from planning.people import MONDAY
from squadwright.demo import demo_club
from squadwright.errors import NoSolution
from squadwright.model.athlete import AuthorRole, Restriction
from squadwright.model.exercise import Demand
from squadwright.model.muscles import BodyArea
from squadwright.model.plan import Plan
from squadwright.model.routine import Block, CountedIn, Routine, Scheme, Step, Style
from squadwright.model.session import CheckIn, Override, Pain, Presence, Session
from squadwright.planning import plan as module
from squadwright.planning.plan import MOST_CUTS, make_plan
from squadwright.planning.run_sheet.problem import Fit, NotFitting, RunSheetProblem

CLUB = demo_club(MONDAY)
BARBELL, JUMPS = CLUB.sessions


@pytest.fixture(scope="module")
def barbell() -> Plan:
    session = replace(
        BARBELL,
        check_ins=(
            CheckIn("A05", Presence.LATE, late_minutes=12, note="train"),
            CheckIn("A08", Presence.ABSENT, note="exam"),
            CheckIn("A09", pains=(Pain(BodyArea.KNEE, 4, "left"),), note="slept badly"),
        ),
        overrides=(Override("A06", "watches today", rounds=0),),
    )
    return make_plan(CLUB, session)


def test_each_line_of_attendance_says_what_changes_for_whom(barbell: Plan) -> None:
    lines = {line.athlete: line for line in barbell.attendance}
    assert [line.athlete for line in barbell.attendance] == list(BARBELL.athletes)
    assert (lines["A05"].status, lines["A05"].late_minutes, lines["A05"].note) == (
        "late",
        12,
        "train",
    )
    assert (lines["A08"].status, lines["A08"].note) == ("absent", "exam")
    assert lines["A09"].note.startswith("slept badly; ")
    assert "knee" in lines["A09"].note
    assert (lines["A06"].status, lines["A06"].note) == ("present", "helps and watches")
    assert lines["A01"].note == ""
    away = [line for line in barbell.attendance if line.status == "not training"]
    assert away
    for line in away:
        assert "helps and watches" not in line.note
        assert line.restrictions
        assert line.barred


def test_the_head_is_that_of_the_session(barbell: Plan) -> None:
    head = barbell.session
    assert (head.id, head.minutes, head.held_on) == (BARBELL.id, BARBELL.minutes, MONDAY)
    assert (head.routine, head.style) == ("ropewalk", "complex")
    assert barbell.seed == BARBELL.seed


def short(minutes: int) -> Session:
    return replace(JUMPS, minutes=minutes)


def needed(plan: Plan) -> float | None:
    found = next((f for f in plan.audit if f.rule == "slot too short"), None)
    return None if found is None else found.value


def test_a_slot_as_long_as_was_said_to_be_needed_is_not_too_short() -> None:
    minutes = needed(make_plan(CLUB, short(42)))
    assert minutes is not None
    assert minutes > 42
    assert needed(make_plan(CLUB, short(ceil(minutes)))) is None
    again = needed(make_plan(CLUB, short(ceil(minutes) - 1)))
    assert again == pytest.approx(minutes)


def test_a_late_one_does_the_rounds_and_sets_that_are_left_for_him() -> None:
    """Jumps: half an hour late he has fewer sets than the others, and none before he is there."""
    late = CheckIn("A08", Presence.LATE, late_minutes=15)
    plan = make_plan(CLUB, replace(JUMPS, check_ins=(late,)))
    his, other = plan.dose_of("A08"), plan.dose_of("A13")
    assert his is not None
    assert other is not None
    assert sum(e.sets for e in his.exercises) < sum(e.sets for e in other.exercises)
    for line in plan.run_sheet:
        if line.activity.startswith("work") and "A08" in line.athletes:
            assert line.start_s >= 15 * 60


def test_nobody_to_train_is_said_at_once() -> None:
    gone = tuple(CheckIn(name, Presence.ABSENT) for name in BARBELL.athletes)
    with pytest.raises(NoSolution, match="nobody trains in Monday barbell"):
        make_plan(CLUB, replace(BARBELL, check_ins=gone))
    sits = tuple(Override(name, "rest", rounds=0) for name in BARBELL.athletes)
    with pytest.raises(NoSolution, match="nobody can do any exercise of Ropewalk"):
        make_plan(CLUB, replace(BARBELL, overrides=sits))


@pytest.mark.parametrize("has_fit", [True, False])
def test_a_slot_that_stays_too_short_is_given_up(
    monkeypatch: pytest.MonkeyPatch, has_fit: bool
) -> None:
    """A stand-in for the clock that never fits: with cuts it is asked six times, without once."""
    asked: list[RunSheetProblem] = []
    real = module.time_session

    def never(*given: object) -> tuple[RunSheetProblem, NotFitting]:
        problem, timing = real(*given)  # type: ignore[arg-type]
        asked.append(problem)
        fit = Fit((), problem, timing) if has_fit else None  # type: ignore[arg-type]
        return problem, NotFitting(120, 60, fit, None, (), (), "far too short")

    monkeypatch.setattr(module, "time_session", never)
    words = f"after {MOST_CUTS} rounds of cuts" if has_fit else "far too short"
    with pytest.raises(NoSolution, match=words):
        make_plan(CLUB, BARBELL)
    assert len(asked) == (MOST_CUTS if has_fit else 1)


def test_a_late_one_in_a_circuit_joins_in_a_later_round() -> None:
    """Three rounds of push-ups and squats: he comes when the first is under way."""
    steps = tuple(
        Step(name, Scheme(CountedIn.REPETITIONS, 10), label)
        for name, label in (("push-up", "A"), ("squat", "B"))
    )
    block = Block("Ring", Style.CIRCUIT, steps, 3, work_s=120, changeover_s=20)
    ring = Routine("ring", 1, "Ring", "work", (block,), warm_up_s=480, rehearsal_s=0)
    club = replace(CLUB, routines=(*CLUB.routines, ring))
    late = CheckIn("A08", Presence.LATE, late_minutes=10)
    session = replace(
        BARBELL, routine="ring", athletes=("A02", "A06", "A08", "A09"), check_ins=(late,)
    )
    plan = make_plan(club, session)
    his, other = plan.dose_of("A08"), plan.dose_of("A06")
    assert his is not None
    assert other is not None
    assert (other.first_round, other.rounds) == (1, 3)
    rounds = {
        line.round
        for line in plan.run_sheet
        if line.block == "Ring" and line.activity.startswith("work") and "A08" in line.athletes
    }
    assert 1 not in rounds
    assert (his.first_round, his.rounds) == (min(r or 0 for r in rounds), len(rounds))


def test_who_must_not_train_is_told_what_keeps_from_all_training_alone() -> None:
    def bar(name: str, **more: object) -> Restriction:
        return Restriction(name, "Dr Ilse", AuthorRole.MEDICAL, MONDAY, **more)  # type: ignore[arg-type]

    bars = (
        bar("a", all_training=True, instruction="rest at home"),
        bar("b", demands=(Demand.OVERHEAD,), instruction="nothing overhead"),
        bar("c", all_training=True),
    )
    people = tuple(replace(a, restrictions=bars) if a.id == "A08" else a for a in CLUB.athletes)
    session = replace(BARBELL, athletes=("A02", "A06", "A08"), check_ins=())
    plan = make_plan(replace(CLUB, athletes=people), session)
    (his,) = [line for line in plan.attendance if line.athlete == "A08"]
    assert (his.status, his.note) == ("not training", "rest at home")
