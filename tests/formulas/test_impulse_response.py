"""Load and performance: curve against trace, steady state, and tapers whose ranking flips.

The numbers are arithmetic from the equations named in ``impulse_response.py`` unless said.
"""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.signal import lfilter

from squadwright.formulas.impulse_response import (
    days_load_helps_most,
    days_load_still_costs,
    influence_of_load,
    performance_banister,
    steady_trace,
)
from squadwright.formulas.taper import (
    taper_fold_time,
    taper_mean_share,
    taper_share_exponential,
    taper_share_linear,
)
from squadwright.formulas.variable_dose_response import best_daily_load_busso, performance_busso

SLOW = {"fitness_d": 45.0, "fatigue_d": 15.0, "fitness_gain": 1.0, "fatigue_gain": 2.0}
QUICK = {"fitness_d": 42.0, "fatigue_d": 7.0, "fitness_gain": 1.0, "fatigue_gain": 2.0}
BOTH = [pytest.param(SLOW, id="45 and 15 days"), pytest.param(QUICK, id="42 and 7 days")]
loads = st.lists(st.floats(0, 1000), min_size=1, max_size=60)


@given(loads)
@pytest.mark.parametrize("sets", BOTH)
def test_performance_is_the_sum_of_load_times_influence(
    sets: dict[str, float], days: list[float]
) -> None:
    summed = math.fsum(
        load * influence_of_load(len(days) - place, **sets) for place, load in enumerate(days)
    )
    assert performance_banister(days, **sets) == pytest.approx(summed, abs=1e-6)


@pytest.mark.parametrize("sets", BOTH)
def test_the_traces_are_those_of_a_general_filter(sets: dict[str, float]) -> None:
    days = np.random.default_rng(4).uniform(0, 900, 200)
    kept = [math.exp(-1 / sets[name]) for name in ("fitness_d", "fatigue_d")]
    fitness, fatigue = (lfilter([share], [1, -share], days)[-1] for share in kept)
    assert performance_banister(list(days), **sets) == pytest.approx(fitness - 2 * fatigue)


@pytest.mark.parametrize(
    ("sets", "whole_day", "first_that_helps"), [(SLOW, 40, 16), (QUICK, 21, 6)]
)
def test_the_best_whole_day_is_next_to_the_day_of_the_equation(
    sets: dict[str, float], whole_day: int, first_that_helps: int
) -> None:
    curve = [influence_of_load(day, **sets) for day in range(120)]
    assert max(range(120), key=curve.__getitem__) == whole_day
    assert next(day for day in range(120) if curve[day] > 0) == first_that_helps
    ends = (sets["fitness_d"], sets["fatigue_d"], 2)
    assert abs(days_load_helps_most(*ends) - whole_day) < 1
    assert 0 <= first_that_helps - days_load_still_costs(*ends) < 1


@pytest.mark.parametrize(
    ("sets", "per_unit"), [(SLOW, 15.490742), (QUICK, 28.478183)], ids=["slow", "quick"]
)
def test_the_same_load_every_day_comes_to_rest_where_the_equation_says(
    sets: dict[str, float], per_unit: float
) -> None:
    still = steady_trace(sets["fitness_d"]) - 2 * steady_trace(sets["fatigue_d"])
    assert still == pytest.approx(per_unit, abs=5e-7)
    assert performance_banister([1.0] * 3000, **sets) == pytest.approx(per_unit, abs=5e-7)


@pytest.mark.parametrize(
    ("sets", "lowest", "highest"),
    [(SLOW, (15, -572.3638), (57, 727.4278)), (QUICK, (5, -199.0155), (39, 1288.4990))],
    ids=["slow", "quick"],
)
def test_a_month_of_load_dips_and_peaks_on_the_days_worked_out(
    sets: dict[str, float], lowest: tuple[int, float], highest: tuple[int, float]
) -> None:
    days = [100.0] * 28 + [0.0] * 100
    trace = {k: performance_banister(days[:k], **sets) for k in range(1, len(days))}
    for extreme, (day, value) in ((min, lowest), (max, highest)):
        assert extreme(trace, key=lambda k: trace[k]) == day
        assert trace[day] == pytest.approx(value, abs=5e-5)


TAPERS = {
    "none": [1.0] * 14,
    "step of half": [0.5] * 14,
    "exponential, 4 d": [taper_share_exponential(t, 4) for t in range(1, 15)],
    "exponential, 8 d": [taper_share_exponential(t, 8) for t in range(1, 15)],
    "linear": [taper_share_linear(t, 14) for t in range(1, 15)],
    "rest": [0.0] * 14,
}
AFTER_TAPER = {
    "none": (1548.6245, 2847.6009),
    "step of half": (1833.8450, 2822.4363),
    "exponential, 4 d": (2050.0480, 2900.1375),
    "exponential, 8 d": (1940.4112, 2918.4270),
    "linear": (1930.5607, 2955.7617),
    "rest": (2119.0655, 2797.2718),
}


def after(taper: list[float], sets: dict[str, float]) -> float:
    return performance_banister([100.0] * 400 + [100 * share for share in taper], **sets)


@pytest.mark.parametrize("name", TAPERS)
def test_400_even_days_and_a_taper_give_the_values_worked_out(name: str) -> None:
    for sets, expected in zip((SLOW, QUICK), AFTER_TAPER[name], strict=True):
        assert after(TAPERS[name], sets) == pytest.approx(expected, abs=5e-5)


def test_which_taper_is_best_flips_with_the_parameters() -> None:
    ranked = [sorted(TAPERS, key=lambda name: after(TAPERS[name], sets)) for sets in (SLOW, QUICK)]
    assert ranked[0][-1] == "rest"
    assert ranked[1][0] == "rest"


@given(st.integers(3, 40), st.floats(0.2, 0.9))
def test_the_fold_time_of_a_cut_gives_that_cut(length_d: int, cut: float) -> None:
    share = taper_mean_share(length_d, taper_fold_time(length_d, cut))
    assert share == pytest.approx(1 - cut, abs=1e-9)


def test_the_best_even_load_of_the_variable_response_beats_its_neighbours() -> None:
    """The gain there, 136.305724, is arithmetic from parameters that come from memory."""
    best = best_daily_load_busso()
    gains = [performance_busso([best * share] * 1500) for share in (0.98, 1.0, 1.02)]
    assert max(gains) == gains[1] == pytest.approx(136.305724, abs=5e-6)
