"""Where the plates give no step up: one round more, or less rest, as a proposal to the coach.

It is made only after two whole sessions that were called easy, and only where the chance of the
whole of it is still what is asked for. It changes nothing by itself: round and rest are the
group's.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from enum import StrEnum

from squadwright.learning.forecast import forecast
from squadwright.learning.history import Trial, Work
from squadwright.learning.progression import SAME_KG, two_for_two
from squadwright.planning.dose.problem import Learned, LiftCapacity

LESS_REST_S = 15.0
LEAST_REST_S = 30.0
OTHER_STEP_SOURCE = (
    "our default: load before rounds, rounds before rest; 15 s a time, never below 30 s"
)


class OtherKind(StrEnum):
    """What grows instead of the load."""

    ROUND = "one round more"
    REST = "less rest"


@dataclass(frozen=True)
class Room:
    """What the plan leaves: the next load up the store can build, and the time to spare.

    ``next_kg`` is None where nothing heavier can be built. ``round_s`` is what a round takes now.
    ``sets_rest``: the routine itself sets the rest in seconds; where turns and partners set it,
    it cannot be made shorter.
    """

    load_kg: float
    target_kg: float
    next_kg: float | None
    target_probability: float
    spare_s: float
    round_s: float
    sets_rest: bool = True

    @property
    def is_held_by_plates(self) -> bool:
        """Whether the dose would bear the next load, and it cannot be built for him."""
        return self.next_kg is None or (
            self.load_kg < self.next_kg - SAME_KG and self.target_kg >= self.next_kg - SAME_KG
        )


@dataclass(frozen=True)
class OtherStep:
    """What is proposed instead of a heavier load, and the chance of the whole of it."""

    kind: OtherKind
    work: Work
    chance: float


def other_step(
    trials: Sequence[Trial],
    learned: Learned,
    work: Work,
    capacities: Mapping[str, LiftCapacity],
    room: Room,
) -> OtherStep | None:
    """One round more if the slot has time for it, else 15 s less rest; None where neither fits."""
    if not room.is_held_by_plates or not two_for_two(trials):
        return None
    if room.load_kg > trials[-1].load_kg + SAME_KG:
        return None
    tried = []
    if 0 < room.round_s <= room.spare_s:
        tried.append((OtherKind.ROUND, replace(work, rounds=work.rounds + 1)))
    if room.sets_rest and work.rest_s - LESS_REST_S >= LEAST_REST_S:
        tried.append((OtherKind.REST, replace(work, rest_s=work.rest_s - LESS_REST_S)))
    for kind, harder in tried:
        chance = forecast(learned, harder, room.load_kg, capacities).completes
        if chance >= room.target_probability:
            return OtherStep(kind, harder, chance)
    return None
