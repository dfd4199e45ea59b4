"""Words of the run sheet: who, where and what, from the names a plan uses."""

import re
from collections.abc import Iterable, Sequence

from squadwright.model.marks import bar_number
from squadwright.model.plan import Plan, RunLine, exercise_names
from squadwright.printing.people import exercise_name, joined
from squadwright.printing.wording import with_wave_letters

EVERYONE = "all"
HELPING_ROLES = ("feed", "watch")
_ONE_WAVE = re.compile(r"wave \d+")


def minutes_seconds(seconds: int) -> str:
    """Seconds as minutes:seconds, never as hours: 3725 is "62:05"; before the slot "-2:30"."""
    sign = "-" if seconds < 0 else ""
    return f"{sign}{abs(seconds) // 60}:{abs(seconds) % 60:02d}"


def run_together(words: Iterable[str]) -> str:
    """Words in a row, numbered ones as spans: "lane 1-3, lane 5" (with en dashes)."""
    spans: list[tuple[str, int | None, int | None]] = []
    for word in sorted(dict.fromkeys(words), key=_numbered):
        stem, number = _numbered(word)
        if spans and number >= 0:
            last_stem, first, last = spans[-1]
            if last_stem == stem and last is not None and number == last + 1:
                spans[-1] = (stem, first, number)
                continue
        spans.append((stem, number, number) if number >= 0 else (stem, None, None))
    return joined([_span_text(*span) for span in spans])


def _numbered(word: str) -> tuple[str, int]:
    stem, _, tail = word.rpartition(" ")
    return (stem, int(tail)) if stem and tail.isdecimal() else (word, -1)


def _span_text(stem: str, first: int | None, last: int | None) -> str:
    if first is None:
        return stem
    return f"{stem} {first}" if first == last else f"{stem} {first}\N{EN DASH}{last}"


class RunWords:
    """The names of one plan."""

    def __init__(self, plan: Plan) -> None:
        self._plan = plan
        self._exercises = exercise_names(plan)
        self._bars = {bar.bar: index for index, bar in enumerate(plan.bars)}
        self._blocks = {line.block for line in plan.run_sheet} | {plan.session.routine}
        self._blocks.add(plan.session.routine_name)

    def who(self, lines: Sequence[RunLine]) -> str:
        """A wave, everyone, the groups, or names where only some of a group are meant."""
        roles = {line.role for line in lines}
        if len(roles) == 1 and _ONE_WAVE.fullmatch(next(iter(roles))):
            return with_wave_letters(next(iter(roles)))
        groups = list(dict.fromkeys(line.group for line in lines))
        if groups == [EVERYONE]:
            return "everyone"
        is_personal = any(line.group == "late" or "help" in line.activity for line in lines)
        if is_personal and all(line.athletes for line in lines):
            ids = dict.fromkeys(athlete for line in lines for athlete in line.athletes)
            return joined([self._plan.shown_name(athlete) for athlete in ids])
        return run_together(with_wave_letters(self._plan.shown_name(g)) for g in groups)

    def where(self, lines: Sequence[RunLine]) -> str:
        """Stations; bars by number; a group at the station of its own name needs no word."""
        stations = [
            line.station
            for line in lines
            if line.station and line.station.casefold() != line.group.casefold()
        ]
        bars = sorted({self._bars[s] for s in stations if s in self._bars})
        others = [with_wave_letters(s) for s in stations if s not in self._bars]
        parts = [self._bars_text(bars)] if bars else []
        return joined([*parts, *([run_together(others)] if others else [])])

    @staticmethod
    def _bars_text(bars: Sequence[int]) -> str:
        numbers = [bar_number(index) for index in bars]
        if len(bars) == 1:
            return f"bar {numbers[0]}"
        if len(bars) > 2 and bars[-1] - bars[0] == len(bars) - 1:
            return f"bars {numbers[0]}\N{EN DASH}{numbers[-1]}"
        return f"bars {joined(numbers)}"

    def what(self, lines: Sequence[RunLine]) -> str:
        """The exercise, else what is done; "in turn" where one works and others help."""
        line = lines[0]
        role = line.role if line.activity == "change-over" else ""
        done = with_wave_letters(f"{line.activity}, {role}" if role else line.activity)
        in_turn = any(each.role in HELPING_ROLES for each in lines)
        if line.exercise is None or line.exercise in self._blocks:
            return done
        name = exercise_name(self._exercises, line.exercise)
        if in_turn:
            return f"{name}, in turn"
        if line.activity == "work" or name.casefold() in done.casefold():
            return name if line.activity == "work" else done
        return f"{name}: {done}"
