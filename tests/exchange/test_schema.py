"""The published schemas say what the program reads, no more and no less."""

import json
from collections.abc import Iterator
from datetime import date
from typing import Any

import pytest
from jsonschema import Draft202012Validator

from exchange.test_club_file_refusals import changed
from squadwright.demo import demo_club
from squadwright.errors import InvalidInput
from squadwright.exchange import field_notes
from squadwright.exchange.club_file import read_club, write_club
from squadwright.exchange.schema import club_schema, plan_schema, record_schema, routine_schema

MONDAY = date(2026, 3, 2)
SCHEMAS = {
    "club": club_schema(),
    "plan": plan_schema(),
    "routine": routine_schema(),
    "record": record_schema(),
}

# What a schema can say by itself; what refers to something else only the program can see.
FORM_MISTAKES: list[tuple[str, Any]] = [
    ("athletes.3.tests.0.load", "x kg"),
    ("athletes.3.tests.0.load", 70),
    ("athletes.3.tests.0.load", "\u0663 kg"),
    ("athletes.3.tests.0.repetitions", "5"),
    ("athletes.3.tests.0.repetitions", True),
    ("athletes.3.tests.0.repetitions", 0),
    ("athletes.3.tests.0.repetitions", 5.5),
    ("athletes.3.tests.0.taken_on", "02/03/2026"),
    ("athletes.3.tests.0.taken_on", 5),
    ("athletes.0.name", ""),
    ("athletes.0.name", "  "),
    ("athletes.0.name", None),
    ("athletes.0.sex", "woman"),
    ("athletes.0.stature_m", 160),
    ("athletes.0.naem", "x"),
    ("athletes.0.tests", {}),
    ("kit", []),
    ("kit.bars.0.in_service", 1),
    ("rooms.0.outline.0", [1, 2, 3]),
    ("rooms.0.outline.0", [1]),
    ("week.0.starts_at", "18:00Z"),
    ("week.0.starts_at", "25:00"),
    ("week.0.starts_at", "18:00:00.5"),
    ("week.0.day", "monday"),
    ("sessions.0.settings.target_probability", 1),
    ("format_version", 2),
    ("note", "x" * 1001),
]


def parts(schema: dict[str, Any]) -> Iterator[tuple[str, dict[str, Any]]]:
    yield "the whole", schema
    yield from schema["$defs"].items()


@pytest.mark.parametrize("name", SCHEMAS)
def test_a_schema_is_itself_valid(name: str) -> None:
    assert SCHEMAS[name]["$schema"] == "https://json-schema.org/draft/2020-12/schema"
    Draft202012Validator.check_schema(SCHEMAS[name])


@pytest.mark.parametrize("name", SCHEMAS)
def test_every_object_is_closed_and_every_field_described(name: str) -> None:
    for part, body in parts(SCHEMAS[name]):
        assert body["description"], part
        if "properties" not in body:
            continue
        assert body["additionalProperties"] is False, part
        for field, described in body["properties"].items():
            assert described["description"].endswith((".", ")")), (part, field)


def test_every_field_note_is_about_a_field_that_is_there() -> None:
    there = {
        f"{body['title'] if part == 'the whole' else part}.{field}"
        for schema in SCHEMAS.values()
        for part, body in parts(schema)
        for field in body.get("properties", ())
    }
    assert set(field_notes.OF_ONE_CLASS) - there == set()


def test_the_demo_club_passes_its_schema() -> None:
    validator = Draft202012Validator(SCHEMAS["club"])
    document = json.loads(write_club(demo_club(MONDAY)))
    assert [error.message for error in validator.iter_errors(document)] == []


@pytest.mark.parametrize(("place", "value"), FORM_MISTAKES)
def test_what_the_schema_refuses_the_program_refuses(place: str, value: Any) -> None:
    text = changed(place, value)
    assert not Draft202012Validator(SCHEMAS["club"]).is_valid(json.loads(text))
    with pytest.raises(InvalidInput):
        read_club(text, today=MONDAY)


@pytest.mark.parametrize("field", ["name"])
def test_a_club_without_a_required_field_fails_the_schema(field: str) -> None:
    document = json.loads(write_club(demo_club(MONDAY)))
    del document[field]
    assert not Draft202012Validator(SCHEMAS["club"]).is_valid(document)
