"""Fixtures that repeat: worked examples of RFC 5545, summer time, changed dates, hostile rules."""

from dataclasses import replace
from datetime import date, time

import pytest

from exchange.calendar_text import event, ics
from squadwright.demo import demo_club
from squadwright.exchange.calendar_in import difference, read_fixtures
from squadwright.exchange.calendar_out import fixtures_calendar
from squadwright.model.calendar import Fixture
from squadwright.model.step import Touch

MONDAY = date(2026, 3, 2)


def read(*lines: str, today: date = MONDAY) -> tuple[tuple[Fixture, ...], list[str]]:
    found, left_out = read_fixtures(ics(*lines), today=today)
    return found, [each.why for each in left_out]


def days(*lines: str, today: date) -> list[date]:
    return [f.starts_on for f in read(*event("SUMMARY:Cup", *lines), today=today)[0]]


def of(year: int, month: int, *numbers: int) -> list[date]:
    return [date(year, month, number) for number in numbers]


@pytest.mark.parametrize(
    ("rule", "dates"),
    [
        # The worked examples of RFC 5545, section 3.8.5.3, as the standard lists their dates.
        ("FREQ=DAILY;COUNT=10", of(1997, 9, *range(2, 12))),
        (
            "FREQ=DAILY;INTERVAL=10;COUNT=5",
            [*of(1997, 9, 2, 12, 22), *of(1997, 10, 2, 12)],
        ),
        (
            "FREQ=WEEKLY;UNTIL=19971007T000000Z;WKST=SU;BYDAY=TU,TH",
            [*of(1997, 9, 2, 4, 9, 11, 16, 18, 23, 25, 30), *of(1997, 10, 2)],
        ),
        (
            "FREQ=MONTHLY;BYMONTHDAY=2,15;COUNT=10",
            [
                *of(1997, 9, 2, 15),
                *of(1997, 10, 2, 15),
                *of(1997, 11, 2, 15),
                *of(1997, 12, 2, 15),
                *of(1998, 1, 2, 15),
            ],
        ),
        (
            "FREQ=MONTHLY;COUNT=3;BYDAY=TU,WE,TH;BYSETPOS=3",
            [date(1997, 9, 4), date(1997, 10, 7), date(1997, 11, 6)],
        ),
        ("FREQ=WEEKLY;INTERVAL=2;COUNT=4;BYDAY=TU,SU;WKST=MO", of(1997, 8, 5, 10, 19, 24)),
        ("FREQ=WEEKLY;INTERVAL=2;COUNT=4;BYDAY=TU,SU;WKST=SU", of(1997, 8, 5, 17, 19, 31)),
    ],
)
def test_the_examples_of_the_standard_come_out(
    rule: str, dates: list[date], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("squadwright.exchange.calendar_in.EARLIEST", 1990)
    start = f"DTSTART;TZID=America/New_York:{dates[0]:%Y%m%d}T090000"
    lines = (start, "DURATION:PT1H", f"RRULE:{rule}")
    assert days(*lines, today=date(1997, 9, 2)) == dates


def test_what_repeats_without_an_end_is_taken_for_a_season_and_says_so() -> None:
    lines = ("DTSTART;TZID=Europe/Lisbon:20260105T190000", "RRULE:FREQ=WEEKLY")
    found, said = read(*event("SUMMARY:League", *lines))
    # 400 days after 2 March 2026 is 6 April 2027; Mondays from 5 January 2026 to 5 April 2027.
    assert (len(found), found[-1].starts_on) == (66, date(2027, 4, 5))
    assert said == [
        "dates after 2027-04-06 are not taken yet. Take the file in again later",
    ]


def test_the_clock_time_stays_over_both_jumps_and_so_does_the_length() -> None:
    """Lisbon goes forward on 29 March 2026 at 01:00 and back on 25 October at 02:00 (IANA)."""
    spring = event(
        *("SUMMARY:Night train", "DTSTART;TZID=Europe/Lisbon:20260328T233000"),
        *("DTEND;TZID=Europe/Lisbon:20260329T003000", "RRULE:FREQ=DAILY;COUNT=2"),
    )
    found, _ = read(*spring)
    assert [(f.starts_at, f.ends_at) for f in found] == [(time(23, 30), time(0, 30))] * 2
    # Four hours pass: over the jump forward the clock shows five, over the one back three.
    for first, ends in (("20260328", time(3)), ("20261024", time(1))):
        lines = (
            f"DTSTART;TZID=Europe/Lisbon:{first}T220000",
            "DURATION:PT4H",
            "RRULE:FREQ=DAILY;COUNT=2",
        )
        (over, after), _ = read(*event("SUMMARY:Journey", *lines))
        assert (over.ends_at, after.ends_at) == (ends, time(2))
    # 01:30 does not exist on 29 March: by the standard (3.3.5) it is read as 02:30.
    lines = ("DTSTART;TZID=Europe/Lisbon:20260328T013000", "RRULE:FREQ=DAILY;COUNT=3")
    gap, _ = read(*event("SUMMARY:Early", *lines))
    assert [f.starts_at for f in gap] == [time(1, 30), time(2, 30), time(1, 30)]


def test_dates_are_left_out_added_moved_and_cancelled() -> None:
    zone = "TZID=Europe/Lisbon"
    lines = (
        *event(
            *("SUMMARY:League", f"DTSTART;{zone}:20260302T190000", "DURATION:PT2H"),
            *("RRULE:FREQ=WEEKLY;COUNT=6", f"EXDATE;{zone}:20260309T190000"),
            f"RDATE;{zone}:20260318T200000",
        ),
        *event(
            "SUMMARY:League, away",
            f"RECURRENCE-ID;{zone}:20260316T190000",
            "SEQUENCE:1",
            f"DTSTART;{zone}:20260317T180000",
            "DURATION:PT2H",
        ),
        *event(
            "SUMMARY:League",
            f"RECURRENCE-ID;{zone}:20260323T190000",
            "STATUS:CANCELLED",
            f"DTSTART;{zone}:20260323T190000",
        ),
    )
    found, said = read(*lines)
    by_day = sorted((f.starts_on, f.starts_at, f.name) for f in found)
    assert by_day == [
        (date(2026, 3, 2), time(19), "League"),
        (date(2026, 3, 17), time(18), "League, away"),
        (date(2026, 3, 18), time(20), "League"),
        (date(2026, 3, 30), time(19), "League"),
        (date(2026, 4, 6), time(19), "League"),
    ]
    assert said == []
    moved = next(f for f in found if f.name == "League, away")
    assert moved.recurrence == "20260316T190000Z"


@pytest.mark.parametrize(
    "start",
    [
        "DTSTART;TZID=Europe/Lisbon:20260323T190000",
        "DTSTART:20260323T190000",
        "DTSTART:20260323T190000Z",
        "DTSTART;VALUE=DATE:20260323",
    ],
)
def test_dates_of_what_repeats_go_out_and_come_in_again_without_change(start: str) -> None:
    # The week after, summer time has begun.
    data = ics(*event("SUMMARY:League", start, "RRULE:FREQ=WEEKLY;COUNT=3"))
    found, _ = read_fixtures(data, today=MONDAY)
    stored = tuple(replace(f, id=f"f{n}") for n, f in enumerate(found))
    assert difference(stored, data, today=MONDAY).is_empty
    club = replace(demo_club(MONDAY), fixtures=stored)
    out = fixtures_calendar(club, (Touch(0, MONDAY, "", ""),))
    again = difference(stored, out, today=MONDAY)
    assert (again.is_empty, again.same, again.left_out) == (True, 3, ())


def test_what_lies_a_season_back_stays_when_the_file_comes_in_again() -> None:
    data = ics(*event("SUMMARY:League", "DTSTART;VALUE=DATE:20260105", "RRULE:FREQ=WEEKLY"))
    found, _ = read_fixtures(data, today=MONDAY)
    later = difference(found, data, today=date(2027, 9, 6))
    assert later.gone == ()
    assert later.changed == ()
    assert later.new[0].starts_on == date(2027, 4, 12)


@pytest.mark.parametrize(
    ("rule", "why"),
    [
        # No day fulfils it: it is looked for to the end of the years, and that ends.
        ("FREQ=MONTHLY;BYMONTH=2;BYMONTHDAY=30", ""),
        ("FREQ=DAILY;COUNT=3;UNTIL=20260401T000000Z", "both a number of dates and a last one"),
        ("FREQ=SECONDLY", "repeats secondly, not by days or longer"),
    ],
)
def test_a_rule_that_makes_no_sense_comes_to_an_end(rule: str, why: str) -> None:
    found, said = read(*event("SUMMARY:Cup", "DTSTART:20260302T190000", f"RRULE:{rule}"))
    assert len(found) == (0 if why else 1)
    assert [why in each for each in said] == ([True] if why else [])


def test_too_many_that_repeat_are_refused_together() -> None:
    many = [
        line
        for n in range(61)
        for line in event("DTSTART;VALUE=DATE:20260302", "RRULE:FREQ=WEEKLY", uid=f"{n}")
    ]
    with pytest.raises(Exception, match="holds more than 60 entries that repeat"):
        read(*many)
    with pytest.raises(Exception, match="comes to more than 1000 dates"):
        read(*many[: 40 * len(event("", "", uid=""))])
