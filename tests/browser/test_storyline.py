"""The storyline of the demo club, lived on its pages from the first day to the review."""

from collections.abc import Callable
from datetime import UTC, datetime, time
from pathlib import Path

from playwright.sync_api import Page

from browser.storyline.club_before import keeper_before
from browser.storyline.coach import Coach, Day
from browser.storyline.first_week import barbell
from browser.storyline.week_before import head_knock, pounds_for_kilograms
from looks import Look
from site_server import running

FIRST_DAY = -6
# A day outside the session itself, by a slow hand.
LONGEST_S = 180.0
STORY = (head_knock, pounds_for_kilograms, barbell)


def test_the_storyline_is_lived_on_the_pages(
    open_page: Callable[..., Page], tmp_path: Path
) -> None:
    day = Day(FIRST_DAY)
    with running(keeper_before(tmp_path), today=day) as site:
        page = open_page(f"{site.url}/squad", look=Look("light", 360, 740))
        page.clock.install(time=datetime.combine(day(), time(8), tzinfo=UTC))
        coach = Coach(site, page, day)
        for chapter in STORY:
            chapter(coach)
            actions, seconds = coach.total(day.offset, in_session=False)
            print(f"D{day.offset:+d}: {actions} actions, {seconds:.0f} s by a slow hand")
            assert seconds < LONGEST_S
