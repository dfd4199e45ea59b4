"""The clock follows from the record and the time of day, whatever happened in between."""

from datetime import datetime, timedelta

from hypothesis import given
from hypothesis import strategies as st

from floor_clock import boundaries, former_place, moment_at, next_place
from recording import START, records
from squadwright.model.plan import RunLine
from squadwright.model.record import OF_THE_CLOCK, EventKind, RecordEvent, in_force
from squadwright.planning.live.clock import clock_of

SHEET = (
    RunLine(0, 360, "all", "", None, "warm-up"),
    RunLine(360, 460, "wave 1", "bars", None, "work", round=1),
    RunLine(460, 480, "all", "", None, "change-over", round=1),
    RunLine(480, 580, "wave 2", "bars", None, "work", round=1),
)


def at(seconds: float) -> datetime:
    return START + timedelta(seconds=seconds)


def event(number: int, seconds: float, kind: EventKind, value: float | None = None) -> RecordEvent:
    return RecordEvent(f"e{number}", "s", "phone", number, at(seconds), kind, value=value)


def ticked(record: list[RecordEvent], until_ms: int) -> float:
    """The same clock by counting: each millisecond between events is added while it runs."""
    place, running, started, ended = 0.0, False, False, False
    stop: float | None = None
    last = 0
    clocked = [e for e in in_force(record) if e.kind in OF_THE_CLOCK]
    for e in [*clocked, None]:
        now = until_ms if e is None else round((e.at - START).total_seconds() * 1000)
        if now > until_ms:
            break
        if running:
            place += (now - last) / 1000
            place = place if stop is None else min(place, stop)
        last = now
        if e is None:
            break
        if e.kind is EventKind.STARTED:
            if not started or ended:
                place, running, started, ended = float(e.value or 0), True, True, False
                stop = None if stop is None else place
        elif e.kind is EventKind.HEAT_STOP:
            stop = max(float(e.value or 0), place) if stop is None else stop
        elif e.kind is EventKind.HEAT_OVER:
            running, stop = running and stop is None, None
        elif not started:
            continue
        elif e.kind is EventKind.MOVED and stop is not None:
            place = min(max(place, float(e.value or 0)), stop)
        elif e.kind is EventKind.MOVED:
            place = float(e.value or 0)
        elif e.kind is EventKind.HELD:
            running = False
        elif e.kind is EventKind.WENT_ON:
            running = not ended
        elif e.kind is EventKind.ENDED:
            running, ended = False, True
        elif e.kind is EventKind.REOPENED and ended:
            running, ended = True, False
    return place


@given(record=records(), until_ms=st.integers(3_600_000, 7_200_000))
def test_the_clock_is_that_of_counting_every_millisecond(
    record: list[RecordEvent], until_ms: int
) -> None:
    place = clock_of(record).place_at(START + timedelta(milliseconds=until_ms))
    assert abs(place - ticked(record, until_ms)) < 1e-6


def test_holding_stops_the_clock_and_going_on_takes_it_up_where_it_stood() -> None:
    record = [
        event(1, 0, EventKind.STARTED, 360.0),
        event(2, 40, EventKind.HELD),
        event(3, 100, EventKind.WENT_ON),
    ]
    assert clock_of(record[:2]).place_at(at(90)) == 400
    assert clock_of(record).place_at(at(110)) == 410


def test_a_second_start_from_another_device_does_not_set_the_clock_back() -> None:
    record = [event(1, 0, EventKind.STARTED, 0.0), event(2, 30, EventKind.STARTED, 0.0)]
    assert clock_of(record).place_at(at(45)) == 45


def test_an_end_by_mistake_is_taken_back_without_losing_a_second() -> None:
    record = [
        event(1, 0, EventKind.STARTED, 0.0),
        event(2, 60, EventKind.ENDED),
        RecordEvent("e3", "s", "phone", 3, at(68), EventKind.TAKEN_BACK, takes_back="e2"),
    ]
    assert clock_of(record[:2]).is_ended
    assert clock_of(record[:2]).place_at(at(65)) == 60
    assert clock_of(record).place_at(at(70)) == 70


def test_a_session_reopened_later_goes_on_from_where_it_ended() -> None:
    record = [
        event(1, 0, EventKind.STARTED, 0.0),
        event(2, 60, EventKind.ENDED),
        event(3, 600, EventKind.REOPENED),
    ]
    assert clock_of(record).place_at(at(610)) == 70


def test_a_time_with_another_offset_is_the_same_instant() -> None:
    there = START.astimezone(tz=None) + timedelta(seconds=60)
    assert clock_of([event(1, 0, EventKind.STARTED, 0.0)]).place_at(there) == 60


def test_the_moment_says_what_goes_on_and_what_comes_next() -> None:
    moment = moment_at(SHEET, 359.9)
    assert [line.activity for line in moment.now] == ["warm-up"]
    assert moment.next_change_s == 360
    assert [line.group for line in moment.then] == ["wave 1"]
    assert moment_at(SHEET, 360).now[0].group == "wave 1"
    over = moment_at(SHEET, 580)
    assert (over.now, over.next_change_s, over.then) == ((), None, ())


def test_next_and_back_lead_to_boundaries() -> None:
    assert boundaries(SHEET) == (0, 360, 460, 480, 580)
    assert next_place(SHEET, 359.0) == 360
    assert next_place(SHEET, 580) is None
    assert former_place(SHEET, 400) == 360
    assert former_place(SHEET, 361) == 0
    assert former_place(SHEET, -50) == 0
    assert former_place((), 10) == 0


def test_heat_stops_the_clock_where_the_round_ends_and_no_key_moves_it_on() -> None:
    record = [
        event(1, 0, EventKind.STARTED, 360.0),
        event(2, 90, EventKind.HEAT_STOP, 460.0),
        event(3, 150, EventKind.MOVED, 480.0),
        event(4, 160, EventKind.HELD),
        event(5, 170, EventKind.WENT_ON),
    ]
    assert clock_of(record[:2]).place_at(at(95)) == 455
    assert clock_of(record[:2]).place_at(at(600)) == 460
    assert clock_of(record).place_at(at(600)) == 460
    assert clock_of(record).stop_from_s == 450
    cooler = [*record, event(6, 700, EventKind.HEAT_OVER)]
    assert clock_of(cooler).place_at(at(900)) == 460
    assert not clock_of(cooler).is_running
    on = clock_of([*cooler, event(7, 720, EventKind.WENT_ON)])
    assert on.place_at(at(740)) == 480


def test_a_session_that_heat_stopped_before_its_start_does_not_begin() -> None:
    record = [event(1, 0, EventKind.HEAT_STOP, 0.0), event(2, 10, EventKind.STARTED, 360.0)]
    assert clock_of(record).place_at(at(500)) == 360
