"""People fitted together, each as if he were alone; and what a lost round teaches."""

from dataclasses import replace

import numpy as np
import pytest

from learning.training_squad import (
    BETWEEN,
    CAPACITIES,
    COMPLEX,
    FIRST,
    PRESS,
    history_of,
    squad,
    trial,
)
from squadwright.learning.fit import fit, fit_many
from squadwright.learning.forecast import forecast
from squadwright.learning.history import History, Retest


def told_of_everything(history: History) -> History:
    """With reserves called, form that gave way and a later test between the sessions."""
    trials = tuple(
        replace(t, called_reserve=float(n % 4))
        if t.is_whole and n % 2
        else replace(t, strained_round=3)
        if t.is_whole
        else t
        for n, t in enumerate(history.trials)
    )
    again = Retest(trials[3].held_on, PRESS, CAPACITIES[PRESS])
    return replace(history, trials=trials, retests=(again,))


@pytest.fixture(scope="module")
def histories() -> list[History]:
    return [told_of_everything(each) for each in squad(people=10, sessions=14)]


def test_everybody_is_fitted_in_the_squad_as_he_is_alone(histories: list[History]) -> None:
    """However many steps the others take to their most likely values."""
    for history, found in zip(histories, fit_many(histories), strict=True):
        alone = fit(history)
        np.testing.assert_allclose(found.mean, alone.mean, atol=1e-9)
        np.testing.assert_allclose(found.covariance, alone.covariance, atol=1e-9)


@pytest.mark.parametrize("load_kg", [42.0, 38.0, 34.0])
def test_a_lost_round_far_below_what_the_tests_promise_is_no_slip(load_kg: float) -> None:
    """The chance of the whole at the same load was over 0.7 before, and must fall well below.

    A slip has a chance of one in a hundred; a strength that is off by what a guess may be off has
    one many times that.
    """
    lost = history_of("A", (trial(0, load_kg, clean=1, lost=3),))
    day = FIRST + BETWEEN
    known = fit(history_of("A", ())).on(day), fit(lost).on(day)
    before, after = (forecast(each, COMPLEX, load_kg, CAPACITIES).completes for each in known)
    assert before > 0.7
    assert after < 0.3
