"""Routines in a real browser: read in every look, versioned, shared, printed on one page."""

import io
from collections.abc import Callable
from pathlib import Path

from playwright.sync_api import Page, expect
from pypdf import PdfReader

from looks import (
    Look,
)
from site_server import RunningSite

Opener = Callable[..., Page]
PHONE = Look("light", 360)
ROPE = "/routines/routine/ropewalk"


def test_the_dose_of_the_demo_jumps_stands_on_its_page_with_every_band(
    site: RunningSite, open_page: Opener
) -> None:
    page = open_page(f"{site.url}/routines/routine/tide-lanes", look=PHONE, scripts=False)
    dose = page.locator(".sentence", has_text="50 contacts and 42 throws for each athlete")
    expect(dose).to_be_visible()
    band = dose.get_by_text("Advanced: 120 to 140 contacts a session.")
    expect(band).not_to_be_visible()
    dose.get_by_text("Why", exact=True).click()
    expect(band).to_be_visible()
    expect(dose.get_by_text("A3 Seated-start jump to box: 10 contacts.")).to_be_visible()
    expect(dose.get_by_text("NSCA Essentials")).to_be_visible()


def test_a_changed_routine_leaves_the_session_its_version_until_one_press(
    site: RunningSite, open_page: Opener
) -> None:
    page = open_page(f"{site.url}{ROPE}", look=PHONE)
    page.get_by_role("link", name="Change it").click()
    page.locator(".step-row").nth(1).get_by_role("button", name="Remove").click()
    expect(page.locator(".step-row")).to_have_count(6)
    page.get_by_role("button", name="Store the routine").click()
    expect(page.locator(".changed")).to_contain_text("Ropewalk is stored as version 2.")
    expect(page.locator(".routine-versions")).to_contain_text("Version 1: Mon 2 Mar, 18:00")
    page.get_by_role("button", name="Use the newest version in 1 session").click()
    expect(page.locator(".changed")).to_contain_text("Version 2 of Ropewalk is used in Mon 2 Mar")
    page.get_by_role("button", name="Undo").click()
    expect(page.get_by_role("button", name="Use the newest version")).to_be_visible()


def test_a_routine_travels_as_a_file(site: RunningSite, open_page: Opener, tmp_path: Path) -> None:
    page = open_page(f"{site.url}{ROPE}", look=PHONE)
    with page.expect_download() as coming:
        page.get_by_role("link", name="Share as a file").click()
    file = tmp_path / coming.value.suggested_filename
    coming.value.save_as(file)
    assert file.name == "ropewalk.routine.json"
    page.goto(f"{site.url}/routines/take-in")
    page.set_input_files("[name=file]", file)
    page.get_by_role("button", name="Look at it").click()
    expect(page.locator(".routine-steps")).to_contain_text("Snatch-grip high pull")
    page.get_by_role("button", name="Take it into the club").click()
    expect(page.locator(".changed")).to_contain_text("Ropewalk copy is one of the club's routines")


def test_an_assistant_reads_order_bar_cues_stops_and_the_emergency_card_on_one_page(
    site: RunningSite, open_page: Opener
) -> None:
    page = open_page(f"{site.url}{ROPE}/sheet", look=Look("dark", 1440))
    order = page.locator(".handover-steps strong:first-of-type").all_inner_texts()
    assert order[0] == "Snatch-grip Romanian deadlift"
    # A page of silent reading: 238 words a minute (Brysbaert 2019, from memory, not confirmed).
    words = len(page.locator(".handover").inner_text().split())
    assert words / 238 < 2
    printed = PdfReader(io.BytesIO(page.pdf(format="A4", margin=MARGINS)))
    assert len(printed.pages) == 1
    text = printed.pages[0].extract_text()
    for each in ("Muscle clean", "Stop for:", "Emergency", "ice machine", "Cautions"):
        assert each in text
    assert "Look of the pages" not in text
    page.emulate_media(media="print")
    inks = page.evaluate(
        "[...new Set([...document.querySelectorAll('.handover *')]"
        ".map(e => getComputedStyle(e).color))]"
    )
    assert inks == ["rgb(0, 0, 0)"]


MARGINS = {"top": "12mm", "bottom": "12mm", "left": "12mm", "right": "12mm"}
