"""The week and the calendar in the club file: older files load, and what cannot be is named."""

import json
from datetime import date
from typing import Any

import pytest

from squadwright.demo import demo_club
from squadwright.exchange.club_file import examine_club, write_club
from squadwright.model.calendar import ClashLimits, Work

MONDAY = date(2026, 3, 2)
NEW_OF_CLUB = ("time_zone", "closures", "terms", "travel", "slot_changes", "fixtures")
NEW_OF_SLOT = ("work", "planned_effort", "regions", "to_failure", "room", "staff")


def demo() -> dict[str, Any]:
    document: dict[str, Any] = json.loads(write_club(demo_club(MONDAY)))
    return document


def test_a_file_written_before_there_was_a_calendar_still_loads() -> None:
    document = demo()
    for name in (*NEW_OF_CLUB, "clash_limits"):
        document.pop(name, None)
    for slot in document["week"]:
        for name in NEW_OF_SLOT:
            slot.pop(name, None)
    club, complaints = examine_club(json.dumps(document), today=MONDAY)
    assert complaints == []
    assert club is not None
    assert club.clash_limits == ClashLimits()
    assert {(slot.work, slot.planned_effort) for slot in club.week} == {(Work.NOT_STATED, None)}


@pytest.mark.parametrize(
    ("path", "value", "said"),
    [
        ("time_zone", "Europe/Lisboa", "Did you mean 'Europe/Lisbon'?"),
        ("closures.0.ends_on", "2026-03-01", "is before the first day 2026-03-18"),
        ("closures.0.ends_on", "2028-03-01", "the limit is 400 days"),
        ("closures.0.rooms", ["cellar"], "'cellar' is not a room"),
        ("terms.1.id", "spring-term", "is used twice"),
        ("travel.0.athlete", "A99", "'A99' is not an athlete of the club"),
        ("travel.0.time_zone", "Mars/Olympus", "is not a time zone of the IANA database"),
        ("week.0.planned_effort", 11, "11 is above the limit of 10"),
        ("week.0.room", "cellar", "'cellar' is not a room"),
        ("week.0.staff", ["Nobody"], "'Nobody' is not one of the staff"),
        ("week.0.work", "barbel", "Did you mean 'barbell'?"),
        ("slot_changes", [{"id": "c", "slot": "x", "held_on": "2026-03-02"}], "a slot of the week"),
        (
            "slot_changes",
            [{"id": "c", "slot": "mon-barbell", "held_on": "2026-03-02", "ends_at": "17:00"}],
            "17:00 is not after the start 18:00",
        ),
        ("clash_limits.contact_hours", 999, "999 is above the limit of 240"),
    ],
)
def test_what_cannot_be_is_named_with_its_place(path: str, value: object, said: str) -> None:
    document = demo()
    *above, last = path.split(".")
    held: Any = document
    for step in above:
        held = held[int(step)] if step.isdigit() else held[step]
    held[last] = value
    _, complaints = examine_club(json.dumps(document), today=MONDAY)
    assert any(said in str(complaint) for complaint in complaints), complaints
