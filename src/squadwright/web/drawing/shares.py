"""Shares from 0 to 100 %: each where it was said to be, where it came, and what bounds it has."""

from collections.abc import Iterable
from dataclasses import dataclass

TICKS = (0, 25, 50, 75, 100)


@dataclass(frozen=True)
class Share:
    """A share said beforehand and the one that came, with bounds of it; all 0 to 1."""

    label: str
    words: str
    said: float
    came: float
    low: float
    high: float


@dataclass(frozen=True)
class DrawnShare:
    """A share with its places on the scale, in per cent of the width."""

    share: Share
    said_percent: float
    came_percent: float
    low_percent: float
    width_percent: float

    @property
    def in_words(self) -> str:
        """What the picture shows, for whoever does not see it."""
        low, high = self.low_percent, self.low_percent + self.width_percent
        return (
            f"{self.share.label}: said {self.said_percent:.0f} %, came {self.came_percent:.0f} %, "
            f"in the long run between {low:.0f} and {high:.0f} %"
        )


def draw_shares(shares: Iterable[Share]) -> tuple[DrawnShare, ...]:
    """Lay out shares on one scale from nothing to all."""
    return tuple(
        DrawnShare(
            each,
            _percent(each.said),
            _percent(each.came),
            _percent(each.low),
            _percent(each.high - each.low),
        )
        for each in shares
    )


def _percent(share: float) -> float:
    return round(100 * share, 2)
