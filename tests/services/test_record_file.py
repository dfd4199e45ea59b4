"""Two telephones without a network: their records are merged from files, with no loss."""

import json
from collections.abc import Sequence
from dataclasses import asdict, replace
from datetime import date, timedelta

import pytest

from recording import START
from squadwright.errors import InvalidInput
from squadwright.exchange.record_file import DeviceRecord, read_device_record
from squadwright.model.record import EventKind, RecordEvent, in_force
from squadwright.services.meeting import take_in
from squadwright.services.record import MOST_AT_ONCE, record_of
from squadwright.storage.keeper import SqlKeeper

TODAY = date(2026, 3, 2)
SESSION = "monday-barbell"


def fault(device: str, number: int) -> RecordEvent:
    return RecordEvent(
        id=f"{device}-{number}",
        session=SESSION,
        device=device,
        number=number,
        at=START + timedelta(seconds=number),
        kind=EventKind.FAULT,
        athlete="A09",
        round=1,
        words="low back rounding",
    )


def saved(events: Sequence[RecordEvent], session: str = SESSION) -> bytes:
    """A file as the page on a device writes it."""
    rows = [{**asdict(e), "at": e.at.isoformat(), "kind": e.kind.value} for e in events]
    device = events[0].device if events else "phone"
    return json.dumps(
        {"format_version": 1, "session": session, "device": device, "events": rows}
    ).encode()


def read(source: bytes) -> DeviceRecord:
    return read_device_record(source, place="record.json")


def test_two_files_are_merged_without_loss_and_twice_adds_nothing(keeper: SqlKeeper) -> None:
    phone = [fault("phone", number) for number in range(1, 40)]
    tablet = [fault("tablet", number) for number in range(1, 30)]
    undo = replace(
        fault("phone", 40), kind=EventKind.TAKEN_BACK, athlete="", words="", takes_back="phone-3"
    )
    files = [saved([*phone, undo]), saved([*tablet, *phone[:10]])]
    news = [take_in(keeper, SESSION, read(file), today=TODAY) for file in files]
    assert news == [40, 29]
    assert [take_in(keeper, SESSION, read(file), today=TODAY) for file in files] == [0, 0]
    record = record_of(keeper, SESSION)
    assert {event.id for event in record} == {e.id for e in (*phone, *tablet, undo)}
    assert len(in_force(record)) == 39 + 29 - 1


def test_a_long_record_comes_in_whole_though_something_is_taken_back_early(
    keeper: SqlKeeper,
) -> None:
    many = [fault("phone", number) for number in range(1, MOST_AT_ONCE + 50)]
    # A device whose clock was set back: it takes back what by the clock came later.
    undo = replace(
        fault("tablet", 0), kind=EventKind.TAKEN_BACK, athlete="", words="", takes_back=many[-1].id
    )
    assert take_in(keeper, SESSION, read(saved([undo, *many])), today=TODAY) == len(many) + 1
    assert many[-1] not in in_force(record_of(keeper, SESSION))


def test_a_file_of_another_session_or_a_damaged_one_stores_nothing(keeper: SqlKeeper) -> None:
    other = read(saved([fault("phone", 1)], session="wednesday-plyometric"))
    with pytest.raises(InvalidInput, match="not of 'monday-barbell'"):
        take_in(keeper, SESSION, other, today=TODAY)
    whole = saved([fault("phone", 1)])
    for damaged in (whole[:-20], whole.replace(b'"fault"', b'"falt"'), b"", b"[]"):
        with pytest.raises(InvalidInput):
            read(damaged)
    assert record_of(keeper, SESSION) == ()
