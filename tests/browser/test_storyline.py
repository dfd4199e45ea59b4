"""The storyline of the demo club, lived on its pages from the first day to the review.

With SQUADWRIGHT_STORYLINE it keeps each day's screens as pictures in storyline/ and writes
docs/reference/coachs-day.md: ``make storyline``.
"""

import os
from collections.abc import Callable
from datetime import UTC, datetime, time
from itertools import groupby
from pathlib import Path

from playwright.sync_api import Page

from browser.storyline import camp_days, first_week, week_before
from browser.storyline.club_before import keeper_before
from browser.storyline.coach import Coach, Day
from browser.storyline.day_page import LONGEST_S, coachs_day, outside_s
from looks import Look
from site_server import running

PROJECT = Path(__file__).parent.parent.parent
PAGE = PROJECT / "docs" / "reference" / "coachs-day.md"
PICTURES = PROJECT / "storyline"
FIRST_DAY = -6
STORY = (
    week_before.head_knock,
    week_before.pounds_for_kilograms,
    first_week.barbell,
    first_week.hard_rounds,
    first_week.hard_rounds_for_one,
    first_week.plyometric,
    first_week.half_the_plates,
    first_week.first_event,
    first_week.tournament,
    camp_days.two_events,
    camp_days.no_hall,
    camp_days.second_event,
    camp_days.test_day,
    camp_days.weigh_in,
    camp_days.two_towns,
    camp_days.bout,
)


def test_the_storyline_is_lived_on_the_pages_and_takes_no_day_over_three_minutes(
    open_page: Callable[..., Page], tmp_path: Path
) -> None:
    keeps = "SQUADWRIGHT_STORYLINE" in os.environ
    if keeps:
        PICTURES.mkdir(exist_ok=True)
    day = Day(FIRST_DAY)
    with running(keeper_before(tmp_path), today=day) as site:
        page = open_page(f"{site.url}/squad", look=Look("light", 360, 740))
        page.clock.install(time=datetime.combine(day(), time(8), tzinfo=UTC))
        coach = Coach(site, page, day, PICTURES if keeps else None)
        for chapter in STORY:
            chapter(coach)
    for offset, tasks in groupby(coach.tasks, key=lambda task: task.day):
        assert outside_s(tasks) <= LONGEST_S, f"D{offset:+d}"
    counted = coachs_day(coach.tasks)
    if keeps:
        PAGE.write_text(counted, encoding="utf-8")
    assert PAGE.read_text(encoding="utf-8") == counted, "run make storyline"
