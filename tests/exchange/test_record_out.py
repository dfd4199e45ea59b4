"""The record as files: read back by Python's own readers and held against the published schema."""

import csv
import io
import json
from datetime import date, datetime, time, timedelta

import pytest
from hypothesis import given
from jsonschema import Draft202012Validator

from recording import START, records
from squadwright.exchange.record_out import (
    DONE_HEADS,
    EVENT_HEADS,
    RecordFile,
    RecordHead,
    done_csv,
    record_csv,
    write_record,
)
from squadwright.exchange.schema import record_schema
from squadwright.model.record import EventKind, RecordEvent, in_order
from squadwright.planning.live.done import AthleteDone, Fault, StopAsked
from squadwright.planning.live.noted_swaps import NotedSwap

HEAD = RecordHead("s", "Monday", "Club", date(2026, 3, 2), time(18), 60)
VALIDATOR = Draft202012Validator(
    record_schema(), format_checker=Draft202012Validator.FORMAT_CHECKER
)


def event(kind: EventKind, **more: object) -> RecordEvent:
    made: dict[str, object] = {"id": "e1", "session": "s", "device": "phone", "number": 1}
    return RecordEvent(**{**made, "at": START, "kind": kind, **more})  # type: ignore[arg-type]


def lines_of(document: bytes) -> list[dict[str, str]]:
    return list(csv.DictReader(io.StringIO(document.decode("utf-8-sig"), newline="")))


@given(record=records())
def test_any_record_passes_the_schema_and_comes_back_whole(record: list[RecordEvent]) -> None:
    file = RecordFile(HEAD, in_order(record))
    document = json.loads(write_record(file))
    assert [error.message for error in VALIDATOR.iter_errors(document)] == []
    assert [each["id"] for each in document["events"]] == [e.id for e in file.events]
    instants = [datetime.fromisoformat(each["at"]) for each in document["events"]]
    assert instants == [e.at for e in file.events]
    rows = lines_of(record_csv(file, {}))
    assert [row["id"] for row in rows] == [e.id for e in file.events]
    for row, each in zip(rows, file.events, strict=True):
        assert datetime.fromisoformat(row["time"]) == each.at
        assert (float(row["value"]) if row["value"] else None) == each.value


def test_the_json_says_its_version_and_what_was_taken_back() -> None:
    remark = event(EventKind.REMARK, words="x")
    back = event(EventKind.TAKEN_BACK, id="e2", takes_back="e1")
    document = json.loads(write_record(RecordFile(HEAD, (remark, back), taken_back=("e1",))))
    assert document["format_version"] == 1
    assert document["taken_back"] == ["e1"]
    rows = lines_of(record_csv(RecordFile(HEAD, (remark, back), taken_back=("e1",)), {}))
    assert [row["holds"] for row in rows] == ["no", "yes"]


@pytest.mark.parametrize(
    "words",
    ["=1+1", "+SUM(A1)", "-cmd", "@x", "\tx", 'quote " and, comma', "two\nlines", "Ünïcode"],
)
def test_no_text_is_taken_for_a_formula_and_none_breaks_a_line(words: str) -> None:
    file = RecordFile(HEAD, (event(EventKind.REMARK, words=words, author=words),))
    (row,) = lines_of(record_csv(file, {}))
    assert row["words"].removeprefix("'") == words
    assert not row["words"].startswith(("=", "+", "-", "@", "\t"))
    assert row["author"] == row["words"]


def test_a_negative_place_stays_a_number() -> None:
    started = event(EventKind.STARTED, value=-300.0)
    (row,) = lines_of(record_csv(RecordFile(HEAD, (started,)), {}))
    assert (row["value"], row["unit"]) == ("-300", "second of the run sheet")


def test_lines_end_as_rfc_4180_has_them() -> None:
    text = record_csv(RecordFile(HEAD, (event(EventKind.REMARK),)), {}).decode("utf-8-sig")
    assert text.count("\r\n") == 2
    assert text.split("\r\n")[0] == ",".join(EVENT_HEADS)


def test_what_each_athlete_did_stands_on_one_line() -> None:
    done = AthleteDone(
        athlete="A09",
        planned_rounds=4,
        rounds_done=3,
        load_kg=37.5,
        planned_kg=42.5,
        lost=((3, 2), (4, 1)),
        faults=(Fault("knee in", 3, ""), Fault("knee in", 4, "")),
        stopped_in_round=4,
        effort=8.0,
        reserve=2.0,
        kit_limited=True,
        swaps=(NotedSwap("jerk", "Jerk", "Row", 2), NotedSwap("jerk", "Jerk", "", 4)),
        stops_asked=(StopAsked(4, "knee in", 3),),
    )
    (row,) = lines_of(done_csv(RecordFile(HEAD, (), done=(done,)), {"A09": "=Ada"}))
    assert tuple(row) == DONE_HEADS
    assert row == {
        "athlete": "A09",
        "name": "'=Ada",
        "planned_rounds": "4",
        "rounds_done": "3",
        "planned_sets": "0",
        "sets_done": "0",
        "planned_kg": "42.5",
        "load_kg": "37.5",
        "lost_repetitions": "3",
        "lost_by_round": "round 3: 2; round 4: 1",
        "faults": "knee in x 2 from round 3, likely fatigue",
        "swaps": "Row instead of Jerk from round 2; Jerk again from round 4",
        "stops_asked": "asked to stop in round 4: knee in, 3 times",
        "stopped_in_round": "4",
        "effort": "8",
        "reserve_reps": "2",
        "kit_limited": "yes",
        "was_there": "yes",
    }
    document = json.loads(write_record(RecordFile(HEAD, (), done=(done,))))
    assert [error.message for error in VALIDATOR.iter_errors(document)] == []
    assert document["done"][0]["lost"] == [[3, 2], [4, 1]]
    first = {"exercise": "jerk", "name": "Jerk", "instead": "Row", "round": 2}
    assert document["done"][0]["swaps"][0] == first


def test_the_schema_refuses_what_no_record_says() -> None:
    """The check above would be worth nothing if it could not fail."""
    document = json.loads(write_record(RecordFile(HEAD, (event(EventKind.REMARK),))))
    for broken in (
        {**document, "format_version": 2},
        {**document, "extra": 1},
        {**document, "events": [{**document["events"][0], "kind": "dancing"}]},
        {**document, "session": {**document["session"], "name": ""}},
    ):
        assert not VALIDATOR.is_valid(broken)


def test_instants_are_written_in_utc_whatever_the_offset() -> None:
    later = event(
        EventKind.REMARK, at=START.astimezone().replace(microsecond=0) + timedelta(hours=1)
    )
    (row,) = lines_of(record_csv(RecordFile(HEAD, (later,)), {}))
    assert row["time"] == "2026-03-02T19:00:00.000+00:00"
