"""Bad day c: battery 6 %. What it still has to last for, dark, fewer drawings, a list for paper."""

import re
from collections.abc import Callable

from playwright.sync_api import Page, expect

from browser.live_floor import (
    PHONE,
    PIXELS_PER_MM,
    SESSION,
    TARGET_MM,
    by_false_clock,
    opened,
    plan_of,
    start,
)
from looks import assert_accessible, assert_no_sideways_scroll
from site_server import RunningSite

Opener = Callable[..., Page]
# A battery as the Battery Status API (W3C) describes it, here one that the test sets.
FALSE_BATTERY = """
  const told = new EventTarget();
  Object.assign(told, {level: 0.5, charging: false, chargingTime: Infinity, dischargingTime: 1500});
  navigator.getBattery = () => Promise.resolve(told);
  window.falseBattery = (changed) => {
    Object.assign(told, changed);
    told.dispatchEvent(new Event('levelchange'));
  };
"""
WORDS = "[data-part=battery]"


def theme(page: Page) -> str:
    return str(page.evaluate("document.documentElement.dataset.theme"))


def with_battery(site: RunningSite, open_page: Opener) -> Page:
    page = open_page(site.url, look=PHONE)
    page.add_init_script(FALSE_BATTERY)
    return by_false_clock(page, site)


def test_battery_6_percent_says_what_is_needed_and_draws_less(
    site: RunningSite, open_page: Opener
) -> None:
    page = with_battery(site, open_page)
    expect(page.locator(WORDS)).to_be_hidden()
    before = theme(page)
    page.evaluate("falseBattery({level: 0.06})")
    minutes = max(line.end_s for line in plan_of(site).run_sheet) // 60
    expect(page.locator(WORDS)).to_have_text(
        f"Battery 6 %, about 25 min by its own guess. The session still needs {minutes} min. "
        "Next steps: under Setting."
    )
    assert (before, theme(page)) == ("black-on-white", "white-on-black")
    shown = []
    for _ in range(20):
        page.clock.run_for(1000)
        shown.append(page.locator("[data-part=time-words]").text_content() or "")
    seconds = [int(found[1]) for words in shown if (found := re.search(r":(\d\d) left", words))]
    # Twenty seconds: every fifth is drawn, and now and then one when the server has answered.
    assert 3 <= len(set(seconds)) <= 9
    assert sum(second % 5 == 0 for second in set(seconds)) >= 3
    page.evaluate("falseBattery({charging: true})")
    expect(page.locator(WORDS)).to_be_hidden()
    assert theme(page) == "black-on-white"


def test_a_part_that_ends_is_never_drawn_late(site: RunningSite, open_page: Opener) -> None:
    page = with_battery(site, open_page)
    page.evaluate("falseBattery({level: 0.06})")
    first = min(line.end_s for line in plan_of(site).run_sheet if line.start_s == 0)
    page.clock.run_for((first - 4) * 1000)
    assert page.locator("[data-part=time-words]").text_content() == "0:04 left"
    before = page.locator("[data-part=title]").text_content()
    page.clock.run_for(4000)
    assert page.locator("[data-part=title]").text_content() != before


def test_what_comes_next_is_a_list_for_paper(site: RunningSite, open_page: Opener) -> None:
    page = with_battery(site, open_page)
    page.evaluate("falseBattery({level: 0.06})")
    # A second touch within a quarter of a second is taken for a slip, by the false clock as well.
    page.clock.run_for(1000)
    page.get_by_role("button", name="Setting").click()
    page.clock.run_for(1000)
    page.get_by_role("button", name="Next steps").click()
    rows = page.locator("[data-part=paper-list] li").all_text_contents()
    work = [line for line in plan_of(site).run_sheet if line.activity == "work"]
    assert sum("Ropewalk, round" in row for row in rows) == len(work)
    first = next(row for row in rows if "round 1, wave A" in row)
    assert re.match(r"\d\d:\d\d:\d\d Ropewalk, round 1, wave A", first)
    assert re.search(r"Birk bar \d, [\d.]+ kg", first)


def test_where_the_browser_does_not_tell_a_key_does_the_same(
    site: RunningSite, open_page: Opener
) -> None:
    page = open_page(site.url, look=PHONE)
    page.add_init_script("delete Navigator.prototype.getBattery")
    page.goto(f"{site.url}/live/{SESSION}")
    start(opened(page))
    page.get_by_role("button", name="Setting").click()
    page.wait_for_timeout(260)
    key = page.locator("[data-part=battery-key]")
    size = key.bounding_box()
    assert size is not None
    assert size["height"] >= TARGET_MM * PIXELS_PER_MM[PHONE.width] - 1
    key.click()
    expect(page.locator(WORDS)).to_contain_text("The battery is low. The session still needs ")
    assert theme(page) == "white-on-black"
    page.wait_for_timeout(260)
    page.locator("[data-do=setup-close]").click()
    assert_accessible(page)
    assert_no_sideways_scroll(page)
    page.get_by_role("button", name="Setting").click()
    page.wait_for_timeout(260)
    page.get_by_role("button", name="Next steps").click()
    assert_accessible(page)
    assert_no_sideways_scroll(page)
    page.wait_for_timeout(260)
    page.locator("[data-do=paper-close]").click()
    page.wait_for_timeout(260)
    page.get_by_role("button", name="The battery is not low").click()
    assert theme(page) == "black-on-white"
