"""Body fat and minimum mass from an assessment; cases are those of the list of gate cases."""

from datetime import date, timedelta

import pytest

from squadwright.errors import InvalidInput, OutsidePublishedRange
from squadwright.formulas.body_fat import fat_percent_siri
from squadwright.model.athlete import Sex
from squadwright.model.composition import FatFloor, FatMethod, FoldSite, SkinFold
from squadwright.model.diary import BodyComposition
from squadwright.model.plan import Severity
from squadwright.planning.composition import (
    EQUATIONS,
    FLOORS,
    assess,
    equation_of,
    minimum_mass,
)
from squadwright.planning.gates import mass
from squadwright.planning.gates.subject import Subject
from squadwright.units import Mass, kilograms, pounds

DAY = date(2026, 3, 2)
GROWN, MINOR = Subject("ana", "Ana", 24), Subject("ben", "Ben", 16)


def by_air(weight: Mass, percent: float, floor: FatFloor, **more: float) -> BodyComposition:
    """An instrument that gave a percent, 2 % off."""
    return BodyComposition(
        FatMethod.AIR, weight, "Nurse", "L1", floor,
        measured_percent=percent, error_percent=2.0, **more,  # type: ignore[arg-type]
    )  # fmt: skip


def by_folds(method: FatMethod, floor: FatFloor, *millimetres: float) -> BodyComposition:
    sex = FLOORS[floor][0]
    sites = EQUATIONS[method, sex].sites
    folds = tuple(SkinFold(s, mm) for s, mm in zip(sites, millimetres, strict=True))
    return BodyComposition(method, kilograms(60), "Nurse", "L1", floor, folds)


@pytest.mark.parametrize(
    ("weight", "fat", "floor", "weeks", "minimum", "is_by_descent"),
    [
        (168, 12, FatFloor.COLLEGE_MEN, 8, 155.621, False),
        (180, 18, FatFloor.COLLEGE_MEN, 8, 158.40, True),
        (180, 16, FatFloor.COLLEGE_MEN, 10, 159.158, False),
    ],
)
def test_cases_1_and_2_a_minimum_weight(
    weight: int, fat: float, floor: FatFloor, weeks: int, minimum: float, is_by_descent: bool
) -> None:
    """Cases 1 and 2 (second hand and calc): the higher of body fat and descent, in pounds."""
    found = assess(by_air(pounds(weight), fat, floor), sex=Sex.MALE, age=20, day=DAY)
    least = minimum_mass(found, DAY + timedelta(weeks=weeks), is_minor=False)
    assert least.value == pytest.approx(minimum, abs=0.0005)
    assert least.is_by_descent is is_by_descent


@pytest.mark.parametrize(
    ("weight", "fat", "floor", "sex", "minimum"),
    [
        (140, 13, FatFloor.SCHOOL_BOYS, Sex.MALE, 130.968),
        (125, 20, FatFloor.SCHOOL_GIRLS, Sex.FEMALE, 113.636),
    ],
)
def test_a_minor_has_a_minimum_by_body_fat_and_no_descent(
    weight: int, fat: float, floor: FatFloor, sex: Sex, minimum: float
) -> None:
    """Calc from the floors of high schools (second hand)."""
    found = assess(by_air(pounds(weight), fat, floor), sex=sex, age=16, day=DAY)
    least = minimum_mass(found, DAY + timedelta(weeks=30), is_minor=True)
    assert least.by_descent is None
    assert least.value == pytest.approx(minimum, abs=0.0005)


def test_the_error_of_the_method_is_carried_to_the_minimum() -> None:
    """By hand: 2 % of 168 lb is 3.36 lb without fat, over 0.95 is 3.537 lb."""
    found = assess(by_air(pounds(168), 12, FatFloor.COLLEGE_MEN), sex=Sex.MALE, age=20, day=DAY)
    assert found.fat_free_error == pytest.approx(3.36)
    assert minimum_mass(found, DAY, is_minor=False).error == pytest.approx(3.5368, abs=0.0001)


@pytest.mark.parametrize(
    ("method", "floor", "age", "folds", "percent"),
    [
        (FatMethod.JACKSON_POLLOCK_THREE, FatFloor.COLLEGE_MEN, 25, (10, 10, 10), 8.51),
        (FatMethod.JACKSON_POLLOCK_THREE, FatFloor.COLLEGE_WOMEN, 25, (15, 15, 15), 18.75),
        (FatMethod.JACKSON_POLLOCK_SEVEN, FatFloor.COLLEGE_MEN, 25, (10,) * 7, 9.59),
        (FatMethod.LOHMAN, FatFloor.SCHOOL_BOYS, 16, (7, 8, 10), 9.60),
        (FatMethod.THORLAND, FatFloor.SCHOOL_BOYS, 16, (7, 8, 10), 9.61),
        (FatMethod.THORLAND, FatFloor.SCHOOL_GIRLS, 16, (10, 10, 15), 17.25),
        (FatMethod.SLAUGHTER, FatFloor.SCHOOL_BOYS, 14, (12, 8), 15.7),
        (FatMethod.SLAUGHTER, FatFloor.SCHOOL_GIRLS, 14, (12, 8), 17.3),
    ],
)
def test_folds_give_the_percent_worked_out_by_hand(
    method: FatMethod, floor: FatFloor, age: int, folds: tuple[float, ...], percent: float
) -> None:
    """Calc from each equation (its mark in the sources), Siri for the grown, else Brozek."""
    found = assess(by_folds(method, floor, *folds), sex=FLOORS[floor][0], age=age, day=DAY)
    assert found.percent == pytest.approx(percent, abs=0.005)
    assert found.error_percent > 0
    assert found.sources


def test_the_error_of_wrestlers_is_a_mass_and_that_of_housh_a_density() -> None:
    """2.59 kg of 60 kg (read, abstract of 1991); 0.0064 g/mL (second hand) through Brozek."""
    lohman = by_folds(FatMethod.LOHMAN, FatFloor.SCHOOL_BOYS, 7, 8, 10)
    found = assess(lohman, sex=Sex.MALE, age=16, day=DAY)
    assert found.fat_free_error == pytest.approx(2.59)
    content = by_folds(FatMethod.HOUSH, FatFloor.SCHOOL_BOYS, 8, 5)
    found = assess(content, sex=Sex.MALE, age=11, day=DAY)
    steps = [457 / d - 414.2 for d in (1.0700, 1.0700 + 0.0064)]
    assert found.error_percent == pytest.approx(steps[0] - steps[1], rel=0.05)


def test_more_folds_never_mean_a_lower_percent() -> None:
    for (method, sex), equation in EQUATIONS.items():
        floor = next(f for f, row in FLOORS.items() if row[0] is sex and row[3] == "high school")
        percents = []
        for mm in (7, 10, 13, 16):
            content = by_folds(method, floor, *[mm] * len(equation.sites))
            percents.append(assess(content, sex=sex, age=equation.ages[1], day=DAY).percent)
        assert percents == sorted(percents), method


@pytest.mark.parametrize(
    ("content", "sex", "age", "words"),
    [
        (by_air(kilograms(60), 12, FatFloor.COLLEGE_MEN), Sex.FEMALE, 20, "another sex"),
        (by_air(kilograms(60), 12, FatFloor.COLLEGE_MEN), Sex.MALE, 17, "for grown people"),
        (
            by_air(kilograms(60), 12, FatFloor.SCHOOL_BOYS, least_fat_percent=6.9),
            Sex.MALE, 17, "looser than 7 %",
        ),
        (by_folds(FatMethod.LOHMAN, FatFloor.SCHOOL_BOYS, 7, 8, 10), Sex.MALE, 19, "ages 14 to 18"),
        (
            BodyComposition(
                FatMethod.LOHMAN, kilograms(60), "Nurse", "L1", FatFloor.SCHOOL_BOYS,
                (SkinFold(FoldSite.CALF, 7),),
            ),
            Sex.MALE, 16, "takes triceps, subscapular, abdomen",
        ),
        (by_folds(FatMethod.THORLAND, FatFloor.SCHOOL_GIRLS, 7, 8, 10), Sex.MALE, 16, "sex"),
    ],
)  # fmt: skip
def test_an_assessment_that_does_not_fit_is_refused_and_says_why(
    content: BodyComposition, sex: Sex, age: int, words: str
) -> None:
    with pytest.raises(InvalidInput, match=words):
        assess(content, sex=sex, age=age, day=DAY)


def test_folds_that_cannot_be_believed_are_refused() -> None:
    content = by_folds(FatMethod.JACKSON_POLLOCK_THREE, FatFloor.COLLEGE_MEN, 3, 3, 3)
    with pytest.raises(OutsidePublishedRange):
        assess(content, sex=Sex.MALE, age=20, day=DAY)
    with pytest.raises(OutsidePublishedRange):
        fat_percent_siri(1.10)


@pytest.mark.parametrize(
    ("method", "folds", "percent", "error", "words"),
    [
        (FatMethod.AIR, (), None, 2.0, "gives a percent"),
        (FatMethod.AIR, (), 12.0, None, "has an error"),
        (FatMethod.LOHMAN, (), None, None, "takes folds alone"),
        (FatMethod.LOHMAN, (SkinFold(FoldSite.CALF, 7),) * 2, None, None, "stands there twice"),
        (FatMethod.AIR, (SkinFold(FoldSite.CALF, 7),), 12.0, 2.0, "no folds"),
    ],
)
def test_an_instrument_gives_a_percent_and_an_equation_takes_folds(
    method: FatMethod,
    folds: tuple[SkinFold, ...],
    percent: float | None,
    error: float | None,
    words: str,
) -> None:
    with pytest.raises(InvalidInput, match=words):
        BodyComposition(
            method, kilograms(60), "Nurse", "L1", FatFloor.SCHOOL_BOYS, folds, percent, error
        )


def test_a_class_below_the_minimum_is_refused_and_exactly_the_minimum_is_not() -> None:
    assert mass.class_below_minimum(GROWN, kilograms(57), 57.0, "57.0 kg", source_key=KEY) is None
    found = mass.class_below_minimum(GROWN, kilograms(57), 57.01, "57.1 kg", source_key=KEY)
    assert found is not None
    assert found.severity is Severity.STOP
    assert found.sentence == "Ana: the class of 57 kg is below the athlete's minimum of 57.1 kg."
    assert "a later event" in found.advice
    young = mass.class_below_minimum(MINOR, kilograms(57), 57.01, "57.1 kg", source_key=KEY)
    assert young is not None
    assert "later" not in young.advice


KEY = "ncaa_weight_certification"


@pytest.mark.parametrize(("method", "sex"), EQUATIONS, ids=str)
def test_an_equation_is_for_the_ages_of_the_people_it_was_made_from(
    method: FatMethod, sex: Sex
) -> None:
    """Both ends are in, a year outside is refused; grown people have a floor of their own."""
    equation = EQUATIONS[method, sex]
    college, school = {
        Sex.MALE: (FatFloor.COLLEGE_MEN, FatFloor.SCHOOL_BOYS),
        Sex.FEMALE: (FatFloor.COLLEGE_WOMEN, FatFloor.SCHOOL_GIRLS),
    }[sex]
    low, high = equation.ages
    folds = [10.0] * len(equation.sites)
    for age, is_for in ((low - 1, False), (low, True), (high, True), (high + 1, False)):
        content = by_folds(method, college if age >= 18 else school, *folds)
        if is_for:
            assert assess(content, sex=sex, age=age, day=DAY).percent > 0
        else:
            with pytest.raises(InvalidInput, match=f"was made for ages {low} to {high}"):
                assess(content, sex=sex, age=age, day=DAY)


@pytest.mark.parametrize(
    ("floor", "age", "least", "is_taken"),
    [
        (FatFloor.COLLEGE_MEN, 18, None, True),
        (FatFloor.COLLEGE_MEN, 17, None, False),
        (FatFloor.SCHOOL_BOYS, 17, None, True),
        (FatFloor.COLLEGE_MEN, 20, 5.0, True),
        (FatFloor.COLLEGE_MEN, 20, 4.9, False),
        (FatFloor.COLLEGE_MEN, 20, 8.0, True),
    ],
)
def test_a_floor_is_for_its_age_and_may_only_be_made_stricter(
    floor: FatFloor, age: int, least: float | None, is_taken: bool
) -> None:
    """5 % for college men (NCAA)."""
    more = {} if least is None else {"least_fat_percent": least}
    content = by_air(kilograms(80), 12, floor, **more)
    if not is_taken:
        with pytest.raises(InvalidInput):
            assess(content, sex=Sex.MALE, age=age, day=DAY)
        return
    found = assess(content, sex=Sex.MALE, age=age, day=DAY)
    assert found.least_percent == (least or float(FLOORS[floor][1]))


def test_the_descent_counts_days_from_the_assessment_and_no_more_than_a_year() -> None:
    """1.5 % a week of the mass then: after 2 weeks 97.0 % of 80 kg; before it, all of it."""
    found = assess(by_air(kilograms(80), 30, FatFloor.COLLEGE_MEN), sex=Sex.MALE, age=20, day=DAY)
    by_days = {
        days: minimum_mass(found, DAY + timedelta(days=days), is_minor=False).by_descent
        for days in (-7, 0, 14, 364, 400)
    }
    assert by_days[-7] == by_days[0] == pytest.approx(80.0)
    assert by_days[14] == pytest.approx(80 * 0.97)
    assert by_days[364] == by_days[400]
    assert minimum_mass(found, DAY, is_minor=True).by_descent is None


@pytest.mark.parametrize("method", [FatMethod.LOHMAN, FatMethod.HOUSH])
def test_an_equation_of_boys_or_men_is_not_for_women(method: FatMethod) -> None:
    with pytest.raises(InvalidInput, match=f"method: {method.value} was not made for this sex"):
        equation_of(method, Sex.FEMALE)
    assert equation_of(method, Sex.MALE) is EQUATIONS[method, Sex.MALE]
