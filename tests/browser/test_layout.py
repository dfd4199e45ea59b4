"""What every page does for its reader: keyboard, theme, forms without scripts, long work."""

import re
from collections.abc import Callable

import pytest
from playwright.sync_api import Page, expect

from looks import Look, assert_accessible, assert_no_sideways_scroll
from site_server import RunningSite

Opener = Callable[..., Page]
PAPER = "getComputedStyle(document.documentElement).backgroundColor"
WHITE, BLACK = "rgb(255, 255, 255)", "rgb(0, 0, 0)"
LEAST_TARGET_PX = 48


def fill_well(page: Page) -> None:
    page.get_by_label("Name").fill("Osk Varrel")
    page.get_by_label("Rounds").fill("4")
    page.get_by_label("Body mass", exact=True).fill("184")
    page.get_by_label("Unit of Body mass").select_option("lb")
    page.get_by_label("From").fill("2026-03-02")
    page.get_by_label("At", exact=True).fill("18:05")
    page.get_by_role("combobox", name="Wave").select_option("A")


def test_the_first_key_leads_past_the_masthead_to_the_content(page: Page) -> None:
    page.keyboard.press("Tab")
    expect(page.get_by_role("link", name="Go to the content")).to_be_focused()
    expect(page.get_by_role("link", name="Go to the content")).to_be_in_viewport()
    page.keyboard.press("Enter")
    expect(page.locator("main")).to_be_focused()


def test_everything_that_can_be_pressed_is_reached_by_key_and_shows_it(
    site: RunningSite, open_page: Opener
) -> None:
    page = open_page(f"{site.url}/patterns")
    wanted = page.locator("a, button:not([disabled]), summary, input, select, textarea").count()
    reached, outlines = 0, set()
    for _ in range(2 * wanted):
        page.keyboard.press("Tab")
        if page.evaluate("document.activeElement === document.body"):
            break
        reached += 1
        outlines.add(
            page.evaluate(
                """() => { const e = document.activeElement;
                const s = getComputedStyle(e.closest('.choice') ?? e);
                return s.outlineStyle !== 'none' && parseFloat(s.outlineWidth) >= 2; }"""
            )
        )
    hidden = page.locator("input[type=hidden]").count()
    radios = page.locator("input[type=radio]").count()
    # A group of radio buttons is one stop; the parts of a date and a time are stops of their own.
    assert reached >= wanted - hidden - radios + 1
    assert outlines == {True}


@pytest.mark.parametrize("width", [360, 768, 1440])
def test_controls_are_large_enough_for_a_thumb(
    site: RunningSite, open_page: Opener, width: int
) -> None:
    page = open_page(f"{site.url}/patterns", look=Look(width=width))
    small = page.evaluate(
        """least => [...document.querySelectorAll(
             'button, .button, summary, select, .choice, nav a, '
             + 'input:not([type=hidden], [type=radio], [type=checkbox])')]
           .filter(e => e.checkVisibility() && e.getBoundingClientRect().height < least - 0.5)
           .map(e => e.outerHTML.slice(0, 100))""",
        LEAST_TARGET_PX,
    )
    assert small == []


def test_the_theme_is_chosen_on_the_page_and_stays(site: RunningSite, open_page: Opener) -> None:
    page = open_page(f"{site.url}/patterns", look=Look("light"))
    for words, paper in (("White on black", BLACK), ("Black on white", WHITE)):
        page.get_by_label("Look of the pages").select_option(label=f"{words}, for the floor")
        page.get_by_role("button", name="Use it").click()
        page.wait_for_url(f"{site.url}/patterns")
        assert page.evaluate(PAPER) == paper
    page.goto(f"{site.url}/nothing")
    assert page.evaluate(PAPER) == WHITE


@pytest.mark.parametrize(("scheme", "is_dark"), [("dark", True), ("light", False)])
def test_the_first_theme_is_that_of_the_device(
    site: RunningSite, open_page: Opener, scheme: str, is_dark: bool
) -> None:
    page = open_page(f"{site.url}/patterns", look=Look("device"))
    page.emulate_media(color_scheme=scheme)  # type: ignore[arg-type]
    red = int(page.evaluate(PAPER).removeprefix("rgb(").split(",")[0])
    assert (red < 60) is is_dark


@pytest.mark.parametrize("scripts", [True, False], ids=["scripts", "no scripts"])
def test_a_form_works_with_and_without_scripts(
    site: RunningSite, open_page: Opener, scripts: bool
) -> None:
    page = open_page(f"{site.url}/patterns", scripts=scripts)
    page.get_by_role("button", name="Try the form").click()
    expect(page.locator(".form-wrong")).to_contain_text("Name: is empty. Fill it in")
    fill_well(page)
    page.get_by_role("button", name="Try the form").click()
    expect(page.get_by_text("Osk Varrel was read and not stored.")).to_be_visible()
    page.locator(".changed").get_by_role("button", name="Undo").click()
    expect(page.get_by_text("Taken back")).to_be_visible()


def test_a_refused_form_takes_the_reader_to_its_mistakes(
    site: RunningSite, open_page: Opener
) -> None:
    page = open_page(f"{site.url}/patterns", look=Look("dark", 360))
    fill_well(page)
    page.get_by_label("Rounds").fill("11")
    page.get_by_role("button", name="Try the form").click()
    expect(page.locator(".form-wrong")).to_be_focused()
    page.get_by_role("link", name="Rounds: 11 rounds").or_(
        page.get_by_role("link", name="Rounds: 11 is outside")
    ).click()
    expect(page.get_by_label("Rounds")).to_be_focused()
    expect(page.get_by_label("Body mass", exact=True)).to_have_value("184")
    expect(page.get_by_label("Unit of Body mass")).to_have_value("lb")
    assert_accessible(page)
    assert_no_sideways_scroll(page)


def test_work_over_half_a_second_is_shown_and_a_form_is_sent_once(
    site: RunningSite, open_page: Opener
) -> None:
    page = open_page(f"{site.url}/patterns")
    sent = []

    def wait_a_while(route: object) -> None:
        sent.append(1)
        page.wait_for_timeout(1200)
        route.continue_()  # type: ignore[attr-defined]

    page.route("**/patterns/form", wait_a_while)
    fill_well(page)
    expect(page.locator("#at-work")).to_be_hidden()
    page.get_by_role("button", name="Try the form").dblclick(no_wait_after=True)
    expect(page.get_by_text("Osk Varrel was read")).to_be_visible()
    assert sent == [1]


def test_why_opens_without_scripts(site: RunningSite, open_page: Opener) -> None:
    page = open_page(f"{site.url}/patterns", scripts=False)
    inside = page.get_by_text("The overhead press gives out first")
    expect(inside).to_be_hidden()
    page.get_by_text("Why 42.5 kg").click()
    expect(inside).to_be_visible()


def test_on_a_phone_the_parts_of_the_site_take_one_row_and_more_opens_the_rest(
    site: RunningSite, open_page: Opener
) -> None:
    page = open_page(f"{site.url}/squad", look=Look(width=360, height=740), scripts=False)
    foot = page.get_by_role("navigation", name="Parts of the site")
    box = foot.bounding_box()
    assert box is not None
    assert box["height"] < 2 * LEAST_TARGET_PX
    records = foot.get_by_role("link", name="Records")
    expect(records).to_be_hidden()
    foot.get_by_role("button", name="More").click()
    records.click()
    expect(page.get_by_role("heading", level=1)).to_have_text("Records")
    # The part that is shown stands under More, which says so.
    expect(foot.get_by_role("button", name="More")).to_have_class(re.compile("more-current"))
    page.set_viewport_size({"width": 1440, "height": 900})
    expect(foot.get_by_role("button", name="More")).to_be_hidden()
    expect(records).to_be_visible()


def test_on_paper_there_is_black_ink_and_no_button(site: RunningSite, open_page: Opener) -> None:
    page = open_page(f"{site.url}/patterns", look=Look("dark"))
    page.emulate_media(media="print")
    assert page.evaluate(PAPER) == WHITE
    assert page.evaluate("getComputedStyle(document.body).color") == BLACK
    expect(page.locator(".masthead")).to_be_hidden()
    expect(page.get_by_role("button", name="Try the form")).to_be_hidden()


def test_nothing_is_asked_of_any_other_place(site: RunningSite, open_page: Opener) -> None:
    page = open_page(site.url)
    asked: list[str] = []
    page.on("request", lambda request: asked.append(request.url))
    page.goto(f"{site.url}/patterns/in/dark")
    page.reload()
    assert len(asked) >= 2
    assert [url for url in asked if not url.startswith(f"{site.url}/")] == []


@pytest.mark.parametrize(("width", "text_percent"), [(320, 100), (1440, 200)])
def test_narrow_screens_and_large_text_do_not_scroll_sideways(
    site: RunningSite, open_page: Opener, width: int, text_percent: int
) -> None:
    # WCAG 2.2, criteria 1.4.10 (320 CSS px) and 1.4.4 (text at 200 per cent).
    page = open_page(f"{site.url}/patterns", look=Look("light", width))
    page.evaluate(f"document.documentElement.style.fontSize = '{text_percent}%'")
    assert_no_sideways_scroll(page)


def test_forced_colours_keep_every_mark(site: RunningSite, open_page: Opener) -> None:
    page = open_page(f"{site.url}/patterns", look=Look("light", 360))
    page.emulate_media(forced_colors="active")
    assert_accessible(page)
    marks = page.evaluate(
        """() => ['.severity-stop .mark-ground', '.severity-warning .mark-ground'].map(
             s => getComputedStyle(document.querySelector(s)).fill)"""
    )
    paper = page.evaluate("getComputedStyle(document.body).backgroundColor")
    assert paper not in marks
