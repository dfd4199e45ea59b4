"""Values as words on a page: the filters that templates use."""

from collections.abc import Callable
from datetime import time
from typing import Any

from squadwright.model.marks import wave_letter, wave_shape
from squadwright.words import capital, kilogram_text, plain_number, pound_text
from squadwright.words import counted as count_text
from squadwright.words import full_date as day_text
from squadwright.words import weekday_and_day as short_day_text

__all__ = [
    "FILTERS",
    "capital",
    "clock_text",
    "count_text",
    "day_text",
    "number_text",
    "percent_text",
    "short_day_text",
    "time_text",
]
MINUTE_S = 60


def clock_text(seconds: float) -> str:
    """Seconds as minutes and seconds: 960 is "16:00", -5 is "-0:05"."""
    minutes, rest = divmod(round(abs(seconds)), MINUTE_S)
    return f"{'-' if seconds < 0 else ''}{minutes}:{rest:02d}"


def time_text(moment: time) -> str:
    """A time of day: "18:05"."""
    return f"{moment:%H:%M}"


def percent_text(fraction: float) -> str:
    """A share of one in per cent, never rounded up to certain: 0.896 is "90 %", 0.999 is "99 %"."""
    percent = round(100 * fraction)
    if percent == 100 and fraction < 1:
        percent = 99
    if percent == 0 and fraction > 0:
        return "under 1 %"
    return f"{percent} %"


def number_text(value: float, decimals: int = 1) -> str:
    """A number without trailing zeros."""
    return plain_number(value, decimals)


FILTERS: dict[str, Callable[..., Any]] = {
    "capital": capital,
    "clock": clock_text,
    "day": day_text,
    "short_day": short_day_text,
    "time": time_text,
    "percent": percent_text,
    "number": number_text,
    "count": count_text,
    "kilograms": kilogram_text,
    "pounds": pound_text,
    "wave_letter": wave_letter,
    "wave_shape": wave_shape,
}
