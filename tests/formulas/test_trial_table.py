"""Reliability over several trials, against R and another statistics package's figures."""

import csv
import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from open_data import open_data
from squadwright.errors import InvalidInput
from squadwright.formulas import reliability
from squadwright.formulas.trial_table import trial_table

DAY_1 = (38.2, 41.5, 35.0, 44.1, 39.6, 36.8, 42.3, 40.0)
DAY_2 = (38.9, 41.0, 36.1, 44.0, 40.8, 36.5, 43.1, 39.7)
"""Made-up jump heights [cm]; R 4.2.2 (package psych 2.2.9) gave the figures below."""
JUMPS = tuple(zip(DAY_1, DAY_2, strict=True))

SHROUT_FLEISS = (
    *((9, 2, 5, 8), (6, 1, 3, 2), (8, 4, 6, 8)),
    *((7, 1, 2, 6), (10, 5, 6, 9), (6, 2, 4, 7)),
)
"""Six targets and four judges, Shrout and Fleiss 1979 (data from memory)."""

WINE = (
    "pingouin/datasets/icc.csv",
    "bfb884f57dc76c02a952d5090d4f3ab1075ea62b62c778df250774e9c0f0fc9c",
)


def test_two_days_give_the_correlations_and_limits_of_r() -> None:
    table = trial_table(JUMPS)
    assert table.correlation_1_1 == pytest.approx(0.968807, abs=5e-7)
    assert table.correlation_2_1 == pytest.approx(0.968849, abs=5e-7)
    assert table.correlation_3_1 == pytest.approx(0.971451, abs=5e-7)
    assert table.between_athletes / table.error == pytest.approx(69.054815, abs=5e-7)
    found = table.correlation_with_limits()
    assert (found.low, found.high) == pytest.approx((0.8651, 0.9942), abs=5e-5)


def test_six_targets_and_four_judges_give_the_figures_of_r_and_of_the_paper() -> None:
    """R: 0.1657418 0.2897638 0.7148407, averages 0.4427971 0.6200505 0.9093155.

    The paper prints 0.17, 0.29 and 0.71 (from memory).
    """
    table = trial_table(SHROUT_FLEISS)
    single = (table.correlation_1_1, table.correlation_2_1, table.correlation_3_1)
    average = (table.average_1_k, table.average_2_k, table.average_3_k)
    assert single == pytest.approx((0.1657418, 0.2897638, 0.7148407), abs=5e-8)
    assert average == pytest.approx((0.4427971, 0.6200505, 0.9093155), abs=5e-8)
    assert [round(value, 2) for value in single] == [0.17, 0.29, 0.71]


def test_an_open_table_of_judges_gives_the_figures_printed_with_it() -> None:
    """Eight wines, four judges: 0.7275, 0.7277, 0.7295 by the package the file comes with."""
    lines = open_data("pingouin", *WINE).read_text(encoding="utf-8").splitlines()
    scores: dict[str, list[float]] = {}
    for row in csv.DictReader(lines):
        scores.setdefault(row["Wine"], []).append(float(row["Scores"]))
    table = trial_table(tuple(scores.values()))
    assert (table.athletes, table.trials) == (8, 4)
    single = (table.correlation_1_1, table.correlation_2_1, table.correlation_3_1)
    assert single == pytest.approx((0.7275, 0.7277, 0.7295), abs=5e-5)


def test_the_typical_error_of_eight_athletes_may_be_twice_as_large() -> None:
    """Chi-square, 7 degrees of freedom, printed tables: 1.68987 (2.5 %), 16.01276 (97.5 %)."""
    found = trial_table(JUMPS).typical_error_with_limits()
    assert found.value == pytest.approx(0.4909903, abs=5e-8)
    assert found.low == pytest.approx(0.4909903 * math.sqrt(7 / 16.01276), abs=1e-6)
    assert found.high == pytest.approx(0.4909903 * math.sqrt(7 / 1.68987), abs=2e-6)
    assert found.high > 2 * found.value


def test_the_smallest_worthwhile_change_has_its_noise_taken_out() -> None:
    """0.57282 cm worked out by hand from the pooled SD 2.90587 and the typical error 0.49099."""
    assert trial_table(JUMPS).smallest_worthwhile == pytest.approx(0.57282, abs=5e-6)
    noise_only = trial_table(((1.0, 3.0), (2.0, 2.0), (3.0, 1.0)))
    assert noise_only.smallest_worthwhile == 0


def test_few_athletes_are_told_and_enough_are_not() -> None:
    (caution,) = trial_table(JUMPS).cautions
    assert "From 8 athletes and 2 trials" in caution
    many = [(float(n), n + 1.0, n - (0.5 if n % 2 else 0.0)) for n in range(50)]
    assert trial_table(many).cautions == ()


@given(
    st.lists(st.tuples(st.floats(10, 60), st.floats(10, 60)), min_size=3, max_size=12, unique=True)
)
def test_two_trials_agree_with_the_formulas_for_two_trials(
    rows: list[tuple[float, float]],
) -> None:
    first, second = zip(*rows, strict=True)
    table, found = trial_table(rows), reliability.mean_squares(first, second)
    assert table.between_athletes == pytest.approx(found.athletes, abs=1e-8)
    assert table.between_trials == pytest.approx(found.trials, abs=1e-8)
    assert table.error == pytest.approx(found.error, abs=1e-8)


@pytest.mark.parametrize(
    ("rows", "message"),
    [
        ((), r"holds 0 athletes"),
        (((1.0, 2.0), (2.0, 3.0)), r"holds 2 athletes with \[2\] trials"),
        (((1.0, 2.0), (2.0, 3.0), (3.0,)), r"holds 3 athletes with \[1, 2\] trials"),
        (((1.0,), (2.0,), (3.0,)), r"holds 3 athletes with \[1\] trials"),
        (((1.0, 2.0), (2.0, math.nan), (3.0, 1.0)), r"rows\[1\]\[1\]: nan"),
    ],
)
def test_a_table_with_gaps_or_too_few_is_refused(
    rows: tuple[tuple[float, ...], ...], message: str
) -> None:
    with pytest.raises(InvalidInput, match=message):
        trial_table(rows)


def test_athletes_who_do_not_differ_have_no_correlation() -> None:
    with pytest.raises(InvalidInput, match="no difference between athletes"):
        _ = trial_table(((1.0, 1.0),) * 4).correlation_3_1
