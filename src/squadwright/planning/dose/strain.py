"""What a complex takes out of people, and the largest load that leaves each of them standing.

Losses at a load of ``L`` kg are those at 1 kg times ``L`` to the load exponent, so a complex is
worked through once, at 1 kg, whatever load is asked about. Axis 0 is always people (or draws of
one person), the last axis the parts of all movements in order.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from squadwright.model.muscles import MuscleGroup
from squadwright.planning.dose.draws import FloatArray
from squadwright.planning.dose.fatigue import FatigueModel, FatigueState, People, Pools
from squadwright.planning.dose.problem import ComplexMovement

_STEPS = 60
_CLOSE_ENOUGH = 1e-12


@dataclass(frozen=True)
class _PartLift:
    """One part of a movement, as the fatigue model wants it."""

    name: str
    involvement: Mapping[MuscleGroup, float]
    repetition_factor: float | None = None


@dataclass(frozen=True)
class Parts:
    """The parts of all movements of a complex in order, as arrays.

    ``movement`` is the place of the movement each part belongs to.
    """

    names: tuple[str, ...]
    movement: tuple[int, ...]
    repetitions: FloatArray
    wanted_reserve: FloatArray
    pools: Pools
    row: list[int]

    @property
    def factor(self) -> FloatArray:
        """Repetition factor of each part."""
        return self.pools.repetition_factor[self.row]


@dataclass(frozen=True)
class Strain:
    """Losses right after each part of each movement at a load of 1 kg.

    ``rounds`` has one state (people x parts) for each round. ``per_repetition`` is what one
    further repetition of the movement adds (people x parts).
    """

    rounds: tuple[FatigueState, ...]
    per_repetition: FloatArray

    def with_reserve(self, round_index: int, repetitions: FloatArray | float) -> FatigueState:
        """The state of a round just before the last of so many further repetitions."""
        return self.rounds[round_index].plus((repetitions - 1) * self.per_repetition)


def part_name(movement: str, index: int) -> str:
    """What the unknowns of one part of a movement are called."""
    return f"{movement}, part {index}"


def parts_of(movements: Sequence[ComplexMovement], model: FatigueModel) -> Parts:
    """The parts of these movements."""
    lifts, place = [], []
    for index, movement in enumerate(movements):
        for number, part in enumerate(movement.parts):
            lifts.append(_PartLift(part_name(movement.name, number), part.involvement))
            place.append(index)
    chosen = [movements[index] for index in place]
    pools = model.pools(lifts)
    names = tuple(lift.name for lift in lifts)
    return Parts(
        names=names,
        movement=tuple(place),
        repetitions=np.array([m.repetitions for m in chosen], dtype=float),
        wanted_reserve=np.array([m.wanted_reserve for m in chosen], dtype=float),
        pools=pools,
        row=[pools.row[name] for name in names],
    )


def strain_of(
    parts: Parts,
    capacity_kg: FloatArray,
    *,
    rounds: int,
    rest_s: float,
    model: FatigueModel,
    people: People,
) -> Strain:
    """Work through a complex at 1 kg. ``capacity_kg`` is people x parts."""
    cost = model.cost(1 / capacity_kg, parts.factor, people.endurance[:, None])
    weight, loss = parts.pools.weight[parts.row], parts.pools.loss[parts.row]
    felt = weight @ loss.T  # how much part i loses when part j loses 1
    order = np.array(parts.movement)
    same = order[:, None] == order[None, :]
    done_by_then = order[None, :] <= order[:, None]
    round_cost = cost * parts.repetitions
    within = round_cost @ (felt * done_by_then).T
    whole_round = round_cost @ loss
    kept = model.kept_after(rest_s, parts.pools, people)
    carried = model.fresh(people, parts.pools)
    states = []
    for _ in range(rounds):
        states.append(carried.felt_by(weight.T).plus(within))
        carried = carried.plus(whole_round).times(kept)
    return Strain(tuple(states), cost @ (felt * same).T)


def largest_load(
    state: FatigueState, capacity_kg: FloatArray, factor: FloatArray, model: FatigueModel
) -> FloatArray:
    """Largest load [kg] at which every part still has strength for it; people, last axis dropped.

    For each part the strength left less the share of the load falls with load and bends downward
    only, so Newton's steps from its fresh strength come down to the load and never pass below it.
    """
    straight, bent = model.strength_lost(state, factor)
    power = model.constants.load_exponent
    load = np.broadcast_to(capacity_kg, straight.shape).copy()
    for _ in range(_STEPS):
        grown = np.power(load, power)
        room = 1 - (straight + bent * grown) * grown - load / capacity_kg
        slope = power * (straight + 2 * bent * grown) * grown / load + 1 / capacity_kg
        step = room / slope
        load += step
        if float(np.max(-step / load)) < _CLOSE_ENOUGH:
            break
    lowest: FloatArray = load.min(axis=-1)
    return lowest
