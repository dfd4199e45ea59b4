"""The run sheet as rows to read: every line while they are few, else turns, sets and repeats
taken together."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from datetime import datetime, timedelta
from itertools import pairwise

from squadwright.model.plan import Plan, RunLine
from squadwright.printing.run_words import HELPING_ROLES, RunWords, minutes_seconds

HELP = "help and watch"


@dataclass(frozen=True)
class TimetableRow:
    """From ``start`` to ``end`` (minutes:seconds of the slot) somebody does something.

    ``number`` is the round or the set. ``times`` repeats start ``every`` minutes:seconds apart;
    one is no repeat.
    """

    clock: str
    start: str
    end: str
    who: str
    where: str
    what: str
    number: str
    rest: str
    times: int = 1
    every: str = ""


@dataclass(frozen=True)
class _Stretch:
    start_s: int
    end_s: int
    who: str
    where: str
    what: str
    numbers: tuple[int, ...]
    rest_s: int | None
    times: int = 1
    every_s: int = 0


def timetable(plan: Plan, *, longest: int | None = None) -> tuple[TimetableRow, ...]:
    """The run sheet in rows, in the finest grain that keeps to ``longest`` rows.

    Grains: every line (alike ones together); drills set by set; drills whole; repeats at one beat
    as one row.
    """
    words = RunWords(plan)
    grains: tuple[Callable[[], list[_Stretch]], ...] = (
        lambda: _stretches(_alike(plan.run_sheet), words),
        lambda: _stretches(_drills(plan.run_sheet, by_set=True), words),
        lambda: _stretches(_drills(plan.run_sheet, by_set=False), words),
        lambda: _fold_repeats(_stretches(_drills(plan.run_sheet, by_set=False), words)),
    )
    rows: list[_Stretch] = []
    for grain in grains:
        rows = grain()
        if longest is None or len(rows) <= longest:
            break
    begins = datetime.combine(plan.session.held_on, plan.session.starts_at)
    return tuple(_row(row, begins) for row in rows)


def _alike(lines: Sequence[RunLine]) -> list[list[RunLine]]:
    """Lines that differ only by group, station or part in one turn, taken together."""
    alike: dict[tuple[object, ...], list[RunLine]] = {}
    for line in sorted(lines, key=lambda line: (line.start_s, line.end_s)):
        takes_turns = line.role in ("work", *HELPING_ROLES)
        key = (
            line.start_s,
            line.end_s,
            line.block,
            line.exercise,
            line.round,
            line.rest_s,
            "turn" if takes_turns else line.activity,
            "turn" if takes_turns else line.role,
            line.group == "late" and line.athletes,
        )
        alike.setdefault(key, []).append(line)
    return list(alike.values())


def _drills(lines: Sequence[RunLine], *, by_set: bool) -> list[list[RunLine]]:
    """As ``_alike``, but each group's turns of a drill (or of one set of it) as one stretch."""
    of_drills: dict[tuple[object, ...], list[RunLine]] = {}
    others: list[RunLine] = []
    for line in lines:
        if line.role in HELPING_ROLES or (line.activity == HELP and line.exercise):
            continue
        if line.set is None:
            others.append(line)
            continue
        key = (line.block, line.exercise, line.group, line.round, line.set if by_set else None)
        of_drills.setdefault(key, []).append(line)
    stretches: dict[tuple[object, ...], list[RunLine]] = {}
    for (block, exercise, _, number, chosen_set), turns in of_drills.items():
        start, end = min(t.start_s for t in turns), max(t.end_s for t in turns)
        stretched = [replace(turn, start_s=start, end_s=end) for turn in turns]
        together = (start, end, block, exercise, number, chosen_set)
        stretches.setdefault(together, []).extend(stretched)
    return _alike(others) + list(stretches.values())


def _stretches(gathered: Sequence[list[RunLine]], words: RunWords) -> list[_Stretch]:
    found = []
    for lines in gathered:
        numbers = {n for line in lines for n in (line.round, line.set) if n is not None}
        found.append(
            _Stretch(
                start_s=lines[0].start_s,
                end_s=lines[0].end_s,
                who=words.who(lines),
                where=words.where(lines),
                what=words.what(lines),
                numbers=tuple(sorted(numbers)),
                rest_s=lines[0].rest_s,
            )
        )
    return sorted(found, key=lambda stretch: (stretch.start_s, stretch.end_s))


def _fold_repeats(rows: Sequence[_Stretch]) -> list[_Stretch]:
    """Fold rows that differ only by round and come back at one beat; leave the others."""
    series: dict[tuple[object, ...], list[_Stretch]] = {}
    for row in rows:
        key = (row.who, row.where, row.what, row.rest_s, row.end_s - row.start_s)
        series.setdefault(key, []).append(row)
    folded: list[_Stretch] = []
    for repeats in series.values():
        beats = {b.start_s - a.start_s for a, b in pairwise(repeats)}
        if len(beats) != 1:
            folded += repeats
            continue
        numbers = tuple(number for row in repeats for number in row.numbers)
        folded.append(replace(repeats[0], numbers=numbers, times=len(repeats), every_s=beats.pop()))
    return sorted(folded, key=lambda row: (row.start_s, row.end_s))


def _row(row: _Stretch, begins: datetime) -> TimetableRow:
    ends = dict.fromkeys((row.numbers[0], row.numbers[-1])) if row.numbers else ()
    return TimetableRow(
        clock=f"{begins + timedelta(seconds=row.start_s):%H:%M}",
        start=minutes_seconds(row.start_s),
        end=minutes_seconds(row.end_s),
        who=row.who,
        where=row.where,
        what=row.what,
        number="\N{EN DASH}".join(str(number) for number in ends),
        rest=minutes_seconds(row.rest_s) if row.rest_s else "",
        times=row.times,
        every=minutes_seconds(row.every_s) if row.times > 1 else "",
    )
