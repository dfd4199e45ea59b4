"""Whether the bar flows through each complex, and what mends it where it does not."""

from collections.abc import Iterator

from squadwright.library import exercise as library_exercise
from squadwright.library import exercises as library_exercises
from squadwright.model.plan import Severity
from squadwright.model.routine import Block, Routine, Style
from squadwright.planning.bar_flow import (
    ends_at,
    flow_breaks,
    leaves_at,
    starts_at,
)
from squadwright.planning.bar_flow.fix import FlowProblem, flow_fixes
from squadwright.planning.routine_check.finding import RoutineFinding, RoutineFix

SOURCE = "A complex is one bar that is not put down within a round: common practice, no source."


def bar_flow(routine: Routine) -> Iterator[RoutineFinding]:
    """The breaks of each complex with their fixes; one calm sentence where there is none."""
    for index, block in enumerate(routine.blocks):
        if block.style is Style.COMPLEX:
            yield from _of_block(index, block, is_only=len(routine.blocks) == 1)


def _of_block(index: int, block: Block, *, is_only: bool) -> Iterator[RoutineFinding]:
    where = "" if is_only else f"{block.name}: "
    breaks = flow_breaks(block.steps, library_exercise)
    way = tuple(_step_line(block, place) for place in range(len(block.steps)))
    if not breaks:
        yield RoutineFinding(
            "bar flow",
            Severity.NOTE,
            f"{where}The bar flows: each exercise starts where the one before leaves it.",
            (*way, SOURCE),
        )
    problem = FlowProblem(block.steps, library_exercises())
    for broken in breaks:
        yield RoutineFinding(
            "bar flow",
            Severity.WARNING,
            f"{where}{broken.sentence}",
            (*way, SOURCE),
            fixes=tuple(
                RoutineFix(fix.sentence, index, fix.steps) for fix in flow_fixes(problem, broken)
            ),
        )


def _step_line(block: Block, place: int) -> str:
    step = block.steps[place]
    exercise = library_exercise(step.exercise)
    left = leaves_at(step, exercise)
    lowered = f", then lowered to the {left}" if left is not ends_at(exercise) else ""
    return (
        f"{place + 1}. {exercise.name}: from the {starts_at(exercise)} to the "
        f"{ends_at(exercise)}{lowered}."
    )
