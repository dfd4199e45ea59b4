"""Repetitions at a share of the maximum: oracle, refusals, inverse, handbook."""

import mpmath
import pytest
from hypothesis import given
from hypothesis import strategies as st

from squadwright.errors import OutsidePublishedRange
from squadwright.formulas import one_rep_max, repetition_maximum
from squadwright.formulas import repetition_maximum_table as table
from squadwright.formulas.registry import all_formulas
from squadwright.formulas.repetition_maximum import repetitions_at_fraction

INVERSE = repetition_maximum.EQUATIONS
FORWARD = one_rep_max.EQUATIONS


@pytest.mark.parametrize(
    ("author", "exact", "digits"),
    [
        (
            "wathan",
            lambda f: (
                mpmath.log(mpmath.mpf("53.8") / (100 * f - mpmath.mpf("48.8")))
                / mpmath.mpf("0.075")
            ),
            "7.264738298",
        ),
        (
            "mayhew",
            lambda f: (
                mpmath.log(mpmath.mpf("41.9") / (100 * f - mpmath.mpf("52.2")))
                / mpmath.mpf("0.055")
            ),
            "7.459087386",
        ),
        ("lombardi", lambda f: f**-10, "9.313225746"),
    ],
)
def test_thirty_digit_arithmetic_agrees(author: str, exact, digits: str) -> None:
    with mpmath.workdps(30):
        assert abs(exact(mpmath.mpf("0.80")) - mpmath.mpf(digits)) <= mpmath.mpf("5e-10")
        for share in ("0.70", "0.80", "0.90"):
            oracle = exact(mpmath.mpf(share))
            assert abs(INVERSE[author](float(share)) - oracle) < mpmath.mpf("1e-12")


@given(author=st.sampled_from(sorted(INVERSE)), share=st.floats(0, 1))
def test_an_equation_turned_round_and_back_gives_the_same_repetitions(
    author: str, share: float
) -> None:
    last = {"brzycki": 36, "lander": 37, "adams": 49, "kemmler": 34}.get(author, 100)
    repetitions = 1 + share * (last - 1)
    fraction = 1 / FORWARD[author](1, repetitions)
    if fraction > 1:
        with pytest.raises(OutsidePublishedRange):
            INVERSE[author](fraction)
        return
    low = all_formulas()[f"repetitions_at_fraction_{author}"].rules["fraction_1rm"].low
    assert INVERSE[author](max(fraction, low)) == pytest.approx(repetitions, rel=1e-6)


@pytest.mark.parametrize("author", INVERSE)
def test_a_heavier_load_never_allows_more_repetitions(author: str) -> None:
    rule = all_formulas()[f"repetitions_at_fraction_{author}"].rules["fraction_1rm"]
    shares = [rule.low + step / 50 * (rule.high - rule.low) for step in range(51)]
    repetitions = [INVERSE[author](min(share, rule.high)) for share in shares]
    assert repetitions == sorted(repetitions, reverse=True)
    assert repetitions[-1] == pytest.approx(0, abs=1.2)


@pytest.mark.parametrize("fraction", [0.9411, 0.95, 1.0])
def test_mayhew_has_no_answer_above_ninety_four_point_one_percent(fraction: float) -> None:
    with pytest.raises(OutsidePublishedRange, match=r"starts at 94\.1 %"):
        repetition_maximum.repetitions_at_fraction_mayhew(fraction)
    assert repetition_maximum.repetitions_at_fraction_mayhew(0.941) == pytest.approx(0, abs=1e-12)


@pytest.mark.parametrize(
    ("author", "fraction"), [("mayhew", 0.522), ("wathan", 0.488), ("lombardi", 0.60)]
)
def test_a_flat_end_of_a_curve_is_refused(author: str, fraction: float) -> None:
    with pytest.raises(OutsidePublishedRange, match="fraction_1rm is"):
        INVERSE[author](fraction)


@pytest.mark.parametrize("fraction", [75, 1.01, 0, -0.5])
def test_a_percentage_taken_for_a_share_is_refused(fraction: float) -> None:
    with pytest.raises(OutsidePublishedRange, match="fraction_1rm is"):
        repetitions_at_fraction(fraction)


@pytest.mark.parametrize("author", INVERSE)
def test_the_whole_maximum_is_one_repetition_by_every_author(author: str) -> None:
    assert repetitions_at_fraction(1, author=author) == 1
    assert repetitions_at_fraction(0.8, author=author) == INVERSE[author](0.8)


def test_at_light_loads_the_equations_differ_twofold_and_say_so() -> None:
    assert INVERSE["oconner"](0.5) / INVERSE["brzycki"](0.5) > 2
    rule = all_formulas()["repetitions_at_fraction_epley"].rules["fraction_1rm"]
    assert "test at this load" in rule.warning("fraction_1rm", 0.5)
    assert rule.warning("fraction_1rm", 0.8) == ""


def test_the_two_handbook_versions_differ_at_twelve_repetitions() -> None:
    assert table.fraction_at_repetitions_nsca_chart(12) == 0.70
    assert table.fraction_at_repetitions_nsca_essentials(12) == 0.67


def test_a_missing_entry_is_read_off_a_straight_line() -> None:
    assert table.fraction_at_repetitions_nsca_chart(11) == pytest.approx(0.725)
    assert table.fraction_at_repetitions_nsca_essentials(13.5) == pytest.approx(0.66)
    assert table.repetitions_at_fraction_nsca_chart(0.725) == pytest.approx(11)


def test_the_chart_example_in_pounds_gives_its_eight_repetition_load() -> None:
    """Example beside the load chart: 135 lb for twelve is 192.857 lb, and 154.286 lb for eight."""
    maximum_lb = table.one_rep_max_nsca_chart(135, 12)
    assert maximum_lb * table.fraction_at_repetitions_nsca_chart(8) == pytest.approx(
        154.286, abs=5e-4
    )


@given(st.floats(1, 12), st.floats(1, 12))
def test_a_handbook_share_never_rises_with_repetitions(one: float, other: float) -> None:
    fewer, more = sorted((one, other))
    for read in (
        table.fraction_at_repetitions_nsca_chart,
        table.fraction_at_repetitions_nsca_essentials,
    ):
        assert read(fewer) >= read(more) - 1e-12


@given(st.floats(1, 12))
def test_the_chart_turned_round_gives_the_repetitions_back(repetitions: float) -> None:
    share = table.fraction_at_repetitions_nsca_chart(repetitions)
    assert table.repetitions_at_fraction_nsca_chart(share) == pytest.approx(repetitions)


@given(st.floats(1, 10))
def test_rating_and_reserve_are_each_other_turned_round(rating: float) -> None:
    formulas = all_formulas()
    reserve = formulas["repetitions_in_reserve_zourdos"].call(rating)
    assert formulas["rating_from_reserve_zourdos"].call(reserve) == pytest.approx(rating)


def test_a_low_rating_carries_a_caution() -> None:
    rule = all_formulas()["repetitions_in_reserve_zourdos"].rules["rating"]
    assert rule.warning("rating", 6) == ""
    assert "tells little" in rule.warning("rating", 5.5)
