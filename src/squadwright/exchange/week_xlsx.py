"""The week and the season as a workbook: timetable, load by day, clashes, weeks ahead."""

import io
from collections.abc import Iterable, Sequence
from datetime import date, datetime, time
from typing import TYPE_CHECKING

from squadwright.camp.clashes import Clash
from squadwright.camp.week import DatedWork, GroupWeek
from squadwright.camp.week_words import FORMULA, clash_words, rule_words
from squadwright.camp.weeks_ahead import WeekAhead
from squadwright.model.club import Club

if TYPE_CHECKING:
    from openpyxl import Workbook
    from openpyxl.worksheet.worksheet import Worksheet

Value = str | float | int | date | time | None
WIDEST = 60
# A workbook carries the day it was made; the same week gives the same bytes.
MADE = datetime(2026, 1, 1)


def week_workbook(
    club: Club,
    works: Iterable[DatedWork],
    groups: Sequence[GroupWeek],
    clashes: Iterable[Clash],
    ahead: Sequence[WeekAhead],
) -> bytes:
    """The workbook as bytes."""
    from openpyxl import Workbook

    book = Workbook()
    book.properties.creator = club.name
    book.properties.created = book.properties.modified = MADE
    book.remove(book.worksheets[0])
    rooms = {room.id: room.name for room in club.rooms}
    _sheet(
        book,
        "Week",
        (
            "Day",
            "From",
            "To",
            "Session",
            "Kind of work",
            "Effort",
            "Minutes",
            "Load [AU]",
            "Loads",
            "Squads",
            "Room",
            "Staff",
            "Remark",
        ),
        (_work(work, rooms) for work in works),
    )
    days = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")
    load = _sheet(
        book,
        "Load",
        ("Squad", *(f"{day} [AU]" for day in days), "Week [AU]", "Monotony", "Strain [AU]"),
        ((g.name, *g.days, g.summary.load, g.summary.monotony, g.summary.strain) for g in groups),
    )
    _append(load, ())
    _append(load, (FORMULA,))
    _sheet(
        book,
        "Clashes",
        ("What clashes", "Rule", "Where the rule comes from"),
        ((clash_words(c), rule_words(c), c.rule.source) for c in clashes),
    )
    squads = [squad for squad, _ in ahead[0].loads] if ahead else []
    _sheet(
        book,
        "Season",
        ("Week of", "Events", "Lost days", "Term", "Away", *(f"{s} [AU]" for s in squads)),
        (_ahead(week) for week in ahead),
    )
    made = io.BytesIO()
    book.save(made)
    return made.getvalue()


def _work(work: DatedWork, rooms: dict[str, str]) -> tuple[Value, ...]:
    remark = f"lost: {work.lost_to}" if work.lost_to else "off" if work.is_off else ""
    if work.is_held and work.change:
        remark = f"changed; the week has it on {work.held_on}"
    return (
        work.day,
        work.starts_at,
        work.ends_at,
        work.name,
        work.work.value,
        work.effort,
        work.minutes,
        work.load,
        ", ".join(work.regions),
        ", ".join(work.squads),
        rooms.get(work.room or "", ""),
        ", ".join(work.staff),
        remark,
    )


def _ahead(week: WeekAhead) -> tuple[Value, ...]:
    return (
        week.monday,
        "; ".join(week.events),
        "; ".join(week.lost),
        week.term,
        "; ".join(week.away),
        *(load for _, load in week.loads),
    )


def _sheet(
    book: "Workbook", name: str, heads: Sequence[str], rows: Iterable[Sequence[Value]]
) -> "Worksheet":
    from openpyxl.styles import Alignment, Font

    sheet: Worksheet = book.create_sheet(name)
    _append(sheet, heads)
    for row in rows:
        _append(sheet, row)
    for cell in sheet[1]:
        cell.font = Font(bold=True)
    for column in sheet.columns:
        longest = max(len(str(cell.value or "")) for cell in column)
        sheet.column_dimensions[column[0].column_letter].width = min(WIDEST, longest + 2)
        for cell in column:
            cell.alignment = Alignment(wrap_text=longest > WIDEST, vertical="top")
    sheet.freeze_panes = "A2"
    return sheet


def _append(sheet: "Worksheet", row: Sequence[Value]) -> None:
    """A row in which a text stays a text: one that begins with = is no formula."""
    number = sheet.max_row + 1 if sheet.max_row > 1 or sheet["A1"].value is not None else 1
    for place, value in enumerate(row, start=1):
        cell = sheet.cell(number, place)
        cell.value = value
        if isinstance(value, str):
            cell.data_type = "s"
    if not row:
        sheet.cell(number, 1).value = " "
