"""The review of a session in three lines, worked out from the record for the coach to mend."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Self

from squadwright.planning.live.done import AthleteDone
from squadwright.planning.live.onset import Onset, Pattern, fault_patterns, lost_pattern
from squadwright.words import capital

LONGEST_LINE = 320
MOST_NAMED = 4
MOST_PARTS = 6
# An effort at which the coach asks how somebody is: "very hard" and more is seldom meant for all
# (our estimate).
HIGH_EFFORT = 9


@dataclass(frozen=True)
class Review:
    """Three lines: the work that was planned and done, what went wrong, what to change."""

    work: str
    trouble: str
    change: str

    @property
    def words(self) -> str:
        """The three lines as one text."""
        return "\n".join((self.work, self.trouble, self.change))

    @classmethod
    def of_words(cls, words: str) -> Self:
        """The review that such a text holds."""
        lines = [*words.split("\n", 2), "", ""]
        return cls(lines[0], lines[1], lines[2])


def draft_review(
    rows: Sequence[AthleteDone],
    names: Mapping[str, str],
    *,
    is_started: bool,
    incidents: int = 0,
) -> Review:
    """The three lines, from what was noted; who had fewer rounds by plan did not fail."""
    work = "Not run by the clock: what was done is not noted."
    if is_started:
        work = _line([_work(rows), *_short(rows, names)])
    trouble, change = _trouble(rows, names), _change(rows, names)
    if incidents:
        noted = "an incident" if incidents == 1 else f"{incidents} incidents"
        trouble.insert(0, f"{noted} (the note is for the coach alone)")
        change.insert(0, "follow the incident up; medical staff decide who trains")
    return Review(
        work,
        _line(trouble) or "Nothing went wrong that was noted.",
        _line(change) or ("Keep it as it was." if is_started else "Nothing speaks for a change."),
    )


def _work(rows: Sequence[AthleteDone]) -> str:
    if not rows:
        return "There is no plan, so the work is not counted"
    parts = []
    came = [row for row in rows if row.was_there]
    for unit, planned, done in (
        ("rounds", sum(r.planned_rounds for r in came), sum(r.rounds_done for r in came)),
        ("sets", sum(r.planned_sets for r in came), sum(r.sets_done for r in came)),
    ):
        if planned:
            parts.append(f"{done} of {planned} {unit}")
    whole = [row for row in came if row.is_all_done]
    lost = sum(count for row in rows for _, count in row.lost)
    work = " and ".join(parts) or "Nothing was planned"
    said = f"{work} done, {len(whole)} of {len(came)} athletes did all of theirs"
    if not lost:
        return said
    # Every round of his, and yet not every repetition in them: both are counted.
    unbroken = sum(not any(count for _, count in row.lost) for row in whole)
    return f"{said}, {unbroken} of them with every repetition ({lost} lost)"


def _short(rows: Sequence[AthleteDone], names: Mapping[str, str]) -> list[str]:
    """Who did less than was planned for him."""
    found = []
    for row in rows:
        if row.is_all_done and row.was_there:
            continue
        if not row.was_there:
            found.append(f"{_name(row, names)} was not there")
            continue
        if row.rounds_done < row.planned_rounds:
            share = f"{row.rounds_done} of {row.planned_rounds} rounds"
        else:
            share = f"{row.sets_done} of {row.planned_sets} sets"
        found.append(f"{_name(row, names)} {share}")
    return found


def _trouble(rows: Sequence[AthleteDone], names: Mapping[str, str]) -> list[str]:
    """Stops first, then faults, lost repetitions and loads taken down."""
    stops, others = [], []
    for row in rows:
        name = _name(row, names)
        if row.stopped_in_round is not None:
            where = f" in round {row.stopped_in_round}" if row.stopped_in_round else ""
            stops.append(f"{name} stopped{where}")
        notes = [f"{_times(pattern)}{since_text(pattern)}" for pattern in fault_patterns(row)]
        lost = lost_pattern(row)
        if lost is not None:
            notes.append(f"{_repetitions(lost.count)} lost{since_text(lost)}")
        if _is_lighter(row):
            notes.append(f"load down to {row.load_kg:g} kg")
        if notes:
            others.append(f"{name}: {', '.join(notes)}")
    return [*stops, *others]


def _change(rows: Sequence[AthleteDone], names: Mapping[str, str]) -> list[str]:
    """One suggestion for each athlete, the gravest; rules of ours."""
    found = [(_name(row, names), _suggestion(row)) for row in rows]
    alike: dict[str, list[str]] = {}
    for name, words in found:
        if words:
            alike.setdefault(words, []).append(name)
    return [f"{_listed(people)}: {words}" for words, people in alike.items()]


def _suggestion(row: AthleteDone) -> str:
    patterns = fault_patterns(row)
    lost = lost_pattern(row)
    if row.stopped_in_round is not None:
        return "ask why, before any more lifting"
    skill = next((p for p in patterns if p.onset is Onset.SKILL), None)
    if skill is not None:
        return f"teach against {skill.words} before more load"
    if any(p.onset is Onset.FATIGUE for p in (*patterns, *((lost,) if lost else ()))):
        return "a lighter bar or a round less"
    if lost is not None and lost.count == 1 and not _is_lighter(row):
        return "a lighter bar if one is lost again"
    if lost is not None or _is_lighter(row):
        return "a lighter bar"
    if row.effort is not None and row.effort >= HIGH_EFFORT:
        return f"ask how it was (effort {row.effort:g})"
    return f"watch for {patterns[0].words}" if patterns else ""


def _is_lighter(row: AthleteDone) -> bool:
    return row.load_kg is not None and row.planned_kg is not None and row.load_kg < row.planned_kg


def _times(pattern: Pattern) -> str:
    return pattern.words if pattern.count == 1 else f"{pattern.words} {pattern.count} times"


def since_text(pattern: Pattern) -> str:
    """Since when a pattern holds, in brackets; empty where it has no beginning."""
    return f" ({pattern.since})" if pattern.since else ""


def _name(row: AthleteDone, names: Mapping[str, str]) -> str:
    return names.get(row.athlete, row.athlete)


def _listed(people: Sequence[str]) -> str:
    more = len(people) - MOST_NAMED
    shown = ", ".join(people[:MOST_NAMED])
    return f"{shown} and {more} more" if more > 0 else shown


def _line(parts: Sequence[str]) -> str:
    """The parts as one line that fits; what does not fit is counted, not cut in two."""
    shown = list(parts[:MOST_PARTS])
    while shown:
        left_out = len(parts) - len(shown)
        line = "; ".join([*shown, f"and {left_out} more"] if left_out else shown) + "."
        if len(line) <= LONGEST_LINE:
            return capital(line)
        shown.pop()
    return ""


def _repetitions(count: int) -> str:
    return f"{count} repetition{'' if count == 1 else 's'}"
