"""What if on a dose that earlier sessions have taught: the plan's own numbers, and its step."""

from dataclasses import replace
from typing import Any

import pytest

from services.fakes import FakeKeeper
from services.test_learning import FIRST, SECOND, dose, plan_of
from services.test_learning import lived as lived
from squadwright.errors import NotFound
from squadwright.model.plan import Plan
from squadwright.planning.what_if import what_if
from squadwright.services.coach_override import Place
from squadwright.services.what_if import dose_in_plan
from squadwright.web.what_if.words import BY_RULE, warnings

BLOCK = "Ropewalk"


@pytest.mark.parametrize("athlete", ["A01", "A02", "A06"])
def test_a_taught_dose_gives_the_plans_own_numbers(
    lived: tuple[FakeKeeper, Plan], athlete: str
) -> None:
    keeper, _ = lived
    planned = dose_in_plan(keeper, Place(SECOND, athlete, BLOCK)).planned
    stands = dose(plan_of(keeper, SECOND), athlete)
    found = what_if(planned, planned.trial)
    assert planned.problem.learned is not None
    assert found.tried == found.plan
    assert found.plan.chance == stands.completion_probability
    assert found.plan.least.reserve_repetitions == stands.reserve_reps


def test_more_than_one_step_above_the_last_session_is_told(
    lived: tuple[FakeKeeper, Plan],
) -> None:
    keeper, _ = lived
    planned = dose_in_plan(keeper, Place(SECOND, "A01", BLOCK)).planned
    step_kg = planned.problem.step_kg
    assert step_kg is not None
    for load_kg, is_told in ((step_kg, False), (step_kg + 2, True)):
        found = what_if(planned, replace(planned.trial, load_kg=load_kg))
        told = " ".join(warnings(found))
        assert ("More than one step above the last session" in told) == is_told
        assert "guessed" not in told


@pytest.mark.parametrize("by_rule", [{"rule_kg": 18.0}, {"goes_by_plain_rule": True}])
def test_where_a_plain_rule_came_nearer_the_chance_is_told_with_care(
    lived: tuple[FakeKeeper, Plan], by_rule: dict[str, Any]
) -> None:
    keeper, _ = lived
    planned = dose_in_plan(keeper, Place(SECOND, "A01", BLOCK)).planned
    assert BY_RULE not in warnings(what_if(planned, planned.trial))
    by_rule_now = replace(planned, problem=replace(planned.problem, **by_rule))
    assert BY_RULE in warnings(what_if(by_rule_now, by_rule_now.trial))


def test_before_any_session_the_plain_rule_holds_and_is_told(
    lived: tuple[FakeKeeper, Plan],
) -> None:
    keeper, _ = lived
    planned = dose_in_plan(keeper, Place(FIRST, "A01", BLOCK)).planned
    found = what_if(planned, replace(planned.trial, load_kg=20.0))
    assert found.plain_rule_kg == 19.5
    assert "Above your plain rule for a first session, 19.5 kg." in warnings(found)


def test_who_learns_on_the_technique_bar_has_nothing_to_try(
    lived: tuple[FakeKeeper, Plan],
) -> None:
    keeper, _ = lived
    with pytest.raises(NotFound, match="No load is worked out"):
        dose_in_plan(keeper, Place(FIRST, "A12", BLOCK))
