"""The roster import in a real browser: a file of twelve, five cells in doubt, one undo."""

from collections.abc import Callable
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

from looks import (
    SOME_LOOKS,
    Look,
    assert_accessible,
    assert_no_sideways_scroll,
    assert_readable_size,
)
from roster_files import csv_text, xlsx_bytes
from site_server import RunningSite

Opener = Callable[..., Page]
PHONE = Look("light", 360)


def choose(page: Page, site: RunningSite, file: Path) -> None:
    page.goto(f"{site.url}/squad/import")
    page.get_by_label("CSV or XLSX file").set_input_files(file)
    page.get_by_role("button", name="Look at it").click()
    expect(page.get_by_role("heading", level=1)).to_have_text("Look at the roster")


@pytest.mark.parametrize("look", SOME_LOOKS, ids=str)
def test_every_page_can_be_read_and_used_in_every_look(
    site: RunningSite, open_page: Opener, tmp_path: Path, look: Look
) -> None:
    file = tmp_path / "squad.csv"
    file.write_text(csv_text(), encoding="utf-8")
    page = open_page(f"{site.url}/squad/import", look=look)

    def hold() -> None:
        page.evaluate("document.querySelectorAll('details').forEach(d => { d.open = true })")
        assert_accessible(page)
        assert_no_sideways_scroll(page)
        assert_readable_size(page)

    hold()
    choose(page, site, file)
    hold()
    page.get_by_role("button", name="Write in every cell").click()
    hold()
    page.goto(f"{site.url}/squad/import")
    (tmp_path / "broken.xlsx").write_bytes(xlsx_bytes()[:400])
    page.get_by_label("CSV or XLSX file").set_input_files(tmp_path / "broken.xlsx")
    page.get_by_role("button", name="Look at it").click()
    expect(page.get_by_role("alert")).to_contain_text("is a packed file that cannot be opened")
    hold()


@pytest.mark.parametrize("kind", ["csv", "xlsx"])
def test_twelve_athletes_five_doubts_answered_taken_in_and_taken_back(
    site: RunningSite, open_page: Opener, tmp_path: Path, kind: str
) -> None:
    file = tmp_path / f"squad.{kind}"
    file.write_bytes(xlsx_bytes() if kind == "xlsx" else csv_text(";").encode("utf-16"))
    page = open_page(f"{site.url}/squad", look=PHONE, scripts=False)
    page.get_by_role("link", name="Take in a roster").click()
    choose(page, site, file)
    expect(page.get_by_text("5 cells wait for an answer. Nothing is stored yet.")).to_be_visible()

    # Pressed too early: nothing is stored, and it says what waits.
    page.get_by_role("button", name="Take these in").click()
    expect(page.get_by_role("alert").first).to_contain_text("5 cells are in doubt still")

    # One tap where one thing is likely.
    page.get_by_role("button", name="170 lb (77.1 kg)").click()
    page.get_by_role("button", name="3 April 2007").click()
    page.get_by_role("button", name="advanced", exact=False).click()
    # A wrong cell is written anew; the cousin of one of the squad is left out.
    born = page.locator(".roster-row", has_text="Jorunn Ekwueme").get_by_label("Birth date")
    born.fill("03/03")
    page.get_by_text("Leave out line 10, Marisol Quenaya").click()
    page.get_by_role("button", name="Look again").click()
    expect(page.locator(".field-error")).to_have_text(
        "'03/03' is not a date; write it like 2010-04-03"
    )
    expect(born).to_have_value("03/03")
    born.fill("2012-03-03")
    page.get_by_role("button", name="Look again").click()
    expect(page.get_by_text("11 athletes from")).to_contain_text("Nothing waits for an answer")
    page.get_by_role("button", name="Take these in").click()

    line = page.locator(".changed")
    expect(line).to_contain_text("11 athletes are in the squad")
    expect(page.get_by_role("link", name="Emrys Fountayne")).to_be_visible()
    page.get_by_role("button", name="Undo").click()
    expect(page.get_by_role("link", name="Emrys Fountayne")).to_have_count(0)
    expect(page.get_by_role("link", name="Birk Aldervoll")).to_be_visible()


def test_the_squad_is_saved_as_a_file(site: RunningSite, open_page: Opener, tmp_path: Path) -> None:
    page = open_page(f"{site.url}/squad/import", look=PHONE)
    with page.expect_download() as waiting:
        page.get_by_role("link", name="Save the squad as CSV").click()
    assert waiting.value.suggested_filename == "squad.csv"
    waiting.value.save_as(tmp_path / "squad.csv")
    assert "Birk Aldervoll" in (tmp_path / "squad.csv").read_text(encoding="utf-8-sig")
