"""Learning a response from tests of invented athletes whose truth is known."""

import numpy as np
import pytest
from scipy import stats

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


def percents(results: list[DayResult]) -> np.ndarray:
    return 100 * np.log([each.value for each in results])


def test_draws_are_weighed_by_errors_with_heavy_tails_around_his_own_level() -> None:
    """By the density of Student's t with 5 degrees of freedom (scipy), averaged over four sizes of
    noise, and taken at even steps of the summed weights: none is a step from its share.
    """
    prior = prior_draws("learner", 300.0, 80)
    loads = loads_in_blocks(80, 3)
    results = results_of(truth(45, 9, 1.9, 0.004), loads, 3.0, 6)
    found = learn_response(prior, loads, results)
    assert found.is_own
    told = np.zeros((prior.count, len(results)))
    for place, test in enumerate(results):
        for day in range(test.day):
            since = test.day - day
            told[:, place] += loads[day] * (
                prior.fitness_gain * np.exp(-since / prior.fitness_d)
                - prior.fatigue_gain * np.exp(-since / prior.fatigue_d)
            )
    left = percents(results) - told
    off = left - np.median(left, axis=1, keepdims=True)
    dense = sum(
        np.exp(stats.t.logpdf(off, 5, scale=noise).sum(axis=1)) for noise in (0.75, 1.5, 3.0, 6.0)
    )
    expected = prior.count * dense / dense.sum()
    taken = np.array([(found.draws.fitness_d == each).sum() for each in prior.fitness_d])
    assert taken.sum() == prior.count
    assert (taken > 0).sum() > 20
    assert np.abs(taken - expected).max() < 1 + 1e-6
    assert found.draws.fatigue_gain[0] in prior.fatigue_gain


def closed_form(mean: float, spread: float, seen: float) -> float:
    """CRPS of a normal forecast (Gneiting and Raftery 2007, from memory)."""
    z = (seen - mean) / spread
    return float(
        spread * (z * (2 * stats.norm.cdf(z) - 1) + 2 * stats.norm.pdf(z) - 1 / np.sqrt(np.pi))
    )


def test_plain_forecasts_are_as_wide_as_they_have_been_wrong_before() -> None:
    """From the sixth test on, each from those before it: the last one, or the mean of three."""
    loads = loads_in_blocks(100, 5)
    results = results_of(None, loads, 2.0, 6)
    seen = percents(results)
    last, three = [], []
    for place in range(5, len(seen)):
        before = seen[:place]
        steps = [before[n] - before[n - 1] for n in range(1, place)]
        last.append(closed_form(before[-1], np.sqrt(np.mean(np.square(steps))), seen[place]))
        misses = [before[n] - np.mean(before[n - 3 : n]) for n in range(3, place)]
        spread = np.sqrt(np.mean(np.square(misses)))
        three.append(closed_form(np.mean(before[-3:]), spread, seen[place]))
    found = learn_response(PRIOR, loads, results).scores
    assert found["last test"] == pytest.approx(np.mean(last), rel=0.01)
    assert found["mean of the last three"] == pytest.approx(np.mean(three), rel=0.01)


@pytest.mark.parametrize(("tests", "is_enough"), [(7, False), (8, True)])
def test_eight_tests_are_the_fewest(tests: int, is_enough: bool) -> None:
    loads = loads_in_blocks(100, 1)
    found = learn_response(PRIOR, loads, results_of(None, loads, 1.0, 1)[:tests])
    assert bool(found.scores) is is_enough


@pytest.mark.parametrize(("day", "is_taken"), [(-1, False), (0, True), (100, True), (101, False)])
def test_a_test_lies_within_the_days_of_the_loads(day: int, is_taken: bool) -> None:
    loads = loads_in_blocks(100, 1)
    results = [*results_of(None, loads, 1.0, 1)[:7], DayResult(day, 40.0)]
    if is_taken:
        assert learn_response(PRIOR, loads, results).scores
        return
    with pytest.raises(InvalidInput, match=f"day {day} is not 0 to 100"):
        learn_response(PRIOR, loads, results)


def test_the_words_name_the_score_of_the_fit_and_of_the_nearest_other() -> None:
    who = truth(45, 9, 1.9, 0.012)
    loads = loads_in_blocks(200, 1)
    found = learn_response(PRIOR, loads, results_of(who, loads, 0.5, 2))
    others = min(found.scores[name] for name in BASELINES)
    assert f"({found.scores[FIT]:.2f} against {others:.2f} %)" in found.words
    noise = learn_response(PRIOR, loads, results_of(None, loads, 3.0, 10))
    nearest = min(noise.scores, key=lambda name: noise.scores[name])
    assert f"{nearest} came nearer than the fit ({noise.scores[nearest]:.2f} against" in noise.words
