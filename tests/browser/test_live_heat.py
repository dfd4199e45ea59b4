"""Heat on the open floor: a reading that cancels, with and without a server, and after a reload.

The border of the row that cancels for all is 90 degF, 32.2 degC WBGT (table of the American
College of Sports Medicine, 2007, as printed elsewhere).
"""

from collections.abc import Callable
from dataclasses import replace

from playwright.sync_api import Page, expect

from browser.live_floor import (
    EVENING,
    SCREEN,
    SESSION,
    back_on_the_network,
    floor,
    opened,
    plan_of,
    reopened_in_flight_mode,
    start,
    started_uncounted,
    stored,
)
from looks import assert_accessible, assert_no_sideways_scroll
from site_server import RunningSite
from squadwright.model.record import EventKind, in_order
from squadwright.model.session import HeatReading
from squadwright.planning.live.clock import clock_of
from squadwright.services.club_changes import change_club
from squadwright.services.session_changes import with_session

Opener = Callable[..., Page]
HEAT = "[data-part=heat]"
FLOOR = "#floor"


def enter(page: Page, value: str) -> None:
    page.get_by_role("button", name="Change", exact=True).click()
    # A second touch within a quarter of a second is taken for a slip.
    page.wait_for_timeout(260)
    page.locator("[data-part=heat-value]").fill(value)
    page.get_by_role("button", name="Enter the heat").click()


def test_the_round_under_way_ends_and_nobody_is_started_into_another(
    site: RunningSite, open_page: Opener
) -> None:
    page = floor(site, open_page)
    work = next(x for x in plan_of(site).run_sheet if x.activity == "work" and x.round)
    start(page)
    enter(page, "warm")
    wrong = page.locator("[data-part=heat-wrong]")
    expect(wrong).to_contain_text("warm is no reading from -20 to 60")
    assert_accessible(page)
    assert_no_sideways_scroll(page)
    page.locator("[data-part=heat-value]").fill("33,1")
    page.get_by_role("button", name="Enter the heat").click()
    expect(page.locator(HEAT)).to_contain_text("This round is the last. 33.1 °C WBGT: cancel")
    expect(page.locator(FLOOR)).to_have_attribute("data-phase", "on")
    page.wait_for_timeout(260)
    # "Next" leads to the end of the round and no further, however often it is touched.
    page.get_by_role("button", name="Next", exact=True).click()
    expect(page.locator(FLOOR)).to_have_attribute("data-phase", "heat")
    expect(page.locator("[data-part=title]")).to_have_text("Stopped: heat")
    expect(page.locator(HEAT)).to_contain_text("Medical staff and local rules decide")
    expect(page.get_by_role("button", name="Next", exact=True)).to_be_hidden()
    expect(page.get_by_role("button", name="Start from the beginning")).to_be_hidden()
    assert clock_of(stored(site, 4)).place_s == work.end_s
    assert_accessible(page)
    assert_no_sideways_scroll(page)
    enter(page, "24")
    expect(page.locator(FLOOR)).to_have_attribute("data-phase", "held")
    expect(page.locator(HEAT)).to_be_hidden()
    expect(page.get_by_role("button", name="Go on")).to_be_visible()


def test_in_flight_mode_it_stops_as_well_and_stays_stopped_when_opened_again(
    site: RunningSite, open_page: Opener
) -> None:
    page = started_uncounted(site, open_page)
    page.get_by_role("button", name="Hold: bars down").click()
    stored(site, 2)
    page = reopened_in_flight_mode(page, site)
    enter(page, "34")
    expect(page.locator(FLOOR)).to_have_attribute("data-phase", "heat")
    page.reload()
    opened(page)
    expect(page.locator(FLOOR)).to_have_attribute("data-phase", "heat")
    expect(page.locator(HEAT)).to_contain_text("Stopped. 34 °C WBGT: cancel")
    back_on_the_network(page, site)
    page.evaluate("dispatchEvent(new Event('online'))")
    record = in_order(stored(site, 4))
    assert [e.kind for e in record[2:]] == [EventKind.HEAT_READ, EventKind.HEAT_STOP]
    # The session has the reading, and the record says why it stopped.
    form = page.request.get(f"{site.url}/sessions/{SESSION}/edit").text()
    assert "34" in form
    said = page.request.get(f"{site.url}/done/{SESSION}").text()
    assert "Heat read 34 degC WBGT" in said
    assert "Stops for heat at" in said
    page.close()


def test_a_reading_entered_on_another_page_reaches_floor_and_wall(
    site: RunningSite, open_page: Opener
) -> None:
    page = floor(site, open_page)
    start(page)
    wall = opened(open_page(f"{site.url}/live/{SESSION}/wall", look=SCREEN))
    page.get_by_role("button", name="Hold: bars down").click()
    stored(site, 2)
    heat = HeatReading(wet_bulb_globe_c=35.0)
    change_club(
        site.keeper,
        lambda club: with_session(club, replace(club.session(SESSION), heat=heat)),
        today=EVENING.date(),
    )
    expect(page.locator(HEAT)).to_contain_text("Stopped. 35 °C WBGT: cancel", timeout=15000)
    expect(wall.locator("#wall")).to_have_attribute("data-phase", "heat", timeout=15000)
