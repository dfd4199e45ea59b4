"""What if: the dose of one athlete with other rest, rounds, repetitions or load, beside the plan's.

Nothing is changed. The answers are the model's, from the same draws as the plan, so that the values
of the plan give the numbers of the plan.
"""

from dataclasses import dataclass, replace

from squadwright.planning.complex_dose import own_limit_kg
from squadwright.planning.dose import memory, solve_complex_dose
from squadwright.planning.dose.problem import (
    CapacityBasis,
    ComplexDoseProblem,
    ComplexDoseSolution,
    ReserveAt,
)

REST_S = (0, 3600)
ROUNDS = (1, 30)
REPETITIONS = (1, 100)
LOAD_KG = (0.5, 600.0)
"""The limits of a dose."""


@dataclass(frozen=True)
class Trial:
    """Rest, rounds, repetitions of each movement (both sides counted) and load that are tried."""

    rest_s: float
    rounds: int
    repetitions: tuple[int, ...]
    load_kg: float


@dataclass(frozen=True)
class Forecast:
    """What the model says of a trial.

    ``limiting_round`` is counted in the rounds of the session; ``reserve`` is the median of each
    movement in each of his rounds; ``least`` is the smallest of them. ``heaviest_kg`` is the load
    that the coach's level of chance bears, before any other rule; ``basis`` says how the strength
    that limits it is known.
    """

    trial: Trial
    chance: float
    limiting_movement: str
    limiting_round: int
    heaviest_kg: float
    basis: CapacityBasis
    reserve: tuple[tuple[ReserveAt, ...], ...]
    least: ReserveAt


@dataclass(frozen=True)
class WhatIf:
    """The plan and what is tried, side by side.

    ``own_limit_kg`` is what he would have without the coach's word, as things stand.
    ``plain_rule_kg`` is the coach's plain rule where a first session keeps to it.
    """

    problem: ComplexDoseProblem
    plan: Forecast
    tried: Forecast
    own_limit_kg: float
    plain_rule_kg: float | None

    @property
    def level(self) -> float:
        """The chance the coach asks for."""
        return self.problem.target_probability


@dataclass(frozen=True)
class PlannedDose:
    """A dose as it stands in the plan: what it was worked out from, and what lies on the bar."""

    problem: ComplexDoseProblem
    load_kg: float
    first_round: int = 1

    @property
    def trial(self) -> Trial:
        """The values of the plan."""
        return Trial(
            rest_s=self.problem.rest_s,
            rounds=self.problem.rounds,
            repetitions=tuple(m.repetitions for m in self.problem.movements),
            load_kg=self.load_kg,
        )


def what_if(planned: PlannedDose, trial: Trial) -> WhatIf:
    """What the model says of other values, beside what it says of the plan."""
    problem = planned.problem
    stands = memory.doses([problem])[0]
    keeps_to_rule = problem.is_first_session and problem.first_session_within_plain_rule
    return WhatIf(
        problem=problem,
        plan=_forecast(
            planned,
            planned.trial,
            stands,
            memory.reserve(problem, planned.load_kg),
        ),
        tried=_tried(planned, trial),
        own_limit_kg=own_limit_kg(problem, stands),
        plain_rule_kg=stands.plain_rule_kg if keeps_to_rule else None,
    )


def _tried(planned: PlannedDose, trial: Trial) -> Forecast:
    movements = tuple(
        replace(movement, repetitions=count)
        for movement, count in zip(planned.problem.movements, trial.repetitions, strict=True)
    )
    problem = replace(
        planned.problem,
        movements=movements,
        rounds=trial.rounds,
        rest_s=trial.rest_s,
        coach_load_kg=trial.load_kg,
    )
    solution = solve_complex_dose(problem)
    return _forecast(planned, trial, solution, solution.reserve)


def _forecast(
    planned: PlannedDose,
    trial: Trial,
    solution: ComplexDoseSolution,
    reserve: tuple[ReserveAt, ...],
) -> Forecast:
    before = planned.first_round - 1
    points = tuple(replace(point, round=point.round + before) for point in reserve)
    each = len(planned.problem.movements)
    return Forecast(
        trial=trial,
        chance=solution.completion_probability_at(trial.load_kg),
        limiting_movement=solution.limiting_movement,
        limiting_round=solution.limiting_round + before,
        heaviest_kg=solution.modelled_limit_kg,
        basis=solution.basis,
        reserve=tuple(points[place : place + each] for place in range(0, len(points), each)),
        least=min(points, key=lambda point: point.reserve_repetitions),
    )
