"""Three minutes of a session in real time: the screen against the time of day, read by itself."""

import time
from collections.abc import Callable

import pytest
from playwright.sync_api import Page

from browser.live_floor import PHONE, SESSION, opened, start, stored
from site_server import RunningSite
from squadwright.planning.live.clock import clock_of
from squadwright.services.running import running

Opener = Callable[..., Page]
MINUTES = 3
# Asked for: at most 50 ms between the clock and the time of day at any event.
MOST_MS = 50
WATCH = """() => {
  window.seen = [];
  const words = document.querySelector("[data-part=time-words]");
  new MutationObserver(() => window.seen.push([Date.now(), words.textContent]))
    .observe(words, {childList: true, characterData: true, subtree: true});
}"""


@pytest.mark.soak
def test_three_minutes_in_real_time_stay_within_fifty_milliseconds(
    site: RunningSite, open_page: Opener
) -> None:
    page = opened(open_page(f"{site.url}/live/{SESSION}", look=PHONE))
    page.evaluate(WATCH)
    start(page)
    record = stored(site, 1)
    time.sleep(MINUTES * 60)
    plan = running(site.keeper, SESSION, today=record[0].at.date()).plan
    clock = clock_of(record)
    assert clock.since is not None
    begun_ms = clock.since.timestamp() * 1000
    ends = sorted({line.end_s for line in plan.run_sheet})
    late = []
    before = ""
    for seen_ms, words in page.evaluate("window.seen"):
        if words == before or seen_ms < begun_ms:
            continue
        before = words
        place_s = clock.place_s + (seen_ms - begun_ms) / 1000
        end_s = next(end for end in ends if end > place_s + 0.002)
        minutes, seconds = words.removesuffix(" left").split(":")
        shown_s = int(minutes) * 60 + int(seconds)
        # The second on the screen changes when exactly so many seconds are left.
        late.append((shown_s - (end_s - place_s)) * 1000)
    print(f"{len(late)} seconds shown, the latest {max(late):.1f} ms after its time")
    assert len(late) >= MINUTES * 60 - 2
    assert min(late) >= -2
    assert max(late) <= MOST_MS
