"""How heavy a bar a given person bears in a given work, round by round, and how that changes.

A point of a work is a round and a number of further repetitions: the load of a point is the
largest at which every part of that round still has so many repetitions left.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np
import numpy.typing as npt

from squadwright.planning.dose.draws import FloatArray
from squadwright.planning.dose.fatigue import FatigueModel, FatigueState, People
from squadwright.planning.dose.problem import ComplexMovement
from squadwright.planning.dose.strain import Parts, largest_load, parts_of
from squadwright.planning.dose.unknowns import (
    ENDURANCE,
    RECOVERY,
    SLOW_RECOVERY,
    ratio_name,
    strength_name,
)

Point = tuple[int, float]
IntArray = npt.NDArray[np.int64]


class Asked(NamedTuple):
    """The points that are asked about, people x points: rest between rounds, round, reserve."""

    rest_s: FloatArray
    round: IntArray
    reserve: FloatArray

    def only(self, who: IntArray) -> "Asked":
        """What some of the people are asked."""
        return Asked(self.rest_s[who], self.round[who], self.reserve[who])


class _Kinds(NamedTuple):
    """A quantity for each kind of loss, of any one shape."""

    immediate: FloatArray
    fast: FloatArray
    slow: FloatArray


@dataclass(frozen=True, eq=False)
class _Worked:
    """Movements worked through by some people, as far as each point.

    ``cost`` is people x parts, ``whole_round`` people x pools. ``carried`` (people x points x
    pools) is how many times the loss of a whole round is still there when the point's round
    begins; ``carried_by_recovery`` its slope by the log of recovery times.
    """

    people: People
    capacity_kg: FloatArray
    cost: FloatArray
    whole_round: FloatArray
    carried: _Kinds
    carried_by_recovery: _Kinds


@dataclass(frozen=True, eq=False)
class Demand:
    """The movements of a complex, for people with these unknowns.

    ``picks`` (parts x unknowns) says which unknowns make up the log strength of each part. Of
    what one part loses, part i feels ``felt[i]``: of its own movement (``same``), and of all done
    by the end of it in a round (``by_then``).
    """

    names: tuple[str, ...]
    parts: Parts
    picks: FloatArray
    weight: FloatArray
    loss: FloatArray
    same: FloatArray
    by_then: FloatArray

    @classmethod
    def of(
        cls, movements: Sequence[ComplexMovement], names: Sequence[str], model: FatigueModel
    ) -> "Demand":
        """The demand of some movements; every unknown of theirs must be among the names."""
        place = {name: index for index, name in enumerate(names)}
        rows = []
        for movement in movements:
            for number, part in enumerate(movement.parts):
                row = np.zeros(len(names))
                row[place[strength_name(part.reference_lift)]] = 1
                row[place[ratio_name(movement.name, number)]] = 1
                rows.append(row)
        parts = parts_of(movements, model)
        weight, loss = parts.pools.weight[parts.row], parts.pools.loss[parts.row]
        felt, order = weight @ loss.T, np.array(parts.movement)
        same = felt * (order[:, None] == order[None, :])
        by_then = felt * (order[None, :] <= order[:, None])
        return cls(tuple(names), parts, np.array(rows), weight, loss, same, by_then)

    def log_loads(self, unknowns: FloatArray, asked: Asked, model: FatigueModel) -> FloatArray:
        """Log load [log kg] of each point, people x points, from people x unknowns (logs)."""
        worked = self._worked(unknowns, asked, model)
        return np.log(self._loads_kg(worked, asked, model)[0])

    def slopes(
        self, unknowns: FloatArray, asked: Asked, model: FatigueModel
    ) -> tuple[FloatArray, FloatArray]:
        """Log loads, and their slopes: people x points, people x points x unknowns.

        A round gives out at its weakest part, so the load follows that part alone: its strength
        left falls with every unknown and with the load, and the one over the other is the slope.
        """
        worked = self._worked(unknowns, asked, model)
        load_kg, state = self._loads_kg(worked, asked, model)
        grown = np.power(load_kg, model.constants.load_exponent)[..., None]
        straight, bent = model.strength_lost(state, self.parts.factor)
        share = load_kg[..., None] / worked.capacity_kg[:, None, :]
        weakest = (1 - (straight + bent * grown) * grown - share).argmin(axis=-1)
        by_part, by_person = self._slopes_at(worked, asked, load_kg, weakest, model)
        slope = by_part @ self.picks
        for name, column in zip((ENDURANCE, RECOVERY, SLOW_RECOVERY), by_person, strict=True):
            slope[..., self.names.index(name)] += column
        return np.log(load_kg), slope

    def _worked(self, unknowns: FloatArray, asked: Asked, model: FatigueModel) -> _Worked:
        place = {name: index for index, name in enumerate(self.names)}
        ones = np.ones(len(unknowns))
        people = People(
            endurance=np.exp(unknowns[:, place[ENDURANCE]]),
            recovery=np.exp(unknowns[:, place[RECOVERY]]),
            strength=ones,
            place_in_step=0 * ones,
            slow_recovery=np.exp(unknowns[:, place[SLOW_RECOVERY]]),
        )
        capacity_kg = np.exp(unknowns @ self.picks.T)
        cost = model.cost(1 / capacity_kg, self.parts.factor, people.endurance[:, None])
        fast_rests = asked.rest_s / people.recovery[:, None]
        slow_rests = asked.rest_s / np.exp(unknowns[:, place[SLOW_RECOVERY]])[:, None]
        immediate_s = np.array([model.constants.immediate_s])
        carried = [
            _carried(rests[..., None] / seconds, asked.round)
            for rests, seconds in (
                (fast_rests, immediate_s),
                (fast_rests, self.parts.pools.fast_s),
                (slow_rests, self.parts.pools.slow_s),
            )
        ]
        return _Worked(
            people,
            capacity_kg,
            cost,
            (cost * self.parts.repetitions) @ self.loss,
            _Kinds(*(value for value, _ in carried)),
            _Kinds(*(slope for _, slope in carried)),
        )

    def _loads_kg(
        self, worked: _Worked, asked: Asked, model: FatigueModel
    ) -> tuple[FloatArray, FatigueState]:
        """Load of each point, and the losses at 1 kg there: people x points x parts."""
        in_round = (worked.cost * self.parts.repetitions) @ self.by_then.T
        further = (asked.reserve - 1)[..., None] * (worked.cost @ self.same.T)[:, None, :]
        whole = worked.whole_round[:, None, :]
        within = in_round[:, None, :] + further
        state = FatigueState(
            *((carried * whole) @ self.weight.T + within for carried in worked.carried)
        )
        capacity_kg = worked.capacity_kg[:, None, :]
        return largest_load(state, capacity_kg, self.parts.factor, model), state

    def _slopes_at(
        self,
        worked: _Worked,
        asked: Asked,
        load_kg: FloatArray,
        weakest: IntArray,
        model: FatigueModel,
    ) -> tuple[FloatArray, tuple[FloatArray, FloatArray, FloatArray]]:
        """Slopes of log load by log strength of each part, and by endurance and recoveries."""
        weight, factor = self.weight[weakest], self.parts.factor[weakest]
        repetitions = self.parts.repetitions
        within = repetitions * self.by_then[weakest]
        within = within + (asked.reserve - 1)[..., None] * self.same[weakest]
        # What each part's repetitions have cost the weakest one, of each kind, at 1 kg.
        paid = _Kinds(
            *(
                worked.cost[:, None, :] * (repetitions * ((weight * c) @ self.loss.T) + within)
                for c in worked.carried
            )
        )
        whole = worked.whole_round[:, None, :]
        slower = _Kinds(*((weight * c * whole).sum(axis=-1) for c in worked.carried_by_recovery))
        state = FatigueState(*(kind.sum(axis=-1) for kind in paid))
        power = model.constants.load_exponent
        grown = np.power(load_kg, power)
        # How fast strength lost grows with each kind of loss, at this load.
        ones, none = np.ones_like(load_kg), np.zeros_like(load_kg)
        per_immediate = grown * model.strength_lost(FatigueState(ones, none, none), factor)[0]
        per_fast = model.strength_lost(FatigueState(none, ones, none), factor)[1]
        per_slow = model.strength_lost(FatigueState(none, none, ones), factor)[1]
        per_fast = 2 * grown**2 * per_fast * state.fast
        per_slow = 2 * grown**2 * per_slow * state.slow
        by_paid = per_immediate[..., None] * paid.immediate
        by_paid += per_fast[..., None] * paid.fast + per_slow[..., None] * paid.slow
        own = np.take_along_axis(worked.capacity_kg, weakest, axis=1)
        steep = power * by_paid.sum(axis=-1) + load_kg / own
        by_part = power * by_paid
        is_weakest = np.arange(by_part.shape[-1]) == weakest[..., None]
        by_part += is_weakest * (load_kg / own)[..., None]
        return by_part / steep[..., None], (
            by_paid.sum(axis=-1) / steep,
            -(per_immediate * slower.immediate + per_fast * slower.fast) / steep,
            -per_slow * slower.slow / steep,
        )


def _carried(pace: FloatArray, rounds: IntArray) -> tuple[FloatArray, FloatArray]:
    """How many times the loss of one round is left after the rests before each point's round.

    ``pace`` (people x points x pools) is a rest over a time constant; the slope is by the log of
    the time constant.
    """
    kept = np.exp(-pace)
    power, total, slope = np.ones_like(kept), np.zeros_like(kept), np.zeros_like(kept)
    for rests in range(1, int(rounds.max(initial=1))):
        power = power * kept
        counted = np.where((rests < rounds)[..., None], power, 0.0)
        total += counted
        slope += rests * counted
    return total, slope * pace
