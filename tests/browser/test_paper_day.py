"""A day without a device: the score sheet is printed, written on, and entered afterwards."""

import subprocess
from collections.abc import Callable
from pathlib import Path

import pytest
import zxingcpp
from PIL import Image
from playwright.sync_api import Page, expect
from pypdf import PdfReader

from browser.hand import Hand
from looks import SOME_LOOKS, Look, assert_accessible, assert_no_sideways_scroll
from site_server import RunningSite

Opener = Callable[..., Page]
PHONE = Look("light", 360, 740)
# Asked for: what is written on paper is entered in under 2 minutes.
LONGEST_S = 120.0
# The first page of a session plans it, on a machine that may be busy.
PLANNING_MS = 60_000
# A photograph of the sheet at arm's length: 100 dots to an inch is a third of a phone's.
DOTS_PER_INCH = 100


def printed_score_sheet(page: Page, folder: Path) -> Path:
    page.get_by_role("link", name="Print", exact=True).click()
    with page.expect_download() as waiting:
        page.get_by_role("link", name="Score sheet").click()
    assert waiting.value.suggested_filename == "2026-03-02-monday-barbell-score.pdf"
    path = folder / "score.pdf"
    waiting.value.save_as(path)
    return path


def code_on(sheet: Path) -> str:
    """The code as another library reads it from a picture of the page."""
    picture = sheet.with_suffix("")
    command = ["pdftoppm", "-gray", "-singlefile", "-r", str(DOTS_PER_INCH), "-png"]
    subprocess.run([*command, str(sheet), str(picture)], check=True)
    (code,) = zxingcpp.read_barcodes(Image.open(picture.with_suffix(".png")))
    return str(code.text)


def test_what_was_written_on_paper_is_entered_in_under_two_minutes(
    site: RunningSite, open_page: Opener, tmp_path: Path
) -> None:
    page = open_page(f"{site.url}/squad", look=PHONE)
    page.goto(f"{site.url}/today/monday-barbell", timeout=PLANNING_MS)
    sheet = printed_score_sheet(page, tmp_path)
    address = code_on(sheet)
    assert address == f"{site.url}/paper/monday-barbell"
    page.goto(address)
    expect(page.get_by_role("heading", level=1)).to_have_text("From paper: Monday barbell")
    words = PdfReader(sheet).pages[0].extract_text()
    names = page.locator(".paper-name strong").all_inner_texts()
    places = [words.index(name) for name in names]
    assert len(names) == 12
    assert places == sorted(places)

    hand = Hand(page)

    def opened(name: str) -> None:
        hand.tap(page.locator("summary", has_text=name))

    for number, name in enumerate(names):
        line = page.locator(".paper-line", has_text=name)
        hand.write(line.get_by_label("Effort, 0 to 10"), str(4 + number % 5))
    opened("Ngaire Waipuhia")
    ngaire = page.locator(".paper-line", has_text="Ngaire Waipuhia")
    hand.write(ngaire.get_by_label("Lost in round 3"), "2")
    opened("Birk Aldervoll")
    birk = page.locator(".paper-line", has_text="Birk Aldervoll")
    hand.write(birk.get_by_label("Rounds done"), "3")
    hand.write(birk.get_by_label("What was seen"), "leans back")
    opened("Haneul Namgyeong")
    haneul = page.locator(".paper-line", has_text="Haneul Namgyeong")
    hand.tap(haneul.get_by_label("Was not there"))
    hand.tap(page.get_by_role("button", name="Store it: the rest as planned"))
    expect(page.locator(".changed")).to_contain_text("The session is entered from paper.")
    print(f"{hand.actions} actions, {hand.slow_s:.0f} s by a slow hand")
    assert hand.slow_s < LONGEST_S

    row = page.locator("tbody tr")
    expect(row.filter(has_text="Birk").first).to_contain_text("3 of 4 rounds")
    expect(row.filter(has_text="Ngaire").first).to_contain_text("4 of 4 rounds")
    expect(row.filter(has_text="Haneul").first).to_contain_text("was not there")
    page.goto(address)
    expect(page.get_by_text("is in the record already")).to_be_visible()


@pytest.mark.parametrize("scripts", [True, False], ids=["scripts", "no scripts"])
def test_a_wrong_number_is_told_beside_its_field_and_nothing_is_lost(
    site: RunningSite, open_page: Opener, scripts: bool
) -> None:
    page = open_page(f"{site.url}/squad", look=PHONE, scripts=scripts)
    page.goto(f"{site.url}/done/monday-barbell", timeout=PLANNING_MS)
    page.get_by_role("link", name="Enter from paper").click()
    birk = page.locator(".paper-line", has_text="Birk Aldervoll")
    birk.locator("summary").click()
    birk.get_by_label("Rounds done").fill("5")
    birk.get_by_label("Effort, 0 to 10").fill("7")
    page.get_by_role("button", name="Store it").click()
    expect(page.get_by_role("alert")).to_contain_text("5 is outside 0 to 4")
    expect(birk.get_by_label("Rounds done")).to_have_value("5")
    expect(birk.get_by_label("Effort, 0 to 10")).to_have_value("7")
    page.goto(f"{site.url}/done/monday-barbell")
    expect(page.get_by_text("Nothing is noted of this session yet")).to_be_visible()


def test_the_page_can_be_read_and_used_in_every_look(site: RunningSite, open_page: Opener) -> None:
    for look in SOME_LOOKS:
        page = open_page(f"{site.url}/squad", look=look)
        page.goto(f"{site.url}/paper/monday-barbell", timeout=PLANNING_MS)
        page.evaluate("document.querySelectorAll('details').forEach(d => { d.open = true })")
        assert_accessible(page)
        assert_no_sideways_scroll(page)
