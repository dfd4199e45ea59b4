"""Named ways of moving the bar between two exercises without a repetition of either.

A free transition takes no skill and no word: picking the bar up, setting it down, sliding it to the
hip crease. The others lower the bar under control and belong to the last repetition, so the coach
writes them (``last_ends``). Nothing here lifts the bar: that takes an exercise.
"""

from dataclasses import dataclass

from squadwright.model.exercise import BarPosition

FLOOR, HANG, HIP = BarPosition.FLOOR, BarPosition.HANG, BarPosition.HIP
FRONT_RACK, BACK_RACK = BarPosition.FRONT_RACK, BarPosition.BACK_RACK
OVERHEAD = BarPosition.OVERHEAD


@dataclass(frozen=True)
class Transition:
    """One named way of moving the bar."""

    name: str
    start: BarPosition
    end: BarPosition
    is_free: bool


TRANSITIONS = (
    Transition("pick up", FLOOR, HANG, is_free=True),
    Transition("set down", HANG, FLOOR, is_free=True),
    Transition("slide up to the hip crease", HANG, HIP, is_free=True),
    Transition("slide down to the hang", HIP, HANG, is_free=True),
    Transition("lower to the hang", FRONT_RACK, HANG, is_free=False),
    Transition("lower to the front rack", OVERHEAD, FRONT_RACK, is_free=False),
    Transition("lower to the back, slowly", OVERHEAD, BACK_RACK, is_free=False),
)


def way(
    start: BarPosition, end: BarPosition, *, free_only: bool = False
) -> tuple[Transition, ...] | None:
    """The shortest chain of named transitions from one place to another, or None.

    An empty chain means that the bar is there already.
    """
    reached: dict[BarPosition, tuple[Transition, ...]] = {start: ()}
    frontier = [start]
    while frontier:
        here = frontier.pop(0)
        for transition in TRANSITIONS:
            if transition.start is not here or transition.end in reached:
                continue
            if free_only and not transition.is_free:
                continue
            reached[transition.end] = (*reached[here], transition)
            frontier.append(transition.end)
    return reached.get(end)


def flows(start: BarPosition, end: BarPosition) -> bool:
    """Whether the bar gets there without a written word."""
    return way(start, end, free_only=True) is not None
