"""No throw goes across a lane: each pair of a throw line and a place where somebody lands or runs.

A layout made by the program has none, since no two places share floor. A layout moved by hand is
held to the same rule.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from squadwright.model.plan import FloorPlan, StationPlace

THROWS = ("throw", "throw line")
LANDS = ("lane", "landing", "group", "bar", "box")


@dataclass(frozen=True)
class Crossing:
    """A throw line that crosses a place of somebody else, and how much floor they share [m2]."""

    throw: StationPlace
    place: StationPlace
    shared_m2: float

    @property
    def sentence(self) -> str:
        """What is wrong."""
        return f"{self.throw.id} crosses {self.place.id}"

    @property
    def advice(self) -> str:
        """What to do."""
        return (
            f"Move {self.throw.id} or {self.place.id} apart, or throw only while nobody is there: "
            f"do one after the other"
        )


def crossings(plan: FloorPlan) -> tuple[Crossing, ...]:
    """Every throw line across somebody else's lane, landing zone or station at the same time."""
    return tuple(_crossings((*plan.stations, *plan.zones)))


def _crossings(places: Sequence[StationPlace]) -> Iterator[Crossing]:
    for throw in places:
        if throw.kind not in THROWS:
            continue
        for other in places:
            if other is throw or not _at_one_time(throw, other) or _belong(throw, other):
                continue
            both_throw = throw.kind == other.kind and throw.id < other.id
            if other.kind in LANDS or both_throw:
                shared = _shared_m2(throw, other)
                if shared > 1e-6:
                    yield Crossing(throw, other, round(shared, 4))


def _at_one_time(first: StationPlace, second: StationPlace) -> bool:
    return not first.block or not second.block or first.block == second.block


def _belong(first: StationPlace, second: StationPlace) -> bool:
    """Whether one is a zone of the other: within a place people take turns."""
    return _owner(first) == _owner(second)


def _owner(place: StationPlace) -> str:
    for start in ("throw line of ", "landing of "):
        if place.id.startswith(start):
            return place.id.removeprefix(start)
    return place.id


def _shared_m2(first: StationPlace, second: StationPlace) -> float:
    along = min(first.x_m + first.width_m, second.x_m + second.width_m) - max(first.x_m, second.x_m)
    across = min(first.y_m + first.depth_m, second.y_m + second.depth_m) - max(
        first.y_m, second.y_m
    )
    return max(0.0, along) * max(0.0, across)
