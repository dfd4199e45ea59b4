"""A person at a page: what he presses and writes is done and counted, and gives his seconds.

Keystroke-level model: Card, Moran and Newell 1980, Communications of the ACM 23(7), 396-410: a
keystroke of an average typist 0.28 s, pointing 1.1 s, a press of the button 0.1 s, a mental
preparation 1.2 s (from memory, not confirmed; the paper's own mental operator may be 1.35 s).
"""

from dataclasses import dataclass

from playwright.sync_api import Locator

KEYSTROKE_S, POINTING_S, PRESS_S, THOUGHT_S = 0.28, 1.1, 0.1, 1.2


@dataclass
class Person:
    """Counts of what he did; each press is a thought, a pointing and a press of the button."""

    keystrokes: int = 0
    pointings: int = 0
    presses: int = 0
    thoughts: int = 0

    @property
    def actions(self) -> int:
        """Presses and keystrokes together."""
        return self.presses + self.keystrokes

    @property
    def seconds(self) -> float:
        """What it takes him, without the waits for the machine [s]."""
        return (
            KEYSTROKE_S * self.keystrokes
            + POINTING_S * self.pointings
            + PRESS_S * self.presses
            + THOUGHT_S * self.thoughts
        )

    def press(self, place: Locator) -> None:
        """Think, point, press."""
        self._reach()
        place.click()

    def write(self, place: Locator, text: str, *, thoughts: int = 1) -> None:
        """Go to a field and write; ``thoughts`` is how many things he has to bring to mind."""
        self._reach()
        self.thoughts += thoughts - 1
        self.keystrokes += len(text)
        place.fill(text)

    def _reach(self) -> None:
        self.thoughts += 1
        self.pointings += 1
        self.presses += 1
