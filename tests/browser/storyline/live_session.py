"""A session lived on the live floor by a fast clock, and closed at the door."""

import re
from datetime import UTC, datetime, time, timedelta

from playwright.sync_api import expect

from browser.storyline.coach import Coach

SLIP_MS = 300
BETWEEN_MS = 100
MOST_SENDINGS = 60
STORED = "Everything noted is stored"


def begin(coach: Coach, at: time) -> datetime:
    """From the page of the session onto the floor; gives the moment of the first tap."""
    page = coach.page
    coach.link("Live floor")
    page.wait_for_selector("[data-ready=yes]")
    started = datetime.combine(coach.day(), at, tzinfo=UTC)
    page.clock.pause_at(started)
    coach.button("Start from the beginning")
    expect(page.locator("#floor")).to_have_attribute("data-phase", "on")
    settle(coach)
    return started


def settle(coach: Coach) -> None:
    """Let a touch be over, and what was noted be sent: what is sent again waits for the clock."""
    line = coach.page.locator("[data-part=line]")
    for _ in range(MOST_SENDINGS):
        coach.page.clock.run_for(SLIP_MS)
        coach.page.wait_for_timeout(BETWEEN_MS)
        if line.inner_text() == STORED:
            return
    expect(line).to_have_text(STORED)


def go_to(coach: Coach, began: datetime, minutes: float) -> str:
    """Let the clock run to a minute of the session; gives what stands at the head of the floor."""
    page = coach.page
    page.clock.pause_at(began + timedelta(minutes=minutes))
    page.clock.run_for(1000)
    return page.locator("[data-part=round]").inner_text()


def to_work_of(coach: Coach, began: datetime, name: str, *, after: float) -> float:
    """Let the clock run until somebody works; gives the minute."""
    minutes = after
    for _ in range(60):
        go_to(coach, began, minutes)
        tile = coach.page.locator(".tile", has_text=name)
        if "Work" in coach.page.locator("[data-part=title]").inner_text() and tile.count():
            return minutes
        minutes += 0.5
    raise AssertionError(f"{name} never came to work")


def note(coach: Coach, name: str, what: str) -> None:
    """Two taps: who, and what."""
    coach.tap(coach.page.locator(".tile", has_text=name))
    coach.page.clock.run_for(SLIP_MS)
    coach.button(what, within=coach.page.get_by_role("dialog", name="Note about an athlete"))
    settle(coach)


def end(coach: Coach) -> None:
    """The key that is held for a second."""
    page = coach.page
    page.clock.resume()
    key = page.get_by_role("button", name="End: hold")
    key.hover()
    page.mouse.down()
    expect(page.locator("#floor")).to_have_attribute("data-phase", "ended")
    page.mouse.up()
    coach.count_tap()
    expect(page.locator("[data-part=line]")).to_have_text("Everything noted is stored")


def ask_everybody(coach: Coach, efforts: dict[str, int], usual: int) -> int:
    """Effort at the door, two taps each; gives how many were asked."""
    page = coach.page
    coach.link("What was done")
    coach.link("Effort at the door")
    names = page.locator(".asked-name").all_inner_texts()
    for name in names:
        person = page.locator(".asked", has_text=name)
        coach.tap(person.locator("summary"))
        number = next((e for start, e in efforts.items() if name.startswith(start)), usual)
        coach.tap(person.get_by_role("button", name=re.compile(f"^{number}( |$)")).first)
        coach.told(f"{name}: effort {number}.")
    return len(names)
