"""At the mats with a phone: one tap for the bouts ahead, who moves now, the gap, flight mode."""

import re
from collections.abc import Callable
from dataclasses import replace
from datetime import UTC, date, datetime

from playwright.sync_api import Locator, Page, expect

from browser.live_floor import holds
from looks import Look, assert_accessible, assert_no_sideways_scroll
from site_server import MONDAY, RunningSite
from squadwright.model.athlete import Event
from squadwright.model.record import EventKind, RecordEvent, record_of_day
from squadwright.services.club_changes import change_club
from squadwright.services.record import exchange, record_of

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
    expect(mine).to_contain_text("only as usual")
    page.clock.run_for(25 * 60_000)
    expect(mine).to_contain_text("Warm again")
    assert_accessible(page)
    assert_no_sideways_scroll(page)


def test_flight_mode_keeps_what_was_tapped_and_sends_it_when_the_network_is_back(
    site: RunningSite, open_page: Opener
) -> None:
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
    expect(page.locator("#kept")).to_contain_text(re.compile("No server: [12] noted here"))
    # Another device has noted that the bout of Marisol is over; neither loses anything.
    bout = RecordEvent(
        id="other-1",
        session=record_of_day(DAY),
        device="other",
        number=1,
        at=datetime.now(UTC),
        kind=EventKind.BOUT_OVER,
        athlete="A03",
        words="cup",
    )
    exchange(site.keeper, bout.session, [bout], after=0)
    site.cut.clear()
    page.evaluate("dispatchEvent(new Event('online'))")
    expect(page.locator("#kept")).to_contain_text("Everything noted is stored", timeout=15_000)
    expect(card(page, "Marisol")).to_contain_text("Bouts over: 1.")
    expect(page.locator("#queue li").first).to_contain_text("Iskander Yulbarin Warm up now")
    assert len(record_of(site.keeper, bout.session)) == 4
    page.close()


def test_a_second_device_and_a_reload_show_the_same(site: RunningSite, open_page: Opener) -> None:
    with_four_competitors(site)
    one = open_page(f"{site.url}{PATH}", look=PHONE)
    other = new_page_of_its_own(one, f"{site.url}{PATH}")
    say_ahead(one, "Marisol", 2)
    mine = card(other, "Marisol")
    expect(mine.get_by_role("radio", name="2", exact=True)).to_be_checked(timeout=15_000)
    mine.get_by_role("button", name="Bout over").click()
    one.reload()
    expect(one.locator("#kept")).to_contain_text("Everything noted is stored", timeout=15_000)
    expect(card(one, "Marisol")).to_contain_text("Bouts over: 1.", timeout=15_000)
    card(one, "Marisol").get_by_role("button", name="Take back").click()
    expect(mine.get_by_role("radio", name="2", exact=True)).to_be_checked(timeout=15_000)
    expect(mine).not_to_contain_text("Bouts over")
    other.context.close()


def new_page_of_its_own(page: Page, path: str) -> Page:
    browser = page.context.browser
    assert browser is not None
    other = browser.new_context().new_page()
    other.goto(path)
    return other


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


def test_the_gap_counts_minutes_that_pass_while_summer_time_begins(
    site: RunningSite, open_page: Opener
) -> None:
    """Lisbon goes from 01:00 to 02:00 on 29 March 2026 (IANA): 20 minutes are no 80."""
    with_four_competitors(site)
    path = f"{site.url}{PATH}"
    browser = open_page(path, look=PHONE).context.browser
    assert browser is not None
    page = browser.new_context(timezone_id="Europe/Lisbon").new_page()
    page.clock.install(time=datetime(2026, 3, 29, 0, 50, tzinfo=UTC))
    page.goto(path)
    card(page, "Marisol").get_by_role("button", name="Bout over").click()
    say_ahead(page, "Marisol", 5)
    page.clock.run_for(20 * 60_000)
    assert page.evaluate("new Date().getHours()") == 2
    gap = re.compile(r"20:\d\d since the bout, next call in (19|20):\d\d")
    expect(card(page, "Marisol")).to_contain_text(gap)
    page.context.close()
