"""What sessions teach of one athlete."""

from math import log

import numpy as np
import pytest

from learning.histories import BOTH, CAPACITIES, PRESSES, day, history, retest, trial
from squadwright.learning.fit import fit
from squadwright.learning.forecast import forecast
from squadwright.learning.hill import hill_at
from squadwright.learning.history import History, Trial
from squadwright.learning.prior import prior_of
from squadwright.learning.together import together
from squadwright.learning.world import World
from squadwright.planning.dose.fatigue import FatigueModel

WORLD, MODEL = World(), FatigueModel()


def middle(known: History) -> float:
    """Median log load over 38 kg that he is believed to bear in the presses."""
    return float(np.median(forecast(fit(known).on(day(10)), PRESSES, 38.0, CAPACITIES).margins))


def test_with_no_sessions_he_is_what_his_tests_say() -> None:
    fitted = fit(history())
    prior = prior_of(history(), WORLD)
    np.testing.assert_allclose(fitted.mean, prior.mean)
    np.testing.assert_allclose(fitted.covariance, prior.covariance, atol=1e-12)


def test_the_gradient_is_that_of_small_differences() -> None:
    """With a band, a first-round loss, gone form and a test.

    Not with calls: a call is weighed by what a repetition weighs, which is taken as known.
    """
    known = history(
        trial(7, 44, 2, 1, work=BOTH),
        trial(9, 48, 0, 2),
        trial(11, 38, strained=3),
        trial(13, 40),
        retests=(retest(6, "strict press", 62.0),),
    )
    squad = together([known], MODEL, WORLD)
    fitted = fit(known)
    state = fitted.mean[None] + 0.01 * np.random.default_rng(2).standard_normal(len(fitted.mean))
    gradient = hill_at(squad, state, MODEL, WORLD).gradient[0]
    for place in range(state.shape[1]):
        step = 1e-6 * np.eye(state.shape[1])[place]
        up, down = (
            hill_at(squad, state + sign * step, MODEL, WORLD, is_value_only=True).value[0]
            for sign in (1, -1)
        )
        assert gradient[place] == pytest.approx((up - down) / 2e-6, abs=1e-3, rel=1e-4)


@pytest.mark.parametrize("load_kg", [34.0, 38.0, 42.0, 46.0, 50.0])
def test_what_is_done_never_lowers_and_what_is_lost_never_raises(load_kg: float) -> None:
    nothing, slack = middle(history()), 0.002
    for clean in range(4):
        assert middle(history(trial(3, load_kg, clean, 1))) <= nothing + slack
    assert middle(history(trial(3, load_kg))) >= nothing - slack


@pytest.mark.parametrize("load_kg", [46.0, 50.0])
def test_more_clean_rounds_say_more_strength(load_kg: float) -> None:
    """At a load he may bear; one lost far below that may be a slip, the more so the sooner."""
    by_rounds = [middle(history(trial(3, load_kg, clean, 1))) for clean in range(1, 4)]
    by_rounds.append(middle(history(trial(3, load_kg))))
    assert by_rounds == sorted(by_rounds)


@pytest.mark.parametrize("clean", [0, 1, 3, 4])
def test_a_session_cut_short_by_anything_else_never_lowers(clean: int) -> None:
    cut = Trial("late", day(3), PRESSES, 40.0, clean, spared="late")
    assert middle(history(cut)) >= middle(history()) - 0.002


def test_a_later_test_moves_strength() -> None:
    grown = history(trial(3, 36), retests=(retest(8, "strict press", 70.0, 0.02),))
    assert middle(grown) > middle(history(trial(3, 36))) + 0.05


def test_strength_is_less_sure_with_every_week_and_falls_after_two_without_training() -> None:
    fitted = fit(history(trial(3, 36, reserve=2)))
    place = fitted.names.index("1RM of strict press")
    soon, later = fitted.on(day(5)), fitted.on(day(3 + 42))
    assert later.covariance[place][place] > soon.covariance[place][place]
    lost = soon.mean[place] - later.mean[place]
    assert lost == pytest.approx(4 * WORLD.layoff_loss_per_week)


def test_a_call_of_more_in_reserve_says_more_strength() -> None:
    middles = [middle(history(trial(3, 36, reserve=float(call)))) for call in (0, 2, 4, 8)]
    assert middles == sorted(middles)
    assert middles[-1] - middles[0] > log(1.03)
