"""Bad day 10: the coach is called away in round 1, an assistant runs it from one page."""

from collections.abc import Callable

from playwright.sync_api import Page, expect

from browser.live_floor import PHONE, SESSION, opened, started_uncounted, stored
from looks import assert_accessible, assert_no_sideways_scroll
from site_server import RunningSite
from squadwright.model.record import EventKind, in_force

Opener = Callable[..., Page]


def note(page: Page, name: str, words: str) -> None:
    page.locator(".tile", has_text=name).click()
    # A second touch within a quarter of a second is taken for a slip.
    page.wait_for_timeout(260)
    page.get_by_role("button", name=words).click()
    page.wait_for_timeout(260)


def test_an_assistant_runs_it_from_one_page_and_both_logs_become_one(
    site: RunningSite, open_page: Opener
) -> None:
    coach = started_uncounted(site, open_page)
    away = coach.context
    away.set_offline(True)
    note(coach, "Haneul", "1 rep lost")

    page = open_page(f"{site.url}/today/{SESSION}", look=PHONE)
    expect(page.get_by_text("The session has been running since")).to_be_visible()
    assert_accessible(page)
    assert_no_sideways_scroll(page)
    page.get_by_role("link", name="Hand over").click()
    expect(page.get_by_text("Stop for:").first).to_be_visible()
    expect(page.locator("main")).to_contain_text("no overhead")
    expect(page.locator("main")).not_to_contain_text("right shoulder")
    expect(page.locator("main")).to_contain_text("by the ice machine")
    assert_accessible(page)
    assert_no_sideways_scroll(page)
    page.get_by_role("link", name="Live floor").click()
    opened(page)
    expect(page.locator("#floor")).to_have_attribute("data-phase", "on")
    note(page, "Birk", "low back rounding")
    kinds = [event.kind for event in in_force(stored(site, 2))]
    assert kinds == [EventKind.STARTED, EventKind.FAULT]

    away.set_offline(False)
    coach.evaluate("dispatchEvent(new Event('online'))")
    record = in_force(stored(site, 3))
    assert {event.kind for event in record} == {
        EventKind.STARTED,
        EventKind.FAULT,
        EventKind.REPETITIONS_LOST,
    }
    assert len({event.device for event in record}) == 2
