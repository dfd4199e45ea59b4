"""A JSON text into a frozen dataclass of the model, every mistake told by its place.

Pydantic does the checking, in strict mode: "5" is no number, true is no 1, an unknown key is an
error. This module turns what it finds into sentences for the coach.
"""

from collections.abc import Iterator
from dataclasses import fields, is_dataclass
from datetime import date, datetime, time
from difflib import get_close_matches
from functools import lru_cache
from typing import Any, TypeVar, cast, get_args, get_origin

from pydantic import ConfigDict, TypeAdapter, ValidationError
from pydantic_core import ErrorDetails

from squadwright.errors import InvalidInput
from squadwright.exchange.complaint import Complaint, Location, dotted, shown
from squadwright.exchange.document import parse_object
from squadwright.model.shape import plain_type, plain_types
from squadwright.units import Mass

_T = TypeVar("_T")

STRICT = ConfigDict(strict=True, extra="forbid", allow_inf_nan=False)

WRITE_MASS = 'Write a number and a unit, for example "32.5 kg" or "184 lb"'
WRITE_DATE = 'Write year, month and day, for example "2026-03-02"'
WRITE_INSTANT = 'Write day, time and offset from UTC, for example "2026-03-02T18:00:00+01:00"'
WRITE_TIME = 'Write hours and minutes, for example "18:00"'


def adapter(kind: type[_T]) -> TypeAdapter[tuple[_T]]:
    """The checker of a dataclass. Pydantic hands its rules down only from a container."""
    made: TypeAdapter[tuple[_T]] = _adapter(cast(Any, kind))
    return made


@lru_cache
def _adapter(kind: Any) -> TypeAdapter[Any]:
    return TypeAdapter(tuple[kind], config=STRICT)


def read_strictly(kind: type[_T], text: str, *, place: str) -> tuple[_T | None, list[Complaint]]:
    """The value a text holds, or None and what is wrong with it; no JSON at all is an error."""
    document = parse_object(text, place=place)
    try:
        value = adapter(kind).validate_json(f"[{text}]")[0]
    except ValidationError as error:
        return None, [_complaint(kind, details) for details in error.errors(include_url=False)]
    complaints = list(_not_as_written(value, document, ()))
    return (None if complaints else value), complaints


def _complaint(kind: type, details: ErrorDetails) -> Complaint:
    """One finding of Pydantic in the coach's words."""
    location: Location = details["loc"][1:]
    raised = details.get("ctx", {}).get("error")
    if isinstance(raised, InvalidInput):
        return Complaint(_inner_place(location, raised.place), raised.problem, raised.advice)
    what = details["type"]
    if what == "unexpected_keyword_argument":
        return _unknown_field(kind, location)
    if what == "missing":
        return _missing_field(kind, location)
    problem, advice = _words(details, _type_at(kind, location))
    return Complaint(dotted(location) or "the file", problem, advice)


def _inner_place(location: Location, place: str) -> str:
    """The place a dataclass named ("rooms.outline"), set into where that dataclass stands."""
    if not location:
        return place
    _, _, rest = place.partition(".")
    return f"{dotted(location)}.{rest}" if rest else dotted(location)


def _unknown_field(kind: type, location: Location) -> Complaint:
    parent, key = _type_at(kind, location[:-1]), str(location[-1])
    known = [f.name for f in fields(parent)] if is_dataclass(parent) else []
    near = get_close_matches(key, known, n=1, cutoff=0.5)
    name = "this file" if parent is kind else _name_of(parent)
    advice = f"Did you mean {near[0]!r}? Else take it out" if near else "Take it out"
    return Complaint(
        dotted(location),
        f"{shown(key)} is not a field of {name}",
        advice if near else f"{advice}, or use one of: {', '.join(known)}",
    )


def _missing_field(kind: type, location: Location) -> Complaint:
    wanted = _expected(_type_at(kind, location))
    return Complaint(dotted(location), "is missing", f"Add it: {wanted}")


def _words(details: ErrorDetails, kind: Any) -> tuple[str, str]:
    """Problem and advice for a value of the wrong kind or size."""
    value, what, context = shown(details["input"]), details["type"], details.get("ctx", {})
    if kind is Mass:
        return f"{value} is not a mass", WRITE_MASS
    if kind is date:
        return f"{value} is not a date{_why(context)}", WRITE_DATE
    if kind is time:
        return f"{value} is not a time of day{_why(context)}", WRITE_TIME
    limits = {
        "greater_than_equal": ("is below the limit of", "ge", "or more"),
        "greater_than": ("is not above the limit of", "gt", "or more, but not the limit itself"),
        "less_than_equal": ("is above the limit of", "le", "or less"),
        "less_than": ("is not below the limit of", "lt", "or less, but not the limit itself"),
    }
    if what in limits:
        verb, key, side = limits[what]
        limit = f"{context[key]:g}"
        unit = f" {_unit(details['loc'])}".rstrip()
        return f"{value} {verb} {limit}{unit}", f"Write {limit} {side}"
    if what in ("string_too_short", "string_too_long"):
        size = len(details["input"])
        key, verb = ("min_length", "least") if "short" in what else ("max_length", "most")
        limit = context[key]
        return (
            f"{value} has {size} characters; the limit is at {verb} {limit}",
            "Shorten it" if "long" in what else "Write a text, or take the field out",
        )
    if what in ("too_short", "too_long"):
        most = context.get("max_length", context.get("min_length"))
        return f"the list holds {context['actual_length']} values instead of {most}", "Correct it"
    if what == "literal_error":
        return f"{value} is not {_expected(kind)}", f"Write {_expected(kind)}"
    if what == "enum":
        near = get_close_matches(str(details["input"]), _choices(kind), n=1)
        hint = f"Did you mean {near[0]!r}? " if near else ""
        return f"{value} is not one of the words allowed", f"{hint}Write {_expected(kind)}"
    if what == "json_invalid":
        return f"is not JSON: {context['error']}", "Correct it there"
    return f"{value} is not {_expected(kind)}", f"Write {_expected(kind)}"


def _why(context: dict[str, Any]) -> str:
    return f" ({context['error']})" if "error" in context else ""


def _unit(location: Location) -> str:
    """The unit a field's name ends in."""
    name = next((str(step) for step in reversed(location) if isinstance(step, str)), "")
    endings = {"_m": "m", "_s": "s", "_kg": "kg", "minutes": "minutes", "_years": "years"}
    return next((unit for ending, unit in endings.items() if name.endswith(ending)), "")


def _type_at(kind: type, location: Location) -> Any:
    """The type the model has at a place, or None where it has nothing."""
    here: Any = kind
    for step in location:
        here = plain_type(here)
        if isinstance(step, int) and get_origin(here) is tuple:
            items = get_args(here)
            is_open = len(items) == 2 and items[1] is Ellipsis
            here = items[0] if is_open else items[step] if step < len(items) else None
        elif isinstance(step, str) and is_dataclass(here):
            here = plain_types(here).get(step)
        else:
            return None
    return plain_type(here)


def _choices(kind: Any) -> list[str]:
    values = getattr(kind, "__members__", None)
    if values is not None:
        return [str(member.value) for member in values.values()]
    return [str(value) for value in get_args(kind)]


def _name_of(kind: Any) -> str:
    name = getattr(kind, "__name__", "it")
    words = "".join(f" {c.lower()}" if c.isupper() else c for c in name).strip()
    return f"{'an' if words[0] in 'aeiou' else 'a'} {words}"


def _expected(kind: Any) -> str:
    """What belongs at a place, in words."""
    simple = {
        Mass: 'a mass in quotes, for example "32.5 kg"',
        date: 'a date in quotes, for example "2026-03-02"',
        time: 'a time in quotes, for example "18:00"',
        str: "a text in quotes",
        int: "a whole number without quotes",
        float: "a number without quotes",
        bool: "true or false without quotes",
    }
    if kind in simple:
        return simple[kind]
    if get_origin(kind) is tuple:
        return "a list in square brackets"
    if is_dataclass(kind):
        return f"{_name_of(kind)} in curly brackets"
    choices = _choices(kind)
    if len(choices) == 1:
        return choices[0]
    return f"one of: {', '.join(choices)}" if choices else "something else"


def _not_as_written(value: Any, raw: Any, location: Location) -> Iterator[Complaint]:
    """Compare the value read with the text it was read from, leaf by leaf.

    Refuses what strict types still let through: times with a zone, digits of another script,
    texts of nothing but space, true for a fixed 1.
    """
    if is_dataclass(value) and isinstance(raw, dict):
        for field in fields(value):
            if field.name in raw:
                inner = getattr(value, field.name)
                yield from _not_as_written(inner, raw[field.name], (*location, field.name))
    elif isinstance(value, tuple) and isinstance(raw, list):
        for index, (inner, raw_inner) in enumerate(zip(value, raw, strict=True)):
            yield from _not_as_written(inner, raw_inner, (*location, index))
    elif isinstance(raw, str):
        complaint = _odd_text(value, raw)
        if complaint is not None:
            yield Complaint(dotted(location), *complaint)
    elif isinstance(value, int) and type(raw) is not type(value):
        yield Complaint(dotted(location), f"{shown(raw)} is not {_expected(int)}", f"Write {value}")


def _odd_text(value: Any, raw: str) -> tuple[str, str] | None:
    if isinstance(value, Mass) and not raw.isascii():
        return f"{shown(raw)} is not a mass", WRITE_MASS
    if isinstance(value, datetime):
        return None if raw.isascii() else (f"{shown(raw)} is not an instant", WRITE_INSTANT)
    if isinstance(value, date) and raw != value.isoformat():
        return f"{shown(raw)} is not a date", WRITE_DATE
    if isinstance(value, time) and raw not in (value.isoformat(), value.isoformat("minutes")):
        return f"{shown(raw)} is not a time of day", WRITE_TIME
    if isinstance(value, time) and (value.tzinfo is not None or value.microsecond):
        return f"{shown(raw)} has a zone or parts of a second", WRITE_TIME
    if isinstance(value, str) and raw and not raw.strip():
        return f"{shown(raw)} is blank", "Write a text, or take the field out"
    return None
