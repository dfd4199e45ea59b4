"""The normal that stands for each person's posterior.

At the peak of a posterior only the weakest part of a complex bends it, as if it were known which
part that is, and the peak's own normal is far too narrow. So gradient and bend of the log posterior
are averaged over draws of the normal itself, which begins as the prior and moves until its mean
has no slope left on average and its inverse covariance is the average bend (the normal that loses
least information). Draws come in pairs on both sides of the mean, the same for everybody, so the
same history gives the same fit.
"""

from dataclasses import replace

import numpy as np

from squadwright.learning.hill import hill_at, prior_hill
from squadwright.learning.together import Together
from squadwright.learning.world import World
from squadwright.planning.dose.draws import FloatArray, normal_draws
from squadwright.planning.dose.fatigue import FatigueModel

PAIRS = 8
# In the first passes days are taken to differ so many times as much. Seen sharply, what is far from
# what the tests promise looks like a slip, and would teach nothing; so slips are rarer as well.
PASSES = (8.0, 8.0, 6.0, 6.0, 4.0, 4.0, 3.0, 3.0, 2.0, 2.0, 1.5, 1.5, 1.0, 1.0, 1.0, 1.0)
SHARE = 0.5  # of the way to what the draws say, in each pass


def averaged(squad: Together, model: FatigueModel, world: World) -> tuple[FloatArray, FloatArray]:
    """Mean and covariance of each person's posterior, people x unknowns and walk."""
    mean = np.hstack([squad.means, np.cumsum(squad.drift, axis=1)])
    count, size = mean.shape
    bend = prior_hill(squad, mean).bend
    if not squad.drift.shape[1]:
        return mean, _inverse(bend)
    draws = 2 * PAIRS
    many, each = squad.only(np.repeat(np.arange(count), draws)), _pairs(size)
    for times in PASSES:
        seen_so = replace(world, day_sd=times * world.day_sd, lapse=world.lapse / times**3)
        root = np.linalg.cholesky(_inverse(bend))
        states = mean[:, None, :] + each @ root.swapaxes(1, 2)
        hill = hill_at(many, states.reshape(count * draws, size), model, seen_so)
        steep = hill.gradient.reshape(count, draws, size).mean(axis=1)
        bent = hill.bend.reshape(count, draws, size, size).mean(axis=1)
        bend = (1 - SHARE) * bend + SHARE * bent
        mean = mean + SHARE * np.linalg.solve(bend, steep[..., None])[..., 0]
    return mean, _inverse(bend)


def _pairs(size: int) -> FloatArray:
    one_side = np.stack([normal_draws(f"state {n}", PAIRS) for n in range(size)], axis=1)
    return np.concatenate([one_side, -one_side])


def _inverse(bend: FloatArray) -> FloatArray:
    return np.asarray(np.linalg.inv(bend), dtype=np.float64)
