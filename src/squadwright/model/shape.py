"""The shape of the model's dataclasses: the plain type of each field."""

from dataclasses import fields
from functools import lru_cache
from types import NoneType, UnionType
from typing import Annotated, Any, Union, cast, get_args, get_origin, get_type_hints


def plain_type(hint: Any) -> Any:
    """A type without its limits and without "or None"."""
    if get_origin(hint) is Annotated:
        return plain_type(get_args(hint)[0])
    if get_origin(hint) in (Union, UnionType):
        others = [arg for arg in get_args(hint) if arg is not NoneType]
        if len(others) == 1:
            return plain_type(others[0])
    return hint


def plain_types(kind: Any) -> dict[str, Any]:
    """The plain type of each field of a dataclass, by name."""
    return _plain_types(cast(Any, kind))


@lru_cache
def _plain_types(kind: Any) -> dict[str, Any]:
    hints = get_type_hints(kind, include_extras=True)
    return {field.name: plain_type(hints[field.name]) for field in fields(kind)}


def is_same(one: object, other: object) -> bool:
    """Whether two values are the same to the last digit typed: 20 kg and 20.0 kg are not."""
    return one is other or (one == other and repr(one) == repr(other))
