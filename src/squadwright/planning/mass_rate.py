"""How fast mass would have to be lost for a weigh-in, and what that takes off the work.

A rate is a percentage of the mass of today a week, an exact fraction. There is none for a minor:
he competes at the mass he has.
"""

from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from fractions import Fraction

from squadwright.library.weigh_ins import limit_in_force
from squadwright.model.athlete import Athlete, Event, MassReading
from squadwright.planning.gates.limits import DEFAULT, Settings
from squadwright.planning.gates.subject import exact, percent_of
from squadwright.units import Mass

WEEK_DAYS = 7
ROUNDS_FRACTION = 0.5
"""Share of the rounds while the rate is above the limit: a choice of this program."""


@dataclass(frozen=True)
class NeededLoss:
    """What one weigh-in asks of one athlete: mass above the limit, days left, the rate a week.

    ``days`` is 1 where the weigh-in is today: there is no time left.
    """

    event: Event
    now: MassReading
    limit: Mass
    limit_words: str
    days: int

    @property
    def over_kg(self) -> float:
        """Mass above the limit [kg]."""
        return float(exact(self.now.reading) - exact(self.limit))

    @property
    def percent(self) -> Fraction:
        """Mass above the limit in percent of the mass of today."""
        return percent_of(exact(self.now.reading) - exact(self.limit), self.now.reading)

    @property
    def weekly_percent(self) -> Fraction:
        """The rate in percent of the mass of today a week."""
        return self.percent * WEEK_DAYS / self.days


def needed_loss(athlete: Athlete, event: Event, day: date) -> NeededLoss | None:
    """What a weigh-in to come asks on a day; None where nothing, or too little is known."""
    now, held, next_day = (
        athlete.latest_body_mass(day),
        limit_in_force(event),
        event.weighs_next(day),
    )
    if now is None or held is None or next_day is None:
        return None
    if exact(now.reading) <= exact(held.limit):
        return None
    days = max(1, (next_day - day).days)
    return NeededLoss(event, now, held.limit, held.words, days)


def fastest_loss(athlete: Athlete, day: date) -> NeededLoss | None:
    """The event that asks the most a week; None for a minor, or where none asks anything."""
    if athlete.is_minor_on(day):
        return None
    asked = [needed_loss(athlete, event, day) for event in athlete.events]
    found = [each for each in asked if each is not None]
    return max(found, key=lambda each: each.weekly_percent, default=None)


@dataclass(frozen=True)
class TooFast:
    """A loss above the weekly limit, and that limit [% a week]."""

    loss: NeededLoss
    limit: Decimal


def too_fast(athlete: Athlete, day: date, *, settings: Settings = DEFAULT) -> TooFast | None:
    """What asks for more than the weekly limit; exactly the limit is not more."""
    loss, limit = fastest_loss(athlete, day), settings.of("weekly loss, stop").value
    if loss is None or loss.weekly_percent <= Fraction(limit):
        return None
    return TooFast(loss, limit)


def halved(rounds: int) -> int:
    """Rounds or sets while the rate is too high: half of them, one at least."""
    return max(1, int(rounds * ROUNDS_FRACTION))
