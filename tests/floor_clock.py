"""What a device of the floor should show, worked out apart from it: the lines that go on, where
"next" and "back" lead, and into which wave each athlete was put.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from squadwright.model.plan import RunLine
from squadwright.model.record import EventKind, RecordEvent, in_force


@dataclass(frozen=True)
class Moment:
    """What goes on at one place of the run sheet: its lines, the next change, what comes then."""

    now: tuple[RunLine, ...]
    next_change_s: int | None
    then: tuple[RunLine, ...]


def moment_at(run_sheet: Sequence[RunLine], place_s: float) -> Moment:
    """The lines in force at a place, and those that begin at the next boundary."""
    coming = next_place(run_sheet, place_s)
    then = () if coming is None else lines_at(run_sheet, coming)
    return Moment(lines_at(run_sheet, place_s), coming, then)


def lines_at(run_sheet: Sequence[RunLine], place_s: float) -> tuple[RunLine, ...]:
    """The lines in force at a place."""
    return tuple(line for line in run_sheet if line.start_s <= place_s < line.end_s)


def boundaries(run_sheet: Sequence[RunLine]) -> tuple[int, ...]:
    """Every second at which something begins or ends, in order."""
    return tuple(sorted({s for line in run_sheet for s in (line.start_s, line.end_s)}))


def next_place(run_sheet: Sequence[RunLine], place_s: float) -> int | None:
    """Where "next" leads to; None after the last boundary."""
    return next((change for change in boundaries(run_sheet) if change > place_s), None)


def former_place(run_sheet: Sequence[RunLine], place_s: float, *, grace_s: float = 3.0) -> int:
    """Where "back" leads to: the beginning of what goes on, or what was before it.

    Within the first seconds after a boundary it means the part before.
    """
    changes = boundaries(run_sheet)
    if not changes:
        return 0
    before = [change for change in changes if change <= place_s - grace_s]
    return before[-1] if before else changes[0]


def waves_of(events: Iterable[RecordEvent]) -> dict[str, int]:
    """The wave each athlete was put into last; whoever was not moved is left out."""
    return {e.athlete: int(e.value or 0) for e in in_force(events) if e.kind is EventKind.INTO_WAVE}
