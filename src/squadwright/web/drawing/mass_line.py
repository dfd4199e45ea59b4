"""Readings of body mass over days, with their line, its interval and the limit, on one scale."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date

from squadwright.planning.gates.trend import MassTrend
from squadwright.words import day_and_month

LEAST_SPAN_KG = 1.0
ROOM = 0.08
WHOLE = 100.0
LEFT, RIGHT = 22.0, 97.0
"""Left of it stand the words of the scale."""


@dataclass(frozen=True)
class MassPoint:
    """One reading with its place, in per cent of width and height from the top left."""

    x_percent: float
    y_percent: float
    words: str


@dataclass(frozen=True)
class MassPicture:
    """Readings and lines in per cent, from ``left_percent`` on.

    ``smoothed`` and ``line`` are paths of straight pieces, ``line`` empty where there is no slope.
    ``limit_percent`` is None where there is no limit on the scale.
    """

    points: tuple[MassPoint, ...]
    smoothed: str
    line: str
    limit_percent: float | None
    limit_words: str
    high_words: str
    low_words: str
    first_words: str
    last_words: str
    in_words: str
    left_percent: float = LEFT


def draw_mass(trend: MassTrend, limit_kg: float | None = None) -> MassPicture:
    """Lay out a window of readings; the scale holds every reading, the line and the limit."""
    fitted = [trend.fitted_on(day) for day in (trend.days[0], trend.days[-1])]
    drawn = [mass for mass in fitted if mass is not None]
    limits = [] if limit_kg is None else [limit_kg]
    low, high = _scale([*trend.masses_kg, *drawn, *limits])
    days = max(1, (trend.days[-1] - trend.days[0]).days)

    def x(day: date) -> float:
        return round(LEFT + (RIGHT - LEFT) * (day - trend.days[0]).days / days, 2)

    def y(mass: float) -> float:
        return round(WHOLE * (high - mass) / (high - low), 2)

    ends = list(zip((trend.days[0], trend.days[-1]), drawn, strict=False)) if drawn else []
    shown = list(zip(trend.days, trend.masses_kg, strict=True))
    return MassPicture(
        points=tuple(MassPoint(x(d), y(m), f"{day_and_month(d)}: {m:.1f} kg") for d, m in shown),
        smoothed=_path((x(d), y(m)) for d, m in zip(trend.days, trend.smoothed_kg, strict=True)),
        line=_path((x(d), y(m)) for d, m in ends),
        limit_percent=None if limit_kg is None else y(limit_kg),
        limit_words="" if limit_kg is None else f"limit {limit_kg:.1f} kg",
        high_words=f"{high:.1f} kg",
        low_words=f"{low:.1f} kg",
        first_words=day_and_month(trend.days[0]),
        last_words=day_and_month(trend.days[-1]),
        in_words="; ".join(f"{day_and_month(d)} {m:.1f} kg" for d, m in shown),
    )


def _scale(masses: Sequence[float]) -> tuple[float, float]:
    """Lowest and highest mass of the scale, a kilogram apart at least, with a little room."""
    low, high = min(masses), max(masses)
    missing = max(0.0, LEAST_SPAN_KG - (high - low)) / 2
    room = ROOM * max(LEAST_SPAN_KG, high - low)
    return low - missing - room, high + missing + room


def _path(places: Iterator[tuple[float, float]]) -> str:
    return " ".join(f"{x:g},{y:g}" for x, y in places)
