"""The diary of the demo club: the same every time, before its Monday, and invented on purpose."""

from datetime import date, timedelta
from pathlib import Path

from squadwright.bootstrap import open_demo
from squadwright.config import sqlite_url
from squadwright.demo.diary import DAYS, LOWER, MORE, TAPER, demo_diary
from squadwright.planning.exceptions import Kind
from squadwright.services.diary import read_diary
from squadwright.services.notice import notice_today

MONDAY = date(2026, 3, 2)


def test_it_is_the_same_every_time_and_lies_before_the_monday() -> None:
    told = demo_diary(MONDAY)
    assert told == demo_diary(MONDAY)
    assert len({entry.id for entry in told}) == len(told)
    assert {entry.day for entry in told} == {
        MONDAY - timedelta(days=back) for back in range(1, DAYS + 1)
    }
    later = demo_diary(MONDAY + timedelta(days=7))
    assert [e.content for e in later] == [e.content for e in told]


def test_three_are_named_for_three_reasons_and_a_taper_explains_itself(
    tmp_path: Path,
) -> None:
    keeper = open_demo(sqlite_url(tmp_path / "demo.sqlite3"), today=MONDAY)
    assert len(read_diary(keeper)) == len(demo_diary(MONDAY))
    found = notice_today(keeper, today=MONDAY).notice
    assert [(each.athlete, each.finding.kind) for each in found.named] == [
        (LOWER, Kind.WELLNESS),
        (MORE, Kind.MORE_LOAD),
        ("A09", Kind.PAIN),
    ]
    assert "which an event in 6 days explains" in found.others[TAPER]
    assert "which a restriction in force explains" in found.others["A10"]
