"""Time a session again once it runs: so many minutes are left, what is done is done."""

from collections.abc import Sequence
from dataclasses import replace

from squadwright.errors import InvalidInput
from squadwright.planning.run_sheet import lay_out
from squadwright.planning.run_sheet.blocks import (
    Block,
    CircuitBlock,
    ComplexBlock,
    DrillBlock,
    check_whole,
)
from squadwright.planning.run_sheet.drill_sheet import schedule_drills
from squadwright.planning.run_sheet.drill_timing import drill_s
from squadwright.planning.run_sheet.late_arrival import ready_s
from squadwright.planning.run_sheet.problem import (
    BlockTiming,
    FixedPart,
    LateArrival,
    PartKind,
    RunSheetProblem,
)


def remaining(problem: RunSheetProblem, *, now_s: int, left_s: int) -> RunSheetProblem:
    """The problem that is left at ``now_s`` when ``left_s`` are left [s]; it counts from now.

    Parts and rounds that are over are left out. What is under way (a round, a drill) is finished
    first; a fixed part that is under way goes on for what is left of it.
    """
    check_whole("now_s", now_s, 0, problem.slot_s, "s")
    check_whole("left_s", left_s, 1, 4 * 3600, "s")
    laid = lay_out(problem)
    before, at = _parts_left(problem.before, 0, now_s)
    blocks, finish_s = _blocks_left(problem, laid.blocks, now_s)
    end = laid.blocks[-1].start_s + laid.blocks[-1].duration_s if laid.blocks else at
    after, _ = _parts_left(problem.after, end, now_s)
    if finish_s:
        before = (*before, FixedPart(PartKind.FINISH, finish_s))
    if not before and not blocks and not after:
        raise InvalidInput("now_s", f"{now_s} s is after everything planned", "Close the session")
    return replace(
        problem,
        slot_s=left_s,
        before=before,
        blocks=blocks,
        after=after,
        late=_still_late(problem, now_s),
        least_warm_up_s=min(
            [problem.least_warm_up_s]
            + [part.shortest_s for part in before if part.kind is PartKind.WARM_UP]
            + [arrival.warm_up_s for arrival in _still_late(problem, now_s)]
        ),
    )


def _parts_left(
    parts: Sequence[FixedPart], starts_s: int, now_s: int
) -> tuple[tuple[FixedPart, ...], int]:
    """Fixed parts that are not over, the one under way with the rest of its time and minimum."""
    left = []
    at = starts_s
    for part in parts:
        if part.kind is PartKind.SET_UP:
            continue
        at += part.duration_s
        gone = max(0, min(part.duration_s, now_s - (at - part.duration_s)))
        if gone < part.duration_s:
            left.append(
                replace(
                    part,
                    duration_s=part.duration_s - gone,
                    minimum_s=max(0, part.shortest_s - gone),
                )
            )
    return tuple(left), at


def _blocks_left(
    problem: RunSheetProblem, timings: Sequence[BlockTiming], now_s: int
) -> tuple[tuple[Block, ...], int]:
    """Blocks still to do, and the seconds until what is under way is finished [s]."""
    blocks: list[Block] = []
    finish_s = 0
    for block, timing in zip(problem.blocks, timings, strict=True):
        if now_s >= timing.start_s + timing.duration_s:
            continue
        if now_s <= timing.start_s:
            blocks.append(block)
            continue
        if isinstance(block, DrillBlock):
            rest, boundary = _drills_left(problem, block, timing, now_s)
        else:
            rest, boundary = _rounds_left(block, timing, now_s)
        finish_s += boundary - now_s
        if rest is not None:
            blocks.append(rest)
    return tuple(blocks), finish_s


def _rounds_left(
    block: ComplexBlock | CircuitBlock, timing: BlockTiming, now_s: int
) -> tuple[Block | None, int]:
    """Rounds that have not started, and the second at which the next one does [s]."""
    end = timing.start_s + timing.duration_s
    started = sum(begins < now_s for begins in timing.boundaries_s)
    left = block.rounds - started
    if left == 0:
        return None, end
    boundary = timing.boundaries_s[started]
    fewest = min(block.minimum_rounds, left)
    if isinstance(block, CircuitBlock):
        return replace(block, rounds=left, minimum_rounds=fewest), boundary
    users = tuple(
        replace(
            user,
            first_round=max(1, user.first_round - started),
            rounds=None
            if user.rounds is None
            else max(0, user.rounds - _done(timing, user.athlete, boundary)),
        )
        for user in block.users
    )
    return replace(block, rounds=left, users=users, minimum_rounds=fewest), boundary


def _done(timing: BlockTiming, athlete: str, boundary_s: int) -> int:
    """Rounds of one athlete that are over at the boundary."""
    return sum(
        entry.activity == "work" and athlete in entry.athletes and entry.end_s <= boundary_s
        for entry in timing.entries
    )


def _drills_left(
    problem: RunSheetProblem, block: DrillBlock, timing: BlockTiming, now_s: int
) -> tuple[Block | None, int]:
    """Drills no group has begun, group by group, and when the ones under way are finished [s]."""
    placed, _ = schedule_drills(block, problem.time_limit_s)
    boundary = now_s
    begun: dict[str, list[str]] = {group.name: list(group.done) for group in block.groups}
    for group, drill, _, at in placed:
        if timing.start_s + at < now_s:
            begun[group.name].append(drill.name)
    for group, drill, first, at in placed:
        if drill.name in begun[group.name]:
            length = drill.set_s if first else drill_s(drill, len(group.members))
            boundary = max(boundary, timing.start_s + at + length)
    groups = tuple(replace(group, done=tuple(begun[group.name])) for group in block.groups)
    left = tuple(
        drill for drill in block.drills if not all(drill.name in group.done for group in groups)
    )
    if not left:
        return None, boundary
    return replace(block, drills=left, groups=groups), boundary


def _still_late(problem: RunSheetProblem, now_s: int) -> tuple[LateArrival, ...]:
    """Late athletes who are not ready yet, with what is left of their own preparation."""
    late = []
    for arrival in problem.late:
        ready = ready_s(arrival, problem.before)
        if ready <= now_s:
            continue
        warm_left = max(0, arrival.arrives_s + arrival.warm_up_s - max(now_s, arrival.arrives_s))
        late.append(
            replace(
                arrival,
                arrives_s=max(0, arrival.arrives_s - now_s),
                warm_up_s=warm_left,
                rehearsal_s=ready - max(now_s, arrival.arrives_s) - warm_left
                if arrival.arrives_s + arrival.warm_up_s < ready
                else 0,
            )
        )
    return tuple(late)
