"""How often the forecast was right, in a real browser, in each look."""

from collections.abc import Callable
from dataclasses import replace

import pytest
from playwright.sync_api import Page, expect

from learning.training_squad import squad
from looks import (
    SOME_LOOKS,
    Look,
    assert_accessible,
    assert_no_sideways_scroll,
    assert_readable_size,
)
from site_server import RunningSite
from squadwright.learning.history import History
from squadwright.services import how_often_right as asked

Opener = Callable[..., Page]
PHONE = Look("light", 360, 740)


@pytest.fixture(scope="module")
def people() -> dict[str, History]:
    """Invented histories under ids of the demo club, one of them short."""
    made = [*squad(people=7, sessions=12), *squad(people=1, sessions=3, seed=7)]
    return {f"A{n:02d}": replace(h, athlete=f"A{n:02d}") for n, h in enumerate(made, start=1)}


@pytest.fixture
def tried(
    site: RunningSite, people: dict[str, History], monkeypatch: pytest.MonkeyPatch
) -> RunningSite:
    """The site as if these were the histories of its club."""
    monkeypatch.setattr(asked, "histories", lambda keeper, club, *, before: people)
    return site


@pytest.mark.parametrize("look", SOME_LOOKS, ids=str)
def test_club_and_athlete_hold_in_every_look(
    tried: RunningSite, open_page: Opener, look: Look
) -> None:
    page = open_page(f"{tried.url}/how-often-right", look=look)
    for path in ("/how-often-right", "/how-often-right/A01", "/how-often-right/A08", "/patterns"):
        page.goto(f"{tried.url}{path}")
        page.evaluate("document.querySelectorAll('details').forEach(d => { d.open = true })")
        assert_accessible(page)
        assert_no_sideways_scroll(page)
        assert_readable_size(page)


@pytest.mark.parametrize("scripts", [True, False], ids=["scripts", "no scripts"])
def test_from_the_squad_to_one_athlete_and_back(
    tried: RunningSite, open_page: Opener, scripts: bool
) -> None:
    page = open_page(f"{tried.url}/squad", look=PHONE, scripts=scripts)
    page.get_by_role("link", name="How often it was right").click()
    expect(page.get_by_role("heading", level=1)).to_have_text("How often it was right")
    expect(page.locator(".who-line")).to_contain_text("of 87 forecasts the whole was done")
    link = page.locator("#athletes ~ table a").first
    name = link.inner_text()
    link.click()
    expect(page.get_by_role("heading", level=1)).to_have_text(f"How often it was right: {name}")
    page.get_by_role("link", name="All athletes").click()
    expect(page.locator("#athletes ~ table a")).to_have_count(8)


def test_each_mark_of_the_picture_stands_where_its_words_say(
    tried: RunningSite, open_page: Opener
) -> None:
    page = open_page(f"{tried.url}/how-often-right", look=PHONE)
    lines = page.locator("svg.interval-line")
    assert lines.count() >= 2
    for n in range(lines.count()):
        line = lines.nth(n)
        words = line.get_attribute("aria-label") or ""
        said, came = (
            float(words.split(f"{verb} ")[1].split(" %")[0]) for verb in (": said", "came")
        )
        whole, diamond, middle = (
            box.bounding_box()
            for box in (line, line.locator(".share-said"), line.locator(".interval-middle"))
        )
        assert whole
        assert diamond
        assert middle
        at_diamond = (diamond["x"] + diamond["width"] / 2 - whole["x"]) / whole["width"]
        at_middle = (middle["x"] + middle["width"] / 2 - whole["x"]) / whole["width"]
        assert 100 * at_diamond == pytest.approx(said, abs=1)
        assert 100 * at_middle == pytest.approx(came, abs=1)
