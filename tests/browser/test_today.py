"""Today in a real browser: read on a phone in the hall, in every look."""

from collections.abc import Callable

import pytest
from playwright.sync_api import Page, expect

from looks import (
    Look,
)
from site_server import RunningSite

Opener = Callable[..., Page]
PHONE = Look("light", 360)


def open_all(page: Page) -> None:
    """Open every disclosure, as a coach would who wants to know it all."""
    page.evaluate("document.querySelectorAll('details').forEach(d => { d.open = true })")


def test_the_reason_for_a_load_is_one_tap_away_without_scripts(
    site: RunningSite, open_page: Opener
) -> None:
    page = open_page(f"{site.url}/today", look=PHONE, scripts=False)
    load = page.locator(".load", has_text="Marisol Quenaya")
    expect(load.get_by_text("16 kg", exact=True)).to_be_visible()
    reason = load.get_by_text("Muscle clean would give out first")
    expect(reason).not_to_be_visible()
    load.get_by_text("Why 16 kg").click()
    expect(reason).to_be_visible()


def test_who_is_here_stands_on_the_first_screen_of_a_phone(
    site: RunningSite, open_page: Opener
) -> None:
    page = open_page(f"{site.url}/today", look=PHONE)
    expect(page.get_by_text("12 of 14 train")).to_be_in_viewport()


def test_the_way_to_another_session_and_back(site: RunningSite, open_page: Opener) -> None:
    page = open_page(site.url, look=PHONE)
    page.get_by_role("link", name="Wednesday plyometric").click()
    expect(page.get_by_role("heading", level=1)).to_have_text("Wednesday plyometric")
    page.get_by_role("link", name="Monday barbell").click()
    expect(page.get_by_role("heading", level=1)).to_have_text("Monday barbell")


def door_of(site: RunningSite, open_page: Opener, *, scripts: bool) -> Page:
    page = open_page(f"{site.url}/today", look=PHONE, scripts=scripts)
    page.get_by_role("link", name="Check in").click()
    expect(page.get_by_role("heading", level=1)).to_have_text("Check-in: Monday barbell")
    return page


@pytest.mark.parametrize("scripts", [True, False])
def test_absent_in_one_tap_changes_the_plan_and_undo_takes_it_back(
    site: RunningSite, open_page: Opener, scripts: bool
) -> None:
    page = door_of(site, open_page, scripts=scripts)
    page.get_by_role("button", name="Absent Marisol Quenaya").click()
    line = page.locator(".changed")
    expect(line).to_contain_text("Marisol Quenaya is absent. Iskander Yulbarin: 31 kg (was 30 kg).")
    expect(line).to_be_in_viewport()
    page.get_by_role("link", name="See the plan").click()
    expect(page.get_by_text("11 of 14 train")).to_be_visible()
    expect(page.locator(".load", has_text="Marisol Quenaya")).to_have_count(0)
    expect(page.locator(".load", has_text="Iskander Yulbarin")).to_contain_text("31 kg")
    page.go_back()
    page.get_by_role("button", name="Here Marisol Quenaya").click()
    expect(line).to_contain_text("Marisol Quenaya is here. Marisol Quenaya joins: bar")
    page.get_by_role("button", name="Undo").click()
    expect(line).to_contain_text("Marisol Quenaya is absent.")


def test_late_in_two_taps_stands_on_the_plan(site: RunningSite, open_page: Opener) -> None:
    page = door_of(site, open_page, scripts=False)
    page.get_by_role("link", name="Late, pain Haneul Namgyeong").click()
    page.get_by_role("button", name="Late 20 min").click()
    expect(page.locator(".changed")).to_contain_text("Haneul Namgyeong is 20 minutes late.")
    page.get_by_role("link", name="See the plan").click()
    expect(page.locator(".who-changes").first).to_contain_text("Haneul Namgyeong 20 minutes late")
    expect(page.locator(".band-label", has_text="Haneul Namgyeong")).to_be_visible()
    expect(page.locator(".load", has_text="Haneul Namgyeong")).to_contain_text("of 4.")


def test_a_sore_knee_swaps_what_loads_it(site: RunningSite, open_page: Opener) -> None:
    page = door_of(site, open_page, scripts=False)
    page.get_by_role("link", name="Late, pain Iskander Yulbarin").click()
    page.get_by_text("Knee", exact=True).click()
    page.get_by_role("button", name="5", exact=True).click()
    line = page.locator(".changed")
    expect(line).to_contain_text("Iskander Yulbarin is here, knee pain 5 of 10.")
    expect(line).to_contain_text("instead of Front-rack reverse lunge")
    page.get_by_role("link", name="See the plan").click()
    expect(page.locator(".findings")).to_contain_text("Iskander Yulbarin reports knee pain 5 of 10")
