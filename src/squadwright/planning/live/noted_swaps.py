"""What was done instead of an exercise, as it was noted while the session ran."""

from collections.abc import Iterable
from dataclasses import dataclass

from squadwright.model.plan import Plan, exercise_names
from squadwright.model.record import EventKind, RecordEvent


@dataclass(frozen=True)
class NotedSwap:
    """One swap: the exercise that was left, what was done instead, and from which round.

    An empty ``instead`` says that from there on he did the exercise as planned again.
    """

    exercise: str
    name: str
    instead: str
    round: int

    @property
    def words(self) -> str:
        """The swap as the coach reads it: "Row instead of Jerk from round 2"."""
        since = f" from round {self.round}" if self.round else ""
        if not self.instead:
            return f"{self.name} again{since}"
        return f"{self.instead} instead of {self.name}{since}"


def noted_swaps(plan: Plan, own: Iterable[RecordEvent]) -> tuple[NotedSwap, ...]:
    """The swaps among an athlete's own events that hold, in order."""
    names = exercise_names(plan)
    return tuple(
        NotedSwap(
            event.exercise,
            names.get(event.exercise, event.exercise),
            event.words,
            event.round,
        )
        for event in own
        if event.kind is EventKind.SWAPPED
    )
