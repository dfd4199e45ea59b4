"""What was done follows from the plan and the record."""

from dataclasses import replace
from datetime import date, datetime, timedelta
from functools import lru_cache

from recording import START
from squadwright.demo import demo_club
from squadwright.model.plan import Plan
from squadwright.model.record import EventKind, RecordEvent
from squadwright.planning.live.done import (
    AthleteDone,
    Fault,
    StopAsked,
    done,
    stops_asked,
)
from squadwright.planning.live.onset import Onset, fault_patterns, lost_pattern
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
    found = done(plan(), events, now=at(seconds), stop_after=3)
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


def test_a_stop_that_tells_no_round_counts_what_was_over_by_then() -> None:
    """As the heat of the day stops somebody: no tap on a round goes with it."""
    stop = event(1, 2100, EventKind.ATHLETE_STOPPED, athlete="A04", words="heat")
    assert of("A04", [started(), stop], 3600).rounds_done == 2


def test_a_stop_counts_in_the_block_that_was_begun_last() -> None:
    """Two rounds of A and two of B; he stops in round 1 of B, or late in round 2 of A."""
    base = next(x for x in plan().run_sheet if x.activity == "work" and "A04" in x.athletes)
    lines = tuple(
        replace(base, start_s=start, end_s=start + 60, block=block, round=number)
        for start, block, number in ((0, "A", 1), (100, "A", 2), (200, "B", 1), (300, "B", 2))
    )
    small = replace(plan(), run_sheet=lines)
    for seconds, number, rounds in (
        (250, 1, 2),
        (199, 2, 1),
        (200, 1, 2),
        (265, 1, 2),
        (150, 2, 1),
    ):
        stop = event(1, seconds, EventKind.ATHLETE_STOPPED, athlete="A04", round=number)
        found = done(small, [started(), stop], now=at(3600), stop_after=3)
        (row,) = (each for each in found if each.athlete == "A04")
        assert row.rounds_done == rounds, (seconds, number)


def test_who_is_out_has_done_the_rounds_before_and_cannot_go_on() -> None:
    out = event(1, 2100, EventKind.OUT, athlete="A04", round=3)
    on = event(2, 2110, EventKind.ATHLETE_WENT_ON, athlete="A04", round=3)
    found = of("A04", [started(), out, on], 3600)
    assert (found.rounds_done, found.stopped_in_round) == (2, 3)


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


def test_as_many_of_one_fault_in_one_round_as_the_coach_says_ask_to_stop() -> None:
    taps = [
        event(n, 2100 + n, EventKind.FAULT, athlete="A09", round=3, words="lower back rounds")
        for n in (1, 2, 3)
    ]
    other = event(4, 2110, EventKind.FAULT, athlete="A09", round=3, words="knee in")
    later = event(5, 2400, EventKind.FAULT, athlete="A09", round=4, words="lower back rounds")
    assert of("A09", [*taps[:2], other, later], 3600).stops_asked == ()
    (asked,) = of("A09", [*taps, other, later], 3600).stops_asked
    assert asked == StopAsked(3, "lower back rounds", 3)
    assert asked.words == "asked to stop in round 3: lower back rounds, 3 times"
    assert of("A01", [*taps, other], 3600).stops_asked == ()
    back = event(6, 2500, EventKind.TAKEN_BACK, takes_back="e2")
    assert of("A09", [*taps, back], 3600).stops_asked == ()


def test_a_limit_of_one_asks_at_each_fault_of_each_round() -> None:
    faults = (Fault("knee in", 4, ""), Fault("low back", 1, ""), Fault("knee in", 0, ""))
    assert [asked.words for asked in stops_asked(faults, 1)] == [
        "asked to stop: knee in, once",
        "asked to stop in round 1: low back, once",
        "asked to stop in round 4: knee in, once",
    ]
    assert stops_asked(faults, 2) == ()


def share(*faults: Fault, rounds: int = 4, first: int = 1) -> AthleteDone:
    return AthleteDone("A09", rounds, rounds, 40.0, faults=faults, first_round=first)


def test_a_fault_of_the_late_rounds_only_is_told_from_one_of_the_first() -> None:
    late = (Fault("lower back rounds", 3, ""), Fault("lower back rounds", 4, ""))
    found = fault_patterns(share(*late))[0]
    assert (found.onset, found.count, found.since) == (
        Onset.FATIGUE,
        2,
        "from round 3, likely fatigue",
    )
    first, _ = fault_patterns(share(Fault("knee in", 1, ""), *late))
    assert (first.onset, first.since) == (Onset.SKILL, "from round 1, likely skill")
    between = fault_patterns(share(Fault("knee in", 2, "")))[0]
    assert (between.onset, between.since) == (Onset.EITHER, "from round 2")
    assert fault_patterns(share(Fault("knee in", 1, ""), rounds=1))[0].onset is Onset.EITHER


def test_rounds_are_counted_from_the_first_round_of_who_came_late() -> None:
    """He joins in round 2 of 4 and does three: his first round is no late one."""
    late = share(Fault("knee in", 2, ""), rounds=3, first=2)
    assert fault_patterns(late)[0].onset is Onset.SKILL


def test_lost_repetitions_say_from_which_round_they_were_lost() -> None:
    found = lost_pattern(AthleteDone("A09", 4, 4, 40.0, lost=((3, 2), (4, 3))))
    assert found is not None
    assert (found.count, found.since) == (5, "from round 3, likely fatigue")
    assert lost_pattern(share()) is None


def test_a_repetition_lost_in_the_first_round_says_nothing_of_skill() -> None:
    """It speaks of the load (common practice, no source)."""
    found = lost_pattern(AthleteDone("A09", 4, 4, 40.0, lost=((1, 1),)))
    assert found is not None
    assert (found.onset, found.since) == (Onset.EITHER, "from round 1")


def test_rounds_before_the_place_at_which_the_clock_was_started_are_not_done() -> None:
    rounds = [x for x in plan().run_sheet if x.activity == "work" and "A04" in x.athletes]
    begun = event(0, 0, EventKind.STARTED, value=float(rounds[2].start_s))
    assert of("A04", [begun], 3600).rounds_done == 2


def test_drills_without_rounds_count_their_sets_and_a_stop_ends_them() -> None:
    """Every line of work of the run sheet is one set, counted here line by line."""
    club = demo_club(date(2026, 3, 2))
    jumps = make_plan(club, club.session("wednesday-plyometric"))
    lines = [x for x in jumps.run_sheet if x.activity == "work" and "A01" in x.athletes]
    begun = replace(started(), session=jumps.session.id)
    end = max(line.end_s for line in lines)

    def of_a01(*events: RecordEvent) -> AthleteDone:
        found = done(jumps, events, now=at(end), stop_after=3)
        return next(each for each in found if each.athlete == "A01")

    whole = of_a01(begun)
    assert whole.planned_sets == whole.sets_done == len(lines) > 10
    assert (whole.planned_rounds, whole.is_all_done) == (0, True)
    middle = lines[len(lines) // 2]
    stop = event(1, middle.start_s + 1, EventKind.ATHLETE_STOPPED, athlete="A01")
    before = sum(line.end_s <= middle.start_s + 1 for line in lines)
    assert of_a01(begun, stop).sets_done == before


def test_who_is_out_until_cleared_has_done_the_rounds_before() -> None:
    out = event(1, 2100, EventKind.OUT, athlete="A04", round=3)
    undone = event(2, 2110, EventKind.TAKEN_BACK, takes_back="e1")
    found = of("A04", [started(), out, undone], 3600)
    assert (found.rounds_done, found.stopped_in_round) == (2, 3)
