"""The week around mat work in a real browser: its load, a clash moved in one tap, a bad day."""

from collections.abc import Callable

import pytest
from playwright.sync_api import Page, expect

from looks import SOME_LOOKS, Look, assert_accessible, assert_no_sideways_scroll
from site_server import RunningSite

Opener = Callable[..., Page]
PHONE = Look("light", 360, 740)


def test_the_week_counts_the_mats_and_moves_a_heavy_leg_slot_in_one_tap(
    site: RunningSite, open_page: Opener
) -> None:
    page = open_page(f"{site.url}/sessions/week", look=PHONE)
    page.get_by_role("link", name="This week").click()
    expect(page.get_by_role("heading", level=1)).to_have_text("The week of Monday 2 March 2026")
    load = page.get_by_role("table", name="Planned load of each squad [AU]")
    cage = load.get_by_role("row", name="Cage")
    expect(cage.get_by_role("cell")).to_have_text(
        ["360", "990", "250", "360", "175", "840", "0", "2975", "1.18", "3521"]
    )
    page.get_by_text("The formula, worked out").click()
    expect(page.get_by_text("Cage: 425.0 / 359.1 = 1.18; 2975 x 1.18 = 3521.")).to_be_visible()
    clash = page.locator(".clash", has_text="MMA sparring starts 11 h 15 min later")
    expect(clash.get_by_role("button")).to_have_count(2)
    clash.get_by_role("button", name="to Thu 5 Mar, 07:00 to 07:45").click()
    expect(page.locator(".changed")).to_contain_text("to Thu 5 Mar")
    expect(clash).to_have_count(0)
    page.get_by_role("button", name="Undo").click()
    page.goto(f"{site.url}/camp/week")
    expect(clash).to_have_count(1)


@pytest.mark.parametrize("scripts", [True, False], ids=["scripts", "no scripts"])
def test_hard_sparring_moved_to_tonight_gives_the_lighter_session_and_the_message(
    site: RunningSite, open_page: Opener, scripts: bool
) -> None:
    page = open_page(f"{site.url}/camp/week", look=PHONE, scripts=scripts)
    page.get_by_role("link", name="Change Wrestling live, Fri 6 Mar").click()
    page.get_by_label("Held on").fill("2026-03-04")
    page.get_by_label("From").fill("20:45")
    page.get_by_label("To", exact=True).fill("21:45")
    page.get_by_label("Why").fill("head coach")
    page.get_by_role("button", name="Store it and check the week").click()
    expect(page.locator(".clash").first).to_contain_text("Since the change:")
    page.get_by_role("button", name="Wednesday plyometric lighter: no jumps").first.click()
    message = page.get_by_role("textbox", name="The message to send")
    expect(message).to_have_value(
        "Ferrow Quay Combat Club: changes to the week of Monday 2 March 2026.\n"
        "Wednesday plyometric on Wed 4 Mar at 18:00 is planned at effort 2 of 10 instead of 5: no "
        "jumps (Ankle hops, Broad jump and stick, Lateral bound and stick, Seated-start jump to "
        "box); throws as written. For: Mat, Ground, Cage, Fry.\n"
        "Wrestling live: Wed 4 Mar, 20:45 to 21:45, Mat hall, instead of Fri 6 Mar, 19:00 to 20:30 "
        "(head coach). For: Mat."
    )
    expect(page.get_by_role("button", name="Copy the message")).to_have_count(int(scripts))
    page.goto(f"{site.url}/today/wednesday-plyometric")
    expect(page.locator("main")).to_contain_text("Tide lanes, lighter")


def test_the_week_reads_in_every_look(site: RunningSite, open_page: Opener) -> None:
    for look in SOME_LOOKS:
        page = open_page(f"{site.url}/camp/week", look=look)
        assert_no_sideways_scroll(page)
        assert_accessible(page)
