"""What the page of the club's own limits shows."""

from dataclasses import dataclass

from squadwright.web.forms import FormView
from squadwright.web.page import template


@dataclass(frozen=True)
class LimitField:
    """One limit: its field, what is published, on which side stricter lies, and its source."""

    field: str
    name: str
    unit: str
    hint: str


@dataclass(frozen=True)
@template("limits/limits.html")
class LimitsPage:
    """Every limit of the safety gates with the club's own value, empty where as published."""

    line: str
    fields: tuple[LimitField, ...]
    view: FormView
    shown: str
