"""How athletes answer to load: draws of what nobody knows, and what a load does on a later day.

The gains are in percent of performance for a unit of load. Their size is our estimate, set so that
a plain taper of two weeks is worth what tapers are in print; the constants spread as far as the
literature does. The draws serve to compare plans, not to forecast a result.
"""

from dataclasses import dataclass
from functools import lru_cache

import numpy as np
import numpy.typing as npt

from squadwright.errors import InvalidInput
from squadwright.formulas.impulse_response import days_load_helps_most, days_load_still_costs
from squadwright.planning.dose.draws import SEED, FloatArray, normal_draws

DRAWS = 200
FITNESS_D, FITNESS_SPREAD = 42.0, 0.25
FATIGUE_D, FATIGUE_SPREAD = 11.0, 0.35
GAIN_RATIO, GAIN_RATIO_SPREAD = 1.8, 0.25
"""Middle and spread of the logarithm: our estimate, over the span of the literature."""

TAPER_GAIN_PERCENT, GAIN_SPREAD = 2.5, 0.4
"""A progressive taper of two weeks from a steady load is worth so much: our estimate, within the
0.5 to 6 % that tapers are said to be worth (mujika_padilla_2003)."""

TAPER_PER_STEADY_LOAD = 1.83
"""What that taper gains, mean of draws, with a fitness gain of 1 and a steady load of 1 a day."""


@dataclass(frozen=True, eq=False)
class ResponseDraws:
    """Equally likely answers of one athlete; arrays of one number a draw.

    ``basis`` says in a sentence where they are from.
    """

    fitness_d: FloatArray
    fatigue_d: FloatArray
    fitness_gain: FloatArray
    fatigue_gain: FloatArray
    basis: str

    @property
    def count(self) -> int:
        """How many draws there are."""
        return len(self.fitness_d)

    def influence(self, days_before: npt.ArrayLike) -> FloatArray:
        """What a unit of load so many days before gives: one row a draw, one column a day."""
        days = np.asarray(days_before, dtype=np.float64)
        lasting = self.fitness_gain[:, None] * np.exp(-days / self.fitness_d[:, None])
        passing = self.fatigue_gain[:, None] * np.exp(-days / self.fatigue_d[:, None])
        effect: FloatArray = np.where(days > 0, lasting - passing, 0.0)
        return effect

    def still_costs_d(self) -> FloatArray:
        """Days before an event from which on a load lowers performance, draw by draw."""
        return self._days(days_load_still_costs)

    def helps_most_d(self) -> FloatArray:
        """Days before an event on which a load helps the most, draw by draw."""
        return self._days(days_load_helps_most)

    def _days(self, formula: object) -> FloatArray:
        assert callable(formula)
        ratio = self.fatigue_gain / self.fitness_gain
        ends = zip(self.fitness_d, self.fatigue_d, ratio, strict=True)
        return np.array([formula(float(a), float(b), float(c)) for a, b, c in ends])


PRIOR_BASIS = "no own tests to learn from yet: middle and spread over the literature, our estimate"


@lru_cache(maxsize=512)
def prior_draws(
    key: str, usual_daily_load: float, count: int = DRAWS, seed: int = SEED
) -> ResponseDraws:
    """Draws before anything is known of an athlete; the same key and seed give the same.

    Parameters
    ----------
    usual_daily_load : load of a usual day [AU], more than 0; it sets the size of the gains.

    Notes
    -----
    T1, T2 and k2/k1 are log-normal, kept where T1 is more than 1.5 times T2 and k2 more than k1.
    """
    if usual_daily_load <= 0:
        raise InvalidInput("usual_daily_load", f"is {usual_daily_load:g} AU", "Give more than 0")
    tried = 2 * count

    def around(name: str, middle: float, spread: float) -> FloatArray:
        logs = np.log(middle) + spread * normal_draws(f"{key} {name}", tried, seed)
        values: FloatArray = np.exp(logs)
        return values

    fitness = around("fitness", FITNESS_D, FITNESS_SPREAD)
    fatigue = around("fatigue", FATIGUE_D, FATIGUE_SPREAD)
    ratio = around("ratio", GAIN_RATIO, GAIN_RATIO_SPREAD)
    usable = np.flatnonzero((fitness > 1.5 * fatigue) & (ratio > 1))[:count]
    size = TAPER_GAIN_PERCENT / (TAPER_PER_STEADY_LOAD * usual_daily_load)
    gain = size * around("gain", np.exp(-(GAIN_SPREAD**2) / 2), GAIN_SPREAD)[usable]
    return ResponseDraws(fitness[usable], fatigue[usable], gain, gain * ratio[usable], PRIOR_BASIS)
