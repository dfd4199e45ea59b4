"""What the dose of a complex is asked, and what it answers."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum

import numpy as np

from squadwright.errors import InvalidInput
from squadwright.model.muscles import MuscleGroup
from squadwright.planning.dose.draws import FloatArray
from squadwright.planning.dose.limit import check_within

PLAIN_RULE_SHARE = 0.60
PLAIN_RULE_REPETITIONS = 5
TARGET_PROBABILITY = 0.90


class CapacityBasis(StrEnum):
    """How a capacity is known."""

    TESTED = "tested"
    GUESSED = "guessed"


@dataclass(frozen=True)
class LiftCapacity:
    """One-repetition maximum of a reference lift, as far as it is known."""

    mean_kg: float
    sd_fraction: float
    basis: CapacityBasis

    def __post_init__(self) -> None:
        check_within("capacity.mean_kg", self.mean_kg, 1.0, 1500.0, "kg")
        check_within("capacity.sd_fraction", self.sd_fraction, 0.0, 0.5, "")


@dataclass(frozen=True)
class Learned:
    """What earlier sessions say of one athlete: a joint normal of the logs of what is unknown.

    ``names`` are those of the unknowns (``planning.dose.unknowns``), ``mean`` and ``covariance``
    (rows) their moments, in natural logarithms of kg or of the multiple of the population's
    middle. ``day_sd`` is the spread of strength from day to day, as a fraction; ``sessions`` how
    many sessions taught it.
    """

    names: tuple[str, ...]
    mean: tuple[float, ...]
    covariance: tuple[tuple[float, ...], ...]
    day_sd: float
    sessions: int

    def __post_init__(self) -> None:
        size = len(self.names)
        rows = {len(self.mean), len(self.covariance), *(len(row) for row in self.covariance)}
        if rows != {size}:
            raise InvalidInput(
                "learned",
                f"{size} names do not go with moments of sizes {sorted(rows)}",
                "Give one mean and one row of the covariance for each name",
            )
        check_within("learned.day_sd", self.day_sd, 0.0, 0.5, "")


@dataclass(frozen=True)
class MovementPart:
    """One part of a repetition: the part of each muscle group, and strength from a lift."""

    involvement: Mapping[MuscleGroup, float]
    reference_lift: str
    ratio: float
    ratio_sd_fraction: float = 0.15

    def __post_init__(self) -> None:
        check_within("movement.ratio", self.ratio, 0.02, 5.0, "")
        check_within("movement.ratio_sd_fraction", self.ratio_sd_fraction, 0.0, 0.5, "")
        if not any(self.involvement.values()):
            raise InvalidInput(
                "movement.involvement", "names no muscle group", "Give at least one group a part"
            )
        for group, part in self.involvement.items():
            check_within(f"movement.involvement[{group.value}]", part, 0.0, 1.0, "")


@dataclass(frozen=True)
class ComplexMovement:
    """One movement of a complex. ``repetitions`` counts both sides of a one-sided movement."""

    name: str
    parts: tuple[MovementPart, ...]
    repetitions: int
    wanted_reserve: int = 1
    seconds_per_repetition: float = 2.5

    def __post_init__(self) -> None:
        check_within(f"movement {self.name}: repetitions", self.repetitions, 1, 100, "repetitions")
        check_within(
            f"movement {self.name}: wanted reserve", self.wanted_reserve, 0, 10, "repetitions"
        )
        if not self.parts:
            raise InvalidInput(
                f"movement {self.name}", "has no part", "Give it at least one part with its groups"
            )


@dataclass(frozen=True)
class ComplexDoseProblem:
    """One athlete, one complex.

    ``plain_rule_kg`` is the load of the coach's plain rule; left out, it is ``plain_rule_share`` of
    the load for five repetitions in the weakest movement. ``coach_load_kg`` overrides the result.
    ``step_kg`` is the heaviest load of the next step from the last session. ``rule_kg``, or the
    plain rule where ``goes_by_plain_rule`` says so, takes the place of the model's own limit.
    ``learned`` takes that of ``capacities`` and of the population for every unknown it names.
    """

    movements: tuple[ComplexMovement, ...]
    rounds: int
    rest_s: float
    capacities: Mapping[str, LiftCapacity]
    target_probability: float = TARGET_PROBABILITY
    is_first_session: bool = False
    first_session_within_plain_rule: bool = True
    plain_rule_share: float = PLAIN_RULE_SHARE
    plain_rule_kg: float | None = None
    coach_load_kg: float | None = None
    learned: Learned | None = None
    step_kg: float | None = None
    rule_kg: float | None = None
    goes_by_plain_rule: bool = False

    def __post_init__(self) -> None:
        check_within("rounds", self.rounds, 1, 30, "rounds")
        check_within("rest_s", self.rest_s, 0, 3600, "s")
        check_within("target_probability", self.target_probability, 0.5, 0.99, "")
        check_within("plain_rule_share", self.plain_rule_share, 0.1, 1.0, "")
        for name in ("plain_rule_kg", "coach_load_kg", "step_kg", "rule_kg"):
            value = getattr(self, name)
            if value is not None:
                check_within(name, value, 0.5, 600.0, "kg")
        if not self.movements:
            raise InvalidInput("movements", "is empty", "Give the complex at least one movement")
        for lift in self.reference_lifts:
            if lift not in self.capacities:
                raise InvalidInput(
                    "capacities",
                    f"has no {lift}, from which a movement is scaled",
                    "Add a test of it, or guess it from another lift",
                )

    @property
    def reference_lifts(self) -> tuple[str, ...]:
        """The lifts from which the movements are scaled, each once."""
        return reference_lifts_of(self.movements)


@dataclass(frozen=True)
class ReserveAt:
    """Median repetitions in reserve right after a movement of a round."""

    round: int
    movement: str
    reserve_repetitions: float


@dataclass(frozen=True)
class ComplexDoseSolution:
    """The dose of one athlete.

    ``modelled_limit_kg`` is the model's own; ``limit_kg`` is what holds after the first-session
    rule, the step from the last session and the coach's override, with the chance of completing at
    that load. ``reserve`` is for ``limit_kg``. The exact limit can be loaded only if plates allow:
    see ``heaviest_buildable``.
    """

    limit_kg: float
    modelled_limit_kg: float
    completion_probability: float
    target_probability: float
    limiting_movement: str
    limiting_round: int
    least_reserve_repetitions: float
    reserve: tuple[ReserveAt, ...]
    plain_rule_kg: float
    basis: CapacityBasis
    held_by_first_session: bool
    held_by_step: bool
    goes_by_rule: bool
    set_by_coach: bool
    reason: str
    critical_load_kg: FloatArray = field(repr=False, compare=False)

    def completion_probability_at(self, load_kg: float) -> float:
        """Chance of completing every repetition of every round, with the reserve, at a load."""
        above = len(self.critical_load_kg) - int(
            np.searchsorted(self.critical_load_kg, load_kg, side="left")
        )
        return above / len(self.critical_load_kg)


def reference_lifts_of(movements: tuple[ComplexMovement, ...]) -> tuple[str, ...]:
    """The lifts from which movements are scaled, each once."""
    return tuple(dict.fromkeys(part.reference_lift for m in movements for part in m.parts))
