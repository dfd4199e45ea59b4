"""Graded return after a concussion: hours that passed, clearance before step 4, symptoms.

24 hours a step is second hand (table of 2017); clearance before step 4 and the steps come from
pages on the consensus of 2022; what returns after symptoms is from memory.
"""

from dataclasses import replace
from datetime import UTC, date, datetime, timedelta
from decimal import Decimal
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given
from hypothesis import strategies as st

from squadwright.errors import InvalidInput, NotAllowed
from squadwright.model.exercise import Demand
from squadwright.model.medical import MedicalClearance
from squadwright.model.muscles import BodyArea
from squadwright.model.plan import Severity
from squadwright.planning.gates.concussion import (
    CLEARS_CONTACT,
    STEPS,
    Course,
    Symptoms,
    after_symptoms,
    earliest,
    next_step,
    reasons_against,
    symptoms_that_last,
)
from squadwright.planning.gates.limits import Settings
from squadwright.planning.gates.subject import Subject

BEGAN = datetime(2025, 3, 1, 18, 0, tzinfo=UTC)
KNOCKED = datetime(2025, 2, 28, 17, 0, tzinfo=UTC)
FIRST = Course(step=1, began_at=BEGAN, knocked_at=KNOCKED)


def clearance(given_on: date = date(2025, 3, 3), lifts: str = CLEARS_CONTACT) -> MedicalClearance:
    return MedicalClearance("clear", "Dr Example", "12345", given_on, (lifts,))


def at_step(step: int, **changes: object) -> Course:
    return replace(FIRST, step=step, **changes)  # type: ignore[arg-type]


def test_case_16_the_earliest_hours_of_each_step() -> None:
    """Case 16: begun 2025-03-01 18:00 UTC; step 4 with a clearance as well."""
    for step, day in ((2, 2), (3, 3), (4, 4), (5, 5), (6, 6)):
        assert earliest(FIRST, step) == datetime(2025, 3, day, 18, 0, tzinfo=UTC)
    course = FIRST
    for step in range(2, 7):
        now = BEGAN + timedelta(hours=24 * (step - 1))
        cleared = clearance() if step >= 4 else None
        course = next_step(course, now, is_symptom_free=True, clearance=cleared)
        assert course.step == step
    assert reasons_against(
        course, now + timedelta(days=2), is_symptom_free=True, clearance=clearance()
    ) == ("step 6 is the last one",)


def test_case_17_step_4_without_a_clearance_is_refused() -> None:
    """Case 17."""
    with pytest.raises(NotAllowed, match="Step 4 may not begin: step 4 needs a written clearance"):
        next_step(at_step(3), BEGAN + timedelta(days=9), is_symptom_free=True)


def test_case_18_a_minute_short_of_24_hours_is_refused() -> None:
    """Case 18."""
    short = BEGAN + timedelta(hours=23, minutes=59)
    with pytest.raises(NotAllowed, match="step 1 has 0 h 01 min to go"):
        next_step(FIRST, short, is_symptom_free=True)
    assert next_step(FIRST, short + timedelta(minutes=1), is_symptom_free=True).step == 2


@pytest.mark.parametrize(
    ("began", "shown_as_a_day_later", "hours_passed"),
    [
        (datetime(2025, 3, 29, 18, 0), datetime(2025, 3, 30, 18, 0), 23),
        (datetime(2025, 10, 25, 18, 0), datetime(2025, 10, 26, 18, 0), 25),
    ],
)
def test_case_18_across_a_clock_change_hours_that_passed_count(
    began: datetime, shown_as_a_day_later: datetime, hours_passed: int
) -> None:
    """Case 18: clocks in Berlin went forward on 30 March 2025 and back on 26 October 2025."""
    berlin = ZoneInfo("Europe/Berlin")
    course = Course(
        1, began.replace(tzinfo=berlin), (began - timedelta(days=1)).replace(tzinfo=UTC)
    )
    now = shown_as_a_day_later.replace(tzinfo=berlin)
    reasons = reasons_against(course, now, is_symptom_free=True)
    assert reasons == (("step 1 has 1 h 00 min to go",) if hours_passed == 23 else ())
    assert earliest(course, 2) == began.replace(tzinfo=berlin).astimezone(UTC) + timedelta(hours=24)


def test_case_19_symptoms_at_step_5_go_back_to_step_3_and_restart() -> None:
    """Case 19 (memory)."""
    told = BEGAN + timedelta(hours=3)
    back = after_symptoms(at_step(5), Symptoms(told, worse_by=1, minutes=10))
    assert (back.step, back.began_at) == (3, told)
    soon = told + timedelta(hours=23)
    assert any("1 h 00 min to go" in r for r in reasons_against(back, soon, is_symptom_free=True))


def test_a_clearance_from_before_the_symptoms_no_longer_counts() -> None:
    back = after_symptoms(at_step(5), Symptoms(BEGAN, worse_by=4, minutes=90))
    later = BEGAN + timedelta(days=4)
    for day, is_enough in (
        (date(2025, 2, 28), False),
        (BEGAN.date(), False),
        (date(2025, 3, 2), True),
    ):
        reasons = reasons_against(back, later, is_symptom_free=True, clearance=clearance(day))
        assert (reasons == ()) is is_enough


@pytest.mark.parametrize(
    ("worse_by", "minutes", "restarts"), [(2, 59, False), (3, 10, True), (1, 60, True)]
)
def test_before_step_4_mild_and_brief_symptoms_let_it_go_on(
    worse_by: int, minutes: int, restarts: bool
) -> None:
    """Memory: at most 2 of 10 and less than an hour."""
    told = BEGAN + timedelta(hours=5)
    after = after_symptoms(at_step(2), Symptoms(told, worse_by, minutes))
    assert after.step == 2
    assert (after.began_at == told) is restarts


def test_with_symptoms_no_step_begins() -> None:
    reasons = reasons_against(FIRST, BEGAN + timedelta(days=3), is_symptom_free=False)
    assert reasons == ("there are symptoms",)


@pytest.mark.parametrize(
    "entry",
    [
        clearance(date(2025, 2, 27)),
        clearance(date(2025, 3, 20)),
        clearance(lifts="something else"),
        replace(clearance(), until=date(2025, 3, 4)),
    ],
    ids=["before the knock", "not given yet", "another gate", "run out"],
)
def test_a_clearance_that_does_not_cover_it_is_not_enough(entry: MedicalClearance) -> None:
    now = datetime(2025, 3, 10, 12, 0, tzinfo=UTC)
    with pytest.raises(NotAllowed, match="needs a written clearance"):
        next_step(at_step(3), now, is_symptom_free=True, clearance=entry)


def test_nobody_clears_without_a_name_and_a_licence() -> None:
    with pytest.raises(InvalidInput, match="licence: is empty"):
        MedicalClearance("clear", "Dr Example", " ", date(2025, 3, 1), (CLEARS_CONTACT,))
    with pytest.raises(InvalidInput, match="author: is empty"):
        MedicalClearance("clear", " ", "12345", date(2025, 3, 1), (CLEARS_CONTACT,))


def test_the_24_hours_cannot_be_made_shorter_and_can_be_made_longer() -> None:
    with pytest.raises(InvalidInput, match=r"hours a step: 23 is looser than 24 h"):
        Settings((("hours a step", Decimal(23)),))
    longer = Settings((("hours a step", Decimal(48)),))
    assert earliest(FIRST, 2, settings=longer) == BEGAN + timedelta(hours=48)


def test_a_minor_is_fully_back_at_school_before_contact() -> None:
    """Read (pedsconcussion.com)."""
    course = at_step(4, is_minor=True)
    now = BEGAN + timedelta(days=5)
    reasons = reasons_against(
        course, now, is_symptom_free=True, clearance=clearance(), is_back_at_school=False
    )
    assert reasons == ("not fully back at school",)
    assert reasons_against(course, now, is_symptom_free=True, clearance=clearance()) == ()


def test_a_time_without_a_zone_or_before_the_knock_is_refused() -> None:
    with pytest.raises(InvalidInput, match="says no time zone"):
        Course(1, datetime(2025, 3, 1, 18, 0), KNOCKED)
    with pytest.raises(InvalidInput, match="is before the knock"):
        Course(1, KNOCKED - timedelta(minutes=1), KNOCKED)
    with pytest.raises(InvalidInput, match="2 is not after step 3"):
        earliest(at_step(3), 2)


def test_what_is_barred_until_full_practice() -> None:
    for step in STEPS[:4]:
        assert {Demand.CONTACT, Demand.MAXIMAL_EFFORT, Demand.DROP_LANDING} <= set(step.barred)
        assert BodyArea.NECK in step.barred_areas
        assert not step.may_compete
    assert STEPS[0].all_training_barred
    assert [step.may_compete for step in STEPS] == [False] * 5 + [True]
    assert [step.number for step in STEPS] == [1, 2, 3, 4, 5, 6]


@pytest.mark.parametrize(
    ("age", "days", "is_told"), [(24, 14, False), (24, 15, True), (15, 28, False), (15, 29, True)]
)
def test_symptoms_that_last_are_for_a_specialist(age: int, days: int, is_told: bool) -> None:
    """Second hand (2017): more than 10 to 14 days; 28 days of a minor from memory."""
    who = Subject("ana", "Ana", age)
    found = symptoms_that_last(who, KNOCKED, KNOCKED + timedelta(days=days))
    assert (found is not None) is is_told
    if found is not None:
        assert found.severity is Severity.WARNING
        assert "specialist" in found.advice


@given(minutes=st.integers(0, 6000), step=st.integers(1, 5))
def test_no_step_ever_begins_before_24_hours(minutes: int, step: int) -> None:
    now = BEGAN + timedelta(minutes=minutes)
    reasons = reasons_against(
        at_step(step), now, is_symptom_free=True, clearance=clearance(date(2025, 3, 1))
    )
    assert (reasons == ()) is (minutes >= 24 * 60)
