"""Sessions in a real browser: made, copied, taken out, printed."""

import io
import zipfile
from collections.abc import Callable
from pathlib import Path

import pytest
from playwright.sync_api import Page, Route, expect

from looks import (
    Look,
)
from site_server import RunningSite

Opener = Callable[..., Page]
PHONE = Look("light", 360)


@pytest.mark.parametrize("scripts", [True, False], ids=["scripts", "no scripts"])
def test_a_session_from_a_slot_of_the_week_in_two_taps(
    site: RunningSite, open_page: Opener, scripts: bool
) -> None:
    page = open_page(f"{site.url}/sessions/week", look=PHONE, scripts=scripts)
    page.get_by_role("link", name="Session on Fri 6 Mar from Short").click()
    page.get_by_role("button", name="Store the session").click()
    expect(page.locator(".changed")).to_contain_text("Short on Friday 6 March 2026 is in the diary")
    expect(page.get_by_role("heading", level=1)).to_have_text("Short")


def test_an_odd_session_is_asked_about_and_one_tap_stores_it(
    site: RunningSite, open_page: Opener
) -> None:
    page = open_page(f"{site.url}/sessions/monday-barbell/copy", look=PHONE)
    page.get_by_label("To the day").fill("2026-03-08")
    page.get_by_role("button", name="Copy it").click()
    expect(page.get_by_text("The week has no slot on Sunday at 18:00.")).to_be_visible()
    expect(page.get_by_label("To the day")).to_have_value("2026-03-08")
    page.get_by_role("button", name="It is so: there is room and time").click()
    expect(page.locator(".changed")).to_contain_text("Sunday 8 March 2026 is in the diary")
    # The late one and the absent one of Monday are simply here in the copy.
    expect(page.get_by_text("13 of 14 train")).to_be_visible()
    page.get_by_role("button", name="Undo").click()
    expect(page.locator(".changed")).to_contain_text("Taken back.")


def test_a_session_taken_out_comes_back_by_undo(site: RunningSite, open_page: Opener) -> None:
    page = open_page(f"{site.url}/today", look=PHONE)
    page.get_by_role("link", name="All sessions").click()
    page.get_by_role("link", name="Change Wednesday plyometric").click()
    page.get_by_role("button", name="Take this session out").click()
    expect(page.locator(".changed")).to_contain_text("Wednesday plyometric on Wednesday 4 March")
    expect(page.locator(".diary")).not_to_contain_text("Wednesday plyometric")
    page.get_by_role("button", name="Undo").click()
    expect(page.locator(".diary")).to_contain_text("Wednesday plyometric")


def test_names_show_where_they_are_chosen(site: RunningSite, open_page: Opener) -> None:
    page = open_page(f"{site.url}/sessions/new", look=PHONE, scripts=False)
    name = page.locator(".who-names").get_by_text("Marisol Quenaya", exact=True)
    expect(name).not_to_be_visible()
    page.get_by_text("Some names", exact=True).click()
    expect(name).to_be_visible()


@pytest.mark.parametrize("scripts", [True, False], ids=["scripts", "no scripts"])
def test_sheets_come_with_a_press_each_from_today(
    site: RunningSite, open_page: Opener, scripts: bool
) -> None:
    page = open_page(f"{site.url}/today", look=PHONE, scripts=scripts)
    page.get_by_role("link", name="Print", exact=True).click()
    page.get_by_role("button", name="both").click()
    with page.expect_download() as waiting:
        page.get_by_role("link", name="Four in one file").click()
    assert waiting.value.suggested_filename == "2026-03-02-monday-barbell.zip"
    packed = Path(waiting.value.path()).read_bytes()
    assert len(zipfile.ZipFile(io.BytesIO(packed)).namelist()) == 4


def test_progress_shows_while_a_sheet_takes_its_time(site: RunningSite, open_page: Opener) -> None:
    page = open_page(f"{site.url}/sessions/monday-barbell/sheets", look=PHONE)
    held: list[Route] = []
    page.route("**/wall.pdf*", lambda route: held.append(route))
    page.get_by_role("link", name="Wall sheet").click()
    line = page.locator("#sheet-at-work")
    expect(line).to_be_visible()
    expect(line).to_contain_text("Setting: Wall sheet")
    with page.expect_download() as waiting:
        held[0].continue_()
    assert waiting.value.suggested_filename == "2026-03-02-monday-barbell-wall.pdf"
    expect(line).not_to_be_visible()
    expect(page.locator("#sheet-done")).to_contain_text("is with your downloads")
