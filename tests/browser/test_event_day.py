"""At the mats with a phone: one tap for the bouts ahead, who moves now, the gap, flight mode."""

import re
from collections.abc import Callable
from dataclasses import replace
from datetime import date, datetime

from playwright.sync_api import Locator, Page, expect

from browser.live_floor import holds
from looks import Look, assert_accessible, assert_no_sideways_scroll
from site_server import MONDAY, RunningSite
from squadwright.model.athlete import Event
from squadwright.services.club_changes import change_club

Opener = Callable[..., Page]
PHONE = Look("light", 360)
DAY = date(2026, 3, 8)
PATH = "/camp/event-day/2026-03-08"


def with_four_competitors(site: RunningSite) -> None:
    event = Event("cup", "Harbour cup", DAY, bouts_expected=3)
    change_club(
        site.keeper,
        lambda club: replace(
            club,
            athletes=tuple(
                replace(a, events=(*a.events, event)) if a.id in ("A02", "A03", "A08") else a
                for a in club.athletes
            ),
        ),
        today=MONDAY,
    )


def card(page: Page, name: str) -> Locator:
    return page.locator(".mat-card", has_text=name)


def say_ahead(page: Page, name: str, bouts: int) -> None:
    card(page, name).get_by_role("radio", name=str(bouts), exact=True).check()


def queue(page: Page) -> list[str]:
    return page.locator("#queue li").all_inner_texts()


def test_the_mats_on_a_phone_and_then_without_a_server(
    site: RunningSite, open_page: Opener
) -> None:
    with_four_competitors(site)
    page = open_page(f"{site.url}{PATH}", look=PHONE)
    page.clock.install(time=datetime(2026, 3, 8, 9, 0))
    page.goto(f"{site.url}{PATH}")
    say_ahead(page, "Iskander", 10)
    say_ahead(page, "Marisol", 3)
    first, second, *_ = queue(page)
    assert re.search(r"Marisol Quenaya\s+Warm up now\s+about 24 min", first)
    assert re.search(r"Iskander Yulbarin\s+Warm up in about 48 min", second)
    # 50 minutes on, six of the ten bouts should be over: he warms up as well.
    page.clock.run_for(50 * 60_000)
    expect(page.locator("#queue li", has_text="Iskander")).to_contain_text("Warm up now")
    # The bout of Marisol is over; the next is six bouts of 8 minutes away.
    mine = card(page, "Marisol")
    mine.get_by_role("button", name="Bout over").click()
    expect(mine).to_contain_text("Bouts over: 1.")
    expect(mine).to_contain_text("Come down")
    say_ahead(page, "Marisol", 6)
    page.clock.run_for(10 * 60_000)
    expect(mine).to_contain_text(re.compile(r"10:0\d since the bout, next call in 3[78]:"))
    expect(mine).to_contain_text("only as he is used to")
    page.clock.run_for(25 * 60_000)
    expect(mine).to_contain_text("Warm again")
    assert_accessible(page)
    assert_no_sideways_scroll(page)
    expect(page.locator("#kept")).to_contain_text("Kept on this device")


def test_flight_mode_keeps_what_was_tapped(site: RunningSite, open_page: Opener) -> None:
    with_four_competitors(site)
    page = open_page(f"{site.url}{PATH}", look=PHONE)
    holds(page, "navigator.serviceWorker.controller !== null")
    page.reload()
    say_ahead(page, "Marisol", 2)
    card(page, "Iskander").get_by_role("button", name="Bout over").click()
    holds(
        page,
        "caches.open('squadwright-floor-1').then(c => c.keys())"
        ".then(k => k.some(kept => kept.url.endsWith('2026-03-08')))",
    )
    context = page.context
    page.close()
    site.cut.set()
    page = context.new_page()
    page.goto(f"{site.url}{PATH}")
    expect(page.locator("#queue li").first).to_contain_text("Marisol Quenaya Warm up now")
    expect(card(page, "Iskander")).to_contain_text("Bouts over: 1.")
    say_ahead(page, "Iskander", 1)
    expect(page.locator("#queue li").first).to_contain_text("Iskander")
    page.close()


def test_without_scripts_a_form_gives_the_order(site: RunningSite, open_page: Opener) -> None:
    with_four_competitors(site)
    page = open_page(f"{site.url}{PATH}", look=PHONE, scripts=False)
    say_ahead(page, "Iskander", 2)
    page.get_by_role("button", name="Show the order").click()
    expect(page.locator("#queue li").first).to_contain_text("Iskander Yulbarin Warm up now")


def test_the_next_sheet_is_one_tap_from_today(site: RunningSite, open_page: Opener) -> None:
    page = open_page(f"{site.url}/today/monday-barbell", look=PHONE)
    page.get_by_role("link", name="Parwana Sohrabin competes on Sat 7 Mar").click()
    expect(page).to_have_url(f"{site.url}/camp/event-day/2026-03-07")
