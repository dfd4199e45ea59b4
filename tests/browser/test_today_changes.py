"""What goes wrong on the day, walked in a real browser as the coach would; what he sees is held.

Seconds are printed, never asserted.
"""

import re
import time
from collections.abc import Callable
from dataclasses import replace

import pytest
from playwright.sync_api import Locator, Page, Route, expect

from looks import (
    SOME_LOOKS,
    Look,
    assert_accessible,
    assert_no_sideways_scroll,
    assert_readable_size,
)
from site_server import MONDAY, RunningSite
from squadwright.library import routine
from squadwright.model.club import Club
from squadwright.services.club_changes import change_club

Opener = Callable[..., Page]
PHONE = Look("light", 360)
MONDAY_PATH = "/today/monday-barbell"
WEDNESDAY_PATH = "/today/wednesday-plyometric"
PATHS = (
    f"{MONDAY_PATH}/late",
    f"{MONDAY_PATH}/minutes-left",
    f"{MONDAY_PATH}/change/A03?block=Ropewalk",
    f"{MONDAY_PATH}/change/A12?block=Ropewalk",
    "/today/guests",
)


@pytest.mark.parametrize("look", SOME_LOOKS, ids=str)
def test_each_page_can_be_read_and_used_in_every_look(
    site: RunningSite, open_page: Opener, look: Look
) -> None:
    page = open_page(f"{site.url}{MONDAY_PATH}/check-in", look=look)
    add_a_guest(page)
    for path in ("", *PATHS):
        if path:
            page.goto(f"{site.url}{path}")
        page.evaluate("document.querySelectorAll('details').forEach(d => { d.open = true })")
        assert_accessible(page)
        assert_no_sideways_scroll(page)
        assert_readable_size(page)


def seats(page: Page) -> dict[str, str]:
    """Bar and wave by name, as they stand on Today."""
    found: dict[str, str] = {}
    for bar in page.locator(".bar").all():
        own_name = bar.locator(".bar-name").inner_text()
        for load in bar.locator(".load").all():
            wave = load.locator(".wave-mark svg").get_attribute("aria-label") or ""
            found[load.locator(".load-name").inner_text()] = f"{own_name}, {wave}"
    return found


def add_a_guest(page: Page) -> None:
    """Three taps: open, consent, add."""
    page.get_by_text("Add a guest", exact=True).click()
    page.get_by_label("Agreed to train as a guest").check()
    page.get_by_role("button", name="Add an adult").click()
    expect(page.locator(".changed")).to_contain_text("Guest 1 is a guest until")


def all_in_pairs(club: Club) -> Club:
    """Thirteen on Wednesday in a routine of pairs."""
    pairs = routine("paper-boats")
    sessions = tuple(
        replace(s, routine=pairs.id, routine_version=pairs.version, minutes=60, check_ins=())
        if f"/today/{s.id}" == WEDNESDAY_PATH
        else s
        for s in club.sessions
    )
    return replace(club, routines=(*club.routines, pairs), sessions=sessions)


@pytest.mark.parametrize("scripts", [True, False])
def test_thirteen_turn_up_for_pairs_and_one_press_picks(
    site: RunningSite, open_page: Opener, scripts: bool
) -> None:
    change_club(site.keeper, all_in_pairs, today=MONDAY)
    page = open_page(f"{site.url}{WEDNESDAY_PATH}", look=PHONE, scripts=scripts)
    odd = page.locator(".odd-number")
    expect(odd).to_contain_text("13 train where pairs are wanted. Nobody sits out:")
    expect(odd.locator(".odd-choice")).to_have_count(2)
    expect(odd.locator(".odd-choice").first).to_contain_text("5 pairs and 1 three")
    expect(odd.locator(".odd-choice").first).to_contain_text("minutes")
    expect(odd).not_to_contain_text("coach")
    odd.get_by_role("button", name="3 threes and 2 pairs").click()
    expect(odd.get_by_role("button", name="3 threes and 2 pairs")).to_have_attribute(
        "aria-pressed", "true"
    )
    expect(page.locator(".changed")).to_contain_text("An odd number makes threes")
    page.get_by_role("button", name="Undo").click()
    expect(odd.get_by_role("button", name="5 pairs and 1 three")).to_have_attribute(
        "aria-pressed", "true"
    )


def test_five_come_twelve_minutes_late_from_school(site: RunningSite, open_page: Opener) -> None:
    page = open_page(f"{site.url}{MONDAY_PATH}", look=PHONE, scripts=False)
    before = seats(page)
    page.get_by_role("link", name="Check in").click()
    page.get_by_role("link", name="Several late").click()
    late = ("Marisol Quenaya", "Haneul Namgyeong", "Mirela Costandrei", "Ngaire Waipuhia")
    for name in (*late, "Ottoline Baptiste-Ferro"):
        page.get_by_label(name).check()
    page.get_by_label("Minutes late").fill("12")
    page.get_by_role("button", name="They are late by these minutes").click()
    expect(page.locator(".changed")).to_contain_text("are 12 minutes late.")
    expect(page.locator(".changed")).to_contain_text("3 rounds (was 4)")
    page.get_by_role("link", name="See the plan").click()
    expect(page.locator(".who-line")).to_contain_text("6 late")
    assert seats(page) == before
    for name in late:
        load = page.locator(".load", has_text=name)
        expect(load).to_contain_text("Rounds 2\N{EN DASH}4 of 4.")
        load.locator("summary").click()
        expect(load).to_contain_text("12 min late: joins at round 2, 3 rounds planned.")
        expect(page.locator(".band-label", has_text=name)).to_be_visible()


def test_a_visitor_without_data_is_a_guest_in_three_taps(
    site: RunningSite, open_page: Opener
) -> None:
    page = open_page(f"{site.url}{MONDAY_PATH}/check-in", look=PHONE, scripts=False)
    add_a_guest(page)
    expect(page.locator(".arrivals li", has_text="Guest 1")).to_contain_text("guest")
    page.get_by_role("link", name="See the plan").click()
    # Twelve have the six bars in two waves: he has the place of A13, who is done after two rounds.
    row = page.get_by_role("row").filter(has_text="Guest 1")
    expect(row.locator(".guest-tag")).to_be_visible()
    expect(row).to_contain_text("Rounds 3\N{EN DASH}4 of 4")
    row.locator("summary").click()
    expect(row).to_contain_text("No place at a bar is free: learns the movements with a stick.")
    expect(row).to_contain_text("Guest: 2 rounds; a place at the bars is free after round 2.")
    group = page.locator(".groups dd", has_text="Guest 1")
    expect(group).to_contain_text("Chidozie Umelaro")
    page.goto(f"{site.url}/today/guests")
    expect(page.get_by_role("heading", name="Guest 1")).to_be_visible()
    page.get_by_role("button", name="Is removed").click()
    expect(page.locator(".changed")).to_contain_text("Guest 1 is removed")
    page.get_by_role("button", name="Undo").click()
    expect(page.get_by_role("heading", name="Guest 1")).to_be_visible()


def test_one_absent_one_late_one_knee_one_shoulder_in_ten_taps(
    site: RunningSite, open_page: Opener
) -> None:
    page = open_page(f"{site.url}{MONDAY_PATH}", look=PHONE)
    before = seats(page)
    taps = 0
    seconds: list[float] = []

    def tap(what: Locator, *, plans: bool = False) -> None:
        nonlocal taps
        taps += 1
        start = time.perf_counter()
        what.click()
        if plans:
            expect(page.locator(".changed p")).to_be_visible()
            seconds.append(time.perf_counter() - start)

    def button(name: str) -> Locator:
        return page.get_by_role("button", name=name, exact=True)

    tap(page.get_by_role("link", name="Check in"))
    tap(button("Absent Marisol Quenaya"), plans=True)
    tap(page.get_by_role("link", name="Late, pain Ottoline Baptiste-Ferro"))
    tap(button("Late 10 min"), plans=True)
    tap(page.get_by_role("link", name="Late, pain Iskander Yulbarin"))
    tap(page.get_by_text("Knee", exact=True))
    tap(button("4"), plans=True)
    tap(page.get_by_role("link", name="Late, pain Dónal Mac Firvane"))
    tap(page.get_by_text("Shoulder", exact=True))
    tap(button("4"), plans=True)
    assert taps <= 10
    print(f"{taps} taps; each change shown after {', '.join(f'{s:.2f}' for s in seconds)} s")
    page.get_by_role("link", name="See the plan").click()
    expect(page.locator(".who-line")).to_contain_text("2 late, 2 absent")
    findings = page.locator(".findings")
    expect(findings).to_contain_text("Iskander Yulbarin reports knee pain 4 of 10")
    expect(findings).to_contain_text("Dónal Mac Firvane reports shoulder pain 4 of 10")
    after = seats(page)
    assert after == {name: seat for name, seat in before.items() if name != "Marisol Quenaya"}


def test_twenty_two_minutes_are_left(site: RunningSite, open_page: Opener) -> None:
    page = open_page(f"{site.url}{MONDAY_PATH}", look=PHONE)
    page.get_by_role("link", name="Minutes left").click()
    start = time.perf_counter()
    page.get_by_role("button", name="22 min", exact=True).click()
    expect(page.locator(".who-line")).to_contain_text("22 of 60 minutes are left.")
    print(f"22 minutes left: shown after {time.perf_counter() - start:.2f} s")
    cut = page.locator(".findings")
    expect(cut).to_contain_text("to fit 22: Ropewalk 4 to 1 rounds")
    expect(cut).to_contain_text("warm-up 12:00 to 8:")
    expect(cut).to_contain_text("would save")
    expect(cut).not_to_contain_text("rehearsal")
    page.get_by_role("button", name="Undo").click()
    expect(page.locator(".who-line")).not_to_contain_text("are left")


@pytest.mark.parametrize("scripts", [True, False])
def test_a_load_is_changed_in_two_taps_with_its_reason_and_back_in_one(
    site: RunningSite, open_page: Opener, scripts: bool
) -> None:
    page = open_page(f"{site.url}{MONDAY_PATH}", look=PHONE, scripts=scripts)
    load = page.locator(".load", has_text="Marisol Quenaya")
    load.get_by_role("link", name="Change Marisol Quenaya").click()
    page.get_by_role("button", name=re.compile("looks tired.*Lighter")).click()
    expect(page.locator(".changed")).to_contain_text("coach's override: looks tired.")
    expect(load).to_contain_text("15 kg")
    expect(load).to_contain_text("Coach's override: 15 kg (looks tired)")
    page.get_by_role("button", name="Undo").click()
    expect(load).not_to_contain_text("Coach's override")
    expect(load).to_contain_text("16 kg")


def test_more_than_the_technique_bar_is_not_offered_to_the_young(
    site: RunningSite, open_page: Opener
) -> None:
    page = open_page(f"{site.url}{MONDAY_PATH}/change/A12?block=Ropewalk", look=PHONE)
    heavier = page.locator(".change", has_text="Heavier")
    expect(heavier.first).to_contain_text("is 14, under 16: the bare technique bar")
    expect(heavier.first.get_by_role("button")).to_have_count(0)


WATCH = """
addEventListener("DOMContentLoaded", () => {
  const line = document.getElementById("at-work");
  const note = () => {
    if (!line.hidden) sessionStorage.setItem("at work", line.innerText.trim());
  };
  new MutationObserver(note).observe(line, { attributes: true, childList: true, subtree: true });
});
"""


def test_planning_that_takes_longer_than_half_a_second_shows_that_it_goes_on(
    site: RunningSite, open_page: Opener
) -> None:
    page = open_page(f"{site.url}{MONDAY_PATH}", look=PHONE)
    page.add_init_script(WATCH)

    def slowly(route: Route) -> None:
        page.wait_for_timeout(1200)
        route.continue_()

    page.route("**/change/**", slowly)
    page.reload()
    page.get_by_role("link", name="Change Marisol Quenaya").click()
    expect(page.get_by_role("heading", level=1)).to_have_text("Change: Marisol Quenaya")
    assert page.evaluate("sessionStorage.getItem('at work')") == "Looking at the plan"
    page.get_by_role("button", name=re.compile("looks tired.*Lighter")).click()
    expect(page.locator(".changed")).to_contain_text("coach's override: looks tired.")
    assert page.evaluate("sessionStorage.getItem('at work')") == "Planning anew"
