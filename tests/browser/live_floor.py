"""The live floor as its tests meet it: opened, started, by a false clock, in flight mode."""

import time
from collections.abc import Callable
from datetime import UTC, datetime, timedelta

from playwright.sync_api import Page, expect

from looks import Look
from site_server import RunningSite
from squadwright.model.plan import Plan
from squadwright.model.record import RecordEvent
from squadwright.services.planning import ShownSession, show_session
from squadwright.services.record import record_of

Opener = Callable[..., Page]
PHONE = Look("black-on-white", 360, 740)
TABLET = Look("black-on-white", 820, 1180)
SCREEN = Look("white-on-black", 1920, 1080)
SESSION = "monday-barbell"
EVENING = datetime(2026, 3, 2, 18, 0, tzinfo=UTC)
# CSS pixels of one millimetre: a phone of 0.165 mm, a tablet of 0.19, a 24" screen of 0.277 mm
# a pixel (taken as given for such screens; the coach measures his own with a bank card).
PIXELS_PER_MM = {360: 1 / 0.165, 820: 1 / 0.19, 1920: 1 / 0.277}
# 22 minutes of arc at 3 m: 2 x 3000 x tan(11/60 degrees) = 19.2 mm (ISO 9241-3 asks for 20 to 22).
DIGIT_MM = 19.2
# Targets for a hand in motion, and for those that start, hold and go on.
TARGET_MM, LARGE_TARGET_MM = 14, 20


def plan_of(site: RunningSite) -> Plan:
    shown = show_session(site.keeper, SESSION, today=EVENING.date())
    assert isinstance(shown, ShownSession)
    assert shown.plan is not None
    return shown.plan


def opened(page: Page) -> Page:
    page.wait_for_selector("[data-ready=yes]")
    return page


def floor(site: RunningSite, open_page: Opener, look: Look = PHONE) -> Page:
    return opened(open_page(f"{site.url}/live/{SESSION}", look=look))


def start(page: Page, words: str = "Start with Ropewalk") -> None:
    page.get_by_role("button", name=words).click()
    expect(page.locator("#floor")).to_have_attribute("data-phase", "on")
    # A second touch within a quarter of a second is taken for a slip.
    page.wait_for_timeout(260)


def stored(site: RunningSite, count: int) -> tuple[RecordEvent, ...]:
    """The record once so many events have arrived."""
    for _ in range(100):
        record = record_of(site.keeper, SESSION)
        if len(record) >= count:
            return record
        time.sleep(0.1)
    raise AssertionError(f"{len(record)} of {count} events arrived")


def holds(page: Page, expression: str) -> None:
    """Wait until an expression is true; the page's policy bars the browser's own waiting for it."""
    for _ in range(100):
        if page.evaluate(expression):
            return
        page.wait_for_timeout(100)
    raise AssertionError(f"{expression} did not come true")


def box(page: Page, selector: str) -> dict[str, float]:
    found = page.locator(selector).first.bounding_box()
    assert found is not None
    return dict(found)


def by_false_clock(page: Page, site: RunningSite, session: str = SESSION) -> Page:
    """A session begun this moment, on a page whose clock only the test moves."""
    page.clock.install(time=EVENING)
    page.goto(f"{site.url}/live/{session}")
    opened(page)
    page.clock.pause_at(EVENING + timedelta(seconds=5))
    start(page, "Start from the beginning")
    # The screen changes with the second; it is looked at a twentieth of a second later.
    page.clock.run_for(50)
    return page


def started_uncounted(site: RunningSite, open_page: Opener) -> Page:
    """A session begun on a page whose complaints are not counted: flight mode is one."""
    first = floor(site, open_page)
    page = first.context.new_page()
    first.close()
    page.goto(f"{site.url}/live/{SESSION}")
    start(opened(page))
    stored(site, 1)
    return page


def reopened_in_flight_mode(page: Page, site: RunningSite, kept: str = "k.length >= 10") -> Page:
    """The floor opened afresh without a network, once the device has kept what it needs.

    ``kept`` says so of ``k``, the requests whose answers are kept.
    """
    holds(page, "navigator.serviceWorker.controller !== null")
    holds(page, f"caches.open('squadwright-floor-1').then(c => c.keys()).then(k => {kept})")
    path, context = page.url, page.context
    off_the_network(page, site)
    page.close()
    page = context.new_page()
    page.goto(path)
    return opened(page)


def off_the_network(page: Page, site: RunningSite) -> None:
    """Flight mode: the device hears nothing of the site, and no other device does."""
    page.context.set_offline(True)
    site.cut.set()


def back_on_the_network(page: Page, site: RunningSite) -> None:
    """The end of flight mode: the device may reach the site again."""
    site.cut.clear()
    page.context.set_offline(False)
