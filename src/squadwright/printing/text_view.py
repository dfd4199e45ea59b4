"""A plan as text for a terminal."""

from collections.abc import Iterable, Sequence
from io import StringIO

from rich.console import Console
from rich.padding import Padding
from rich.text import Text

from squadwright.errors import InvalidInput
from squadwright.model.club import Club
from squadwright.model.marks import wave_sign
from squadwright.model.plan import Plan
from squadwright.printing.choices import PrintedUnit
from squadwright.printing.dose_rows import DoseRow, dose_rows
from squadwright.printing.loaded_bars import LoadedBar, bars_in_use
from squadwright.printing.people import WaveMark, rounds_of_session
from squadwright.printing.session_sheet import (
    assumptions,
    attendance_notes,
    finding_rows,
    kit_note,
)
from squadwright.printing.squad_groups import group_rows
from squadwright.printing.text_columns import (
    Column,
    cells_line,
    column_widths,
    titles_line,
    total_width,
    used_columns,
)
from squadwright.printing.timetable import TimetableRow, timetable
from squadwright.words import full_date

LEAST_WIDTH = 60
LONGEST_RUN_SHEET = 40
_INDENT = 2
_FINDING_WORDS = {
    "stop": ("STOP", "bold red"),
    "warning": ("MIND", "bold yellow"),
    "note": ("note", ""),
}
_DOSE_COLUMNS = (
    Column("Bar"), Column("Wave"), Column("Athlete", style="bold"), Column("Part"),
    Column("Load", "right", "bold"), Column("Target", "right"), Column("Chance", "right"),
    Column("Reserve", "right"), Column("Rounds", "right"), Column("Ball", "right"),
    Column("Box", "right"), Column("Contacts", "right"), Column("Throws", "right"),
)  # fmt: skip
_BAR_COLUMNS = (
    Column("Wave"), Column("Athlete"), Column("Load", "right", "bold"), Column("A side"),
    Column("Change"),
)  # fmt: skip


def plan_text(
    plan: Plan,
    *,
    width: int,
    colour: bool,
    unit: PrintedUnit = PrintedUnit.KILOGRAM,
    club: Club | None = None,
) -> str:
    """The whole plan as text; no line is longer than ``width`` cells."""
    if width < LEAST_WIDTH:
        raise InvalidInput(
            "width",
            f"{width} columns are too few to show a plan; the least is {LEAST_WIDTH}",
            "Widen the terminal, or write the plan to a file",
        )
    page = _Page(width, colour)
    _head(page, plan)
    _attendance(page, plan)
    _findings(page, plan)
    _doses(page, plan, unit)
    _bars(page, plan, club, unit)
    _groups(page, plan)
    _run_sheet(page, plan)
    page.sentences("Taken as given", assumptions(plan))
    page.sentences("Caution", plan.cautions)
    return page.text()


class _Page:
    """Lines written one under another, wrapped at the width."""

    def __init__(self, width: int, colour: bool) -> None:
        self.width = width
        self._out = StringIO()
        self._console = Console(
            file=self._out,
            width=width,
            force_terminal=colour,
            color_system="standard" if colour else None,
            highlight=False,
            markup=False,
            emoji=False,
            legacy_windows=False,
        )

    def line(self, content: Text | str, *, indent: int = 0, style: str = "") -> None:
        text = Text(content, style=style) if isinstance(content, str) else content
        self._console.print(Padding(text, (0, 0, 0, indent), expand=False))

    def title(self, words: str) -> None:
        self._console.print()
        self.line(words.upper(), style="bold cyan")

    def hanging(self, mark: Text, content: Text) -> None:
        """A mark, then text that keeps to the right of it on every line."""
        lines = content.wrap(self._console, self.width - _INDENT - mark.cell_len)
        for number, part in enumerate(lines):
            part.rstrip()
            lead = mark if number == 0 else Text(" " * mark.cell_len)
            self.line(Text.assemble(lead, part), indent=_INDENT)

    def sentences(self, title: str, sentences: Iterable[str]) -> None:
        said = list(sentences)
        if said:
            self.title(title)
        for sentence in said:
            self.hanging(Text("- "), Text(sentence))

    def text(self) -> str:
        lines = (line.rstrip() for line in self._out.getvalue().splitlines())
        return "\n".join(lines).strip("\n") + "\n"


def _head(page: _Page, plan: Plan) -> None:
    session = plan.session
    day = full_date(session.held_on)
    page.line(session.name, style="bold")
    page.line(f"{session.club}; {session.routine_name}, {session.aim}")
    staff = f"; with {', '.join(session.staff)}" if session.staff else ""
    page.line(
        f"{day} at {session.starts_at:%H:%M}, {session.minutes} minutes, "
        f"{plan.floor.room_name}{staff}"
    )


def _attendance(page: _Page, plan: Plan) -> None:
    present = sum(a.status in ("present", "late") for a in plan.attendance)
    page.title(f"Who is here: {present}")
    notes = attendance_notes(plan)
    if not notes:
        page.line("Everybody expected is here, and nobody is restricted.", indent=_INDENT)
    for note in notes:
        status = f"late by {note.late_minutes} min" if note.status == "late" else note.status
        said = "; ".join((*note.restrictions, *((note.note,) if note.note else ())))
        shown = "; ".join(part for part in ("" if status == "present" else status, said) if part)
        page.hanging(Text("- "), Text.assemble((note.name, "bold"), ": ", shown))


def _findings(page: _Page, plan: Plan) -> None:
    findings = finding_rows(plan)
    if findings:
        page.title("What to know before you start")
    for finding in findings:
        word, style = _FINDING_WORDS[finding.severity]
        source = f" ({finding.source})" if finding.source else ""
        advice = f" {finding.advice}" if finding.advice else ""
        page.hanging(
            Text(f"{word}  ", style=style),
            Text.assemble(finding.sentence, (advice, "bold"), (source, "dim")),
        )


def _doses(page: _Page, plan: Plan, unit: PrintedUnit) -> None:
    rows = dose_rows(plan, unit)
    if not rows:
        return
    rounds = rounds_of_session(plan)
    page.title("Who does what" + (f", {rounds} rounds" if rounds > 1 else ""))
    cells = [
        [row.bar, _wave(row.wave), row.name, row.part, row.load, row.target, row.chance,
         row.reserve, row.rounds if rounds > 1 else "", row.ball, row.box, row.contacts,
         row.throws]
        for row in rows
    ]  # fmt: skip
    _table(page, _DOSE_COLUMNS, cells, below=[_why(row) for row in rows])
    if any(row.chance or row.reserve for row in rows):
        words = (
            "Chance: of every repetition of every round. "
            "Reserve: repetitions left at the worst point."
        )
        page.line(words, indent=_INDENT, style="dim")


def _why(row: DoseRow) -> list[Text]:
    limits = f"{row.limits}: " if row.limits else ""
    kit = " Held back by the plates, not by strength." if row.is_kit_limited else ""
    words = f"{limits}{row.reason}{kit}".strip()
    lines = [Text(words)] if words else []
    lines += [
        Text(f"Step {swap.step}: {swap.instead} instead of {swap.written} ({swap.reason}).")
        for swap in row.swaps
    ]
    return lines + [Text(caution, style="bold") for caution in row.cautions]


def _table(
    page: _Page,
    columns: Sequence[Column],
    cells: Sequence[Sequence[str]],
    *,
    above: Sequence[Text | None] = (),
    below: Sequence[Sequence[Text]] = (),
) -> None:
    """Rows with a line above and remarks below where there are any.

    Where a row is wider than the page its name, which is never cut, has a line of its own.
    """
    columns, rows = used_columns(columns, cells)
    widths = column_widths(columns, rows)
    name = next(i for i, column in enumerate(columns) if column.title == "Athlete")
    is_stacked = total_width(widths) + _INDENT > page.width
    kept = [i for i in range(len(columns)) if not (is_stacked and i == name)]
    columns, widths = [columns[i] for i in kept], [widths[i] for i in kept]
    page.line(titles_line(columns, widths), indent=_INDENT)
    remark_indent = 2 * _INDENT
    if not is_stacked and name > 0:
        remark_indent = _INDENT + total_width([*widths[:name], 0])
    for index, row in enumerate(rows):
        heading = above[index] if above else None
        if heading is not None:
            page.line(heading, indent=_INDENT)
        if is_stacked:
            page.line(row[name], indent=_INDENT, style="bold")
        page.line(cells_line(columns, [row[i] for i in kept], widths), indent=_INDENT)
        for remark in below[index] if below else ():
            page.line(remark, indent=remark_indent)


def _bars(page: _Page, plan: Plan, club: Club | None, unit: PrintedUnit) -> None:
    bars = bars_in_use(plan, club, unit)
    if not bars:
        return
    page.title("Bars and plates")
    cells = [
        [_wave(load.wave), load.athlete, load.load, load.per_side or "empty bar", _change(load)]
        for bar in bars
        for load in bar.loads
    ]
    above = [
        Text(f"Bar {bar.mark}: {bar.name}, {bar.bar_mass}", style="bold") if first else None
        for bar in bars
        for first in (True, *(False,) * (len(bar.loads) - 1))
    ]
    _table(page, _BAR_COLUMNS, cells, above=above)
    kit = kit_note(plan)
    if kit is not None:
        proof = "; no better loading exists with these plates" if kit.is_proven else ""
        page.line(
            f"Within {kit.largest_shortfall} of the load wanted, never above it{proof}.",
            indent=_INDENT,
        )
        for advice in kit.advice:
            page.line(advice, indent=_INDENT)


def _change(load: LoadedBar) -> str:
    parts = (
        f"off {load.take_off}" if load.take_off else "",
        f"on {load.put_on}" if load.put_on else "",
    )
    return "; ".join(part for part in parts if part)


def _groups(page: _Page, plan: Plan) -> None:
    groups = group_rows(plan)
    if groups:
        page.title("Groups")
    blocks = list(dict.fromkeys(group.block for group in groups))
    for block in blocks:
        if block:
            page.line(block, indent=_INDENT, style="italic")
        for group in groups:
            if group.block == block:
                page.hanging(Text(f"{group.name}: ", style="bold"), Text(", ".join(group.athletes)))


def _run_sheet(page: _Page, plan: Plan) -> None:
    rows = timetable(plan, longest=LONGEST_RUN_SHEET)
    if not rows:
        return
    page.title("Run sheet")
    cells = [[row.clock, row.start, row.end, row.number, row.who] for row in rows]
    times = [Column(title, "right") for title in ("Clock", "From", "To")]
    number = Column("Round" if rounds_of_session(plan) > 1 else "Set")
    columns, cut = used_columns([*times, number, Column("Who", style="bold")], cells)
    longest_who = max(12, page.width // 4)
    widths = [min(w, longest_who) for w in column_widths(columns, cut)]
    page.line(titles_line([*columns, Column("What")], [*widths, 4]), indent=_INDENT)
    for row, line in zip(rows, cut, strict=True):
        _run_line(page, columns, line, widths, _doing(row))


def _run_line(
    page: _Page, columns: Sequence[Column], cells: list[str], widths: list[int], doing: str
) -> None:
    """One line of the run sheet; a long list of groups stands before what they do."""
    if len(cells[-1]) > widths[-1]:
        doing = f"{cells[-1]}: {doing}"
        cells = [*cells[:-1], ""]
    mark = cells_line([*columns, Column("")], [*cells, ""], [*widths, 0])
    mark.append(" " * (total_width([*widths, 0]) - mark.cell_len))
    page.hanging(mark, Text(doing))


def _doing(row: TimetableRow) -> str:
    where = f", {row.where}" if row.where else ""
    rest = f"; rest {row.rest}" if row.rest else ""
    times = f" ({row.times} times, every {row.every})" if row.times > 1 else ""
    return f"{row.what}{where}{times}{rest}"


def _wave(wave: WaveMark | None) -> str:
    if wave is None:
        return ""
    return f"{wave_sign(_wave_number(wave.letter))} {wave.letter}"


def _wave_number(letter: str) -> int:
    number = 0
    for character in letter:
        number = number * 26 + ord(character) - ord("A") + 1
    return number
