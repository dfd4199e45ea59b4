"""A plan written and read again is the same plan; its keys are the fields of the model."""

import json
from dataclasses import fields

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from jsonschema import Draft202012Validator

from cases import cases
from exchange.clubs import objects
from squadwright.errors import InvalidInput
from squadwright.exchange.plan_file import read_plan, write_plan
from squadwright.exchange.schema import plan_schema
from squadwright.model.plan import Plan

SCHEMA = Draft202012Validator(plan_schema())
PLANS = objects(Plan)


@st.composite
def plans(draw: st.DrawFn) -> Plan:
    """Plans made up at random from the model's own field types."""
    plan: Plan = draw(PLANS)
    return plan


@settings(suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large])
@given(plan=plans())
def test_a_plan_survives_its_own_file(plan: Plan) -> None:
    text = write_plan(plan)
    assert read_plan(text) == plan
    assert write_plan(read_plan(text)) == text
    assert [error.message for error in SCHEMA.iter_errors(json.loads(text))] == []


@settings(max_examples=cases(5), suppress_health_check=[HealthCheck.too_slow])
@given(plan=plans())
def test_the_keys_are_exactly_the_fields_of_the_plan(plan: Plan) -> None:
    document = json.loads(write_plan(plan))
    assert list(document) == [field.name for field in fields(Plan)]
    for dose, written in zip(plan.doses, document["doses"], strict=True):
        assert list(written) == [field.name for field in fields(dose)]


@settings(max_examples=cases(5), suppress_health_check=[HealthCheck.too_slow])
@given(plan=plans())
def test_a_mistake_in_a_plan_names_its_place(plan: Plan) -> None:
    document = json.loads(write_plan(plan)) | {"seed": "one"}
    with pytest.raises(InvalidInput, match=r"^seed: 'one' is not a whole number"):
        read_plan(json.dumps(document))
    with pytest.raises(InvalidInput, match=r"^the plan: is not JSON"):
        read_plan("{")
