"""Where body mass is going: slope with interval, the rate with its base, and the day it arrives."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from squadwright.errors import InvalidInput
from squadwright.formulas.body_mass_trend import (
    LEAST_READINGS,
    LEAST_SPAN_DAYS,
    body_mass_slope,
    body_mass_slope_half_width,
    fitted_body_mass,
    predicted_body_mass_half_width,
    smoothed,
)
from squadwright.formulas.rate_of_change import weekly_loss_of_slope
from squadwright.model.athlete import MassReading
from squadwright.words import day_words as date_words

CONFIDENCE = 0.95
SMOOTHING = 0.25
"""Share of the newest reading in the smoothed line: a choice of this program."""
MOST_DAYS = 366
"""A line is not followed for longer than a year."""


@dataclass(frozen=True)
class MassTrend:
    """A window of readings in kilograms, and its line where there are enough of them.

    ``slope_kg_a_day`` is None with fewer than 3 readings or 5 days. The rates are losses in percent
    a week, of the first reading and of the mean of the window.
    """

    days: tuple[date, ...]
    masses_kg: tuple[float, ...]
    smoothed_kg: tuple[float, ...]
    slope_kg_a_day: float | None = None
    half_width_kg_a_day: float | None = None
    weekly_loss_of_first: float | None = None
    weekly_loss_of_mean: float | None = None

    def fitted_on(self, day: date) -> float | None:
        """Mass on a day by the line; None without a slope."""
        if self.slope_kg_a_day is None:
            return None
        return fitted_body_mass(
            float((day - self.days[0]).days), _counted(self.days), self.masses_kg
        )

    def expected_on(self, day: date) -> tuple[float, float] | None:
        """Where 95 of 100 readings of a day lie if the line goes on [kg]; None without a slope."""
        middle = self.fitted_on(day)
        if middle is None:
            return None
        half = predicted_body_mass_half_width(
            float((day - self.days[0]).days),
            CONFIDENCE,
            days=_counted(self.days),
            masses_kg=self.masses_kg,
        )
        return middle - half, middle + half

    def day_at(self, limit_kg: float) -> date | None:
        """The day the line reaches a limit from above; None where it has no date.

        A line that is flat or rises never gets there; today is the answer where it is there.
        """
        now = self.fitted_on(self.days[-1])
        if now is None or self.slope_kg_a_day is None:
            return None
        if now <= limit_kg:
            return self.days[-1]
        if self.slope_kg_a_day >= 0:
            return None
        left = math.ceil((now - limit_kg) / -self.slope_kg_a_day)
        return self.days[-1] + timedelta(days=left) if left <= MOST_DAYS else None


def day_words(trend: MassTrend, limit_kg: float) -> str:
    """The day the line reaches a limit, or "no date"."""
    day = trend.day_at(limit_kg)
    return "no date" if day is None else date_words(day)


def mass_trend(readings: Sequence[MassReading]) -> MassTrend:
    """The trend of the readings of a window, in the order of their days."""
    if not readings:
        raise InvalidInput("readings", "there are none", "Enter a reading of body mass")
    ordered = sorted(readings, key=lambda reading: reading.taken_on)
    days = tuple(reading.taken_on for reading in ordered)
    masses = tuple(reading.reading.kg for reading in ordered)
    line = smoothed(SMOOTHING, masses)
    if len(days) < LEAST_READINGS or (days[-1] - days[0]).days < LEAST_SPAN_DAYS:
        return MassTrend(days, masses, line)
    slope = body_mass_slope(_counted(days), masses)
    return MassTrend(
        days=days,
        masses_kg=masses,
        smoothed_kg=line,
        slope_kg_a_day=slope,
        half_width_kg_a_day=body_mass_slope_half_width(CONFIDENCE, _counted(days), masses),
        weekly_loss_of_first=weekly_loss_of_slope(slope, masses[0]),
        weekly_loss_of_mean=weekly_loss_of_slope(slope, sum(masses) / len(masses)),
    )


def _counted(days: Sequence[date]) -> tuple[float, ...]:
    return tuple(float((day - days[0]).days) for day in days)
