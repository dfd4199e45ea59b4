"""Sheets for others in a real browser: one press each, and on each only what its reader may see."""

import re
from collections.abc import Callable
from pathlib import Path

from playwright.sync_api import Page, expect

from looks import Look, assert_accessible, assert_no_sideways_scroll
from printing.printed import pypdf_text
from site_server import RunningSite
from squadwright.services.clubs import load_club

Opener = Callable[..., Page]
PHONE = Look("light", 360, 740)
# Names and reasons of the demo club, which is invented.
OTHER_CHILD = "Marisol Quenaya"
REASONS = ("right shoulder", "blood pressure", "head knock", "concussion")


def read_and_print(page: Page) -> str:
    """What stands on the sheet and on its print, after one press on each."""
    assert_accessible(page)
    assert_no_sideways_scroll(page)
    with page.expect_download() as download:
        page.get_by_role("button", name="Print it").click()
    printed = pypdf_text(Path(download.value.path()).read_bytes())
    return f"{page.get_by_role('main').inner_text()} {printed}"


def test_parents_of_the_youngest_read_of_nobody_else(site: RunningSite, open_page: Opener) -> None:
    page = open_page(f"{site.url}/squad/athlete/A12", look=PHONE)
    page.get_by_role("link", name="Sheets for others").click()
    page.get_by_role("link", name="For the parent").click()
    expect(page.get_by_role("heading", level=1)).to_contain_text("Sami Darwazin")
    text = read_and_print(page)
    names = [a.name for a in load_club(site.keeper).athletes if a.name != "Sami Darwazin"]
    assert OTHER_CHILD in names
    for name in names:
        assert name not in text
    assert "'01" not in text
    for words in ("rank", "46.3", "48 kg", "over the limit"):
        assert words not in text
    for words in ("10 kg", "24 contacts", "No maximal tests", "no weight loss"):
        assert words in text


def test_head_coach_and_assistant_read_what_is_barred_and_never_why(
    site: RunningSite, open_page: Opener
) -> None:
    for role, wanted in (
        ("For the head coach", ("Events ahead", "2 rounds")),
        ("For the assistant", ("Emergency", "by the ice machine", "Watch for")),
    ):
        page = open_page(f"{site.url}/squad", look=PHONE)
        page.get_by_role("link", name="Sheets for others").click()
        page.get_by_role("link", name=role).click()
        text = read_and_print(page)
        assert "Birk Aldervoll: no overhead" in text
        for reason in REASONS:
            assert not re.search(reason, text, re.IGNORECASE)
        for words in wanted:
            assert words in text


def test_medical_staff_and_the_athlete_read_why(site: RunningSite, open_page: Opener) -> None:
    for role in ("For the clinician", "For the athlete"):
        page = open_page(f"{site.url}/squad/athlete/A04/sheets", look=PHONE)
        page.get_by_role("link", name=role).click()
        assert "right shoulder" in read_and_print(page).lower()
