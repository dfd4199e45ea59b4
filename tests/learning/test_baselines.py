"""The plain forecasters the fit is held against."""

from math import log

import numpy as np
import pytest
from scipy.optimize import minimize
from scipy.stats import bernoulli, norm

from learning.histories import BOTH, PRESSES, day, history, retest, trial
from squadwright.learning.baselines import (
    BASELINES,
    FIRST_LEVEL,
    FIRST_SLOPE,
    LEVEL_SD,
    SLOPE_SD,
    LastLoad,
    Past,
    SameAsEveryone,
    ShareOfWeakestLift,
    forecaster,
    seen,
)


def past(*rows: tuple[float | None, bool]) -> list[Past]:
    return [Past(day(number), *row) for number, row in enumerate(rows)]


def test_the_last_load_is_the_last_with_every_repetition_of_the_same_movements() -> None:
    before = history(trial(1, 30), trial(3, 50, work=BOTH), trial(5, 40, clean=2, lost=1))
    assert LastLoad().hardness(before, PRESSES, 33) == pytest.approx(log(33 / 30))


def test_where_he_never_did_these_movements_the_last_load_is_that_of_any() -> None:
    before = history(trial(1, 30), trial(3, 28))
    assert LastLoad().hardness(before, BOTH, 35) == pytest.approx(log(35 / 28))
    assert LastLoad().hardness(history(), BOTH, 35) is None


def test_the_weakest_lift_decides_the_plain_rule_and_a_later_test_moves_it() -> None:
    """60 % of a load for five repetitions, which is 87 % of the maximum (NSCA chart, read)."""
    rule = ShareOfWeakestLift()
    assert rule.rule_kg(history(), BOTH) == pytest.approx(0.60 * 0.87 * 60, rel=0.05)
    later = history(trial(1, 30), retests=(retest(2, "strict press", 66.0),))
    grown = rule.rule_kg(later, BOTH) / rule.rule_kg(history(), BOTH)
    assert grown == pytest.approx(66 / 60)


def test_with_no_trials_everybody_has_the_chance_the_dose_aims_at() -> None:
    for baseline in BASELINES:
        assert forecaster(baseline, []).overall == pytest.approx(0.90)
    level = ShareOfWeakestLift().rule_kg(history(), PRESSES)
    chance = forecaster(ShareOfWeakestLift(), []).chance(history(), PRESSES, level)
    assert chance == pytest.approx(0.90)


def test_everyone_has_the_share_done_so_far_whatever_the_load() -> None:
    everyone = forecaster(SameAsEveryone(), past(*[(None, True)] * 5, *[(None, False)] * 3))
    assert everyone.chance(history(), PRESSES, 20) == pytest.approx((5 + 1.8) / 10)
    assert everyone.chance(history(), PRESSES, 200) == pytest.approx((5 + 1.8) / 10)


def test_the_line_is_the_most_likely_one_with_its_first_guess_as_a_prior() -> None:
    rng = np.random.default_rng(4)
    hardness = rng.normal(0, 0.08, 60)
    done = rng.random(60) < 1 / (1 + np.exp(-1 + 25 * hardness))
    line = forecaster(LastLoad(), past(*zip(hardness, done, strict=True)))

    def badness(at: np.ndarray) -> float:
        chance = 1 / (1 + np.exp(-(at[0] + at[1] * hardness)))
        prior = norm(FIRST_LEVEL, LEVEL_SD).logpdf(at[0]) + norm(FIRST_SLOPE, SLOPE_SD).logpdf(
            at[1]
        )
        return -float(bernoulli(chance).logpmf(done).sum() + prior)

    found = minimize(badness, [0.0, -5.0], method="Nelder-Mead", options={"xatol": 1e-6})
    assert (line.level, line.slope) == pytest.approx(tuple(found.x), rel=1e-3)
    assert line.slope < FIRST_SLOPE


def test_only_trials_that_strength_decided_are_learned_from() -> None:
    stopped = trial(5, 31, clean=2, kit_limited=True)
    past_of_him = seen(LastLoad(), history(trial(1, 30), trial(3, 31, 3, 2), stopped))
    assert [(p.hardness is None, p.was_done) for p in past_of_him] == [(True, True), (False, False)]


def test_what_comes_later_changes_nothing_before_it() -> None:
    first, then = trial(1, 30), trial(3, 32, 2, 1)
    for baseline in BASELINES:
        assert seen(baseline, history(first)) == seen(baseline, history(first, then))[:1]


def test_a_heavier_load_never_has_a_better_chance_by_the_first_guess() -> None:
    for baseline in BASELINES:
        line, before = forecaster(baseline, []), history(trial(1, 30))
        chances = [line.chance(before, PRESSES, load) for load in (20, 30, 40, 50)]
        assert chances == sorted(chances, reverse=True)
