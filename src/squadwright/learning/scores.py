"""How near forecasts came: scores, and how far an average may be off by chance.

Both scores are proper: whoever says what he believes can expect the least. 0 is a forecast that
was certain and right.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil, sqrt

import numpy as np
import numpy.typing as npt
from scipy.stats import norm
from scipy.stats import t as student

from squadwright.errors import InvalidInput
from squadwright.planning.dose.draws import SEED, FloatArray
from squadwright.planning.dose.limit import check_within

SHARE = 0.95
RESAMPLES = 4000
FEWEST_GROUPS = 5
IntArray = npt.NDArray[np.int64]


@dataclass(frozen=True)
class Average:
    """An average of ``count`` values with the bounds it lies between; endless if not to be told."""

    mean: float
    low: float
    high: float
    count: int

    @property
    def is_below_zero(self) -> bool:
        """Whether the whole interval lies below zero."""
        return self.high < 0

    @property
    def is_above_zero(self) -> bool:
        """Whether the whole interval lies above zero."""
        return self.low > 0


def brier_score(chance: float, happened: bool) -> float:
    """Brier score of one forecast of whether something happens.

    Parameters
    ----------
    chance
        The chance that was forecast, 0 to 1.
    happened
        Whether it happened.

    Returns
    -------
    float
        ``(chance - 1)**2`` if it happened, ``chance**2`` if not: 0 at best, 1 at worst.

    Notes
    -----
    Brier 1950, Monthly Weather Review 78:1-3, in the form for two outcomes that counts one of
    them (his own sum over both is twice as much).
    """
    check_within("chance", chance, 0.0, 1.0, "")
    return (chance - happened) ** 2


def crps_of_counts(chances: Sequence[float] | FloatArray, count: int) -> float:
    """Continuous ranked probability score of a forecast of a count.

     Parameters
     ----------
     chances
         Chance of exactly 0, 1, ... of them; they add up to 1.
     count
         How many it was.

     Returns
     -------
     float
         The score, in what is counted: for a forecast without doubt, how many it was off.

     Notes
     -----
     ``sum over k of (F(k) - [count <= k])**2`` with the cumulative chance F, which is the integral
     of Gneiting and Raftery 2007, Journal of the American Statistical Association 102:359-378
    , turned round in sign, for steps of one.
    """
    each = np.asarray(chances, dtype=np.float64)
    check_within("count", count, 0, len(each) - 1, "")
    if abs(each.sum() - 1) > 1e-6 or (each < 0).any():
        raise InvalidInput(
            "chances",
            f"add up to {each.sum():.4f}, the least is {each.min(initial=0):.4f}",
            "Give chances of 0 or more that add up to 1",
        )
    reached = np.arange(len(each)) >= count
    return float(((np.cumsum(each) - reached) ** 2).sum())


def crps_of_draws(draws: Sequence[float] | FloatArray, value: float) -> float:
    """Continuous ranked probability score of a forecast given as draws.

    Parameters
    ----------
    draws
        Equally likely values, in any order; at least one.
    value
        What it was, in the same unit.

    Returns
    -------
    float
        The score, in the unit of the draws.

    Notes
    -----
    ``mean |x - value| - mean |x - x'| / 2`` over the draws x and over all pairs of them: Gneiting
    and Raftery 2007, Journal of the American Statistical Association 102:359-378, turned round in
    sign, for the distribution that has these draws and no other values.
    """
    each = np.sort(np.asarray(draws, dtype=np.float64))
    size = len(each)
    if not size:
        raise InvalidInput("draws", "are none", "Give at least one")
    # Of sorted draws, the one at place i is the larger of i pairs and the smaller of the others.
    apart = float((2 * np.arange(size) - size + 1) @ each) / size**2
    return float(np.abs(each - value).mean()) - apart


def wilson_interval(happened: int, count: int, share: float = SHARE) -> tuple[float, float]:
    """Bounds of the share that something happens in the long run, from how often it did.

    Parameters
    ----------
    happened, count
        It happened so many times of so many, one independent of the other. ``count`` is at least 1.
    share
        How sure the bounds are, 0 to 1.

    Returns
    -------
    tuple of float
        Least and greatest share, 0 to 1.

    Notes
    -----
    The shares p with ``|happened/count - p| <= z sqrt(p (1 - p) / count)``: Wilson 1927, Journal of
    the American Statistical Association 22:209-212. Unlike the usual plus and minus it stays within
    0 and 1 and is of use for a few, and for all or none.
    """
    check_within("count", count, 1, 10**9, "")
    check_within("happened", happened, 0, count, "")
    z = float(norm.ppf((1 + share) / 2))
    seen = happened / count
    middle = (seen + z**2 / (2 * count)) / (1 + z**2 / count)
    reach = z / (1 + z**2 / count) * sqrt(seen * (1 - seen) / count + (z / (2 * count)) ** 2)
    low = 0.0 if happened == 0 else middle - reach
    return low, 1.0 if happened == count else middle + reach


def average_of(
    values: Sequence[float] | FloatArray,
    groups: Sequence[str],
    *,
    share: float = SHARE,
    seed: int = SEED,
) -> Average:
    """An average and how far chance may have moved it, where values of one group hang together.

    Parameters
    ----------
    values
        One for each thing seen, such as the difference of two scores; at least one.
    groups
        The group of each value, such as the athlete.
    share
        How sure the bounds are, 0 to 1.
    seed
        The same seed and values give the same bounds.

    Returns
    -------
    Average
        With fewer than ``FEWEST_GROUPS`` groups the bounds are endless: nothing can be told.

    Notes
    -----
    Whole groups are drawn anew with replacement, ``RESAMPLES`` times, and the bounds are quantiles
    of the averages. For few groups these are too narrow; the quantiles are taken further out, to
    where ``sqrt(n / (n - 1))`` times Student's t of n - 1 would be on a normal (the expanded
    percentile interval of Hesterberg 2015, The American Statistician 69:371-386). The same is done
    with every value as a group of its own, and the wider bounds count: groups that happen to be
    alike say little of how sure the average is.
    """
    each = np.asarray(values, dtype=np.float64)
    if len(each) != len(groups) or not len(each):
        raise InvalidInput(
            "values", f"are {len(each)} with {len(groups)} groups", "Give a group for each value"
        )
    names, place = np.unique(np.asarray(groups), return_inverse=True)
    mean = float(each.mean())
    if len(names) < FEWEST_GROUPS:
        return Average(mean, -np.inf, np.inf, len(each))
    bounds = [_bounds(each, place, share, seed)]
    if len(names) < len(each):
        bounds.append(_bounds(np.sort(each), np.arange(len(each)), share, seed))
    return Average(mean, min(b[0] for b in bounds), max(b[1] for b in bounds), len(each))


def _bounds(each: FloatArray, place: IntArray, share: float, seed: int) -> tuple[float, float]:
    """Bounds of the average where whole groups, each at its place, are drawn anew."""
    sums, counts = np.bincount(place, each), np.bincount(place)
    size = len(sums)
    drawn = np.random.default_rng(seed).integers(size, size=(RESAMPLES, size))
    means = np.sort(sums[drawn].sum(axis=1) / counts[drawn].sum(axis=1))
    reach = sqrt(size / (size - 1)) * float(student.ppf((1 + share) / 2, size - 1))
    outside = ceil(RESAMPLES * float(norm.cdf(-reach))) - 1
    return float(means[outside]), float(means[-1 - outside])
