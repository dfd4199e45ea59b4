"""Dose of a complex: the heaviest bar that every movement of every round will bear.

For each of many draws of what is not known (strength in each lift, endurance, recovery) the
largest load is found at which every repetition of every round is done with the wanted reserve.
The chance of completing at a load is the share of draws that bear it; the dose limit is the load
the wanted share of draws bears. The draws are the same for every problem, so a heavier demand
never gives a higher limit.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import ceil

import numpy as np

from squadwright.model.muscles import MuscleGroup
from squadwright.planning.dose.draws import FloatArray, positive_draws
from squadwright.planning.dose.fatigue import FatigueModel, FatigueState, People, Pools
from squadwright.planning.dose.problem import (
    PLAIN_RULE_REPETITIONS,
    CapacityBasis,
    ComplexDoseProblem,
    ComplexDoseSolution,
    ReserveAt,
)

DRAWS = 2048
_HALVINGS = 34


@dataclass(frozen=True)
class _Strain:
    """Losses right after each part of each movement at a load of 1 kg.

    ``rounds`` has one state (draws x parts) for each round; at ``L`` kg every loss grows with
    ``L`` to the load exponent. ``per_repetition`` is what one further repetition of the movement
    adds (draws x parts).
    """

    rounds: tuple[FatigueState, ...]
    per_repetition: FloatArray


@dataclass(frozen=True)
class _PartLift:
    """One part of a movement, as the fatigue model wants it."""

    name: str
    involvement: Mapping[MuscleGroup, float]
    repetition_factor: float | None = None


@dataclass(frozen=True)
class _Parts:
    """The parts of all movements in order, as arrays."""

    lifts: tuple[_PartLift, ...]
    capacity_kg: FloatArray
    movement: tuple[int, ...]
    repetitions: FloatArray
    wanted_reserve: FloatArray
    pools: Pools
    row: list[int]

    @property
    def factor(self) -> FloatArray:
        """Repetition factor of each part."""
        return self.pools.repetition_factor[self.row]


def solve_complex_doses(
    problems: Sequence[ComplexDoseProblem], model: FatigueModel | None = None
) -> tuple[ComplexDoseSolution, ...]:
    """The dose of each athlete."""
    model = model or FatigueModel()
    people = model.people(DRAWS)
    return tuple(_solve(problem, model, people) for problem in problems)


def solve_complex_dose(
    problem: ComplexDoseProblem, model: FatigueModel | None = None
) -> ComplexDoseSolution:
    """The dose of one athlete."""
    return solve_complex_doses([problem], model)[0]


def reserve_at(
    problem: ComplexDoseProblem, load_kg: float, model: FatigueModel | None = None
) -> tuple[ReserveAt, ...]:
    """Median repetitions in reserve after each movement of each round at a load [kg]."""
    model = model or FatigueModel()
    people = model.people(DRAWS)
    parts = _parts(problem, model, people)
    strain = _strain(problem, parts, model, people)
    return _reserve_points(problem, _reserve(load_kg, strain, parts, model), parts)


def _solve(problem: ComplexDoseProblem, model: FatigueModel, people: People) -> ComplexDoseSolution:
    parts = _parts(problem, model, people)
    strain = _strain(problem, parts, model, people)
    per_draw = _critical_load(strain, parts, model)
    critical = np.sort(per_draw)
    modelled = float(critical[people.count - ceil(problem.target_probability * people.count)])
    plain = problem.plain_rule_kg or _plain_rule(problem, parts, model)
    held = (
        problem.is_first_session
        and problem.first_session_within_plain_rule
        and plain < modelled
        and problem.coach_load_kg is None
    )
    limit = problem.coach_load_kg or (plain if held else modelled)
    reserve = _reserve(limit, strain, parts, model)
    movement, round_number = _where_it_gives_out(modelled, per_draw, strain, parts, model)
    points = _reserve_points(problem, reserve, parts)
    solution = ComplexDoseSolution(
        limit_kg=limit,
        modelled_limit_kg=modelled,
        completion_probability=float((critical >= limit).mean()),
        target_probability=problem.target_probability,
        limiting_movement=problem.movements[movement].name,
        limiting_round=round_number,
        least_reserve_repetitions=min(p.reserve_repetitions for p in points),
        reserve=points,
        plain_rule_kg=plain,
        basis=_basis(problem, movement),
        held_by_first_session=held,
        set_by_coach=problem.coach_load_kg is not None,
        reason="",
        critical_load_kg=critical,
    )
    object.__setattr__(solution, "reason", _reason(solution))
    return solution


def _parts(problem: ComplexDoseProblem, model: FatigueModel, people: People) -> _Parts:
    strength = {
        lift: positive_draws(
            f"1RM of {lift}",
            people.count,
            mean=problem.capacities[lift].mean_kg,
            sd_fraction=problem.capacities[lift].sd_fraction,
        )
        for lift in problem.reference_lifts
    }
    lifts, capacity, place = [], [], []
    for index, movement in enumerate(problem.movements):
        for part_index, part in enumerate(movement.parts):
            ratio = positive_draws(
                f"ratio of {movement.name}, part {part_index}",
                people.count,
                mean=part.ratio,
                sd_fraction=part.ratio_sd_fraction,
            )
            lifts.append(_PartLift(f"{movement.name}, part {part_index}", part.involvement))
            capacity.append(strength[part.reference_lift] * ratio)
            place.append(index)
    chosen = [problem.movements[index] for index in place]
    pools = model.pools(lifts)
    return _Parts(
        lifts=tuple(lifts),
        capacity_kg=np.stack(capacity, axis=1),
        movement=tuple(place),
        repetitions=np.array([m.repetitions for m in chosen], dtype=float),
        wanted_reserve=np.array([m.wanted_reserve for m in chosen], dtype=float),
        pools=pools,
        row=[pools.row[lift.name] for lift in lifts],
    )


def _strain(
    problem: ComplexDoseProblem, parts: _Parts, model: FatigueModel, people: People
) -> _Strain:
    cost = model.cost(1 / parts.capacity_kg, parts.factor, people.endurance[:, None])
    weight, loss = parts.pools.weight[parts.row], parts.pools.loss[parts.row]
    felt = weight @ loss.T  # how much part i loses when part j loses 1
    order = np.array(parts.movement)
    same = order[:, None] == order[None, :]
    done_by_then = order[None, :] <= order[:, None]
    round_cost = cost * parts.repetitions
    within = round_cost @ (felt * done_by_then).T
    whole_round = round_cost @ loss
    kept = model.kept_after(problem.rest_s, parts.pools, people)
    carried = model.fresh(people, parts.pools)
    rounds = []
    for _ in range(problem.rounds):
        rounds.append(carried.felt_by(weight.T).plus(within))
        carried = carried.plus(whole_round).times(kept)
    return _Strain(tuple(rounds), cost @ (felt * same).T)


def _critical_load(strain: _Strain, parts: _Parts, model: FatigueModel) -> FloatArray:
    """Largest load each draw bears. The last round is the hardest for every movement."""
    hardest = strain.rounds[-1].plus((parts.wanted_reserve - 1) * strain.per_repetition)
    straight, bent = model.strength_lost(hardest, parts.factor)
    share = 1 / parts.capacity_kg
    high = parts.capacity_kg.min(axis=1)
    low: FloatArray = np.zeros_like(high)
    for _ in range(_HALVINGS):
        middle = (low + high) / 2
        load = middle[:, None]
        grown = np.power(load, model.constants.load_exponent)
        borne = np.all(1 - (straight + bent * grown) * grown >= load * share, axis=1)
        low, high = np.where(borne, middle, low), np.where(borne, high, middle)
    return low


def _at_load(state: FatigueState, load_kg: FloatArray, model: FatigueModel) -> FatigueState:
    grown = np.power(load_kg, model.constants.load_exponent)
    return state.times(FatigueState(grown, grown, grown))


def _reserve(load_kg: float, strain: _Strain, parts: _Parts, model: FatigueModel) -> FloatArray:
    """Repetitions in reserve after each part at a load: rounds x draws x parts."""
    load = np.array(load_kg)
    cost = strain.per_repetition * np.power(load, model.constants.load_exponent)
    return np.stack(
        [
            model.repetitions_from(
                _at_load(state, load, model), cost, load / parts.capacity_kg, parts.factor
            )
            for state in strain.rounds
        ]
    )


def _where_it_gives_out(
    load_kg: float, critical: FloatArray, strain: _Strain, parts: _Parts, model: FatigueModel
) -> tuple[int, int]:
    """The movement and round at which most of the draws just short of a load fail first."""
    marginal = critical < load_kg * (1 - 1e-9)
    if marginal.any():
        marginal &= critical >= np.quantile(critical[marginal], 0.75)
    else:
        marginal = critical <= critical.min()
    tried = max(load_kg, float(critical[marginal].max())) * (1 + 1e-6)
    short = (_reserve(tried, strain, parts, model) < parts.wanted_reserve)[:, marginal]
    rounds, draws, count = short.shape
    in_order = short.transpose(1, 0, 2).reshape(draws, rounds * count)
    first = in_order.argmax(axis=1)[in_order.any(axis=1)]
    movement_of = np.array(parts.movement)[first % count]
    movement = int(np.bincount(movement_of).argmax())
    round_number = int(np.bincount((first // count)[movement_of == movement]).argmax()) + 1
    return movement, round_number


def _reserve_points(
    problem: ComplexDoseProblem, reserve: FloatArray, parts: _Parts
) -> tuple[ReserveAt, ...]:
    median = np.median(reserve, axis=1)
    order = np.array(parts.movement)
    return tuple(
        ReserveAt(
            round=number + 1,
            movement=movement.name,
            reserve_repetitions=float(np.maximum(row[order == index].min(), 0.0)),
        )
        for number, row in enumerate(median)
        for index, movement in enumerate(problem.movements)
    )


def _plain_rule(problem: ComplexDoseProblem, parts: _Parts, model: FatigueModel) -> float:
    """A share of the load for five repetitions in the weakest movement."""
    typical_person = np.ones(1)
    loads = [
        float(parts.capacity_kg[:, k].mean())
        * float(model.load_for_repetitions(factor, PLAIN_RULE_REPETITIONS, typical_person)[0])
        for k, factor in enumerate(parts.factor)
    ]
    return problem.plain_rule_share * min(loads)


def _basis(problem: ComplexDoseProblem, movement: int) -> CapacityBasis:
    lifts = [part.reference_lift for part in problem.movements[movement].parts]
    guessed = any(problem.capacities[lift].basis is CapacityBasis.GUESSED for lift in lifts)
    return CapacityBasis.GUESSED if guessed else CapacityBasis.TESTED


def _reason(solution: ComplexDoseSolution) -> str:
    where = f"{solution.limiting_movement} gives out first, in round {solution.limiting_round}"
    chance = f"{100 * solution.completion_probability:.0f} %"
    if solution.set_by_coach:
        return (
            f"The coach set {solution.limit_kg:.1f} kg: a {chance} chance of every repetition with "
            f"the wanted reserve. The model's limit is {solution.modelled_limit_kg:.1f} kg, where "
            f"{where}."
        )
    if solution.held_by_first_session:
        return (
            f"First session, so the plain rule holds: {solution.limit_kg:.1f} kg, a {chance} "
            f"chance. The model would allow {solution.modelled_limit_kg:.1f} kg, where {where}."
        )
    guess = "" if solution.basis is CapacityBasis.TESTED else ", its strength guessed"
    return (
        f"{solution.limit_kg:.1f} kg is a {chance} chance of every repetition with the wanted "
        f"reserve; {where}{guess}."
    )


def heaviest_buildable(limit_kg: float, loads_kg: Sequence[float]) -> float | None:
    """The heaviest load that can be built at or below a limit; ``None`` if all are above it."""
    return max((load for load in loads_kg if load <= limit_kg), default=None)
