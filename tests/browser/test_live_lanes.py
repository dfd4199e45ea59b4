"""Lines for big groups: each start down a lane is called, with the gap to the next one."""

from collections.abc import Callable
from dataclasses import replace
from itertools import pairwise

import pytest
from playwright.sync_api import Page, expect

from browser.live_floor import EVENING, PHONE, by_false_clock, opened, start
from looks import assert_accessible, assert_no_sideways_scroll
from site_server import RunningSite
from squadwright.library import routine
from squadwright.model.plan import RunLine
from squadwright.services.running import running

Opener = Callable[..., Page]
SESSION = "lanes"


@pytest.fixture
def lanes(site: RunningSite) -> RunningSite:
    """The demo club with a session in two lanes."""
    long_pier = routine("long-pier")
    with site.keeper.writing() as store:
        club = store.load_club()
        assert club is not None
        session = replace(
            club.session("wednesday-plyometric"),
            id=SESSION,
            routine=long_pier.id,
            routine_version=long_pier.version,
        )
        store.save_club(
            replace(
                club,
                routines=(*club.routines, long_pier),
                sessions=(*club.sessions, session),
            )
        )
    return site


def starts(site: RunningSite) -> dict[str, list[RunLine]]:
    plan = running(site.keeper, SESSION, today=EVENING.date()).plan
    of: dict[str, list[RunLine]] = {}
    for line in plan.run_sheet:
        if line.group.startswith("lane ") and line.activity.startswith("work"):
            of.setdefault(line.group, []).append(line)
    return {lane: sorted(lines, key=lambda line: line.start_s) for lane, lines in of.items()}


def test_each_start_is_called_and_the_next_one_told_with_its_gap(
    lanes: RunningSite, open_page: Opener
) -> None:
    of = starts(lanes)
    assert set(of) == {"lane 1", "lane 2"}
    plan = running(lanes.keeper, SESSION, today=EVENING.date()).plan
    page = by_false_clock(open_page(lanes.url, look=PHONE), lanes, SESSION)
    at = 0
    apart = [(a, b) for a, b in pairwise(of["lane 1"]) if b.start_s - a.start_s > 5]
    for first, second in apart[:6]:
        assert first.start_s >= at
        page.clock.run_for((first.start_s + 1 - at) * 1000)
        row = page.locator(".group-now", has_text="lane 1")
        name = plan.shown_name(first.athletes[0]).split()[0]
        expect(row).to_contain_text(f"lane 1, go {name}")
        at = first.start_s + 4
        page.clock.run_for(3000)
        later = plan.shown_name(second.athletes[0]).split()[0]
        expect(row).to_contain_text(f"next {later}")
        expect(row).to_contain_text(f"in 0:{second.start_s - at:02d}")


def test_the_lanes_can_be_read_by_everybody(lanes: RunningSite, open_page: Opener) -> None:
    page = opened(open_page(f"{lanes.url}/live/{SESSION}", look=PHONE))
    start(page, "Start with Long pier")
    expect(page.locator(".group-now", has_text="lane 1")).to_contain_text("go ")
    # At the end of the page nothing lies under the keys that stay in reach.
    page.evaluate("scrollTo(0, document.body.scrollHeight)")
    assert_accessible(page)
    assert_no_sideways_scroll(page)


def test_a_start_is_a_signal_of_its_own(lanes: RunningSite, open_page: Opener) -> None:
    page = open_page(lanes.url, look=PHONE)
    page.add_init_script(
        "window.buzzed = [];"
        "navigator.vibrate = (rhythm) => { window.buzzed.push([rhythm].flat()); };"
    )
    by_false_clock(page, lanes, SESSION)
    first = starts(lanes)["lane 1"]
    page.clock.run_for((first[0].start_s + 2) * 1000)
    page.evaluate("window.buzzed.length = 0")
    count = 5
    page.clock.run_for((first[count].start_s - first[0].start_s) * 1000)
    own = [rhythm for rhythm in page.evaluate("window.buzzed") if rhythm == [120]]
    seconds = {
        line.start_s
        for lines in starts(lanes).values()
        for line in lines
        if first[0].start_s + 2 < line.start_s <= first[count].start_s + 2
    }
    assert len(own) == len(seconds) > 0
