"""Plain forecasters of whether a complex will be done, to hold the fit against.

Each has at most one number to go by. What that number is worth is taken from the squad's earlier
trials alone, by a logistic line held near a first guess while there are few of them.

    past = [each for history in squad for each in seen(LastLoad(), history)]
    forecaster(LastLoad(), [p for p in past if p.held_on < day]).chance(before, work, load_kg)
"""

from collections.abc import Sequence
from dataclasses import dataclass, field
from datetime import date
from math import log
from typing import Protocol

import numpy as np
from scipy.optimize import minimize
from scipy.special import expit, logit

from squadwright.learning.history import History, Work
from squadwright.planning.dose.draws import FloatArray
from squadwright.planning.dose.fatigue import FatigueModel
from squadwright.planning.dose.problem import (
    PLAIN_RULE_REPETITIONS,
    PLAIN_RULE_SHARE,
    TARGET_PROBABILITY,
    LiftCapacity,
)
from squadwright.planning.dose.strain import parts_of

# First guesses of the line, each with how far it may be off: our estimates. A load 5 % heavier
# takes a chance of 90 % to 85 %.
FIRST_SLOPE, SLOPE_SD = -10.0, 10.0
FIRST_LEVEL, LEVEL_SD = float(logit(TARGET_PROBABILITY)), 1.5


class Baseline(Protocol):
    """A plain way to see how hard a load is."""

    @property
    def name(self) -> str:
        """What it goes by, in words."""
        ...

    def hardness(self, before: History, work: Work, load_kg: float) -> float | None:
        """Log of the load over the one it compares with; None where there is none to compare."""
        ...


@dataclass(frozen=True)
class LastLoad:
    """He does what he did: the load over his last one with every repetition done.

    The last one of these movements if there is one, else of any complex.
    """

    name: str = "last load"

    def hardness(self, before: History, work: Work, load_kg: float) -> float | None:
        clean = [trial for trial in before.trials if trial.is_whole]
        wanted = _movement_names(work)
        alike = [trial for trial in clean if _movement_names(trial.work) == wanted]
        chosen = alike or clean
        return log(load_kg / chosen[-1].load_kg) if chosen else None


@dataclass(frozen=True)
class ShareOfWeakestLift:
    """The coach's plain rule: the load over 60 % of the five-repetition load in the weakest lift.

    A later test takes the place of the first.
    """

    name: str = "share of the weakest lift"
    model: FatigueModel = field(default_factory=FatigueModel, compare=False, repr=False)

    def hardness(self, before: History, work: Work, load_kg: float) -> float | None:
        return log(load_kg / self.rule_kg(before, work))

    def rule_kg(self, before: History, work: Work) -> float:
        """The load of the plain rule [kg]."""
        known: dict[str, LiftCapacity] = dict(before.capacities)
        known |= {retest.lift: retest.capacity for retest in before.retests}
        factors = parts_of(work.movements, self.model).factor
        parts = [part for movement in work.movements for part in movement.parts]
        fives = [
            known[part.reference_lift].mean_kg
            * part.ratio
            * float(
                self.model.load_for_repetitions(float(factor), PLAIN_RULE_REPETITIONS, np.ones(1))[
                    0
                ]
            )
            for part, factor in zip(parts, factors, strict=True)
        ]
        return PLAIN_RULE_SHARE * min(fives)


@dataclass(frozen=True)
class SameAsEveryone:
    """Everybody has the same chance at any load: the share of the squad's trials done so far."""

    name: str = "same as everyone"

    def hardness(self, before: History, work: Work, load_kg: float) -> float | None:
        return None


BASELINES: tuple[Baseline, ...] = (LastLoad(), ShareOfWeakestLift(), SameAsEveryone())


@dataclass(frozen=True)
class Past:
    """One earlier trial that decided whether he can: how hard it looked then, and what came."""

    held_on: date
    hardness: float | None
    was_done: bool


@dataclass(frozen=True)
class Forecaster:
    """A baseline with what it has learned from the squad so far.

    ``overall`` is its chance where there is nothing to compare a load with.
    """

    baseline: Baseline
    level: float
    slope: float
    overall: float

    def chance(self, before: History, work: Work, load_kg: float) -> float:
        """Chance that every repetition of every round is done."""
        hardness = self.baseline.hardness(before, work, load_kg)
        if hardness is None:
            return self.overall
        return float(expit(self.level + self.slope * hardness))


def seen(baseline: Baseline, history: History) -> tuple[Past, ...]:
    """Each decided trial of a history as the baseline saw it in the morning of its day."""
    return tuple(
        Past(
            trial.held_on,
            baseline.hardness(history.before(trial.held_on), trial.work, trial.load_kg),
            trial.is_whole,
        )
        for trial in history.trials
        if trial.is_decided
    )


def forecaster(baseline: Baseline, past: Sequence[Past]) -> Forecaster:
    """The baseline after these trials. Give it none from the day it forecasts or later."""
    done = sum(each.was_done for each in past)
    overall = (done + 2 * TARGET_PROBABILITY) / (len(past) + 2)
    compared = [each for each in past if each.hardness is not None]
    hardness = np.array([each.hardness for each in compared], dtype=np.float64)
    was_done = np.array([each.was_done for each in compared], dtype=np.float64)
    level, slope = _line(hardness, was_done)
    return Forecaster(baseline, level, slope, overall)


def _line(hardness: FloatArray, was_done: FloatArray) -> tuple[float, float]:
    """Level and slope of the logistic line."""
    first, sd = np.array([FIRST_LEVEL, FIRST_SLOPE]), np.array([LEVEL_SD, SLOPE_SD])
    sign = 2 * was_done - 1

    def badness(scaled: FloatArray) -> tuple[float, FloatArray]:
        level, slope = first + sd * scaled
        score = sign * (level + slope * hardness)
        pull = -sign * expit(-score)
        value = float(np.logaddexp(0.0, -score).sum() + scaled @ scaled / 2)
        return value, scaled + sd * np.array([pull.sum(), pull @ hardness])

    found = minimize(badness, np.zeros(2), jac=True, method="BFGS")
    level, slope = first + sd * found.x
    return float(level), float(slope)


def _movement_names(work: Work) -> tuple[str, ...]:
    return tuple(movement.name for movement in work.movements)
