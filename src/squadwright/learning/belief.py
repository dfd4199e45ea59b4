"""What an athlete's sessions say of him, and what they leave open.

A word beyond a number is said only where the interval that holds it nine times in ten lies wholly
on one side of the middle of the population, or of no change.
"""

from dataclasses import dataclass
from datetime import date
from enum import StrEnum
from math import exp, sqrt
from statistics import NormalDist

import numpy as np

from squadwright.learning.fit import Fitted
from squadwright.planning.dose.draws import FloatArray
from squadwright.planning.dose.problem import LiftCapacity
from squadwright.planning.dose.unknowns import ENDURANCE, RECOVERY, SLOW_RECOVERY, strength_name

SHARE = 0.9


class Leaning(StrEnum):
    """On which side of most people somebody is, as far as it can be told."""

    ABOVE = "above"
    BELOW = "below"
    OPEN = "open"


@dataclass(frozen=True)
class Span:
    """A quantity: its middle, and the bounds that hold it nine times in ten."""

    middle: float
    low: float
    high: float

    @property
    def leaning(self) -> Leaning:
        """Where the whole of it lies, from zero."""
        if self.low > 0:
            return Leaning.ABOVE
        return Leaning.BELOW if self.high < 0 else Leaning.OPEN


@dataclass(frozen=True)
class LiftBelief:
    """The maximum in one reference lift [kg], beside what the tests alone said."""

    lift: str
    now_kg: Span
    by_tests: LiftCapacity


@dataclass(frozen=True)
class Change:
    """How strength changed from one day to another, as a fraction; on ``seen`` days it showed."""

    since: date
    until: date
    fraction: Span
    seen: int = 2


@dataclass(frozen=True)
class Belief:
    """What is believed of an athlete on a day. Endurance and recovery are logs, 0 the middle of
    the population; more recovery is longer rests needed.
    """

    sessions: int
    lifts: tuple[LiftBelief, ...]
    endurance: Span
    recovery: Span
    change: Change | None


def belief_of(fitted: Fitted, day: date) -> Belief:
    """What is believed on a day after his last session."""
    learned = fitted.on(day)
    mean, covariance = np.array(learned.mean), np.array(learned.covariance)

    def along(*names: str) -> Span:
        """The middle of some logs."""
        weights = np.array([name in names for name in learned.names]) / len(names)
        return _span(float(weights @ mean), float(weights @ covariance @ weights))

    capacities = fitted.history.capacities
    lifts = [lift for lift in capacities if strength_name(lift) in learned.names]
    trials = fitted.history.trials
    return Belief(
        sessions=len({trial.session for trial in trials}),
        lifts=tuple(
            LiftBelief(lift, _exp(along(strength_name(lift))), capacities[lift]) for lift in lifts
        ),
        endurance=along(ENDURANCE),
        recovery=along(RECOVERY, SLOW_RECOVERY),
        change=change_between(fitted, trials[0].held_on, trials[-1].held_on) if trials else None,
    )


def change_between(fitted: Fitted, first: date, last: date) -> Change | None:
    """How strength changed between his first and last day within a span; None with fewer than two.

    Days are those on which something was seen of him: sessions, and tests after the first one.
    """
    places = [place for place, day in enumerate(fitted.days) if first <= day <= last]
    if not places or fitted.days[places[0]] == fitted.days[places[-1]]:
        return None
    size = len(fitted.names)
    weights = np.zeros(len(fitted.mean))
    weights[size + places[0]], weights[size + places[-1]] = -1, 1
    log = _span(float(weights @ fitted.mean), _variance(weights, fitted.covariance))
    fraction = Span(exp(log.middle) - 1, exp(log.low) - 1, exp(log.high) - 1)
    seen = len({fitted.days[place] for place in places})
    return Change(fitted.days[places[0]], fitted.days[places[-1]], fraction, seen)


def _variance(weights: FloatArray, covariance: FloatArray) -> float:
    return float(weights @ covariance @ weights)


def _span(middle: float, variance: float) -> Span:
    away = NormalDist().inv_cdf((1 + SHARE) / 2) * sqrt(max(variance, 0.0))
    return Span(middle, middle - away, middle + away)


def _exp(log: Span) -> Span:
    return Span(exp(log.middle), exp(log.low), exp(log.high))
