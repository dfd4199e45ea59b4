"""Lay a session out to the second, or say what would fit.

``solve_run_sheet`` fills the slot: fixed parts, blocks one after another, fixed parts. Each block
is timed as short as it can be and carries a bound. When the slot is too short, the answer is a
``NotFitting`` with the cuts that make it fit and the kit that would buy minutes.
"""

from collections.abc import Sequence
from dataclasses import replace

from squadwright.planning.run_sheet import circuit_timing, complex_timing
from squadwright.planning.run_sheet.blocks import (
    BarUser,
    Block,
    CircuitBlock,
    CircuitStation,
    ComplexBlock,
    Drill,
    DrillBlock,
    DrillStyle,
    KitPool,
    LaneWay,
    TimedExercise,
    WorkGroup,
)
from squadwright.planning.run_sheet.circuit_timing import time_circuit
from squadwright.planning.run_sheet.complex_timing import time_complex
from squadwright.planning.run_sheet.drill_sheet import schedule_drills, time_drills
from squadwright.planning.run_sheet.late_arrival import first_round, own_track, ready_s
from squadwright.planning.run_sheet.problem import (
    PARTS_FIRST,
    ROUNDS_FIRST,
    BlockTiming,
    Cut,
    CutKind,
    Fit,
    FixedPart,
    JoiningPoint,
    KitGain,
    LateArrival,
    NotFitting,
    PartKind,
    RestOwed,
    RunEntry,
    RunSheetProblem,
    RunSheetSolution,
)

__all__ = [
    "PARTS_FIRST",
    "ROUNDS_FIRST",
    "BarUser",
    "BlockTiming",
    "CircuitBlock",
    "CircuitStation",
    "ComplexBlock",
    "Cut",
    "CutKind",
    "Drill",
    "DrillBlock",
    "DrillStyle",
    "Fit",
    "FixedPart",
    "JoiningPoint",
    "KitGain",
    "KitPool",
    "LaneWay",
    "LateArrival",
    "NotFitting",
    "PartKind",
    "RestOwed",
    "RunEntry",
    "RunSheetProblem",
    "RunSheetSolution",
    "TimedExercise",
    "WorkGroup",
    "lay_out",
    "solve_run_sheet",
]


def solve_run_sheet(problem: RunSheetProblem) -> RunSheetSolution | NotFitting:
    """The sheet when it fits the slot, else what fits after cuts."""
    laid = lay_out(problem)
    if laid.makespan_s <= problem.slot_s:
        return laid
    from squadwright.planning.run_sheet.cuts import what_fits

    return what_fits(problem, laid)


def lay_out(problem: RunSheetProblem) -> RunSheetSolution:
    """The whole sheet, whether or not it fits; ``spare_s`` is negative when it does not."""
    entries: list[RunEntry] = []
    at = _set_up(problem.before, entries)
    for part in problem.before:
        if part.kind is not PartKind.SET_UP:
            at = _fixed(part, part.duration_s, at, entries)
    timings: list[BlockTiming] = []
    joins: list[JoiningPoint] = []
    for number, block in enumerate(problem.blocks):
        at += problem.block_gap_s if number else 0
        timing = _time_block(problem, block, at, joins)
        timings.append(timing)
        entries += timing.entries
        at += timing.duration_s
    work_ends_s = at
    after_s = sum(part.duration_s for part in problem.after if part.kind is not PartKind.SPARE)
    makespan = at + after_s
    spare = problem.slot_s - makespan
    for part in problem.after:
        length = part.duration_s
        if part.kind is PartKind.SPARE:
            length = max(0, min(length, problem.slot_s - at - after_s))
        at = _fixed(part, length, at, entries)
    entries += _late_entries(problem, entries, work_ends_s)
    slack = sum(timing.duration_s - timing.lower_bound_s for timing in timings)
    return RunSheetSolution(
        entries=tuple(sorted(entries, key=lambda e: (e.start_s, e.end_s, e.group, e.station))),
        blocks=tuple(timings),
        makespan_s=makespan,
        lower_bound_s=makespan - slack,
        spare_s=spare,
        rests=tuple(rest for timing in timings for rest in timing.rests),
        joins=tuple(joins),
        notes=_notes(problem, timings, joins, spare),
    )


def length_s(problem: RunSheetProblem) -> int:
    """What ``lay_out`` needs without spare time, without writing a line of it [s]."""
    parts = [
        part.duration_s
        for part in (*problem.before, *problem.after)
        if part.kind not in (PartKind.SET_UP, PartKind.SPARE)
    ]
    blocks = [block_s(block, problem.time_limit_s) for block in problem.blocks]
    return sum(parts) + sum(blocks) + problem.block_gap_s * max(0, len(blocks) - 1)


def block_s(block: Block, time_limit_s: float) -> int:
    """Length of a block, wherever it stands [s]."""
    match block:
        case ComplexBlock():
            return complex_timing.duration_s(block)
        case CircuitBlock():
            return circuit_timing.duration_s(block)
        case DrillBlock():
            return schedule_drills(block, time_limit_s)[1].makespan_s


def _set_up(before: Sequence[FixedPart], entries: list[RunEntry]) -> int:
    """Set-up ends where the slot starts."""
    begins = -sum(part.duration_s for part in before if part.kind is PartKind.SET_UP)
    for part in before:
        if part.kind is PartKind.SET_UP:
            begins = _fixed(part, part.duration_s, begins, entries)
    return 0


def _fixed(part: FixedPart, length_s: int, at: int, entries: list[RunEntry]) -> int:
    if length_s:
        who = "coach" if part.kind is PartKind.SET_UP else "all"
        entries.append(RunEntry(at, at + length_s, who, "", "", part.kind.value))
    return at + length_s


def _time_block(
    problem: RunSheetProblem, block: Block, at: int, joins: list[JoiningPoint]
) -> BlockTiming:
    """Time one block, and note where late people join it."""
    ready = {arrival.athlete: ready_s(arrival, problem.before) for arrival in problem.late}
    if isinstance(block, DrillBlock):
        return time_drills(block, at, ready, problem.time_limit_s)
    late = {name: second for name, second in ready.items() if name in _people(block)}
    if isinstance(block, ComplexBlock):
        boundaries = time_complex(block, at, {}).boundaries_s
    else:
        boundaries = time_circuit(block, at, {}).boundaries_s
    joins_at = {name: first_round(second, boundaries) for name, second in late.items()}
    for name, first in joins_at.items():
        joins.append(
            JoiningPoint(name, block.name, late[name], first, _rounds_left(block, name, first))
        )
    if isinstance(block, ComplexBlock):
        return time_complex(block, at, joins_at)
    return time_circuit(block, at, joins_at)


def _people(block: Block) -> set[str]:
    if isinstance(block, ComplexBlock):
        return {user.athlete for user in block.users}
    return {member for group in block.groups for member in group.members}


def _rounds_left(block: ComplexBlock | CircuitBlock, name: str, first: int | None) -> int:
    if first is None:
        return 0
    left = block.rounds - first + 1
    if isinstance(block, ComplexBlock):
        own = next(user.rounds for user in block.users if user.athlete == name)
        return left if own is None else min(left, own)
    return left


def _late_entries(problem: RunSheetProblem, work: Sequence[RunEntry], end_s: int) -> list[RunEntry]:
    """Own preparation of those who still join some work; the others help and watch to the end."""
    joining = {name for entry in work for name in entry.athletes}
    planned = {name for block in problem.blocks for name in _people(block)}
    entries = []
    for arrival in problem.late:
        blank = RunEntry(
            arrival.arrives_s,
            end_s,
            group="late",
            station="own corner",
            exercise="",
            activity="help and watch",
            athletes=(arrival.athlete,),
        )
        if arrival.athlete in joining:
            entries += [
                replace(blank, start_s=begin, end_s=end, activity=kind.value)
                for begin, end, kind in own_track(arrival, problem.before)
            ]
        elif arrival.athlete in planned and arrival.arrives_s < end_s:
            entries.append(replace(blank, station=""))
    return entries


def _notes(
    problem: RunSheetProblem,
    timings: Sequence[BlockTiming],
    joins: Sequence[JoiningPoint],
    spare: int,
) -> tuple[str, ...]:
    notes = [note for timing in timings for note in timing.notes]
    for join in joins:
        if join.first_round is None:
            notes.append(
                f"{join.athlete} is ready at {clock(join.ready_s)}, after the last round of "
                f"{join.block} has started: helps and watches."
            )
        else:
            notes.append(
                f"{join.athlete} is ready at {clock(join.ready_s)} and joins {join.block} in "
                f"round {join.first_round}: {join.rounds} rounds are planned."
            )
    wanted = sum(p.duration_s for p in problem.after if p.kind is PartKind.SPARE)
    if 0 <= spare < wanted:
        notes.append(f"Spare time shrinks from {clock(wanted)} to {clock(spare)}.")
    return tuple(notes)


def clock(seconds: int) -> str:
    """Seconds as minutes:seconds."""
    sign = "-" if seconds < 0 else ""
    return f"{sign}{abs(seconds) // 60}:{abs(seconds) % 60:02}"
