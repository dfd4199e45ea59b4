"""The kinds of columns that tables are made of. A mass is kept as typed and in kg for queries."""

from collections.abc import Iterator
from typing import Any

from sqlalchemy import Boolean, Column, Date, Double, Integer, MetaData, Text

metadata = MetaData(
    naming_convention={
        "pk": "pk_%(table_name)s",
        "fk": "fk_%(table_name)s_%(column_0_name)s",
        "uq": "uq_%(table_name)s_%(column_0_N_name)s",
        "ck": "ck_%(table_name)s_%(constraint_name)s",
        "ix": "ix_%(table_name)s_%(column_0_N_name)s",
    }
)


def text(name: str, *, key: bool = False) -> Column[Any]:
    """A text that is always there."""
    return Column(name, Text, primary_key=key, nullable=False)


def number(name: str, *, key: bool = False, optional: bool = False) -> Column[Any]:
    """A whole number."""
    return Column(name, Integer, primary_key=key, nullable=optional)


def day(name: str, *, optional: bool = False) -> Column[Any]:
    """A day."""
    return Column(name, Date, nullable=optional)


def flag(name: str) -> Column[Any]:
    """Yes or no."""
    return Column(name, Boolean, nullable=False)


def size(name: str, *, optional: bool = False) -> Column[Any]:
    """A measured number."""
    return Column(name, Double, nullable=optional)


def mass(name: str, *, optional: bool = False) -> Iterator[Column[Any]]:
    """A mass: the amount and unit as typed, and in kg for queries."""
    yield Column(f"{name}_amount", Text, nullable=optional)
    yield Column(f"{name}_unit", Text, nullable=optional)
    yield Column(f"{name}_kg", Double, nullable=optional)
