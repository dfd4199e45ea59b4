"""The live floor in a real browser: sizes, a whole session by a false clock, taps, flight mode."""

import math
import time
from dataclasses import replace
from datetime import timedelta
from random import Random

import pytest
from playwright.sync_api import expect

from browser.live_floor import (
    DIGIT_MM,
    EVENING,
    LARGE_TARGET_MM,
    PHONE,
    PIXELS_PER_MM,
    SCREEN,
    SESSION,
    TABLET,
    TARGET_MM,
    Opener,
    back_on_the_network,
    box,
    by_false_clock,
    floor,
    holds,
    opened,
    plan_of,
    reopened_in_flight_mode,
    start,
    stored,
)
from cases import cases
from floor_clock import moment_at
from looks import Look, assert_accessible, assert_no_sideways_scroll
from site_server import RunningSite
from squadwright.model.club import Club
from squadwright.model.record import EventKind, in_force
from squadwright.planning.live.clock import clock_of
from squadwright.services.club_changes import change_club
from squadwright.services.record import record_of


@pytest.mark.parametrize("look", [PHONE, TABLET, SCREEN], ids=str)
def test_digits_and_targets_have_the_size_asked_for(
    site: RunningSite, open_page: Opener, look: Look
) -> None:
    page = floor(site, open_page, look)
    start(page)
    mm = PIXELS_PER_MM[look.width]
    assert box(page, ".numerals")["height"] >= DIGIT_MM * mm - 1
    for selector in (".tile", ".floor-rest button:visible"):
        for found in page.locator(selector).all():
            size = found.bounding_box()
            assert size is not None
            assert size["height"] >= TARGET_MM * mm - 1
            assert size["width"] >= min(TARGET_MM * mm, 80)
    for found in page.locator(".floor-keys button").all():
        size = found.bounding_box()
        assert size is not None
        assert size["height"] >= LARGE_TARGET_MM * mm - 1
        assert size["width"] >= LARGE_TARGET_MM * mm
        assert size["y"] >= look.height / 2
        assert size["y"] + size["height"] <= look.height
    assert_no_sideways_scroll(page)


def test_on_a_phone_everybody_at_work_is_seen_whole_and_after_the_end_nothing_is_under_way(
    site: RunningSite, open_page: Opener
) -> None:
    page = floor(site, open_page)
    start(page)
    name = page.locator(".tile", has_text="Sami").locator(".tile-name").bounding_box()
    mark = page.locator(".tile", has_text="Sami").locator(".tile-mark").bounding_box()
    assert name is not None
    assert mark is not None
    assert mark["y"] >= name["y"] + name["height"] or mark["x"] >= name["x"] + name["width"]
    for _ in range(2):
        keys = box(page, ".floor-keys")["y"]
        bottoms = page.locator(".tile").evaluate_all(
            "all => all.map(t => t.getBoundingClientRect().bottom)"
        )
        assert len(bottoms) == 6
        assert max(bottoms) <= keys
        assert page.evaluate("document.documentElement.scrollHeight <= innerHeight")
        page.locator("[data-do=hold]").click()
        page.wait_for_timeout(260)
    page.get_by_role("button", name="End: hold").hover()
    page.mouse.down()
    expect(page.locator("#floor")).to_have_attribute("data-phase", "ended")
    page.mouse.up()
    regret = page.get_by_role("alertdialog", name="Ended")
    expect(regret).to_contain_text("This stays for")
    expect(page.locator("[data-part=title]")).to_have_text("Ended")
    for part in ("next", "rests"):
        expect(page.locator(f"[data-part={part}]")).to_have_text("")
    expect(page.locator("[data-part=wave]")).to_have_attribute("data-shape", "")


@pytest.mark.parametrize("look", [PHONE, TABLET, SCREEN], ids=str)
def test_the_floor_and_the_wall_are_accessible(
    site: RunningSite, open_page: Opener, look: Look
) -> None:
    page = floor(site, open_page, look)
    assert_accessible(page)
    start(page)
    assert_accessible(page)
    page.locator(".tile").first.click()
    assert_accessible(page)
    page.goto(f"{site.url}/live/{SESSION}/wall")
    opened(page)
    assert_accessible(page)
    assert_no_sideways_scroll(page)


def test_the_screen_is_black_and_white_only(site: RunningSite, open_page: Opener) -> None:
    """Contrast of 21:1 by WCAG's formula, above the 12:1 asked for."""
    page = floor(site, open_page)
    start(page)
    colours = page.evaluate(
        """() => [...document.querySelectorAll('#floor *')]
          .filter(e => e.checkVisibility())
          .flatMap(e => { const s = getComputedStyle(e); return [s.color, s.backgroundColor]; })"""
    )
    assert set(colours) <= {"rgb(0, 0, 0)", "rgb(255, 255, 255)", "rgba(0, 0, 0, 0)"}


def test_a_whole_session_runs_by_itself_to_the_second(site: RunningSite, open_page: Opener) -> None:
    """12 athletes, 6 bars, 2 waves, 4 rounds by a false clock, against the plan's run sheet."""
    plan = plan_of(site)
    page = by_false_clock(open_page(site.url, look=PHONE), site)
    random = Random(4)
    changes = sorted({line.start_s for line in plan.run_sheet if line.start_s >= 0})
    end = max(line.end_s for line in plan.run_sheet)
    places = sorted({*(c + 1 for c in changes), *(random.randrange(0, end) for _ in range(25))})
    at = 0
    for place in [p for p in places if p < end]:
        page.clock.run_for((place - at) * 1000)
        at = place
        moment = moment_at(plan.run_sheet, place)
        work = next((x for x in moment.now if x.activity == "work"), None)
        change = next((x for x in moment.now if x.activity == "change-over"), None)
        line = work or change or next(x for x in moment.now if x.group == "all")
        left = line.end_s - place
        shown = page.locator("[data-part=time-words]").text_content()
        assert shown == f"{left // 60}:{left % 60:02d} left", (place, shown)
        if work is not None:
            letter = page.locator("[data-part=wave-letter]").text_content()
            assert letter == "AB"[int(work.group.split()[1]) - 1]
            tiles = page.locator(".tile").evaluate_all("all => all.map(t => t.dataset.athlete)")
            assert tiles == list(work.athletes[:6])
            assert f"round {work.round} of 4" in (
                page.locator("[data-part=round]").text_content() or ""
            )
    page.clock.run_for((end - at + 1) * 1000)
    expect(page.locator("[data-part=title]")).to_have_text("The sheet is done")


def test_a_fault_takes_two_taps_and_undo_takes_it_back(
    site: RunningSite, open_page: Opener
) -> None:
    page = floor(site, open_page)
    start(page)
    page.locator(".tile", has_text="Birk").click()
    page.wait_for_timeout(260)
    page.get_by_role("button", name="low back rounding").click()
    record = stored(site, 2)
    fault = next(e for e in record if e.kind is EventKind.FAULT)
    assert (fault.athlete, fault.round, fault.words) == ("A04", 1, "low back rounding")
    told = page.locator("[data-part=told]")
    expect(told).to_have_text("Noted: Birk, low back rounding.")
    page.wait_for_timeout(260)
    page.get_by_role("button", name="Undo").click()
    expect(page.get_by_role("button", name="Undo")).to_be_disabled()
    expect(told).to_be_empty()
    assert [e.kind for e in in_force(stored(site, 3))] == [EventKind.STARTED]


def test_a_touch_that_lasts_over_a_change_of_the_second_is_not_lost(
    site: RunningSite, open_page: Opener
) -> None:
    page = floor(site, open_page)
    start(page)
    page.locator(".tile", has_text="Birk").hover()
    page.mouse.down()
    page.wait_for_timeout(1_300)
    page.mouse.up()
    expect(page.get_by_role("dialog", name="Note about an athlete")).to_contain_text("Birk")


def test_three_of_one_fault_in_a_round_ask_to_stop(site: RunningSite, open_page: Opener) -> None:
    page = floor(site, open_page)
    start(page)
    for _ in range(3):
        page.wait_for_timeout(260)
        page.locator(".tile", has_text="Birk").click()
        page.wait_for_timeout(260)
        page.get_by_role("button", name="low back rounding").click()
    question = page.get_by_role("alertdialog", name="Stop or lighten")
    expect(question).to_contain_text("Birk: low back rounding, 3 times this round")
    page.wait_for_timeout(260)
    question.get_by_role("button", name="Stop", exact=True).click()
    expect(page.locator(".tile", has_text="Birk")).to_contain_text("stopped")


def test_the_stop_rule_of_the_session_is_asked_by_and_told_afterwards(
    site: RunningSite, open_page: Opener
) -> None:
    def twice(club: Club) -> Club:
        session = club.session(SESSION)
        settings = replace(session.settings, stop_after_faults=2)
        held = replace(session, settings=settings)
        return replace(club, sessions=tuple(held if s is session else s for s in club.sessions))

    change_club(site.keeper, twice, today=EVENING.date())
    page = floor(site, open_page)
    start(page)
    question = page.get_by_role("alertdialog", name="Stop or lighten")
    for _ in range(2):
        expect(question).to_be_hidden()
        page.locator(".tile", has_text="Birk").click()
        page.wait_for_timeout(260)
        page.get_by_role("button", name="low back rounding").click()
        page.wait_for_timeout(260)
    expect(question).to_contain_text("Birk: low back rounding, 2 times this round")
    question.get_by_role("button", name="Go on as it is").click()
    stored(site, 3)
    page = open_page(f"{site.url}/done/{SESSION}", look=PHONE)
    expect(page.locator("tbody tr", has_text="Birk").first).to_contain_text(
        "Asked to stop in round 1: low back rounding, 2 times."
    )


def test_flight_mode_from_a_cold_start_loses_nothing(site: RunningSite, open_page: Opener) -> None:
    page = reopened_in_flight_mode(floor(site, open_page), site)
    context = page.context
    start(page)
    page.locator(".tile", has_text="Birk").click()
    page.wait_for_timeout(260)
    page.get_by_role("button", name="2 reps lost").click()
    expect(page.locator("[data-part=line]")).to_contain_text("2 noted here, sent when it is back")
    assert record_of(site.keeper, SESSION) == ()
    page.close()
    page = context.new_page()
    page.goto(f"{site.url}/live/{SESSION}")
    opened(page)
    expect(page.locator("#floor")).to_have_attribute("data-phase", "on")
    back_on_the_network(page, site)
    expect(page.locator("[data-part=line]")).to_have_text(
        "Everything noted is stored", timeout=40_000
    )
    kinds = [event.kind for event in in_force(record_of(site.keeper, SESSION))]
    assert kinds == [EventKind.STARTED, EventKind.REPETITIONS_LOST]


def test_two_devices_show_the_same_moment(site: RunningSite, open_page: Opener) -> None:
    phone = floor(site, open_page)
    start(phone)
    tablet = floor(site, open_page, TABLET)
    expect(tablet.locator("#floor")).to_have_attribute("data-phase", "on", timeout=15_000)
    phone.wait_for_timeout(260)
    phone.get_by_role("button", name="Hold: bars down").click()
    expect(tablet.locator("[data-part=title]")).to_have_text("Held: bars down", timeout=15_000)
    held = [p.locator("[data-part=time-words]").text_content() for p in (phone, tablet)]
    assert held[0] == held[1]


def test_an_end_is_held_and_can_be_taken_back(site: RunningSite, open_page: Opener) -> None:
    page = floor(site, open_page)
    start(page)
    key = page.get_by_role("button", name="End: hold")
    key.click()
    expect(page.locator("#floor")).to_have_attribute("data-phase", "on")
    key.hover()
    page.mouse.down()
    page.wait_for_timeout(1200)
    page.mouse.up()
    expect(page.locator("#floor")).to_have_attribute("data-phase", "ended")
    page.get_by_role("button", name="Undo the end").click()
    expect(page.locator("#floor")).to_have_attribute("data-phase", "on")


def test_keys_of_a_clicker_move_on_and_back(site: RunningSite, open_page: Opener) -> None:
    page = floor(site, open_page)
    start(page)
    page.keyboard.press("PageDown")
    expect(page.locator("[data-part=title]")).to_have_text("Change-over")
    page.wait_for_timeout(300)
    page.keyboard.press("PageDown")
    expect(page.locator("[data-part=wave-letter]")).to_have_text("B")
    page.wait_for_timeout(300)
    page.keyboard.press("PageUp")
    expect(page.locator("[data-part=title]")).to_have_text("Change-over")


def test_the_screen_is_right_after_being_killed_at_random_moments(
    site: RunningSite, open_page: Opener
) -> None:
    """Each time the page is gone at one moment and opened at a later one, with holds between."""
    plan = plan_of(site)
    page = open_page(site.url, look=PHONE)
    context = page.context
    random = Random(7)
    now = EVENING
    page.clock.install(time=now)
    page.goto(f"{site.url}/live/{SESSION}")
    start(opened(page), "Start from the beginning")
    slowest_s = 0.0
    for _ in range(cases(50)):
        page.close()
        now += timedelta(milliseconds=random.randrange(1_000, 110_000))
        page = context.new_page()
        page.clock.set_fixed_time(now)
        begun = time.perf_counter()
        page.goto(f"{site.url}/live/{SESSION}")
        opened(page)
        slowest_s = max(slowest_s, time.perf_counter() - begun)
        place = clock_of(record_of(site.keeper, SESSION)).place_at(now)
        moment = moment_at(plan.run_sheet, place)
        assert moment.next_change_s is not None
        line = next(
            (x for x in moment.now if x.activity in ("work", "change-over")),
            next((x for x in moment.now if x.group == "all"), None),
        )
        assert line is not None
        left = math.ceil(line.end_s - place - 1e-6)
        shown = page.locator("[data-part=time-words]").text_content()
        assert shown == f"{left // 60}:{left % 60:02d} left"
        if random.random() < 0.3:
            before = len(record_of(site.keeper, SESSION))
            page.locator("[data-do=hold]").click()
            stored(site, before + 1)
    print(f"slowest of {cases(50)} openings: {slowest_s:.2f} s")


def test_one_device_records_two_sessions_one_after_the_other(
    site: RunningSite, open_page: Opener
) -> None:
    page = floor(site, open_page)
    start(page)
    stored(site, 1)
    page.goto(f"{site.url}/live/wednesday-plyometric")
    opened(page)
    start(page, "Start from the beginning")
    for _ in range(100):
        if record_of(site.keeper, "wednesday-plyometric"):
            break
        page.wait_for_timeout(100)
    records = [record_of(site.keeper, s) for s in (SESSION, "wednesday-plyometric")]
    assert [[e.kind for e in record] for record in records] == [[EventKind.STARTED]] * 2
    page.goto(f"{site.url}/live/{SESSION}")
    expect(opened(page).locator("#floor")).to_have_attribute("data-phase", "on")


def test_hold_and_next_stay_in_reach_however_many_groups_there_are(
    site: RunningSite, open_page: Opener
) -> None:
    page = opened(open_page(f"{site.url}/live/wednesday-plyometric", look=PHONE))
    start(page, "Start with A")
    expect(page.locator("[data-part=title]")).to_have_text("Block A")
    for name in ("Hold: bars down", "Next", "Help: hold"):
        key = page.get_by_role("button", name=name)
        expect(key).to_be_in_viewport(ratio=1)
    names = page.locator(".group-now").evaluate_all("all => all.map(e => e.textContent[6])")
    assert names == sorted(names)
    assert_no_sideways_scroll(page)


def test_a_page_loaded_past_the_worker_is_taken_under_it(
    site: RunningSite, open_page: Opener
) -> None:
    """A forced reload passes the worker by, as a page does that loads while the worker wakes up."""
    page = floor(site, open_page)
    holds(page, "navigator.serviceWorker.controller !== null")
    with page.expect_navigation():
        page.context.new_cdp_session(page).send("Page.reload", {"ignoreCache": True})
    opened(page)
    holds(page, "navigator.serviceWorker.controller !== null")
