"""Something else instead of an exercise: three taps, shown on every screen, kept in flight mode."""

from collections.abc import Callable

from playwright.sync_api import Locator, Page, expect

from browser.live_floor import (
    PHONE,
    PIXELS_PER_MM,
    SCREEN,
    SESSION,
    TABLET,
    TARGET_MM,
    back_on_the_network,
    floor,
    opened,
    reopened_in_flight_mode,
    start,
    stored,
)
from looks import assert_accessible, assert_no_sideways_scroll
from site_server import RunningSite
from squadwright.model.record import EventKind, in_force
from squadwright.services.record import record_of

Opener = Callable[..., Page]
LEFT = "Snatch-grip high pull"
INSTEAD = "High pull from the hang"
# Somebody who is at work when block A begins, among those on the first six tiles.
AT_WORK = """() => {
  const sheet = JSON.parse(document.getElementById('sheet').textContent);
  const work = sheet.lines.filter((line) => line.block === 'A' && line.kind === 'work');
  const first = Math.min(...work.map((line) => line.start_s));
  const shown = new Set([...document.querySelectorAll('.tile')].map((t) => t.dataset.athlete));
  const ids = work.filter((line) => line.start_s === first).flatMap((line) => line.who);
  return sheet.people.find((person) => ids.includes(person.id) && shown.has(person.id));
}"""


def tap(page: Page, key: Locator) -> None:
    key.click()
    # A second touch within a quarter of a second is taken for a slip.
    page.wait_for_timeout(260)


def button(page: Page, words: str) -> Locator:
    return page.get_by_role("button", name=words, exact=True)


def swap(page: Page, who: str = "Haneul", left: str = LEFT, instead: str = INSTEAD) -> None:
    """Three taps: his tile, what he leaves, what he does instead."""
    tap(page, page.locator(".tile", has_text=who))
    tap(page, button(page, f"Swap {left}"))
    tap(page, button(page, instead))


def test_a_swap_takes_three_taps_and_undo_takes_it_back(
    site: RunningSite, open_page: Opener
) -> None:
    page = floor(site, open_page)
    start(page)
    swap(page)
    noted = stored(site, 2)[-1]
    assert (noted.kind, noted.athlete, noted.round) == (EventKind.SWAPPED, "A07", 1)
    assert (noted.exercise, noted.words) == ("snatch-grip-high-pull", INSTEAD)
    tile = page.locator(".tile", has_text="Haneul")
    expect(tile).to_contain_text(f"{INSTEAD} instead of {LEFT}")
    assert_no_sideways_scroll(page)
    tap(page, button(page, "Undo"))
    expect(tile).not_to_contain_text("instead of")
    assert [e.kind for e in in_force(stored(site, 3))] == [EventKind.STARTED]


def test_who_does_the_exercise_again_is_noted_too(site: RunningSite, open_page: Opener) -> None:
    page = floor(site, open_page)
    start(page)
    swap(page, instead="Helps and watches")
    tile = page.locator(".tile", has_text="Haneul")
    expect(tile).to_contain_text(f"Helps and watches instead of {LEFT}")
    tap(page, tile)
    expect(page.locator("[data-part=swaps-line]")).to_have_text(
        f"Helps and watches instead of {LEFT}"
    )
    tap(page, button(page, f"Swap {LEFT} (swapped)"))
    expect(button(page, "Helps and watches")).to_have_count(0)
    expect(button(page, "Muscle snatch")).to_be_visible()
    tap(page, button(page, f"{LEFT} again"))
    expect(tile).not_to_contain_text("instead of")
    assert [e.words for e in stored(site, 3)[1:]] == ["helps and watches", ""]


def test_the_keys_are_large_enough_and_accessible(site: RunningSite, open_page: Opener) -> None:
    for look in (PHONE, TABLET, SCREEN):
        page = floor(site, open_page, look)
        if look is PHONE:
            start(page)
        tap(page, page.locator(".tile", has_text="Haneul"))
        tap(page, button(page, f"Swap {LEFT}"))
        assert_accessible(page)
        assert_no_sideways_scroll(page)
        for key in page.locator("[data-part=faults] button").all():
            size = key.bounding_box()
            assert size is not None
            assert size["height"] >= TARGET_MM * PIXELS_PER_MM[look.width] - 1


def test_the_wall_and_other_devices_show_it(site: RunningSite, open_page: Opener) -> None:
    page = floor(site, open_page)
    start(page)
    wall = opened(open_page(f"{site.url}/live/{SESSION}/wall", look=SCREEN))
    other = floor(site, open_page, TABLET)
    swap(page)
    words = f"{INSTEAD} instead of {LEFT}"
    for device in (wall, other):
        expect(device.locator("[data-part=people]")).to_contain_text(words, timeout=15_000)
        assert_no_sideways_scroll(device)
    assert_accessible(wall)


def test_in_a_block_of_drills_the_wall_names_who_does_something_else(
    site: RunningSite, open_page: Opener
) -> None:
    session = "wednesday-plyometric"
    page = opened(open_page(f"{site.url}/live/{session}", look=PHONE))
    start(page, "Start with A")
    wall = opened(open_page(f"{site.url}/live/{session}/wall", look=SCREEN))
    who = page.evaluate(AT_WORK)
    tap(page, page.locator(f".tile[data-athlete={who['id']}]"))
    tap(page, page.locator("[data-part=swaps] button").first)
    tap(page, button(page, "Helps and watches"))
    expect(wall.locator("[data-part=people]")).to_contain_text(
        f"{who['short']}: Helps and watches instead of", timeout=15_000
    )


def test_in_flight_mode_a_swap_is_kept_and_sent_later(site: RunningSite, open_page: Opener) -> None:
    page = floor(site, open_page)
    start(page)
    stored(site, 1)
    page = reopened_in_flight_mode(page, site, "k.some(r => r.url.includes('live/swaps'))")
    swap(page)
    page.reload()
    expect(opened(page).locator(".tile", has_text="Haneul")).to_contain_text("instead of")
    assert len(record_of(site.keeper, SESSION)) == 1
    back_on_the_network(page, site)
    assert stored(site, 2)[-1].words == INSTEAD
