"""What is believed of an athlete before his sessions: his tests, the ratios, the population."""

from dataclasses import dataclass
from math import log, log1p

import numpy as np

from squadwright.learning.history import History
from squadwright.learning.world import World
from squadwright.planning.dose.draws import FloatArray
from squadwright.planning.dose.unknowns import (
    ENDURANCE,
    RECOVERY,
    SLOW_RECOVERY,
    ratio_name,
    strength_name,
)


@dataclass(frozen=True, eq=False)
class Prior:
    """A joint normal of the logarithms of the unknowns, in the order of their names."""

    names: tuple[str, ...]
    mean: FloatArray
    covariance: FloatArray


def prior_of(history: History, world: World) -> Prior:
    """The prior of every unknown that his trials and later tests touch."""
    moments: dict[str, tuple[float, float]] = {}
    lifts = [lift for trial in history.trials for lift in trial.work.reference_lifts]
    lifts += [retest.lift for retest in history.retests]
    for lift in sorted(set(lifts)):
        known = history.capacities[lift]
        moments[strength_name(lift)] = _log_moments(known.mean_kg, known.sd_fraction)
    works = {id(trial.work): trial.work for trial in history.trials}
    parts = {
        ratio_name(movement.name, number): part
        for work in reversed(works.values())
        for movement in work.movements
        for number, part in enumerate(movement.parts)
    }
    for name, part in sorted(parts.items()):
        moments[name] = _log_moments(part.ratio, part.ratio_sd_fraction)
    moments[ENDURANCE] = (0.0, world.endurance_sd**2)
    moments[RECOVERY] = (0.0, world.recovery_sd**2)
    moments[SLOW_RECOVERY] = (0.0, world.recovery_sd**2)
    names = tuple(moments)
    covariance = np.diag([max(variance, 1e-8) for _, variance in moments.values()])
    fast, slow = names.index(RECOVERY), names.index(SLOW_RECOVERY)
    joined = world.recovery_correlation * world.recovery_sd**2
    covariance[fast, slow] = covariance[slow, fast] = joined
    return Prior(names, np.array([mean for mean, _ in moments.values()]), covariance)


def _log_moments(mean: float, sd_fraction: float) -> tuple[float, float]:
    """Mean and variance of the logarithm of a log-normal quantity."""
    variance = log1p(sd_fraction**2)
    return log(mean) - variance / 2, variance
