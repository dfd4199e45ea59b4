"""The fit: what an athlete's sessions say of his strength, endurance and recovery.

Unknown are the logarithms of his strength in each lift and movement, of his endurance and of two
recovery times, and how his strength walked from session to session. The posterior is taken for
normal (``learning.average`` says which normal).
The same history gives the same fit; nothing is kept but the record it is made from.

Histories with the same unknowns are fitted together, as arrays: axis 0 is people everywhere.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

import numpy as np

from squadwright.learning.average import averaged
from squadwright.learning.history import History
from squadwright.learning.prior import prior_of
from squadwright.learning.together import dated_sights, together
from squadwright.learning.world import World
from squadwright.planning.dose.draws import FloatArray
from squadwright.planning.dose.fatigue import FatigueModel
from squadwright.planning.dose.problem import Learned
from squadwright.planning.dose.unknowns import strength_name

MOST_TOGETHER = 16  # with the draws of each, as much as stays in the processor's cache


@dataclass(frozen=True, eq=False)
class Fitted:
    """The posterior of one athlete.

    ``mean`` and ``covariance`` are of the unknowns (logs, in the order of ``names``) and then of
    the walk: how far log strength stands above the first tests on each of ``days``.
    """

    history: History
    names: tuple[str, ...]
    days: tuple[date, ...]
    mean: FloatArray
    covariance: FloatArray
    world: World

    def on(self, day: date) -> Learned:
        """What is believed of him on a day after his last session, for the dose."""
        size = len(self.names)
        turn = np.eye(size, len(self.mean))
        strengths = np.array([name.startswith(strength_name("")) for name in self.names])
        mean, extra = self.mean[:size].copy(), np.zeros((size, size))
        if self.days:
            turn[strengths, -1] = 1
            gap = max(0, (day - self.days[-1]).days)
            mean[strengths] += self.mean[-1] + self.world.drift_mean(gap)
            extra = np.outer(strengths, strengths) * self.world.drift_variance(gap)
        covariance = turn @ self.covariance @ turn.T + extra
        return Learned(
            self.names,
            tuple(float(value) for value in mean),
            tuple(tuple(float(value) for value in row) for row in covariance),
            self.world.day_sd,
            len(self.history.trials),
        )


def fit(
    history: History, *, model: FatigueModel | None = None, world: World | None = None
) -> Fitted:
    """The posterior of one athlete."""
    return fit_many([history], model=model, world=world)[0]


def fit_many(
    histories: Sequence[History],
    *,
    model: FatigueModel | None = None,
    world: World | None = None,
) -> tuple[Fitted, ...]:
    """The posterior of each athlete, the same as one by one."""
    model, world = model or FatigueModel(), world or World()
    alike: dict[tuple[str, ...], list[int]] = {}
    for index, history in enumerate(histories):
        alike.setdefault(prior_of(history, world).names, []).append(index)
    found: dict[int, Fitted] = {}
    for places in alike.values():
        for start in range(0, len(places), MOST_TOGETHER):
            some = places[start : start + MOST_TOGETHER]
            alike_ones = [histories[index] for index in some]
            found |= dict(zip(some, _fit(alike_ones, model, world), strict=True))
    return tuple(found[index] for index in range(len(histories)))


def _fit(histories: Sequence[History], model: FatigueModel, world: World) -> list[Fitted]:
    squad = together(histories, model, world)
    mean, covariance = averaged(squad, model, world)
    fitted = []
    for index, history in enumerate(histories):
        days = tuple(each.day for each in dated_sights(history, world))
        size = len(squad.names) + len(days)
        cut = covariance[index, :size, :size]
        fitted.append(Fitted(history, squad.names, days, mean[index, :size], cut, world))
    return fitted
