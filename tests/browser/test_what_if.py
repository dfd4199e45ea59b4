"""What if in a real browser: a slider is dragged, and the chance and what gives out first move."""

import re
from collections.abc import Callable
from urllib.parse import parse_qs, urlsplit

import pytest
from playwright.sync_api import Locator, Page, Route, expect

from looks import (
    SOME_LOOKS,
    Look,
    assert_accessible,
    assert_no_sideways_scroll,
    assert_readable_size,
)
from site_server import RunningSite

Opener = Callable[..., Page]
PATH = "/what-if/monday-barbell/A06?block=Ropewalk"
MOVED = f"{PATH}&rest_s=45&rounds=6&repetitions_4=1&repetitions_6=14&load_kg=37.5"
WRONG = f"{PATH}&rest_s=4000&load_kg=32,5"


def slider(page: Page, label: str) -> Locator:
    return page.get_by_role("slider", name=f"{label}, slider", exact=True)


def drag(page: Page, label: str, to_fraction: float) -> None:
    """Drag the thumb of a slider to a share of its way, in steps as a finger does."""
    moved = slider(page, label)
    moved.scroll_into_view_if_needed()
    box = moved.bounding_box()
    assert box is not None
    middle = box["y"] + box["height"] / 2
    low, high, now = (
        float(moved.evaluate(f"slider => slider.{name}")) for name in ("min", "max", "value")
    )
    page.mouse.move(box["x"] + box["width"] * (now - low) / (high - low), middle)
    page.mouse.down()
    page.mouse.move(box["x"] + box["width"] * to_fraction, middle, steps=12)
    page.mouse.up()


@pytest.mark.parametrize("look", SOME_LOOKS, ids=str)
def test_it_can_be_read_and_used_in_every_look(
    site: RunningSite, open_page: Opener, look: Look
) -> None:
    page = open_page(f"{site.url}{PATH}", look=look)
    for path in (PATH, MOVED, WRONG):
        page.goto(f"{site.url}{path}")
        page.evaluate("document.querySelectorAll('details').forEach(d => { d.open = true })")
        assert_accessible(page)
        assert_no_sideways_scroll(page)
        assert_readable_size(page)


@pytest.mark.parametrize("width", [360, 1440])
def test_dragging_moves_the_chance_and_what_gives_out_first(
    site: RunningSite, open_page: Opener, width: int
) -> None:
    page = open_page(f"{site.url}/today/monday-barbell", look=Look("light", width, 740))
    page.locator(f"a[href='{PATH}']").click()
    headline = page.locator("[data-headline]")
    expect(headline).to_contain_text("94 % chance by the model")
    drag(page, "Rest between the rounds", 0.1)
    expect(headline).to_contain_text(re.compile(r"\d+ s less rest: the chance falls from 94 to"))
    expect(headline).to_be_in_viewport()
    drag(page, "Muscle clean", 0.0)
    drag(page, "Split-stance strict press", 1.0)
    expect(headline).to_contain_text("strict press gives out first")
    expect(headline).to_contain_text("instead of muscle clean in round 4")
    expect(page.locator("[data-details]")).to_contain_text("Below the chance of 90 %")
    expect(headline).to_be_in_viewport()
    shown = page.get_by_label("Muscle clean", exact=True)
    expect(shown).to_have_value("1")


def test_the_keys_move_a_slider_and_the_address_is_the_one_to_come_back_to(
    site: RunningSite, open_page: Opener
) -> None:
    page = open_page(f"{site.url}{PATH}")
    slider(page, "Load with the bar").focus()
    page.keyboard.press("ArrowRight")
    expect(page.get_by_label("Load with the bar", exact=True)).to_have_value("35.5")
    headline = page.locator("[data-headline]")
    expect(headline).to_contain_text("0.5 kg more: the chance falls")
    expect(page.locator("[data-told]")).to_contain_text("0.5 kg more: the chance falls")
    said = headline.inner_text()
    assert parse_qs(urlsplit(page.url).query)["load_kg"] == ["35.5"]
    page.reload()
    assert headline.inner_text() == said
    page.get_by_role("link", name="Use this load: 35.5 kg").click()
    expect(page.get_by_label("Load with the bar", exact=True)).to_have_value("35.5")


def test_the_latest_value_wins_though_an_older_answer_comes_later(
    site: RunningSite, open_page: Opener
) -> None:
    page = open_page(f"{site.url}{PATH}")
    held: list[Route] = []

    def hold_the_first(route: Route) -> None:
        if not held:
            held.append(route)
        else:
            route.continue_()

    page.route("**/answer?**", hold_the_first)
    rounds = page.get_by_label("Rounds", exact=True)
    with page.expect_request("**/answer?**rounds=8**"):
        rounds.fill("8")
    rounds.fill("2")
    headline = page.locator("[data-headline]")
    expect(headline).to_contain_text("2 rounds fewer")
    held[0].fulfill(json={"headline": "<p>too late</p>", "details": "", "told": ""})
    page.wait_for_timeout(200)
    expect(headline).to_contain_text("2 rounds fewer")


def test_a_wrong_value_is_told_at_once_and_mended(site: RunningSite, open_page: Opener) -> None:
    page = open_page(f"{site.url}{PATH}")
    rest = page.get_by_label("Rest between the rounds", exact=True)
    rest.fill("4000")
    headline = page.locator("[data-headline]")
    expect(headline).to_contain_text("4000 s is outside 0 to 3600 s")
    expect(page.locator(".field-wrong")).to_contain_text("4000 s is outside 0 to 3600 s")
    expect(rest).to_have_value("4000")
    rest.fill("150")
    expect(headline).to_contain_text("10 s more rest: the chance rises")
    expect(page.locator(".field-wrong, .field-error, [aria-invalid]")).to_have_count(0)


def test_where_the_site_does_not_answer_it_says_so_and_the_button_is_there(
    site: RunningSite, open_page: Opener
) -> None:
    page = open_page(f"{site.url}{PATH}")
    show = page.get_by_role("button", name="Show what it does")
    expect(show).to_be_hidden()
    page.route("**/answer?**", lambda route: route.fulfill(body="<p>no", status=200))
    page.get_by_label("Rounds", exact=True).fill("5")
    expect(page.get_by_text("The site did not answer.")).to_be_visible()
    page.unroute("**/answer?**")
    show.click()
    expect(page.locator("[data-headline]")).to_contain_text("1 round more")
    expect(page.get_by_text("The site did not answer.")).to_be_hidden()


def test_without_scripts_the_button_shows_the_same(site: RunningSite, open_page: Opener) -> None:
    page = open_page(f"{site.url}{PATH}", scripts=False)
    assert page.get_by_role("slider").count() == 0
    page.get_by_label("Rest between the rounds", exact=True).fill("60")
    page.get_by_role("button", name="Show what it does").click()
    expect(page.locator("[data-headline]")).to_contain_text("80 s less rest: the chance falls")
    expect(page.get_by_label("Rest between the rounds", exact=True)).to_have_value("60")
