"""The run sheet as rows to read: alike lines taken together, and repeats folded when asked."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime, timedelta
from itertools import pairwise

from squadwright.model.plan import Plan, RunLine
from squadwright.printing.people import exercise_name, exercise_names, joined


@dataclass(frozen=True)
class TimetableRow:
    """From ``start`` to ``end`` (minutes:seconds of the slot) somebody does something.

    ``times`` repeats start ``every`` minutes:seconds apart; one is not a repeat.
    """

    clock: str
    start: str
    end: str
    who: str
    where: str
    what: str
    round: str
    rest: str
    times: int = 1
    every: str = ""


@dataclass(frozen=True)
class _Together:
    start_s: int
    end_s: int
    who: str
    where: str
    what: str
    first_round: int | None
    last_round: int | None
    rest_s: int | None
    times: int = 1
    every_s: int = 0


def minutes_seconds(seconds: int) -> str:
    """Seconds as minutes:seconds, never as hours: 3 725 is "62:05"."""
    return f"{seconds // 60}:{seconds % 60:02d}"


def timetable(plan: Plan, *, longest: int | None = None) -> tuple[TimetableRow, ...]:
    """The run sheet in rows; above ``longest`` rows, regular repeats are folded into one."""
    rows = _together(plan)
    if longest is not None and len(rows) > longest:
        rows = _fold_repeats(rows)
    begins = datetime.combine(plan.session.held_on, plan.session.starts_at)
    return tuple(_row(row, begins) for row in rows)


def _together(plan: Plan) -> list[_Together]:
    names = exercise_names(plan)
    alike: dict[tuple[object, ...], list[RunLine]] = {}
    for line in sorted(plan.run_sheet, key=lambda line: (line.start_s, line.end_s)):
        key = (line.start_s, line.end_s, line.exercise, line.activity, line.round, line.rest_s)
        alike.setdefault(key, []).append(line)
    return [
        _Together(
            start_s=lines[0].start_s,
            end_s=lines[0].end_s,
            who=run_together(line.group for line in lines),
            where=_where(lines),
            what=_what(lines[0], names),
            first_round=lines[0].round,
            last_round=lines[0].round,
            rest_s=lines[0].rest_s,
        )
        for lines in alike.values()
    ]


def run_together(words: Iterable[str]) -> str:
    """Words in a row, numbered ones as spans: "lane 1-3, lane 5" (with en dashes)."""
    spans: list[tuple[str, int | None, int | None]] = []
    for word in dict.fromkeys(words):
        stem, number = _numbered(word)
        if spans and number is not None:
            last_stem, first, last = spans[-1]
            if last_stem == stem and last is not None and number == last + 1:
                spans[-1] = (stem, first, number)
                continue
        spans.append((stem, number, number))
    return joined([_span_text(*span) for span in spans])


def _numbered(word: str) -> tuple[str, int | None]:
    stem, _, tail = word.rpartition(" ")
    return (stem, int(tail)) if stem and tail.isdecimal() else (word, None)


def _span_text(stem: str, first: int | None, last: int | None) -> str:
    if first is None:
        return stem
    return f"{stem} {first}" if first == last else f"{stem} {first}\N{EN DASH}{last}"


def _where(lines: list[RunLine]) -> str:
    """The stations; empty where each group is at the station of its own name."""
    if all(line.station.casefold() == line.group.casefold() for line in lines):
        return ""
    return run_together(line.station for line in lines)


def _what(line: RunLine, names: dict[str, str]) -> str:
    if line.exercise is None:
        return line.activity
    name = exercise_name(names, line.exercise)
    return name if name.casefold() in line.activity.casefold() else f"{name}: {line.activity}"


def _fold_repeats(rows: list[_Together]) -> list[_Together]:
    """Fold rows that differ only by round and come back at one beat; leave the others."""
    series: dict[tuple[object, ...], list[_Together]] = {}
    for row in rows:
        key = (row.who, row.where, row.what, row.rest_s, row.end_s - row.start_s)
        series.setdefault(key, []).append(row)
    folded: list[_Together] = []
    for repeats in series.values():
        beats = {b.start_s - a.start_s for a, b in pairwise(repeats)}
        if len(beats) != 1:
            folded += repeats
            continue
        first, last = repeats[0], repeats[-1]
        folded.append(
            _Together(
                first.start_s, first.end_s, first.who, first.where, first.what,
                first.first_round, last.last_round, first.rest_s, len(repeats), beats.pop(),
            )
        )  # fmt: skip
    return sorted(folded, key=lambda row: (row.start_s, row.end_s))


def _row(row: _Together, begins: datetime) -> TimetableRow:
    rounds = [r for r in dict.fromkeys((row.first_round, row.last_round)) if r is not None]
    clock = begins + timedelta(seconds=row.start_s)
    return TimetableRow(
        clock=f"{clock:%H:%M}",
        start=minutes_seconds(row.start_s),
        end=minutes_seconds(row.end_s),
        who=row.who,
        where=row.where,
        what=row.what,
        round="\N{EN DASH}".join(str(r) for r in rounds),
        rest=minutes_seconds(row.rest_s) if row.rest_s else "",
        times=row.times,
        every=minutes_seconds(row.every_s) if row.times > 1 else "",
    )
