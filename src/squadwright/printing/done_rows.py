"""What each athlete did, as words for a page, a sheet or a terminal."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from squadwright.model.effort import EFFORT_WORDS
from squadwright.model.plan import Plan
from squadwright.model.record import NOT_THERE
from squadwright.planning.live.done import AthleteDone
from squadwright.planning.live.onset import Pattern, fault_patterns, lost_pattern
from squadwright.planning.live.review import since_text
from squadwright.printing.choices import PrintedUnit
from squadwright.printing.masses import mass_text
from squadwright.words import plain_number

NOT_NOTED = "not noted"


@dataclass(frozen=True)
class DoneRow:
    """One athlete; what was not noted is empty, except where it has to be said."""

    athlete: str
    name: str
    done: str
    load: str
    lost: str
    faults: tuple[str, ...]
    swaps: tuple[str, ...]
    stopped: str
    asked: tuple[str, ...]
    effort: str
    reserve: str
    notes: tuple[str, ...]
    is_short: bool
    was_there: bool = True

    @property
    def noted(self) -> tuple[str, ...]:
        """What was tapped on the floor: the stop first, and where it was asked; then the rest."""
        lost = f"lost repetitions: {self.lost}" if self.lost else ""
        return tuple(filter(None, (self.stopped, *self.asked, lost, *self.faults, *self.swaps)))

    @property
    def answers(self) -> str:
        """What he answered at the door: effort, and repetitions in reserve where asked."""
        reserve = f"{self.reserve} in reserve" if self.reserve else ""
        return "; ".join(filter(None, (self.effort, reserve)))


def done_rows(
    plan: Plan,
    rows: Sequence[AthleteDone],
    shown_name: Callable[[str], str],
    *,
    is_started: bool,
    unit: PrintedUnit = PrintedUnit.KILOGRAM,
) -> tuple[DoneRow, ...]:
    """The rows in the order of the plan."""
    most = max((row.planned_rounds for row in rows), default=0)
    late = {a.athlete for a in plan.attendance if a.status == "late"}
    return tuple(
        DoneRow(
            athlete=row.athlete,
            name=shown_name(row.athlete),
            done=done_text(row) if is_started else NOT_NOTED,
            load=_load_text(row, unit),
            lost=_lost_text(row),
            faults=tuple(_fault_text(pattern) for pattern in fault_patterns(row)),
            swaps=tuple(swap.words for swap in row.swaps),
            stopped=_stopped_text(row),
            asked=tuple(asked.words for asked in row.stops_asked),
            effort=effort_text(row.effort),
            reserve="" if row.reserve is None else plain_number(row.reserve, 1),
            notes=_notes(row, most, is_late=row.athlete in late),
            is_short=is_started and not row.is_all_done,
            was_there=row.was_there,
        )
        for row in rows
    )


def done_text(row: AthleteDone) -> str:
    """How much was done of what was planned for him: "3 of 3 rounds"."""
    if not row.was_there:
        return NOT_THERE
    shares = (
        (row.rounds_done, row.planned_rounds, "round"),
        (row.sets_done, row.planned_sets, "set"),
    )
    return ", ".join(
        f"{done} of {planned} {unit}{'' if planned == 1 else 's'}"
        for done, planned, unit in shares
        if planned
    )


def effort_text(effort: float | None) -> str:
    """An effort with the word that the scale has for it: "7, very hard"; 6 has none."""
    if effort is None:
        return ""
    word = EFFORT_WORDS.get(int(effort), "") if effort == int(effort) else ""
    return ", ".join(filter(None, (plain_number(effort, 1), word)))


def _load_text(row: AthleteDone, unit: PrintedUnit) -> str:
    if row.load_kg is None or not row.was_there:
        return ""
    load = mass_text(row.load_kg, unit)
    if row.planned_kg is None or row.planned_kg == row.load_kg:
        return load
    return f"{load}, planned {mass_text(row.planned_kg, unit)}"


def _lost_text(row: AthleteDone) -> str:
    """Lost repetitions by round: "2 in round 3, 1 in round 4 (from round 3, likely fatigue)"."""
    pattern = lost_pattern(row)
    if pattern is None:
        return ""
    by_round = ", ".join(
        f"{count} in round {number}" if number else f"{count}" for number, count in row.lost
    )
    return f"{by_round}{since_text(pattern)}"


def _fault_text(pattern: Pattern) -> str:
    times = f", {pattern.count} times" if pattern.count > 1 else ""
    return f"{pattern.words}{times}{since_text(pattern)}"


def _stopped_text(row: AthleteDone) -> str:
    if row.stopped_in_round is None:
        return ""
    return f"stopped in round {row.stopped_in_round}" if row.stopped_in_round else "stopped"


def _notes(row: AthleteDone, most: int, *, is_late: bool) -> tuple[str, ...]:
    """Why the plan gave him less than others: that is no failure."""
    notes: list[str] = []
    if not row.was_there:
        return ()
    if row.planned_rounds and row.planned_rounds < most:
        why = "came late" if is_late else "fewer by plan"
        notes.append(f"{row.planned_rounds} of {most} rounds planned: {why}")
    if row.kit_limited:
        notes.append("load held down by the plates")
    return tuple(notes)
