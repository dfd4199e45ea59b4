"""Ways to mend a complex whose bar flow breaks: a word, another order, an exercise, a swap."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from enum import IntEnum
from functools import cached_property

from squadwright.model.exercise import BarPosition, Exercise
from squadwright.model.routine import CountedIn, Scheme, Step
from squadwright.planning.bar_flow import (
    FlowBreak,
    ends_at,
    flow_breaks,
    leaves_at,
    starts_at,
)
from squadwright.planning.bar_flow.transition import flows, way
from squadwright.planning.same_work import same_work
from squadwright.planning.substitution.barred import level_rank
from squadwright.planning.substitution.likeness import likeness

LONGEST_TO_REORDER = 8
OFFERED_OF_A_KIND = 3
HOLD_S = 15
REPETITIONS = 4


class FixKind(IntEnum):
    """Kinds of fix, the least change first."""

    WORD = 1
    ORDER = 2
    INSERT = 3
    SWAP = 4


@dataclass(frozen=True)
class FlowFix:
    """One way to mend a break; ``steps`` is the whole complex after it."""

    kind: FixKind
    sentence: str
    steps: tuple[Step, ...]


@dataclass(frozen=True)
class FlowProblem:
    """A complex, the library to choose from, and whether the order must stay.

    ``keeps_order`` is for one athlete's version: his wave does the same steps at the same time, so
    only a word or a swap can mend it.
    """

    steps: tuple[Step, ...]
    library: tuple[Exercise, ...]
    keeps_order: bool = False

    @cached_property
    def _by_id(self) -> dict[str, Exercise]:
        return {e.id: e for e in self.library}

    def lookup(self, exercise_id: str) -> Exercise:
        """The exercise with an id."""
        return self._by_id[exercise_id]


def flow_fixes(problem: FlowProblem, broken: FlowBreak) -> tuple[FlowFix, ...]:
    """Fixes of one break, ranked; each leaves fewer breaks than there were."""
    before = len(flow_breaks(problem.steps, problem.lookup))
    makers = [_words, _swaps] if problem.keeps_order else [_words, _orders, _inserts, _swaps]
    found: list[FlowFix] = []
    for maker in makers:
        mends = (
            fix
            for fix in maker(problem, broken)
            if len(flow_breaks(fix.steps, problem.lookup)) < before
        )
        found.extend(fix for _, fix in zip(range(OFFERED_OF_A_KIND), mends, strict=False))
    return tuple(sorted(found, key=lambda fix: fix.kind))


def _put(steps: Sequence[Step], index: int, *new: Step) -> tuple[Step, ...]:
    """The steps with the one at a place replaced."""
    return (*steps[:index], *new, *steps[index + 1 :])


def _words(problem: FlowProblem, broken: FlowBreak) -> Iterator[FlowFix]:
    """Say where the last repetition leaves the bar, or take back a word that cannot be."""
    step = problem.steps[broken.index]
    exercise = problem.lookup(step.exercise)
    if broken.last_ends_is_wrong or flows(ends_at(exercise), broken.starts):
        yield FlowFix(
            FixKind.WORD,
            f"Leave out that {broken.after} ends at the {step.last_ends}.",
            _put(problem.steps, broken.index, replace(step, last_ends=None)),
        )
        return
    chain = way(ends_at(exercise), broken.starts)
    if chain:
        yield FlowFix(
            FixKind.WORD,
            f"Write that the last repetition of {broken.after} ends at the {broken.starts} "
            f"({', then '.join(t.name for t in chain)}).",
            _put(problem.steps, broken.index, replace(step, last_ends=broken.starts)),
        )


def _orders(problem: FlowProblem, _: FlowBreak) -> Iterator[FlowFix]:
    """The nearest order without a break, if the steps have one."""
    steps = problem.steps
    if len(steps) > LONGEST_TO_REORDER:
        return
    best = _nearest_order(
        [
            (starts_at(problem.lookup(s.exercise)), leaves_at(s, problem.lookup(s.exercise)))
            for s in steps
        ]
    )
    if best is not None and best != tuple(range(len(steps))):
        order = tuple(steps[i] for i in best)
        names = ", ".join(problem.lookup(s.exercise).name for s in order)
        yield FlowFix(FixKind.ORDER, f"Take them in another order: {names}.", order)


def _nearest_order(
    places: Sequence[tuple[BarPosition, BarPosition]],
) -> tuple[int, ...] | None:
    """The order that flows all the way round with the fewest pairs turned about, or None."""
    size = len(places)
    best: tuple[int, tuple[int, ...]] | None = None

    def grow(order: tuple[int, ...], turned: int) -> None:
        nonlocal best
        if best is not None and turned >= best[0]:
            return
        if len(order) == size:
            if flows(places[order[-1]][1], places[order[0]][0]):
                best = (turned, order)
            return
        left = [i for i in range(size) if i not in order]
        for position, index in enumerate(left):
            if not order or flows(places[order[-1]][1], places[index][0]):
                grow((*order, index), turned + position)

    grow((), 0)
    return None if best is None else best[1]


def _inserts(problem: FlowProblem, broken: FlowBreak) -> Iterator[FlowFix]:
    """Put in one exercise, else two, that carry the bar across the break."""
    if broken.last_ends_is_wrong:
        return
    step = problem.steps[broken.index]
    left = ends_at(problem.lookup(step.exercise))
    used = {s.exercise for s in problem.steps}
    usable = sorted(
        (e for e in problem.library if e.start),
        key=lambda e: (e.id in used, level_rank(e.least_level), len(e.demands), e.id),
    )
    for chain in _chains(broken.ends, left, broken.starts, usable):
        new = _steps_of(chain, step, left, broken.starts)
        names = ", then ".join(e.name for e in chain)
        yield FlowFix(
            FixKind.INSERT,
            f"Put {names} between {broken.after} and {broken.before}.",
            _put(problem.steps, broken.index, *new),
        )


def _chains(
    now: BarPosition, left: BarPosition, goal: BarPosition, usable: Sequence[Exercise]
) -> Iterator[tuple[Exercise, ...]]:
    """Chains of one exercise, then of two, from where the bar is to where it must be.

    Pairs are the first of each kind of start and end, for there are many alike.
    """
    firsts = [e for e in usable if flows(now, starts_at(e)) or way(left, starts_at(e)) is not None]
    yield from ((e,) for e in firsts if way(ends_at(e), goal) is not None)
    kinds: dict[tuple[BarPosition, BarPosition], Exercise] = {}
    for exercise in usable:
        kinds.setdefault((starts_at(exercise), ends_at(exercise)), exercise)
    for first in firsts:
        if kinds[starts_at(first), ends_at(first)] is not first:
            continue
        for second in kinds.values():
            follows = way(ends_at(first), starts_at(second)) is not None
            if second is not first and follows and way(ends_at(second), goal) is not None:
                yield (first, second)


def _steps_of(
    chain: Sequence[Exercise], step: Step, left: BarPosition, goal: BarPosition
) -> tuple[Step, ...]:
    """The step before the break and the new ones, with the words they need."""
    targets = [*(starts_at(e) for e in chain), goal]
    first = step
    if not flows(step.last_ends or left, targets[0]):
        first = replace(step, last_ends=None if flows(left, targets[0]) else targets[0])
    new = [
        Step(
            exercise=exercise.id,
            scheme=_usual_scheme(exercise),
            label=f"{step.label}{'+' * (number + 1)}",
            last_ends=None if flows(ends_at(exercise), target) else target,
        )
        for number, (exercise, target) in enumerate(zip(chain, targets[1:], strict=True))
    ]
    return (first, *new)


def _usual_scheme(exercise: Exercise) -> Scheme:
    if exercise.is_hold:
        return Scheme(CountedIn.SECONDS, HOLD_S)
    return Scheme(CountedIn.REPETITIONS, REPETITIONS)


def _swaps(problem: FlowProblem, broken: FlowBreak) -> Iterator[FlowFix]:
    """Replace the step on either side of the break by a like one with the right start or end."""
    if broken.last_ends_is_wrong:
        return
    size = len(problem.steps)
    used = {s.exercise for s in problem.steps}
    choices: list[tuple[float, str, FlowFix]] = []
    for index in dict.fromkeys(((broken.index + 1) % size, broken.index)):
        step = problem.steps[index]
        old = problem.lookup(step.exercise)
        for new in problem.library:
            if new.id in used or new.start is None:
                continue
            changed = replace(step, exercise=new.id, scheme=same_work(old, step.scheme, new))
            fix = FlowFix(
                FixKind.SWAP,
                f"Do {new.name} instead of {old.name}.",
                _put(problem.steps, index, changed),
            )
            alike = likeness(old, new) + (new.pattern is old.pattern) + (new.sides is old.sides)
            choices.append((-alike, new.id, fix))
    yield from (fix for _, _, fix in sorted(choices, key=lambda choice: choice[:2]))
