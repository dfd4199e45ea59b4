"""Body fat from what was measured, and the minimum mass that follows from it, each with its error.

A result is worth no more than its method: its equation, its error and its source go with it.
"""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from types import MappingProxyType

from squadwright.errors import InvalidInput
from squadwright.formulas import body_density as density
from squadwright.formulas import body_fat as fat
from squadwright.formulas.minimum_weight import (
    LEAST_FAT_PERCENT_OF,
    fat_free_mass,
    lowest_weight_by_descent,
    lowest_weight_by_fat,
)
from squadwright.model.athlete import Sex
from squadwright.model.composition import FatFloor, FatMethod, FoldSite
from squadwright.model.diary import BodyComposition
from squadwright.units import KILOGRAMS_PER_POUND, Mass, MassUnit

_S = FoldSite
Folds = tuple[FoldSite, ...]
SEVEN: Folds = (
    _S.CHEST, _S.MIDAXILLARY, _S.TRICEPS, _S.SUBSCAPULAR, _S.ABDOMEN, _S.SUPRAILIAC, _S.THIGH
)  # fmt: skip
WRESTLER_ERROR_KG = 2.59
"""Greater total error of fat-free mass of the best equations (wrestler_equations_1991) [kg]."""
SLAUGHTER_ERROR_PERCENT = 4.6
"""Greater total error (slaughter_error_1993) [% fat]."""
HOUSH_ERROR_G_ML = 0.0064
HIGHEST_WEEKS = 52
WEEK_DAYS = 7


@dataclass(frozen=True)
class Equation:
    """One equation on folds: for whom, which folds, body fat [%] from them, and what may be wrong.

    ``percent`` takes the folds in the order of ``sites`` [mm], the age in years and the mass [kg];
    ``error`` gives the error [% fat] from mass [kg] and body fat [%].
    """

    words: str
    sites: Folds
    ages: tuple[int, int]
    percent: Callable[[tuple[float, ...], int, float], float]
    error: Callable[[float, float], float]
    sources: tuple[str, ...]


def _by_sum(of_density: Callable[[float], float]) -> Callable[..., float]:
    return lambda folds, age, kg: fat.fat_percent_brozek(of_density(sum(folds)))


def _by_sum_and_age(of_density: Callable[[float, float], float]) -> Callable[..., float]:
    return lambda folds, age, kg: fat.fat_percent_siri(of_density(sum(folds), age))


def _housh(folds: tuple[float, ...], age: int, kg: float) -> float:
    return fat.fat_percent_brozek(density.body_density_housh(*folds, age_years=age, mass_kg=kg))


def _housh_error(kg: float, percent: float) -> float:
    """The standard error of density carried through 457 / D - 414.2, to first order."""
    found = 457 / (percent + 414.2)
    return 457 / found**2 * HOUSH_ERROR_G_ML


def _fixed(percent: float) -> Callable[[float, float], float]:
    return lambda kg, _: percent


def _wrestlers(kg: float, percent: float) -> float:
    return 100 * WRESTLER_ERROR_KG / kg


_JP, _SIRI, _BROZEK = "jackson_pollock_errors_recalled", "siri_1961", "brozek_recalled"
_MEN, _WOMEN = "jackson_pollock_men", "jackson_pollock_ward_women"
_TOTAL = "wrestler_equations_1991"
_SLAUGHTER = ("slaughter_pages", "slaughter_error_1993")

EQUATIONS: MappingProxyType[tuple[FatMethod, Sex], Equation] = MappingProxyType({
    (FatMethod.JACKSON_POLLOCK_THREE, Sex.MALE): Equation(
        "Jackson and Pollock, men, with Siri", (_S.CHEST, _S.ABDOMEN, _S.THIGH), (18, 61),
        _by_sum_and_age(density.body_density_jackson_pollock_three_men), _fixed(3.5),
        (_MEN, _SIRI, _JP),
    ),
    (FatMethod.JACKSON_POLLOCK_THREE, Sex.FEMALE): Equation(
        "Jackson, Pollock and Ward, women, with Siri", (_S.TRICEPS, _S.SUPRAILIAC, _S.THIGH),
        (18, 55), _by_sum_and_age(density.body_density_jackson_pollock_three_women), _fixed(3.9),
        (_WOMEN, _SIRI, _JP),
    ),
    (FatMethod.JACKSON_POLLOCK_SEVEN, Sex.MALE): Equation(
        "Jackson and Pollock, men, with Siri", SEVEN, (18, 61),
        _by_sum_and_age(density.body_density_jackson_pollock_seven_men), _fixed(3.5),
        (_MEN, _SIRI, _JP),
    ),
    (FatMethod.JACKSON_POLLOCK_SEVEN, Sex.FEMALE): Equation(
        "Jackson, Pollock and Ward, women, with Siri", SEVEN, (18, 55),
        _by_sum_and_age(density.body_density_jackson_pollock_seven_women), _fixed(3.9),
        (_WOMEN, _SIRI, _JP),
    ),
    (FatMethod.LOHMAN, Sex.MALE): Equation(
        "Lohman, high-school wrestlers, with Brozek",
        (_S.TRICEPS, _S.SUBSCAPULAR, _S.ABDOMEN), (14, 18),
        _by_sum(density.body_density_lohman_wrestlers), _wrestlers,
        ("lohman_wrestlers_recalled", _BROZEK, _TOTAL),
    ),
    (FatMethod.THORLAND, Sex.MALE): Equation(
        "Thorland, boys, with Brozek", (_S.TRICEPS, _S.SUBSCAPULAR, _S.MIDAXILLARY), (14, 18),
        _by_sum(density.body_density_thorland_three_boys), _wrestlers,
        ("thorland_recalled", _BROZEK, _TOTAL),
    ),
    (FatMethod.THORLAND, Sex.FEMALE): Equation(
        "Thorland, girls, with Brozek", (_S.TRICEPS, _S.SUBSCAPULAR, _S.SUPRAILIAC), (14, 18),
        _by_sum(density.body_density_thorland_three_girls), _wrestlers,
        ("thorland_recalled", _BROZEK, _TOTAL),
    ),
    (FatMethod.HOUSH, Sex.MALE): Equation(
        "Housh, wrestlers of about 11, with Brozek", (_S.TRICEPS, _S.SUPRAILIAC), (8, 13),
        _housh, _housh_error, ("housh_2000", _BROZEK),
    ),
    (FatMethod.SLAUGHTER, Sex.MALE): Equation(
        "Slaughter, boys", (_S.TRICEPS, _S.CALF), (8, 18),
        lambda folds, age, kg: fat.fat_percent_slaughter_calf_boys(sum(folds)),
        _fixed(SLAUGHTER_ERROR_PERCENT), _SLAUGHTER,
    ),
    (FatMethod.SLAUGHTER, Sex.FEMALE): Equation(
        "Slaughter, girls", (_S.TRICEPS, _S.CALF), (8, 18),
        lambda folds, age, kg: fat.fat_percent_slaughter_calf_girls(sum(folds)),
        _fixed(SLAUGHTER_ERROR_PERCENT), _SLAUGHTER,
    ),
})  # fmt: skip
"""Each with the people it was made from; ages 14 to 18 of the wrestlers are this program's."""

FLOORS: MappingProxyType[FatFloor, tuple[Sex, Decimal, str, str]] = MappingProxyType({
    FatFloor.COLLEGE_MEN: (
        Sex.MALE, Decimal(LEAST_FAT_PERCENT_OF["ncaa_men"]), "ncaa_weight_certification", "college"
    ),
    FatFloor.COLLEGE_WOMEN: (
        Sex.FEMALE, Decimal(LEAST_FAT_PERCENT_OF["ncaa_women"]), "wrestling_floors_recalled",
        "college",
    ),
    FatFloor.SCHOOL_BOYS: (
        Sex.MALE, Decimal(LEAST_FAT_PERCENT_OF["nfhs_boys"]), "texas_minimum_weight", "high school"
    ),
    FatFloor.SCHOOL_GIRLS: (
        Sex.FEMALE, Decimal(LEAST_FAT_PERCENT_OF["nfhs_girls"]), "texas_minimum_weight",
        "high school",
    ),
})  # fmt: skip
"""For whom, the least fat [%], its source, and whose limit of the urine goes with it."""


@dataclass(frozen=True)
class Assessed:
    """Body fat [%] with its error [% fat], the least allowed [%], and what both rest on."""

    percent: float
    error_percent: float
    least_percent: float
    words: str
    sources: tuple[str, ...]
    floor_source: str
    mass: Mass
    day: date

    @property
    def fat_free(self) -> float:
        """Fat-free mass in the unit of the mass."""
        return fat_free_mass(float(self.mass.amount), self.percent)

    @property
    def fat_free_error(self) -> float:
        """What it may be wrong by, in the same unit."""
        return float(self.mass.amount) * self.error_percent / 100


@dataclass(frozen=True)
class MinimumMass:
    """The minimum mass on a day, by body fat and by descent, in the unit of the assessment.

    ``by_descent`` is None under 18: there is no descent. ``error`` is what the error of the method
    makes of ``by_fat``; it is told and never given away.
    """

    by_fat: float
    by_descent: float | None
    error: float
    unit: MassUnit

    @property
    def value(self) -> float:
        """The higher of both."""
        return self.by_fat if self.by_descent is None else max(self.by_fat, self.by_descent)

    @property
    def is_by_descent(self) -> bool:
        """Whether the time that is left decides, and not body fat."""
        return self.by_descent is not None and self.by_descent > self.by_fat

    @property
    def kg(self) -> float:
        """The minimum in kilograms."""
        return self.value * float(KILOGRAMS_PER_POUND if self.unit is MassUnit.POUND else 1)


def equation_of(method: FatMethod, sex: Sex) -> Equation:
    """The equation of a method for a sex; InvalidInput where it was made for others."""
    found = EQUATIONS.get((method, sex))
    if found is None:
        raise InvalidInput(
            "method", f"{method.value} was not made for this sex", "Choose another method"
        )
    return found


def assess(content: BodyComposition, *, sex: Sex, age: int, day: date) -> Assessed:
    """What an assessment says; InvalidInput or OutsidePublishedRange where it may not be used."""
    of_sex, floor, floor_source, _ = FLOORS[content.floor]
    if of_sex is not sex:
        raise InvalidInput(
            "floor", f"{content.floor.value} is another sex", "Choose one of the athlete's sex"
        )
    is_school = content.floor in (FatFloor.SCHOOL_BOYS, FatFloor.SCHOOL_GIRLS)
    if age < 18 and not is_school:
        raise InvalidInput(
            "floor",
            f"{content.floor.value} is for grown people, the athlete is {age}",
            "Choose high school",
        )
    least = floor if content.least_fat_percent is None else content.least_fat_percent
    if least < floor:
        raise InvalidInput(
            "least_fat_percent",
            f"{least:g} % is looser than {floor} % ({content.floor.value})",
            f"Give {floor} % or more, or leave it out",
        )
    percent, error, words, sources = _fat(content, sex, age)
    return Assessed(
        percent, error, float(least), words, sources, floor_source, content.mass, day
    )  # fmt: skip


def _fat(content: BodyComposition, sex: Sex, age: int) -> tuple[float, float, str, tuple[str, ...]]:
    if content.measured_percent is not None and content.error_percent is not None:
        return content.measured_percent, content.error_percent, content.method.value, ()
    equation = equation_of(content.method, sex)
    low, high = equation.ages
    if not low <= age <= high:
        raise InvalidInput(
            "method",
            f"{equation.words} was made for ages {low} to {high}, the athlete is {age}",
            "Choose another method",
        )
    read = {fold.site: fold.millimetres for fold in content.folds}
    if set(read) != set(equation.sites):
        raise InvalidInput(
            "folds",
            f"{equation.words} takes {', '.join(site.value for site in equation.sites)}",
            "Give exactly these",
        )
    folds, kg = tuple(read[site] for site in equation.sites), content.mass.kg
    percent = equation.percent(folds, age, kg)
    return percent, equation.error(kg, percent), equation.words, equation.sources


def minimum_mass(assessed: Assessed, on: date, *, is_minor: bool) -> MinimumMass:
    """The minimum mass on a day: the higher of the two lowest weights.

    After a year the descent reaches below any floor of body fat, so later weeks change nothing.
    """
    mass = float(assessed.mass.amount)
    weeks = min(HIGHEST_WEEKS, max(0, (on - assessed.day).days) / WEEK_DAYS)
    return MinimumMass(
        by_fat=lowest_weight_by_fat(mass, assessed.percent, assessed.least_percent),
        by_descent=None if is_minor else lowest_weight_by_descent(mass, weeks),
        error=assessed.fat_free_error / (1 - assessed.least_percent / 100),
        unit=assessed.mass.unit,
    )
