"""What is asked of a day of testing, and what comes back."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from squadwright.errors import InvalidInput
from squadwright.model.fitness_test import TestKind
from squadwright.planning.test_day.order import (
    STRENGTH_BEFORE_SPEED,
    PublishedOrder,
    rest_between_s,
)

MOST_ATHLETES = 60
MOST_TESTS = 12
LONGEST_TEST_S = 3600
LONGEST_SLOT_S = 8 * 3600
SESSION_TIME_LIMIT_S = 2.0


@dataclass(frozen=True)
class Station:
    """One test and its place.

    Each athlete takes ``duration_s``, his attempts and the rests between them included. ``places``
    athletes can be at it at once; ``together`` means that these start together in one sitting
    (a shuttle run). ``helpers`` are needed for each athlete at it, or for each sitting.
    """

    id: str
    kind: TestKind
    duration_s: int
    places: int = 1
    helpers: int = 0
    together: bool = False
    rest_after_s: int = 0


@dataclass(frozen=True)
class DayProblem:
    """A squad, its tests, the helpers and the slot.

    ``last_order`` holds, for each athlete tested before, his tests in the order of last time.
    ``skips`` are pairs of an athlete and a test he does not do; he does the others.
    """

    athletes: tuple[str, ...]
    stations: tuple[Station, ...]
    helpers: int
    slot_s: int
    order: PublishedOrder = STRENGTH_BEFORE_SPEED
    most_waiting: int = 3
    last_order: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    time_limit_s: float = SESSION_TIME_LIMIT_S
    skips: frozenset[tuple[str, str]] = frozenset()

    def __post_init__(self) -> None:
        _check_names("athletes", self.athletes, MOST_ATHLETES)
        _check_names("stations", tuple(s.id for s in self.stations), MOST_TESTS)
        _check_number("helpers", self.helpers, 0, MOST_ATHLETES, "people")
        _check_number("slot_s", self.slot_s, 60, LONGEST_SLOT_S, "s")
        _check_number("most_waiting", self.most_waiting, 0, MOST_ATHLETES, "athletes")
        for place, station in enumerate(self.stations):
            _check_station(f"stations[{place}]", station, self)
            if not self.members(station):
                raise InvalidInput("skips", f"nobody does {station.id}", "Take that test out")
        for athlete in self.athletes:
            if not self.tests_of(athlete):
                raise InvalidInput("skips", f"{athlete} does no test", "Leave the athlete out")
        if not self.time_limit_s > 0:
            raise InvalidInput(
                "time_limit_s", f"{self.time_limit_s:g} s is not above 0", "Give at least 0.1 s"
            )

    def members(self, station: Station) -> tuple[str, ...]:
        """Who does a test."""
        return tuple(a for a in self.athletes if (a, station.id) not in self.skips)

    def tests_of(self, athlete: str) -> tuple[Station, ...]:
        """The tests an athlete does."""
        return tuple(s for s in self.stations if (athlete, s.id) not in self.skips)

    def stage(self, station: Station) -> int:
        """Number of a station's stage, from 0."""
        return self.order.stage(station.kind)

    def rest_s(self, before: Station, after: Station) -> int:
        """Rest an athlete is owed between two tests [s]."""
        return max(before.rest_after_s, rest_between_s(before.kind, after.kind))

    def wanted_order(self, athlete: str) -> tuple[Station, ...]:
        """The tests of today in the order in which he had them last time; no others."""
        known = {station.id: station for station in self.tests_of(athlete)}
        return tuple(known[t] for t in self.last_order.get(athlete, ()) if t in known)

    def sittings(self, station: Station) -> int:
        """How often a test done together is held."""
        return -(-len(self.members(station)) // station.places)


@dataclass(frozen=True)
class Visit:
    """One athlete at one test: seconds from the start, place and helpers numbered from 1.

    ``waited_s`` is how long he stood in its queue: from the end of his rest to his turn. Before his
    first test he warms up and is called, and before a sitting all gather, so there he waits in no
    queue.
    """

    athlete: str
    station: str
    start_s: int
    end_s: int
    place: int
    helpers: tuple[int, ...] = ()
    waited_s: int = 0


@dataclass(frozen=True)
class DayPlan:
    """The day, and how good it is proven to be.

    ``changed`` names who has another order than last time; no plan within the slot has fewer than
    ``changed_bound``. With that number of them no plan is shorter than ``bound_s``, because of
    ``bottleneck`` where the plain bound already says so.
    """

    visits: tuple[Visit, ...]
    length_s: int
    bound_s: int
    bottleneck: str
    changed: tuple[str, ...] = ()
    changed_bound: int = 0
    warnings: tuple[str, ...] = ()

    @property
    def is_proven(self) -> bool:
        """Whether nobody can do better."""
        return self.length_s == self.bound_s and len(self.changed) == self.changed_bound


def _check_names(name: str, ids: tuple[str, ...], most: int) -> None:
    if not 1 <= len(ids) <= most:
        raise InvalidInput(name, f"holds {len(ids)}; 1 to {most} are planned", "Divide the day")
    twice = [one for place, one in enumerate(ids) if one in ids[:place]]
    if twice:
        raise InvalidInput(name, f"{twice[0]!r} stands twice in the list", "Keep each once")


def _check_number(name: str, value: int, low: int, high: int, unit: str) -> None:
    if not low <= value <= high:
        raise InvalidInput(
            name, f"{value} {unit} is outside {low} to {high}", "Give a number in it"
        )


def _check_station(place: str, station: Station, problem: DayProblem) -> None:
    _check_number(f"{place}.duration_s", station.duration_s, 1, LONGEST_TEST_S, "s")
    _check_number(f"{place}.places", station.places, 1, MOST_ATHLETES, "places")
    _check_number(f"{place}.rest_after_s", station.rest_after_s, 0, LONGEST_TEST_S, "s")
    _check_number(f"{place}.helpers", station.helpers, 0, MOST_ATHLETES, "helpers")
    problem.stage(station)
    if station.helpers > problem.helpers:
        raise InvalidInput(
            f"{place}.helpers",
            f"{station.id} needs {station.helpers} helpers and {problem.helpers} are there",
            "Ask more people, or test it another way",
        )
