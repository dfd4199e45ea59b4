"""A load for one lift from another: units, zero points, ratios."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from squadwright.errors import InvalidInput, OutsidePublishedRange
from squadwright.formulas import lift_ratio_regression as regression
from squadwright.formulas.lift_ratio import LIFT_RATIOS, load_from_lift_ratio
from squadwright.formulas.registry import all_formulas
from squadwright.formulas.sources import find_source

KG = 0.45359237
LINES = {
    regression.deadlift_six_rep_max_ebben: 0,
    regression.lunge_six_rep_max_ebben: 0,
    regression.step_up_six_rep_max_ebben: 0,
    regression.stiff_leg_deadlift_six_rep_max_ebben: 94.31 / 1.17 * KG,
    regression.one_leg_stiff_leg_deadlift_six_rep_max_ebben: 5.17 / 0.45 * KG,
    regression.good_morning_six_rep_max_ebben: 102.98 / 0.95 * KG,
    regression.stiff_leg_deadlift_six_rep_max_ebben_men: 86.331 / 1.133 * KG,
    regression.good_morning_six_rep_max_ebben_men: 105.505 / 0.961 * KG,
}


@pytest.mark.parametrize(
    ("line", "expected_lb"),
    [
        (regression.step_up_six_rep_max_ebben, 107.3),
        (regression.stiff_leg_deadlift_six_rep_max_ebben, 139.7),
        (regression.good_morning_six_rep_max_ebben, 87.0),
        (regression.stiff_leg_deadlift_six_rep_max_ebben_men, 140.27),
        (regression.good_morning_six_rep_max_ebben_men, 86.70),
    ],
)
def test_a_squat_of_200_pounds_gives_the_worked_loads_in_pounds(line, expected_lb: float) -> None:
    """Worked out by hand from the printed lines, in pounds."""
    printed = len(str(expected_lb).partition(".")[2])
    assert line(200 * KG) / KG == pytest.approx(expected_lb, abs=0.5 * 10**-printed + 1e-9)


@pytest.mark.parametrize(
    ("line", "slope", "intercept_kg", "rounded_lb"),
    [
        (regression.deadlift_six_rep_max_ebben, 0.83, 14.92, 198.8),
        (regression.lunge_six_rep_max_ebben, 0.52, 14.82, 136.6),
    ],
)
def test_the_worked_pounds_of_two_lines_come_from_a_factor_of_2_2(
    line, slope: float, intercept_kg: float, rounded_lb: float
) -> None:
    assert slope * 200 + intercept_kg * 2.2 == pytest.approx(rounded_lb, abs=0.05)
    exact_lb = line(200 * KG) / KG
    assert exact_lb == pytest.approx(slope * 200 + intercept_kg / KG, rel=1e-12)
    assert 0.05 < exact_lb - rounded_lb < 0.1


@pytest.mark.parametrize(
    ("line", "slope", "intercept"),
    [
        (regression.stiff_leg_deadlift_six_rep_max_ebben, 1.17, 94.31),
        (regression.good_morning_six_rep_max_ebben, 0.95, 102.98),
        (regression.stiff_leg_deadlift_six_rep_max_ebben_men, 1.133, 86.331),
        (regression.good_morning_six_rep_max_ebben_men, 0.961, 105.505),
    ],
)
def test_an_intercept_in_pounds_is_never_taken_for_kilograms(
    line, slope: float, intercept: float
) -> None:
    as_kilograms = slope * 100 - intercept
    assert line(100) - as_kilograms > 40
    assert line(100) == pytest.approx(slope * 100 - intercept * KG)


@pytest.mark.parametrize(("line", "zero_kg"), LINES.items())
def test_a_line_is_refused_at_and_below_its_zero_and_above_its_top(line, zero_kg: float) -> None:
    assert line(zero_kg + 0.01) > 0
    assert line(600) > 0
    for squat_kg in (zero_kg, zero_kg - 0.01, 600.1):
        with pytest.raises(OutsidePublishedRange, match="squat_six_rep_max_kg is"):
            line(squat_kg)


@given(squat_kg=st.floats(50, 300), more_kg=st.floats(0.1, 100))
def test_a_stronger_squat_never_means_a_lighter_lift(squat_kg: float, more_kg: float) -> None:
    for line in LINES:
        assert line(squat_kg) < line(squat_kg + more_kg)


def test_the_published_standard_errors_stand_beside_the_lines() -> None:
    """Ebben and others 2008: 12.50, 12.57 and 9.58 kg."""
    errors = [
        all_formulas()[f"{lift}_six_rep_max_ebben"].standard_error
        for lift in ("deadlift", "lunge", "step_up")
    ]
    assert errors == [12.50, 12.57, 9.58]


@pytest.mark.parametrize("name", LIFT_RATIOS)
def test_a_ratio_has_a_source_and_its_ends_in_order(name: str) -> None:
    ratio = LIFT_RATIOS[name]
    assert find_source(ratio.source)
    assert 0 < ratio.low <= ratio.middle <= ratio.high
    loads = [load_from_lift_ratio(100, name, end) for end in ("low", "middle", "high")]
    assert loads == sorted(loads)
    assert load_from_lift_ratio(200, name) == pytest.approx(2 * loads[1])


def test_a_ratio_that_is_not_known_is_refused_by_name() -> None:
    with pytest.raises(InvalidInput, match="ratio: 'squat_from_hope' is not known"):
        load_from_lift_ratio(100, "squat_from_hope")


@pytest.mark.parametrize("load_kg", [0, -1, 1000.1])
def test_a_reference_load_that_is_none_is_refused(load_kg: float) -> None:
    with pytest.raises(OutsidePublishedRange, match="reference_load_kg is"):
        load_from_lift_ratio(load_kg, "front_squat_from_back_squat")
