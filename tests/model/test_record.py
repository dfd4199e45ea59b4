"""A record is a set of events: any order of arrival and any repetition give the same record."""

from dataclasses import replace
from datetime import datetime, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from recording import START, records
from squadwright.errors import InvalidInput
from squadwright.model.record import EventKind, RecordEvent, in_force, in_order


def event(number: int, kind: EventKind, **more: object) -> RecordEvent:
    made = RecordEvent(
        id=f"e{number}",
        session="s",
        device="phone",
        number=number,
        at=START + timedelta(seconds=number),
        kind=EventKind.REMARK,
    )
    return replace(made, kind=kind, **more)  # type: ignore[arg-type]


def taken_back(number: int, other: int) -> RecordEvent:
    return event(number, EventKind.TAKEN_BACK, takes_back=f"e{other}")


@given(record=records(), random=st.randoms(use_true_random=False))
def test_order_of_arrival_and_repetition_make_no_difference(record, random) -> None:  # type: ignore[no-untyped-def]
    arrived = [*record, *(e for e in record if random.random() < 0.5)]
    random.shuffle(arrived)
    assert in_order(arrived) == in_order(record)
    assert in_force(arrived) == in_force(record)


@given(record=records())
def test_what_holds_is_what_nothing_that_holds_takes_back(record: list[RecordEvent]) -> None:
    """The definition itself, checked from outside; events here never take back in a ring."""
    held = {e.id for e in in_force(record)}
    takers = {e.id: [t for t in record if t.takes_back == e.id] for e in record}

    def holds(e: RecordEvent) -> bool:
        return not any(holds(t) for t in takers[e.id])

    assert held == {
        e.id for e in record if e.kind is EventKind.OUT or (holds(e) and not e.takes_back)
    }


def test_who_is_out_until_cleared_stays_out_whatever_is_taken_back() -> None:
    out = event(1, EventKind.OUT, athlete="A01")
    assert in_force([out, taken_back(2, 1)]) == (out,)


def test_an_undo_is_undone_by_another() -> None:
    first = event(1, EventKind.REMARK)
    assert in_force([first, taken_back(2, 1)]) == ()
    assert in_force([first, taken_back(2, 1), taken_back(3, 2)]) == (first,)
    assert in_force([first, taken_back(2, 1), taken_back(3, 2), taken_back(4, 3)]) == ()


def test_two_devices_that_take_back_one_event_take_it_back_once() -> None:
    first = event(1, EventKind.REMARK)
    both = [first, taken_back(2, 1), replace(taken_back(3, 1), device="tablet")]
    assert in_force(both) == ()
    assert in_force([*both, taken_back(4, 2)]) == ()
    assert in_force([*both, taken_back(4, 2), taken_back(5, 3)]) == (first,)


def test_events_that_take_each_other_back_end_without_a_hang() -> None:
    ring = [taken_back(1, 2), taken_back(2, 1), event(3, EventKind.REMARK)]
    assert in_force(ring) == (ring[2],)


def test_a_thousand_undoes_in_a_row_are_no_trouble() -> None:
    chain = [event(0, EventKind.REMARK), *(taken_back(n, n - 1) for n in range(1, 5001))]
    assert in_force(chain) == (chain[0],)
    assert in_force(chain[:-1]) == ()


@pytest.mark.parametrize(
    ("kind", "more", "told"),
    [
        (EventKind.REPETITIONS_LOST, {"athlete": "A01"}, "None repetitions is outside 1 to 200"),
        (EventKind.REPETITIONS_LOST, {"value": 2.0}, "Name the athlete"),
        (EventKind.EFFORT, {"athlete": "A01", "value": 11.0}, "11.0 points of 10 is outside"),
        (EventKind.REMARK, {"value": 1.0}, "has no value"),
        (EventKind.TAKEN_BACK, {}, "Name the event that is taken back"),
        (EventKind.REMARK, {"takes_back": "e1"}, "does not go with"),
        (EventKind.REMARK, {"at": datetime(2026, 3, 2, 18, 0)}, "no offset from UTC"),
    ],
)
def test_an_event_that_says_nothing_usable_is_refused(
    kind: EventKind, more: dict[str, object], told: str
) -> None:
    with pytest.raises(InvalidInput, match=told):
        event(1, kind, **more)
