"""Calendar files out and in: RFC 5545 by the icalendar library, time zones, hostile files."""

from dataclasses import replace
from datetime import UTC, date, datetime, time, timedelta
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from icalendar import Calendar

from cases import cases
from exchange.calendar_text import event, ics
from squadwright.camp.week import works_between
from squadwright.demo import demo_club
from squadwright.errors import InvalidInput
from squadwright.exchange import calendar_in
from squadwright.exchange.calendar_in import Difference, LeftOut
from squadwright.exchange.calendar_out import fixtures_calendar, week_calendar
from squadwright.model.calendar import Fixture, SlotChange
from squadwright.model.club import Club
from squadwright.model.step import Touch

MONDAY = date(2026, 3, 2)
DEMO = demo_club(MONDAY)
BEFORE_ALL = Touch(0, MONDAY, "", "")


def read_fixtures(data: bytes) -> tuple[tuple[Fixture, ...], tuple[LeftOut, ...]]:
    return calendar_in.read_fixtures(data, today=MONDAY)


def difference(known: tuple[Fixture, ...], data: bytes) -> Difference:
    return calendar_in.difference(known, data, today=MONDAY)


def calendar_of(club: Club, *touches: Touch, weeks: int = 4) -> Calendar:
    works = works_between(club, MONDAY, MONDAY + timedelta(weeks=weeks, days=-1))
    return Calendar.from_ical(week_calendar(club, works, (BEFORE_ALL, *touches)))


def named(calendar: Calendar, name: str, day: date) -> Any:
    return next(
        e
        for e in calendar.walk("VEVENT")
        if str(e["summary"]) == name and _day(e["dtstart"].dt) == day
    )


def _day(moment: date) -> date:
    return moment.date() if isinstance(moment, datetime) else moment


def one(*lines: str) -> Fixture:
    (fixture,), left_out = read_fixtures(ics(*event("SUMMARY:League", *lines)))
    assert left_out == ()
    return fixture


def test_the_week_is_what_rfc_5545_asks_for_and_reads_back() -> None:
    calendar = calendar_of(DEMO)
    assert (str(calendar["version"]), calendar["prodid"] != "") == ("2.0", True)
    events = calendar.walk("VEVENT")
    assert not [e for e in events if e.errors]
    uids = [str(e["uid"]) for e in events]
    assert len(set(uids)) == len(uids)
    for each in events:
        assert {"UID", "DTSTAMP", "DTSTART", "SEQUENCE", "LAST-MODIFIED"} <= set(each)
    zones = {str(z["tzid"]) for z in calendar.walk("VTIMEZONE")}
    assert zones == {"Europe/Lisbon"}
    sparring = named(calendar, "MMA sparring", date(2026, 3, 3))
    assert sparring["dtstart"].params["TZID"] == "Europe/Lisbon"
    assert "effort 8 x 90 min = 720 AU" in str(sparring["description"])
    # Each line of RFC 5545 has at most 75 octets.
    assert all(len(line) <= 75 for line in calendar.to_ical().split(b"\r\n"))


def test_lost_and_cancelled_dates_say_so() -> None:
    off = SlotChange("c", "sat-open", date(2026, 3, 7), is_off=True)
    calendar = calendar_of(replace(DEMO, slot_changes=(off,)))
    lost = named(calendar, "Ground live rounds", date(2026, 3, 18))
    assert str(lost["status"]) == "CANCELLED"
    assert str(named(calendar, "Open mat", date(2026, 3, 7))["status"]) == "CANCELLED"
    assert "status" not in named(calendar, "Open mat", date(2026, 3, 14))


def test_an_id_stays_when_its_date_moves_and_the_sequence_rises() -> None:
    change = SlotChange(
        "c", "tue-sparring", date(2026, 3, 3), date(2026, 3, 5), time(20, 45), time(22, 15)
    )
    before = named(calendar_of(DEMO), "MMA sparring", date(2026, 3, 3))
    touch = Touch(7, date(2026, 3, 4), "slot_changes", "c", "tue-sparring")
    after = named(
        calendar_of(replace(DEMO, slot_changes=(change,)), touch), "MMA sparring", date(2026, 3, 5)
    )
    assert before["uid"] == after["uid"]
    assert (before["sequence"], after["sequence"]) == (0, 7)
    assert after["last-modified"].dt == datetime(2026, 3, 4, tzinfo=UTC)
    other = named(calendar_of(DEMO, touch), "Wrestling live", date(2026, 3, 6))
    assert other["sequence"] == 0


@pytest.mark.parametrize(
    ("day", "utc"),
    [
        # Lisbon: UTC until 29 March 2026 01:00 UTC, one hour ahead until 25 October 2026.
        (date(2026, 3, 27), 19),
        (date(2026, 4, 10), 18),
        (date(2026, 10, 23), 18),
        (date(2026, 10, 30), 19),
    ],
)
def test_a_slot_keeps_its_clock_time_over_both_jumps(day: date, utc: int) -> None:
    calendar = calendar_of(DEMO, weeks=36)
    friday = named(calendar, "Wrestling live", day)["dtstart"].dt
    assert friday.time() == time(19)
    assert friday.astimezone(UTC).hour == utc


def test_a_session_past_midnight_ends_on_the_next_day() -> None:
    late = replace(DEMO.session("monday-barbell"), starts_at=time(23, 30), minutes=60)
    club = replace(DEMO, sessions=(late,), week=(), slot_changes=())
    each = named(calendar_of(club), "Monday barbell", MONDAY)
    assert each["dtend"].dt.replace(tzinfo=None) == datetime(2026, 3, 3, 0, 30)


def test_whole_days_end_on_the_day_after_as_the_standard_has_it() -> None:
    varnish = named(calendar_of(DEMO), "floor varnish", date(2026, 3, 30))
    assert varnish["dtend"].dt == date(2026, 4, 5)
    fixture = one("DTSTART;VALUE=DATE:20260412", "DTEND;VALUE=DATE:20260414")
    assert (fixture.starts_on, fixture.ends_on) == (date(2026, 4, 12), date(2026, 4, 13))
    alone = one("DTSTART;VALUE=DATE:20260412")
    assert alone.ends_on == date(2026, 4, 12)


def test_a_club_without_a_time_zone_gives_times_that_float() -> None:
    club = replace(DEMO, time_zone="")
    each = named(calendar_of(club), "MMA sparring", date(2026, 3, 3))
    assert each["dtstart"].dt.tzinfo is None
    assert calendar_of(club).walk("VTIMEZONE") == []


def test_times_come_in_with_their_zone() -> None:
    here = one("DTSTART;TZID=America/Sao_Paulo:20260411T193000", "DURATION:PT2H")
    assert (here.time_zone, here.starts_at, here.ends_at) == (
        "America/Sao_Paulo",
        time(19, 30),
        time(21, 30),
    )
    floating = one("DTSTART:20260411T193000", "DTEND:20260412T003000")
    assert (floating.time_zone, floating.ends_on, floating.ends_at) == (
        "",
        date(2026, 4, 12),
        time(0, 30),
    )
    utc = one("DTSTART:20260411T193000Z", "DTEND:20260411T203000Z")
    assert (utc.time_zone, utc.starts_at) == ("UTC", time(19, 30))


def test_a_zone_that_only_the_file_knows_keeps_its_instants() -> None:
    zone = (
        "BEGIN:VTIMEZONE",
        "TZID:League time",
        "BEGIN:STANDARD",
        "DTSTART:20000101T000000",
        "TZOFFSETFROM:+0530",
        "TZOFFSETTO:+0530",
        "END:STANDARD",
        "END:VTIMEZONE",
    )
    lines = event("SUMMARY:League", "DTSTART;TZID=League time:20260411T193000", "DURATION:PT1H")
    (fixture,), _ = read_fixtures(ics(*zone, *lines))
    assert (fixture.time_zone, fixture.starts_at) == ("UTC", time(14))


def test_a_file_taken_in_goes_out_and_comes_in_again_without_change() -> None:
    data = ics(
        *event(
            "SUMMARY:Round 1\\, home",
            "DTSTART;TZID=Europe/Lisbon:20260328T230000",
            "DTEND;TZID=Europe/Lisbon:20260329T033000",
            "LOCATION:Hall 2",
            "SEQUENCE:4",
        ),
        *event(
            "SUMMARY:Camp", "DTSTART;VALUE=DATE:20260501", "DTEND;VALUE=DATE:20260504", uid="camp"
        ),
        *event("SUMMARY:Floats", "DTSTART:20260601T100000", "DTEND:20260601T110000", uid="f"),
        *event(
            "SUMMARY:Fold",
            "DTSTART;TZID=Europe/Lisbon:20261025T013000",
            "DURATION:PT30M",
            uid="fold",
        ),
    )
    found, left_out = read_fixtures(data)
    assert (len(found), left_out) == (4, ())
    assert found[0].name == "Round 1, home"
    stored = tuple(replace(f, id=f"f{i}") for i, f in enumerate(found))
    out = fixtures_calendar(replace(DEMO, fixtures=stored), (BEFORE_ALL,))
    again = difference(stored, out)
    assert again.is_empty
    assert (again.same, again.left_out) == (4, ())
    assert fixtures_calendar(replace(DEMO, fixtures=stored), (BEFORE_ALL,)) == out


def test_new_changed_gone_and_older_are_told_apart() -> None:
    stored = (
        replace(one("DTSTART;VALUE=DATE:20260412", "SEQUENCE:2"), id="a"),
        replace(one("DTSTART;VALUE=DATE:20260510"), id="b", uid="b"),
        replace(one("DTSTART;VALUE=DATE:20260601", "SEQUENCE:5"), id="c", uid="c"),
        replace(one("DTSTART;VALUE=DATE:20260701"), id="d", uid="d"),
    )
    data = ics(
        *event("SUMMARY:League", "DTSTART;VALUE=DATE:20260413", "SEQUENCE:3"),
        *event("SUMMARY:League", "DTSTART;VALUE=DATE:20260510", "STATUS:CANCELLED", uid="b"),
        *event("SUMMARY:League", "DTSTART;VALUE=DATE:20260602", "SEQUENCE:4", uid="c"),
        *event("SUMMARY:League", "DTSTART;VALUE=DATE:20260701", uid="d"),
        *event("SUMMARY:Cup", "DTSTART;VALUE=DATE:20260801", uid="e"),
    )
    found = difference(stored, data)
    assert [f.uid for f in found.new] == ["e"]
    assert [(o.id, n.starts_on) for o, n in found.changed] == [("a", date(2026, 4, 13))]
    assert [f.id for f in found.gone] == ["b"]
    assert found.same == 1
    assert [each.why for each in found.left_out] == ["is older than the one that is stored"]


@pytest.mark.parametrize(
    ("lines", "why"),
    [
        (("DTSTART;VALUE=DATE:20260412", "RRULE:FREQ=DAILY"), "more than 200 times up to 2027"),
        (("DTSTART:20260412T100000", "RRULE:FREQ=HOURLY"), "repeats hourly, not by days"),
        (("DTSTART:20260412T100000", "RRULE:FREQ=DAILY;BYSECOND=1,2"), "several times a day"),
        (("DTSTART:20260412T100000", "RRULE:FREQ=WEEKLY;BYDAY=XX"), "cannot be"),
        (("DTSTART:20260412T100000", "RDATE;VALUE=PERIOD:20260412T100000/PT1H"), "or a period"),
        (
            ("DTSTART:20260412T100000", "RECURRENCE-ID;RANGE=THISANDFUTURE:20260412T100000"),
            "changes all dates from one on",
        ),
        (("DTSTART:rubbish",), "has a date or a length that cannot be"),
        ((), "has no start"),
        (("DTSTART:20260412T100000", "DTEND:20260412T090000"), "ends before it starts"),
        (("DTSTART:20260412T100000", "DTEND;VALUE=DATE:20260413"), "a day at one end"),
        (("DTSTART;VALUE=DATE:20260101", "DTEND;VALUE=DATE:20261231"), "more than 60 days"),
        (("DTSTART;VALUE=DATE:18000101",), "outside the years"),
        (("DTSTART;VALUE=DATE:99991231", "DURATION:P9D"), "cannot be"),
    ],
)
def test_an_entry_that_cannot_be_taken_is_named_and_the_others_are(
    lines: tuple[str, ...], why: str
) -> None:
    good = event("SUMMARY:Good", "DTSTART;VALUE=DATE:20260412", uid="good")
    found, left_out = read_fixtures(ics(*event("SUMMARY:Bad", *lines), *good))
    assert [f.uid for f in found] == ["good"]
    assert [each.name for each in left_out] == ["Bad"]
    assert why in left_out[0].why


@pytest.mark.parametrize(
    ("data", "said"),
    [
        (b"", "does not begin with BEGIN:VCALENDAR"),
        (b"\x00\xff\xfe", "does not begin with BEGIN:VCALENDAR"),
        (b"<html>BEGIN</html>", "does not begin with BEGIN:VCALENDAR"),
        (b"BEGIN:VCALENDAR\r\nX" + b"A" * 600_000, "the limit is 0.5 MB"),
        (
            b"BEGIN:VCALENDAR\r\n" + b"BEGIN:VEVENT\r\nEND:VEVENT\r\n" * 1001 + b"END:VCALENDAR",
            "more than 1000",
        ),
        (b"BEGIN:VCALENDAR\r\n" + b"BEGIN:X\r\n" * 5000 + b"END:VCALENDAR", "too many parts"),
        (b"BEGIN:VCALENDAR\r\nthis is no line\r\nEND:VCALENDAR", "cannot be read"),
        (b"BEGIN:VCALENDAR", "is cut off"),
    ],
)
def test_a_hostile_file_gets_a_clear_line(data: bytes, said: str) -> None:
    with pytest.raises(InvalidInput, match="the calendar file") as caught:
        read_fixtures(data)
    assert said in str(caught.value)


def test_names_lose_what_shows_nothing_and_what_is_too_long() -> None:
    fixture = one("DTSTART;VALUE=DATE:20260412", f"LOCATION:{'x' * 5000}\u202e")
    assert len(fixture.place) == 1000
    (named_one,), _ = read_fixtures(
        ics(*event(f"SUMMARY:a\u200b\u202eb{'c' * 500}", "DTSTART;VALUE=DATE:20260412"))
    )
    assert named_one.name.startswith("a b")
    assert len(named_one.name) <= 120


PIECES = st.sampled_from(
    (
        "BEGIN:VEVENT",
        "END:VEVENT",
        "BEGIN:VTIMEZONE",
        "END:VTIMEZONE",
        "BEGIN:STANDARD",
        "END:STANDARD",
        "UID:a",
        "UID:",
        "SUMMARY:x",
        'SUMMARY;X="y:z',
        "DTSTART:20260412T100000",
        "DTSTART;TZID=No/Where:20260412T100000",
        "DTSTART;VALUE=DATE:2026",
        "DTSTART:",
        "DTEND:20260412",
        "DURATION:P",
        "DURATION:-PT5H",
        "DURATION:P99999999999D",
        "SEQUENCE:x",
        "SEQUENCE:-4",
        "SEQUENCE:99999999999",
        "RRULE:x",
        "TZID:A",
        "TZOFFSETTO:+9999",
        "DTSTART:20260412T100000",
        "DTSTART;TZID=A:20260412T100000",
        "STATUS:",
        " folded",
        ":",
        "DTSTART:00010101T000000Z",
        "DTEND:99991231T235959Z",
        "END:VCALENDAR",
        "BEGIN:VCALENDAR",
    )
)


@settings(max_examples=cases(300), deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(st.lists(PIECES, max_size=14))
def test_no_mixture_of_lines_brings_it_down(lines: list[str]) -> None:
    try:
        found, _ = read_fixtures(ics(*lines))
    except InvalidInput:
        return
    for fixture in found:
        assert fixture.uid
        assert fixture.starts_on <= fixture.ends_on
