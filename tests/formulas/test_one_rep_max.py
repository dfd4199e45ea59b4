"""One-repetition maximum: what the rows cannot say."""

import math

import mpmath
import pytest
from hypothesis import given
from hypothesis import strategies as st

from squadwright.errors import InvalidInput, OutsidePublishedRange
from squadwright.formulas import one_rep_max as module
from squadwright.formulas.one_rep_max import EQUATIONS, one_rep_max
from squadwright.formulas.registry import all_formulas

MEASURED_AT_ONE = {"brzycki", "lombardi"}
LAST_REPETITION = {"brzycki": 36, "lander": 37, "adams": 49, "kemmler": 34}


@pytest.mark.parametrize("author", EQUATIONS)
def test_a_single_is_taken_as_measured_by_every_author(author: str) -> None:
    assert one_rep_max(87.5, 1, author=author) == 87.5


@pytest.mark.parametrize("author", EQUATIONS)
def test_only_two_equations_give_the_load_back_at_one_repetition(author: str) -> None:
    gives_it_back = math.isclose(EQUATIONS[author](100, 1), 100, rel_tol=1e-12)
    assert gives_it_back == (author in MEASURED_AT_ONE)


@pytest.mark.parametrize("author", EQUATIONS)
def test_the_choice_calls_the_named_equation(author: str) -> None:
    assert one_rep_max(100, 7, author=author) == EQUATIONS[author](100, 7)


def test_an_unknown_author_is_refused_by_name() -> None:
    with pytest.raises(InvalidInput, match=r"'nobody' is not known.*epley"):
        one_rep_max(100, 5, author="nobody")


def test_brzycki_meets_epley_at_ten_and_oconner_at_five() -> None:
    assert module.one_rep_max_brzycki(100, 10) == pytest.approx(
        module.one_rep_max_epley(100, 10), rel=1e-14
    )
    assert module.one_rep_max_brzycki(100, 5) == pytest.approx(
        module.one_rep_max_oconner(100, 5), rel=1e-14
    )


def test_the_rounded_brzycki_is_not_the_one_in_use() -> None:
    rounded = 100 / (1.0278 - 0.0278 * 5)
    assert rounded == pytest.approx(112.511, abs=5e-4)
    assert module.one_rep_max_brzycki(100, 5) == 112.5


@pytest.mark.parametrize(
    ("author", "exact", "digits"),
    [
        (
            "wathan",
            lambda w, r: (
                100
                * w
                / (mpmath.mpf("48.8") + mpmath.mpf("53.8") * mpmath.exp(mpmath.mpf("-0.075") * r))
            ),
            "116.582505291",
        ),
        (
            "mayhew",
            lambda w, r: (
                100
                * w
                / (mpmath.mpf("52.2") + mpmath.mpf("41.9") * mpmath.exp(mpmath.mpf("-0.055") * r))
            ),
            "119.010680452",
        ),
        ("lombardi", lambda w, r: w * mpmath.mpf(r) ** mpmath.mpf("0.10"), "117.461894309"),
    ],
)
def test_thirty_digit_arithmetic_agrees(author: str, exact, digits: str) -> None:
    with mpmath.workdps(30):
        assert abs(exact(mpmath.mpf(100), 5) - mpmath.mpf(digits)) <= mpmath.mpf("5e-10")
        for repetitions in (1, 2, 5, 10, 30, 100):
            oracle = exact(mpmath.mpf(100), repetitions)
            value = EQUATIONS[author](100, repetitions)
            assert abs(mpmath.mpf(value) / oracle - 1) < mpmath.mpf("1e-15")


@pytest.mark.parametrize("author", EQUATIONS)
def test_both_ends_of_the_repetitions_are_usable_and_just_outside_is_refused(author: str) -> None:
    last = LAST_REPETITION.get(author, 100)
    equation = EQUATIONS[author]
    assert equation(100, 1) > 99
    assert equation(100, last) > equation(100, last - 1)
    for repetitions in (0.999, 0, -1, last + 0.001, last + 1):
        with pytest.raises(OutsidePublishedRange, match=f"repetitions is .*1 to {last}"):
            equation(100, repetitions)


@pytest.mark.parametrize("load_kg", [0, -20, 1000.5])
def test_a_load_that_is_none_is_refused(load_kg: float) -> None:
    with pytest.raises(OutsidePublishedRange, match=r"load_kg is .*more than 0 and at most 1000"):
        module.one_rep_max_epley(load_kg, 5)


@pytest.mark.parametrize("value", [math.nan, math.inf, True, "100", None])
def test_what_is_not_a_finite_number_is_refused(value: object) -> None:
    with pytest.raises(InvalidInput, match=r"load_kg: .* is not a finite number"):
        module.one_rep_max_epley(value, 5)  # type: ignore[arg-type]


@given(
    author=st.sampled_from(sorted(EQUATIONS)),
    load_kg=st.floats(1, 400),
    shares=st.lists(st.floats(0, 1), min_size=2, max_size=2, unique=True),
)
def test_more_repetitions_never_mean_a_smaller_maximum(
    author: str, load_kg: float, shares: list[float]
) -> None:
    last = LAST_REPETITION.get(author, 100)
    fewer, more = sorted(1 + share * (last - 1) for share in shares)
    equation = EQUATIONS[author]
    assert equation(load_kg, fewer) <= equation(load_kg, more) * (1 + 1e-12)


@given(author=st.sampled_from(sorted(EQUATIONS)), load_kg=st.floats(1, 400))
def test_the_maximum_is_proportional_to_the_load(author: str, load_kg: float) -> None:
    equation = EQUATIONS[author]
    assert equation(2 * load_kg, 6) == pytest.approx(2 * equation(load_kg, 6), rel=1e-12)


def test_a_long_set_carries_a_caution() -> None:
    rule = all_formulas()["one_rep_max_epley"].rules["repetitions"]
    assert rule.warning("repetitions", 12) == ""
    assert "past 10 to 12 repetitions" in rule.warning("repetitions", 13)
