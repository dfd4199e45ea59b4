"""Dose of a complex: the heaviest bar that every movement of every round will bear.

For each of many draws of what is not known (strength in each lift, endurance, recovery) the
largest load is found at which every repetition of every round is done with the wanted reserve.
The chance of completing at a load is the share of draws that bear it; the dose limit is the load
the wanted share of draws bears. The draws are the same for every problem, so a heavier demand
never gives a higher limit.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil

import numpy as np

from squadwright.planning.dose.draws import FloatArray
from squadwright.planning.dose.fatigue import FatigueModel, FatigueState, People
from squadwright.planning.dose.problem import (
    PLAIN_RULE_REPETITIONS,
    CapacityBasis,
    ComplexDoseProblem,
    ComplexDoseSolution,
    ReserveAt,
)
from squadwright.planning.dose.strain import (
    Parts,
    Strain,
    largest_load,
    parts_of,
    strain_of,
)
from squadwright.planning.dose.unknowns import drawn

DRAWS = 2048


@dataclass(frozen=True)
class _Worked:
    """A complex worked through by every draw of one athlete."""

    parts: Parts
    capacity_kg: FloatArray
    strain: Strain
    model: FatigueModel
    people: People

    @property
    def critical_load_kg(self) -> FloatArray:
        """Largest load each draw bears. The last round is the hardest for every movement."""
        hardest = self.strain.with_reserve(-1, self.parts.wanted_reserve)
        return largest_load(hardest, self.capacity_kg, self.parts.factor, self.model)

    def reserve(self, load_kg: float) -> FloatArray:
        """Repetitions in reserve after each part at a load: rounds x draws x parts."""
        grown = np.power(np.array(load_kg), self.model.constants.load_exponent)
        lost = FatigueState(grown, grown, grown)
        return np.stack(
            [
                self.model.repetitions_from(
                    state.times(lost),
                    self.strain.per_repetition * grown,
                    load_kg / self.capacity_kg,
                    self.parts.factor,
                )
                for state in self.strain.rounds
            ]
        )


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
    worked = _work_through(problem, model, model.people(DRAWS))
    return _reserve_points(problem, worked.reserve(load_kg), worked.parts)


def _work_through(problem: ComplexDoseProblem, model: FatigueModel, people: People) -> _Worked:
    capacity_kg, people = drawn(problem, people)
    parts = parts_of(problem.movements, model)
    strain = strain_of(
        parts,
        capacity_kg,
        rounds=problem.rounds,
        rest_s=problem.rest_s,
        model=model,
        people=people,
    )
    return _Worked(parts, capacity_kg, strain, model, people)


def _solve(problem: ComplexDoseProblem, model: FatigueModel, people: People) -> ComplexDoseSolution:
    worked = _work_through(problem, model, people)
    per_draw = worked.critical_load_kg
    critical = np.sort(per_draw)
    modelled = float(critical[people.count - ceil(problem.target_probability * people.count)])
    plain = problem.plain_rule_kg or _plain_rule(problem, worked)
    held = (
        problem.is_first_session
        and problem.first_session_within_plain_rule
        and plain < modelled
        and problem.coach_load_kg is None
    )
    by_rule = problem.goes_by_plain_rule or problem.rule_kg is not None
    own = problem.rule_kg or (plain if held or problem.goes_by_plain_rule else modelled)
    steps = problem.coach_load_kg is None and problem.step_kg is not None and problem.step_kg < own
    limit = problem.coach_load_kg or (problem.step_kg if steps else None) or own
    reserve = worked.reserve(limit)
    movement, round_number = _where_it_gives_out(modelled, per_draw, worked)
    points = _reserve_points(problem, reserve, worked.parts)
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
        held_by_first_session=held and not steps and not by_rule,
        held_by_step=steps,
        goes_by_rule=by_rule and problem.coach_load_kg is None,
        set_by_coach=problem.coach_load_kg is not None,
        reason="",
        critical_load_kg=critical,
    )
    object.__setattr__(solution, "reason", _reason(solution))
    return solution


def _where_it_gives_out(load_kg: float, critical: FloatArray, worked: _Worked) -> tuple[int, int]:
    """The movement and round at which most of the draws just short of a load fail first."""
    marginal = critical < load_kg * (1 - 1e-9)
    if marginal.any():
        marginal &= critical >= np.quantile(critical[marginal], 0.75)
    else:
        marginal = critical <= critical.min()
    tried = max(load_kg, float(critical[marginal].max())) * (1 + 1e-6)
    short = (worked.reserve(tried) < worked.parts.wanted_reserve)[:, marginal]
    rounds, draws, count = short.shape
    in_order = short.transpose(1, 0, 2).reshape(draws, rounds * count)
    first = in_order.argmax(axis=1)[in_order.any(axis=1)]
    movement_of = np.array(worked.parts.movement)[first % count]
    movement = int(np.bincount(movement_of).argmax())
    round_number = int(np.bincount((first // count)[movement_of == movement]).argmax()) + 1
    return movement, round_number


def _reserve_points(
    problem: ComplexDoseProblem, reserve: FloatArray, parts: Parts
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


def _plain_rule(problem: ComplexDoseProblem, worked: _Worked) -> float:
    """A share of the load for five repetitions in the weakest movement."""
    typical_person = np.ones(1)
    loads = [
        float(capacity.mean())
        * float(
            worked.model.load_for_repetitions(factor, PLAIN_RULE_REPETITIONS, typical_person)[0]
        )
        for capacity, factor in zip(worked.capacity_kg.T, worked.parts.factor, strict=True)
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
    if solution.goes_by_rule and not solution.held_by_step:
        return (
            f"By a plain rule: {solution.limit_kg:.1f} kg, a {chance} chance by the model, whose "
            f"limit is {solution.modelled_limit_kg:.1f} kg, where {where}."
        )
    if solution.held_by_step:
        return (
            f"One step from the last session: {solution.limit_kg:.1f} kg, a {chance} chance. The "
            f"model would allow {solution.modelled_limit_kg:.1f} kg, where {where}."
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
