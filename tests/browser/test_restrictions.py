"""The register and the swaps in a real browser, walked as the coach would."""

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
from printing.printed import pypdf_text
from site_server import RunningSite

Opener = Callable[..., Page]
PHONE = Look("light", 360)
OF = "/squad/athlete/{}/restrictions"
PATHS = (
    "/squad/restrictions",
    OF.format("A10"),
    OF.format("A04") + "/new?about=head-knock",
    OF.format("A04") + "/of/A04-shoulder",
    OF.format("A12") + "/of/A12-minor",
    OF.format("A09") + "/pain?session=monday-barbell",
    "/squad/athlete/A09/swaps?session=monday-barbell",
    "/squad/athlete/A10/swaps?session=wednesday-plyometric",
)


@pytest.mark.parametrize("look", SOME_LOOKS, ids=str)
def test_every_page_can_be_read_and_used_in_every_look(
    site: RunningSite, open_page: Opener, look: Look
) -> None:
    page = open_page(f"{site.url}/squad/restrictions", look=look)
    enter_an_ended_one(site, page)
    for path in PATHS:
        page.goto(f"{site.url}{path}")
        page.evaluate("document.querySelectorAll('details').forEach(d => { d.open = true })")
        assert_accessible(page)
        assert_no_sideways_scroll(page)
        assert_readable_size(page)


def enter_an_ended_one(site: RunningSite, page: Page) -> None:
    page.goto(f"{site.url}{OF.format('A06')}/new")
    page.get_by_label("Lunge", exact=True).check()
    page.get_by_label("Who says so").fill("Rutger Vantongerle")
    page.get_by_label("Medical staff", exact=True).check()
    page.get_by_label("From").fill("2026-02-10")
    page.get_by_label("Until").fill("2026-02-27")
    page.get_by_role("button", name="Enter it").click()


def test_a_restriction_follows_the_athlete_and_asks_when_it_ends(
    site: RunningSite, open_page: Opener
) -> None:
    page = open_page(f"{site.url}/squad/restrictions", look=PHONE, scripts=False)
    page.get_by_label("Athlete").select_option(label="Dónal Mac Firvane")
    page.get_by_role("button", name="Add a restriction").click()
    page.get_by_text("Lunge", exact=True).click()
    page.get_by_label("Who says so").fill("Rutger Vantongerle")
    page.get_by_text("Medical staff", exact=True).click()
    page.get_by_label("From").fill("2026-02-20")
    page.get_by_label("Until").fill("2026-03-04")
    page.get_by_label("Reason").fill("left knee")
    page.get_by_role("button", name="Enter it").click()
    expect(page.locator(".changed")).to_contain_text("Dónal Mac Firvane: must not: no lunge")

    # On Monday it holds: on the page of the session and in his swaps, with author and end.
    page.goto(f"{site.url}/today/monday-barbell")
    page.get_by_text("Restricted:").click()
    line = "left knee: no lunge (Rutger Vantongerle, until 4 Mar 2026)"
    expect(page.get_by_text(line)).to_be_visible()
    page.goto(f"{site.url}/squad/athlete/A06/swaps?session=monday-barbell")
    expect(page.get_by_text(line)).to_be_visible()
    step = page.locator(".swap-step", has_text="Front-rack reverse lunge").first
    expect(step).to_contain_text("Barred: Rutger Vantongerle: no lunge.")

    # On Wednesday it has ended: it asks by a finding, it has not vanished.
    page.goto(f"{site.url}/today/wednesday-plyometric")
    finding = page.get_by_text("nobody has answered whether it is over")
    expect(finding).to_contain_text("Dónal Mac Firvane")
    expect(finding).to_contain_text("Rutger Vantongerle")
    expect(finding).to_contain_text("ended on 4 Mar 2026")

    # A coach cannot lift it; the written clearance does, and Undo takes it back.
    page.goto(f"{site.url}{OF.format('A06')}")
    page.get_by_role("link", name="Change or lift").click()
    expect(page.get_by_role("button", name="It is over")).to_have_count(0)
    page.get_by_label("Who gave it").fill("Rutger Vantongerle")
    page.get_by_role("button", name="Take the clearance in").click()
    expect(page.get_by_role("alert")).to_contain_text("Licence: is empty")
    page.get_by_label("Licence").fill("FQ 4411")
    page.get_by_role("button", name="Take the clearance in").click()
    expect(page.locator(".changed")).to_contain_text("cleared in writing by Rutger Vantongerle")
    page.goto(f"{site.url}/today/wednesday-plyometric")
    expect(finding).to_have_count(0)


def test_a_head_knock_is_not_tapped_back_in(site: RunningSite, open_page: Opener) -> None:
    page = open_page(f"{site.url}{OF.format('A06')}", look=PHONE)
    page.get_by_role("link", name="Head knock").click()
    expect(page.get_by_text("After a head knock it is over for today")).to_be_visible()
    page.get_by_label("Who says so").fill("Ringside doctor")
    page.get_by_role("button", name="Enter it").click()
    page.goto(f"{site.url}/today/monday-barbell/check-in")
    page.get_by_role("button", name="Here Dónal Mac Firvane").click()
    page.goto(f"{site.url}/today/monday-barbell")
    expect(page.locator(".load", has_text="Dónal Mac Firvane")).to_have_count(0)
    expect(page.locator(".findings")).to_contain_text("Dónal Mac Firvane does not train")

    # His card among those of the session bars him, and names neither reason nor whose word it is;
    # his own says why.
    cards = paper(page, f"{site.url}/sessions/monday-barbell/sheets/cards.pdf")
    card = "Dónal Mac Firvane Not training with the squad today. Help and watch. Today: no training"
    assert card in cards
    assert "Ringside doctor" not in cards
    assert "knock" not in cards.casefold()
    page.goto(f"{site.url}/squad/athlete/A06/sheets/athlete")
    with page.expect_download() as download:
        page.get_by_role("button", name="Print it").click()
    mine = pypdf_text(Path(download.value.path()).read_bytes())
    assert "Monday barbell: does not train." in mine
    assert "Head knock, not seen by medical staff yet: no training (Ringside doctor" in mine

    # The page of medical entries holds it, and offers a coach no way to lift it.
    page.goto(f"{site.url}{OF.format('A06')}/medical")
    expect(page.get_by_role("main")).to_contain_text("Ringside doctor")
    expect(page.get_by_role("button", name="It is over")).to_have_count(0)
    page.goto(f"{site.url}{OF.format('A06')}")
    expect(page.get_by_role("button", name="It is over")).to_have_count(0)


def paper(page: Page, address: str) -> str:
    """What is printed, page by page."""
    answer = page.request.get(address)
    assert answer.status == 200
    return pypdf_text(answer.body())


def test_the_bar_stays_in_the_hands(site: RunningSite, open_page: Opener) -> None:
    page = open_page(f"{site.url}{OF.format('A04')}", look=PHONE, scripts=False)
    page.get_by_role("link", name="Swaps, Mon 2 Mar: Monday barbell").click()
    step = page.locator(".swap-step", has_text="Split-stance strict press")
    best = step.locator(".swap-choices li").first
    expect(best).to_contain_text("Front-rack march, 16 (planned now)")
    expect(best).to_contain_text("bar front rack to front rack")
    expect(step).to_contain_text("Help and watch")
    other = step.locator(".swap-choices li").nth(1)
    name = other.locator("strong").inner_text()
    other.get_by_role("button").click()
    expect(page.locator(".changed")).to_contain_text("Birk Aldervoll: ")
    expect(step).to_contain_text(f"Planned now: {name}, by your word")
    page.get_by_role("button", name="Undo").click()
    expect(page.locator(".changed")).to_contain_text("Taken back")
    page.goto(f"{site.url}/squad/athlete/A11/swaps?session=monday-barbell")
    for number in ("1 ", "3 "):
        step = page.locator(".swap-step").filter(has=page.locator("h2", has_text=number))
        expect(step.locator(".swap-choices li").first).to_contain_text("bar hang to hang")


def test_a_sore_knee_keeps_its_wave_and_follows_to_wednesday(
    site: RunningSite, open_page: Opener
) -> None:
    page = open_page(f"{site.url}/today/monday-barbell", look=PHONE, scripts=False)
    load = page.locator(".load", has_text="Iskander Yulbarin")
    wave = load.locator(".wave-mark svg").get_attribute("aria-label")
    page.goto(f"{site.url}/today/monday-barbell/check-in/A02")
    page.get_by_text("Knee", exact=True).click()
    page.get_by_text("Left", exact=True).click()
    page.get_by_role("button", name="4", exact=True).click()
    expect(page.locator(".changed")).to_contain_text("instead of Front-rack reverse lunge")
    page.goto(f"{site.url}/today/monday-barbell")
    assert load.locator(".wave-mark svg").get_attribute("aria-label") == wave
    page.goto(f"{site.url}/today/monday-barbell/check-in/A02")
    page.get_by_role("link", name="What is done instead").click()
    step = page.locator(".swap-step", has_text="Front-rack reverse lunge")
    expect(step.first).to_contain_text("knee pain 4 of 10: nothing that loads it today")
    expect(step.first).to_contain_text("(planned now)")
    page.goto(f"{site.url}/today/monday-barbell/check-in/A02")
    page.get_by_role("link", name="Keep this pain for the next session").click()
    page.get_by_role("button", name="left knee pain 4 of 10").click()
    expect(page.locator(".changed")).to_contain_text("It is kept until 5 Mar 2026")
    page.goto(f"{site.url}/today/wednesday-plyometric")
    page.get_by_text("Restricted:").click()
    expect(page.get_by_text("left knee pain 4 of 10 on 2026-03-02: no lunge").first).to_be_visible()
