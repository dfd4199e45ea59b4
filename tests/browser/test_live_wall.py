"""The wall screen names who works, and nobody who has stopped or is out."""

from collections.abc import Callable

from playwright.sync_api import Page, expect

from browser.live_floor import (
    PHONE,
    SCREEN,
    SESSION,
    floor,
    opened,
    start,
    stored,
)
from browser.test_live_help import note_head_knock
from browser.test_live_swaps import AT_WORK
from looks import assert_accessible
from site_server import RunningSite
from squadwright.services.clubs import load_club
from squadwright.services.head_knock import cleared_since
from squadwright.web.restrictions.rows import restriction_path

Opener = Callable[..., Page]
DRILLS = "wednesday-plyometric"


def wall_of(site: RunningSite, open_page: Opener, session: str = SESSION) -> Page:
    return opened(open_page(f"{site.url}/live/{session}/wall", look=SCREEN))


def stop(page: Page, tile: str) -> None:
    page.locator(tile).click()
    page.wait_for_timeout(260)
    page.get_by_role("button", name="Stops", exact=True).click()
    page.wait_for_timeout(260)


def test_who_has_stopped_is_left_out_until_he_goes_on(site: RunningSite, open_page: Opener) -> None:
    page, wall = floor(site, open_page), wall_of(site, open_page)
    start(page)
    people = wall.locator("[data-part=people]")
    expect(people).to_contain_text("Birk", timeout=15_000)
    stop(page, ".tile[data-athlete=A04]")
    expect(people).not_to_contain_text("Birk", timeout=15_000)
    expect(people).to_contain_text("Haneul")
    assert_accessible(wall)
    page.locator(".tile[data-athlete=A04]").click()
    page.wait_for_timeout(260)
    page.get_by_role("button", name="Goes on", exact=True).click()
    expect(people).to_contain_text("Birk", timeout=15_000)


def test_after_a_head_knock_he_is_not_called_up_until_he_is_cleared(
    site: RunningSite, open_page: Opener
) -> None:
    page, wall = floor(site, open_page), wall_of(site, open_page)
    start(page)
    people = wall.locator("[data-part=people]")
    expect(people).to_contain_text("Birk", timeout=15_000)
    note_head_knock(page)
    stored(site, 4)
    expect(people).not_to_contain_text("Birk", timeout=15_000)
    wall.reload()
    expect(opened(wall).locator("[data-part=people]")).to_contain_text("Haneul")
    expect(people).not_to_contain_text("Birk")
    athlete = load_club(site.keeper).athlete("A04")
    made = next(r for r in athlete.restrictions if r.reason == "head knock")
    page.goto(f"{site.url}{restriction_path('A04', made.id)}")
    page.get_by_label("Who gave it").fill("Club doctor")
    page.get_by_label("Licence").fill("12345, state register")
    page.get_by_role("button", name="Take the clearance in").click()
    expect(page.locator(".changed")).to_be_visible()
    assert cleared_since(site.keeper, SESSION)
    wall.reload()
    expect(opened(wall).locator("[data-part=people]")).to_contain_text("Birk")


def test_in_a_drill_his_group_goes_on_without_his_name(
    site: RunningSite, open_page: Opener
) -> None:
    page = opened(open_page(f"{site.url}/live/{DRILLS}", look=PHONE))
    start(page, "Start with A")
    # Held, so that no turn of his group ends by itself.
    page.get_by_role("button", name="Hold: bars down").click()
    page.wait_for_timeout(260)
    wall = wall_of(site, open_page, DRILLS)
    person = page.evaluate(AT_WORK)
    people = wall.locator("[data-part=people]")
    expect(people).to_contain_text(person["short"], timeout=15_000)
    stop(page, f".tile[data-athlete={person['id']}]")
    expect(people).not_to_contain_text(person["short"], timeout=15_000)


def test_more_people_than_the_screen_holds_are_counted_in_the_last_row(
    site: RunningSite, open_page: Opener
) -> None:
    wall = wall_of(site, open_page)
    rows = wall.locator("[data-part=people] li")
    expect(rows).to_have_count(8)
    # Of the demo club's barbell session 12 lift, and nobody has begun.
    expect(rows.last).to_contain_text("and 5 more")
    expect(rows.last).to_be_in_viewport(ratio=1)
