"""The list of weigh-in and gate cases: each of the 31 is held by a test, which stands here by name.

A case that loses its test, or a test that is renamed, fails here.
"""

import re
from pathlib import Path

import pytest

TESTS = Path(__file__).parent
MASS, SCALES = "planning/gates/test_mass_gates.py", "library/test_weigh_ins.py"
COURSE, DAILY = "planning/gates/test_concussion_course.py", "planning/gates/test_daily_gates.py"
GATE, SITE = "planning/gates/test_gate.py", "web/test_composition.py"
COMPOSED, WEIGHED = "planning/test_composition.py", "services/test_body_mass.py"
BY_HAND, MEANS = "formulas/test_body_mass.py", "planning/gates/test_means_gate.py"
MEASURED, ENTERED = "planning/gates/test_measures.py", "web/test_measures.py"
SUSPENDED, HEAT = "planning/gates/test_suspensions.py", "planning/gates/test_heat_and_young.py"
FAT, ROWS = "formulas/test_body_composition.py", "formulas/test_published_rows.py"
IN_ITS_ROW = (ROWS, "a_formula_gives_the_value_in_its_row")

CASES: dict[int, tuple[tuple[str, str], ...]] = {
    1: ((COMPOSED, "cases_1_and_2_"), (BY_HAND, "case_1_")),
    2: ((COMPOSED, "cases_1_and_2_"), (BY_HAND, "case_2_")),
    3: ((MASS, "cases_3_and_4_"), (SITE, "what_cannot_be_used_stays_in_the_form")),
    4: ((MASS, "cases_3_and_4_"), (SITE, "case_4_")),
    5: ((MASS, "case_5_"),),
    6: ((MASS, "case_6_"),),
    7: ((SCALES, "case_7_"), (WEIGHED, "a_reading_of_the_weighing_day_is_judged")),
    8: ((MASS, "case_8_"), (WEIGHED, "once_weighed_nothing_is_to_lose")),
    9: ((SCALES, "case_9_"), (WEIGHED, "a_reading_of_the_weighing_day_is_judged")),
    10: ((SCALES, "case_10_"), (WEIGHED, "a_second_weigh_in_is_judged")),
    11: ((SCALES, "case_11_"), (WEIGHED, "a_reading_of_the_weighing_day_is_judged")),
    12: ((MEANS, "case_12_"), (WEIGHED, "case_12_")),
    13: ((DAILY, "case_13_"), (ENTERED, "case_13_")),
    14: ((BY_HAND, "case_14_"), (ENTERED, "case_14_")),
    15: ((HEAT, "case_15_"), (GATE, "case_15_")),
    16: ((COURSE, "case_16_"), (GATE, "case_16_and_18_")),
    17: ((COURSE, "case_17_"), (GATE, "case_17_")),
    18: ((COURSE, "case_18_"), (GATE, "case_18_")),
    19: ((COURSE, "case_19_"), (GATE, "case_19_")),
    20: ((SUSPENDED, "case_20_"), (GATE, "case_20_")),
    21: ((DAILY, "case_21_"), (GATE, "case_21_")),
    22: ((DAILY, "cases_21_and_22_"), (GATE, "case_22_")),
    23: ((DAILY, "case_23_"), (GATE, "case_23_"), (MEASURED, "case_23_")),
    24: ((DAILY, "case_24_"), (GATE, "case_24_")),
    25: (IN_ITS_ROW, (FAT, "density_becomes_fat_by_two_equations")),
    26: (IN_ITS_ROW, (FAT, "the_changed_digits_for_women_are_not_used")),
    27: ((FAT, "the_misprinted_constant_for_wrestlers_would_let_fat_fall"),),
    28: (IN_ITS_ROW,),
    29: ((DAILY, "case_29_"), (GATE, "case_29_")),
    30: (("web/test_records.py", "the_record_of_one_athlete_names_nobody_else"),),
    31: (("services/test_data_in.py", "an_old_backup_does_not_bring_an_erased_athlete_back"),),
}


@pytest.mark.parametrize("number", range(1, 32))
def test_each_case_of_the_list_has_a_test_of_its_own(number: int) -> None:
    for file, name in CASES[number]:
        text = (TESTS / file).read_text(encoding="utf-8")
        assert re.search(rf"^def test_{name}", text, re.M), f"{file}: test_{name}"


@pytest.mark.parametrize("number", [25, 26, 28])
def test_a_case_that_is_a_row_says_its_number(number: int) -> None:
    rows = [path.read_text(encoding="utf-8") for path in (TESTS / "published").glob("*.csv")]
    assert any(f",case {number}," in text for text in rows)
