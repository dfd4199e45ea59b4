"""Bar flow: in a complex each exercise starts where the one before left the bar.

The check goes round: the last exercise of a round must leave the bar where the first of the next
one takes it. An exercise without a bar in a complex has the bar lying on the floor.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from squadwright.model.exercise import BarPosition, Exercise
from squadwright.model.routine import Step
from squadwright.planning.bar_flow.transition import flows, way

Lookup = Callable[[str], Exercise]


@dataclass(frozen=True)
class FlowBreak:
    """The bar is left at ``ends`` after one step, and the next takes it at ``starts``.

    ``index`` is the place of the step that leaves it (from 0); ``wraps`` marks the turn from the
    last step of a round to the first of the next. Where ``last_ends_is_wrong``, the step says it
    ends at ``starts`` and no named way leads there from ``ends``.
    """

    index: int
    after: str
    before: str
    ends: BarPosition
    starts: BarPosition
    wraps: bool = False
    last_ends_is_wrong: bool = False

    @property
    def sentence(self) -> str:
        """The break in words."""
        if self.last_ends_is_wrong:
            return (
                f"{self.after} is written to end at the {self.starts}, and there is no way to "
                f"lower the bar there from the {self.ends}."
            )
        where = "At the turn of the round: " if self.wraps else ""
        return (
            f"{where}{self.after} leaves the bar at the {self.ends}, "
            f"and {self.before} takes it at the {self.starts}."
        )


def starts_at(exercise: Exercise) -> BarPosition:
    """Where an exercise takes the bar; one without a bar has it lying on the floor."""
    return exercise.start or BarPosition.FLOOR


def ends_at(exercise: Exercise) -> BarPosition:
    """Where an exercise leaves the bar when nothing else is written."""
    return exercise.end or BarPosition.FLOOR


def leaves_at(step: Step, exercise: Exercise) -> BarPosition:
    """Where a step leaves the bar: what is written, where a named way leads there."""
    if step.last_ends is not None and way(ends_at(exercise), step.last_ends) is not None:
        return step.last_ends
    return ends_at(exercise)


def flow_breaks(steps: Sequence[Step], lookup: Lookup) -> tuple[FlowBreak, ...]:
    """Every break of a complex, in order, the turn of the round last."""
    breaks: list[FlowBreak] = []
    for index, step in enumerate(steps):
        following = steps[(index + 1) % len(steps)]
        here, there = lookup(step.exercise), lookup(following.exercise)
        if step.last_ends is not None and way(ends_at(here), step.last_ends) is None:
            breaks.append(
                FlowBreak(
                    index,
                    _said(step, here),
                    _said(step, here),
                    ends_at(here),
                    step.last_ends,
                    last_ends_is_wrong=True,
                )
            )
        if not flows(leaves_at(step, here), starts_at(there)):
            breaks.append(
                FlowBreak(
                    index,
                    _said(step, here),
                    _said(following, there),
                    leaves_at(step, here),
                    starts_at(there),
                    wraps=index == len(steps) - 1,
                )
            )
    return tuple(breaks)


def _said(step: Step, exercise: Exercise) -> str:
    return f"{step.label} {exercise.name}".strip()
