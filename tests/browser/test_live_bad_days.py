"""Bad days 3 and 14: the power goes in round 3; the session is ended by a slip in round 2."""

import math
from collections.abc import Callable
from datetime import timedelta
from pathlib import Path

from playwright.sync_api import Page, expect

from browser.live_floor import (
    EVENING,
    PHONE,
    SESSION,
    floor,
    holds,
    opened,
    plan_of,
    start,
    stored,
)
from site_server import RunningSite, keeper_on_copy, running
from squadwright.model.record import EventKind, in_force
from squadwright.planning.live.clock import clock_of
from squadwright.planning.live.done import done
from squadwright.services.record import record_of

Opener = Callable[..., Page]


def key(page: Page, words: str) -> None:
    page.get_by_role("button", name=words).click()
    # A second touch within a quarter of a second is taken for a slip.
    page.wait_for_timeout(260)


def hold_end(page: Page) -> None:
    page.get_by_role("button", name="End: hold").hover()
    page.mouse.down()
    expect(page.locator("#floor")).to_have_attribute("data-phase", "ended")
    page.mouse.up()


def to_round(page: Page, number: int) -> None:
    for _ in range(20):
        if f"round {number} of 4" in (page.locator("[data-part=round]").text_content() or ""):
            return
        key(page, "Next")
    raise AssertionError(f"round {number} never came")


def test_bad_day_3_the_power_goes_in_round_3_and_nothing_is_lost(
    demo_file: Path, tmp_path: Path, open_page: Opener
) -> None:
    keeper = keeper_on_copy(demo_file, tmp_path)
    with running(keeper) as site:
        first = floor(site, open_page)
        start(first)
        to_round(first, 3)
        holds(first, "navigator.serviceWorker.controller !== null")
        holds(
            first, "caches.open('squadwright-floor-1').then(c => c.keys()).then(k => k.length > 9)"
        )
        expect(first.locator("[data-part=line]")).to_have_text("Everything noted is stored")
        context, port = first.context, int(site.url.rpartition(":")[2])
        first.close()
    before = len(record_of(keeper, SESSION))

    # The lights are out and the server is gone: the phone opens again and goes on, in the dark.
    page = context.new_page()
    page.goto(f"{site.url}/live/{SESSION}")
    expect(opened(page).locator("[data-part=round]")).to_contain_text("round 3 of 4")
    key(page, "Hold: bars down")
    expect(page.locator("[data-part=title]")).to_have_text("Held: bars down")
    key(page, "Setting")
    key(page, "Black on white or white on black")
    page.locator("[data-do=setup-close]").click()
    assert (
        page.evaluate("getComputedStyle(document.documentElement).backgroundColor")
        == "rgb(0, 0, 0)"
    )
    expect(page.locator("[data-part=line]")).to_contain_text("noted here, sent when it is back")
    page.wait_for_timeout(260)
    key(page, "Go on")
    expect(page.locator("#floor")).to_have_attribute("data-phase", "on")
    key(page, "Hold: bars down")
    hold_end(page)
    assert len(record_of(keeper, SESSION)) == before

    with running(keeper, port) as site:
        # The lights are on, and the hall's network with them: no need to wait for the next try.
        page.evaluate("dispatchEvent(new Event('online'))")
        expect(page.locator("[data-part=line]")).to_have_text(
            "Everything noted is stored", timeout=40_000
        )
        record = stored(site, before + 4)
        assert [e.kind for e in record[before:]] == [
            *(EventKind.HELD, EventKind.WENT_ON, EventKind.HELD, EventKind.ENDED)
        ]
        now = max(event.at for event in record)
        rows = done(plan_of(site), record, now=now, stop_after=3)
        assert {row.rounds_done for row in rows if row.planned_rounds == 4} == {2}
        page.close()


def test_bad_day_14_ended_by_a_slip_and_opened_again_later_that_day(
    site: RunningSite, open_page: Opener
) -> None:
    page = open_page(site.url, look=PHONE)
    context = page.context
    page.clock.install(time=EVENING)
    page.goto(f"{site.url}/live/{SESSION}")
    start(opened(page))
    page.clock.run_for(1000)
    for _ in range(4):
        page.locator("[data-do=next]").click()
        page.clock.run_for(1000)
    expect(page.locator("[data-part=round]")).to_contain_text("round 2 of 4")
    page.locator("[data-do=end]").hover()
    page.mouse.down()
    page.clock.run_for(1100)
    page.mouse.up()
    expect(page.locator("#floor")).to_have_attribute("data-phase", "ended")
    # Ended, nothing is under way; how long the round had left is told by the record.
    expect(page.locator("[data-part=time-words]")).to_have_text("0:00 left")
    regret = page.get_by_role("alertdialog", name="Ended")
    page.clock.run_for(9_000)
    expect(regret).to_be_visible()
    page.clock.run_for(2_000)
    expect(regret).to_be_hidden()
    place_s = clock_of(in_force(stored(site, 6))).place_at(EVENING + timedelta(hours=1))
    work = next(
        line
        for line in plan_of(site).run_sheet
        if line.activity == "work" and line.start_s <= place_s < line.end_s
    )
    left_s = math.ceil(work.end_s - place_s)
    # The phone was dropped and switched off: three hours later it is opened again.
    page.close()
    page = context.new_page()
    page.clock.install(time=EVENING + timedelta(hours=3))
    page.goto(f"{site.url}/live/{SESSION}")
    expect(opened(page).locator("[data-part=title]")).to_have_text("Ended")
    page.clock.pause_at(EVENING + timedelta(hours=3, seconds=5))
    page.get_by_role("button", name="Open again").click()
    expect(page.locator("#floor")).to_have_attribute("data-phase", "on")
    # Not a second of those three hours has run on the sheet.
    left = f"{left_s // 60}:{left_s % 60:02d} left"
    assert page.locator("[data-part=time-words]").text_content() == left
    # What is noted during an exchange is sent by a timer after it: a paused clock would keep it.
    page.clock.resume()
    kinds = [e.kind for e in in_force(stored(site, 7))]
    assert kinds[-2:] == [EventKind.ENDED, EventKind.REOPENED]
