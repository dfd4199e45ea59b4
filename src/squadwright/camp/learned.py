"""An athlete's response learned from his own tests, where that beats plain forecasts; else not.

Draws of the prior are weighed by how well they tell his tests from the loads before them, with
errors that have heavy tails. Then the tests are forecast one by one, each from those before it,
and the forecasts are scored beside plain ones. Only where the fit is the nearest does it take the
place of the prior: fitness-fatigue models fit well and forecast badly (marchal_2025).
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from squadwright.camp.response import ResponseDraws
from squadwright.errors import InvalidInput
from squadwright.learning.scores import crps_of_draws
from squadwright.planning.dose.draws import FloatArray, normal_draws

FEWEST_TESTS, FIRST_FORECAST = 8, 5
"""Fewer tests say nothing; the first is forecast from five: our judgement."""

NOISES_PERCENT = (0.75, 1.5, 3.0, 6.0)
FREEDOM = 5.0
USUAL_ERROR_PERCENT = 3.0
FIT = "fit of load and tests"


@dataclass(frozen=True)
class DayResult:
    """A test: days since the first known load, and the result in its unit, more than 0."""

    day: int
    value: float


@dataclass(frozen=True)
class Learned:
    """The draws to go by, whether they are his own, the mean score of each forecaster, and why.

    Scores are continuous ranked probability scores in percent; the lowest is the nearest.
    """

    draws: ResponseDraws
    is_own: bool
    scores: dict[str, float]
    words: str


def learn_response(
    prior: ResponseDraws, day_loads: Sequence[float], tests: Sequence[DayResult]
) -> Learned:
    """Learn from the loads of all days, rest as 0, and tests in the order of their days.

    InvalidInput for a day outside of the loads or a result of 0 or less.
    """
    for test in tests:
        if not 0 <= test.day <= len(day_loads):
            raise InvalidInput(
                "tests", f"day {test.day} is not 0 to {len(day_loads)}", "Give the loads before it"
            )
        if test.value <= 0:
            raise InvalidInput("tests", f"{test.value:g} is not more than 0", "Give the result")
    if len(tests) < FEWEST_TESTS:
        few = f"{len(tests)} tests are too few to learn from, {FEWEST_TESTS} at least"
        return Learned(prior, False, {}, f"{few}: the literature is gone by")
    seen = 100 * np.log([test.value for test in tests])
    told = _told(prior, day_loads, tests)
    lasting = replace(prior, fatigue_gain=np.zeros(prior.count))
    scores = _scores(seen, told, _told(lasting, day_loads, tests))
    nearest = min(scores, key=lambda name: scores[name])
    if nearest != FIT:
        words = (
            f"over {len(tests)} tests the {nearest} came nearer than the fit "
            f"({scores[nearest]:.2f} against {scores[FIT]:.2f} %): the literature is gone by"
        )
        return Learned(prior, False, scores, words)
    chosen = _resampled(_weights(seen, told), prior.count)
    words = (
        f"learned from {len(tests)} own tests, told nearer than by plain forecasts "
        f"({scores[FIT]:.2f} against {min(v for k, v in scores.items() if k != FIT):.2f} %)"
    )
    own = ResponseDraws(
        prior.fitness_d[chosen],
        prior.fatigue_d[chosen],
        prior.fitness_gain[chosen],
        prior.fatigue_gain[chosen],
        words,
    )
    return Learned(own, True, scores, words)


def _told(
    draws: ResponseDraws, day_loads: Sequence[float], tests: Sequence[DayResult]
) -> FloatArray:
    """What each draw tells of each test [percent], less his level: one row a draw."""
    loads = np.asarray(day_loads, dtype=np.float64)
    found = np.empty((draws.count, len(tests)))
    for place, test in enumerate(tests):
        before = np.arange(test.day, 0, -1)
        found[:, place] = draws.influence(before) @ loads[: test.day]
    return found


def _weights(seen: FloatArray, told: FloatArray) -> FloatArray:
    """The weight of each draw; his level is the middle of what is left, the noise is averaged."""
    left = seen - told
    off = left - np.median(left, axis=1, keepdims=True)
    logs = np.stack(
        [
            -((FREEDOM + 1) / 2 * np.log1p((off / noise) ** 2 / FREEDOM)).sum(axis=1)
            - len(seen) * np.log(noise)
            for noise in NOISES_PERCENT
        ]
    )
    likelihood = np.exp(logs - logs.max()).sum(axis=0)
    weights: FloatArray = likelihood / likelihood.sum()
    return weights


def _resampled(weights: FloatArray, count: int) -> "np.typing.NDArray[np.int64]":
    """Places of draws taken by weight at even steps."""
    steps = (np.arange(count) + 0.5) / count
    return np.searchsorted(np.cumsum(weights), steps).clip(0, len(weights) - 1)


def _scores(seen: FloatArray, told: FloatArray, lasting: FloatArray) -> dict[str, float]:
    """The mean score of each forecaster over the tests that are forecast."""
    error = USUAL_ERROR_PERCENT * normal_draws("error of a test", told.shape[0])
    found: dict[str, list[float]] = {}
    for place in range(FIRST_FORECAST, len(seen)):
        before = seen[:place]
        forecasts = {
            FIT: _forecast(before, told[:, : place + 1], error),
            "fitness alone": _forecast(before, lasting[:, : place + 1], error),
            "last test": before[-1] + _scaled(error, np.diff(before)),
            "mean of the last three": before[-3:].mean()
            + _scaled(error, [before[n] - before[n - 3 : n].mean() for n in range(3, place)]),
        }
        for name, draws in forecasts.items():
            found.setdefault(name, []).append(crps_of_draws(draws, float(seen[place])))
    return {name: float(np.mean(each)) for name, each in found.items()}


def _forecast(before: FloatArray, told: FloatArray, error: FloatArray) -> FloatArray:
    """Draws of the next test from the draws that told the ones before it."""
    chosen = _resampled(_weights(before, told[:, :-1]), len(error))
    left = before - told[chosen, :-1]
    level = np.median(left, axis=1)
    spread = np.sqrt(((left - level[:, None]) ** 2).mean())
    forecast: FloatArray = level + told[chosen, -1] + error * (spread / USUAL_ERROR_PERCENT)
    return forecast


def _scaled(error: FloatArray, misses: Sequence[float] | FloatArray) -> FloatArray:
    """Errors as large as a forecaster's have been."""
    size = float(np.sqrt(np.mean(np.square(misses)))) if len(misses) else USUAL_ERROR_PERCENT
    scaled: FloatArray = error * (max(size, 0.1) / USUAL_ERROR_PERCENT)
    return scaled
