"""A sheet worked out again while it runs keeps what was and holds what every sheet holds."""

from collections.abc import Sequence
from datetime import date, timedelta
from functools import cache
from itertools import pairwise
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cases import cases
from planning.run_sheet_check import overlaps
from recording import START
from squadwright.demo import demo_club
from squadwright.model.plan import Plan, RunLine
from squadwright.model.record import EventKind, RecordEvent
from squadwright.planning.live.changes import (
    Change,
    changes_of,
    stopped_by,
    worked_in,
)
from squadwright.planning.live.clock import clock_of
from squadwright.planning.live.course import Course, started
from squadwright.planning.plan import make_timed

CLUB = demo_club(date(2026, 11, 23))
BARS, JUMPS = "monday-barbell", "wednesday-plyometric"
LEAST_WARM_UP_S = 480


@cache
def begun(session: str) -> Course:
    return started(make_timed(CLUB, CLUB.session(session)))


def event(kind: EventKind, number: int = 1, seconds: float = 0, **more: Any) -> RecordEvent:
    at = START + timedelta(seconds=seconds)
    return RecordEvent(f"e{number}", BARS, "phone", number, at, kind, **more)


def after(session: str, changes: Sequence[tuple[RecordEvent, float]]) -> Course:
    course = begun(session)
    made = [Change(each, place) for each, place in changes]
    for number in range(1, len(made) + 1):
        course = worked_in(course, CLUB, CLUB.session(session), made[:number])
    return course


def works(plan: Plan, athlete: str = "") -> list[RunLine]:
    return [
        line
        for line in plan.run_sheet
        if line.activity.startswith("work") and (not athlete or athlete in line.athletes)
    ]


def rounds_of(plan: Plan, athlete: str) -> list[int]:
    return [line.round for line in works(plan, athlete) if line.round is not None]


def shown(lines: Sequence[RunLine], until_s: float) -> list[tuple[object, ...]]:
    """What the sheet shows up to a place."""
    return [
        (line.start_s, min(line.end_s, until_s), line.group, line.activity, line.round)
        for line in lines
        if line.start_s < until_s
    ]


@st.composite
def time_left(draw: st.DrawFn) -> list[tuple[RecordEvent, float]]:
    """Up to three times the coach says how many minutes are left, later and later."""
    places = sorted(draw(st.lists(st.floats(0, 2800), min_size=1, max_size=3, unique=True)))
    return [
        (event(EventKind.TIME_LEFT, n, place, value=float(draw(st.integers(1, 60)))), place)
        for n, place in enumerate(places, start=1)
    ]


@settings(max_examples=cases(60), deadline=None)
@given(st.sampled_from((BARS, JUMPS)), time_left())
def test_whenever_the_minutes_change_the_sheet_stays_one_that_can_be_done(
    session: str, changes: list[tuple[RecordEvent, float]]
) -> None:
    course = begun(session)
    for number, (_, place) in enumerate(changes, start=1):
        before = course.plan.run_sheet
        course = after(session, changes[:number])
        assert shown(course.plan.run_sheet, place) == shown(before, place)
    assert overlaps(course.plan.run_sheet) == []
    for line in course.plan.attendance:
        numbers = rounds_of(course.plan, line.athlete)
        assert all(second == first + 1 for first, second in pairwise(numbers)), line.athlete
    assert len(course.told) == len(course.changes) == len(changes)


@settings(max_examples=cases(40), deadline=None)
@given(st.sampled_from((BARS, JUMPS)), st.floats(0, 2600), st.integers(2, 60))
def test_it_ends_when_the_minutes_are_over_or_says_that_it_cannot(
    session: str, place: float, minutes: int
) -> None:
    course = after(session, [(event(EventKind.TIME_LEFT, value=float(minutes)), place)])
    if "stays as it is" in course.told[0]:
        assert course.plan.run_sheet == begun(session).plan.run_sheet
    else:
        assert course.plan.run_sheet[-1].end_s <= place + minutes * 60 + 1


def test_eight_minutes_left_in_round_1_finishes_it_and_leaves_one_more_and_the_close() -> None:
    plan = after(BARS, [(event(EventKind.TIME_LEFT, value=8.0), 1700.0)]).plan
    assert {line.round for line in works(plan)} == {1, 2}
    assert [line.activity for line in plan.run_sheet[-2:]] == [
        "cool-down and scores",
        "pack away",
    ]
    # Round 1 of wave B began 20 s before and goes on to its own end.
    assert (1680, 1780) in {(line.start_s, line.end_s) for line in works(plan)}


@settings(max_examples=cases(25), deadline=None)
@given(st.floats(1000, 2300))
def test_who_comes_late_warms_up_and_joins_at_a_round_on_a_bar(place: float) -> None:
    course = after(BARS, [(event(EventKind.JOINED_LATE, athlete="A05"), place)])
    plan = course.plan
    assert overlaps(plan.run_sheet) == []
    own = [x for x in plan.run_sheet if x.group == "late" and "A05" in x.athletes]
    mine = works(plan, "A05")
    assert all(line.start_s >= place for line in mine)
    if mine:
        warm_up = next(line for line in own if line.activity == "warm-up")
        assert warm_up.end_s - warm_up.start_s >= LEAST_WARM_UP_S
        assert mine[0].start_s >= own[-1].end_s
        starts = {line.start_s for line in works(begun(BARS).plan)}
        assert mine[0].start_s in starts
        dose = plan.dose_of("A05")
        assert dose is not None
        assert (dose.rounds, dose.first_round) == (len(mine), mine[0].round)
    for line in begun(BARS).plan.attendance:
        if line.athlete != "A05":
            assert works(plan, line.athlete) != [] or line.status != "present"
            assert rounds_of(plan, line.athlete) == rounds_of(begun(BARS).plan, line.athlete)


def test_who_is_here_when_he_was_expected_changes_nothing() -> None:
    course = after(BARS, [(event(EventKind.JOINED_LATE, athlete="A05"), 760.0)])
    assert course.plan == begun(BARS).plan
    assert "that is on the sheet already" in course.told[0]


@settings(max_examples=cases(12), deadline=None)
@given(st.floats(0, 2500), st.integers(0, 5))
def test_a_bar_that_is_out_is_not_used_from_the_next_round_on(place: float, number: int) -> None:
    before = begun(BARS).plan
    bar = before.bars[number].bar
    course = after(BARS, [(event(EventKind.BAR_OUT, words=bar), place)])
    plan = course.plan
    if "stays as it is" in course.told[0]:
        return
    under_way = {line.round for line in works(before) if line.start_s < place}
    later = [line for line in works(plan) if line.round not in under_way]
    assert all(bar not in line.kit for line in later)
    assert overlaps(plan.run_sheet) == []
    for user in next(line.wave_users for line in before.bars if line.bar == bar):
        assert plan.shown_name(user.athlete) in course.told[0]
    for line in plan.bars:
        for each in line.wave_users:
            dose = plan.dose_of(each.athlete)
            assert dose is not None
            assert dose.target_kg is None or each.load_kg <= dose.target_kg + 1e-9


def test_a_bar_nobody_knows_leaves_the_sheet_and_says_so() -> None:
    course = after(BARS, [(event(EventKind.BAR_OUT, words="bar-99"), 1700.0)])
    assert course.plan == begun(BARS).plan
    assert "'bar-99' is not a bar of the club" in course.told[0]


def test_changes_are_those_since_the_start_each_with_its_place() -> None:
    record = [
        event(EventKind.TIME_LEFT, 1, -5, value=30.0),
        event(EventKind.STARTED, 2, 0, value=0.0),
        event(EventKind.HELD, 3, 60),
        event(EventKind.BAR_OUT, 4, 100, words="bar-10"),
        event(EventKind.WENT_ON, 5, 160),
        event(EventKind.TIME_LEFT, 6, 200, value=8.0),
        event(EventKind.TIME_LEFT, 7, 210, value=9.0),
        event(EventKind.TAKEN_BACK, 8, 211, takes_back="e7"),
    ]
    assert [(c.event.id, c.place_s) for c in changes_of(record)] == [("e4", 60.0), ("e6", 100.0)]


def test_a_session_that_is_started_again_after_its_end_has_a_new_start() -> None:
    record = [
        event(EventKind.STARTED, 1, 0, value=0.0),
        event(EventKind.STARTED, 2, 5, value=0.0),
        event(EventKind.ENDED, 3, 60),
        event(EventKind.STARTED, 4, 90, value=0.0),
    ]
    assert clock_of(record).start == record[3]
    assert clock_of(record[:3]).start == record[0]
    assert clock_of(()).start is None


@pytest.mark.parametrize(("until", "expected"), [(2, {"A01"}), (3, set()), (1, set())])
def test_who_has_stopped_when_a_change_comes(until: int, expected: set[str]) -> None:
    record = [
        event(EventKind.STARTED, 1, 0, value=0.0),
        event(EventKind.ATHLETE_STOPPED, 2, 10, athlete="A01"),
        event(EventKind.ATHLETE_WENT_ON, 3, 20, athlete="A01"),
    ]
    assert stopped_by(record, record[until - 1]) == expected
