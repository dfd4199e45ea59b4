"""What was worked out lately, kept in mind while what it was made from stays the same."""

from collections import OrderedDict
from dataclasses import dataclass
from threading import Lock
from typing import Generic, TypeVar

Key = TypeVar("Key", bound=tuple[str, ...])
From = TypeVar("From")
Value = TypeVar("Value")


@dataclass(frozen=True)
class _Made(Generic[From, Value]):
    made_from: From
    value: Value


class InMind(Generic[Key, From, Value]):
    """Values by a short key and by what each was made from; the longest unused key goes first.

    What they were made from is compared, not hashed: what was not written since is the same
    object, and a hash of five years of records takes longer than a page may.
    """

    def __init__(self, *, most_keys: int, most_of_a_key: int) -> None:
        self._most_keys = most_keys
        self._most_of_a_key = most_of_a_key
        # The newest of a key stands last.
        self._held: OrderedDict[Key, tuple[_Made[From, Value], ...]] = OrderedDict()
        self._lock = Lock()

    def find(self, key: Key, made_from: From) -> Value | None:
        """The value that was made from the same, or None."""
        with self._lock:
            held = self._held.get(key, ())
            if held:
                self._held.move_to_end(key)
        return next((made.value for made in reversed(held) if made.made_from == made_from), None)

    def keep(self, key: Key, made_from: From, value: Value) -> None:
        """Keep a value as the newest, in the place of one that was made from the same."""
        with self._lock:
            others = tuple(m for m in self._held.get(key, ()) if m.made_from != made_from)
            self._held[key] = (*others, _Made(made_from, value))[-self._most_of_a_key :]
            self._held.move_to_end(key)
            while len(self._held) > self._most_keys:
                self._held.popitem(last=False)
