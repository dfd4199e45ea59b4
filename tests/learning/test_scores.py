"""Scores and bounds against scoringrules, scipy, numbers worked by hand, and chance itself."""

import numpy as np
import pytest
import scoringrules
from scipy.stats import binomtest, t

from squadwright.errors import InvalidInput
from squadwright.learning.scores import (
    FEWEST_GROUPS,
    Average,
    average_of,
    brier_score,
    crps_of_counts,
    crps_of_draws,
    wilson_interval,
)


@pytest.mark.parametrize("chance", [0.0, 0.1, 0.5, 0.83, 1.0])
@pytest.mark.parametrize("happened", [True, False])
def test_the_brier_score_is_that_of_another_library(chance: float, happened: bool) -> None:
    expected = float(scoringrules.brier_score(float(happened), chance))
    assert brier_score(chance, happened) == pytest.approx(expected, abs=1e-12)


def test_the_brier_score_of_five_forecasts_is_the_one_worked_by_hand() -> None:
    """0.01 + 0.04 + 0.16 + 0.01 + 0.49, over five."""
    chances, came = (0.9, 0.2, 0.6, 0.1, 0.7), (True, False, True, False, False)
    scores = [brier_score(p, o) for p, o in zip(chances, came, strict=True)]
    assert np.mean(scores) == pytest.approx(0.142)


@pytest.mark.parametrize(
    ("draws", "value", "expected"),
    [((1, 2, 3, 4), 2.5, 0.375), ((90, 100, 110), 105, 3.888889), ((7,), 4, 3.0)],
)
def test_the_score_of_draws_is_the_one_worked_by_hand(
    draws: tuple[float, ...], value: float, expected: float
) -> None:
    assert crps_of_draws(draws, value) == pytest.approx(expected, abs=5e-7)


@pytest.mark.random_cases
def test_the_score_of_draws_is_that_of_another_library(soak_factor: int) -> None:
    rng = np.random.default_rng(3)
    for _ in range(30 * soak_factor):
        draws = rng.normal(rng.normal(), rng.uniform(0.01, 3), int(rng.integers(1, 60)))
        value = float(rng.normal())
        expected = float(scoringrules.crps_ensemble(value, draws, estimator="nrg"))
        assert crps_of_draws(draws, value) == pytest.approx(expected, abs=1e-10)


@pytest.mark.random_cases
def test_the_score_of_a_count_is_that_of_as_many_draws_of_it(soak_factor: int) -> None:
    rng = np.random.default_rng(4)
    for _ in range(30 * soak_factor):
        parts = rng.multinomial(50, rng.dirichlet(np.ones(int(rng.integers(1, 8)))))
        draws = np.repeat(np.arange(len(parts)), parts).astype(float)
        count = int(rng.integers(len(parts)))
        expected = float(scoringrules.crps_ensemble(float(count), draws, estimator="nrg"))
        assert crps_of_counts(parts / 50, count) == pytest.approx(expected, abs=1e-10)


def test_a_count_forecast_without_doubt_is_off_by_so_many_rounds() -> None:
    assert crps_of_counts((0, 0, 0, 0, 1), 1) == 3
    assert crps_of_counts((0, 0, 0, 0, 1), 4) == 0


@pytest.mark.parametrize("happened", [0, 1, 9, 11, 12])
@pytest.mark.parametrize("share", [0.8, 0.95])
def test_the_bounds_of_a_share_are_those_of_scipy(happened: int, share: float) -> None:
    expected = binomtest(happened, 12).proportion_ci(share, method="wilson")
    assert wilson_interval(happened, 12, share) == pytest.approx(tuple(expected), abs=1e-12)


@pytest.mark.parametrize(
    ("happened", "count", "low", "high"),
    [(90, 100, 0.825634, 0.944771), (45, 50, 0.786398, 0.956524)],
)
def test_the_bounds_of_a_share_are_those_worked_by_hand(
    happened: int, count: int, low: float, high: float
) -> None:
    assert wilson_interval(happened, count) == pytest.approx((low, high), abs=5e-7)


def test_with_a_group_for_each_value_the_bounds_are_near_those_of_student() -> None:
    values = np.random.default_rng(5).normal(0.3, 2.0, 12)
    found = average_of(values, [str(n) for n in range(12)])
    low, high = t.interval(0.95, 11, values.mean(), values.std(ddof=1) / np.sqrt(12))
    assert found.mean == pytest.approx(values.mean())
    assert found.low == pytest.approx(low, abs=0.25)
    assert found.high == pytest.approx(high, abs=0.25)


@pytest.mark.random_cases
@pytest.mark.parametrize("groups", [5, 12, 40])
def test_the_bounds_hold_the_truth_as_often_as_they_say_where_values_hang_together(
    groups: int, soak_factor: int
) -> None:
    """Bounds that took each value as a case of its own would hold it in about 65 of 100."""
    rng, held, tries = np.random.default_rng(6), 0, 200 * soak_factor
    names = [f"A{n}" for n in range(groups) for _ in range(8)]
    for _ in range(tries):
        values = np.repeat(rng.normal(0, 1, groups), 8) + rng.normal(0, 1, 8 * groups)
        found = average_of(values, names)
        held += found.low <= 0 <= found.high
    assert 0.90 <= held / tries <= 0.985


def test_the_same_values_give_the_same_bounds_in_any_order_of_groups() -> None:
    values = np.random.default_rng(7).normal(0, 1, 30)
    names = [f"A{n % 6}" for n in range(30)]
    order = np.random.default_rng(8).permutation(30)
    again = average_of(values[order], [names[n] for n in order])
    found = average_of(values, names)
    assert (again.low, again.high) == pytest.approx((found.low, found.high))


def test_groups_that_happen_to_be_alike_do_not_make_an_average_sure() -> None:
    """Six athletes, each done 8 of 10: as sure as 48 of 60, no surer."""
    found = average_of([1.0] * 48 + [0.0] * 12, [f"A{n % 6}" for n in range(60)])
    low, high = wilson_interval(48, 60)
    assert found.low == pytest.approx(low, abs=0.03)
    assert found.high == pytest.approx(high, abs=0.03)


def test_of_few_groups_nothing_is_told() -> None:
    few = [f"A{n % (FEWEST_GROUPS - 1)}" for n in range(60)]
    found = average_of([-1.0] * 60, few)
    assert (found.low, found.high) == (-np.inf, np.inf)
    assert not found.is_below_zero
    assert average_of([-1.0] * 60, [f"A{n % FEWEST_GROUPS}" for n in range(60)]).is_below_zero


def test_an_average_says_on_which_side_of_zero_it_lies() -> None:
    assert Average(0.2, 0.1, 0.3, 9).is_above_zero
    assert not Average(0.2, 0.0, 0.3, 9).is_above_zero
    assert not Average(-0.2, -0.3, 0.0, 9).is_below_zero


def test_what_cannot_be_scored_is_refused() -> None:
    for refused in (
        lambda: brier_score(1.2, True),
        lambda: crps_of_counts((0.5, 0.4), 1),
        lambda: crps_of_counts((-0.5, 1.5), 1),
        lambda: crps_of_counts((0.5, 0.5), 2),
        lambda: crps_of_draws((), 1.0),
        lambda: wilson_interval(3, 2),
        lambda: wilson_interval(0, 0),
        lambda: average_of((1.0, 2.0), ("A",)),
        lambda: average_of((), ()),
    ):
        with pytest.raises(InvalidInput):
            refused()
