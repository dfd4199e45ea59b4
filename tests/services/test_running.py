"""The plan of a session is pinned when it is started, and follows what the record says since."""

from dataclasses import dataclass
from datetime import date, timedelta
from typing import Any

import pytest

from recording import START
from services.fakes import FakeKeeper, FakeStore
from squadwright.demo import demo_club
from squadwright.exchange.record_file import Brought
from squadwright.model.record import EventKind, RecordEvent
from squadwright.model.session import Presence
from squadwright.services.check_in import mark_presence
from squadwright.services.club_changes import take_back
from squadwright.services.meeting import meet
from squadwright.services.running import Running, present_revision, running
from squadwright.services.store import report_missing
from squadwright.storage.keeper import SqlKeeper

MONDAY = date(2026, 3, 2)
SESSION = "monday-barbell"


def club_keeper() -> FakeKeeper:
    return FakeKeeper(FakeStore(demo_club(MONDAY)), is_ready=True)


def event(number: int, seconds: float, kind: EventKind, **more: Any) -> RecordEvent:
    at = START + timedelta(seconds=seconds)
    return RecordEvent(f"e{number}", SESSION, "phone", number, at, kind, **more)


START_EVENT = event(1, 0, EventKind.STARTED, value=0.0)


def bring(keeper: FakeKeeper | SqlKeeper, *events: RecordEvent) -> Running:
    meet(keeper, SESSION, Brought(0, events, "phone"), today=MONDAY)
    return now(keeper)


def now(keeper: FakeKeeper | SqlKeeper) -> Running:
    return running(keeper, SESSION, today=MONDAY)


def test_before_the_start_the_sheet_follows_the_door() -> None:
    keeper = club_keeper()
    first = now(keeper)
    mark_presence(keeper, SESSION, "A01", Presence.ABSENT, today=MONDAY)
    assert now(keeper).plan.run_sheet != first.plan.run_sheet
    assert present_revision(keeper, SESSION) == ""


def test_starting_pins_what_was_shown_and_the_door_moves_it_no_more() -> None:
    keeper = club_keeper()
    shown = now(keeper)
    pinned = bring(keeper, START_EVENT)
    assert pinned.plan == shown.plan
    assert pinned.revision == shown.revision == present_revision(keeper, SESSION)
    mark_presence(keeper, SESSION, "A01", Presence.ABSENT, today=MONDAY)
    assert now(keeper).plan == shown.plan
    # The same start brought again pins nothing again.
    assert bring(keeper, START_EVENT).number == pinned.number == 1


def test_what_was_taken_back_before_the_start_is_not_in_what_is_pinned() -> None:
    keeper = club_keeper()
    shown = now(keeper)
    lacking = report_missing(keeper, SESSION, ("plates-2.5",), 2, today=MONDAY)
    assert now(keeper).plan.bars != shown.plan.bars
    take_back(keeper, lacking.step, today=MONDAY)
    assert now(keeper).plan == shown.plan
    assert bring(keeper, START_EVENT).plan == shown.plan


def test_minutes_left_move_the_sheet_and_taking_them_back_puts_it_back() -> None:
    keeper = club_keeper()
    pinned = bring(keeper, START_EVENT)
    left = event(2, 1700, EventKind.TIME_LEFT, value=8.0)
    moved = bring(keeper, left)
    assert moved.revision != pinned.revision
    assert moved.plan.run_sheet[-1].end_s == 1700 + 8 * 60
    assert moved.told[0].startswith("8 min left: cut to fit: ")
    back = bring(keeper, event(3, 1703, EventKind.TAKEN_BACK, takes_back="e2"))
    assert back.plan == pinned.plan
    assert back.revision == pinned.revision
    assert back.told == ()
    assert back.number == moved.number + 1
    again = bring(keeper, event(4, 1705, EventKind.TAKEN_BACK, takes_back="e3"))
    assert again.plan == moved.plan


def test_a_device_that_was_away_brings_start_and_changes_at_once() -> None:
    at_once, one_by_one = club_keeper(), club_keeper()
    record = (
        START_EVENT,
        event(2, 1700, EventKind.TIME_LEFT, value=20.0),
        event(3, 1720, EventKind.BAR_OUT, words=now(at_once).plan.bars[1].bar),
    )
    bring(at_once, *record)
    for each in record:
        bring(one_by_one, each)
    assert now(at_once).plan == now(one_by_one).plan
    assert len(now(at_once).told) == 2


def test_a_start_that_is_taken_back_unpins() -> None:
    keeper = club_keeper()
    bring(keeper, START_EVENT)
    bring(keeper, event(2, 4, EventKind.TAKEN_BACK, takes_back="e1"))
    mark_presence(keeper, SESSION, "A01", Presence.ABSENT, today=MONDAY)
    attendance = {line.athlete: line.status for line in now(keeper).plan.attendance}
    assert attendance["A01"] == "absent"


@dataclass
class CountingStore(FakeStore):
    """A store that counts how often events were asked for."""

    reads: int = 0

    def events_of(self, session_id: str, *, after: int) -> tuple[tuple[RecordEvent, ...], int]:
        self.reads += 1
        return super().events_of(session_id, after=after)


@pytest.mark.parametrize(
    "brought",
    [
        (),
        (event(2, 5, EventKind.REMARK, words="fine"),),
        (event(2, 1700, EventKind.TIME_LEFT, value=8.0),),
        (event(2, 5, EventKind.TAKEN_BACK, takes_back="e1"),),
        (event(2, 5, EventKind.OUT, athlete="A09", words="head knock"),),
    ],
    ids=lambda events: events[0].kind.value if events else "nothing",
)
def test_events_are_read_once_in_an_exchange(brought: tuple[RecordEvent, ...]) -> None:
    store = CountingStore(demo_club(MONDAY))
    keeper = FakeKeeper(store, is_ready=True)
    for events, after, seen in (((START_EVENT,), 0, (START_EVENT,)), (brought, 1, brought)):
        store.reads = 0
        met = meet(keeper, SESSION, Brought(after, events, "phone"), today=MONDAY)
        assert store.reads == 1
        assert met.exchange.events == seen
        assert met.exchange.added == len(events)
        assert met.exchange.upto == after + len(events)
    again = meet(keeper, SESSION, Brought(7, brought, "phone"), today=MONDAY)
    assert (again.exchange.events, again.exchange.added, again.exchange.upto) == ((), 0, 7)


def test_it_is_stored_for_good(keeper: SqlKeeper) -> None:
    bring(keeper, START_EVENT)
    moved = bring(keeper, event(2, 1700, EventKind.TIME_LEFT, value=8.0))
    with keeper.reading() as store:
        course = store.courses_of(SESSION, "e1")[-1]
        assert store.last_course(SESSION) == (2, "e1", moved.revision)
    assert course.plan == moved.plan
    assert course.changes == ("e2",)
