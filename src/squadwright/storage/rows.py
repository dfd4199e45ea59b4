"""Rows from frozen dataclasses and back: one mapping for every table, driven by the field types."""

import json
from collections.abc import Mapping
from dataclasses import is_dataclass
from decimal import Decimal
from enum import EnumType
from typing import Any, TypeVar, cast, get_args, get_origin

from squadwright.model.shape import plain_type, plain_types
from squadwright.storage.documents import from_document, to_document
from squadwright.units import Mass, MassUnit

_T = TypeVar("_T")


def row_of(value: Any, *, without: tuple[str, ...] = ()) -> dict[str, Any]:
    """The columns of a dataclass; a mass becomes three, a list of words or a part JSON text."""
    row: dict[str, Any] = {}
    for name, kind in plain_types(type(value)).items():
        if name in without:
            continue
        held = getattr(value, name)
        if kind is Mass:
            row |= _mass_columns(name, held)
        elif get_origin(kind) is tuple:
            row[name] = json.dumps(held, ensure_ascii=False)
        elif isinstance(kind, EnumType):
            row[name] = held.value
        elif is_dataclass(kind):
            row[name] = None if held is None else to_document(held)
        else:
            row[name] = held
    return row


def value_of(kind: type[_T], row: Mapping[str, Any], **given: Any) -> _T:
    """The dataclass a row was made from; ``given`` holds what other tables keep."""
    held: dict[str, Any] = dict(given)
    for name, plain in plain_types(kind).items():
        if name in given:
            continue
        if plain is Mass:
            held[name] = _mass(name, row)
        elif get_origin(plain) is tuple:
            item = get_args(plain)[0]
            words = json.loads(row[name])
            inner = plain_type(item)
            held[name] = tuple(inner(w) for w in words)
        elif isinstance(plain, EnumType):
            held[name] = plain(row[name])
        elif is_dataclass(plain):
            held[name] = None if row[name] is None else from_document(cast(type, plain), row[name])
        else:
            held[name] = row[name]
    return kind(**held)


def _mass_columns(name: str, mass: Mass | None) -> dict[str, Any]:
    if mass is None:
        return {f"{name}_amount": None, f"{name}_unit": None, f"{name}_kg": None}
    return {
        f"{name}_amount": str(mass.amount),
        f"{name}_unit": mass.unit.value,
        f"{name}_kg": mass.kg,
    }


def _mass(name: str, row: Mapping[str, Any]) -> Mass | None:
    amount = row[f"{name}_amount"]
    return None if amount is None else Mass(Decimal(amount), MassUnit(row[f"{name}_unit"]))
