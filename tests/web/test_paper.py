"""Entering from paper, in process: its sheet, and the page once the session is in the record."""

import io

import pytest
from pypdf import PdfReader

from read_pages import changed, page_of, words_of
from recording import START
from site_server import Browse
from squadwright.model.record import EventKind, RecordEvent
from squadwright.services.record import exchange

SESSION = "monday-barbell"
PAGE, DONE = f"/paper/{SESSION}", f"/done/{SESSION}"


def sheet_of(browse: Browse, session: str) -> str:
    answer = browse.get(f"/paper/{session}/sheet.pdf")
    assert answer.status_code == 200
    (page,) = PdfReader(io.BytesIO(answer.content)).pages
    return " ".join(page.extract_text().split())


@pytest.mark.parametrize(
    ("session", "has_bars"), [("monday-barbell", True), ("wednesday-plyometric", False)]
)
def test_the_score_sheet_has_the_columns_its_session_needs_and_no_others(
    browse: Browse, session: str, has_bars: bool
) -> None:
    words = sheet_of(browse, session)
    assert ("Bar Athlete Load Round 1" in words) == has_bars
    assert ("Other load" in words) == has_bars
    assert ("Athlete Was there Seen Effort" in words) == (not has_bars)
    assert "a phone cannot open it" in words


def test_what_was_entered_is_told_on_its_page_and_can_be_taken_back_there(browse: Browse) -> None:
    browse.post(PAGE, {"effort-A04": "7"})
    page = page_of(browse.get(PAGE))
    assert "it was entered from paper. Take that back first." in words_of(page)
    (button,) = page.xpath("//form[.//button[normalize-space()='Take the entry back']]")
    back = {each.get("name"): each.get("value") for each in button.xpath(".//input")}
    page = page_of(browse.post(button.get("action"), back))
    assert changed(page) == "Taken back."
    assert "Store it: the rest as planned" in words_of(page)


def test_a_session_that_ran_by_the_clock_says_why_it_is_not_entered(browse: Browse) -> None:
    started = RecordEvent("p1", SESSION, "phone", 1, START, EventKind.STARTED, value=0.0)
    exchange(browse.keeper, SESSION, [started], after=0)
    page = page_of(browse.get(PAGE))
    assert "it ran by the clock of the live floor, and what was noted there stands." in words_of(
        page
    )
    assert page.xpath(f"//main//div[contains(@class, 'sentence')]//a[@href='{DONE}']")
    assert not page.xpath("//button[normalize-space()='Take the entry back']")
