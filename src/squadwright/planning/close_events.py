"""Two competitions within 8 days: what each day is for, and how many rounds are left.

Common practice, no source, but for the cut of volume.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, timedelta
from enum import StrEnum
from itertools import pairwise

from squadwright.model.athlete import Event, Priority

CLOSE_DAYS = 8
"""Two events are close when no more days lie between them, a default of ours."""
CLEAR_DAYS = 3
"""The one touch of power lies so many days before the second event, and after the first."""
LOW_CUT, HIGH_CUT = 0.41, 0.60
CUT_SOURCE = "41 to 60 % less volume, load kept: Bosquet 2007, Med Sci Sports Exerc 39:1358, read"
SOURCE = "common practice, no source"


class Peak(StrEnum):
    """For which of two close events he is at his best."""

    FIRST = "the first"
    SECOND = "the second"
    BOTH = "both alike"

    def priorities(self) -> tuple[Priority, Priority]:
        """What the two events are then."""
        return {
            Peak.FIRST: (Priority.A, Priority.B),
            Peak.SECOND: (Priority.B, Priority.A),
            Peak.BOTH: (Priority.A, Priority.A),
        }[self]


def close_pairs(events: Iterable[Event]) -> tuple[tuple[Event, Event], ...]:
    """Events that follow each other within 8 days, in order; two on one day are one."""
    in_order = sorted(events, key=lambda e: (e.starts_on, e.id))
    return tuple(
        (first, second)
        for first, second in pairwise(in_order)
        if 0 < (second.starts_on - first.starts_on).days <= CLOSE_DAYS
    )


@dataclass(frozen=True)
class Rounds:
    """Rounds that are left of those written, and the cut that makes."""

    written: int
    left: int

    @property
    def cut(self) -> float:
        """The share taken off."""
        return 1 - self.left / self.written

    @property
    def is_within(self) -> bool:
        """Whether the cut lies within 41 to 60 %; few rounds cannot always be cut so."""
        return LOW_CUT <= round(self.cut, 2) <= HIGH_CUT


def rounds_left(written: int) -> Rounds:
    """The rounds whose cut is nearest the middle of 41 to 60 %, one at least."""
    middle = (LOW_CUT + HIGH_CUT) / 2
    choices = (Rounds(written, left) for left in range(1, written + 1))
    return min(choices, key=lambda rounds: (abs(rounds.cut - middle), rounds.left))


@dataclass(frozen=True)
class DayBetween:
    """One day from the first event to the second."""

    day: date
    name: str
    words: str
    is_power: bool = False
    is_event: bool = False


def power_day(first: date, second: date) -> date | None:
    """The day of the one touch of power: three days clear of both events, the earliest, or None."""
    day = first + timedelta(days=CLEAR_DAYS)
    return day if (second - day).days >= CLEAR_DAYS else None


def days_between(first: Event, second: Event) -> tuple[DayBetween, ...]:
    """What each day from the first event to the second is for."""
    power = power_day(first.starts_on, second.starts_on)
    count = (second.starts_on - first.starts_on).days
    days = (first.starts_on + timedelta(days=n) for n in range(count + 1))
    return tuple(_day(day, first, second, power) for day in days)


def _day(day: date, first: Event, second: Event, power: date | None) -> DayBetween:
    since, left = (day - first.starts_on).days, (second.starts_on - day).days
    scales = " Second weigh-in." if day == second.weighs_on and second.mass_limit else ""
    if since == 0:
        return DayBetween(day, first.name, "The first event.", is_event=True)
    if left == 0:
        return DayBetween(day, second.name, f"The second event.{scales}", is_event=True)
    if day == power:
        return DayBetween(
            day,
            "Power",
            "One short touch of power and strength: fewer rounds at a known load, half the "
            "contacts, nothing for the first time.",
            is_power=True,
        )
    if since <= 2:
        return DayBetween(
            day, "Recover", "Walk, easy movement, sleep. No lifting, no jumps, no live rounds."
        )
    if left <= CLEAR_DAYS:
        return DayBetween(
            day, "Taper, travel", f"Light technique at the most, travel, sleep.{scales}"
        )
    return DayBetween(day, "Easy", "Technique without live rounds, effort 4 of 10 at the most.")
