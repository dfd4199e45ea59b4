"""The coach of the storyline: one phone, one day after another, every tap counted by its task."""

import re
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from datetime import UTC, date, datetime, time, timedelta
from pathlib import Path

from playwright.sync_api import Locator, Page, expect

from browser.hand import Hand
from site_server import MONDAY, RunningSite

# A second touch of the live floor within a quarter of a second is taken for a slip.
APART_MS = 260
# A day is planned and solved several times over, on a machine that may be busy.
PATIENCE_MS = 60_000
NAVIGATION = """position => document.querySelectorAll(".navigation")
  .forEach(e => { e.style.position = position; })"""


@dataclass
class Day:
    """What day the site believes it is."""

    offset: int

    def __call__(self) -> date:
        """The day."""
        return MONDAY + timedelta(days=self.offset)


@dataclass(frozen=True)
class Task:
    """What the coach did for one thing on one day; ``in_session`` with the athletes before him."""

    day: int
    what: str
    keys: int
    taps: int
    slow_s: float
    in_session: bool


@dataclass
class Coach:
    """Taps and writes on one phone, and keeps a list of what each thing took."""

    site: RunningSite
    page: Page
    day: Day
    pictures: Path | None = None
    tasks: list[Task] = field(default_factory=list)
    _hand: Hand = field(init=False)

    def __post_init__(self) -> None:
        self.page.set_default_timeout(PATIENCE_MS)
        self._hand = Hand(self.page)

    def wakes_on(self, offset: int, at: time = time(9, 0)) -> None:
        """A later day: the site and the phone agree on it, and the phone shows the first page."""
        self.day.offset = offset
        self.clock_to(at)
        self.page.goto(self.site.url)

    def clock_to(self, at: time) -> None:
        """The clock of the phone at a time of this day, going on from there."""
        self.page.clock.pause_at(datetime.combine(self.day(), at, tzinfo=UTC))
        self.page.clock.resume()

    @contextmanager
    def task(self, what: str, *, in_session: bool = False) -> Iterator[None]:
        """Count what follows under one name, and keep the last screen as a picture."""
        self._hand = Hand(self.page)
        yield
        hand = self._hand
        done = Task(self.day.offset, what, hand.keys, hand.taps, hand.slow_s, in_session)
        self.tasks.append(done)
        self.keep_picture(what)

    def keep_picture(self, what: str) -> None:
        """The whole page as it stands, if pictures are kept."""
        if self.pictures is not None:
            words = re.sub("[^a-z0-9]+", "-", what.lower()).strip("-")
            name = f"D{self.day.offset:+03d}-{len(self.tasks):02d}-{words}"
            # What is fixed to the edge of the screen would lie across the middle of a whole page.
            self.page.evaluate(NAVIGATION, "static")
            self.page.screenshot(path=self.pictures / f"{name}.png", full_page=True)
            self.page.evaluate(NAVIGATION, "")

    def link(self, words: str, *, exact: bool = False) -> None:
        """Tap a link."""
        self._hand.tap(self.page.get_by_role("link", name=words, exact=exact).first)

    def button(self, words: str, *, exact: bool = False, within: Locator | None = None) -> None:
        """Tap a button."""
        place = within if within is not None else self.page
        self._hand.tap(place.get_by_role("button", name=words, exact=exact).first)

    def tap(self, what: Locator) -> None:
        """Tap anything else."""
        self._hand.tap(what)

    def words(self, words: str) -> None:
        """Tap words, as of a choice."""
        self._hand.tap_words(words)

    def write(self, label: str, text: str) -> None:
        """Write into the field with a label."""
        self._hand.write(self.page.get_by_label(label).first, text)

    def write_into(self, where: Locator, text: str) -> None:
        """Write into a field without a label of its own."""
        self._hand.write(where, text)

    def choose(self, label: str, option: str) -> None:
        """Choose from a list."""
        self._hand.choose(self.page.get_by_label(label).first, option)

    def date(self, label: str, offset: int) -> None:
        """A day written with its eight digits."""
        day = MONDAY + timedelta(days=offset)
        self.page.get_by_label(label).first.fill(day.isoformat())
        self._hand.taps += 1
        self._hand.keys += 8

    def ahead(self, name: str, bouts: int) -> None:
        """At the mats: how many bouts are ahead of somebody."""
        card = self.page.locator(".mat-card", has_text=name)
        self._hand.tap(card.get_by_role("radio", name=str(bouts), exact=True))

    def count_tap(self) -> None:
        """A tap that was done another way, as by holding a key."""
        self._hand.taps += 1

    def told(self, words: str) -> None:
        """The line that says what was changed."""
        self.sees(words, ".changed")

    def sees(self, words: str | re.Pattern[str], where: str = "main") -> None:
        """Words somewhere on the page."""
        expect(self.page.locator(where).first).to_contain_text(words, timeout=PATIENCE_MS)

    def total(self, offset: int, *, in_session: bool) -> tuple[int, float]:
        """Actions and seconds of a day."""
        of_day = [t for t in self.tasks if t.day == offset and t.in_session == in_session]
        return sum(t.keys + t.taps for t in of_day), sum(t.slow_s for t in of_day)
