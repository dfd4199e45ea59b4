"""Every limit of the gates with its unit and source, and the coach's own, which may be stricter.

A source marked "memory" is an assumption, shown as such with each finding.
"""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from decimal import Decimal
from enum import StrEnum
from types import MappingProxyType

from squadwright.errors import InvalidInput, NotFound
from squadwright.formulas.sources import find_source


class Stricter(StrEnum):
    """On which side of a limit the stricter values lie."""

    LOWER = "lower"
    HIGHER = "higher"


@dataclass(frozen=True)
class Limit:
    """One limit: its value, unit, source, and on which side it is stricter."""

    name: str
    value: Decimal
    unit: str
    source_key: str
    stricter: Stricter = Stricter.LOWER
    is_own: bool = False

    @property
    def source(self) -> str:
        """Where the limit is from, and whether that was read."""
        cited = find_source(self.source_key).citation
        return f"coach's setting, stricter than {cited}" if self.is_own else cited

    def stricter_or_same(self, value: Decimal) -> bool:
        """Whether a value is at least as strict."""
        if self.stricter is Stricter.LOWER:
            return value <= self.value
        return value >= self.value


def _limits(*rows: tuple[str, str, str, str, Stricter]) -> Mapping[str, Limit]:
    return MappingProxyType({row[0]: Limit(row[0], Decimal(row[1]), *row[2:]) for row in rows})


_LOW, _HIGH = Stricter.LOWER, Stricter.HIGHER
_WRESTLING, _YOUNG = "wrestling_floors_recalled", "young_lifters_recalled"

LIMITS = _limits(
    ("weekly loss, caution", "1.0", "% a week", "own_choice", _LOW),
    ("weekly loss, stop", "1.5", "% a week", "turocy_2011", _LOW),
    ("loss in the last 72 h", "6.7", "%", "ricci_2025", _LOW),
    ("loss in the last 48 h", "5.7", "%", "ricci_2025", _LOW),
    ("loss in the last 24 h", "4.4", "%", "ricci_2025", _LOW),
    ("recovery after weigh-in", "24", "h", "own_choice", _HIGH),
    ("same-day loss, caution", "2", "%", "own_choice", _LOW),
    ("same-day loss, refer", "3", "%", "own_choice", _LOW),
    ("mass out of camp", "15", "% above the limit", "ricci_2025", _LOW),
    ("morning mass, caution", "2", "% below the mean of 7 days", "nata_2017", _LOW),
    ("morning mass, hold", "3", "% below the mean of 7 days", "nata_2017", _LOW),
    ("urine, caution", "1.020", "specific gravity", "urine_bands_recalled", _LOW),
    ("urine, serious", "1.030", "specific gravity", "urine_bands_recalled", _LOW),
    ("urine before an assessment, college", "1.020", "specific gravity", _WRESTLING, _LOW),
    ("urine before an assessment, high school", "1.025", "specific gravity", _WRESTLING, _LOW),
    ("hours until the next urine", "24", "h", "ncaa_weight_certification", _HIGH),
    ("regain, review", "10", "% above the limit", "california_regain", _LOW),
    ("regain, stop", "15", "% above the limit", "california_regain", _LOW),
    ("energy, adequate", "45", "kcal/kg/day", "energy_availability_2023", _HIGH),
    ("energy, low", "30", "kcal/kg/day", "energy_availability_2023", _HIGH),
    ("carbohydrate", "3", "g/kg/day", "ricci_2025", _HIGH),
    ("protein", "1.2", "g/kg/day", "ricci_2025", _HIGH),
    ("fat", "0.5", "g/kg/day", "ricci_2025", _HIGH),
    ("hours a step", "24", "h", "return_to_sport_2017", _HIGH),
    ("share lifted on the way back", "0.50", "of the maximum", "own_choice", _LOW),
    ("symptoms of a grown person", "14", "days", "return_to_sport_2017", _LOW),
    ("symptoms of a minor", "28", "days", "return_recalled", _LOW),
    ("clearance for hard work", "12", "months", "activity_recalled", _LOW),
    ("pain, watch", "2", "of 10", "pain_monitoring_recalled", _LOW),
    ("pain, stop", "5", "of 10", "pain_monitoring_recalled", _LOW),
    ("fever", "38.0", "degC", "illness_recalled", _LOW),
    ("hours without fever", "24", "h", "fever_rest_page", _HIGH),
    ("days after glandular fever", "21", "days", "illness_recalled", _HIGH),
    ("heat, row 1", "82.0", "degF WBGT", "heat_rows_2007", _LOW),
    ("heat, row 2", "86.0", "degF WBGT", "heat_rows_2007", _LOW),
    ("heat, row 3", "90.0", "degF WBGT", "heat_rows_2007", _LOW),
    ("heat of minors, row 1", "24.0", "degC WBGT", "wet_bulb_globe_page", _LOW),
    ("heat of minors, row 2", "26.0", "degC WBGT", "wet_bulb_globe_page", _LOW),
    ("heat of minors, row 3", "29.0", "degC WBGT", "wet_bulb_globe_page", _LOW),
    ("share lifted by a beginner under 18", "0.60", "of the maximum", _YOUNG, _LOW),
    ("share lifted under 18", "0.80", "of the maximum", _YOUNG, _LOW),
    ("sets of a beginner under 18", "2", "sets", _YOUNG, _LOW),
    ("sets under 18", "4", "sets", _YOUNG, _LOW),
    ("days a week under 18", "3", "days", _YOUNG, _LOW),
    ("step of load under 18", "0.10", "of the load", _YOUNG, _LOW),
    ("sets x repetitions x share", "30", "units an exercise", "first_weeks_recalled", _LOW),
    ("sessions in week 1", "3", "sessions", "first_weeks_recalled", _LOW),
    ("sessions in week 2", "4", "sessions", "first_weeks_recalled", _LOW),
)  # fmt: skip


@dataclass(frozen=True)
class Settings:
    """The coach's own limits, as (name, value); one that is looser is refused."""

    chosen: tuple[tuple[str, Decimal], ...] = ()

    def __post_init__(self) -> None:
        for name, value in self.chosen:
            limit = published(name)
            if not value.is_finite() or value < 0:
                raise InvalidInput(name, f"{value} is not a number from 0", f"Give {limit.unit}")
            if not limit.stricter_or_same(value):
                side = "at most" if limit.stricter is Stricter.LOWER else "at least"
                raise InvalidInput(
                    name,
                    f"{value} is looser than {limit.value} {limit.unit} ({limit.source})",
                    f"Give {side} {limit.value}, or leave the setting out",
                )

    def of(self, name: str) -> Limit:
        """The limit in use."""
        limit = published(name)
        own = dict(self.chosen).get(name)
        if own is None or own == limit.value:
            return limit
        return replace(limit, value=own, is_own=True)


DEFAULT = Settings()


def published(name: str) -> Limit:
    """The limit as published; raises NotFound."""
    if name not in LIMITS:
        raise NotFound(f"no gate has the limit {name!r}. There are: {'; '.join(LIMITS)}.")
    return LIMITS[name]
