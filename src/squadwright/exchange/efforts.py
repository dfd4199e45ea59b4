"""Efforts from a file: one line for each athlete and session, every doubt told, nothing guessed.

A cell that could mean two things, or none, is a doubt; the line waits until it is answered or
left out.
"""

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from enum import StrEnum

from squadwright.errors import InvalidInput
from squadwright.exchange.alike import alike
from squadwright.exchange.roster_file import Table
from squadwright.model.athlete import Athlete
from squadwright.model.club import names_told_apart
from squadwright.words import long_date

MOST_LINES = 400
MOST_MINUTES = 720
HIGHEST_EFFORT = 10
OLDEST = timedelta(days=3650)


class Column(StrEnum):
    """What a column may hold; the value is its head."""

    ATHLETE = "athlete"
    DAY = "day"
    MINUTES = "minutes"
    EFFORT = "effort"
    SESSION = "session"


HEADS = {
    Column.ATHLETE: ("athlete", "name", "who", "person", "athlete name"),
    Column.DAY: ("day", "date", "session date"),
    Column.MINUTES: ("minutes", "min", "duration", "duration min", "length"),
    Column.EFFORT: ("effort", "rpe", "srpe", "session rpe", "session effort"),
    Column.SESSION: ("session", "what", "activity", "session name", "training"),
}
NEEDED = (Column.ATHLETE, Column.DAY, Column.MINUTES, Column.EFFORT)
_ISO = re.compile(r"(\d{4})-(\d{1,2})-(\d{1,2})")
_NUMBERS = re.compile(r"(\d{1,2})([./-])(\d{1,2})[./-](\d{4})")


@dataclass(frozen=True)
class EffortLine:
    """One line as it would be taken in; ``doubts`` says by column what is not clear.

    ``number`` counts lines under the head. ``cells`` is the text of each column.
    """

    number: int
    cells: Mapping[Column, str]
    athlete: str | None
    day: date | None
    minutes: int | None
    effort: float | None
    session: str
    doubts: Mapping[Column, str]


def columns_of(table: Table) -> dict[Column, int]:
    """Which column holds what, by its head; InvalidInput names those that are needed and lack."""
    found: dict[Column, int] = {}
    for place, head in enumerate(table.heads):
        plain = " ".join(re.findall(r"[a-z]+", head.casefold()))
        column = next((c for c, heads in HEADS.items() if plain in heads), None)
        if column is not None and column not in found:
            found[column] = place
    lacking = [column.value for column in NEEDED if column not in found]
    if lacking:
        raise InvalidInput(
            "The file",
            f"has no column {' and no column '.join(lacking)} (it has {', '.join(table.heads)})",
            f"Name the columns {', '.join(column.value for column in Column)} in the head line",
        )
    return found


def cells_of(table: Table) -> tuple[dict[Column, str], ...]:
    """The cells of each line by column."""
    columns = columns_of(table)
    return tuple({c: row[place] for c, place in columns.items()} for row in table.rows)


def read_lines(
    lines: Sequence[Mapping[Column, str]], athletes: Sequence[Athlete], *, today: date
) -> tuple[EffortLine, ...]:
    """Every line with its doubts."""
    return tuple(
        _line(number, cells, athletes, today) for number, cells in enumerate(lines, start=1)
    )


def _line(
    number: int, cells: Mapping[Column, str], athletes: Sequence[Athlete], today: date
) -> EffortLine:
    doubts: dict[Column, str] = {}
    athlete, doubts[Column.ATHLETE] = _athlete(cells[Column.ATHLETE], athletes)
    day, doubts[Column.DAY] = _day(cells[Column.DAY], today)
    minutes, doubts[Column.MINUTES] = _number(
        cells[Column.MINUTES], 1, MOST_MINUTES, "minutes", is_whole=True
    )
    effort, doubts[Column.EFFORT] = _number(
        cells[Column.EFFORT], 0, HIGHEST_EFFORT, "points of 10", is_whole=False
    )
    return EffortLine(
        number,
        cells,
        athlete,
        day,
        None if minutes is None else int(minutes),
        effort,
        cells.get(Column.SESSION, ""),
        {column: doubt for column, doubt in doubts.items() if doubt},
    )


def _athlete(text: str, athletes: Sequence[Athlete]) -> tuple[str | None, str]:
    shown = names_told_apart(athletes)
    wanted = " ".join(text.casefold().split())
    exact = [a for a in athletes if wanted in (a.id.casefold(), shown[a.id].casefold())]
    same = exact or [a for a in athletes if " ".join(a.name.casefold().split()) == wanted]
    if len(same) == 1:
        return same[0].id, ""
    near = same or list(alike(text, athletes))[:3]
    if not text:
        return None, "nobody is named"
    if not near:
        return None, f"{text} is nobody of the squad"
    return None, f"{text} may be {' or '.join(shown[a.id] for a in near)}"


def _day(text: str, today: date) -> tuple[date | None, str]:
    found: list[date] = []
    if match := _ISO.fullmatch(text):
        found = _days([(int(match[1]), int(match[2]), int(match[3]))])
    elif match := _NUMBERS.fullmatch(text):
        first, second, year = int(match[1]), int(match[3]), int(match[4])
        ways = [(year, second, first)]
        ways += [] if match[2] == "." else [(year, first, second)]
        found = _days(ways)
    if not found:
        return None, f"{text or 'an empty cell'} is no day; write it like {today}"
    if len(found) > 1:
        return None, f"{text} may be {' or '.join(long_date(day) for day in found)}"
    if not timedelta() <= today - found[0] <= OLDEST:
        return None, f"{long_date(found[0])} is not within the last ten years"
    return found[0], ""


def _days(ways: Sequence[tuple[int, int, int]]) -> list[date]:
    found: dict[date, None] = {}
    for year, month, day in ways:
        try:
            found[date(year, month, day)] = None
        except ValueError:
            continue
    return list(found)


def _number(
    text: str, low: int, high: int, unit: str, *, is_whole: bool
) -> tuple[float | None, str]:
    if not text:
        return None, "is empty"
    if re.fullmatch(r"\d{1,4}([.,]\d{1,3})?", text) is None:
        return None, f"{text} is not a number"
    value = float(text.replace(",", "."))
    if not low <= value <= high or (is_whole and value != int(value)):
        return None, f"{text} {unit} is not {'a whole number ' if is_whole else ''}{low} to {high}"
    return value, ""
