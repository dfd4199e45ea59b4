"""What is asked when a squad is divided into groups, and what comes back."""

from dataclasses import dataclass, field
from enum import StrEnum

from squadwright.errors import InvalidInput
from squadwright.model.session import MinorRule as MinorRule

LARGEST_SQUAD = 60
LARGEST_GROUP = 10
SESSION_TIME_LIMIT_S = 1.0
"""Time to divide a squad while somebody waits for the plan [s]."""


class GroupKind(StrEnum):
    """The way a squad is divided."""

    PAIRS = "pairs"
    THREES = "threes"
    WAVES = "waves"
    LANES = "lanes"


class OddRule(StrEnum):
    """What happens in a pairs session when the number is odd."""

    THREE = "three"
    COACH = "coach partners"


@dataclass(frozen=True)
class GroupMember:
    """One person to be placed; a measure is needed only where its weight is above zero."""

    id: str
    load_kg: float | None = None
    height_cm: float | None = None
    level: float | None = None
    body_mass_kg: float | None = None
    is_minor: bool = False


@dataclass(frozen=True)
class Similarity:
    """What one unit of difference counts. The defaults are ours: similar load only."""

    load_per_kg: float = 1.0
    height_per_cm: float = 0.0
    level_per_step: float = 0.0
    body_mass_per_kg: float = 0.0

    def __post_init__(self) -> None:
        for name, weight in self.named():
            if not 0 <= weight <= 1000:
                raise InvalidInput(
                    f"similarity.{name}", f"{weight:g} is outside 0 to 1000", "Give a weight in it"
                )
        if not any(weight for _, weight in self.named()):
            raise InvalidInput(
                "similarity",
                "every weight is 0, so nobody is more alike than anybody else",
                "Set at least one weight above 0",
            )

    def named(self) -> tuple[tuple[str, float], ...]:
        """Pairs of member measure and its weight."""
        return (
            ("load_kg", self.load_per_kg),
            ("height_cm", self.height_per_cm),
            ("level", self.level_per_step),
            ("body_mass_kg", self.body_mass_per_kg),
        )


@dataclass(frozen=True)
class Group:
    """People who work together.

    ``kind`` is "pair", "three", "bar", "lane" or "with coach". ``bars`` and ``waves`` hold one
    number per member, in the order of ``members``, and are empty unless the squad is in waves.
    """

    members: tuple[str, ...]
    kind: str
    number: int
    bars: tuple[int, ...] = ()
    waves: tuple[int, ...] = ()
    difference: float = 0.0


@dataclass(frozen=True)
class GroupProblem:
    """A squad to divide.

    ``previous`` is the division before a late change: people it does not touch stay as they were.
    ``wave_count`` and ``bar_count`` count for waves, ``lane_length`` and ``lane_count`` for lanes;
    a count left out means as many as are needed.
    """

    members: tuple[GroupMember, ...]
    kind: GroupKind
    similarity: Similarity = field(default_factory=Similarity)
    bans: tuple[tuple[str, str], ...] = ()
    musts: tuple[tuple[str, str], ...] = ()
    wishes: tuple[tuple[str, str], ...] = ()
    minor_rule: MinorRule = MinorRule.AVOID
    odd_rule: OddRule = OddRule.THREE
    wave_count: int = 2
    bar_count: int | None = None
    lane_length: int = 5
    lane_count: int | None = None
    previous: tuple[Group, ...] = ()
    time_limit_s: float = 2.0

    def __post_init__(self) -> None:
        _check_members(self.members)
        for name in ("bans", "musts", "wishes"):
            _check_pairs(name, getattr(self, name), {member.id for member in self.members})
        _check_measures(self)
        _check_number("wave_count", self.wave_count, 1, LARGEST_GROUP)
        _check_number("lane_length", self.lane_length, 2, LARGEST_GROUP)
        for name in ("bar_count", "lane_count"):
            if getattr(self, name) is not None:
                _check_number(name, getattr(self, name), 1, LARGEST_SQUAD)
        if not self.time_limit_s > 0:
            raise InvalidInput(
                "time_limit_s", f"{self.time_limit_s:g} s is not above 0", "Give at least 0.1 s"
            )


@dataclass(frozen=True)
class GroupSolution:
    """The division, and how good it is proven to be.

    ``total_difference`` sums, within each group, the weighted differences of every two members.
    ``bound`` is a value no valid division with the same kept places and granted wishes can go
    below; ``is_proven`` says both are equal (to 0.000001) and that no division keeps more people
    or grants more wishes.
    """

    kind: GroupKind
    groups: tuple[Group, ...]
    total_difference: float
    bound: float
    is_proven: bool
    kept: tuple[str, ...] = ()
    granted_wishes: tuple[tuple[str, str], ...] = ()
    notes: tuple[str, ...] = ()


def _check_members(members: tuple[GroupMember, ...]) -> None:
    if not 1 <= len(members) <= LARGEST_SQUAD:
        raise InvalidInput(
            "members",
            f"{len(members)} people; groups are made for 1 to {LARGEST_SQUAD}",
            "Check who is present, or divide the squad first",
        )
    seen: set[str] = set()
    for position, member in enumerate(members):
        if member.id in seen:
            raise InvalidInput(
                f"members[{position}].id",
                f"{member.id!r} stands twice in the list",
                "Keep each person once",
            )
        seen.add(member.id)


def _check_pairs(name: str, pairs: tuple[tuple[str, str], ...], known: set[str]) -> None:
    for position, (one, other) in enumerate(pairs):
        if one == other:
            raise InvalidInput(
                f"{name}[{position}]", f"{one!r} stands on both sides", "Name two people"
            )
        for person in (one, other):
            if person not in known:
                raise InvalidInput(
                    f"{name}[{position}]",
                    f"{person!r} is not among the people to be placed",
                    "Leave the entry out, or add the person",
                )


def _check_measures(problem: GroupProblem) -> None:
    for name, weight in problem.similarity.named():
        for position, member in enumerate(problem.members):
            value = getattr(member, name)
            if weight and value is None:
                raise InvalidInput(
                    f"members[{position}].{name}",
                    f"missing for {member.id!r}, although {name} counts for similarity",
                    "Give an estimate, or set its weight to 0",
                )
            if value is not None and not 0 <= value <= 1000:
                raise InvalidInput(
                    f"members[{position}].{name}",
                    f"{value:g} for {member.id!r} is outside 0 to 1000",
                    "Check the number and its unit",
                )


def _check_number(name: str, value: int, low: int, high: int) -> None:
    if not low <= value <= high:
        raise InvalidInput(name, f"{value} is outside {low} to {high}", "Give a number in it")
