"""Evenly spread draws of unknown quantities, the same for the same key.

Each unknown has a key and its own shuffled set of evenly spaced quantiles (Latin hypercube). The
draws of one key do not depend on which other keys are in use, so adding an exercise or an athlete
leaves every other draw as it was: two problems are always compared on the same people.
"""

from functools import lru_cache
from statistics import NormalDist
from zlib import crc32

import numpy as np
import numpy.typing as npt

FloatArray = npt.NDArray[np.float64]

SEED = 20260302


@lru_cache(maxsize=8)
def _even_normal(count: int) -> FloatArray:
    inverse = NormalDist().inv_cdf
    return np.array([inverse((k + 0.5) / count) for k in range(count)])


@lru_cache(maxsize=512)
def _shuffle(key: str, count: int, seed: int) -> npt.NDArray[np.int64]:
    return np.random.default_rng([seed, crc32(key.encode())]).permutation(count)


def uniform_draws(key: str, count: int, seed: int = SEED) -> FloatArray:
    """Draws between 0 and 1."""
    return (_shuffle(key, count, seed) + 0.5) / count


def normal_draws(key: str, count: int, seed: int = SEED) -> FloatArray:
    """Draws of mean 0 and standard deviation 1."""
    return _even_normal(count)[_shuffle(key, count, seed)]


def positive_draws(
    key: str, count: int, *, mean: float, sd_fraction: float, seed: int = SEED
) -> FloatArray:
    """Draws of a positive quantity (log-normal) of this mean and SD as a fraction of it."""
    sd_log = float(np.sqrt(np.log1p(sd_fraction**2)))
    drawn: FloatArray = mean * np.exp(sd_log * normal_draws(key, count, seed) - sd_log**2 / 2)
    return drawn
