"""Today in a real browser: read on a phone in the hall, in every look."""

from collections.abc import Callable

import pytest
from playwright.sync_api import Page, expect

from looks import (
    SOME_LOOKS,
    Look,
    assert_accessible,
    assert_no_sideways_scroll,
    assert_readable_size,
)
from site_server import RunningSite

Opener = Callable[..., Page]
PHONE = Look("light", 360)
PATHS = ("/today", "/today/wednesday-plyometric")


def open_all(page: Page) -> None:
    """Open every disclosure, as a coach would who wants to know it all."""
    page.evaluate("document.querySelectorAll('details').forEach(d => { d.open = true })")


@pytest.mark.parametrize("path", PATHS)
@pytest.mark.parametrize("look", SOME_LOOKS, ids=str)
def test_a_session_can_be_read_in_every_look(
    site: RunningSite, open_page: Opener, look: Look, path: str
) -> None:
    page = open_page(f"{site.url}{path}", look=look)
    assert_no_sideways_scroll(page)
    open_all(page)
    assert_accessible(page)
    assert_no_sideways_scroll(page)
    assert_readable_size(page)


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
