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

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from typing import Protocol

import numpy as np

from squadwright.model.muscles import MuscleGroup
from squadwright.planning.dose.draws import SEED, FloatArray, normal_draws, uniform_draws

GROUPS = tuple(MuscleGroup)
_UPPER = (
    MuscleGroup.CHEST,
    MuscleGroup.SHOULDERS,
    MuscleGroup.ELBOW_EXTENSORS,
    MuscleGroup.ELBOW_FLEXORS,
    MuscleGroup.UPPER_BACK,
    MuscleGroup.GRIP,
)
_TRUNK = (MuscleGroup.TRUNK_EXTENSORS, MuscleGroup.TRUNK_FLEXORS)
_HALVINGS = 30
_BEND_REPETITIONS = 5.0


def _per_group(upper: float, legs: float, trunk: float) -> dict[MuscleGroup, float]:
    return {g: upper if g in _UPPER else trunk if g in _TRUNK else legs for g in GROUPS}


@dataclass(frozen=True)
class FatigueConstants:
    """Constants of the model: our estimate, fitted to published sets to failure.

    Fitted to Willardson & Burkett 2005 (bench press and squat, 8RM, rests of 1, 2 and 5 min),
    Speretta 2012, Ratamess 2007 and Scudese 2016; repetitions of a fresh set to Cooke 2019, Wolfe
    2024, the load chart of the NSCA and the printed 1RM equations. ``shared_fraction`` is
    judgement, with Senna 2009 in view; ``whole_body_share`` is judgement with nothing to go by.

    ``load_exponent`` bends the loss of a repetition with load. Of a fresh set's first five
    full-load repetitions, ``immediate_fraction`` of the loss is of the immediate kind; of the
    rest, ``fast_fraction`` is of the fast kind. ``*_s`` are time constants. ``repetition_factor``
    is about how many full-load repetitions would cost all strength.
    """

    load_exponent: float = 1.30
    immediate_fraction: float = 0.527
    immediate_s: float = 4.1
    fast_fraction: float = 0.963
    fast_s: dict[MuscleGroup, float] = field(default_factory=lambda: _per_group(130, 117, 15))
    slow_s: dict[MuscleGroup, float] = field(default_factory=lambda: _per_group(1230, 1230, 1230))
    repetition_factor: dict[MuscleGroup, float] = field(
        default_factory=lambda: _per_group(28.5, 37.4, 37.4)
    )
    shared_fraction: float = 0.40
    whole_body_share: float = 0.10
    endurance_sd: float = 0.27
    recovery_sd: float = 0.35
    strength_sd: float = 0.01
    test_step_fraction: float = 0.0227


@dataclass(frozen=True)
class People:
    """People drawn from the population, one entry each.

    ``endurance`` multiplies repetitions, ``recovery`` multiplies recovery times (those of the slow
    phase where ``slow_recovery`` does not say otherwise), ``strength`` is true strength over the
    tested 1RM (a test ends at the last step lifted), ``place_in_step`` is where between two steps
    of a test he stands.
    """

    endurance: FloatArray
    recovery: FloatArray
    strength: FloatArray
    place_in_step: FloatArray
    slow_recovery: FloatArray | None = None

    @property
    def count(self) -> int:
        """How many."""
        return len(self.endurance)


class Lift(Protocol):
    """A lift: the part (0 to 1) of each group, and its repetition factor if it has its own."""

    @property
    def name(self) -> str: ...
    @property
    def involvement(self) -> Mapping[MuscleGroup, float]: ...
    @property
    def repetition_factor(self) -> float | None: ...


@dataclass(frozen=True)
class Pools:
    """What tires in a session: every muscle group, and of each lift what is its own.

    Rows are lifts, columns are groups and then lifts. ``weight`` says how much each column decides
    the strength of the lift (rows sum to 1); ``loss`` how much each column loses when the lift
    loses 1; a lift loses 1 when its own repetitions cost it 1.
    """

    row: Mapping[str, int]
    weight: FloatArray
    loss: FloatArray
    repetition_factor: FloatArray
    fast_s: FloatArray
    slow_s: FloatArray


@dataclass(frozen=True)
class FatigueState:
    """What each column of the pools (second axis) of each person (first axis) has lost."""

    immediate: FloatArray
    fast: FloatArray
    slow: FloatArray

    def felt_by(self, weight: FloatArray) -> "FatigueState":
        """The losses as lifts feel them, from their weights."""
        return FatigueState(self.immediate @ weight, self.fast @ weight, self.slow @ weight)

    def plus(self, lost: FloatArray) -> "FatigueState":
        """The state after a further loss, which is of every kind at first."""
        return FatigueState(self.immediate + lost, self.fast + lost, self.slow + lost)

    def times(self, kept: "FatigueState") -> "FatigueState":
        """The state with a share of each loss kept."""
        return FatigueState(
            self.immediate * kept.immediate, self.fast * kept.fast, self.slow * kept.slow
        )


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

    def pools(self, lifts: Iterable[Lift]) -> Pools:
        """What tires when these lifts are done. Lifts of one name are one lift.

        Of the fatigue of a lift, ``shared_fraction`` lies in its muscle groups and so carries over
        to other lifts; the rest is its own. Groups with no part still lose a little with every
        repetition: breathing and bracing.
        """
        by_name = {lift.name: lift for lift in lifts}
        shared = self.constants.shared_fraction
        weights, losses, factors = [], [], []
        for lift in by_name.values():
            part = np.array([lift.involvement.get(group, 0.0) for group in GROUPS])
            felt = np.maximum(part, self.constants.whole_body_share * part.max())
            weights.append(part / part.sum())
            losses.append(felt * part.sum() / float(part @ felt))
            own = lift.repetition_factor
            factors.append(float(weights[-1] @ self._factor) if own is None else own)
        group_weight, own_part = np.stack(weights), np.eye(len(by_name))
        return Pools(
            row={name: row for row, name in enumerate(by_name)},
            weight=np.hstack([shared * group_weight, (1 - shared) * own_part]),
            loss=np.hstack([np.stack(losses), own_part]),
            repetition_factor=np.array(factors),
            fast_s=np.append(self._fast_s, np.exp(group_weight @ np.log(self._fast_s))),
            slow_s=np.append(self._slow_s, np.exp(group_weight @ np.log(self._slow_s))),
        )

    def cost(
        self,
        load_fraction: FloatArray,
        repetition_factor: FloatArray | float,
        endurance: FloatArray,
    ) -> FloatArray:
        """Loss of a lift by one repetition at a share of its fresh strength."""
        spent: FloatArray = load_fraction**self.constants.load_exponent
        return spent / (repetition_factor * endurance)

    def _shares(
        self, repetition_factor: FloatArray | float
    ) -> tuple[float, FloatArray | float, FloatArray | float]:
        c = self.constants
        bent = (1 - c.immediate_fraction) * repetition_factor / _BEND_REPETITIONS
        return c.immediate_fraction, c.fast_fraction * bent, (1 - c.fast_fraction) * bent

    def strength_lost(
        self, felt: FatigueState, repetition_factor: FloatArray | float
    ) -> tuple[FloatArray, FloatArray]:
        """Share of fresh strength lost, in proportion to the losses felt and to their squares.

        The lasting losses count by their square: one maximal repetition leaves next to nothing, a
        long set to failure a lot, and set upon set more and more.
        """
        straight, fast, slow = self._shares(repetition_factor)
        return straight * felt.immediate, fast * felt.fast**2 + slow * felt.slow**2

    def strength_left(
        self, felt: FatigueState, repetition_factor: FloatArray | float
    ) -> FloatArray:
        """Share of fresh strength left, from the losses a lift feels."""
        straight, bent = self.strength_lost(felt, repetition_factor)
        return 1 - straight - bent

    def repetitions_from(
        self,
        felt: FatigueState,
        cost: FloatArray,
        load_fraction: FloatArray,
        repetition_factor: FloatArray | float,
    ) -> FloatArray:
        """Repetitions still possible, as a real number, below 1 where not even one is.

        The first needs strength no less than the load; each one before the last costs ``cost``.
        """
        _, fast, slow = self._shares(repetition_factor)
        room = self.strength_left(felt, repetition_factor) - load_fraction
        slope = self.constants.immediate_fraction + 2 * (fast * felt.fast + slow * felt.slow)
        root = np.sqrt(np.maximum(slope**2 + 4 * (fast + slow) * room, 0.0))
        possible: FloatArray = 2 * room / (slope + root) / cost + 1
        return possible

    def fresh(self, people: People, pools: Pools) -> FatigueState:
        """Nobody tired."""
        none = np.zeros((people.count, len(pools.fast_s)))
        return FatigueState(none, none, none)

    def present_strength(self, state: FatigueState, pools: Pools, lift: str) -> FloatArray:
        """Present share of the fresh strength of a lift, per person."""
        row = pools.row[lift]
        return self.strength_left(
            state.felt_by(pools.weight[row]), float(pools.repetition_factor[row])
        )

    def present_share(self, state: FatigueState) -> FloatArray:
        """Present share of fresh strength, per person and muscle group."""
        groups = np.eye(state.fast.shape[1])[:, : len(GROUPS)]
        return np.maximum(self.strength_left(state.felt_by(groups), self._factor), 0.0)

    def repetitions_possible(
        self,
        state: FatigueState,
        pools: Pools,
        lift: str,
        load_fraction: FloatArray,
        people: People,
    ) -> FloatArray:
        """Repetitions to failure now, as a real number; whole repetitions are its floor."""
        row = pools.row[lift]
        factor = float(pools.repetition_factor[row])
        cost = self.cost(load_fraction, factor, people.endurance)
        felt = state.felt_by(pools.weight[row])
        return np.maximum(self.repetitions_from(felt, cost, load_fraction, factor), 0.0)

    def after_repetitions(
        self,
        state: FatigueState,
        pools: Pools,
        lift: str,
        load_fraction: FloatArray,
        repetitions: FloatArray,
        people: People,
    ) -> FatigueState:
        """The state after some repetitions."""
        row = pools.row[lift]
        cost = self.cost(load_fraction, float(pools.repetition_factor[row]), people.endurance)
        return state.plus(np.outer(cost * repetitions, pools.loss[row]))

    def kept_after(self, rest_s: float, pools: Pools, people: People) -> FatigueState:
        """Share of each loss still there after a rest."""
        pace = -rest_s / people.recovery
        slow = pace if people.slow_recovery is None else -rest_s / people.slow_recovery
        return FatigueState(
            immediate=np.exp(pace[:, None] / self.constants.immediate_s),
            fast=np.exp(np.outer(pace, 1 / pools.fast_s)),
            slow=np.exp(np.outer(slow, 1 / pools.slow_s)),
        )

    def after_rest(
        self, state: FatigueState, rest_s: float, pools: Pools, people: People
    ) -> FatigueState:
        """The state after a rest."""
        return state.times(self.kept_after(rest_s, pools, people))

    def load_for_repetitions(
        self, repetition_factor: float, repetitions: float, endurance: FloatArray
    ) -> FloatArray:
        """Largest share of fresh strength at which a fresh set has this many repetitions."""
        low, high = np.zeros_like(endurance), np.ones_like(endurance)
        for _ in range(_HALVINGS):
            middle = (low + high) / 2
            lost = (repetitions - 1) * self.cost(middle, repetition_factor, endurance)
            state = FatigueState(lost, lost, lost)
            done = self.strength_left(state, repetition_factor) >= middle
            low, high = np.where(done, middle, low), np.where(done, high, middle)
        return low

    def repetition_maximum(
        self, repetition_factor: float, repetitions: int, people: People
    ) -> FloatArray:
        """Each person's own load for this many repetitions, as found in steps of a test."""
        most = self.load_for_repetitions(repetition_factor, repetitions, people.endurance)
        next_load = self.load_for_repetitions(repetition_factor, repetitions + 1, people.endurance)
        step = np.minimum(self.constants.test_step_fraction * most, most - next_load)
        return most - 0.999 * people.place_in_step * step
