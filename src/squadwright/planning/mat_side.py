"""At the mats on the day of a competition: who must warm up now, and the time between two bouts."""

from collections.abc import Iterable
from dataclasses import dataclass
from enum import IntEnum
from math import ceil

COMMON_PRACTICE = "common practice, no source"
BOUTS_AHEAD_SOURCE = (
    "the coach's setting; 4 is what one youth wrestling club writes for parents, read"
)
MINUTES_SOURCE = "the coach's setting, no source: time one mat for three bouts and change it"
MOST_AHEAD = 12
MOST_MINUTES = 60


@dataclass(frozen=True)
class CallSettings:
    """From how many bouts ahead on his mat an athlete warms up, and how long one bout takes."""

    bouts_ahead: int = 4
    minutes_a_bout: int = 8


@dataclass(frozen=True)
class Standing:
    """What is known of an athlete: bouts ahead of his own, None where nobody has said.

    ``minutes_gone`` have passed since it was said. Who ``is_barred`` does not compete at all.
    """

    athlete: str
    ahead: int | None = None
    is_over: bool = False
    minutes_gone: float = 0.0
    is_barred: bool = False


class Move(IntEnum):
    """What he does now, the most pressing first."""

    WARM_UP = 0
    WAIT = 1
    NOT_SAID = 2
    OVER = 3
    BARRED = 4


@dataclass(frozen=True)
class Called:
    """One line of the queue; minutes are estimates, None where nothing is known."""

    standing: Standing
    move: Move
    minutes_to_call: int | None = None
    minutes_to_warm_up: int | None = None


def queue(standings: Iterable[Standing], settings: CallSettings) -> tuple[Called, ...]:
    """Everybody in the order in which he must move; those alike stay in the order given."""
    return tuple(
        sorted(
            (_called(each, settings) for each in standings),
            key=lambda called: (called.move, called.minutes_to_call or 0),
        )
    )


def _called(standing: Standing, settings: CallSettings) -> Called:
    if standing.is_barred:
        return Called(standing, Move.BARRED)
    if standing.is_over:
        return Called(standing, Move.OVER)
    if standing.ahead is None:
        return Called(standing, Move.NOT_SAID)
    to_call = max(0.0, standing.ahead * settings.minutes_a_bout - standing.minutes_gone)
    to_warm_up = max(0.0, to_call - settings.bouts_ahead * settings.minutes_a_bout)
    return Called(
        standing,
        Move.WAIT if to_warm_up > 0 else Move.WARM_UP,
        minutes_to_call=ceil(to_call),
        minutes_to_warm_up=ceil(to_warm_up),
    )


@dataclass(frozen=True)
class RoutineStep:
    """One step between two bouts.

    It holds in the first ``after_minutes`` after a bout, or from ``before_minutes`` before the next
    call; the one with neither holds in between.
    """

    name: str
    words: str
    after_minutes: int | None = None
    before_minutes: int | None = None


BETWEEN_BOUTS = (
    RoutineStep(
        "Come down",
        "Walk until the breath is calm, dry layer on. A knock, pain or anything odd: medical staff "
        "first, and no next bout before they have said so",
        after_minutes=5,
    ),
    RoutineStep(
        "Rest",
        "Sit or lie with the legs up, away from the noise. Food and drink only as usual. "
        "One sentence about the next bout, no more",
    ),
    RoutineStep(
        "Warm again",
        "Walk, then joints from the ankles to the neck, light steps and hand fighting",
        before_minutes=15,
    ),
    RoutineStep(
        "Build up",
        "Three bursts of 10 s of known attacks, a minute of walking after each: warm, not tired",
        before_minutes=8,
    ),
    RoutineStep(
        "At the mat",
        "Layer on until the call, slow breaths, and the first grip said aloud",
        before_minutes=3,
    ),
)
"""Steps between two bouts; a gap too short for all of them loses the rest first."""
