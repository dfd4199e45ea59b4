"""What was done follows from the plan and the record."""

from datetime import date, datetime, timedelta
from functools import lru_cache

from recording import START
from squadwright.demo import demo_club
from squadwright.model.plan import Plan
from squadwright.model.record import EventKind, RecordEvent
from squadwright.planning.live.done import (
    AthleteDone,
    Fault,
    asks_to_stop,
    done,
    fault_patterns,
)
from squadwright.planning.plan import make_plan


@lru_cache
def plan() -> Plan:
    club = demo_club(date(2026, 3, 2))
    return make_plan(club, club.sessions[0])


def at(seconds: float) -> datetime:
    return START + timedelta(seconds=seconds)


def event(number: int, seconds: float, kind: EventKind, **more: object) -> RecordEvent:
    return RecordEvent(
        f"e{number}",
        plan().session.id,
        "phone",
        number,
        at(seconds),
        kind,
        **more,  # type: ignore[arg-type]
    )


def started() -> RecordEvent:
    return event(0, 0, EventKind.STARTED, value=0.0)


def of(athlete: str, events: list[RecordEvent], seconds: float) -> AthleteDone:
    found = done(plan(), events, now=at(seconds))
    return next(each for each in found if each.athlete == athlete)


def last_work_end_s(athlete: str) -> int:
    return max(
        line.end_s
        for line in plan().run_sheet
        if line.activity == "work" and athlete in line.athletes
    )


def test_everybody_has_done_what_was_planned_when_the_last_round_ends() -> None:
    for dose in plan().doses:
        finished = of(dose.athlete, [started()], last_work_end_s(dose.athlete))
        assert finished.planned_rounds == finished.rounds_done == dose.rounds
        assert finished.load_kg == dose.load_kg


def test_a_round_counts_when_it_is_over_and_not_before() -> None:
    end = last_work_end_s("A04")
    assert (
        of("A04", [started()], end - 1).rounds_done == of("A04", [started()], end).rounds_done - 1
    )


def test_somebody_late_is_planned_for_three_rounds_and_does_three() -> None:
    late = of("A05", [started()], 3600)
    assert (late.planned_rounds, late.rounds_done) == (3, 3)


def test_who_stops_has_done_the_rounds_before_and_who_goes_on_all() -> None:
    stop = event(1, 2100, EventKind.ATHLETE_STOPPED, athlete="A04", round=3)
    assert of("A04", [started(), stop], 3600).rounds_done == 2
    on = event(2, 2110, EventKind.ATHLETE_WENT_ON, athlete="A04", round=3)
    assert of("A04", [started(), stop, on], 3600).rounds_done == 4


def test_lost_repetitions_load_effort_and_faults_are_kept_by_round() -> None:
    events = [
        started(),
        event(1, 2100, EventKind.REPETITIONS_LOST, athlete="A09", round=3, value=2.0),
        event(2, 2101, EventKind.REPETITIONS_LOST, athlete="A09", round=3, value=1.0),
        event(3, 2200, EventKind.LOAD_CHANGED, athlete="A09", round=4, value=37.5),
        event(4, 2300, EventKind.FAULT, athlete="A09", round=4, words="lower back rounds"),
        event(5, 3500, EventKind.EFFORT, athlete="A09", value=8.0),
    ]
    found = of("A09", events, 3600)
    assert found.lost == ((3, 3),)
    assert found.load_kg == 37.5
    assert found.faults == (Fault("lower back rounds", 4, ""),)
    assert found.effort == 8.0
    back = event(6, 3501, EventKind.TAKEN_BACK, takes_back="e2")
    assert of("A09", [*events, back], 3600).lost == ((3, 2),)


def test_three_of_one_fault_in_one_round_ask_to_stop() -> None:
    taps = [
        event(n, 2100 + n, EventKind.FAULT, athlete="A09", round=3, words="lower back rounds")
        for n in (1, 2, 3)
    ]
    other = event(4, 2110, EventKind.FAULT, athlete="A09", round=3, words="knee in")
    assert asks_to_stop([*taps[:2], other], "A09", 3, limit=3) == ""
    assert asks_to_stop([*taps, other], "A09", 3, limit=3) == "lower back rounds"
    assert asks_to_stop(taps, "A09", 2, limit=3) == ""
    assert asks_to_stop(taps, "A01", 3, limit=3) == ""


def test_a_fault_of_the_late_rounds_only_is_told_from_one_of_the_first() -> None:
    faults = [Fault("lower back rounds", 3, ""), Fault("lower back rounds", 4, "")]
    assert fault_patterns(faults, 4)[0].is_late_only
    assert not fault_patterns([Fault("knee in", 1, ""), *faults], 4)[0].is_late_only
    assert fault_patterns([Fault("knee in", 1, "")], 1)[0].is_late_only is False
