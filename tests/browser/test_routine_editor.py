"""A routine of eight exercises from nothing, by keyboard and by thumb, its actions counted."""

import time
from collections.abc import Callable

import pytest
from playwright.sync_api import Page, expect

from browser.hand import Hand
from looks import (
    SOME_LOOKS,
    Look,
    assert_accessible,
    assert_no_sideways_scroll,
    assert_readable_size,
)
from site_server import RunningSite

Opener = Callable[..., Page]
PHONE = Look("light", 360, 740)
# What is typed, and the exercise it chooses: three letters, or a few more where many begin alike.
EIGHT = (
    ("rom", "Romanian deadlift"),
    ("ben", "Bent-over row"),
    ("mus", "Muscle clean"),
    ("fro", "Front squat"),
    ("pus p", "Push press"),
    ("spl str", "Split-stance strict press"),
    ("fro re", "Front-rack reverse lunge"),
    ("str", "Strict press"),
)
NAME, AIM = "Longshore", "grip"
MOST_ACTIONS = 90
LONGEST_S = 180.0


def told(hand: Hand, how: str, seconds: float) -> str:
    return (
        f"{how}: {hand.actions} actions ({hand.keys} keys, {hand.taps} taps), "
        f"{seconds:.1f} s by the test, {hand.slow_s:.0f} s by a slow hand"
    )


def names_typed(page: Page) -> list[str]:
    values: list[str] = page.eval_on_selector_all(".step-exercise", "all => all.map(e => e.value)")
    return [value for value in values if value]


def steps_shown(page: Page) -> list[str]:
    return page.locator(".routine-steps strong").all_inner_texts()


def expect_stored(page: Page, hand: Hand) -> None:
    expect(page.get_by_role("heading", level=1)).to_have_text(NAME)
    assert steps_shown(page) == [name for _, name in EIGHT]
    assert hand.actions <= MOST_ACTIONS
    assert hand.slow_s < LONGEST_S


def wait_for_editor(page: Page) -> None:
    """Until the script runs: before, Enter would send the form, as it does without scripts."""
    expect(page.locator(".step-exercise").first).to_have_attribute("aria-autocomplete", "list")


def test_eight_exercises_by_keyboard_alone(
    site: RunningSite, open_page: Opener, record_property: Callable[[str, object], None]
) -> None:
    page = open_page(f"{site.url}/routines", look=Look("light", 1440))
    hand, began = Hand(page), time.perf_counter()
    build = page.get_by_role("link", name="Build a routine")
    build.focus()
    hand.press("Enter")
    expect(page.locator("#field-name")).to_be_focused()
    wait_for_editor(page)
    hand.type(NAME)
    hand.press("Enter")
    hand.type(AIM)
    hand.press("Enter")
    expect(page.locator(".step-exercise").first).to_be_focused()
    for typed, name in EIGHT:
        hand.type(typed)
        expect(page.locator(".suggestions li").first).to_have_text(name)
        hand.press("Enter")
    assert names_typed(page) == [name for _, name in EIGHT]
    hand.press("Enter")  # on the empty row: on to the button that stores
    expect(page.get_by_role("button", name="Store the routine")).to_be_focused()
    hand.press("Enter")
    expect_stored(page, hand)
    words = told(hand, "keyboard", time.perf_counter() - began)
    record_property("eight exercises", words)
    print(words)
    assert hand.taps == 0


def test_eight_exercises_by_thumb_on_a_phone(
    site: RunningSite, open_page: Opener, record_property: Callable[[str, object], None]
) -> None:
    page = open_page(f"{site.url}/routines", look=PHONE)
    hand, began = Hand(page), time.perf_counter()
    hand.tap_words("Build a routine")
    expect(page.locator("#field-name")).to_be_focused()
    wait_for_editor(page)
    hand.type(NAME)
    hand.tap(page.locator(".step-exercise").first)
    for typed, name in EIGHT:
        hand.type(typed)
        option = page.get_by_role("option", name=name, exact=True)
        box = option.bounding_box()
        assert box is not None
        assert box["height"] >= 48
        hand.tap(option)
    assert_no_sideways_scroll(page)
    hand.tap_words("Store the routine")
    expect_stored(page, hand)
    words = told(hand, "thumb at 360 px", time.perf_counter() - began)
    record_property("eight exercises", words)
    print(words)


def test_checks_follow_the_typing_without_a_page_load(site: RunningSite, open_page: Opener) -> None:
    page = open_page(f"{site.url}/routines/new", look=Look("light", 1440))
    page.evaluate("window.isTheSamePage = true")
    checks = page.locator("#checks")
    expect(checks).to_contain_text("Nothing to look at yet")
    page.locator(".step-exercise").first.fill("Romanian deadlift")
    expect(checks).to_contain_text("The bar flows")
    expect(checks).to_contain_text("All the work takes")
    expect(checks).to_contain_text("Weights room has room for 14 athletes")
    expect(checks).to_contain_text("Kit for 14 athletes: 5 bars in 3 waves")
    expect(page.locator("[name=b0-s0-count]")).to_have_attribute("placeholder", "4")
    page.locator("[name=slot_minutes]").fill("30")
    expect(checks).to_contain_text("and the slot has 30 minutes")
    page.locator("[name=athletes]").fill("30")
    expect(checks).to_contain_text("30 lifters on 6 bars")
    page.locator("[name=athletes]").fill("many")
    expect(checks).to_contain_text("'many' is not a number")
    assert page.evaluate("window.isTheSamePage")


@pytest.mark.parametrize("scripts", [True, False], ids=["with scripts", "without scripts"])
def test_a_break_of_the_bar_is_mended_by_one_tap(
    site: RunningSite, open_page: Opener, *, scripts: bool
) -> None:
    page = open_page(f"{site.url}/routines/new", look=PHONE, scripts=scripts)
    for place, name in enumerate(("Romanian deadlift", "Front squat")):
        page.locator(f"[name=b0-s{place}-exercise]").fill(name)
        page.locator("[name=b0-s0-exercise]").press("Enter")
    checks = page.locator("#checks")
    if not scripts:
        page.get_by_role("button", name="Look again").click()
    broken = (
        "1 Romanian deadlift leaves the bar at the hang, and 2 Front squat takes it at the front"
    )
    expect(checks).to_contain_text(broken)
    turn = "Write that the last repetition of 2 Front squat ends at the hang"
    fix = checks.get_by_role("button", name="Muscle clean between 1 Romanian").first
    fix = fix if fix.count() else checks.get_by_role("button", name="Put ").first
    fix.click()
    expect(checks).not_to_contain_text(broken)
    assert len(names_typed(page)) == 3
    checks.get_by_role("button", name=turn.split(" ends")[0].replace("2 ", "3 ")).click()
    expect(checks).to_contain_text("The bar flows")
    assert page.locator("[name=b0-s2-last_ends]").input_value() == "hang"


def test_rows_move_and_go_without_losing_what_is_typed(
    site: RunningSite, open_page: Opener
) -> None:
    page = open_page(f"{site.url}/routines/routine/ropewalk/edit", look=PHONE)
    before = names_typed(page)
    page.locator("[name=note]").evaluate("e => { e.closest('details').open = true }")
    page.locator("[name=note]").fill("half written")
    page.locator(".step-row").nth(1).get_by_role("button", name="Move up").click()
    expect(page.locator(".step-exercise").first).to_have_value(before[1])
    expect(page.locator(".step-exercise").first).to_be_focused()
    page.locator(".step-row").nth(5).get_by_role("button", name="Remove").click()
    expect(page.locator(".step-row")).to_have_count(6)
    assert names_typed(page) == [before[1], before[0], *before[2:5]]
    assert page.locator("[name=note]").input_value() == "half written"


def test_with_scripts_off_letters_are_asked_about_and_enter_goes_on(
    site: RunningSite, open_page: Opener
) -> None:
    page = open_page(f"{site.url}/routines/new", look=PHONE, scripts=False)
    page.locator("#field-name").fill("By hand")
    page.locator("[name=b0-s0-exercise]").fill("mus")
    page.locator("[name=b0-s0-exercise]").press("Enter")
    page.get_by_role("button", name="Muscle clean", exact=True).click()
    expect(page.locator("[name=b0-s0-exercise]")).to_have_value("Muscle clean")
    expect(page.locator("[name=b0-s1-exercise]")).to_be_focused()
    page.get_by_role("button", name="Store the routine").click()
    expect(page.get_by_role("heading", level=1)).to_have_text("By hand")


def test_the_page_chooses_the_same_exercise_as_the_program(
    site: RunningSite, open_page: Opener
) -> None:
    from squadwright.library.search import matching_exercises

    page = open_page(f"{site.url}/routines/new", look=PHONE)
    field = page.locator("[name=b0-s0-exercise]")
    for typed in ("squ", "pus", "sna pu", "jump box", "row", "Clean hang", "hip-set"):
        field.fill(typed)
        expected = [e.name for e in matching_exercises(typed, bar_first=True)[:6]]
        expect(page.locator(".suggestions li")).to_have_text(expected)
    field.press("Escape")
    expect(page.locator(".suggestions")).to_have_count(0)


@pytest.mark.parametrize("look", SOME_LOOKS, ids=str)
def test_the_editor_can_be_read_and_used_in_every_look(
    site: RunningSite, open_page: Opener, look: Look
) -> None:
    page = open_page(f"{site.url}/routines/new?shelf=pontoon-rows", look=look)
    page.evaluate("document.querySelectorAll('details').forEach(d => { d.open = true })")
    page.locator(".step-exercise").last.fill("jum")
    expect(page.locator(".suggestions li").first).to_be_visible()
    assert_accessible(page)
    assert_no_sideways_scroll(page)
    assert_readable_size(page)
