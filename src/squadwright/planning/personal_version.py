"""A block as one athlete does it today: barred steps swapped, or left out where nothing fits."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from squadwright.model.athlete import Level, Restriction
from squadwright.model.exercise import Exercise
from squadwright.model.routine import Block, Step, Style
from squadwright.model.session import Pain, Swap
from squadwright.planning.bar_flow import (
    FlowBreak,
    Lookup,
    flow_breaks,
    leaves_at,
    personal_steps,
    starts_at,
)
from squadwright.planning.barred import barred_by
from squadwright.planning.substitution import (
    KitThere,
    SpaceThere,
    SubstitutionProblem,
    SwapChoice,
    substitute,
)


@dataclass(frozen=True)
class PersonToday:
    """What decides what one athlete may do today."""

    restrictions: tuple[Restriction, ...] = ()
    pains: tuple[Pain, ...] = ()
    level: Level | None = None
    age: int | None = None


@dataclass(frozen=True)
class StepSwap:
    """One step swapped for him: what it was, what it is, and why."""

    label: str
    old: Exercise
    new: Exercise
    reason: str


@dataclass(frozen=True)
class StepLeftOut:
    """One step in which he helps and watches, and why it is barred."""

    label: str
    old: Exercise
    reasons: tuple[str, ...]


@dataclass(frozen=True)
class PersonalVersion:
    """The steps he does, what was swapped or left out, and what still breaks the bar flow.

    ``set_by_medical_staff`` is what an athlete kept from all training may do besides watching.
    """

    steps: tuple[Step, ...]
    swaps: tuple[StepSwap, ...] = ()
    left_out: tuple[StepLeftOut, ...] = ()
    breaks: tuple[FlowBreak, ...] = ()
    set_by_medical_staff: SwapChoice | None = None


def personal_version(
    block: Block,
    library: tuple[Exercise, ...],
    person: PersonToday,
    *,
    swaps: Sequence[Swap] = (),
    kit: KitThere | None = None,
    space: SpaceThere | None = None,
) -> PersonalVersion:
    """The block for one athlete: the coach's own swaps first, then a swap for each barred step.

    The coach's swaps are obeyed unless they are barred themselves; then they are swapped too.
    """
    by_id = {e.id: e for e in library}
    lookup = by_id.__getitem__
    asked = personal_steps(block.steps, {s.step_label: s for s in swaps}, lookup, lane=block.lane)
    done: list[Step] = []
    changed: list[StepSwap] = []
    left_out: list[StepLeftOut] = []
    by_medical_staff: SwapChoice | None = None
    for index, step in enumerate(asked):
        old = lookup(step.exercise)
        barred = barred_by(old, person.restrictions, person.pains, person.level, person.age)
        if not barred:
            done.append(step)
            continue
        problem = _problem(block, asked, index, library, person)
        if block.style is Style.COMPLEX:
            before = done[-1] if done else asked[-1]
            problem = _flowing(problem, before, asked[(index + 1) % len(asked)], lookup)
        best = substitute(replace(problem, kit=kit, space=space)).best
        if best.exercise is None or best.scheme is None:
            by_medical_staff = by_medical_staff or (best if best.exercise else None)
            left_out.append(StepLeftOut(step.label, old, barred))
            continue
        changed.append(StepSwap(step.label, old, best.exercise, best.reason))
        done.append(_with(step, best))
    return PersonalVersion(
        steps=tuple(done),
        swaps=tuple(changed),
        left_out=tuple(left_out),
        breaks=flow_breaks(done, lookup) if block.style is Style.COMPLEX else (),
        set_by_medical_staff=by_medical_staff,
    )


def _problem(
    block: Block,
    steps: Sequence[Step],
    index: int,
    library: tuple[Exercise, ...],
    person: PersonToday,
) -> SubstitutionProblem:
    by_id = {e.id: e for e in library}
    return SubstitutionProblem(
        exercise=by_id[steps[index].exercise],
        scheme=steps[index].scheme,
        library=library,
        restrictions=person.restrictions,
        pains=person.pains,
        level=person.level,
        age=person.age,
        others=tuple(by_id[s.exercise] for place, s in enumerate(steps) if place != index),
        lane=block.lane,
    )


def _flowing(
    problem: SubstitutionProblem, before: Step, after: Step, lookup: Lookup
) -> SubstitutionProblem:
    """The same, between the step that leaves the bar and the one that takes it."""
    return replace(
        problem,
        bar_from=leaves_at(before, lookup(before.exercise)),
        bar_to=starts_at(lookup(after.exercise)),
    )


def _with(step: Step, choice: SwapChoice) -> Step:
    """A step with a choice put in."""
    if choice.exercise is None or choice.scheme is None:
        return step
    return replace(
        step, exercise=choice.exercise.id, scheme=choice.scheme, last_ends=choice.last_ends
    )
