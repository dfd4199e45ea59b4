"""What the pages of the watch show."""

from dataclasses import dataclass

from markupsafe import Markup

from squadwright.web.page import template


@dataclass(frozen=True)
class ShownChart:
    """A chart for a narrow and for a wide page, with its numbers as (day, words)."""

    head: str
    sentence: str
    narrow: Markup
    wide: Markup
    rows: tuple[tuple[str, str], ...]


@dataclass(frozen=True)
@template("watch/athlete.html")
class WatchPage:
    """One athlete in charts."""

    name: str
    path: str
    charts: tuple[ShownChart, ...]


@dataclass(frozen=True)
class TableRow:
    """One athlete of the squad table."""

    name: str
    path: str
    may_not: str
    load: str
    known: str
    answers: str
    mass: str
    event: str


@dataclass(frozen=True)
@template("watch/table.html")
class TablePage:
    """The squad in a table."""

    line: str
    heads: tuple[str, ...]
    rows: tuple[TableRow, ...]
