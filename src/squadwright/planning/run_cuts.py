"""What fits when the slot is too short: rounds go first, then exercises, then parts shrink.

A warm-up never goes below its minimum and a rehearsal is never touched.
"""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace

from squadwright.planning.run_blocks import Block, CircuitBlock, ComplexBlock, DrillBlock
from squadwright.planning.run_kit_gains import kit_gains
from squadwright.planning.run_sheet import clock, lay_out
from squadwright.planning.run_sheet_problem import (
    Cut,
    CutKind,
    FixedPart,
    NotFitting,
    PartKind,
    RunSheetProblem,
    RunSheetSolution,
)

SEARCH_S = 1.0
SHRINK_ORDER = (PartKind.PACK, PartKind.COOL_DOWN, PartKind.ARRIVE, PartKind.WARM_UP)


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
    over = laid.makespan_s - problem.slot_s
    steps: list[_Step] = []
    while not _fits(quick, steps):
        following = next(_next_steps(_apply(quick, steps), over_s=_over(quick, steps)), None)
        if following is None:
            break
        steps.append(following)
    least = _least_s(quick)
    gains = kit_gains(quick)
    options = tuple(_options(quick))
    if not _fits(quick, steps):
        return NotFitting(over, (), options, gains, least, message=_refusal(problem, least))
    steps = _give_back(quick, steps)
    fitting = _apply(quick, steps)
    cuts = tuple(_described(quick, steps))
    message = (
        f"{clock(over)} too long for {clock(problem.slot_s)}. It fits with: "
        f"{'; '.join(f'{cut.what} ({clock(cut.gained_s)})' for cut in cuts)}."
    )
    return NotFitting(over, cuts, options, gains, least, fitting, lay_out(fitting), message)


def _refusal(problem: RunSheetProblem, least: int) -> str:
    return (
        f"Nothing fits into {clock(problem.slot_s)}: with every cut allowed the session needs "
        f"{clock(least)}. Find {clock(least - problem.slot_s)} more, or hold another session."
    )


def _over(problem: RunSheetProblem, steps: Sequence[_Step]) -> int:
    return lay_out(_apply(problem, steps)).makespan_s - problem.slot_s


def _fits(problem: RunSheetProblem, steps: Sequence[_Step]) -> bool:
    return _over(problem, steps) <= 0


def _next_steps(problem: RunSheetProblem, over_s: int) -> Iterator[_Step]:
    """What may go next, in order: longest block first, parts by no more than is needed."""
    timings = lay_out(problem).blocks
    by_length = sorted(range(len(problem.blocks)), key=lambda number: -timings[number].duration_s)
    for kind, take in ((CutKind.ROUNDS, fewer_rounds), (CutKind.EXERCISE, fewer_exercises)):
        for number in by_length:
            if take(problem.blocks[number]) is not None:
                yield _Step(kind, block=number)
    for part_kind in SHRINK_ORDER:
        for part in (*problem.before, *problem.after):
            room = part.duration_s - part.shortest_s
            if part.kind is part_kind and room > 0:
                yield _Step(CutKind.PART, part=part.kind, seconds=min(room, over_s))


def _give_back(problem: RunSheetProblem, steps: Sequence[_Step]) -> list[_Step]:
    """Undo cuts that turned out not to be needed: exercises first, then rounds, then parts."""
    kept = list(steps)
    for kind in (CutKind.EXERCISE, CutKind.ROUNDS):
        for step in [step for step in reversed(steps) if step.kind is kind]:
            without = list(kept)
            without.reverse()
            without.remove(step)
            without.reverse()
            if _fits(problem, without):
                kept = without
    for step in [step for step in reversed(kept) if step.kind is CutKind.PART]:
        room = -_over(problem, kept)
        shorter = replace(step, seconds=step.seconds - min(room, step.seconds))
        place = kept.index(step)
        kept[place : place + 1] = [shorter] if shorter.seconds else []
    return kept


def _apply(problem: RunSheetProblem, steps: Sequence[_Step]) -> RunSheetProblem:
    for step in steps:
        if step.kind is CutKind.PART:
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
    for number, step in enumerate(steps):
        before = _apply(problem, steps[:number])
        after = _apply(problem, steps[: number + 1])
        gained = lay_out(before).makespan_s - lay_out(after).makespan_s
        yield _cut(before, step, gained)


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
    whole = lay_out(problem).makespan_s
    for step in _next_steps(problem, over_s=problem.slot_s + whole):
        yield _cut(problem, step, whole - lay_out(_apply(problem, [step])).makespan_s)


def _least_s(problem: RunSheetProblem) -> int:
    """Length with every cut made [s]."""
    best = lay_out(problem).makespan_s
    while (step := next(_next_steps(problem, over_s=best), None)) is not None:
        problem = _apply(problem, [step])
        best = min(best, lay_out(problem).makespan_s)
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
