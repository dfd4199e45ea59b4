"""A dose that rests on what was learned, on one step, or on a plain rule that came nearer."""

from dataclasses import replace

import numpy as np
import pytest

from squadwright.errors import InvalidInput
from squadwright.model.muscles import MuscleGroup
from squadwright.planning.dose import solve_complex_dose
from squadwright.planning.dose.fatigue import FatigueModel
from squadwright.planning.dose.problem import (
    CapacityBasis,
    ComplexDoseProblem,
    ComplexMovement,
    Learned,
    LiftCapacity,
    MovementPart,
)
from squadwright.planning.dose.strain import largest_load, parts_of, strain_of
from squadwright.planning.dose.unknowns import drawn

PRESS = ComplexMovement(
    "Press", (MovementPart({MuscleGroup.SHOULDERS: 1.0}, "strict press", 1.0, 0.0),), 6
)
SQUAT = ComplexMovement(
    "Front squat", (MovementPart({MuscleGroup.KNEE_EXTENSORS: 1.0}, "back squat", 0.8),), 6
)
PROBLEM = ComplexDoseProblem(
    (PRESS, SQUAT),
    4,
    60.0,
    {
        "strict press": LiftCapacity(60.0, 0.065, CapacityBasis.TESTED),
        "back squat": LiftCapacity(140.0, 0.065, CapacityBasis.TESTED),
    },
)


def learned(press_kg: float, sd: float, *, day_sd: float = 0.0) -> Learned:
    return Learned(
        ("1RM of strict press",), (float(np.log(press_kg)),), ((sd**2,),), day_sd, sessions=3
    )


def test_a_stronger_belief_in_the_same_middle_gives_a_heavier_dose() -> None:
    """Less doubt, same strength: the load that nine in ten bear lies nearer to the middle."""
    limits = [
        solve_complex_dose(replace(PROBLEM, learned=learned(60.0, sd))).modelled_limit_kg
        for sd in (0.15, 0.10, 0.05, 0.02)
    ]
    assert limits == sorted(limits)
    assert limits[-1] > 1.02 * limits[0]


def test_a_dose_scales_with_the_strength_learned() -> None:
    """Twice as strong in every lift bears twice the load: the model has no kilogram of its own."""

    def limit(scale: float) -> float:
        names = ("1RM of strict press", "1RM of back squat")
        means = tuple(float(np.log(scale * kg)) for kg in (60.0, 140.0))
        known = Learned(names, means, ((0.01, 0.0), (0.0, 0.01)), 0.03, sessions=3)
        return solve_complex_dose(replace(PROBLEM, learned=known)).modelled_limit_kg

    assert limit(2.0) == pytest.approx(2 * limit(1.0), rel=1e-9)


def test_draws_of_what_was_learned_have_its_moments() -> None:
    covariance = ((0.04, 0.012), (0.012, 0.01))
    known = Learned(("1RM of strict press", "endurance"), (4.0, 0.2), covariance, 0.0, sessions=1)
    problem = replace(PROBLEM, learned=known)
    capacity_kg, people = drawn(problem, FatigueModel().people(4096))
    logs = np.stack([np.log(capacity_kg[:, 0]), np.log(people.endurance)])
    assert logs.mean(axis=1) == pytest.approx([4.0, 0.2], abs=1e-3)
    assert np.cov(logs) == pytest.approx(np.array(covariance), abs=2e-3)


def test_the_day_widens_what_is_known_exactly() -> None:
    sharp = solve_complex_dose(replace(PROBLEM, learned=learned(60.0, 1e-4)))
    daily = solve_complex_dose(replace(PROBLEM, learned=learned(60.0, 1e-4, day_sd=0.05)))
    assert daily.modelled_limit_kg < sharp.modelled_limit_kg


def test_the_largest_load_leaves_every_part_standing_and_one_just_so() -> None:
    """By the definition: strength left at the last repetition equals the share of the load."""
    model = FatigueModel()
    people = model.people(500)
    capacity_kg, people = drawn(PROBLEM, people)
    parts = parts_of(PROBLEM.movements, model)
    strain = strain_of(parts, capacity_kg, rounds=4, rest_s=60.0, model=model, people=people)
    state = strain.with_reserve(3, 0.0)
    load = largest_load(state, capacity_kg, parts.factor, model)[:, None]
    straight, bent = model.strength_lost(state, parts.factor)
    grown = load**model.constants.load_exponent
    room = 1 - (straight + bent * grown) * grown - load / capacity_kg
    assert room.min(axis=1) == pytest.approx(0, abs=1e-9)


def test_one_step_bounds_the_dose_and_the_coach_does_not_ask_it() -> None:
    free = solve_complex_dose(PROBLEM)
    step_kg = free.limit_kg - 3
    held = solve_complex_dose(replace(PROBLEM, step_kg=step_kg))
    assert held.limit_kg == step_kg
    assert held.held_by_step
    assert held.completion_probability > free.completion_probability
    assert f"{free.modelled_limit_kg:.1f} kg" in held.reason
    wide = solve_complex_dose(replace(PROBLEM, step_kg=free.limit_kg + 3))
    assert (wide.limit_kg, wide.held_by_step) == (free.limit_kg, False)
    word = solve_complex_dose(replace(PROBLEM, step_kg=step_kg, coach_load_kg=free.limit_kg))
    assert (word.limit_kg, word.set_by_coach, word.held_by_step) == (free.limit_kg, True, False)


def test_a_plain_rule_takes_the_place_of_the_forecast_and_the_step_still_holds() -> None:
    free = solve_complex_dose(PROBLEM)
    last = solve_complex_dose(replace(PROBLEM, rule_kg=30.0))
    assert (last.limit_kg, last.goes_by_rule) == (30.0, True)
    assert last.modelled_limit_kg == free.modelled_limit_kg
    rule = solve_complex_dose(replace(PROBLEM, goes_by_plain_rule=True))
    assert (rule.limit_kg, rule.goes_by_rule) == (free.plain_rule_kg, True)
    held = solve_complex_dose(replace(PROBLEM, rule_kg=30.0, step_kg=27.5))
    assert (held.limit_kg, held.held_by_step) == (27.5, True)


def test_moments_that_do_not_fit_are_refused() -> None:
    with pytest.raises(InvalidInput, match="learned"):
        Learned(("a", "b"), (0.0,), ((1.0,),), 0.03, sessions=1)
    with pytest.raises(InvalidInput, match="day_sd"):
        Learned(("a",), (0.0,), ((1.0,),), 0.9, sessions=1)
