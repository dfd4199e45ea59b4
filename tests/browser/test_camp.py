"""The season in a real browser: fourteen dates go in, phases come out, the test week moves."""

from collections.abc import Callable
from datetime import date, timedelta

import pytest
from playwright.sync_api import Page, expect

from looks import Look, assert_accessible, assert_no_sideways_scroll, assert_readable_size
from site_server import RunningSite
from squadwright.demo import demo_club

MONDAY = date(2026, 3, 2)
PHONE = Look("light", 360)


@pytest.mark.parametrize("scripts", [True, False])
def test_fourteen_dates_give_phases_and_weeks_in_which_over_half_taper(
    site: RunningSite, open_page: Callable[..., Page], scripts: bool
) -> None:
    """Capability: enter fourteen dates, get phases planned back, see the squad test week move."""
    page = open_page(f"{site.url}/camp", look=PHONE, scripts=scripts)
    expect(page.get_by_text("In no week do more than half of the squad taper.")).to_be_visible()
    page.get_by_role("link", name="Enter dates").click()
    for number, athlete in enumerate(demo_club(MONDAY).athletes):
        day = MONDAY + timedelta(days=33 + number % 6)
        page.locator(f"[name='day-{athlete.id}']").fill(day.isoformat())
        page.locator(f"[name='name-{athlete.id}']").fill("Harbour games")
    page.get_by_role("button", name="Keep the dates").click()
    expect(page.locator(".changed")).to_contain_text("14 dates are kept.")
    expect(page.locator("h1")).to_have_text("Season")
    expect(page.get_by_text("over half").first).to_be_visible()
    page.get_by_label("Squad tests on").fill("2026-04-06")
    page.get_by_role("button", name="Look").click()
    expect(page.locator("main")).to_contain_text("move the tests to the week of Mon 13 April")
    page.locator("summary", has_text="Kwabena Fosuhene-Lund").click()
    expect(page.locator("main")).to_contain_text("Taper for Harbour games until Sun 5 April.")
    for path in ("/camp/season", "/camp", "/camp/plan", "/camp/plan/A09", "/camp/dates"):
        if scripts:
            page.goto(f"{site.url}{path}")
            page.evaluate("document.querySelectorAll('details').forEach(d => { d.open = true })")
            assert_accessible(page)
            assert_no_sideways_scroll(page)
            assert_readable_size(page)
