"""Devices and the server: every acknowledged tap is in the record exactly once, whatever is lost.

Two devices note events while messages between them and the server are lost, repeated and brought
late, and each device dies now and then and starts again from what it had stored.
"""

import json
import os
from dataclasses import dataclass, field, replace
from datetime import date, timedelta

import pytest
from hypothesis import HealthCheck, settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, invariant, rule, run_state_machine_as_test

from recording import START
from services.fakes import FakeKeeper, FakeStore
from squadwright.demo import demo_club
from squadwright.errors import Conflict, InvalidInput, NotFound
from squadwright.exchange.record_file import read_brought
from squadwright.model.record import EventKind, RecordEvent, in_force
from squadwright.services.record import MOST_AT_ONCE, Exchange, exchange, record_of
from squadwright.storage.keeper import SqlKeeper

MONDAY = date(2026, 3, 2)
SESSION = "monday-barbell"
RUNS = 1000 if os.environ.get("SQUADWRIGHT_SOAK") else 200


@dataclass
class Device:
    """What the page on a device does: note, store, send, take the answer."""

    name: str
    stored: dict[str, RecordEvent] = field(default_factory=dict)
    acknowledged: set[str] = field(default_factory=set)
    upto: int = 0
    number: int = 0

    def note(self, kind: EventKind, **more: object) -> RecordEvent:
        self.number += 1
        made = RecordEvent(
            f"{self.name}-{self.number}",
            SESSION,
            self.name,
            self.number,
            START + timedelta(seconds=self.number),
            EventKind.REMARK,
        )
        event = replace(made, kind=kind, **more)  # type: ignore[arg-type]
        self.stored[event.id] = event
        return event

    def message(self) -> tuple[tuple[RecordEvent, ...], int]:
        unsent = [e for e in self.stored.values() if e.id not in self.acknowledged]
        return tuple(unsent[:MOST_AT_ONCE]), self.upto

    def take(self, answer: Exchange) -> None:
        self.acknowledged |= set(answer.stored)
        for event in answer.events:
            self.stored[event.id] = event
            self.acknowledged.add(event.id)
        # An answer that was late must not set the device back.
        self.upto = max(self.upto, answer.upto)


class Floor(RuleBasedStateMachine):
    """Two devices on one session, over a line that loses, repeats and reorders."""

    def __init__(self) -> None:
        super().__init__()
        self.keeper = FakeKeeper(FakeStore(demo_club(MONDAY)), is_ready=True)
        self.devices = [Device("phone"), Device("tablet")]
        self.under_way: list[tuple[Device, tuple[RecordEvent, ...], int]] = []
        self.answers: list[tuple[Device, Exchange]] = []

    @rule(which=st.integers(0, 1), repetitions=st.integers(1, 5))
    def tap(self, which: int, repetitions: int) -> None:
        self.devices[which].note(
            EventKind.REPETITIONS_LOST, athlete="A09", round=3, value=float(repetitions)
        )

    @rule(which=st.integers(0, 1), pick=st.integers(0, 50))
    def undo(self, which: int, pick: int) -> None:
        device = self.devices[which]
        if device.stored:
            other = list(device.stored)[pick % len(device.stored)]
            device.note(EventKind.TAKEN_BACK, takes_back=other)

    @rule(which=st.integers(0, 1))
    def send(self, which: int) -> None:
        device = self.devices[which]
        self.under_way.append((device, *device.message()))

    @rule(pick=st.integers(0, 50), repeat=st.booleans())
    def arrives(self, pick: int, repeat: bool) -> None:
        if self.under_way:
            at = pick % len(self.under_way)
            device, events, after = self.under_way[at] if repeat else self.under_way.pop(at)
            answer = exchange(self.keeper, SESSION, events, after=after)
            self.answers.append((device, answer))

    @rule(pick=st.integers(0, 50))
    def message_is_lost(self, pick: int) -> None:
        if self.under_way:
            self.under_way.pop(pick % len(self.under_way))

    @rule(pick=st.integers(0, 50), repeat=st.booleans())
    def answer_arrives(self, pick: int, repeat: bool) -> None:
        if self.answers:
            at = pick % len(self.answers)
            device, answer = self.answers[at] if repeat else self.answers.pop(at)
            device.take(answer)

    @rule(pick=st.integers(0, 50))
    def answer_is_lost(self, pick: int) -> None:
        if self.answers:
            self.answers.pop(pick % len(self.answers))

    @rule(which=st.integers(0, 1))
    def device_starts_again(self, which: int) -> None:
        """The page is gone; what the device stored with each tap is still there."""
        old = self.devices[which]
        new = Device(old.name, dict(old.stored), set(old.acknowledged), old.upto, old.number)
        self.devices[which] = new
        self.answers = [(new if d is old else d, a) for d, a in self.answers]
        self.under_way = [(new if d is old else d, e, n) for d, e, n in self.under_way]

    @invariant()
    def everything_acknowledged_is_in_the_record_once(self) -> None:
        ids = [event.id for event in record_of(self.keeper, SESSION)]
        assert len(ids) == len(set(ids))
        for device in self.devices:
            assert device.acknowledged <= set(ids)

    def teardown(self) -> None:
        """The line comes back: after two rounds everybody holds the same record."""
        for _ in range(2):
            for device in self.devices:
                events, after = device.message()
                device.take(exchange(self.keeper, SESSION, events, after=after))
        record = record_of(self.keeper, SESSION)
        for device in self.devices:
            assert set(device.stored) == {event.id for event in record}
            assert in_force(device.stored.values()) == in_force(record)


def test_nothing_acknowledged_is_lost_on_a_line_that_loses_repeats_and_reorders() -> None:
    """hypothesis: 200 runs, 1,000 when soaking."""
    run_state_machine_as_test(
        Floor,
        settings=settings(
            max_examples=RUNS,
            stateful_step_count=40,
            deadline=None,
            suppress_health_check=list(HealthCheck),
        ),
    )


def test_the_same_message_twice_is_stored_once(keeper: SqlKeeper) -> None:
    device = Device("phone")
    first = device.note(EventKind.FAULT, athlete="A09", round=2, words="lower back rounds")
    answers = [exchange(keeper, SESSION, [first], after=0) for _ in range(2)]
    assert answers[0].stored == answers[1].stored == (first.id,)
    assert record_of(keeper, SESSION) == (first,)


def test_an_event_is_never_changed(keeper: SqlKeeper) -> None:
    device = Device("phone")
    first = device.note(EventKind.REMARK, words="music too loud")
    exchange(keeper, SESSION, [first], after=0)
    with pytest.raises(Conflict, match="says something else"):
        exchange(keeper, SESSION, [replace(first, words="other")], after=0)
    assert record_of(keeper, SESSION) == (first,)


def test_a_message_with_one_bad_event_stores_nothing(keeper: SqlKeeper) -> None:
    device = Device("phone")
    good = device.note(EventKind.REMARK, words="fine")
    for bad, told in (
        (replace(good, id="x", session="wednesday-plyometric"), "belongs to"),
        (device.note(EventKind.FAULT, athlete="A99", words="?"), "not an athlete"),
        (device.note(EventKind.TAKEN_BACK, takes_back="nobody"), "not in the record"),
    ):
        with pytest.raises(InvalidInput, match=told):
            exchange(keeper, SESSION, [good, bad], after=0)
    assert record_of(keeper, SESSION) == ()
    with pytest.raises(InvalidInput, match="too many at once"):
        exchange(keeper, SESSION, [good] * (MOST_AT_ONCE + 1), after=0)
    with pytest.raises(NotFound):
        exchange(keeper, "no-such", [], after=0)


def test_a_device_gets_what_it_has_not_seen(keeper: SqlKeeper) -> None:
    phone, tablet = Device("phone"), Device("tablet")
    phone.note(EventKind.REMARK, words="one")
    for device in (phone, tablet):
        events, after = device.message()
        device.take(exchange(keeper, SESSION, events, after=after))
    assert tablet.stored == phone.stored
    again = exchange(keeper, SESSION, [], after=tablet.upto)
    assert (again.events, again.upto) == ((), tablet.upto)


def test_the_records_of_other_sessions_do_not_use_up_the_count(keeper: SqlKeeper) -> None:
    others = []
    for number in range(1_005):
        device = Device(f"d{number}")
        others.append(replace(device.note(EventKind.REMARK), session="wednesday-plyometric"))
    for first in range(0, len(others), MOST_AT_ONCE):
        exchange(keeper, "wednesday-plyometric", others[first : first + MOST_AT_ONCE], after=0)
    phone = Device("phone")
    phone.note(EventKind.REMARK, words="one")
    events, after = phone.message()
    answer = exchange(keeper, SESSION, events, after=after)
    assert (answer.events, answer.upto) == (events, 1)
    brought = read_brought(json.dumps({"after": answer.upto, "events": []}).encode())
    assert exchange(keeper, SESSION, brought.events, after=brought.after).events == ()
