"""Invented athletes whose truth the fit never sees. No real data.

The squad is small, so the bounds are those of 200 athletes and 20 sessions with room for chance:
60 athletes give a coverage to about 3 points either way (two SE, sessions of one athlete alike).
"""

import numpy as np
import pytest

from learning.invented_squad import invented_squad
from learning.known_truth import Scores, score
from squadwright.learning.baselines import BASELINES


@pytest.fixture(scope="module")
def scores() -> Scores:
    return score(invented_squad(60, 12, seed=3), doses_in=(8, 10, 12))


def test_eighty_percent_intervals_hold_the_true_margin_about_so_often(scores: Scores) -> None:
    assert 0.72 <= scores.coverage() <= 0.88


@pytest.mark.parametrize("baseline", [each.name for each in BASELINES])
def test_by_the_fourth_session_the_fit_is_nearer_than_each_plain_rule(
    scores: Scores, baseline: str
) -> None:
    mean, low, _ = scores.gain(baseline, 1, 4)
    assert mean > low > 0


@pytest.mark.parametrize("baseline", [each.name for each in BASELINES])
def test_the_fit_is_nearer_than_each_plain_rule(scores: Scores, baseline: str) -> None:
    mean, low, _ = scores.gain(baseline, 2, 12)
    assert mean > low > 0


def test_the_dose_comes_near_that_of_somebody_who_knows_the_truth(scores: Scores) -> None:
    """It stays below, since what is not known is left as room."""
    assert scores.dose_error_in(8) < 0.05
    assert np.nanmean(scores.dose_error) < 0


def test_the_same_seed_makes_the_same_squad() -> None:
    assert invented_squad(3, 3, seed=4).histories == invented_squad(3, 3, seed=4).histories
    assert invented_squad(3, 3, seed=4).histories != invented_squad(3, 3, seed=5).histories
