"""A stretch of time as a band: one row for each group, one block for each thing it does."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Literal

Kind = Literal["work", "rest", "move", "whole"]

# Widths of the band for which words are fitted: a laptop, a phone. One sign is about 9 px wide.
WIDE_PX = 900.0
NARROW_PX = 310.0
SIGN_PX = 9.0
MARGIN_PX = 10.0
MINUTE_S = 60
MOST_TICKS = 7
TICK_STEPS_S = (60, 120, 300, 600, 900, 1800)


@dataclass(frozen=True)
class Span:
    """One thing done from ``start_s`` to ``end_s``; ``short`` stands where the words do not fit."""

    start_s: float
    end_s: float
    words: str
    short: str = ""
    kind: Kind = "work"


@dataclass(frozen=True)
class DrawnSpan:
    """A span with its place on the band, in per cent of the width."""

    span: Span
    x_percent: float
    width_percent: float
    wide_words: str
    narrow_words: str


@dataclass(frozen=True)
class Tick:
    """A time written along the band."""

    x_percent: float
    at_s: int


@dataclass(frozen=True)
class BandRow:
    """One row: who, and what they do."""

    label: str
    spans: tuple[DrawnSpan, ...]


@dataclass(frozen=True)
class TimeBand:
    """The whole band."""

    total_s: float
    rows: tuple[BandRow, ...]
    ticks: tuple[Tick, ...]


def draw_time_band(rows: Iterable[tuple[str, Sequence[Span]]], total_s: float) -> TimeBand:
    """Lay out rows of spans over a stretch of time."""
    step = next((s for s in TICK_STEPS_S if total_s / s <= MOST_TICKS), TICK_STEPS_S[-1])
    ticks = tuple(
        Tick(_percent(at, total_s), at) for at in range(0, int(total_s - step / 2) + 1, step)
    )
    drawn = tuple(
        BandRow(label, tuple(_drawn(span, total_s) for span in spans)) for label, spans in rows
    )
    return TimeBand(total_s, drawn, ticks)


def _drawn(span: Span, total_s: float) -> DrawnSpan:
    share = (span.end_s - span.start_s) / total_s
    return DrawnSpan(
        span,
        _percent(span.start_s, total_s),
        round(100 * share, 3),
        _fitting(span, share * WIDE_PX),
        _fitting(span, share * NARROW_PX),
    )


def _fitting(span: Span, width_px: float) -> str:
    fits = (words for words in (span.words, span.short) if _width_px(words) <= width_px)
    return next(fits, "")


def _width_px(words: str) -> float:
    return len(words) * SIGN_PX + MARGIN_PX


def _percent(at_s: float, total_s: float) -> float:
    return round(100 * at_s / total_s, 3)
