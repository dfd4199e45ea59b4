"""A complex as the tests put one together: with swaps in it, or mended break by break."""

from collections.abc import Mapping, Sequence
from dataclasses import replace

from squadwright.errors import NoSolution
from squadwright.model.routine import Step
from squadwright.model.session import Swap
from squadwright.planning.bar_flow import Lookup, ends_at, flow_breaks
from squadwright.planning.bar_flow.fix import FlowProblem, flow_fixes
from squadwright.planning.bar_flow.transition import way
from squadwright.planning.same_work import same_work


def personal_steps(
    steps: Sequence[Step],
    swaps: Mapping[str, Swap],
    lookup: Lookup,
) -> tuple[Step, ...]:
    """The steps as one athlete does them, his swaps put in by the label of the step.

    A swap without an amount of its own fills the same seconds of work. A written end stays where
    the new exercise can still be lowered to it.
    """
    return tuple(
        _swapped(step, swaps[step.label], lookup) if step.label in swaps else step for step in steps
    )


def _swapped(step: Step, swap: Swap, lookup: Lookup) -> Step:
    old, new = lookup(step.exercise), lookup(swap.exercise)
    keeps = step.last_ends is not None and way(ends_at(new), step.last_ends) is not None
    return replace(
        step,
        exercise=swap.exercise,
        scheme=swap.scheme or same_work(old, step.scheme, new),
        last_ends=step.last_ends if keeps else None,
    )


def repaired(problem: FlowProblem) -> tuple[Step, ...]:
    """The complex mended break by break with the first fix of each; raises NoSolution."""
    while breaks := flow_breaks(problem.steps, problem.lookup):
        fixes = flow_fixes(problem, breaks[0])
        if not fixes:
            raise NoSolution(breaks[0].sentence)
        problem = replace(problem, steps=fixes[0].steps)
    return problem.steps
