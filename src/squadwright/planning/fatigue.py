"""How repetitions tire the muscle groups and how rest gives strength back.

The state is what each muscle group of each person has lost of its fresh strength. One repetition
of a lift costs a loss that depends on the load alone, shared out to the groups by their part in
the lift. Of that loss, a part is back within seconds of racking the bar; the rest comes back in a
fast and a slow phase. A repetition is lost when the present strength of the lift, taken from its
groups, is below the load.

The loss of a repetition depends on the load and never on the state, every phase only decays, and
strength only falls as losses grow. So, on the same people, more rest never lowers what is left,
and more repetitions, rounds, exercises or load never raise it. Time under the bar gives nothing
back: a complex holds grip, trunk and breath from the first repetition to the last.

The constants are our estimate. They were fitted by ``benchmarks/fatigue_calibration.py``.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field

import numpy as np

from squadwright.model.muscles import MuscleGroup
from squadwright.planning.draws import SEED, FloatArray, normal_draws, uniform_draws

GROUPS = tuple(MuscleGroup)
_PLACE = {group: place for place, group in enumerate(GROUPS)}
_UPPER = (
    MuscleGroup.CHEST,
    MuscleGroup.SHOULDERS,
    MuscleGroup.ELBOW_EXTENSORS,
    MuscleGroup.ELBOW_FLEXORS,
    MuscleGroup.UPPER_BACK,
    MuscleGroup.GRIP,
)
_HALVINGS = 30
_BEND_REPETITIONS = 5.0


def _per_group(upper: float, **others: float) -> dict[MuscleGroup, float]:
    named = {MuscleGroup[name.upper()]: value for name, value in others.items()}
    return {
        g: named.get(g, upper if g in _UPPER else named[MuscleGroup.HIP_EXTENSORS]) for g in GROUPS
    }


@dataclass(frozen=True)
class FatigueConstants:
    """Constants of the model: our estimate, fitted to published sets to failure.

    Fitted to Willardson & Burkett 2005 (bench press and squat, rests of 1, 2 and 5 min), Speretta
    2012, Ratamess 2007 and Scudese 2016, with repetitions at a share of the maximum from Cooke
    2019, Wolfe 2024, Shimano 2006 and McKusick 2015. ``benchmarks/fatigue_calibration.py``.
    """

    load_exponent: float = 1.32
    immediate_fraction: float = 0.56
    immediate_s: float = 5.2
    fast_fraction: float = 0.955
    fast_s: dict[MuscleGroup, float] = field(
        default_factory=lambda: _per_group(144.0, hip_extensors=100.0, knee_extensors=144.0)
    )
    slow_s: dict[MuscleGroup, float] = field(
        default_factory=lambda: _per_group(706.0, hip_extensors=706.0)
    )
    repetition_factor: dict[MuscleGroup, float] = field(
        default_factory=lambda: _per_group(26.0, hip_extensors=30.0, knee_extensors=32.0)
    )
    endurance_sd: float = 0.27
    recovery_sd: float = 0.20
    strength_sd: float = 0.01
    test_step_fraction: float = 0.028
    whole_body_share: float = 0.10


@dataclass(frozen=True)
class People:
    """People drawn from the population, one entry each.

    ``endurance`` multiplies repetitions, ``recovery`` multiplies recovery times, ``strength`` is
    true strength over the tested 1RM (a test ends at the last step lifted), ``place_in_step`` is
    where between two steps of a test he stands.
    """

    endurance: FloatArray
    recovery: FloatArray
    strength: FloatArray
    place_in_step: FloatArray

    @property
    def count(self) -> int:
        """How many."""
        return len(self.endurance)


@dataclass(frozen=True)
class LiftLoad:
    """A lift as the muscle groups feel it.

    ``weight`` says how much each group decides the strength of the lift (sums to 1); ``loss`` how
    much each group loses when the lift loses 1; ``repetition_factor`` is about how many
    repetitions at full load would cost all strength (30 in Epley's line).
    """

    weight: FloatArray
    loss: FloatArray
    repetition_factor: float


@dataclass(frozen=True)
class FatigueState:
    """What each group (second axis) of each person (first axis) has lost, by phase."""

    immediate: FloatArray
    fast: FloatArray
    slow: FloatArray


class FatigueModel:
    """The fatigue model for one set of constants."""

    def __init__(self, constants: FatigueConstants | None = None) -> None:
        self.constants = constants or FatigueConstants()
        self._fast_s = np.array([self.constants.fast_s[g] for g in GROUPS])
        self._slow_s = np.array([self.constants.slow_s[g] for g in GROUPS])
        self._factor = np.array([self.constants.repetition_factor[g] for g in GROUPS])

    def people(self, count: int, seed: int = SEED) -> People:
        """Draw people from the population."""
        c = self.constants
        place = uniform_draws("place in step", count, seed)
        day = normal_draws("strength of the day", count, seed)
        return People(
            endurance=np.exp(c.endurance_sd * normal_draws("endurance", count, seed)),
            recovery=np.exp(c.recovery_sd * normal_draws("recovery", count, seed)),
            strength=1 + c.test_step_fraction * place + c.strength_sd * day,
            place_in_step=place,
        )

    def lift(
        self, involvement: Mapping[MuscleGroup, float], repetition_factor: float | None = None
    ) -> LiftLoad:
        """A lift from the part (0 to 1) each group has in it.

        Groups with no part still lose a little with every repetition: breathing and bracing, an
        assumption of ours with no measurement behind it.
        """
        part = np.zeros(len(GROUPS))
        for group, share in involvement.items():
            part[_PLACE[group]] = share
        weight = part / part.sum()
        felt = np.maximum(part, self.constants.whole_body_share * part.max())
        factor = float(weight @ self._factor) if repetition_factor is None else repetition_factor
        return LiftLoad(weight, felt / float(weight @ felt), factor)

    def cost(self, lift: LiftLoad, load_fraction: FloatArray, people: People) -> FloatArray:
        """Loss of the lift by one repetition at a share of its fresh strength."""
        spent: FloatArray = load_fraction**self.constants.load_exponent
        return spent / (lift.repetition_factor * people.endurance)

    def strength_left(
        self, immediate: FloatArray, lasting: FloatArray, repetition_factor: FloatArray | float
    ) -> FloatArray:
        """Share of fresh strength, from the losses of the immediate and the lasting kind.

        The lasting loss counts by its square: one maximal repetition leaves next to nothing, a
        long set to failure a lot.
        """
        straight, bent = self._shares(repetition_factor)
        left: FloatArray = 1 - straight * immediate - bent * lasting**2
        return left

    def _shares(self, repetition_factor: FloatArray | float) -> tuple[float, FloatArray | float]:
        straight = self.constants.immediate_fraction
        return straight, (1 - straight) * repetition_factor / _BEND_REPETITIONS

    def repetitions_from(
        self,
        immediate: FloatArray,
        lasting: FloatArray,
        cost: FloatArray,
        load_fraction: FloatArray,
        repetition_factor: FloatArray | float,
    ) -> FloatArray:
        """Repetitions still possible, as a real number, below 1 where not even one is.

        The first needs strength no less than the load; each one before the last costs ``cost``.
        """
        straight, bent = self._shares(repetition_factor)
        room = 1 - load_fraction - straight * immediate - bent * lasting**2
        slope = straight + 2 * bent * lasting
        further = 2 * room / (slope + np.sqrt(np.maximum(slope**2 + 4 * bent * room, 0.0)))
        possible: FloatArray = further / cost + 1
        return possible

    def fresh(self, people: People) -> FatigueState:
        """Nobody tired."""
        none = np.zeros((people.count, len(GROUPS)))
        return FatigueState(none, none, none)

    def _losses(self, state: FatigueState, lift: LiftLoad) -> tuple[FloatArray, FloatArray]:
        share = self.constants.fast_fraction
        lasting = share * state.fast + (1 - share) * state.slow
        return state.immediate @ lift.weight, lasting @ lift.weight

    def present_strength(self, state: FatigueState, lift: LiftLoad) -> FloatArray:
        """Present share of the fresh strength of a lift, per person."""
        return self.strength_left(*self._losses(state, lift), lift.repetition_factor)

    def present_share(self, state: FatigueState) -> FloatArray:
        """Present share of fresh strength, per person and group."""
        share = self.constants.fast_fraction
        lasting = share * state.fast + (1 - share) * state.slow
        return np.maximum(self.strength_left(state.immediate, lasting, self._factor), 0.0)

    def repetitions_possible(
        self, state: FatigueState, lift: LiftLoad, load_fraction: FloatArray, people: People
    ) -> FloatArray:
        """Repetitions to failure now, as a real number; whole repetitions are its floor."""
        immediate, lasting = self._losses(state, lift)
        cost = self.cost(lift, load_fraction, people)
        return np.maximum(
            self.repetitions_from(immediate, lasting, cost, load_fraction, lift.repetition_factor),
            0.0,
        )

    def after_repetitions(
        self,
        state: FatigueState,
        lift: LiftLoad,
        load_fraction: FloatArray,
        repetitions: FloatArray,
        people: People,
    ) -> FatigueState:
        """The state after some repetitions."""
        lost = np.outer(self.cost(lift, load_fraction, people) * repetitions, lift.loss)
        return FatigueState(state.immediate + lost, state.fast + lost, state.slow + lost)

    def rest_factors(self, rest_s: float, people: People) -> tuple[float, FloatArray, FloatArray]:
        """Share of a loss still there after a rest: immediate, fast and slow (people x groups)."""
        pace = 1 / people.recovery
        return (
            float(np.exp(-rest_s / self.constants.immediate_s)),
            np.exp(-rest_s * np.outer(pace, 1 / self._fast_s)),
            np.exp(-rest_s * np.outer(pace, 1 / self._slow_s)),
        )

    def after_rest(self, state: FatigueState, rest_s: float, people: People) -> FatigueState:
        """The state after a rest."""
        immediate, fast, slow = self.rest_factors(rest_s, people)
        return FatigueState(state.immediate * immediate, state.fast * fast, state.slow * slow)

    def load_for_repetitions(
        self, lift: LiftLoad, repetitions: float, people: People
    ) -> FloatArray:
        """Largest share of fresh strength at which a fresh set has this many repetitions."""
        low, high = np.zeros(people.count), np.ones(people.count)
        for _ in range(_HALVINGS):
            middle = (low + high) / 2
            lost = (repetitions - 1) * self.cost(lift, middle, people)
            done = self.strength_left(lost, lost, lift.repetition_factor) >= middle
            low, high = np.where(done, middle, low), np.where(done, high, middle)
        return low

    def repetition_maximum(self, lift: LiftLoad, repetitions: int, people: People) -> FloatArray:
        """Each person's own load for this many repetitions, as found in steps of a test."""
        most = self.load_for_repetitions(lift, repetitions, people)
        too_heavy_for_more = self.load_for_repetitions(lift, repetitions + 1, people)
        step = np.minimum(self.constants.test_step_fraction * most, most - too_heavy_for_more)
        return most - 0.999 * people.place_in_step * step
