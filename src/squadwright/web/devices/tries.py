"""How often one address may type a wrong code."""

import time
from collections import defaultdict
from collections.abc import Callable
from threading import Lock

MOST_WRONG = 5
WITHIN_S = 300.0
MOST_ADDRESSES = 1000


class JoinTries:
    """Wrong codes by address, forgotten after five minutes."""

    def __init__(self, clock: Callable[[], float] = time.monotonic) -> None:
        self._clock = clock
        self._wrong: dict[str, list[float]] = defaultdict(list)
        self._lock = Lock()

    def are_over(self, address: str) -> bool:
        """Whether an address has to wait before it may try again."""
        with self._lock:
            return len(self._recent(address)) >= MOST_WRONG

    def note_wrong(self, address: str) -> None:
        """Count a wrong code."""
        with self._lock:
            if len(self._wrong) >= MOST_ADDRESSES:
                for other in list(self._wrong):
                    self._recent(other)
            self._wrong[address] = [*self._recent(address), self._clock()]

    def _recent(self, address: str) -> list[float]:
        recent = [at for at in self._wrong.get(address, ()) if self._clock() - at < WITHIN_S]
        if recent:
            self._wrong[address] = recent
        else:
            self._wrong.pop(address, None)
        return recent
