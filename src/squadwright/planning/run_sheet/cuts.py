"""What fits when the slot is too short: rounds go first, exercises later, the warm-up last.

A warm-up never goes below its minimum and a rehearsal is never touched. What was cut and turns out
not to be needed is given back.
"""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace

from squadwright.planning.run_sheet import block_s, clock, lay_out, length_s
from squadwright.planning.run_sheet.blocks import Block, CircuitBlock, ComplexBlock, DrillBlock
from squadwright.planning.run_sheet.kit_gains import kit_gains
from squadwright.planning.run_sheet.problem import (
    PARTS_FIRST,
    Cut,
    CutKind,
    Fit,
    FixedPart,
    NotFitting,
    PartKind,
    RunSheetProblem,
    RunSheetSolution,
)

SEARCH_S = 0.3
OTHER_PARTS = (PartKind.PACK, PartKind.COOL_DOWN, PartKind.ARRIVE)


@dataclass(frozen=True)
class _Step:
    """One thing to take away: a round or an exercise of a block, or seconds of a part."""

    kind: CutKind
    block: int = 0
    part: PartKind | None = None
    seconds: int = 0


def what_fits(problem: RunSheetProblem, laid: RunSheetSolution) -> NotFitting:
    """Cuts in their order until the sheet fits, then everything given back that still fits."""
    quick = replace(problem, time_limit_s=min(problem.time_limit_s, SEARCH_S))
    fit = _fit(quick, problem.time_limit_s)
    other = _fit(replace(quick, cut_order=PARTS_FIRST), problem.time_limit_s)
    least = _least_s(quick)
    over = laid.makespan_s - problem.slot_s
    return NotFitting(
        over_by_s=over,
        least_s=least,
        fit=fit,
        other_fit=None if other is None or fit is None or other.cuts == fit.cuts else other,
        options=tuple(_options(quick)),
        kit_gains=kit_gains(quick),
        message=_refusal(problem, least) if fit is None else _offer(problem, fit, over),
    )


def _fit(problem: RunSheetProblem, time_limit_s: float) -> Fit | None:
    steps: list[_Step] = []
    left = problem
    while (over := length_s(left) - problem.slot_s) > 0:
        following = next(_next_steps(left, over), None)
        if following is None:
            return None
        steps.append(following)
        left = _apply(left, [following])
    steps = _give_back(problem, steps)
    fitting = replace(_apply(problem, steps), time_limit_s=time_limit_s)
    return Fit(tuple(_described(problem, steps)), fitting, lay_out(fitting))


def _offer(problem: RunSheetProblem, fit: Fit, over: int) -> str:
    cuts = "; ".join(f"{cut.what} ({clock(cut.gained_s)})" for cut in fit.cuts)
    return f"{clock(over)} too long for {clock(problem.slot_s)}. It fits with: {cuts}."


def _refusal(problem: RunSheetProblem, least: int) -> str:
    return (
        f"Nothing fits into {clock(problem.slot_s)}: with every cut allowed the session needs "
        f"{clock(least)}. Find {clock(least - problem.slot_s)} more, or hold another session."
    )


def _over(problem: RunSheetProblem, steps: Sequence[_Step]) -> int:
    return length_s(_apply(problem, steps)) - problem.slot_s


def _next_steps(problem: RunSheetProblem, over_s: int) -> Iterator[_Step]:
    """What may go next, in order: longest block first, parts by no more than is needed."""
    lengths = [block_s(block, problem.time_limit_s) for block in problem.blocks]
    by_length = sorted(range(len(lengths)), key=lambda number: -lengths[number])
    for kind in problem.cut_order:
        if kind in (CutKind.ROUNDS, CutKind.EXERCISE):
            for number in by_length:
                if _take(kind)(problem.blocks[number]) is not None:
                    yield _Step(kind, block=number)
        else:
            yield from _shrinking(problem, kind, over_s)


def _shrinking(problem: RunSheetProblem, kind: CutKind, over_s: int) -> Iterator[_Step]:
    order = (PartKind.WARM_UP,) if kind is CutKind.WARM_UP else OTHER_PARTS
    for part_kind in order:
        for part in (*problem.before, *problem.after):
            room = part.duration_s - part.shortest_s
            if part.kind is part_kind and room > 0:
                yield _Step(kind, part=part.kind, seconds=min(room, over_s))


def _give_back(problem: RunSheetProblem, steps: Sequence[_Step]) -> list[_Step]:
    """Undo cuts that turned out not to be needed: exercises first, then parts, then rounds.

    Parts that had to shrink at all may shrink fully before an exercise stays out.
    """
    kept = _without_needless(problem, _shrunk_fully(problem, steps), CutKind.EXERCISE)
    for step in [step for step in reversed(kept) if step.part is not None]:
        room = -_over(problem, kept)
        shorter = replace(step, seconds=step.seconds - min(room, step.seconds))
        place = kept.index(step)
        kept[place : place + 1] = [shorter] if shorter.seconds else []
    return _without_needless(problem, kept, CutKind.ROUNDS)


def _without_needless(
    problem: RunSheetProblem, steps: Sequence[_Step], kind: CutKind
) -> list[_Step]:
    kept = list(steps)
    for step in [step for step in reversed(steps) if step.kind is kind]:
        place = len(kept) - 1 - kept[::-1].index(step)
        without = kept[:place] + kept[place + 1 :]
        if _over(problem, without) <= 0:
            kept = without
    return kept


def _shrunk_fully(problem: RunSheetProblem, steps: Sequence[_Step]) -> list[_Step]:
    room = {
        part.kind: part.duration_s - part.shortest_s for part in (*problem.before, *problem.after)
    }
    return [step if step.part is None else replace(step, seconds=room[step.part]) for step in steps]


def _apply(problem: RunSheetProblem, steps: Sequence[_Step]) -> RunSheetProblem:
    for step in steps:
        if step.part is not None:
            problem = replace(
                problem,
                before=tuple(_shrunk(part, step) for part in problem.before),
                after=tuple(_shrunk(part, step) for part in problem.after),
            )
        else:
            taken = _take(step.kind)(problem.blocks[step.block])
            if taken is not None:
                blocks = list(problem.blocks)
                blocks[step.block] = taken[0]
                problem = replace(problem, blocks=tuple(blocks))
    return problem


def _shrunk(part: FixedPart, step: _Step) -> FixedPart:
    if part.kind is not step.part:
        return part
    return replace(part, duration_s=part.duration_s - step.seconds, minimum_s=part.shortest_s)


def _take(kind: CutKind) -> Callable[[Block], tuple[Block, str] | None]:
    return fewer_rounds if kind is CutKind.ROUNDS else fewer_exercises


def _described(problem: RunSheetProblem, steps: Sequence[_Step]) -> Iterator[Cut]:
    """Each cut in words with the seconds it gains on top of those before it."""
    before = problem
    for step in steps:
        after = _apply(before, [step])
        yield _cut(before, step, length_s(before) - length_s(after))
        before = after


def _cut(problem: RunSheetProblem, step: _Step, gained: int) -> Cut:
    if step.part is not None:
        part = next(p for p in (*problem.before, *problem.after) if p.kind is step.part)
        left = part.duration_s - step.seconds
        what = f"{part.kind.value} from {clock(part.duration_s)} to {clock(left)}"
        return Cut(step.kind, part.kind.value, what, gained)
    block = problem.blocks[step.block]
    taken = _take(step.kind)(block)
    return Cut(step.kind, block.name, taken[1] if taken is not None else "", gained)


def _options(problem: RunSheetProblem) -> Iterator[Cut]:
    """Every single first cut and what it alone would gain, for a coach who wants another order."""
    whole = length_s(problem)
    for step in _next_steps(problem, over_s=whole):
        yield _cut(problem, step, whole - length_s(_apply(problem, [step])))


def _least_s(problem: RunSheetProblem) -> int:
    """Length with every cut made [s]."""
    best = length_s(problem)
    while (step := next(_next_steps(problem, over_s=best), None)) is not None:
        problem = _apply(problem, [step])
        best = min(best, length_s(problem))
    return best


def fewer_rounds(block: Block) -> tuple[Block, str] | None:
    """The block with one round (or one set of its longest drill) less, in words."""
    if isinstance(block, ComplexBlock | CircuitBlock):
        if block.rounds <= block.minimum_rounds:
            return None
        words = f"{block.name}: {block.rounds} to {block.rounds - 1} rounds"
        return replace(block, rounds=block.rounds - 1), words
    drill = max(block.drills, key=lambda drill: drill.sets)
    if drill.sets <= block.minimum_sets:
        return None
    drills = tuple(
        replace(other, sets=other.sets - 1) if other is drill else other for other in block.drills
    )
    words = f"{block.name}, {drill.name}: {drill.sets} to {drill.sets - 1} sets"
    return replace(block, drills=drills), words


def fewer_exercises(block: Block) -> tuple[Block, str] | None:
    """The block without its last exercise that may go, in words."""
    match block:
        case ComplexBlock():
            place = _last([exercise.can_be_cut for exercise in block.exercises])
            if place is None:
                return None
            words = f"{block.name}: without {block.exercises[place].name}"
            left = block.exercises[:place] + block.exercises[place + 1 :]
            return replace(block, exercises=left), words
        case CircuitBlock():
            place = _last([station.can_be_cut for station in block.stations])
            if place is None:
                return None
            words = f"{block.name}: without {block.stations[place].exercise}"
            stations = block.stations[:place] + block.stations[place + 1 :]
            return replace(block, stations=stations), words
        case DrillBlock():
            place = _last([drill.can_be_cut for drill in block.drills])
            if place is None:
                return None
            words = f"{block.name}: without {block.drills[place].name}"
            drills = block.drills[:place] + block.drills[place + 1 :]
            return replace(block, drills=drills), words


def _last(may_go: Sequence[bool]) -> int | None:
    """Place of the last one that may go; one always stays."""
    places = [place for place, free in enumerate(may_go) if free]
    return places[-1] if places and len(may_go) > 1 else None
