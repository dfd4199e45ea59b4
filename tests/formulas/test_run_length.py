"""How often charts alarm: by a chain of states, by drawing readings, and against printed values."""

import math

import numpy as np
import pytest
from scipy import stats

from squadwright.errors import InvalidInput
from squadwright.formulas.run_length import (
    false_alarm_fraction_z,
    run_length_cusum,
    run_length_ewma,
)


def chain_ewma(smoothing: float, width: float, shift: float, states: int = 401) -> float:
    """The chain of Lucas and Saccucci: the strip between the limits cut into states."""
    limit = width * math.sqrt(smoothing / (2 - smoothing))
    step = 2 * limit / states
    middles = -limit + step * (np.arange(states) + 0.5)
    kept = (1 - smoothing) * middles[:, None]
    upper = (middles + step / 2 - kept) / smoothing - shift
    lower = (middles - step / 2 - kept) / smoothing - shift
    onwards = stats.norm.cdf(upper) - stats.norm.cdf(lower)
    return float(np.linalg.solve(np.eye(states) - onwards, np.ones(states))[states // 2])


def chain_cusum(slack: float, decision: float, shift: float, states: int = 1200) -> float:
    """The chain of Brook and Evans for the high side."""
    step = 2 * decision / (2 * states - 1)
    begin = np.arange(states)[:, None] * step
    end = np.arange(states) * step
    drift = slack - shift
    onwards = stats.norm.cdf(end - begin + step / 2 + drift) - stats.norm.cdf(
        end - begin - step / 2 + drift
    )
    onwards[:, 0] = stats.norm.cdf(step / 2 + drift - begin[:, 0])
    return float(np.linalg.solve(np.eye(states) - onwards, np.ones(states))[0])


@pytest.mark.parametrize("smoothing", [0.05, 0.2, 0.5, 0.9])
@pytest.mark.parametrize("shift", [0.0, 0.5, 2.0])
def test_an_exponential_mean_alarms_as_often_as_its_chain_of_states(
    smoothing: float, shift: float
) -> None:
    ours = run_length_ewma(smoothing, 2.8, shift)
    assert ours == pytest.approx(chain_ewma(smoothing, 2.8, shift), rel=2e-3)


@pytest.mark.parametrize(("slack", "decision"), [(0.25, 6), (0.5, 4), (1, 2.5)])
@pytest.mark.parametrize("shift", [0.0, 0.5, 2.0])
def test_a_cumulative_sum_alarms_as_often_as_its_chain_of_states(
    slack: float, decision: float, shift: float
) -> None:
    ours = run_length_cusum(slack, decision, shift, sides="high")
    assert ours == pytest.approx(chain_cusum(slack, decision, shift), rel=1e-4)


@pytest.mark.parametrize(
    ("printed", "ours"),
    [
        (1.94, lambda: run_length_ewma(0.5, 2, 2.0)),
        (2071.51, lambda: run_length_cusum(0, 10, -0.25, sides="high")),
        (117.4, lambda: run_length_cusum(0.5, 3, sides="high")),
        (65.4, lambda: run_length_cusum(0.6, 3, -0.2)),
    ],
    ids=["Crowder 1987", "Vance 1986", "Waldmann 1986, one side", "Waldmann 1986, both"],
)
def test_four_printed_values_differ_in_their_last_digits_only(printed: float, ours: object) -> None:
    """Two chains of states side with ours, not with the print (see the tests above)."""
    assert callable(ours)
    assert ours() != pytest.approx(printed, rel=2e-5)
    assert ours() == pytest.approx(printed, rel=3e-3)


def test_the_misprint_marked_in_the_table_of_crowder_is_not_reproduced() -> None:
    """lambda 0.5, width 2, shift 1.25: printed 3.95, marked as a misprint where it was seen."""
    ours = run_length_ewma(0.5, 2, 1.25)
    assert ours == pytest.approx(chain_ewma(0.5, 2, 1.25), rel=2e-3)
    assert abs(ours - 3.95) > 0.3


def test_a_mean_of_the_latest_reading_alone_is_a_chart_of_single_readings() -> None:
    """One reading in 370 lies beyond three standard deviations, by the normal curve."""
    assert run_length_ewma(1, 3) == pytest.approx(1 / (2 * stats.norm.sf(3)), rel=1e-9)
    assert run_length_ewma(1, 3) == pytest.approx(370.4, abs=0.05)


def test_drawn_readings_alarm_as_often_as_said() -> None:
    draw = np.random.default_rng(20)
    lengths = []
    for _ in range(4000):
        mean, count = 0.0, 0
        while abs(mean) <= 2 * math.sqrt(0.3 / 1.7):
            mean = 0.3 * draw.standard_normal() + 0.7 * mean
            count += 1
        lengths.append(count)
    error = np.std(lengths) / math.sqrt(len(lengths))
    assert np.mean(lengths) == pytest.approx(run_length_ewma(0.3, 2), abs=4 * error)


def test_wider_limits_and_higher_decisions_alarm_more_rarely_and_shifts_sooner() -> None:
    assert run_length_ewma(0.3, 3) > run_length_ewma(0.3, 2.5) > run_length_ewma(0.3, 2.5, 1)
    assert run_length_cusum(0.5, 5) > run_length_cusum(0.5, 4) > run_length_cusum(0.5, 4, 1)
    assert run_length_ewma(0.3, 2.5, 1) == pytest.approx(run_length_ewma(0.3, 2.5, -1))
    assert run_length_cusum(0.5, 4, 1) == pytest.approx(run_length_cusum(0.5, 4, -1))
    assert run_length_cusum(0.5, 4, sides="high") == pytest.approx(2 * run_length_cusum(0.5, 4))


def test_a_sum_that_hardly_ever_alarms_is_refused_in_words() -> None:
    with pytest.raises(InvalidInput, match="decision: 20 with slack 3 alarms less than once in"):
        run_length_cusum(3, 20)


@pytest.mark.parametrize("earlier", [14, 30])
def test_a_limit_on_z_flags_as_many_drawn_readings_as_said(earlier: int) -> None:
    draw = np.random.default_rng(earlier)
    days = draw.standard_normal((200_000, earlier + 1))
    past, today = days[:, :-1], days[:, -1]
    z = (today - past.mean(axis=1)) / past.std(axis=1, ddof=1)
    share = false_alarm_fraction_z(2.0, earlier)
    error = math.sqrt(share * (1 - share) / len(days))
    assert np.mean(np.abs(z) > 2.0) == pytest.approx(share, abs=4 * error)


def test_few_earlier_days_make_more_false_alarms_than_the_normal_curve() -> None:
    assert false_alarm_fraction_z(2, 14) > false_alarm_fraction_z(2, 10_000)
    assert false_alarm_fraction_z(2, 10_000) == pytest.approx(2 * stats.norm.sf(2), abs=1e-4)
