"""What is shown over days: marks, a line with its band, bars, and limits with their names."""

from dataclasses import dataclass
from datetime import date

from squadwright.errors import InvalidInput

MOST_DAYS = 3660


@dataclass(frozen=True)
class At:
    """A value on a day."""

    day: date
    value: float


@dataclass(frozen=True)
class Band:
    """A range on a day, in which a value is said to lie."""

    day: date
    low: float
    high: float


@dataclass(frozen=True)
class LimitLine:
    """A level with its name, which stands on the line."""

    name: str
    value: float


@dataclass(frozen=True)
class TimeChart:
    """A chart over days in one unit. ``hollow`` marks are told apart by shape: planned or doubtful.

    Bars start at 0, and so does the scale with ``begins_at_nothing``; else it fits what is shown.
    Nothing is drawn for a day of which nothing is known.
    """

    unit: str
    marks: tuple[At, ...] = ()
    hollow: tuple[At, ...] = ()
    line: tuple[At, ...] = ()
    band: tuple[Band, ...] = ()
    bars: tuple[At, ...] = ()
    limits: tuple[LimitLine, ...] = ()
    last_day: date | None = None
    begins_at_nothing: bool = False

    def __post_init__(self) -> None:
        days = self.days
        if days and (max(days) - min(days)).days > MOST_DAYS:
            raise InvalidInput(
                "days",
                f"{(max(days) - min(days)).days} days are too many for one chart",
                f"Choose at most {MOST_DAYS} days",
            )

    @property
    def days(self) -> tuple[date, ...]:
        """Every day something stands on."""
        at = (*self.marks, *self.hollow, *self.line, *self.bars)
        return (*(each.day for each in at), *(each.day for each in self.band))

    @property
    def is_empty(self) -> bool:
        """Whether there is nothing to draw."""
        return not self.days
