"""One thing said of a routine, with why, and what mends it."""

from dataclasses import dataclass
from hashlib import sha256

from squadwright.model.plan import Severity
from squadwright.model.routine import Step


@dataclass(frozen=True)
class RoutineFix:
    """One way to mend a block: its steps after it."""

    words: str
    block: int
    steps: tuple[Step, ...]

    @property
    def key(self) -> str:
        """A short name, the same for the same fix of the same steps."""
        return sha256(f"{self.block} {self.words} {self.steps!r}".encode()).hexdigest()[:12]


@dataclass(frozen=True)
class RoutineFinding:
    """A sentence; ``why`` are the lines behind it, its source the last of them."""

    rule: str
    severity: Severity
    sentence: str
    why: tuple[str, ...]
    advice: str = ""
    fixes: tuple[RoutineFix, ...] = ()


def minutes_text(seconds: float) -> str:
    """Seconds as minutes and seconds: "16:40"."""
    minutes, rest = divmod(round(seconds), 60)
    return f"{minutes}:{rest:02d}"
