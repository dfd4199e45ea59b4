"""A change of one athlete: what may be said of it, and what is refused."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from squadwright.errors import InvalidInput, OutsidePublishedRange
from squadwright.formulas.honest_change import (
    Better,
    TestError,
    Verdict,
    change_between,
    own_error,
    published_error,
)
from squadwright.formulas.measured import Measured
from squadwright.formulas.trial_table import trial_table

METHOD = "countermovement jump, flight time, mat"
MAT = TestError(1.2, "cm", METHOD, "a paper on other people")
EARLIER = Measured("jump height", 40.0, "cm", METHOD)
JUMPS = tuple(
    zip(
        (38.2, 41.5, 35.0, 44.1, 39.6, 36.8, 42.3, 40.0),
        (38.9, 41.0, 36.1, 44.0, 40.8, 36.5, 43.1, 39.7),
        strict=True,
    )
)


def height(value: float) -> Measured:
    return replace(EARLIER, value=value)


def test_a_jump_of_one_and_a_half_centimetres_is_within_measuring_error() -> None:
    """Typical error 1.2 cm: detectable from 1.96 x 1.414 x 1.2 = 3.33 cm on."""
    found = change_between(EARLIER, height(41.5), MAT, better=Better.HIGHER)
    assert found.verdict is Verdict.WITHIN
    assert found.detectable == pytest.approx(3.3262, abs=5e-5)
    assert (found.low, found.high) == pytest.approx((-1.8262, 4.8262), abs=5e-5)
    assert found.text == (
        "+1.5 cm (-1.83 to +4.83): within measuring error. "
        "A change counts from 3.33 cm on (a paper on other people)."
    )


def test_a_larger_change_is_beyond_it_and_says_which_way() -> None:
    up = change_between(EARLIER, height(43.5), MAT, better=Better.HIGHER)
    down = change_between(EARLIER, height(36.5), MAT, better=Better.HIGHER)
    assert up.verdict is down.verdict is Verdict.BEYOND
    assert "beyond measuring error, better." in up.text
    assert "beyond measuring error, worse." in down.text


def test_a_time_gets_better_downwards() -> None:
    sprint = Measured("sprint", 5.00, "s", "two gates")
    error = TestError(0.03, "s", "two gates", "a paper")
    faster = replace(sprint, value=4.85)
    found = change_between(sprint, faster, error, better=Better.LOWER, smallest_worthwhile=0.02)
    assert found.change == pytest.approx(-0.15)
    assert found.is_better
    assert found.chances is not None
    assert found.chances.better > 0.99


def test_chances_are_those_worked_out_by_hand() -> None:
    """Typical error 1.2, smallest worthwhile 1.0, change 3.0: 0.8807, 0.1101, 0.0092."""
    found = change_between(
        EARLIER, height(43.0), MAT, better=Better.HIGHER, smallest_worthwhile=1.0
    )
    assert found.chances is not None
    chances = (found.chances.better, found.chances.trivial, found.chances.worse)
    assert chances == pytest.approx((0.8807, 0.1101, 0.0092), abs=5e-5)
    assert found.verdict is Verdict.WITHIN


def test_an_error_from_eight_athletes_leaves_a_change_in_doubt() -> None:
    """Detectable by the error found 1.36 cm, by its upper limit 2.77 cm: 2 cm lies between."""
    error = own_error(trial_table(JUMPS), unit="cm", method=METHOD)
    verdicts = [
        change_between(EARLIER, height(40 + change), error, better=Better.HIGHER).verdict
        for change in (1.3, 2.0, 3.0)
    ]
    assert verdicts == [Verdict.WITHIN, Verdict.UNSURE, Verdict.BEYOND]
    assert error.source == "own trials of 8 athletes"


def test_an_error_of_a_paper_is_a_share_of_the_number_and_says_so() -> None:
    """5.8 % of 40 cm is 2.32 cm, detectable from 6.43 cm on: 3 cm is within it."""
    error = published_error(5.8, EARLIER, source="a paper on 41 men")
    assert error.typical_error == pytest.approx(2.32)
    found = change_between(EARLIER, height(43), error, better=Better.HIGHER)
    assert found.verdict is Verdict.WITHIN
    assert found.text.endswith("from 6.43 cm on (a paper on 41 men, other people).")
    with pytest.raises(OutsidePublishedRange, match="percent is 51"):
        published_error(51, EARLIER, source="a paper")


def test_two_methods_or_an_unknown_error_are_refused() -> None:
    other = replace(EARLIER, value=42.0, method="countermovement jump, impulse")
    with pytest.raises(InvalidInput, match="later: jump height has the method"):
        change_between(EARLIER, other, MAT, better=Better.HIGHER)
    with pytest.raises(InvalidInput, match="error: the typical error of jump height"):
        change_between(EARLIER, height(42), None, better=Better.HIGHER)
    with pytest.raises(InvalidInput, match=r"error\.method: is 'tape'"):
        change_between(EARLIER, height(42), replace(MAT, method="tape"), better=Better.HIGHER)
    with pytest.raises(InvalidInput, match=r"error\.unit: is 'm'"):
        change_between(EARLIER, height(42), replace(MAT, unit="m"), better=Better.HIGHER)


def test_an_error_of_nothing_or_with_its_limit_below_is_refused() -> None:
    with pytest.raises(OutsidePublishedRange, match="typical_error is 0"):
        replace(MAT, typical_error=0)
    with pytest.raises(InvalidInput, match=r"upper: 1 cm lies below the typical error 1\.2 cm"):
        replace(MAT, upper=1.0)


@given(st.floats(10, 80), st.floats(10, 80), st.floats(0.1, 5))
def test_a_change_there_and_back_is_judged_alike(one: float, two: float, error: float) -> None:
    test = replace(MAT, typical_error=error)
    there = change_between(height(one), height(two), test, better=Better.HIGHER)
    back = change_between(height(two), height(one), test, better=Better.HIGHER)
    assert there.verdict is back.verdict
    assert there.change == -back.change
    # Within the error and an interval that holds nought are one and the same.
    is_nought_inside = there.low <= 0 <= there.high
    near_edge = abs(abs(there.change) - there.detectable) < 1e-9
    assert near_edge or is_nought_inside == (there.verdict is Verdict.WITHIN)
