"""Values as words on a page: the filters that templates use."""

from collections.abc import Callable
from datetime import date, time
from typing import Any

from squadwright.model.marks import wave_letter, wave_shape
from squadwright.printing.masses import kilogram_text, plain_number, pound_text

MINUTE_S = 60


def capital(words: str) -> str:
    """Words with a capital at the beginning."""
    return f"{words[:1].upper()}{words[1:]}"


def clock_text(seconds: float) -> str:
    """Seconds as minutes and seconds: 960 is "16:00", -5 is "-0:05"."""
    minutes, rest = divmod(round(abs(seconds)), MINUTE_S)
    return f"{'-' if seconds < 0 else ''}{minutes}:{rest:02d}"


def day_text(day: date) -> str:
    """A date in words: "Monday 2 March 2026"."""
    return f"{day:%A} {day.day} {day:%B %Y}"


def short_day_text(day: date) -> str:
    """A date in few words: "Mon 2 Mar"."""
    return f"{day:%a} {day.day} {day:%b}"


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


def count_text(count: int, one: str, many: str = "") -> str:
    """A count with its word: "1 athlete", "2 athletes"."""
    return f"{count} {one if count == 1 else many or one + 's'}"


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
