"""The dose of a complex: by hand, against a slower way of finding it, and in every direction."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from cases import cases
from squadwright.errors import InvalidInput
from squadwright.model.muscles import MuscleGroup as G
from squadwright.planning.dose import (
    DRAWS,
    heaviest_buildable,
    reserve_at,
    solve_complex_dose,
    solve_complex_doses,
)
from squadwright.planning.dose.draws import positive_draws
from squadwright.planning.dose.fatigue import FatigueModel
from squadwright.planning.dose.named_lifts import NamedLift
from squadwright.planning.dose.problem import (
    CapacityBasis,
    ComplexDoseProblem,
    ComplexMovement,
    LiftCapacity,
    MovementPart,
)

TESTED, GUESSED = CapacityBasis.TESTED, CapacityBasis.GUESSED
SURE = {"press": LiftCapacity(60.0, 0.0, TESTED), "deadlift": LiftCapacity(160.0, 0.0, TESTED)}
SPREAD = {
    "press": LiftCapacity(60.0, 0.065, TESTED),
    "deadlift": LiftCapacity(160.0, 0.15, GUESSED),
    "row": LiftCapacity(75.0, 0.12, GUESSED),
}


def movement(
    name: str, lift: str, groups: dict[G, float], repetitions: int, ratio: float, reserve: int = 1
) -> ComplexMovement:
    part = MovementPart(groups, lift, ratio, 0.1)
    return ComplexMovement(name, (part,), repetitions, reserve)


HINGE = movement("hinge", "deadlift", {G.HIP_EXTENSORS: 1.0, G.GRIP: 0.7}, 6, 0.6, 2)
ROW = movement("row", "row", {G.UPPER_BACK: 1.0, G.ELBOW_FLEXORS: 0.7, G.GRIP: 0.5}, 6, 0.9)
PRESS = movement("press", "press", {G.SHOULDERS: 1.0, G.ELBOW_EXTENSORS: 0.8}, 6, 0.95)
CLEAN = movement("clean", "press", {G.SHOULDERS: 0.6, G.UPPER_BACK: 0.8, G.GRIP: 0.4}, 4, 1.0)
ALL = (HINGE, ROW, CLEAN, PRESS)
COMPLEX = ComplexDoseProblem(ALL, 4, 140.0, SPREAD)

complexes = st.builds(
    ComplexDoseProblem,
    movements=st.lists(st.sampled_from(ALL), min_size=1, max_size=6).map(tuple),
    rounds=st.integers(1, 8),
    rest_s=st.floats(0, 400),
    capacities=st.just(SPREAD),
    target_probability=st.floats(0.6, 0.98),
)


def test_one_sure_single_with_no_reserve_may_be_all_he_can_lift() -> None:
    single = MovementPart({G.SHOULDERS: 1.0}, "press", 1.0, 0.0)
    problem = ComplexDoseProblem((ComplexMovement("press", (single,), 1, 0),), 1, 0.0, SURE)
    assert solve_complex_dose(problem).modelled_limit_kg == pytest.approx(60.0, rel=1e-6)


def test_a_single_with_one_in_reserve_is_the_load_for_two_repetitions() -> None:
    single = MovementPart({G.SHOULDERS: 1.0}, "press", 1.0, 0.0)
    problem = ComplexDoseProblem((ComplexMovement("press", (single,), 1, 1),), 1, 0.0, SURE)
    model = FatigueModel()
    people = model.people(DRAWS)
    factor = model.constants.repetition_factor[G.SHOULDERS]
    two = 60 * np.sort(model.load_for_repetitions(factor, 2, people.endurance))
    assert solve_complex_dose(problem).critical_load_kg == pytest.approx(two, rel=1e-6)


def completes(problem: ComplexDoseProblem, load_kg: float) -> np.ndarray:
    """Who completes a load, walked through movement by movement: the slow way."""
    model = FatigueModel()
    people = model.people(DRAWS)
    lifts, capacity = {}, {}
    for item in problem.movements:
        (part,) = item.parts
        lifts[item.name] = NamedLift(item.name, part.involvement)
        capacity[item.name] = positive_draws(
            f"1RM of {part.reference_lift}",
            DRAWS,
            mean=problem.capacities[part.reference_lift].mean_kg,
            sd_fraction=problem.capacities[part.reference_lift].sd_fraction,
        ) * positive_draws(
            f"ratio of {item.name}, part 0",
            DRAWS,
            mean=part.ratio,
            sd_fraction=part.ratio_sd_fraction,
        )
    pools = model.pools(lifts.values())
    state, done = model.fresh(people, pools), np.ones(DRAWS, dtype=bool)
    for _ in range(problem.rounds):
        for item in problem.movements:
            share = load_kg / capacity[item.name]
            able = model.repetitions_possible(state, pools, item.name, share, people)
            done &= able >= item.repetitions + item.wanted_reserve
            count = np.full(DRAWS, float(item.repetitions))
            state = model.after_repetitions(state, pools, item.name, share, count, people)
        state = model.after_rest(state, problem.rest_s, pools, people)
    return done


@pytest.mark.parametrize("rounds", [1, 2, 5])
def test_the_limit_agrees_with_walking_through_the_session_movement_by_movement(
    rounds: int,
) -> None:
    problem = replace(COMPLEX, rounds=rounds)
    solution = solve_complex_dose(problem)
    for load_kg in (0.8 * solution.modelled_limit_kg, solution.modelled_limit_kg, 40.0):
        walked = completes(problem, load_kg * (1 - 1e-7)).mean()
        assert solution.completion_probability_at(load_kg) == pytest.approx(walked, abs=1e-9)
    assert completes(problem, solution.modelled_limit_kg * (1 - 1e-7)).mean() >= 0.90


def test_the_reserve_falls_from_round_to_round_and_is_shown_for_each_movement() -> None:
    solution = solve_complex_dose(COMPLEX)
    assert len(solution.reserve) == 4 * len(ALL)
    for item in ALL:
        left = [p.reserve_repetitions for p in solution.reserve if p.movement == item.name]
        assert left == sorted(left, reverse=True)
    assert solution.least_reserve_repetitions == min(
        p.reserve_repetitions for p in solution.reserve
    )


def test_a_weaker_lift_limits_and_says_so() -> None:
    weak = {**SPREAD, "row": LiftCapacity(30.0, 0.1, GUESSED)}
    solution = solve_complex_dose(replace(COMPLEX, capacities=weak))
    assert solution.limiting_movement == "row"
    assert solution.basis is GUESSED
    assert "row gives out first, in round " in solution.reason
    assert "guessed" in solution.reason


def test_an_unsure_strength_lowers_the_dose() -> None:
    sure = {lift: replace(c, sd_fraction=0.03) for lift, c in SPREAD.items()}
    unsure = {lift: replace(c, sd_fraction=0.20) for lift, c in SPREAD.items()}
    assert (
        solve_complex_dose(replace(COMPLEX, capacities=unsure)).modelled_limit_kg
        < solve_complex_dose(replace(COMPLEX, capacities=sure)).modelled_limit_kg
    )


def test_the_chance_at_the_limit_is_the_target_and_falls_with_load() -> None:
    solution = solve_complex_dose(COMPLEX)
    assert solution.completion_probability >= 0.90
    assert solution.completion_probability == pytest.approx(0.90, abs=1 / DRAWS)
    chances = [solution.completion_probability_at(load) for load in (10, 20, 30, 40, 60, 100)]
    assert chances == sorted(chances, reverse=True)
    assert (chances[0], chances[-1]) == (1.0, 0.0)


def test_the_coach_overrides_and_sees_the_chance() -> None:
    solution = solve_complex_dose(replace(COMPLEX, coach_load_kg=40.0, is_first_session=True))
    assert solution.limit_kg == 40.0
    assert solution.set_by_coach
    assert solution.completion_probability == solution.completion_probability_at(40.0)
    assert solution.reason.startswith("The coach set 40.0 kg")


def test_athletes_solved_together_get_what_each_gets_alone() -> None:
    problems = [replace(COMPLEX, rounds=rounds) for rounds in (2, 4)]
    together = solve_complex_doses(problems)
    assert [s.limit_kg for s in together] == [solve_complex_dose(p).limit_kg for p in problems]


def test_a_movement_of_two_parts_costs_what_both_parts_cost() -> None:
    both = ComplexMovement("clean and press", CLEAN.parts + PRESS.parts, 4)
    alone = ComplexMovement("clean and press", PRESS.parts, 4)
    of_two, of_one = (
        solve_complex_dose(replace(COMPLEX, movements=(item,))).modelled_limit_kg
        for item in (both, alone)
    )
    assert of_two < of_one


@given(problem=complexes, more=st.integers(1, 5))
@settings(max_examples=cases(100))
def test_more_rounds_never_raise_the_dose(problem: ComplexDoseProblem, more: int) -> None:
    longer = replace(problem, rounds=problem.rounds + more)
    assert (
        solve_complex_dose(longer).modelled_limit_kg
        <= solve_complex_dose(problem).modelled_limit_kg
    )


@given(problem=complexes, more=st.integers(1, 6), data=st.data())
@settings(max_examples=cases(100))
def test_more_repetitions_never_raise_the_dose(
    problem: ComplexDoseProblem, more: int, data: st.DataObject
) -> None:
    place = data.draw(st.integers(0, len(problem.movements) - 1))
    changed = list(problem.movements)
    changed[place] = replace(changed[place], repetitions=changed[place].repetitions + more)
    heavier = replace(problem, movements=tuple(changed))
    assert (
        solve_complex_dose(heavier).modelled_limit_kg
        <= solve_complex_dose(problem).modelled_limit_kg
    )


@given(problem=complexes, added=st.sampled_from(ALL), data=st.data())
@settings(max_examples=cases(100))
def test_another_exercise_never_raises_the_dose(
    problem: ComplexDoseProblem, added: ComplexMovement, data: st.DataObject
) -> None:
    place = data.draw(st.integers(0, len(problem.movements)))
    movements = (*problem.movements[:place], added, *problem.movements[place:])
    first, second = (
        solve_complex_dose(p) for p in (problem, replace(problem, movements=movements))
    )
    assert second.modelled_limit_kg <= first.modelled_limit_kg
    assert second.plain_rule_kg <= first.plain_rule_kg


@given(problem=complexes, share=st.floats(0, 1))
@settings(max_examples=cases(100))
def test_less_rest_never_raises_the_dose(problem: ComplexDoseProblem, share: float) -> None:
    shorter = replace(problem, rest_s=share * problem.rest_s)
    assert (
        solve_complex_dose(shorter).modelled_limit_kg
        <= solve_complex_dose(problem).modelled_limit_kg
    )


@given(problem=complexes, plain_kg=st.none() | st.floats(5, 80), share=st.floats(0.3, 0.8))
@settings(max_examples=cases(60))
def test_a_first_session_never_goes_above_the_plain_rule(
    problem: ComplexDoseProblem, plain_kg: float | None, share: float
) -> None:
    first = replace(problem, is_first_session=True, plain_rule_kg=plain_kg, plain_rule_share=share)
    solution = solve_complex_dose(first)
    assert solution.limit_kg <= solution.plain_rule_kg
    assert solution.limit_kg <= solution.modelled_limit_kg
    assert plain_kg is None or solution.plain_rule_kg == plain_kg
    assert solution.limiting_movement in {item.name for item in problem.movements}
    assert 1 <= solution.limiting_round <= problem.rounds


@given(
    limit_kg=st.floats(1, 200),
    loads=st.lists(st.floats(1, 200), max_size=12),
)
@settings(max_examples=cases(100))
def test_the_load_built_is_never_above_the_limit(limit_kg: float, loads: list[float]) -> None:
    built = heaviest_buildable(limit_kg, loads)
    if built is None:
        assert all(load > limit_kg for load in loads)
    else:
        assert built in loads
        assert built <= limit_kg
        assert not any(built < load <= limit_kg for load in loads)


@pytest.mark.parametrize(
    ("change", "message"),
    [
        ({"rounds": 0}, "rounds: is 0 rounds; the limits are 1 and 30 rounds"),
        ({"rest_s": -1.0}, "rest_s: is -1 s; the limits are 0 and 3600 s"),
        ({"target_probability": 1.0}, "target_probability: is 1; the limits are 0.5 and 0.99"),
        ({"movements": ()}, "movements: is empty"),
        ({"coach_load_kg": 0.0}, "coach_load_kg: is 0 kg; the limits are 0.5 and 600 kg"),
        ({"capacities": {"press": SPREAD["press"]}}, "capacities: has no deadlift"),
    ],
)
def test_an_impossible_problem_is_refused_with_value_limit_and_unit(change, message) -> None:
    with pytest.raises(InvalidInput, match=message):
        replace(COMPLEX, **change)


def test_a_part_with_no_muscle_group_is_refused() -> None:
    with pytest.raises(InvalidInput, match="names no muscle group"):
        MovementPart({G.GRIP: 0.0}, "press", 1.0)


def test_reserve_at_a_lighter_load_is_never_smaller() -> None:
    problem = COMPLEX
    solved = solve_complex_dose(problem)
    at_limit = reserve_at(problem, solved.limit_kg)
    lighter = reserve_at(problem, 0.8 * solved.limit_kg)
    assert at_limit == solved.reserve
    assert all(
        light.reserve_repetitions > heavy.reserve_repetitions
        for light, heavy in zip(lighter, at_limit, strict=True)
    )
