"""What if: the plan's own values give the plan's own numbers, and each way of making it easier
never lowers the chance.
"""

from collections.abc import Mapping
from dataclasses import replace
from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from squadwright.demo import demo_club
from squadwright.demo.sessions import BARBELL_SESSION
from squadwright.errors import InvalidInput
from squadwright.library import exercise
from squadwright.model.plan import Dose
from squadwright.model.session import Override
from squadwright.planning.plan import Timed, make_timed
from squadwright.planning.what_if import (
    LOAD_KG,
    REPETITIONS,
    REST_S,
    ROUNDS,
    PlannedDose,
    Trial,
    WhatIf,
    what_if,
)
from squadwright.units import kilograms

MONDAY = date(2026, 3, 2)
LATE, TAPERED = "A05", "A13"


@pytest.fixture(scope="module")
def barbell() -> Timed:
    club = demo_club(MONDAY)
    return make_timed(club, club.session(BARBELL_SESSION))


def doses_of(barbell: Timed) -> dict[str, Dose]:
    return {d.athlete: d for d in barbell.plan.doses if (d.athlete, d.block) in barbell.doses}


def planned_of(barbell: Timed, athlete: str) -> PlannedDose:
    dose = doses_of(barbell)[athlete]
    assert dose.load_kg is not None
    return PlannedDose(barbell.doses[athlete, dose.block], dose.load_kg, dose.first_round)


@pytest.fixture(scope="module")
def planned(barbell: Timed) -> PlannedDose:
    return planned_of(barbell, "A06")


def tried(planned: PlannedDose, **values: object) -> WhatIf:
    changed: Mapping[str, object] = values
    return what_if(planned, replace(planned.trial, **changed))  # type: ignore[arg-type]


def test_every_lifter_with_a_worked_out_load_can_be_tried_on_and_nobody_else(
    barbell: Timed,
) -> None:
    with_chance = {d.athlete for d in barbell.plan.doses if d.completion_probability is not None}
    assert set(doses_of(barbell)) == with_chance
    assert len(with_chance) == 11


@pytest.mark.parametrize("athlete", ["A01", "A04", LATE, "A09", TAPERED])
def test_the_plans_own_values_give_exactly_the_plans_own_numbers(
    barbell: Timed, athlete: str
) -> None:
    dose, planned = doses_of(barbell)[athlete], planned_of(barbell, athlete)
    assert planned.trial.rounds == dose.rounds
    found = what_if(planned, planned.trial)
    assert found.tried == found.plan
    assert found.plan.chance == dose.completion_probability
    assert found.plan.limiting_round == dose.limiting_round
    assert found.plan.limiting_movement == exercise(str(dose.limiting_exercise)).name
    assert found.plan.least.reserve_repetitions == dose.reserve_reps
    shown = [(p.round, p.reserve_repetitions) for each in found.tried.reserve for p in each]
    assert shown == [(p.round, p.reserve_reps) for p in dose.reserve]
    assert found.level == dose.target_probability


def test_a_load_by_the_coachs_word_gives_the_plans_own_numbers_as_well() -> None:
    club = demo_club(MONDAY)
    word = Override("A06", "asked for it", load=kilograms("40"))
    session = replace(club.session(BARBELL_SESSION), overrides=(word,))
    timed = make_timed(club, session)
    dose, planned = doses_of(timed)["A06"], planned_of(timed, "A06")
    assert planned.problem.coach_load_kg == 40
    found = what_if(planned, planned.trial)
    assert found.tried == found.plan
    assert found.plan.chance == dose.completion_probability
    assert found.own_limit_kg < 40


def test_the_rounds_of_a_late_athlete_are_those_of_the_session(barbell: Timed) -> None:
    found = tried(planned_of(barbell, LATE), rounds=2)
    assert [each[0].round for each in found.plan.reserve] == [2, 3, 4]
    assert [each[0].round for each in found.tried.reserve] == [2, 3]
    assert found.tried.limiting_round == 3


@given(rests=st.tuples(st.integers(*REST_S), st.integers(*REST_S)).map(sorted))
def test_more_rest_never_lowers_the_chance_the_heaviest_load_or_the_reserve(
    planned: PlannedDose, rests: list[int]
) -> None:
    short, long = (tried(planned, rest_s=float(rest)).tried for rest in rests)
    assert short.chance <= long.chance
    assert short.heaviest_kg <= long.heaviest_kg + 1e-9
    assert short.least.reserve_repetitions <= long.least.reserve_repetitions + 1e-9


@given(loads=st.tuples(st.floats(5, 120), st.floats(5, 120)).map(sorted))
def test_less_load_never_lowers_the_chance_and_leaves_the_heaviest_load_as_it_is(
    planned: PlannedDose, loads: list[float]
) -> None:
    light, heavy = (tried(planned, load_kg=load).tried for load in loads)
    assert light.chance >= heavy.chance
    assert light.heaviest_kg == heavy.heaviest_kg
    assert light.least.reserve_repetitions >= heavy.least.reserve_repetitions - 1e-9


@given(rounds=st.tuples(st.integers(1, 12), st.integers(1, 12)).map(sorted))
def test_fewer_rounds_never_lower_the_chance(planned: PlannedDose, rounds: list[int]) -> None:
    few, many = (tried(planned, rounds=count).tried for count in rounds)
    assert few.chance >= many.chance
    assert len(few.reserve) == rounds[0]


@given(place=st.integers(0, 5), more=st.integers(1, 6))
def test_more_repetitions_of_any_movement_never_raise_the_chance(
    planned: PlannedDose, place: int, more: int
) -> None:
    counts = list(planned.trial.repetitions)
    counts[place] += more
    found = tried(planned, repetitions=tuple(counts))
    assert found.tried.chance <= found.plan.chance
    assert found.tried.heaviest_kg <= found.plan.heaviest_kg + 1e-9


def test_the_heaviest_load_is_the_one_at_which_the_chance_is_what_the_coach_asks(
    planned: PlannedDose,
) -> None:
    heaviest_kg = tried(planned, rest_s=60.0).tried.heaviest_kg
    at = tried(planned, rest_s=60.0, load_kg=heaviest_kg)
    over = tried(planned, rest_s=60.0, load_kg=heaviest_kg * 1.01)
    assert over.tried.chance < at.level <= at.tried.chance


def test_each_movement_stands_at_its_place_though_its_name_stands_twice(
    planned: PlannedDose,
) -> None:
    first = planned.problem.movements[0]
    twice = replace(
        planned, problem=replace(planned.problem, movements=(first, first), coach_load_kg=None)
    )
    (point, again), *_ = what_if(twice, replace(twice.trial, repetitions=(4, 8))).tried.reserve
    assert point.movement == again.movement == first.name
    assert point.reserve_repetitions > again.reserve_repetitions


@pytest.mark.parametrize(
    ("name", "limits"),
    [("rest_s", REST_S), ("rounds", ROUNDS), ("load_kg", LOAD_KG), ("repetitions", REPETITIONS)],
)
def test_the_limits_are_those_of_a_dose(
    planned: PlannedDose, name: str, limits: tuple[float, float]
) -> None:
    def with_value(value: float) -> Trial:
        if name == "repetitions":
            whole = (int(value), *planned.trial.repetitions[1:])
            return replace(planned.trial, repetitions=whole)
        return replace(planned.trial, **{name: value})  # type: ignore[arg-type]

    low, high = limits
    step = 0.1 if name == "load_kg" else 1
    for value in limits:
        what_if(planned, with_value(value))
    for value in (low - step, high + step):
        with pytest.raises(InvalidInput, match="the limits are"):
            what_if(planned, with_value(value))


@pytest.mark.parametrize(
    ("is_first", "keeps", "is_shown"),
    [(True, True, True), (False, True, False), (True, False, False)],
)
def test_the_plain_rule_is_shown_where_a_first_session_keeps_to_it(
    planned: PlannedDose, is_first: bool, keeps: bool, is_shown: bool
) -> None:
    problem = replace(
        planned.problem, is_first_session=is_first, first_session_within_plain_rule=keeps
    )
    found = what_if(replace(planned, problem=problem), planned.trial)
    assert (found.plain_rule_kg is not None) is is_shown
    assert found.plan.basis is found.tried.basis
