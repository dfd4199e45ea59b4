"""What was noted at the mats: merged from several devices, in any order, as often as sent."""

from datetime import UTC, datetime, timedelta
from itertools import permutations

import pytest

from squadwright.errors import InvalidInput
from squadwright.model.record import EventKind, RecordEvent, day_of_record, record_of_day
from squadwright.planning.mat_record import bouts_fought, mat_record

NINE = datetime(2026, 3, 8, 9, 0, tzinfo=UTC)
DAY = record_of_day(NINE.date())


def noted(
    name: str, kind: EventKind, minute: float, value: float | None = None, **more: str
) -> RecordEvent:
    said = {"athlete": "A02", "words": "cup", "device": "phone", **more}
    return RecordEvent(
        id=name,
        session=DAY,
        number=1,
        at=NINE + timedelta(minutes=minute),
        kind=kind,
        value=value,
        **said,
    )


def taken_back(name: str, minute: float) -> RecordEvent:
    more = {"athlete": "", "words": "", "takes_back": name}
    return noted(f"back-{name}", EventKind.TAKEN_BACK, minute, **more)


def test_bouts_are_counted_and_what_was_ahead_is_said_anew() -> None:
    events = [
        noted("a", EventKind.BOUTS_AHEAD, 0, 3),
        noted("b", EventKind.BOUT_OVER, 30),
        noted("c", EventKind.BOUT_OVER, 75),
        noted("d", EventKind.BOUTS_AHEAD, 76, 5),
        noted("e", EventKind.WEIGHS_AT, 1, 450),
    ]
    found = mat_record(events).of("A02", "cup")
    assert len(found.bouts) == 2
    assert found.ahead is events[3]
    assert f"{found.weighs_at:%H:%M}" == "07:30"
    assert mat_record(events[:2]).of("A02", "cup").ahead is None
    back = mat_record([*events[:3], taken_back("c", 80), taken_back("b", 81)]).of("A02", "cup")
    assert back.bouts == ()
    assert back.ahead is events[0]


@pytest.mark.parametrize(
    ("minute", "device", "bouts"),
    [(31, "tablet", 1), (33, "tablet", 1), (34, "tablet", 2), (31, "phone", 2)],
)
def test_one_bout_that_two_devices_saw_end_is_one(minute: int, device: str, bouts: int) -> None:
    events = [
        noted("a", EventKind.BOUT_OVER, 30),
        noted("b", EventKind.BOUT_OVER, minute, device=device),
    ]
    assert bouts_fought(events, "A02", "cup") == bouts


def test_the_order_and_the_number_of_times_they_came_change_nothing() -> None:
    events = [
        noted("a", EventKind.BOUTS_AHEAD, 0, 3),
        noted("b", EventKind.BOUT_OVER, 30),
        noted("c", EventKind.BOUT_OVER, 31, device="tablet"),
        noted("d", EventKind.WARM_FROM, 40, 6, athlete="", words=""),
        taken_back("b", 32),
    ]
    whole = mat_record(events)
    assert whole.settings.bouts_ahead == 6
    assert bouts_fought(events, "A02", "cup") == 1
    for order in permutations(events):
        assert mat_record([*order, *order]) == whole


def test_bouts_of_whom_nothing_was_noted_are_not_known() -> None:
    assert bouts_fought([noted("a", EventKind.BOUTS_AHEAD, 0, 3)], "A02", "cup") == 0
    assert bouts_fought([], "A02", "cup") is None


def test_the_id_of_a_day_is_read_back_and_of_no_session() -> None:
    assert day_of_record(DAY) == NINE.date()
    for other in ("monday-barbell", "event-day-", "event-day-soon", "event-day-20260308"):
        assert day_of_record(other) is None


@pytest.mark.parametrize(
    ("kind", "value", "told"),
    [
        (EventKind.BOUTS_AHEAD, 13, "outside 0 to 12 bouts"),
        (EventKind.WEIGHS_AT, 1440, "outside 0 to 1439 minutes after midnight"),
        (EventKind.BOUT_OVER, 1, "has no value"),
    ],
)
def test_what_cannot_be_is_refused(kind: EventKind, value: float, told: str) -> None:
    with pytest.raises(InvalidInput, match=told):
        noted("a", kind, 0, value)


def test_what_is_noted_of_an_event_names_it() -> None:
    with pytest.raises(InvalidInput, match="names no event"):
        noted("a", EventKind.BOUT_OVER, 0, words="")


def test_who_has_weighed_in_or_is_finished_stays_so_and_nothing_else_of_him_changes() -> None:
    events = [
        noted("a", EventKind.BOUTS_AHEAD, 0, 3),
        noted("b", EventKind.HAS_WEIGHED, 5),
        noted("c", EventKind.DAY_OVER, 90),
    ]
    for upto, has_weighed, is_over in ((1, False, False), (2, True, False), (3, True, True)):
        found = mat_record(events[:upto]).of("A02", "cup")
        assert (found.has_weighed, found.is_over) == (has_weighed, is_over)
        assert found.ahead is events[0]
        assert found.weighs_at is None
    assert mat_record(events).of("A03", "cup").has_weighed is False


def test_how_long_a_bout_takes_and_who_warms_up_are_settings_of_the_day() -> None:
    said = {"athlete": "", "words": ""}
    events = [
        noted("a", EventKind.BOUT_TAKES, 0, 10, **said),
        noted("b", EventKind.WARM_FROM, 1, 6, **said),
        noted("c", EventKind.BOUTS_AHEAD, 2, 3),
        noted("d", EventKind.BOUT_TAKES, 9, 7, **said),
    ]
    before, after = mat_record(events[:3]).settings, mat_record(events).settings
    assert (before.minutes_a_bout, before.bouts_ahead) == (10, 6)
    assert (after.minutes_a_bout, after.bouts_ahead) == (7, 6)
