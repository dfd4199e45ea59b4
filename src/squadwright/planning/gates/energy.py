"""Energy left after training and the least of each food: shown, and referred, never scored."""

from collections.abc import Mapping
from decimal import Decimal
from enum import StrEnum
from fractions import Fraction

from squadwright.errors import InvalidInput
from squadwright.model.plan import Finding, Severity
from squadwright.planning.gates.limits import DEFAULT, Settings
from squadwright.planning.gates.subject import Subject, exact, found
from squadwright.units import Mass

RULE = "energy availability"
INTAKE = "least of a food"
REFER = "Refer to a doctor or a sports dietitian; reported food is not to be relied on"


class Band(StrEnum):
    """Where energy availability lies; the borders belong to the upper band."""

    ADEQUATE = "adequate"
    REDUCED = "reduced"
    LOW = "low"


def energy_band(
    intake_kcal: Decimal,
    exercise_kcal: Decimal,
    fat_free_kg: Decimal,
    *,
    settings: Settings = DEFAULT,
) -> tuple[Fraction, Band]:
    """Energy availability, exactly, and its band."""
    if fat_free_kg <= 0:
        raise InvalidInput("fat_free_kg", f"{fat_free_kg} is not above 0", "Assess it first")
    value = Fraction(intake_kcal - exercise_kcal) / Fraction(fat_free_kg)
    if value >= Fraction(settings.of("energy, adequate").value):
        return value, Band.ADEQUATE
    if value >= Fraction(settings.of("energy, low").value):
        return value, Band.REDUCED
    return value, Band.LOW


def energy_availability_gate(
    who: Subject,
    intake_kcal: Decimal,
    exercise_kcal: Decimal,
    fat_free_kg: Decimal,
    *,
    settings: Settings = DEFAULT,
) -> Finding | None:
    """A note where energy is reduced, a warning and a referral where it is low."""
    value, band = energy_band(intake_kcal, exercise_kcal, fat_free_kg, settings=settings)
    if band is Band.ADEQUATE:
        return None
    is_low = band is Band.LOW
    return found(
        RULE,
        Severity.WARNING if is_low else Severity.NOTE,
        who,
        f"energy availability {float(value):.1f} kcal/kg/day, {band.value}",
        value=value,
        limit=settings.of("energy, low" if is_low else "energy, adequate"),
        advice=REFER if is_low else "Watch it, and plan no loss of mass without a dietitian",
    )


def least_of_foods(
    who: Subject,
    body_mass: Mass,
    grams_a_day: Mapping[str, Decimal],
    *,
    settings: Settings = DEFAULT,
) -> tuple[Finding, ...]:
    """Carbohydrate, protein and fat [g a day] below the least of the published ranges.

    ``grams_a_day`` is by the name of the food; one that was not asked is not judged.
    """
    findings = []
    for name, grams in grams_a_day.items():
        limit = settings.of(name)
        each = Fraction(grams) / exact(body_mass)
        if each < Fraction(limit.value):
            findings.append(
                found(
                    INTAKE,
                    Severity.WARNING,
                    who,
                    f"{name} {float(each):.2f} g/kg/day, below {limit.value}",
                    value=each,
                    limit=limit,
                    advice=REFER,
                )
            )
    return tuple(findings)
