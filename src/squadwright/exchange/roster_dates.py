"""A birth date as people write it: read where only one day can be meant, else asked about."""

import re
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, timedelta

from squadwright.exchange.plausible import OLDEST_YEARS, YOUNGEST_YEARS
from squadwright.model.athlete import age_in_years
from squadwright.words import long_date

ISO = "2010-04-03"
_ISO = re.compile(r"(\d{4})[-/.](\d{1,2})[-/.](\d{1,2})")
_NUMBERS = re.compile(r"(\d{1,2})([-/. ])(\d{1,2})[-/. ](\d{4}|\d{2})")
_WORDS = re.compile(r"(?:(\d{1,2})\.? ([a-z]{3,9})|([a-z]{3,9}) (\d{1,2})(?:st|nd|rd|th)?) (\d{4})")
_SERIAL = re.compile(r"\d{4,5}")
_MONTHS = {
    f"{date(2000, month, 1):%b}".casefold(): month for month in range(1, 13)
}  # jan, feb, ...
# Day 0 of the dates of spreadsheets, as they count them from March 1900 on.
_DAY_ZERO = date(1899, 12, 30)


@dataclass(frozen=True)
class ReadDate:
    """A date, or why it is in doubt and the days that may be meant."""

    day: date | None
    doubt: str = ""
    meanings: tuple[date, ...] = ()


def read_birth_date(text: str, today: date) -> ReadDate:
    """Read one cell; nothing is guessed where two days may be meant."""
    words = " ".join(text.casefold().replace(",", " ").split())
    if match := _ISO.fullmatch(words):
        return _one(text, [_day(*map(int, match.groups()))])
    if match := _NUMBERS.fullmatch(words):
        first, mark, second, year = match.groups()
        return _of_numbers(text, (int(first), int(second)), year, mark == ".", today)
    if match := _WORDS.fullmatch(words):
        number, name = match[1] or match[4], match[2] or match[3]
        month = _MONTHS.get(name[:3])
        return _one(text, [_day(int(match[5]), month, int(number)) if month else None])
    if _SERIAL.fullmatch(words):
        return _of_serial(text, int(words), today)
    return ReadDate(None, f"{text!r} is not a date; write it like {ISO}")


def _of_numbers(
    text: str, pair: tuple[int, int], year: str, has_points: bool, today: date
) -> ReadDate:
    """Day and month in either order; with points the day comes first."""
    first, second = pair
    years = [int(year)] if len(year) == 4 else [1900 + int(year), 2000 + int(year)]
    found: list[date | None] = []
    for each in years:
        found.append(_day(each, second, first))
        if not has_points:
            found.append(_day(each, first, second))
    possible = [d for d in found if d is not None]
    alive = [d for d in possible if YOUNGEST_YEARS <= age_in_years(d, today) <= OLDEST_YEARS]
    return _one(text, alive or possible)


def _of_serial(text: str, number: int, today: date) -> ReadDate:
    """A bare number: a year, or a day as spreadsheets count them."""
    if 1900 <= number <= today.year:
        return ReadDate(None, f"{text} is only a year; write the day like {ISO}")
    day = _DAY_ZERO + timedelta(days=number)
    if YOUNGEST_YEARS <= age_in_years(day, today) <= OLDEST_YEARS:
        return ReadDate(None, f"{text} may be a day as spreadsheets count them", (day,))
    return ReadDate(None, f"{text!r} is not a date; write it like {ISO}")


def _one(text: str, days: Iterable[date | None]) -> ReadDate:
    """The one day that is meant; in doubt where there are more or none."""
    sound = tuple(dict.fromkeys(d for d in days if d is not None))
    if len(sound) == 1:
        return ReadDate(sound[0])
    if not sound:
        return ReadDate(None, f"{text} is no day of the calendar; write it like {ISO}")
    said = " or ".join(long_date(d) for d in sound)
    return ReadDate(None, f"{text} may be {said}", sound)


def _day(year: int, month: int, day: int) -> date | None:
    try:
        return date(year, month, day)
    except ValueError:
        return None
