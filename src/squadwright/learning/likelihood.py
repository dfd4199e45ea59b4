"""Log likelihood of what was seen, with its slope and bend by the margins it depends on.

A margin is the log load a person bears at a point, less the log load on the bar; divided by the
spread of strength from day to day it is a score. ``bend`` is the negative second derivative, kept
from bending upward, so that each step of the fit goes up.
"""

from typing import NamedTuple

import numpy as np
from scipy.special import log_ndtr, ndtr

from squadwright.planning.dose.draws import FloatArray

STUDENT = 4.0  # degrees of freedom: a call far off is taken for a slip of the tongue
FAR = 30.0


class Seen(NamedTuple):
    """Value, slope and bend of a log likelihood by one margin or score, all of one shape."""

    value: FloatArray
    slope: FloatArray
    bend: FloatArray


class Band(NamedTuple):
    """Value of a log likelihood, slopes by two scores, and the three bends."""

    value: FloatArray
    upper_slope: FloatArray
    lower_slope: FloatArray
    upper_bend: FloatArray
    lower_bend: FloatArray
    cross_bend: FloatArray


def between(upper: FloatArray, lower: FloatArray, lapse: float) -> Band:
    """Strength of the day reached one bound and not the other.

    ``upper`` is the score of the point that was done (inf for none), ``lower`` of the one that
    was not (-inf for none). With chance ``lapse`` the outcome had nothing to do with strength.
    """
    slip = lapse / 2
    upper, lower = np.clip(upper, -FAR, FAR), np.clip(lower, -FAR, FAR)
    whole = (1 - lapse) * np.maximum(ndtr(upper) - ndtr(lower), 0.0) + slip
    up, down = ((1 - lapse) * _density(score) / whole for score in (upper, lower))
    cross = up * down
    return Band(
        np.log(whole),
        up,
        -down,
        np.maximum(upper * up + up**2, cross),
        np.maximum(-lower * down + down**2, cross),
        -cross,
    )


def below(score: FloatArray) -> Seen:
    """Strength of the day did not reach a bound with this score."""
    value = log_ndtr(-score)
    ratio = np.exp(-(score**2) / 2 - np.log(2 * np.pi) / 2 - value)
    return Seen(value, -ratio, np.maximum(ratio * (ratio - score), 0.0))


def near(margin: FloatArray, sd: FloatArray) -> Seen:
    """A margin called to be zero, give or take; far-off calls count less (Student's t)."""
    far = (margin / sd) ** 2
    weight = (STUDENT + 1) / (STUDENT + far) / sd**2
    return Seen(-(STUDENT + 1) / 2 * np.log1p(far / STUDENT), -weight * margin, weight)


def _density(score: FloatArray) -> FloatArray:
    density: FloatArray = np.exp(-(score**2) / 2) / np.sqrt(2 * np.pi)
    return density
