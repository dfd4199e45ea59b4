"""Somebody is hurt: bad day 12 from the hold of a key to the plan of the next session."""

import re
from collections.abc import Callable
from dataclasses import replace

from playwright.sync_api import Page, expect

from browser.live_floor import (
    EVENING,
    PHONE,
    PIXELS_PER_MM,
    SCREEN,
    SESSION,
    TABLET,
    TARGET_MM,
    back_on_the_network,
    floor,
    holds,
    opened,
    reopened_in_flight_mode,
    start,
    stored,
)
from looks import SOME_LOOKS, Look, assert_accessible, assert_no_sideways_scroll
from site_server import RunningSite
from squadwright.model.club import Club, EmergencyCard
from squadwright.model.record import EventKind, in_force
from squadwright.services.club_changes import change_club
from squadwright.services.clubs import load_club
from squadwright.services.planning import ShownSession, show_session
from squadwright.services.record import record_of
from squadwright.web.restrictions.rows import restriction_path

Opener = Callable[..., Page]
NEXT = "wednesday-plyometric"
DARK = Look("white-on-black", 360, 740)


def hold_help(page: Page) -> None:
    key = page.get_by_role("button", name="Help: hold")
    key.hover()
    page.mouse.down()
    expect(page.get_by_role("dialog", name="Emergency")).to_be_visible()
    page.mouse.up()


def tap(page: Page, words: str) -> None:
    page.get_by_role("button", name=words, exact=True).click()
    # A second touch within a quarter of a second is taken for a slip.
    page.wait_for_timeout(260)


def note_head_knock(page: Page, who: str = "Birk") -> None:
    hold_help(page)
    tap(page, "Write down what happened")
    tap(page, who)
    tap(page, "head knock")
    tap(page, f"Write it down: {who} is out")


def test_help_holds_the_clock_and_shows_the_card(site: RunningSite, open_page: Opener) -> None:
    def with_contacts(club: Club) -> Club:
        card = EmergencyCard("Rope Walk", "side door", "by the ice machine", ("Physio 0555 01-23",))
        return replace(club, emergency=card)

    change_club(site.keeper, with_contacts, today=EVENING.date())
    page = floor(site, open_page)
    start(page)
    page.get_by_role("button", name="Help: hold").click()
    expect(page.get_by_role("dialog", name="Emergency")).to_be_hidden()
    hold_help(page)
    held = stored(site, 2)[-1]
    assert held.kind is EventKind.HELD
    card = page.get_by_role("dialog", name="Emergency")
    expect(card).to_contain_text(re.compile(r"Stopped \d\d:\d\d:\d\d, 0:0\d ago"))
    for words in ("Rope Walk", "side door", "by the ice machine", "Lobsang"):
        expect(card).to_contain_text(words)
    expect(card.get_by_role("link", name="Call: Physio 0555 01-23")).to_have_attribute(
        "href", "tel:05550123"
    )
    expect(card).to_contain_text(re.compile(r"0:0[2-9] ago"))
    tap(page, "Back to the floor")
    expect(page.locator("[data-part=title]")).to_have_text("Held: bars down")


def test_the_card_and_the_note_can_be_read_and_reached(
    site: RunningSite, open_page: Opener
) -> None:
    for look in (PHONE, DARK, TABLET, SCREEN):
        page = floor(site, open_page, look)
        hold_help(page)
        assert_accessible(page)
        assert_no_sideways_scroll(page)
        tap(page, "Write down what happened")
        assert_accessible(page)
        assert_no_sideways_scroll(page)
        for found in page.get_by_role("dialog", name="What happened").get_by_role("button").all():
            size = found.bounding_box()
            assert size is not None
            assert size["height"] >= TARGET_MM * PIXELS_PER_MM[look.width] - 1


def test_a_head_knock_takes_him_out_and_no_tap_brings_him_back(
    site: RunningSite, open_page: Opener
) -> None:
    page = floor(site, open_page)
    start(page)
    note_head_knock(page)
    expect(page.locator("[data-part=help-said]")).to_contain_text(
        "Birk is out until a written clearance is entered in the register. Undo does not"
    )
    record = stored(site, 4)
    out = next(e for e in record if e.kind is EventKind.OUT)
    note = next(e for e in record if e.kind is EventKind.INCIDENT)
    assert (out.athlete, note.athlete, out.words) == ("A04", "A04", "")
    assert re.fullmatch(r"Head knock\. Stopped \d\d:\d\d:\d\d\.", note.words)
    tap(page, "Back to the floor")
    tile = page.locator(".tile", has_text="Birk")
    expect(tile).to_contain_text("out: head")
    tile.click()
    page.wait_for_timeout(260)
    expect(page.get_by_role("dialog", name="Out until cleared")).to_contain_text(
        "No tap here ends that"
    )
    assert_accessible(page)
    tap(page, "Close")
    # Undo takes the note back, then the hold, then nothing more; he stays out all the time.
    for count in (5, 6):
        tap(page, "Undo")
        stored(site, count)
    expect(tile).to_contain_text("out: head")
    left = [e.kind for e in in_force(record_of(site.keeper, SESSION))]
    assert left == [EventKind.STARTED, EventKind.OUT]
    page.reload()
    expect(opened(page).locator(".tile", has_text="Birk")).to_contain_text("out: head")


def test_other_devices_and_the_wall_are_told_nothing_but_that_he_is_out(
    site: RunningSite, open_page: Opener
) -> None:
    page = floor(site, open_page)
    start(page)
    other = floor(site, open_page, TABLET)
    wall = opened(open_page(f"{site.url}/live/{SESSION}/wall", look=SCREEN))
    note_head_knock(page)
    stored(site, 4)
    expect(other.locator(".tile", has_text="Birk")).to_contain_text("out", timeout=15000)
    for device in (other, wall):
        holds(device, KNOWS_OUT)
        assert device.evaluate(KNOWN_KINDS).count("incident") == 0
        assert "head" not in device.locator("main").inner_text()
    expect(other.locator(".tile-load", has_text="out")).to_have_text("out")


KNOWN_KINDS = """() => new Promise(give => {
  const asked = indexedDB.open('squadwright-record');
  asked.onsuccess = () => {
    const all = asked.result.transaction('events').objectStore('events').getAll();
    all.onsuccess = () => { asked.result.close(); give(all.result.map(e => e.kind)); };
  };
})"""
KNOWS_OUT = f"({KNOWN_KINDS})().then(kinds => kinds.includes('out until cleared'))"


def test_bad_day_12_to_the_plan_of_the_next_session(site: RunningSite, open_page: Opener) -> None:
    page = floor(site, open_page)
    start(page)
    note_head_knock(page)
    stored(site, 4)
    assert "A04" not in planned(site)
    # At the door of the next session "here" does not put him in.
    page.goto(f"{site.url}/today/{NEXT}/check-in")
    page.get_by_role("button", name="Here Birk Aldervoll").click()
    assert "A04" not in planned(site)
    page.goto(f"{site.url}/today/{NEXT}")
    expect(page.locator("main")).to_contain_text("no training (Coach, until cleared in writing)")
    page.goto(f"{site.url}/squad/athlete/A04/restrictions")
    expect(page.locator("main")).to_contain_text("head knock")
    athlete = load_club(site.keeper).athlete("A04")
    made = next(r for r in athlete.restrictions if r.reason == "head knock")
    page.goto(f"{site.url}{restriction_path('A04', made.id)}")
    expect(page.get_by_role("button", name="It is over")).to_have_count(0)
    page.get_by_label("Who gave it").fill("Club doctor")
    page.get_by_label("Licence").fill("12345, state register")
    page.get_by_role("button", name="Take the clearance in").click()
    expect(page.locator(".changed")).to_be_visible()
    assert "A04" in planned(site)
    page.goto(f"{site.url}/live/{SESSION}")
    expect(opened(page).locator(".tile", has_text="Birk")).not_to_contain_text("out")


def planned(site: RunningSite) -> set[str]:
    shown = show_session(site.keeper, NEXT, today=EVENING.date())
    assert isinstance(shown, ShownSession)
    assert shown.plan is not None
    return {dose.athlete for dose in shown.plan.doses}


def test_in_flight_mode_he_is_out_and_the_card_is_there(
    site: RunningSite, open_page: Opener
) -> None:
    page = floor(site, open_page)
    start(page)
    stored(site, 1)
    page = reopened_in_flight_mode(page, site)
    note_head_knock(page)
    page.reload()
    expect(opened(page).locator(".tile", has_text="Birk")).to_contain_text("out: head")
    hold_help(page)
    expect(page.get_by_role("dialog", name="Emergency")).to_contain_text("by the ice machine")
    assert len(record_of(site.keeper, SESSION)) == 1
    back_on_the_network(page, site)
    stored(site, 4)
    assert "A04" not in planned(site)


def test_what_was_noted_stands_on_the_coach_s_site(site: RunningSite, open_page: Opener) -> None:
    page = floor(site, open_page)
    start(page)
    hold_help(page)
    for words in ("Write down what happened", "fall", "Birk", "knee", "cold pack", "head coach"):
        tap(page, words)
    page.get_by_label("In your words").fill("Slipped on  chalk.")
    tap(page, "Write it down")
    stored(site, 3)
    for look in SOME_LOOKS:
        page = open_page(f"{site.url}/incidents", look=look)
        expect(page.locator("tbody tr")).to_contain_text(
            re.compile(
                r"Birk Aldervoll\s*Fall\. Stopped \d\d:\d\d:\d\d\. Body area: knee\. "
                r"Done: cold pack\. Called: head coach\. Slipped on chalk\."
            )
        )
        for path in ("/incidents", "/incidents/card"):
            page.goto(f"{site.url}{path}")
            assert_accessible(page)
            assert_no_sideways_scroll(page)
