"""Minimum weight, rates, trend, sweat: wrong variants in circulation, borders, properties."""

import math

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from scipy import stats

from squadwright.errors import InvalidInput, OutsidePublishedRange
from squadwright.formulas import body_mass_trend, minimum_weight, rate_of_change, sweat_rate

DAYS = (0, 1, 2, 3, 4, 5, 6)
MASSES_KG = (80.4, 80.1, 80.3, 79.8, 79.9, 79.6, 79.5)


def test_case_1_a_minimum_weight_is_shown_rounded_up_and_kept_whole_inside() -> None:
    """Case 1 (calc): 168 lb, 12 %, floor 5 %. The rulebook example (read) prints 156 as well."""
    lowest = minimum_weight.lowest_weight_by_fat(168, 12, 5)
    assert lowest == pytest.approx(155.621, abs=0.001)
    assert minimum_weight.shown_minimum_weight(lowest) == 156
    assert minimum_weight.shown_minimum_weight(155.0001) == 156
    assert minimum_weight.shown_minimum_weight(0.1 * 3 * 520) == 156


def test_case_2_the_descent_binds() -> None:
    """Case 2 (calc): 180 lb, 18 %, 8 weeks."""
    found = minimum_weight.minimum_wrestling_weight(180, 18, least_fat_percent=5, weeks=8)
    assert found == pytest.approx(158.40, abs=0.001)
    assert found == minimum_weight.lowest_weight_by_descent(180, 8)
    assert minimum_weight.shown_minimum_weight(found) == 159


def test_the_rounded_steps_of_the_rulebook_give_a_little_more() -> None:
    """calc: 148 / 0.95 = 155.789, where nothing rounded gives 155.621."""
    rounded = 148 / 0.95
    assert rounded == pytest.approx(155.789, abs=0.0005)
    assert rounded > minimum_weight.lowest_weight_by_fat(168, 12, 5)
    assert math.ceil(rounded) == 156


def test_a_week_on_week_descent_is_another_rule() -> None:
    """calc: 0.985^8 of 168 lb is 148.867; the rule is a straight line (second hand)."""
    straight = minimum_weight.lowest_weight_by_descent(168, 8)
    week_on_week = 168 * 0.985**8
    assert week_on_week == pytest.approx(148.867, abs=0.0005)
    assert straight == pytest.approx(147.84)


def test_a_variance_of_two_percent_is_taken_off_outside() -> None:
    """Texas 2008 (second hand), calc: 130.968 with 2 % off is 128.348."""
    lowest = minimum_weight.lowest_weight_by_fat(140, 13, 7)
    assert 0.98 * lowest == pytest.approx(128.348, abs=0.001)


def test_the_college_rule_of_a_greatest_fat_is_not_offered() -> None:
    """A page that states a maximum of 15 % fat contradicts the rulebook (second hand)."""
    assert 15 not in minimum_weight.LEAST_FAT_PERCENT_OF.values()
    assert minimum_weight.lowest_weight_by_fat(168, 20, 5) < 168


def test_each_floor_of_a_body_is_inside_the_range_it_is_used_in() -> None:
    for percent in minimum_weight.LEAST_FAT_PERCENT_OF.values():
        assert minimum_weight.lowest_weight_by_fat(150, 25, percent) < 150


@given(mass=st.floats(40, 300), fat=st.floats(3, 50), weeks=st.floats(0, 20))
def test_the_minimum_is_never_below_either_of_the_two(
    mass: float, fat: float, weeks: float
) -> None:
    least = minimum_weight.minimum_wrestling_weight(mass, fat, least_fat_percent=7, weeks=weeks)
    assert least >= mass * (1 - fat / 100) / 0.93 - 1e-9
    assert least >= mass * (1 - 0.015 * weeks) - 1e-9


def test_the_two_bases_of_a_rate_give_different_figures() -> None:
    slope = body_mass_trend.body_mass_slope(DAYS, MASSES_KG)
    mean = sum(MASSES_KG) / 7
    assert mean == pytest.approx(79.942857, abs=1e-6)
    assert 7 * slope == pytest.approx(-1.025, abs=0.0005)
    of_first = rate_of_change.weekly_loss_of_slope(slope, MASSES_KG[0])
    of_mean = rate_of_change.weekly_loss_of_slope(slope, mean)
    assert of_first == pytest.approx(1.2749, abs=0.00005)
    assert of_mean == pytest.approx(1.2822, abs=0.00005)


def test_whole_days_at_the_fastest_rate_are_rounded_up() -> None:
    """calc: 23.93 and 24.38 days become 24 and 25."""
    assert math.ceil(rate_of_change.shortest_days_straight(78, 74, 1.5)) == 24
    assert math.ceil(rate_of_change.shortest_days_week_on_week(78, 74, 1.5)) == 25


@pytest.mark.parametrize("limit", [78, 80])
def test_nothing_to_lose_has_no_number_of_days(limit: float) -> None:
    for days in (rate_of_change.shortest_days_straight, rate_of_change.shortest_days_week_on_week):
        with pytest.raises(OutsidePublishedRange, match="nothing has to be lost"):
            days(78, limit, 1.5)


def test_news_figures_beside_171_and_136_belong_to_170_and_135() -> None:
    """A news page (second hand) prints 195.4 and 155.2: 15 % on the classes, cut to one digit."""
    for limit, printed in ((170, 195.4), (135, 155.2)):
        assert rate_of_change.mass_at_regain(limit, 15) == pytest.approx(printed, abs=0.101)
        assert rate_of_change.mass_at_regain(limit + 1, 15) - printed > 1


@given(
    st.lists(
        st.tuples(st.integers(0, 60), st.integers(500, 1100)),
        min_size=3,
        max_size=20,
        unique_by=lambda reading: reading[0],
    )
)
def test_a_slope_and_its_interval_agree_with_a_statistics_library(
    readings: list[tuple[int, float]],
) -> None:
    """Against scipy.stats.linregress and its t distribution."""
    days = [day for day, _ in readings]
    masses = [tenths / 10 for _, tenths in readings]
    assume(len(set(masses)) > 1)
    if max(days) - min(days) < 5:
        with pytest.raises(OutsidePublishedRange, match="span of days"):
            body_mass_trend.body_mass_slope(days, masses)
        return
    line = stats.linregress(days, masses)
    assert body_mass_trend.body_mass_slope(days, masses) == pytest.approx(line.slope, abs=1e-9)
    half = body_mass_trend.body_mass_slope_half_width(0.95, days, masses)
    expected = line.stderr * stats.t.ppf(0.975, len(days) - 2)
    assert half == pytest.approx(expected, rel=1e-6, abs=1e-6)
    # The interval of a reading to come, from the residuals as a textbook writes it.
    left = [m - line.intercept - line.slope * d for d, m in zip(days, masses, strict=True)]
    error = (sum(e * e for e in left) / (len(days) - 2)) ** 0.5
    mean = sum(days) / len(days)
    lever = 1 + 1 / len(days) + (70 - mean) ** 2 / sum((d - mean) ** 2 for d in days)
    wide = error * lever**0.5 * stats.t.ppf(0.975, len(days) - 2)
    predicted = body_mass_trend.predicted_body_mass_half_width(
        70, 0.95, days=days, masses_kg=masses
    )
    assert predicted == pytest.approx(wide, rel=1e-5, abs=1e-5)


def test_two_readings_give_no_slope() -> None:
    with pytest.raises(InvalidInput, match="days: holds 2 numbers"):
        body_mass_trend.body_mass_slope((0, 9), (80, 79))


def test_a_missing_day_is_refused() -> None:
    with pytest.raises(InvalidInput, match="Give one day for each mass"):
        body_mass_trend.body_mass_slope((0, 3, 9), (80, 79, 78, 77))


@given(st.lists(st.floats(50, 110), min_size=1, max_size=30), st.floats(0.01, 1))
def test_a_smoothed_mass_stays_between_the_readings(masses: list[float], weight: float) -> None:
    found = body_mass_trend.smoothed_body_mass(weight, masses)
    assert min(masses) - 1e-9 <= found <= max(masses) + 1e-9
    assert body_mass_trend.smoothed(1, masses)[-1] == pytest.approx(masses[-1])


def test_case_14_a_sweat_rate_counts_what_was_drunk_and_passed() -> None:
    """Case 14 (calc)."""
    found = sweat_rate.sweat_rate(80.0, 78.6, 1.5, drunk_l=0.9, passed_l=0.2)
    assert found == pytest.approx(1.4)
    assert sweat_rate.mass_deficit_percent(80.0, 78.6) == pytest.approx(1.75)


def test_a_negative_rate_and_no_time_are_wrong_readings() -> None:
    with pytest.raises(OutsidePublishedRange, match=r"after_kg is 76.*weigh again"):
        sweat_rate.sweat_rate(75, 76, 1, drunk_l=0.5)
    with pytest.raises(OutsidePublishedRange, match="hours is 0"):
        sweat_rate.sweat_rate(75, 74, 0)
    with pytest.raises(OutsidePublishedRange, match="nothing to replace"):
        sweat_rate.refill_volume(75, 75.1)


def test_no_formula_takes_a_rate_above_what_any_body_allows() -> None:
    with pytest.raises(OutsidePublishedRange, match=r"percent_a_week is 1\.5001"):
        rate_of_change.shortest_days_straight(78, 74, 1.5001)
