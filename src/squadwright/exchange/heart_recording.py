"""A recording of the heart as read from a file, and the rules every kind of file goes by."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from itertools import accumulate, pairwise
from typing import Literal

from squadwright.errors import InvalidInput

Measure = Literal["rr_ms", "beats_per_minute"]

MOST_BYTES = 4_500_000
MOST_VALUES = 200_000
FEWEST_VALUES = 3
LONGEST_S = 172_800.0
RR_LIMITS_MS = (100.0, 20_000.0)
RATE_LIMITS_BPM = (20.0, 300.0)
MEASURES: dict[Measure, tuple[str, str, tuple[float, float]]] = {
    "rr_ms": ("RR interval", "ms", RR_LIMITS_MS),
    "beats_per_minute": ("heart rate", "beats/min", RATE_LIMITS_BPM),
}


@dataclass(frozen=True)
class HeartRecording:
    """RR intervals in ms or heart rate in beats a minute, with the second of each since its start.

    ``lost`` counts readings the file has without a value: they are left out, and the gap stays.
    ``notes`` say what was read into the file where it does not say it itself.
    """

    measure: Measure
    values: tuple[float, ...]
    seconds: tuple[float, ...]
    starts_at: datetime | None = None
    lost: int = 0
    notes: tuple[str, ...] = ()


def recording_of(
    measure: Measure,
    values: Sequence[float | None],
    seconds: Sequence[float] | None,
    places: Sequence[str],
    *,
    starts_at: datetime | None = None,
    notes: Sequence[str] = (),
) -> HeartRecording:
    """A recording from the readings of a file; ``places`` say where each one stands in it.

    Without ``seconds`` RR intervals follow each other. InvalidInput for a value no heart gives,
    for time that goes back, and for too few or too many readings.
    """
    if len(values) > MOST_VALUES:
        raise refused(
            f"has {len(values)} readings, more than {MOST_VALUES}", "Export one session at a time"
        )
    name, unit, (low, high) = MEASURES[measure]
    for value, place in zip(values, places, strict=True):
        if value is not None and not low <= value <= high:
            raise InvalidInput(
                place,
                f"{value:g} {unit} is outside {low:g} to {high:g} {unit} for a {name}",
                "Check which column holds it and in which unit, or take that line out",
            )
    if seconds is None:
        seconds = _one_after_another(values)
    kept = [(v, s) for v, s in zip(values, seconds, strict=True) if v is not None]
    if len(kept) < FEWEST_VALUES:
        raise refused(
            f"has {len(kept)} readings with a value, fewer than {FEWEST_VALUES}",
            "Export the whole recording",
        )
    _require_forward(seconds, places)
    told = [*notes, *_sum_note(measure, kept)]
    return HeartRecording(
        measure,
        tuple(value for value, _ in kept),
        tuple(round(second, 3) for _, second in kept),
        starts_at,
        len(values) - len(kept),
        tuple(told),
    )


def _sum_note(measure: Measure, kept: Sequence[tuple[float, float]]) -> list[str]:
    """Intervals that do not fill their time are not every beat."""
    if measure != "rr_ms":
        return []
    held_s = sum(value for value, _ in kept[1:]) / 1000
    span_s = kept[-1][1] - kept[0][1]
    if abs(held_s - span_s) <= 0.2 * max(held_s, span_s):
        return []
    return [
        f"The intervals add up to {held_s:.0f} s and the times to {span_s:.0f} s: beats are "
        "missing, or each line is no beat. Do not trust its variability."
    ]


def _one_after_another(intervals_ms: Sequence[float | None]) -> list[float]:
    return [ms / 1000 for ms in accumulate(value or 0.0 for value in intervals_ms)]


def _require_forward(seconds: Sequence[float], places: Sequence[str]) -> None:
    for number, (before, after) in enumerate(pairwise(seconds), start=1):
        if not after >= before:
            raise InvalidInput(
                places[number],
                f"the time goes back from {before:.10g} s to {after:.10g} s",
                "Export again in the order of time",
            )
    if not math.isfinite(seconds[-1]) or seconds[-1] - seconds[0] > LONGEST_S:
        raise refused(
            f"runs from {seconds[0]:.10g} s to {seconds[-1]:.10g} s, longer than {LONGEST_S:g} s",
            "Check the unit of the time, and export one session at a time",
        )


def refused(problem: str, advice: str) -> InvalidInput:
    """What is wrong with the file as a whole."""
    return InvalidInput("The file", problem, advice)
