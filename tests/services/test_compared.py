"""What follows from a result, and where it lies among others: never among people he is none of.

Checks by hand from the published equations and the printed bands, each with its mark.
"""

from dataclasses import replace
from datetime import date, timedelta

import pytest

from squadwright.formulas.measured import Measured
from squadwright.library.fitness_tests import fitness_test, fitness_tests
from squadwright.library.test_columns import shown_unit
from squadwright.model.athlete import Athlete, Level, MassReading, Sex
from squadwright.model.diary import TestResult
from squadwright.services.test_compared import (
    MASS_DAYS,
    READINGS,
    BesideOthers,
    WorkedOut,
    beside_others,
    worked_out,
)
from squadwright.services.test_results import Result
from squadwright.units import kilograms

DAY = date(2026, 3, 2)
MAN = Athlete(
    "m", "Man", date(2001, 1, 1), Sex.MALE, Level.NOVICE, "judo",
    body_mass=(MassReading(kilograms(81), DAY - timedelta(days=3)),),
)  # fmt: skip
WOMAN = replace(MAN, id="w", sex=Sex.FEMALE)
BOY = replace(MAN, id="b", birth_date=date(2012, 1, 1))


def result(
    test_id: str, value: float, *, method: str = "", attempts: tuple[float, ...] = ()
) -> Result:
    test = fitness_test(test_id)
    how, unit = method or test.methods[0], shown_unit(test)
    content = TestResult(test_id, value, unit, how, attempts)
    measured = Measured(test.quantity, value, unit, how)
    return Result("m", test_id, DAY, measured, f"{value:g} {unit}", "e", content)


def numbers(athlete: Athlete, found: Result) -> dict[str, WorkedOut]:
    made = worked_out(fitness_test(found.test), athlete, found)
    return {each.words: each for each in made}


def bands(athlete: Athlete, found: Result) -> list[BesideOthers]:
    return list(beside_others(fitness_test(found.test), athlete, found))


def test_oxygen_from_the_shuttle_is_by_age_and_has_its_error() -> None:
    """Leger and Gadoury 1989 (abstract read): 13 km/h gives 50.6, Syx 4.4; age 14 at 12 km/h
    gives 50.214 by the equation for all ages (memory)."""
    (grown,) = numbers(MAN, result("shuttle_20_m", 13)).values()
    assert (grown.value, grown.error) == (pytest.approx(50.6), 4.4)
    assert "Leger and Gadoury 1989, read" in grown.sources
    (young,) = numbers(BOY, result("shuttle_20_m", 12)).values()
    assert young.value == pytest.approx(50.214, abs=0.0005)
    assert "memory" in young.sources[0]


def test_oxygen_from_the_step_is_by_sex_and_says_that_it_has_no_error() -> None:
    """Queens step (page read): 132 gives 55.89 for men, 148 gives 38.474 for women."""
    (man,) = numbers(MAN, result("queens_step", 132)).values()
    (woman,) = numbers(WOMAN, result("queens_step", 148)).values()
    assert (man.value, man.error) == (pytest.approx(55.89), None)
    assert woman.value == pytest.approx(38.474, abs=0.0005)


def test_grip_is_scaled_by_body_mass_of_those_days() -> None:
    """Kons 2020 (read) and calc: 55 kgf at 81 kg is 2.7707 to the power 0.68, 0.6790 a kg."""
    found = numbers(MAN, result("grip_strength", 55))
    assert found["scaled by body mass to the power 0.68"].value == pytest.approx(2.7707, abs=5e-5)
    assert found["for each kg"].value == pytest.approx(0.6790, abs=5e-5)
    old = replace(MAN, body_mass=(MassReading(kilograms(81), DAY - timedelta(days=MASS_DAYS + 1)),))
    for each in numbers(old, result("grip_strength", 55)).values():
        assert each.value is None
        assert "no body mass within 28 days" in each.why_not
    assert bands(old, result("grip_strength", 55)) == []


def test_a_number_outside_the_published_range_says_why_it_is_not_given() -> None:
    (found,) = numbers(MAN, result("shuttle_20_m", 20)).values()
    assert found.value is None
    assert "18.5" in found.why_not


def test_a_result_lies_in_the_band_that_is_printed_for_people_like_him() -> None:
    """Branco 2018 (read): 55 kgf at 81 kg is 0.68, very poor among 102 male judoka."""
    (found,) = bands(MAN, result("grip_strength", 55))
    assert (found.band, found.table.people) == ("very poor", "102 male judoka")
    assert bands(WOMAN, result("grip_strength", 55)) == []


def test_what_was_written_at_the_judo_test_has_four_bands_and_a_boy_none() -> None:
    """Franchini 2009 (cut-offs from memory): 27 throws, 178 and 152, index 12.2222: good."""
    shown = result("special_judo_fitness_test", 12.2222, attempts=(27, 178, 152))
    assert [each.band for each in bands(MAN, shown)] == ["good"] * 4
    assert bands(BOY, shown) == []
    without = replace(shown, content=None)
    assert [each.table.measure for each in bands(MAN, without)] == ["index"]


def test_a_throw_is_compared_by_its_own_ball_and_age() -> None:
    """Printed in inches (abstract read): 5.70 m is 224.4 in, above the median of men."""
    by_six = result("seated_chest_throw", 5.70, method="6 lb ball, 45 degree bench, tape")
    (found,) = bands(MAN, by_six)
    assert found.value == pytest.approx(224.41, abs=0.005)
    assert found.band == "median to the 75th percentile"
    assert bands(MAN, result("seated_chest_throw", 5.70)) == []
    young = bands(BOY, result("seated_chest_throw", 5.2))
    assert [each.table.people for each in young] == ["boys of 14 and 15, 5.2 m give or take 0.8"]


def test_every_table_can_be_reached_by_some_result() -> None:
    """A table whose measure nothing works out would never be shown."""
    for test in fitness_tests():
        for table in test.bands:
            sex, age = table.sex or Sex.MALE, table.youngest or 20
            who = replace(MAN, sex=sex, birth_date=date(DAY.year - age, 1, 1))
            method = table.methods[0] if table.methods else ""
            shown = result(test.id, 20.0, method=method, attempts=(20.0,) * len(READINGS))
            assert any(each.table is table for each in bands(who, shown)), (test.id, table.people)
