"""Away from home on a phone: the card is there at once, and another room changes it."""

from collections.abc import Callable

import pytest
from playwright.sync_api import Page, expect

from looks import Look, assert_no_sideways_scroll
from site_server import RunningSite

PHONE = Look("light", 360)


@pytest.mark.parametrize("scripts", [True, False])
def test_the_same_session_with_one_ball_in_a_small_room(
    site: RunningSite, open_page: Callable[..., Page], scripts: bool
) -> None:
    page = open_page(f"{site.url}/today/monday-barbell", look=PHONE, scripts=scripts)
    page.get_by_role("link", name="Away from home").click()
    expect(page.get_by_text("Kept: hinge, pull, lunge, push.")).to_be_visible()
    expect(page.get_by_text("of work and rest, as at home.")).to_be_visible()
    assert_no_sideways_scroll(page)
    page.get_by_label("One ball").first.fill("")
    page.get_by_label("For").select_option(label="Chidozie Umelaro")
    page.get_by_role("button", name="Show the card").click()
    expect(page.get_by_text("With no ball, no bar").first).to_be_visible()
    expect(page.get_by_text("competes in 6 days: 2 rounds").first).to_be_visible()
    with page.expect_download() as download:
        page.get_by_role("link", name="Print the card").click()
    assert download.value.suggested_filename == "2026-03-02-travel-card.pdf"


def test_a_week_without_the_hall_leads_to_the_session_elsewhere(
    site: RunningSite, open_page: Callable[..., Page]
) -> None:
    """The floor is varnished from 30 March on: the season and the week lead away from home."""
    page = open_page(f"{site.url}/camp/season", look=PHONE)
    expect(page.get_by_role("link", name="Monday barbell elsewhere")).to_be_visible()
    page.goto(f"{site.url}/camp/week?day=2026-03-30")
    assert_no_sideways_scroll(page)
    page.get_by_role("link", name="Do it elsewhere").first.click()
    expect(page.get_by_text("Kept: hinge, pull, lunge, push.")).to_be_visible()
