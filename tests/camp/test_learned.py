"""Learning a response from tests of invented athletes whose truth is known."""

import numpy as np
import pytest

from squadwright.camp.learned import FIT, DayResult, learn_response
from squadwright.camp.response import ResponseDraws, prior_draws
from squadwright.errors import InvalidInput

PRIOR = prior_draws("learner", 300.0, 1000)
BASELINES = {"fitness alone", "last test", "mean of the last three"}


def truth(fitness_d: float, fatigue_d: float, ratio: float, gain: float) -> ResponseDraws:
    one = np.ones(1)
    return ResponseDraws(
        fitness_d * one, fatigue_d * one, gain * one, gain * ratio * one, "invented"
    )


def loads_in_blocks(days: int, seed: int) -> list[float]:
    """Hard and easy weeks by turns, so that fitness and fatigue come apart."""
    random = np.random.default_rng(seed)
    hard = random.uniform(0, 700, days)
    return [float(load * ((day // 10) % 3 > 0)) for day, load in enumerate(hard)]


def results_of(
    who: ResponseDraws | None, loads: list[float], noise: float, seed: int
) -> list[DayResult]:
    random = np.random.default_rng(seed)
    found = []
    for day in range(30, len(loads), 5):
        effect = 0.0
        if who is not None:
            effect = float((who.influence(np.arange(day, 0, -1)) @ np.array(loads[:day]))[0])
        value = 40 * np.exp((effect + noise * random.normal()) / 100)
        found.append(DayResult(day, float(value)))
    return found


def test_a_strong_response_is_learned_and_its_days_come_nearer() -> None:
    who = truth(45, 9, 1.9, 0.012)
    loads = loads_in_blocks(200, 1)
    found = learn_response(PRIOR, loads, results_of(who, loads, 0.5, 2))
    assert found.is_own
    assert found.scores[FIT] < min(found.scores[name] for name in BASELINES)
    assert found.draws.basis.startswith("learned from 34 own tests")
    true_days = who.still_costs_d()[0]
    before, after = (
        float(np.abs(each.still_costs_d() - true_days).mean()) for each in (PRIOR, found.draws)
    )
    assert after < 0.7 * before


@pytest.mark.parametrize("seed", range(4))
def test_noise_alone_leaves_the_literature_in_place_and_says_so(seed: int) -> None:
    loads = loads_in_blocks(200, seed)
    found = learn_response(PRIOR, loads, results_of(None, loads, 3.0, seed + 10))
    assert not found.is_own
    assert found.draws is PRIOR
    assert "came nearer than the fit" in found.words
    assert set(found.scores) == BASELINES | {FIT}


def test_few_tests_teach_nothing() -> None:
    loads = loads_in_blocks(60, 1)
    found = learn_response(PRIOR, loads, results_of(None, loads, 1.0, 1))
    assert (found.is_own, found.draws, found.scores) == (False, PRIOR, {})
    assert "6 tests are too few to learn from, 8 at least" in found.words


def test_a_test_outside_of_the_loads_or_without_a_result_is_refused() -> None:
    with pytest.raises(InvalidInput, match="day 9 is not 0 to 3"):
        learn_response(PRIOR, [1.0] * 3, [DayResult(9, 1.0)])
    with pytest.raises(InvalidInput, match="0 is not more than 0"):
        learn_response(PRIOR, [1.0] * 3, [DayResult(1, 0.0)])
