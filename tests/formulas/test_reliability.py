"""Noise of a test: traps, checks against a general library, chances."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from squadwright.errors import InvalidInput, OutsidePublishedRange
from squadwright.formulas import detectable_change as change
from squadwright.formulas import reliability

DAY_1 = (38.2, 41.5, 35.0, 44.1, 39.6, 36.8, 42.3, 40.0)
DAY_2 = (38.9, 41.0, 36.1, 44.0, 40.8, 36.5, 43.1, 39.7)
"""Made-up jump heights [cm]; the expected values below are worked out by hand."""


def test_typical_error_comes_from_the_differences_not_from_the_results() -> None:
    error = reliability.typical_error(DAY_1, DAY_2)
    misprint = reliability.standard_deviation(DAY_1) / math.sqrt(2)
    assert error == pytest.approx(0.49099, abs=5e-6)
    assert misprint > 4 * error


def test_detectable_change_keeps_the_root_of_two() -> None:
    without = 1.96 * 1.224745
    assert change.minimal_detectable_change_95(1.224745) / without == pytest.approx(math.sqrt(2))


def test_mean_squares_match_the_worked_table() -> None:
    found = reliability.mean_squares(DAY_1, DAY_2)
    assert found.athletes == pytest.approx(16.64714, abs=5e-6)
    assert found.trials == pytest.approx(0.42250, abs=5e-6)
    assert found.error == pytest.approx(0.24107, abs=5e-6)


trials = st.lists(
    st.tuples(st.floats(10, 60), st.floats(10, 60)), min_size=3, max_size=12, unique=True
)


@given(trials)
def test_typical_error_is_numpys_deviation_of_differences(pairs: list[tuple[float, float]]) -> None:
    first, second = zip(*pairs, strict=True)
    differences = np.subtract(second, first)
    assert reliability.typical_error(first, second) == pytest.approx(
        float(np.std(differences, ddof=1)) / math.sqrt(2), abs=1e-9
    )


@given(trials)
def test_mean_squares_match_a_two_way_table_in_numpy(pairs: list[tuple[float, float]]) -> None:
    table = np.array(pairs)
    people, sessions = table.shape
    rows, columns, grand = table.mean(axis=1), table.mean(axis=0), table.mean()
    rest = table - rows[:, None] - columns[None, :] + grand
    found = reliability.mean_squares(table[:, 0].tolist(), table[:, 1].tolist())
    assert found.athletes == pytest.approx(
        sessions * ((rows - grand) ** 2).sum() / (people - 1), abs=1e-8
    )
    assert found.trials == pytest.approx(people * ((columns - grand) ** 2).sum(), abs=1e-8)
    assert found.error == pytest.approx((rest**2).sum() / (people - 1), abs=1e-8)


def test_trials_of_unequal_length_or_too_few_are_refused() -> None:
    with pytest.raises(InvalidInput, match="second: holds 7 numbers where first holds 8"):
        reliability.typical_error(DAY_1, DAY_2[:-1])
    with pytest.raises(InvalidInput, match="first: holds 2 numbers"):
        reliability.typical_error(DAY_1[:2], DAY_2[:2])
    with pytest.raises(InvalidInput, match=r"first\[1\]: nan"):
        reliability.typical_error((1.0, math.nan, 3.0), (1.0, 2.0, 3.0))
    with pytest.raises(OutsidePublishedRange, match=r"second\[2\] is 0"):
        reliability.typical_error_percent((1.0, 2.0, 3.0), (1.0, 2.0, 0.0))


def test_one_result_for_everybody_has_no_correlation() -> None:
    with pytest.raises(InvalidInput, match="Test athletes who differ"):
        reliability.intraclass_correlation_3_1((40.0,) * 4, (40.0,) * 4)


def test_more_noise_than_spread_is_refused() -> None:
    assert change.noise_free_standard_deviation(2.0, 2.0) == 0
    with pytest.raises(OutsidePublishedRange, match=r"typical_error is 2\.1"):
        change.noise_free_standard_deviation(2.0, 2.1)


def test_a_correlation_of_one_leaves_no_error_and_above_one_is_refused() -> None:
    assert change.standard_error_of_measurement(5.0, 1.0) == 0
    assert change.standard_error_of_measurement(5.0, 0.0) == 5.0
    with pytest.raises(OutsidePublishedRange, match=r"intraclass_correlation is 1\.01"):
        change.standard_error_of_measurement(5.0, 1.01)


@pytest.mark.parametrize(
    ("seen", "better", "trivial", "worse"),
    [
        (3.0, 0.8807, 0.1101, 0.0092),
        (1.0, 0.5000, 0.3807, 0.1193),
        (-2.5, 0.0196, 0.1688, 0.8116),
    ],
)
def test_chances_match_the_worked_cases(
    seen: float, better: float, trivial: float, worse: float
) -> None:
    """Typical error 1.2, smallest worthwhile change 1.0; worked out by hand."""
    found = change.chances_of_change(seen, 1.2, 1.0)
    assert found.better == pytest.approx(better, abs=5e-5)
    assert found.trivial == pytest.approx(trivial, abs=5e-5)
    assert found.worse == pytest.approx(worse, abs=5e-5)


@given(st.floats(-10, 10), st.floats(0.1, 5), st.floats(0.1, 5))
def test_chances_are_those_of_the_normal_curve(seen: float, error: float, worth: float) -> None:
    found = change.chances_of_change(seen, error, worth)
    curve = stats.norm(loc=seen, scale=error * math.sqrt(2))
    assert found.better == pytest.approx(curve.sf(worth), abs=1e-12)
    assert found.worse == pytest.approx(curve.cdf(-worth), abs=1e-12)
    assert found.better + found.trivial + found.worse == pytest.approx(1)


def test_chances_without_noise_are_refused() -> None:
    with pytest.raises(OutsidePublishedRange, match="typical_error is 0"):
        change.chances_of_change(3.0, 0.0, 1.0)
