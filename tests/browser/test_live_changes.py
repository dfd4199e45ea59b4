"""What changes while the session runs: the sheet is worked out from now and the clock goes on."""

from collections.abc import Callable

from playwright.sync_api import Page, expect

from browser.live_floor import (
    EVENING,
    PHONE,
    PIXELS_PER_MM,
    SCREEN,
    SESSION,
    TARGET_MM,
    back_on_the_network,
    floor,
    holds,
    off_the_network,
    opened,
    start,
    started_uncounted,
    stored,
)
from looks import assert_accessible, assert_no_sideways_scroll
from site_server import RunningSite
from squadwright.model.plan import Plan
from squadwright.model.record import EventKind
from squadwright.planning.live.clock import clock_of
from squadwright.services.record import record_of
from squadwright.services.running import running

Opener = Callable[..., Page]
TOLD = "[data-part=told]"
ALL = "[data-part=told-all]"


def pinned(site: RunningSite) -> Plan:
    return running(site.keeper, SESSION, today=EVENING.date()).plan


def tap(page: Page, words: str) -> None:
    page.get_by_role("button", name=words, exact=True).click()
    # A second touch within a quarter of a second is taken for a slip.
    page.wait_for_timeout(260)


def test_eight_minutes_left_is_two_taps_and_the_clock_goes_on(
    site: RunningSite, open_page: Opener
) -> None:
    page = floor(site, open_page)
    start(page)
    before = pinned(site)
    tap(page, "Change")
    tap(page, "8 min")
    expect(page.locator(TOLD)).to_have_text("8 min left. All of it under Change.")
    left = next(e for e in stored(site, 2) if e.kind is EventKind.TIME_LEFT)
    record = record_of(site.keeper, SESSION)
    place = clock_of(record).place_at(left.at)
    moved = pinned(site)
    assert moved.run_sheet[-1].end_s <= place + 8 * 60 + 1 < before.run_sheet[-1].end_s
    assert clock_of(record).is_running
    assert_accessible(page)
    assert_no_sideways_scroll(page)
    expect(page.locator(ALL)).to_contain_text("8 min left: cut to fit: ")
    tap(page, "Undo")
    stored(site, 3)
    expect(page.locator(TOLD)).to_contain_text("The sheet is as it was")
    assert pinned(site) == before


def test_a_bar_that_breaks_and_one_who_comes_reach_the_sheet(
    site: RunningSite, open_page: Opener
) -> None:
    page = floor(site, open_page)
    start(page)
    bars = pinned(site).bars
    number = next(n for n, bar in enumerate(bars, start=1) if len(bar.wave_users) == 2)
    tap(page, "Change")
    tap(page, f"Bar {number}")
    expect(page.locator(TOLD)).to_contain_text(f"Bar {number} (")
    expect(page.locator(ALL)).to_contain_text("From the next round: ")
    absent = next(a for a in pinned(site).attendance if a.status in ("absent", "late"))
    tap(page, "Change")
    assert_accessible(page)
    page.locator("[data-part=change-late] button").first.click()
    expect(page.locator(TOLD)).to_contain_text(f"{absent.shown_name} is here")
    answer = page.request.get(f"{site.url}/live/{SESSION}/sheet.json").json()
    assert answer["number"] == 3
    assert bars[number - 1].bar not in {bar["id"] for bar in answer["bars"]}


def test_the_wall_takes_the_sheet_that_was_worked_out(site: RunningSite, open_page: Opener) -> None:
    page = floor(site, open_page)
    start(page)
    wall = opened(open_page(f"{site.url}/live/{SESSION}/wall", look=SCREEN))
    with wall.expect_response(lambda answer: answer.url.endswith("/sheet.json")) as taken:
        tap(page, "Change")
        tap(page, "8 min")
        stored(site, 2)
    assert taken.value.ok
    assert_no_sideways_scroll(wall)


def test_without_a_server_it_says_so_and_is_worked_in_when_it_is_back(
    site: RunningSite, open_page: Opener
) -> None:
    page = started_uncounted(site, open_page)
    holds(page, "navigator.serviceWorker.ready.then(() => true)")
    off_the_network(page, site)
    tap(page, "Change")
    tap(page, "12 min")
    expect(page.locator(TOLD)).to_contain_text("No server: the sheet stays", timeout=15000)
    expect(page.locator("#floor")).to_have_attribute("data-phase", "on")
    back_on_the_network(page, site)
    page.evaluate("dispatchEvent(new Event('online'))")
    expect(page.locator(TOLD)).to_contain_text("12 min left", timeout=15000)
    assert pinned(site).run_sheet[-1].end_s < 3600
    # Opened again in flight mode, the page has the sheet as it was worked out, not the first one.
    holds(page, f"caches.match('/live/{SESSION}/sheet.json').then(answer => answer !== undefined)")
    off_the_network(page, site)
    page.reload()
    opened(page)
    expect(page.locator(ALL)).to_contain_text("12 min left: ")
    page.close()


def test_a_start_by_mistake_is_taken_back(site: RunningSite, open_page: Opener) -> None:
    page = floor(site, open_page)
    start(page)
    tap(page, "Undo")
    expect(page.locator("#floor")).to_have_attribute("data-phase", "before")
    expect(page.get_by_role("button", name="Change", exact=True)).to_be_hidden()


def test_what_can_be_changed_fits_the_phone_and_the_thumb(
    site: RunningSite, open_page: Opener
) -> None:
    page = floor(site, open_page)
    start(page)
    tap(page, "Change")
    expect(page.locator("[data-part=change]")).to_be_visible()
    assert_no_sideways_scroll(page)
    for found in page.locator("[data-part=change] button").all():
        size = found.bounding_box()
        assert size is not None
        assert size["height"] >= TARGET_MM * PIXELS_PER_MM[PHONE.width] - 1


def test_the_large_keys_change_sides_for_the_other_thumb_and_stay_there(
    site: RunningSite, open_page: Opener
) -> None:
    page = floor(site, open_page)
    start(page)
    held, moved = page.locator("[data-do=hold]"), page.locator("[data-do=next]")

    def is_next_right() -> bool:
        sides = [each.bounding_box() for each in (held, moved)]
        assert sides[0] is not None
        assert sides[1] is not None
        return sides[0]["x"] < sides[1]["x"]

    assert is_next_right()
    tap(page, "Setting")
    tap(page, "Next for the other thumb")
    tap(page, "Close")
    assert not is_next_right()
    page.reload()
    opened(page)
    assert not is_next_right()
