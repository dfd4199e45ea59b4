"""A hand that is not quick, at a page: it presses keys and taps, and counts them.

The keystroke-level model of Card, Moran and Newell (1980, Communications of the ACM 23(7)) gives
0.28 s for a key of an average typist and 1.1 s to point (from memory, not confirmed); this hand
takes half as long again.
"""

from dataclasses import dataclass

from playwright.sync_api import Locator, Page

SLOW_KEY_S, SLOW_TAP_S = 0.5, 1.5


@dataclass
class Hand:
    """Presses keys and taps, and counts them."""

    page: Page
    keys: int = 0
    taps: int = 0

    def type(self, text: str) -> None:
        """Write where the focus is."""
        self.page.keyboard.type(text)
        self.keys += len(text)

    def press(self, key: str) -> None:
        """One key of the keyboard."""
        self.page.keyboard.press(key)
        self.keys += 1

    def tap(self, what: Locator) -> None:
        """One tap on one place."""
        what.click()
        self.taps += 1

    def tap_words(self, words: str) -> None:
        """One tap on words of the page."""
        self.tap(self.page.get_by_text(words, exact=True).first)

    def write(self, field: Locator, text: str) -> None:
        """One tap into a field, then a key for each letter; what stood there is written over."""
        field.fill(text)
        self.taps += 1
        self.keys += len(text)

    def choose(self, field: Locator, label: str) -> None:
        """Two taps: open a list, and take one line of it."""
        field.select_option(label=label)
        self.taps += 2

    @property
    def actions(self) -> int:
        """Keys and taps together."""
        return self.keys + self.taps

    @property
    def slow_s(self) -> float:
        """What it takes a slow hand, without waits for the machine [s]."""
        return self.keys * SLOW_KEY_S + self.taps * SLOW_TAP_S
