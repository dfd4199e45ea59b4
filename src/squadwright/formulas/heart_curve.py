"""A recording of the heart second by second: mean, minutes by zone, and how fast it comes down.

Each second takes the reading that stands for it, or none where a reading was lost: a gap is no low
heart rate. These rules are ours; they are stated with each result.
"""

import math
from bisect import bisect_right
from collections.abc import Sequence
from dataclasses import dataclass

from squadwright.errors import OutsidePublishedRange
from squadwright.formulas.heart_rate import MAXIMUM
from squadwright.formulas.heart_rate_variability import is_normal_interval
from squadwright.formulas.published import PROGRAM_LIMIT

LONGEST_HOLD_S = 10.0
"""A heart rate stands for the time up to the next reading, but never longer than this."""
RECOVERY_S = 60


@dataclass(frozen=True)
class ThreeZones:
    """Minutes below the first threshold, from it to the second, from the second on; and unknown."""

    zones_min: tuple[float, float, float]
    unknown_min: float


@dataclass(frozen=True)
class Recovery:
    """Heart rate at the end of the work and one minute later [beats/min], and when it ended [s]."""

    end_s: int
    end_bpm: float
    after_bpm: float


def rates_by_second(rates_bpm: Sequence[float], seconds: Sequence[float]) -> list[float | None]:
    """Heart rate of each second from readings at moments [s]; None where none stands for it."""
    if not seconds:
        return []
    first = seconds[0]
    found: list[float | None] = []
    for second in range(math.ceil(seconds[-1] - first) + 1):
        at = first + second
        place = bisect_right(seconds, at) - 1
        is_held = place >= 0 and at - seconds[place] <= LONGEST_HOLD_S
        found.append(rates_bpm[place] if is_held else None)
    return found


def rates_from_intervals(
    intervals_ms: Sequence[float], ends_s: Sequence[float]
) -> list[float | None]:
    """Heart rate of each second as 60000 over the interval it lies in; None in an artefact."""
    if not ends_s:
        return []
    first = ends_s[0] - intervals_ms[0] / 1000
    found: list[float | None] = []
    place = 0
    for second in range(max(1, math.floor(ends_s[-1] - first))):
        at = first + second + 0.5
        while place < len(ends_s) - 1 and ends_s[place] < at:
            place += 1
        is_inside = ends_s[place] - intervals_ms[place] / 1000 <= at <= ends_s[place]
        is_known = is_inside and is_normal_interval(intervals_ms, place)
        found.append(60_000 / intervals_ms[place] if is_known else None)
    return found


def mean_rate(by_second: Sequence[float | None]) -> float | None:
    """Mean of the seconds that are known [beats/min]."""
    known = [rate for rate in by_second if rate is not None]
    return math.fsum(known) / len(known) if known else None


def minutes_by_thresholds(
    by_second: Sequence[float | None], *, first_bpm: float, second_bpm: float
) -> ThreeZones:
    """Minutes below, between and above two thresholds [beats/min]; a threshold opens its zone."""
    MAXIMUM.check("second_bpm", second_bpm, lambda: PROGRAM_LIMIT)
    if not 60 <= first_bpm < second_bpm:
        raise OutsidePublishedRange(
            "first_bpm", first_bpm, 60, second_bpm, "below the second", is_high_open=True
        )
    known = [rate for rate in by_second if rate is not None]
    below = sum(rate < first_bpm for rate in known)
    above = sum(rate >= second_bpm for rate in known)
    between = len(known) - below - above
    return ThreeZones((below / 60, between / 60, above / 60), (len(by_second) - len(known)) / 60)


def recovery_after(by_second: Sequence[float | None], end_s: int | None = None) -> Recovery | None:
    """The first minute after the work; without ``end_s`` [s] after the last highest second.

    None where either second is unknown, or the recording ends before the minute does.
    """
    if end_s is None:
        tried = [(r, s) for s, r in enumerate(by_second[:-RECOVERY_S]) if r is not None]
        if not tried:
            return None
        end_s = max(tried)[1]
    if not 0 <= end_s < len(by_second) - RECOVERY_S:
        return None
    end, after = by_second[end_s], by_second[end_s + RECOVERY_S]
    return None if end is None or after is None else Recovery(end_s, end, after)
