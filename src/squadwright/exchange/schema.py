"""Published schemas of the club and routine files, the plan and the record: draft 2020-12."""

from typing import Any

from squadwright.exchange.field_notes import field_note
from squadwright.exchange.reading import adapter
from squadwright.exchange.record_out import RecordFile
from squadwright.exchange.routine_file import RoutineFile
from squadwright.model.club import Club
from squadwright.model.plan import Plan

DIALECT = "https://json-schema.org/draft/2020-12/schema"
DATE = r"^[0-9]{4}-[0-9]{2}-[0-9]{2}$"
TIME = r"^([01][0-9]|2[0-3]):[0-5][0-9](:[0-5][0-9])?$"
MASS_NOTE = 'A mass as typed, with its unit: "32.5 kg" or "184 lb".'
NOT_BLANK = r"\S"


def club_schema() -> dict[str, Any]:
    """Schema of the club file."""
    return _schema(Club, "A club as one file of Squadwright.")


def plan_schema() -> dict[str, Any]:
    """Schema of the plan document."""
    return _schema(Plan, "A planned session of Squadwright.")


def routine_schema() -> dict[str, Any]:
    """Schema of the routine file."""
    return _schema(RoutineFile, "One routine as a file of Squadwright, to be shared.")


def record_schema() -> dict[str, Any]:
    """Schema of the record of a session."""
    return _schema(RecordFile, "What was noted and done in a session of Squadwright.")


def _schema(kind: type, description: str) -> dict[str, Any]:
    made = adapter(kind).json_schema()
    definitions = {name: _definition(name, body) for name, body in made["$defs"].items()}
    whole = definitions.pop(kind.__name__)
    return {
        "$schema": DIALECT,
        **whole,
        "description": description,
        "$defs": definitions,
    }


def _definition(name: str, body: dict[str, Any]) -> dict[str, Any]:
    """One class: nothing but its fields, each with what it holds."""
    body = dict(body)
    if "description" in body:
        body["description"] = " ".join(body["description"].replace("``", "'").split())
    if "properties" not in body:
        return body
    body["additionalProperties"] = False
    body["properties"] = {
        field: _property(name, field, inner) for field, inner in body["properties"].items()
    }
    return body


def _property(owner: str, field: str, body: dict[str, Any]) -> dict[str, Any]:
    told = {"description": field_note(owner, field), **_leaf(body)}
    told.pop("title", None)
    if told.get("default") in ("", None):
        told.pop("default", None)
    return told


def _leaf(body: dict[str, Any]) -> dict[str, Any]:
    """Say what is read: dates, times without a zone, masses, texts that are not blank."""
    body = dict(body)
    for key in ("anyOf", "prefixItems"):
        if key in body:
            body[key] = [_leaf(inner) for inner in body[key]]
    if isinstance(body.get("items"), dict):
        body["items"] = _leaf(body["items"])
    if body.get("type") != "string":
        return body
    if body.get("format") == "date":
        body["pattern"] = DATE
    elif body.get("format") == "time":
        del body["format"]
        body["pattern"] = TIME
    elif "pattern" in body:
        body["pattern"] = body["pattern"].replace(r"\d", "[0-9]")
        body.setdefault("description", MASS_NOTE)
    elif body.get("minLength"):
        body["pattern"] = NOT_BLANK
    return body
