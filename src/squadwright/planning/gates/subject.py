"""Whom a gate is about, and how what it found is put together."""

from dataclasses import dataclass
from datetime import UTC, datetime
from fractions import Fraction

from squadwright.errors import InvalidInput
from squadwright.model.plan import Finding, Severity
from squadwright.planning.finding import finding
from squadwright.planning.gates.limits import Limit
from squadwright.units import Mass

GROWN_FROM = 18


@dataclass(frozen=True)
class Subject:
    """The athlete a gate is about."""

    id: str
    shown_name: str
    age: int

    @property
    def is_minor(self) -> bool:
        """Whether he is under 18."""
        return self.age < GROWN_FROM


def found(
    rule: str,
    severity: Severity,
    who: Subject,
    sentence: str,
    *,
    value: Fraction | float | None,
    limit: Limit,
    advice: str,
) -> Finding:
    """A finding of a gate; the sentence goes on from the athlete's name."""
    return finding(
        rule,
        severity,
        f"{who.shown_name}: {sentence}",
        athlete=who.id,
        value=None if value is None else float(value),
        limit=float(limit.value),
        unit=limit.unit,
        source=limit.source,
        advice=advice,
    )


def percent_of(part: Fraction, whole: Mass) -> Fraction:
    """An exact percentage of a mass."""
    return 100 * part / exact(whole)


def exact(mass: Mass) -> Fraction:
    """A mass in kilograms as an exact fraction; refuses one that is not above 0."""
    if mass.amount <= 0:
        raise InvalidInput("mass", f"{mass} is not above 0", "Weigh again")
    return Fraction(mass.exact_kg)


def instant(name: str, moment: datetime) -> datetime:
    """A moment in UTC, so that hours that passed are counted and not hours the clock showed."""
    if moment.tzinfo is None:
        raise InvalidInput(name, f"{moment.isoformat()} says no time zone", "Give one")
    return moment.astimezone(UTC)
