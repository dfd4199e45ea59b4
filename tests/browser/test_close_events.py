"""A bad day: two competitions in eight days. Two dates are entered, and the session follows."""

import re
from collections.abc import Callable
from datetime import timedelta

import pytest
from playwright.sync_api import Page, expect

from looks import Look, assert_no_sideways_scroll
from site_server import MONDAY, RunningSite

Opener = Callable[..., Page]
PHONE = Look("light", 360)


def enter_event(page: Page, url: str, name: str, days: int) -> None:
    page.goto(f"{url}/squad/athlete/A03/event/new")
    page.locator("[name=name]").fill(name)
    page.locator("[name=starts_on]").fill((MONDAY + timedelta(days=days)).isoformat())
    page.get_by_role("radio", name="B, to take part").check()
    page.get_by_label("Weight limit").first.fill("70")
    page.get_by_role("button", name="Store", exact=True).click()
    expect(page).to_have_url(re.compile(r"/squad/athlete/A03(\?|$)"))


@pytest.mark.parametrize("scripts", [True, False])
def test_two_events_in_eight_days_halve_the_session_and_say_why(
    site: RunningSite, open_page: Opener, scripts: bool
) -> None:
    page = open_page(f"{site.url}/squad/athlete/A03", look=PHONE, scripts=scripts)
    enter_event(page, site.url, "Harbour cup", 2)
    enter_event(page, site.url, "Island cup", 9)
    page.goto(f"{site.url}/today/monday-barbell")
    finding = page.get_by_text("7 days apart").first
    page.evaluate("document.querySelectorAll('details').forEach(d => { d.open = true })")
    expect(finding).to_contain_text("Harbour cup, B")
    expect(finding).to_contain_text("2 days to the first: half the rounds")
    expect(page.get_by_text("The second weigh-in: 70 kg").first).to_be_visible()
    expect(page.get_by_text("2 rounds at the same load").first).to_be_visible()
    assert_no_sideways_scroll(page)
