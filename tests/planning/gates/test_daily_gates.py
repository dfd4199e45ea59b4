"""Clearance before training, pain, illness, energy, first weeks, private limits."""

from datetime import UTC, date, datetime
from decimal import Decimal

import pytest

from squadwright.errors import InvalidInput
from squadwright.model.measured import NextMorning, WeekTrend
from squadwright.model.medical import Outcome, Screening, Sign
from squadwright.model.plan import Finding, Severity
from squadwright.planning.gates.activity import a_year_after, clearance_needed
from squadwright.planning.gates.energy import (
    Band,
    energy_availability_gate,
    energy_band,
    least_of_foods,
)
from squadwright.planning.gates.first_weeks import (
    sessions_of_a_week,
    share_of_conditioning,
    work_of_an_exercise,
)
from squadwright.planning.gates.illness import earliest_after, illness
from squadwright.planning.gates.pain import Action, pain_under_load
from squadwright.planning.gates.subject import Subject
from squadwright.units import kilograms

ANA = Subject("ana", "Ana", 24)
DAY = date(2025, 3, 1)


def severity(item: Finding | None) -> Severity | None:
    return None if item is None else item.severity


@pytest.mark.parametrize(
    ("active", "disease", "symptoms", "hard", "expected"),
    [
        (True, False, False, True, None),
        (True, True, False, False, None),
        (True, True, False, True, Severity.STOP),
        (True, False, True, False, Severity.STOP),
        (True, True, True, True, Severity.STOP),
        (False, False, False, True, Severity.NOTE),
        (False, True, False, False, Severity.STOP),
        (False, False, True, False, Severity.STOP),
    ],
)
def test_cases_21_and_22_the_table_of_clearances(
    active: bool, disease: bool, symptoms: bool, hard: bool, expected: Severity | None
) -> None:
    """Cases 21 and 22: the inputs were read (2015), the results are from memory."""
    found = clearance_needed(
        ANA,
        DAY,
        is_active=active,
        has_disease=disease,
        has_symptoms=symptoms,
        is_hard=hard,
    )
    assert severity(found) is expected
    if expected is Severity.NOTE:
        assert found is not None
        assert "light to moderate" in found.advice


@pytest.mark.parametrize(
    ("cleared_on", "is_enough"), [(date(2024, 3, 1), True), (date(2024, 2, 29), False), (DAY, True)]
)
def test_case_21_a_clearance_counts_for_twelve_months(cleared_on: date, is_enough: bool) -> None:
    found = clearance_needed(
        ANA,
        DAY,
        is_active=True,
        has_disease=True,
        has_symptoms=False,
        is_hard=True,
        cleared_on=cleared_on,
    )
    assert (found is None) is is_enough
    if found is not None:
        assert "within 12 months" in found.sentence


def test_symptoms_stop_whatever_was_cleared() -> None:
    found = clearance_needed(
        ANA,
        DAY,
        is_active=True,
        has_disease=True,
        has_symptoms=True,
        is_hard=False,
        cleared_on=DAY,
    )
    assert severity(found) is Severity.STOP


def test_a_year_after_the_29th_of_february_ends_with_the_month() -> None:
    assert a_year_after(date(2024, 2, 29)) == date(2025, 2, 28)
    assert a_year_after(date(2024, 12, 31), months=2) == date(2025, 2, 28)
    with pytest.raises(InvalidInput, match="is after"):
        clearance_needed(
            ANA,
            DAY,
            is_active=True,
            has_disease=True,
            has_symptoms=False,
            is_hard=True,
            cleared_on=date(2025, 3, 2),
        )


def test_a_screening_form_runs_out() -> None:
    form = Screening("form of the club", 2025, DAY, Outcome.CLEARED, a_year_after(DAY))
    assert form.holds_on(date(2026, 3, 1))
    assert not form.holds_on(date(2026, 3, 2))
    refer = Screening("form of the club", 2025, DAY, Outcome.REFER, a_year_after(DAY))
    assert not refer.holds_on(DAY)


@pytest.mark.parametrize(
    ("during", "after", "morning", "week", "action"),
    [
        (2, 2, NextMorning.SAME, WeekTrend.FLAT, Action.KEEP_OR_RAISE),
        (4, 3, NextMorning.SAME, WeekTrend.FLAT, Action.KEEP),
        (4, 4, NextMorning.WORSE, WeekTrend.FLAT, Action.REDUCE),
        (6, None, None, None, Action.STOP_AND_REFER),
        (3, 3, NextMorning.SAME, WeekTrend.RISING, Action.REDUCE_AND_REFER),
        (5, 5, NextMorning.SAME, WeekTrend.FLAT, Action.KEEP),
        (2, 6, NextMorning.SAME, WeekTrend.FLAT, Action.STOP_AND_REFER),
        (0, 0, NextMorning.WORSE, WeekTrend.FLAT, Action.REDUCE),
    ],
)
def test_case_23_pain_under_load(
    during: int,
    after: int | None,
    morning: NextMorning | None,
    week: WeekTrend | None,
    action: Action,
) -> None:
    """Case 23 and the table of pain (borders from memory)."""
    answer = pain_under_load(ANA, during, after, morning, week)
    assert answer.action is action
    assert (severity(answer.finding) is Severity.STOP) == (action is Action.STOP_AND_REFER)


def test_pain_that_the_scale_is_not_for_is_referred() -> None:
    answer = pain_under_load(ANA, 1, is_for_a_clinician=True)
    assert answer.action is Action.STOP_AND_REFER
    with pytest.raises(InvalidInput, match="during: 11 is not 0 to 10"):
        pain_under_load(ANA, 11)


def test_case_24_fever_with_a_sore_throat() -> None:
    """Case 24: 38.1 degC (border from memory), 24 h after it is gone (read)."""
    answer = illness(ANA, {Sign.SORE_THROAT}, temperature_c=Decimal("38.1"))
    assert not answer.may_train
    assert answer.finding is not None
    assert "fever of 38.1 degC, sore throat: no training" in answer.finding.sentence
    assert answer.finding.limit == 38.0
    gone = datetime(2025, 3, 2, 7, 0, tzinfo=UTC)
    assert earliest_after(gone) == datetime(2025, 3, 3, 7, 0, tzinfo=UTC)


@pytest.mark.parametrize(
    ("signs", "temperature", "may_train", "half"),
    [
        ((), None, True, False),
        ((Sign.SORE_THROAT, Sign.RUNNY_NOSE), "37.2", True, True),
        ((Sign.SORE_THROAT,), "38.0", False, False),
        ((Sign.RUNNY_NOSE, Sign.MUSCLE_ACHE), None, False, False),
        ((Sign.CHEST_COUGH,), None, False, False),
        ((Sign.VOMITING,), None, False, False),
        ((Sign.DIARRHOEA,), None, False, False),
        ((Sign.CHEST_PAIN,), None, False, False),
        ((Sign.SKIN_INFECTION,), None, False, False),
        ((Sign.GLANDULAR_FEVER,), None, False, False),
    ],
)
def test_above_and_below_the_neck(
    signs: tuple[Sign, ...], temperature: str | None, may_train: bool, half: bool
) -> None:
    """Above the neck read (physicaleducationupdate.com), below read (activekidmd.com)."""
    value = None if temperature is None else Decimal(temperature)
    answer = illness(ANA, signs, temperature_c=value)
    assert (answer.may_train, answer.at_half_effort) == (may_train, half)


@pytest.mark.parametrize(
    "sign", [Sign.CHEST_PAIN, Sign.PALPITATIONS, Sign.BREATHLESS, Sign.FAINTING]
)
def test_signs_of_the_heart_are_for_a_doctor_first(sign: Sign) -> None:
    """Read (2017 paper on infection and the heart)."""
    answer = illness(ANA, {sign, Sign.RUNNY_NOSE})
    assert answer.finding is not None
    assert "A doctor looks at it before anything else" in answer.finding.advice


def test_a_temperature_in_fahrenheit_is_refused() -> None:
    with pytest.raises(InvalidInput, match=r"100\.6 is not 30 to 45"):
        illness(ANA, (), temperature_c=Decimal("100.6"))


@pytest.mark.parametrize(
    ("eaten", "spent", "fat_free", "value", "band", "expected"),
    [
        (3300, 600, 60, 45.0, Band.ADEQUATE, None),
        (2600, 600, 60, 33.333, Band.REDUCED, Severity.NOTE),
        (2400, 600, 60, 30.0, Band.REDUCED, Severity.NOTE),
        (2100, 700, 55, 25.455, Band.LOW, Severity.WARNING),
    ],
)
def test_case_13_energy_availability(
    eaten: int,
    spent: int,
    fat_free: int,
    value: float,
    band: Band,
    expected: Severity | None,
) -> None:
    """Case 13 (bands read, 2023; calc). The borders belong to the upper band."""
    given = (Decimal(eaten), Decimal(spent), Decimal(fat_free))
    found_value, found_band = energy_band(*given)
    assert float(found_value) == pytest.approx(value, abs=0.0005)
    assert found_band is band
    found = energy_availability_gate(ANA, *given)
    assert severity(found) is expected
    if band is Band.LOW:
        assert found is not None
        assert "doctor or a sports dietitian" in found.advice


def test_without_fat_free_mass_there_is_no_energy_availability() -> None:
    with pytest.raises(InvalidInput, match="fat_free_kg: 0 is not above 0"):
        energy_band(Decimal(2100), Decimal(700), Decimal(0))


def test_least_of_each_food() -> None:
    """Read (abstract 2025): 3, 1.2 and 0.5 g/kg/day are the lower ends."""
    grams = {"carbohydrate": Decimal(210), "protein": Decimal(84), "fat": Decimal(35)}
    assert least_of_foods(ANA, kilograms(70), grams) == ()
    less = {name: value - Decimal("0.1") for name, value in grams.items()}
    found = least_of_foods(ANA, kilograms(70), less)
    assert [item.limit for item in found] == [3.0, 1.2, 0.5]
    (one,) = least_of_foods(ANA, kilograms(70), {"protein": less["protein"]})
    assert one.limit == 1.2


def test_case_29_work_of_one_exercise_in_the_first_weeks() -> None:
    """Case 29 (memory): 21.0 is within 30, 32.5 is over."""
    assert work_of_an_exercise(ANA, 3, 10, Decimal("0.70")) is None
    assert work_of_an_exercise(ANA, 5, 10, Decimal("0.60")) is None
    over = work_of_an_exercise(ANA, 5, 10, Decimal("0.65"))
    assert over is not None
    assert over.value == pytest.approx(32.5)
    assert "5 x 10 at 65% is 32.50, more than 30" in over.sentence


def test_the_first_weeks_hold_less_work_and_fewer_sessions() -> None:
    """Memory: 50, 30, 20, 10 % less for newcomers, 50, 30 for those who come back."""
    newcomer = [share_of_conditioning(week, is_newcomer=True) for week in range(1, 6)]
    assert newcomer == [Decimal(share) for share in ("0.5", "0.7", "0.8", "0.9", "1")]
    back = [share_of_conditioning(week, is_newcomer=False) for week in range(1, 4)]
    assert back == [Decimal(share) for share in ("0.5", "0.7", "1")]
    assert sessions_of_a_week(ANA, 1, 3) is None
    assert sessions_of_a_week(ANA, 1, 4) is not None
    assert sessions_of_a_week(ANA, 2, 4) is None
    assert sessions_of_a_week(ANA, 2, 5) is not None
    assert sessions_of_a_week(ANA, 3, 9) is None
