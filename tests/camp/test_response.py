"""Draws of the response to load, and their size against what tapers are worth in print."""

import numpy as np
import pytest

from squadwright.camp.response import TAPER_GAIN_PERCENT, prior_draws
from squadwright.errors import InvalidInput
from squadwright.formulas.impulse_response import influence_of_load
from squadwright.formulas.taper import taper_fold_time, taper_share_exponential

SHARES = (0.05, 0.25, 0.50, 0.75, 0.95)


def test_the_days_of_the_prior_spread_as_worked_out() -> None:
    """By simulation from the same three log-normals elsewhere, to about 0.1 day; ours not
    published.
    """
    draws = prior_draws("anybody", 300.0, 20_000)
    costs = np.quantile(draws.still_costs_d(), SHARES)
    helps = np.quantile(draws.helps_most_d(), SHARES)
    assert costs == pytest.approx([2.4, 5.4, 8.5, 13.1, 24.5], abs=0.35)
    assert helps == pytest.approx([17.3, 23.1, 28.5, 35.7, 51.0], abs=0.6)
    assert (draws.fitness_d > 1.5 * draws.fatigue_d).all()
    assert (draws.fatigue_gain > draws.fitness_gain).all()


def test_a_draw_gives_what_the_formula_gives() -> None:
    draws = prior_draws("anybody", 300.0, 20)
    days = [1, 9, 30]
    for number, row in enumerate(draws.influence(days)):
        sets = {
            "fitness_d": float(draws.fitness_d[number]),
            "fatigue_d": float(draws.fatigue_d[number]),
            "fitness_gain": float(draws.fitness_gain[number]),
            "fatigue_gain": float(draws.fatigue_gain[number]),
        }
        assert row == pytest.approx([influence_of_load(day, **sets) for day in days])


def test_a_load_on_the_day_itself_or_after_it_does_nothing() -> None:
    assert (prior_draws("anybody", 300.0, 20).influence([0, -3]) == 0).all()


def test_a_progressive_taper_is_worth_what_tapers_are_in_print() -> None:
    """0.5 to 6 %: Mujika and Padilla, as quoted by Papacosta and others 2013."""
    draws = prior_draws("anybody", 300.0, 5000)
    fold = taper_fold_time(14, 0.5)
    cut = np.array([1 - taper_share_exponential(t, fold) for t in range(1, 15)])
    gain = -(draws.influence(np.arange(14, 0, -1)) @ (300.0 * cut))
    assert gain.mean() == pytest.approx(TAPER_GAIN_PERCENT, abs=0.25)
    assert 0.5 < gain.mean() < 6


def test_the_same_person_and_seed_give_the_same_draws_and_another_seed_fresh_ones() -> None:
    one, same, fresh = (prior_draws("x", 300.0, 50, seed) for seed in (1, 1, 2))
    assert (one.fitness_d == same.fitness_d).all()
    assert not (one.fitness_d == fresh.fitness_d).all()
    with pytest.raises(InvalidInput, match="usual_daily_load: is 0 AU"):
        prior_draws("x", 0.0)
