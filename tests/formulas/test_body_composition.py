"""Fat, energy and heat: wrong variants in circulation, ages, properties."""

from collections.abc import Callable
from itertools import pairwise

import pytest

from squadwright.errors import InvalidInput, OutsidePublishedRange
from squadwright.formulas import body_density, body_fat, resting_energy, wet_bulb_globe
from squadwright.formulas.registry import all_formulas

MEN = body_density.body_density_jackson_pollock_three_men
WOMEN = body_density.body_density_jackson_pollock_three_women
WRESTLERS = body_density.body_density_lohman_wrestlers

OF_FOLDS: dict[str, Callable[[float], float]] = {
    "three men": lambda s: MEN(s, 25),
    "three women": lambda s: WOMEN(s, 25),
    "seven men": lambda s: body_density.body_density_jackson_pollock_seven_men(s, 25),
    "seven women": lambda s: body_density.body_density_jackson_pollock_seven_women(s, 25),
    "wrestlers": WRESTLERS,
    "three boys": body_density.body_density_thorland_three_boys,
    "seven boys": body_density.body_density_thorland_seven_boys,
    "three girls": body_density.body_density_thorland_three_girls,
}


@pytest.mark.parametrize("name", OF_FOLDS)
def test_fat_rises_with_the_folds_from_10_to_100_mm(name: str) -> None:
    densities = [OF_FOLDS[name](s) for s in range(10, 101)]
    assert all(one > next_one for one, next_one in pairwise(densities))


def test_the_misprinted_constant_for_wrestlers_would_let_fat_fall() -> None:
    """Case 27 (calc): 8.07 and 20.08 %; with 0.0000084 it would be 6.90 and 9.13 %."""

    def misprinted(s: float) -> float:
        return 457 / (1.0982 - 0.000815 * s + 0.0000084 * s**2) - 414.2

    right = [body_fat.fat_percent_brozek(WRESTLERS(s)) for s in (20, 60)]
    assert right == pytest.approx([8.07, 20.08], abs=0.005)
    assert [misprinted(20), misprinted(60)] == pytest.approx([6.90, 9.13], abs=0.005)
    assert misprinted(60) < misprinted(48.5) > 0
    turning_mm = 0.000815 / (2 * 0.0000084)
    assert turning_mm == pytest.approx(48.5, abs=0.05)


def test_the_changed_digits_for_women_are_not_used() -> None:
    """Case 26 (calc): 1.0994921; a page prints 1.0994291."""
    assert WOMEN(45, 25) == pytest.approx(1.055989, abs=5e-7)
    changed = 1.0994291 - 0.0009929 * 45 + 0.0000023 * 45**2 - 0.0001392 * 25
    assert abs(changed - WOMEN(45, 25)) > 5e-5


FAT = [
    (1.079584, 8.51, 9.11),
    (1.059103, 17.38, 17.30),
    (1.055989, 18.75, 18.57),
    (1.077039, 9.59, 10.11),
    (1.052422, 20.34, 20.04),
    (1.078325, 9.05, 9.61),
    (1.079052, 8.74, 9.32),
    (1.059222, 17.32, 17.25),
    (1.066580, 14.10, 14.27),
]


@pytest.mark.parametrize(("density", "siri", "brozek"), FAT)
def test_density_becomes_fat_by_two_equations(density: float, siri: float, brozek: float) -> None:
    """calc: Siri second hand, Brozek from memory."""
    assert body_fat.fat_percent_siri(density) == pytest.approx(siri, abs=0.005)
    assert body_fat.fat_percent_brozek(density) == pytest.approx(brozek, abs=0.005)


@pytest.mark.parametrize(
    ("folds_mm", "percent"), [(20, 8.07), (25, 9.60), (30, 11.11), (40, 14.13), (60, 20.08)]
)
def test_the_wrestlers_row_with_brozek(folds_mm: float, percent: float) -> None:
    """calc, constants from memory."""
    found = body_fat.fat_percent_brozek(WRESTLERS(folds_mm))
    assert found == pytest.approx(percent, abs=0.005)


def test_an_age_or_a_sex_outside_an_equation_is_refused() -> None:
    with pytest.raises(OutsidePublishedRange, match=r"age_years is 17.*men of 18 to 61"):
        MEN(30, 17)
    with pytest.raises(OutsidePublishedRange, match=r"age_years is 56.*women of 18 to 55"):
        WOMEN(30, 56)
    with pytest.raises(OutsidePublishedRange, match="none between"):
        body_fat.fat_percent_lohman(1.065, 17.5, "male")
    assert body_fat.fat_percent_lohman(1.065, 17.5, "female") == pytest.approx(12.178, abs=0.001)
    with pytest.raises(InvalidInput, match="sex: 'boy' is not known"):
        body_fat.fat_percent_lohman(1.065, 14, "boy")


def test_triceps_and_subscapular_change_line_at_35_mm() -> None:
    with pytest.raises(OutsidePublishedRange, match="above 35 mm another line holds"):
        body_fat.fat_percent_slaughter_subscapular_girls(35.1)
    with pytest.raises(OutsidePublishedRange, match="up to 35 mm another line holds"):
        body_fat.fat_percent_slaughter_thick_girls(35)


def test_a_constant_that_is_not_in_print_is_refused() -> None:
    with pytest.raises(InvalidInput, match="2 is not in print"):
        body_fat.fat_percent_slaughter_subscapular_boys(20, 2.0)
    two_point_four = 1.33 * 20 - 0.013 * 20**2 - 2.4
    assert two_point_four == pytest.approx(19.0)
    assert body_fat.fat_percent_slaughter_subscapular_girls(20) == pytest.approx(18.9)


@pytest.mark.parametrize("density", [1.0935, 0.985])
def test_fat_below_3_or_above_50_percent_is_not_believed(density: float) -> None:
    with pytest.raises(OutsidePublishedRange, match=r"fat_percent.*3 to 50.*measure again"):
        body_fat.fat_percent_siri(density)


def test_no_formula_asks_for_descent_or_puberty() -> None:
    asked = {p.name for formula in all_formulas().values() for p in formula.parameters}
    assert not {"race", "ethnicity", "maturity", "puberty"} & asked


def test_the_page_that_cuts_a_product_gives_1793() -> None:
    """A page (read) cuts 13.7 * 78 = 1068.6 to 1068 and prints 1793."""
    whole = resting_energy.resting_energy_harris_benedict_rounded(78, 1.7272, 30, sex="male")
    assert whole == pytest.approx(1794.2, abs=0.05)
    assert int(whole - 0.6) == 1793


def test_more_spent_than_eaten_is_refused() -> None:
    with pytest.raises(OutsidePublishedRange, match="more is spent in training than was eaten"):
        resting_energy.energy_availability(500, 600, 60)


def test_a_wet_bulb_is_never_above_the_dry_one() -> None:
    assert wet_bulb_globe.wet_bulb_globe_outdoors(32, 32, 32) == pytest.approx(32)
    with pytest.raises(OutsidePublishedRange, match="never above the dry one"):
        wet_bulb_globe.wet_bulb_globe_indoors(31.1, 31)
