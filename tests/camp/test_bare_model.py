"""Loads that a bare model orders: worked out by hand, by SciPy, and by the closed form.

The numbers are arithmetic from L(u) = exp(-u/T1) - 2 exp(-u/T2); the event is on the day after
the last day, so the first of n days lies n days before it.
"""

from math import inf

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import Bounds, LinearConstraint, linprog, minimize

from cases import cases
from squadwright.camp.bare_model import BareLimits, BareLoads, best_loads, pulled_loads
from squadwright.errors import InvalidInput, NoSolution

SLOW, QUICK = (45.0, 15.0), (42.0, 7.0)
RAMP = BareLimits(first_week=3, most_ratio=1.1)
RAMP_ON_A_FLOOR = BareLimits(low=0.1, first_week=3, most_ratio=1.1)


def influence(days: int, constants: tuple[float, float]) -> np.ndarray:
    before = np.arange(days, 0, -1)
    return np.exp(-before / constants[0]) - 2 * np.exp(-before / constants[1])


def weeks_of(found: BareLoads) -> list[float]:
    return [round(sum(found.loads[d : d + 7]), 6) for d in range(0, len(found.loads), 7)]


@pytest.mark.parametrize(
    ("days", "constants", "limits", "value"),
    [
        (84, SLOW, BareLimits(), 14.439969),
        (84, SLOW, BareLimits(low=1.0), 8.716332),
        (84, SLOW, BareLimits(low=0.2), 13.295242),
        (84, QUICK, BareLimits(), 24.851735),
        (84, QUICK, BareLimits(low=1.0), 22.861580),
        (84, SLOW, BareLimits(total=20), 5.313323),
        (84, QUICK, BareLimits(total=20), 9.621171),
        (56, SLOW, RAMP, 5.044040),
        (56, SLOW, RAMP_ON_A_FLOOR, 4.451528),
        (56, QUICK, RAMP, 12.063857),
        (56, QUICK, RAMP_ON_A_FLOOR, 11.831065),
    ],
)
def test_the_best_loads_have_the_value_worked_out(
    days: int, constants: tuple[float, float], limits: BareLimits, value: float
) -> None:
    assert best_loads(influence(days, constants), limits).value == pytest.approx(value, abs=5e-7)


@pytest.mark.parametrize(("constants", "first_that_helps"), [(SLOW, 16), (QUICK, 6)])
def test_with_single_limits_alone_the_plan_is_all_or_nothing(
    constants: tuple[float, float], first_that_helps: int
) -> None:
    found = best_loads(influence(84, constants), BareLimits())
    assert found.loads == tuple(float(84 - day >= first_that_helps) for day in range(84))


@pytest.mark.parametrize(("constants", "best_days"), [(SLOW, (32, 51)), (QUICK, (14, 33))])
def test_a_limited_total_goes_to_the_days_that_help_most(
    constants: tuple[float, float], best_days: tuple[int, int]
) -> None:
    found = best_loads(influence(84, constants), BareLimits(total=20))
    days = [84 - day for day, load in enumerate(found.loads) if load > 0.5]
    assert (min(days), max(days), len(days)) == (*best_days, 20)


def test_weeks_rise_by_a_tenth_until_load_costs() -> None:
    slow = best_loads(influence(56, SLOW), RAMP)
    assert weeks_of(slow) == [3, 3.3, 3.63, 3.993, 4.3923, 4.83153, 0, 0]
    floored = best_loads(influence(56, SLOW), RAMP_ON_A_FLOOR)
    assert weeks_of(floored)[-2:] == [0.7, 0.7]
    quick = best_loads(influence(56, QUICK), RAMP)
    assert weeks_of(quick)[-2:] == [5.314683, 2.0]
    assert weeks_of(best_loads(influence(56, QUICK), RAMP_ON_A_FLOOR))[-1] == 2.5


def test_a_pull_towards_the_usual_load_gives_the_closed_form() -> None:
    limits = BareLimits(pull=1.0, middle=0.5)
    effect = influence(28, SLOW)
    found = best_loads(effect, limits)
    assert found.loads == pytest.approx(pulled_loads(effect, limits), abs=1e-6)
    at = {u: found.loads[28 - u] for u in (1, 7, 14, 15, 16, 21, 28)}
    worked_out = {1: 0, 7: 0.101761, 14: 0.446151, 15: 0.480772, 16: 0.512476, 21: 0.633895}
    assert at == pytest.approx(worked_out | {28: 0.727474}, abs=1e-6)
    assert found.value == pytest.approx(-0.312977, abs=5e-7)


@settings(max_examples=cases(25), deadline=None)
@given(
    st.integers(7, 40),
    st.floats(0, 0.3),
    st.floats(1, 4),
    st.floats(1, 1.5),
    st.floats(5, 30),
)
def test_the_linear_program_is_that_of_scipy(
    days: int, low: float, first: float, ratio: float, total: float
) -> None:
    limits = BareLimits(
        low=low, total=low * days + total, first_week=7 * low + first, most_ratio=ratio
    )
    effect = influence(days, QUICK)
    rows, tops = [np.ones(days)], [limits.total]
    first_week = np.zeros(days)
    first_week[:7] = 1
    rows.append(first_week)
    tops.append(limits.first_week)
    for begin in range(7, days, 7):
        row = np.zeros(days)
        row[begin : begin + 7] = 1
        row[begin - 7 : begin] = -ratio
        rows.append(row)
        tops.append(0)
    other = linprog(-effect, A_ub=rows, b_ub=tops, bounds=(low, 1))
    assert best_loads(effect, limits).value == pytest.approx(-other.fun, abs=1e-6)


def test_the_quadratic_program_with_rows_is_that_of_a_general_solver() -> None:
    limits = BareLimits(pull=1.0, middle=0.5, total=9.0)
    effect = influence(28, SLOW)
    other = minimize(
        lambda w: -(effect @ w - 0.5 * ((w - 0.5) ** 2).sum()),
        np.full(28, 0.3),
        method="SLSQP",
        bounds=Bounds(0, 1),
        constraints=LinearConstraint(np.ones((1, 28)), -inf, 9.0),
        options={"ftol": 1e-12, "maxiter": 500},
    )
    found = best_loads(effect, limits)
    assert found.value == pytest.approx(-other.fun, abs=1e-6)
    assert sum(found.loads) <= 9 + 1e-6


def test_limits_that_contradict_each_other_have_no_plan() -> None:
    with pytest.raises(NoSolution, match="no loads keep these limits"):
        best_loads(influence(14, SLOW), BareLimits(low=0.5, total=3))
    with pytest.raises(InvalidInput, match="low"):
        best_loads(influence(14, SLOW), BareLimits(low=2))
    with pytest.raises(InvalidInput, match="influence"):
        best_loads([], BareLimits())
