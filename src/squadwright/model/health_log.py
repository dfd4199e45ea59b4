"""Who touched which health field of whom, and when: never what it holds."""

from collections.abc import Iterator
from dataclasses import dataclass, fields
from datetime import datetime
from enum import StrEnum

from squadwright.model.athlete import Athlete
from squadwright.model.measured import Measured
from squadwright.model.medical import Medical


class How(StrEnum):
    """What was done."""

    CHANGED = "changed"
    GIVEN_OUT = "given out as a file"


@dataclass(frozen=True)
class HealthTouch:
    """One line of the log; ``athlete`` is an id, ``field`` the name of what was touched."""

    at: datetime
    who: str
    athlete: str
    field: str
    how: How


ALL_OF_HIM = "everything held of him"
"""The field of a line about all of them."""
OF_AN_ATHLETE = ("body_mass", "weight_plans", "restrictions", "clearances")


def health_fields_changed(before: Athlete | None, after: Athlete | None) -> tuple[str, ...]:
    """The health fields in which an athlete differs; None: he was not there, or is not any more."""
    return tuple(
        name
        for (name, former), (_, now) in zip(_held(before), _held(after), strict=True)
        if former != now
    )


def _held(athlete: Athlete | None) -> Iterator[tuple[str, object]]:
    for name in OF_AN_ATHLETE:
        yield name.replace("_", " "), getattr(athlete, name) if athlete else ()
    medical = athlete.medical if athlete else Medical()
    for each in fields(Medical):
        yield f"medical: {each.name.replace('_', ' ')}", getattr(medical, each.name)
    measured = athlete.measured if athlete else Measured()
    for each in fields(Measured):
        yield f"measured: {each.name}", getattr(measured, each.name)
