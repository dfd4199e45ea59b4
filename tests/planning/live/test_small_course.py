"""The small club's session while it runs: who comes late, minutes that are left, what is over."""

from collections.abc import Sequence
from dataclasses import replace
from datetime import timedelta
from functools import cache

import pytest

from planning.verify.sound_plan import CLUB, SESSION
from recording import START
from squadwright.errors import InvalidInput
from squadwright.model.club import Club
from squadwright.model.record import EventKind, RecordEvent
from squadwright.model.session import CheckIn, Presence, Session
from squadwright.planning.live.changes import Change, changes_of, stopped_by, worked_in
from squadwright.planning.live.course import Course, started, with_new_plan, with_time_left
from squadwright.planning.plan import make_timed

AWAY = replace(SESSION, check_ins=(CheckIn("A4", Presence.ABSENT),))
LATE = replace(SESSION, check_ins=(CheckIn("A4", Presence.LATE, 5),))
WITHOUT = replace(SESSION, athletes=SESSION.athletes[:3])


def club_with(session: Session) -> Club:
    return replace(CLUB, sessions=(session,))


@cache
def begun(session: Session = SESSION) -> Course:
    return started(make_timed(club_with(session), session))


def event(kind: EventKind, number: int = 1, seconds: float = 0, **more: object) -> RecordEvent:
    at = START + timedelta(seconds=seconds)
    return RecordEvent(f"e{number}", SESSION.id, "phone", number, at, kind, **more)  # type: ignore[arg-type]


def after(
    session: Session, *changes: Change, stopped: Sequence[str] = (), course: Course | None = None
) -> Course:
    now = course or begun(session)
    return worked_in(now, club_with(session), session, changes, frozenset(stopped))


def joins(place_s: float, session: Session = AWAY) -> Course:
    return after(session, Change(event(EventKind.JOINED_LATE, athlete="A4"), place_s))


@pytest.mark.parametrize(
    ("place_s", "minutes"), [(0, 1), (1, 1), (60, 1), (60.5, 2), (61, 2), (600, 10), (601, 11)]
)
def test_who_comes_late_is_late_by_the_minutes_begun(place_s: float, minutes: int) -> None:
    for session in (AWAY, WITHOUT):
        line = next(a for a in joins(place_s, session).plan.attendance if a.athlete == "A4")
        assert (line.status, line.late_minutes) == ("late", minutes)


def test_he_warms_up_and_joins_where_the_sheet_says() -> None:
    course = joins(600)
    own = [x for x in course.plan.run_sheet if "A4" in x.athletes]
    first = next(x for x in own if x.activity.startswith("work"))
    warm = [x for x in own if x.activity == "warm-up"]
    assert sum(x.end_s - x.start_s for x in warm) >= 480
    assert min(x.start_s for x in own) >= 600
    said = course.told[-1]
    assert said.startswith("Dag Elster is here: ")
    at = f"{first.start_s // 60}:{first.start_s % 60:02}"
    assert f"Dag Elster warms up and joins round {first.round} of A at {at} on bar " in said
    dose = course.plan.dose_of("A4")
    assert dose is not None
    rounds = sorted(x.round or 0 for x in own if x.activity == "work" and x.block == "A")
    assert (dose.first_round, dose.rounds) == (rounds[0], len(rounds))


def test_where_no_bar_waits_it_is_said_with_whom_he_works() -> None:
    course = joins(1300)
    own = [x for x in course.plan.run_sheet if "A4" in x.athletes]
    first = next(x for x in own if x.activity.startswith("work"))
    at = f"{first.start_s // 60}:{first.start_s % 60:02}"
    assert first.group
    assert course.told[-1].endswith(f" joins {first.block} at {at} with {first.group}.")


@pytest.mark.parametrize(("place_s", "is_on_time"), [(300, True), (420, True), (420.5, False)])
def test_who_is_expected_late_is_on_time_within_two_minutes(
    place_s: float, is_on_time: bool
) -> None:
    course = joins(place_s, LATE)
    words = "Dag Elster is here: that is on the sheet already."
    assert (course.told[-1] == words) == is_on_time
    assert (course.plan.run_sheet == begun(LATE).plan.run_sheet) == is_on_time


@pytest.mark.parametrize(
    ("place_s", "slot_s", "origin_s"),
    [(100, 5000, 100), (100.4, 4999, 101), (100.6, 5000, 101), (0, 5000, 0)],
)
def test_minutes_that_are_left_count_from_the_next_whole_second(
    place_s: float, slot_s: int, origin_s: int
) -> None:
    course = with_time_left(begun(), place_s, 5000)
    assert (course.problem.slot_s, course.origin_s) == (slot_s, origin_s)
    assert course.told[-1] == "83 min left: nothing is cut."
    again = with_time_left(course, place_s + 10, 4990)
    assert again.origin_s >= origin_s + 10


def test_minutes_left_are_read_from_the_event_and_too_few_change_nothing() -> None:
    left = Change(event(EventKind.TIME_LEFT, value=20.0), 1000)
    course = after(SESSION, left)
    assert course.problem.slot_s == 20 * 60
    assert course.changes == ("e1",)
    assert "20 min left: cut to fit: " in course.told[-1]
    none = after(SESSION, Change(event(EventKind.TIME_LEFT, value=1.0), 1000))
    assert none.told[-1].startswith("The sheet stays as it is: ")
    assert none.plan == begun().plan
    assert none.changes == ("e1",)


def test_a_bar_that_is_none_of_the_club_changes_nothing() -> None:
    course = after(SESSION, Change(event(EventKind.BAR_OUT, words="bar-9"), 900))
    assert course.told[-1].startswith("The sheet stays as it is: ")
    assert "'bar-9' is not a bar of the club" in course.told[-1]
    assert course.plan == begun().plan


def test_after_the_slot_no_new_plan_is_worked_in() -> None:
    timed = make_timed(CLUB, SESSION)
    with pytest.raises(InvalidInput, match="the slot is over"):
        with_new_plan(begun(), begun().problem.slot_s, timed, words="Late")


def test_who_has_stopped_is_left_out_and_the_others_go_on() -> None:
    change = Change(event(EventKind.JOINED_LATE, athlete="A4"), 600)
    course = after(AWAY, change, stopped=("A1",))
    later = [x for x in course.plan.run_sheet if x.start_s >= course.origin_s]
    assert not [x for x in later if "A1" in x.athletes and x.activity.startswith("work")]
    assert [x for x in later if "A2" in x.athletes and x.activity.startswith("work")]
    # Her dose stays on the plan as it was.
    assert course.plan.dose_of("A1") == begun(AWAY).plan.dose_of("A1")


def test_changes_count_from_the_start_with_their_place() -> None:
    before = event(EventKind.TIME_LEFT, 1, 5, value=30.0)
    begins = event(EventKind.STARTED, 2, 10, value=100.0)
    left = event(EventKind.TIME_LEFT, 3, 40, value=20.0)
    held = event(EventKind.HELD, 4, 50)
    bar = event(EventKind.BAR_OUT, 5, 80, words="bar-1")
    assert changes_of((before,)) == ()
    assert changes_of((before, begins, left, held, bar)) == (
        Change(left, 130.0),
        Change(bar, 140.0),
    )
    fault = event(EventKind.FAULT, 6, 90, athlete="A1")
    assert changes_of((begins, fault)) == ()


def test_who_had_stopped_when_something_happened() -> None:
    stop = event(EventKind.ATHLETE_STOPPED, 1, 10, athlete="A1", round=1)
    other = event(EventKind.ATHLETE_STOPPED, 3, 30, athlete="A2", round=1)
    bar = event(EventKind.BAR_OUT, 2, 20, words="bar-1")
    back = event(EventKind.ATHLETE_WENT_ON, 4, 40, athlete="A1", round=1)
    events = (stop, bar, other, back)
    assert stopped_by(events, bar) == {"A1"}
    assert stopped_by(events, other) == {"A1", "A2"}
    assert stopped_by(events, back) == {"A2"}
    assert stopped_by((bar,), bar) == frozenset()


def test_a_round_under_way_goes_on_with_the_bars_it_began_with() -> None:
    plan = begun(AWAY).plan
    starts = sorted({x.start_s for x in plan.run_sheet if x.activity == "work" and x.round == 1})
    second = min(x.start_s for x in plan.run_sheet if x.activity == "work" and x.round == 2)
    during, before = joins(starts[0] + 10), joins(60)
    assert during.former[-1].until_s == second
    assert during.former[-1].bars == plan.bars
    # Where no round is under way the newer plan holds at once.
    assert before.former[-1].until_s == before.origin_s == 60
