"""Amounts that are not known exactly: each a mark and the range it lies in, on one scale."""

from collections.abc import Iterable
from dataclasses import dataclass

MOST_TICKS = 5
STEPS = (1, 2, 5)
HEADROOM = 1.04


@dataclass(frozen=True)
class Interval:
    """One amount: its middle, its range, and whether it was measured or guessed."""

    label: str
    middle: float
    low: float
    high: float
    is_measured: bool


@dataclass(frozen=True)
class DrawnInterval:
    """An interval with its places on the scale, in per cent of the width; ``place`` from 0."""

    place: int
    interval: Interval
    low_percent: float
    width_percent: float
    middle_percent: float


@dataclass(frozen=True)
class ScaleTick:
    """A number written under the scale."""

    value: int
    x_percent: float


@dataclass(frozen=True)
class IntervalPicture:
    """Intervals one above the other, from zero to the same end."""

    rows: tuple[DrawnInterval, ...]
    ticks: tuple[ScaleTick, ...]


def draw_intervals(intervals: Iterable[Interval]) -> IntervalPicture:
    """Lay out intervals on a scale that begins at zero, so that lengths may be compared."""
    shown = tuple(intervals)
    end = HEADROOM * max((each.high for each in shown), default=1.0)
    step = _step(end)
    ticks = tuple(ScaleTick(at, _percent(at, end)) for at in range(0, int(end) + 1, step))
    return IntervalPicture(
        tuple(_drawn(place, each, end) for place, each in enumerate(shown)), ticks
    )


def _drawn(place: int, interval: Interval, end: float) -> DrawnInterval:
    return DrawnInterval(
        place,
        interval,
        _percent(interval.low, end),
        _percent(interval.high - interval.low, end),
        _percent(interval.middle, end),
    )


def _step(end: float) -> int:
    """The least of 1, 2, 5, 10, 20 ... that leaves no more numbers than fit on a phone."""
    size = 1
    while True:
        for step in STEPS:
            if end / (step * size) <= MOST_TICKS:
                return step * size
        size *= 10


def _percent(value: float, end: float) -> float:
    return round(100 * value / end, 2)
