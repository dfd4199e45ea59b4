"""On a phone: two events close together are settled, and a camp is reviewed in two taps."""

import re
from collections.abc import Callable
from dataclasses import replace
from datetime import timedelta

import pytest
from playwright.sync_api import Page, expect

from looks import Look, assert_accessible, assert_no_sideways_scroll
from site_server import MONDAY, RunningSite
from squadwright.model.athlete import Event
from squadwright.services.club_changes import change_club

Opener = Callable[..., Page]
PHONE = Look("light", 360)


@pytest.mark.parametrize("scripts", [True, False])
def test_events_on_day_12_and_day_20_get_a_choice_and_a_plan(
    site: RunningSite, open_page: Opener, scripts: bool
) -> None:
    page = open_page(f"{site.url}/squad/athlete/A02", look=PHONE, scripts=scripts)
    page.get_by_role("link", name="Spring qualifier and National open: close together").click()
    expect(page.get_by_text("2 of 4 rounds at the same load, 50 % less")).to_be_visible()
    expect(page.get_by_text("One touch of power, on Tue 17 Mar, 5 days before")).to_be_visible()
    expect(page.get_by_text("Nothing for the first time").first).to_be_visible()
    expect(page.get_by_text("Second weigh-in: 74 kg")).to_be_visible()
    page.get_by_role("radio", name="The second").check()
    page.get_by_role("button", name="Store").click()
    expect(page.get_by_text("Peaks for the second.")).to_be_visible()
    expect(page.get_by_role("radio", name="The second")).to_be_checked()
    assert_no_sideways_scroll(page)


def test_a_camp_is_reviewed_in_two_taps(site: RunningSite, open_page: Opener) -> None:
    cup = Event("cup", "Harbour cup", MONDAY - timedelta(days=3))
    change_club(
        site.keeper,
        lambda club: replace(
            club,
            athletes=tuple(
                replace(a, events=(*a.events, cup)) if a.id == "A06" else a for a in club.athletes
            ),
        ),
        today=MONDAY,
    )
    page = open_page(f"{site.url}/squad/athlete/A06", look=PHONE)
    page.get_by_role("link", name="Review the camp for Harbour cup").click()
    expect(page.get_by_label("Keep", exact=False).first).not_to_be_empty()
    page.get_by_role("button", name="Accept").click()
    expect(page.get_by_text("Kept.")).to_be_visible()
    expect(page.get_by_text(re.compile("Too few earlier camps"))).to_be_visible()
    assert_accessible(page)
    with page.expect_download() as download:
        page.get_by_role("link", name="Print the review").click()
    assert download.value.suggested_filename == "2026-02-27-camp-review.pdf"
