"""Heat that is read while a session runs: who is started into another round, and who is not.

Row 3 of the published table (NATA 2002, ACSM 2007, 86 degF = 30.0 degC WBGT) cancels for who is
not used to heat, row 4 (90 degF = 32.2 degC) for all.
"""

from copy import deepcopy
from dataclasses import replace
from datetime import date, datetime, timedelta
from typing import Any

import pytest

from recording import START
from services.fakes import FakeKeeper, FakeStore
from squadwright.demo import demo_club
from squadwright.exchange.record_file import Brought
from squadwright.model.record import FOR_HEAT, EventKind, RecordEvent, in_force
from squadwright.model.session import HeatReading
from squadwright.planning.gates.heat_stop import stops_from_c
from squadwright.planning.live.clock import clock_of
from squadwright.planning.live.done import done
from squadwright.services.club_changes import change_club
from squadwright.services.meeting import meet
from squadwright.services.record import record_of
from squadwright.services.running import running
from squadwright.services.session_changes import with_session
from squadwright.services.squad import with_athlete

MONDAY = date(2026, 3, 2)
SESSION = "monday-barbell"


def event(number: int, seconds: float, kind: EventKind, **more: Any) -> RecordEvent:
    return RecordEvent(f"e{number}", SESSION, "phone", number, later(seconds), kind, **more)


def later(seconds: float) -> datetime:
    return START + timedelta(seconds=seconds)


@pytest.fixture(scope="module")
def begun() -> FakeKeeper:
    keeper = FakeKeeper(FakeStore(demo_club(MONDAY)), is_ready=True)
    bring(keeper, 0, event(1, 0, EventKind.STARTED, value=0.0))
    return keeper


@pytest.fixture
def keeper(begun: FakeKeeper) -> FakeKeeper:
    return deepcopy(begun)


def bring(keeper: FakeKeeper, seconds: float, *events: RecordEvent) -> tuple[RecordEvent, ...]:
    brought = Brought(0, events, "phone")
    meet(keeper, SESSION, brought, today=MONDAY, now=later(seconds))
    return in_force(record_of(keeper, SESSION))


def enter(keeper: FakeKeeper, wet_bulb_globe_c: float) -> None:
    """As the form of the session does it, on another page."""
    heat = HeatReading(wet_bulb_globe_c=wet_bulb_globe_c)
    change_club(
        keeper,
        lambda club: with_session(club, replace(club.session(SESSION), heat=heat)),
        today=MONDAY,
    )


def kinds(keeper: FakeKeeper) -> list[EventKind]:
    return [each.kind for each in in_force(record_of(keeper, SESSION))]


def first_round(keeper: FakeKeeper) -> tuple[int, int]:
    lines = running(keeper, SESSION, today=MONDAY).plan.run_sheet
    line = next(line for line in lines if line.activity == "work" and line.round)
    return line.start_s, line.end_s


def test_a_reading_on_the_site_that_cancels_stops_the_open_floor_when_the_round_ends(
    keeper: FakeKeeper,
) -> None:
    begins, ends = first_round(keeper)
    enter(keeper, 32.3)
    answered = bring(keeper, begins + 10)
    assert [e.kind for e in answered[1:]] == [EventKind.HEAT_READ, EventKind.HEAT_STOP]
    assert answered[1].value == 32.3
    assert "cancel" in answered[2].words
    # What the device is answered holds it as well.
    met = meet(keeper, SESSION, Brought(0, (), "phone"), today=MONDAY, now=later(begins + 11))
    assert met.exchange.events == answered
    clock = clock_of(answered)
    assert clock.place_at(later(begins + 20)) == begins + 20
    assert clock.place_at(later(ends + 900)) == ends
    # Asked again, nothing is written twice.
    bring(keeper, begins + 12)
    assert kinds(keeper).count(EventKind.HEAT_STOP) == 1
    run = running(keeper, SESSION, today=MONDAY)
    rows = done(run.plan, answered, now=later(ends + 900), stop_after=3)
    assert {row.rounds_done for row in rows} == {0, 1}


def test_one_reading_below_lets_it_go_on_held(keeper: FakeKeeper) -> None:
    begins, ends = first_round(keeper)
    enter(keeper, 32.3)
    bring(keeper, begins + 10)
    record = bring(keeper, ends + 900, event(2, ends + 890, EventKind.HEAT_READ, value=24.0))
    # The device has its time to say so itself; then it is said for it.
    assert record[-1].kind is EventKind.HEAT_READ
    assert bring(keeper, ends + 899)[-1].kind is EventKind.HEAT_READ
    record = bring(keeper, ends + 901)
    assert record[-1].kind is EventKind.HEAT_OVER
    clock = clock_of(record)
    assert (clock.place_at(later(ends + 2000)), clock.is_running) == (ends, False)
    club = keeper.store.club
    assert club is not None
    assert club.session(SESSION).heat == HeatReading(wet_bulb_globe_c=24.0)


def test_in_row_three_only_who_is_not_used_to_heat_stops(keeper: FakeKeeper) -> None:
    begins, _ = first_round(keeper)
    club = keeper.store.club
    assert club is not None
    who = next(a for a in club.athletes if a.id == "A01")
    used = replace(who, medical=replace(who.medical, is_used_to_heat=True))
    change_club(keeper, lambda club: with_athlete(club, used), today=MONDAY)
    enter(keeper, 30.5)
    record = bring(keeper, begins + 10)
    stopped = {e.athlete for e in record if e.kind is EventKind.ATHLETE_STOPPED}
    assert stopped
    assert "A01" not in stopped
    assert all(e.words == FOR_HEAT for e in record if e.athlete in stopped)
    assert EventKind.HEAT_STOP not in kinds(keeper)
    bring(keeper, begins + 60, event(2, begins + 60, EventKind.HEAT_READ, value=20.0))
    back = bring(keeper, begins + 70)
    assert {e.athlete for e in back if e.kind is EventKind.ATHLETE_WENT_ON} == stopped


def test_what_a_device_read_before_the_site_does_not_count_after_it(keeper: FakeKeeper) -> None:
    begins, _ = first_round(keeper)
    enter(keeper, 32.3)
    # Noted in flight mode, brought late: cooler, and earlier.
    bring(keeper, begins + 60, event(2, begins + 5, EventKind.HEAT_READ, value=20.0))
    bring(keeper, begins + 90)
    club = keeper.store.club
    assert club is not None
    assert club.session(SESSION).heat == HeatReading(wet_bulb_globe_c=32.3)
    assert EventKind.HEAT_STOP in kinds(keeper)
    assert EventKind.HEAT_OVER not in kinds(keeper)


def test_an_ended_session_is_left_alone(keeper: FakeKeeper) -> None:
    bring(keeper, 100, event(2, 100, EventKind.ENDED))
    enter(keeper, 35.0)
    bring(keeper, 200)
    assert kinds(keeper) == [EventKind.STARTED, EventKind.ENDED]


def test_the_reading_that_stops_somebody_is_the_border_of_his_row() -> None:
    club = demo_club(MONDAY)
    session = club.session(SESSION)
    grown = next(a for a in club.athletes if a.age_on(MONDAY) >= 18)
    plain = replace(grown, medical=replace(grown.medical, is_used_to_heat=False))
    used = replace(grown, medical=replace(grown.medical, is_used_to_heat=True))
    # 86 degF is 30.0 degC, 90 degF is 32.22 degC: the next tenth above each stops him.
    assert stops_from_c(club, plain, session) == 30.1
    assert stops_from_c(club, used, session) == 32.3
