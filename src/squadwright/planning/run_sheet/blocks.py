"""Blocks of work to be timed: a complex, a circuit, and drills at stations, in lanes, in pairs."""

from dataclasses import dataclass, replace
from enum import StrEnum

from squadwright.errors import InvalidInput

LONGEST_S = 4 * 3600


@dataclass(frozen=True)
class TimedExercise:
    """One exercise of a complex with the seconds it takes; bar flow decides if it can be cut."""

    name: str
    work_s: int
    can_be_cut: bool = True

    def __post_init__(self) -> None:
        check_whole(f"{self.name}.work_s", self.work_s, 1, LONGEST_S, "s")


@dataclass(frozen=True)
class BarUser:
    """Who uses which bar in which wave; ``rounds`` left out means all of them.

    Whoever takes a place when the one before him is done there has a ``first_round`` above 1.
    """

    athlete: str
    group: str
    bar: str
    wave: int
    rounds: int | None = None
    first_round: int = 1

    def works_in(self, rounds: int) -> range:
        """The rounds he works in, of so many of the block."""
        own = rounds if self.rounds is None else self.rounds
        return range(self.first_round, min(self.first_round + own - 1, rounds) + 1)


@dataclass(frozen=True)
class ComplexBlock:
    """Several exercises with one bar that is not put down; waves take turns on shared bars."""

    name: str
    exercises: tuple[TimedExercise, ...]
    users: tuple[BarUser, ...]
    rounds: int
    change_s: int = 20
    minimum_rest_s: int = 0
    minimum_rounds: int = 1

    def __post_init__(self) -> None:
        _check_not_empty(self.name, "exercises", self.exercises)
        _check_not_empty(self.name, "users", self.users)
        check_whole(f"{self.name}.rounds", self.rounds, 1, 50, "rounds")
        check_whole(f"{self.name}.change_s", self.change_s, 0, LONGEST_S, "s")
        check_whole(f"{self.name}.minimum_rest_s", self.minimum_rest_s, 0, LONGEST_S, "s")
        _check_users(self)

    @property
    def work_s(self) -> int:
        """Seconds of one pass of the complex [s]."""
        return sum(exercise.work_s for exercise in self.exercises)

    @property
    def wave_count(self) -> int:
        """How many waves share the bars."""
        return max(user.wave for user in self.users)


@dataclass(frozen=True)
class WorkGroup:
    """People who go through a block together; ``done`` names drills they have finished already."""

    name: str
    members: tuple[str, ...]
    done: tuple[str, ...] = ()

    def __post_init__(self) -> None:
        _check_not_empty(self.name, "members", self.members)


@dataclass(frozen=True)
class CircuitStation:
    """One station of a circuit; ``capacity`` is how many people may work at it at once."""

    name: str
    exercise: str
    capacity: int = 1
    kit: tuple[str, ...] = ()
    can_be_cut: bool = True

    def __post_init__(self) -> None:
        check_whole(f"{self.name}.capacity", self.capacity, 1, 100, "people")


@dataclass(frozen=True)
class CircuitBlock:
    """Groups rotate through stations on one clock; rounds start together."""

    name: str
    stations: tuple[CircuitStation, ...]
    groups: tuple[WorkGroup, ...]
    work_s: int
    move_s: int
    rounds: int
    round_rest_s: int = 0
    minimum_rounds: int = 1

    def __post_init__(self) -> None:
        _check_not_empty(self.name, "stations", self.stations)
        check_groups(self.name, self.groups)
        check_whole(f"{self.name}.work_s", self.work_s, 1, LONGEST_S, "s")
        check_whole(f"{self.name}.move_s", self.move_s, 0, LONGEST_S, "s")
        check_whole(f"{self.name}.rounds", self.rounds, 1, 50, "rounds")
        check_whole(f"{self.name}.round_rest_s", self.round_rest_s, 0, LONGEST_S, "s")
        largest = max(len(group.members) for group in self.groups)
        for station in self.stations:
            if station.capacity < largest:
                raise InvalidInput(
                    f"{self.name}.{station.name}.capacity",
                    f"{station.capacity} people, and the largest group has {largest}",
                    "Make groups smaller or the station larger",
                )


class DrillStyle(StrEnum):
    """How a group shares a drill."""

    TOGETHER = "all members at once"
    IN_TURN = "one works, the others feed, watch or rest"
    BOTH_THROW = "two throw to each other, a third watches"
    LANE = "in a line, with a gap between starts"


class LaneWay(StrEnum):
    """How people come back to the start of their lane."""

    SPRINT_BACK = "one way and sprint back"
    DOWN_AND_BACK = "down and back"
    WALK_BACK = "one way and walk back outside the lane"


@dataclass(frozen=True)
class Drill:
    """One drill, done by every group of a block.

    ``set_s`` is the time of one set (of one pass down the lane for ``LANE``); ``rest_s`` is owed to
    a person between two own sets; ``kit`` names pools of which one piece is held for the whole
    drill, or for each set only when ``frees_kit_between_sets``. Drills with one ``step`` may be
    done in any order, so that groups can swap; lower steps come first.
    """

    name: str
    sets: int
    set_s: int
    rest_s: int = 0
    change_s: int = 0
    style: DrillStyle = DrillStyle.TOGETHER
    kit: tuple[str, ...] = ()
    step: int = 1
    frees_kit_between_sets: bool = False
    gap_s: int = 0
    return_s: int = 0
    clear_s: int = 0
    way: LaneWay = LaneWay.WALK_BACK
    turns_round: bool = False
    can_be_cut: bool = True

    def __post_init__(self) -> None:
        check_whole(f"{self.name}.sets", self.sets, 1, 200, "sets")
        check_whole(f"{self.name}.set_s", self.set_s, 1, LONGEST_S, "s")
        for field in ("rest_s", "change_s", "gap_s", "return_s", "clear_s"):
            check_whole(f"{self.name}.{field}", getattr(self, field), 0, LONGEST_S, "s")
        if self.style is DrillStyle.LANE and max(self.gap_s, self.clear_s) < 1:
            raise InvalidInput(
                f"{self.name}.gap_s", "0 s between starts in a lane", "Give at least 1 s"
            )
        if self.frees_kit_between_sets and self.style is not DrillStyle.TOGETHER:
            raise InvalidInput(
                f"{self.name}.frees_kit_between_sets",
                f"has no meaning when {self.style.value}: the group needs its kit all the time",
                "Leave it out",
            )


@dataclass(frozen=True)
class KitPool:
    """Like pieces of kit, or like places, of which so many are here."""

    name: str
    count: int

    def __post_init__(self) -> None:
        check_whole(f"{self.name}.count", self.count, 1, 1000, "pieces")


@dataclass(frozen=True)
class DrillBlock:
    """Drills that each group goes through by itself, limited by the kit they share.

    ``change_s`` is the time to walk and reset between two drills.
    """

    name: str
    drills: tuple[Drill, ...]
    groups: tuple[WorkGroup, ...]
    pools: tuple[KitPool, ...] = ()
    change_s: int = 0
    minimum_sets: int = 1

    def __post_init__(self) -> None:
        _check_not_empty(self.name, "drills", self.drills)
        check_groups(self.name, self.groups)
        check_whole(f"{self.name}.change_s", self.change_s, 0, LONGEST_S, "s")
        names = [drill.name for drill in self.drills]
        known = {pool.name for pool in self.pools}
        for drill in self.drills:
            if names.count(drill.name) > 1:
                raise InvalidInput(
                    f"{self.name}.drills",
                    f"{drill.name!r} stands twice",
                    "Name each drill once, with all its sets",
                )
            for kit in drill.kit:
                if kit not in known:
                    raise InvalidInput(
                        f"{self.name}.{drill.name}.kit",
                        f"{kit!r} is not among the kit pools",
                        "Add a pool with its count",
                    )


Block = ComplexBlock | CircuitBlock | DrillBlock


def check_whole(place: str, value: int, low: int, high: int, unit: str) -> None:
    """Refuse a number that is not whole or not in its range."""
    if not isinstance(value, int) or isinstance(value, bool) or not low <= value <= high:
        raise InvalidInput(
            place, f"{value} is not a whole number from {low} to {high} {unit}", "Correct it"
        )


def check_groups(place: str, groups: tuple[WorkGroup, ...]) -> None:
    """Refuse an empty block, and a person or a name that stands in two groups."""
    _check_not_empty(place, "groups", groups)
    seen: set[str] = set()
    names: set[str] = set()
    for group in groups:
        if group.name in names:
            raise InvalidInput(
                f"{place}.groups", f"{group.name!r} names two groups", "Name each group once"
            )
        names.add(group.name)
        for member in group.members:
            if member in seen:
                raise InvalidInput(
                    f"{place}.groups", f"{member!r} stands in two groups", "Keep one of them"
                )
            seen.add(member)


def _check_not_empty(place: str, name: str, values: tuple[object, ...]) -> None:
    if not values:
        raise InvalidInput(f"{place}.{name}", "is empty", "Give at least one")


def one_after_the_other(users: tuple[BarUser, ...], rounds: int) -> tuple[BarUser, ...]:
    """The users, each who shares a place beginning in the round after the one before him."""
    free_from: dict[tuple[str, int], int] = {}
    begins: dict[str, int] = {}
    for user in sorted(users, key=lambda user: user.first_round):
        place = (user.bar, user.wave)
        begins[user.athlete] = max(user.first_round, free_from.get(place, 1))
        later = replace(user, first_round=begins[user.athlete])
        free_from[place] = max(free_from.get(place, 1), later.works_in(rounds).stop)
    return tuple(replace(user, first_round=begins[user.athlete]) for user in users)


def _check_users(block: ComplexBlock) -> None:
    taken: dict[tuple[str, int], set[int]] = {}
    people: set[str] = set()
    for user in block.users:
        check_whole(f"{block.name}.{user.athlete}.wave", user.wave, 1, 20, "waves")
        if user.rounds is not None:
            check_whole(f"{block.name}.{user.athlete}.rounds", user.rounds, 0, 50, "rounds")
        if user.athlete in people:
            raise InvalidInput(
                f"{block.name}.users", f"{user.athlete!r} stands twice", "Keep one place"
            )
        check_whole(f"{block.name}.{user.athlete}.first_round", user.first_round, 1, 50, "rounds")
        rounds = taken.setdefault((user.bar, user.wave), set())
        if rounds & set(user.works_in(block.rounds)):
            raise InvalidInput(
                f"{block.name}.users",
                f"bar {user.bar!r} has two users in wave {user.wave}",
                "Give one of them another bar or wave",
            )
        rounds.update(user.works_in(block.rounds))
        people.add(user.athlete)
