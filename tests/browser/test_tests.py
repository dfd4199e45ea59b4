"""A day of testing and what a change is called, in a real browser."""

from collections.abc import Callable
from datetime import date

import pytest
from playwright.sync_api import Page, expect

from day_squad import had_a_day, make_all_fit
from looks import Look, assert_accessible, assert_no_sideways_scroll, assert_readable_size
from site_server import RunningSite

PHONE = Look("light", 360, 740)
# A day is solved three times over on a busy machine.
PATIENCE_MS = 60_000


@pytest.mark.parametrize("scripts", [True, False], ids=["scripts", "no scripts"])
def test_fourteen_athletes_five_tests_three_helpers_and_an_honest_change(
    site: RunningSite, open_page: Callable[..., Page], scripts: bool
) -> None:
    """75 minutes, no queue above three; another order warns; +1.5 cm is within the error."""
    make_all_fit(site.keeper)
    had_a_day(site.keeper, "A05", date(2026, 2, 2))
    page = open_page(f"{site.url}/tests", look=PHONE, scripts=scripts)
    page.set_default_timeout(PATIENCE_MS)
    page.get_by_role("link", name="Plan a day of testing").click()
    expect(page.locator("input[name=who]:checked")).to_have_count(14)
    for name in ("Seated chest throw", "Grip strength", "20 m shuttle run"):
        page.get_by_role("checkbox", name=name).check()
    expect(page.locator("input[name=test]:checked")).to_have_count(5)
    page.get_by_role("button", name="Plan the day").click()
    said = page.locator(".who-line")
    expect(said.first).to_contain_text("14 athletes, 5 tests, 3 helpers: ")
    expect(said.first).to_contain_text("of 75 min")
    expect(said.last).to_contain_text("3 are allowed")
    queue = int(said.last.inner_text().split("more than ")[1].split(" ")[0])
    assert queue <= 3
    expect(page.get_by_text("A change in the results may come from the order.")).to_be_visible()
    if scripts:
        for each in (assert_accessible, assert_no_sideways_scroll, assert_readable_size):
            each(page)
    station = page.locator("section[aria-labelledby=at-countermovement_jump]")
    station.get_by_role("link").click()
    rows = page.locator(".test-row")
    expect(rows).to_have_count(14)
    page.get_by_role("textbox", name="Attempt 1 of Parwana Sohrabin").fill("39.8")
    page.get_by_role("textbox", name="Attempt 2 of Parwana Sohrabin").fill("41.5")
    page.get_by_role("textbox", name="Attempt 1 of Iskander Yulbarin").fill("412")
    page.get_by_role("button", name="Write the results").click()
    page.get_by_role("button", name="41.2 cm").click()
    expect(page.get_by_role("status")).to_contain_text("2 results written")
    page.get_by_role("link", name="Parwana Sohrabin").click()
    expect(page.locator(".test-verdict")).to_have_text("+1.5 cm: within measuring error.")
    assert_no_sideways_scroll(page)
    if scripts:
        for path in ("", "/countermovement_jump", "/athlete/A05", "/force-file"):
            page.goto(f"{site.url}/tests{path}")
            page.evaluate("document.querySelectorAll('details').forEach(d => { d.open = true })")
            for each in (assert_accessible, assert_no_sideways_scroll, assert_readable_size):
                each(page)
