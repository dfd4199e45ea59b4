"""A camp looked back on: what the last week took off, and how it stands beside earlier camps."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from itertools import pairwise
from statistics import fmean

from squadwright.model.athlete import Event

TAPER_DAYS = 7
BEFORE_DAYS = 21
LAST_WEEKS_DAYS = 28
LONGEST_CAMP_DAYS = 84
KNOWN_FRACTION = 0.8
"""Days of load that must be known before a taper is said of it, a default of ours."""
FEWEST_CAMPS = 3
"""Below so many earlier camps nothing is said of how this one differs, a default of ours."""
WANTED_LOW, WANTED_HIGH = 0.41, 0.60
"""The cut of volume with the largest gain, Bosquet 2007 (Med Sci Sports Exerc 39:1358), read."""


@dataclass(frozen=True)
class Camp:
    """The days that led to an event, the day of the event not among them."""

    event: Event
    first: date
    last: date


def camps(events: Sequence[Event]) -> tuple[Camp, ...]:
    """The camps of an athlete in order: each begins after the event before, 12 weeks at most."""
    in_order = sorted(events, key=lambda e: (e.starts_on, e.id))
    if not in_order:
        return ()
    found = [_camp(in_order[0], None)]
    found += [_camp(event, former.starts_on) for former, event in pairwise(in_order)]
    return tuple(found)


def _camp(event: Event, former: date | None) -> Camp:
    last = event.starts_on - timedelta(days=1)
    first = event.starts_on - timedelta(days=LONGEST_CAMP_DAYS)
    if former is not None and former < event.starts_on:
        first = max(first, former + timedelta(days=1))
    return Camp(event, min(first, last), last)


@dataclass(frozen=True)
class Taper:
    """How much the last week took off against the three before it; ``cut`` None: not known.

    ``known_days`` of ``days`` have a load that was told.
    """

    cut: float | None
    known_days: int
    days: int = TAPER_DAYS + BEFORE_DAYS

    @property
    def lies(self) -> str:
        """Where the cut lies: "within", "less than", "more than" what was wanted; "" unknown."""
        if self.cut is None:
            return ""
        if self.cut < WANTED_LOW:
            return "less than"
        return "more than" if self.cut > WANTED_HIGH else "within"


def taper_of(loads: Mapping[date, float | None], event_day: date) -> Taper:
    """The taper from the load of each day [AU]; a day that is not known is no day of rest.

    The mean day of the last 7 is compared with the mean day of the 21 before them, known days
    only. Nothing is said where fewer than 80 % of either are known, or the 21 hold no load.
    """
    last = _known(loads, event_day, 1, TAPER_DAYS)
    before = _known(loads, event_day, TAPER_DAYS + 1, TAPER_DAYS + BEFORE_DAYS)
    known = len(last) + len(before)
    is_enough = (
        len(last) >= KNOWN_FRACTION * TAPER_DAYS and len(before) >= KNOWN_FRACTION * BEFORE_DAYS
    )
    if not is_enough or fmean(before) <= 0:
        return Taper(None, known)
    return Taper(1 - fmean(last) / fmean(before), known)


def _known(
    loads: Mapping[date, float | None], event_day: date, nearest: int, farthest: int
) -> list[float]:
    days = (event_day - timedelta(days=n) for n in range(nearest, farthest + 1))
    return [load for day in days if (load := loads.get(day)) is not None]


@dataclass(frozen=True)
class CampFigures:
    """What one camp comes to; shares are None where nothing was recorded.

    ``bouts`` were noted at the mats on the day of the event, None where nothing was.
    """

    camp: Camp
    came: tuple[int, int]
    came_last_weeks: tuple[int, int]
    rounds: tuple[int, int]
    taper: Taper
    planned_load: float | None
    told_load: float
    bouts: int | None = None

    @property
    def is_recorded(self) -> bool:
        """Whether enough is known to stand beside another camp."""
        return self.came[1] > 0


def share(done: tuple[int, int]) -> float | None:
    """A share of what was planned, None of nothing."""
    return done[0] / done[1] if done[1] else None


def place_among(value: float | None, earlier: Sequence[float | None]) -> str:
    """Where a figure lies among those of earlier camps: "too few to tell" below three of them."""
    known = [each for each in earlier if each is not None]
    if value is None:
        return "not known of this camp"
    if len(known) < FEWEST_CAMPS:
        return f"too few to tell ({len(known)} earlier)"
    if value > max(known):
        return f"the highest of {len(known) + 1} camps"
    if value < min(known):
        return f"the lowest of {len(known) + 1} camps"
    return f"between those of {len(known)} earlier camps"
