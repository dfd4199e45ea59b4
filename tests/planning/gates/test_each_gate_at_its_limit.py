"""Each gate just inside its limit and just past it, and what it refuses to judge.

The limits and their sources stand on the page of the gates; here each is written out once more.
"""

from collections.abc import Callable
from datetime import UTC, datetime, timedelta
from decimal import Decimal
from fractions import Fraction

import pytest

from planning.verify.sound_plan import TODAY
from squadwright.errors import InvalidInput, NotFound
from squadwright.model.plan import Finding, Severity
from squadwright.planning.gates import concussion, energy, first_weeks, mass
from squadwright.planning.gates.activity import clearance_needed
from squadwright.planning.gates.illness import earliest_after, illness
from squadwright.planning.gates.limits import Settings
from squadwright.planning.gates.subject import Subject, exact, instant
from squadwright.planning.gates.suspension import last_barred_day
from squadwright.units import Mass, kilograms

OWN = "own_choice"
GROWN, YOUNG = Subject("a", "Ada", 18), Subject("a", "Ada", 17)
NOTE, WARNING, STOP = Severity.NOTE, Severity.WARNING, Severity.STOP
NOON = datetime(2026, 3, 2, 12, tzinfo=UTC)


def kg(text: str) -> Mass:
    return kilograms(text)


def last_days(now: str, hours: int, recover: int = 24) -> Finding | None:
    return mass.last_days_loss(
        GROWN, kg(now), kg("90"), hours_to_weigh_in=hours, hours_to_recover=recover
    )


Asked = tuple[Callable[[], Finding | None], Severity | None]

# Percent of the mass of today: 1.5 % of 70 kg are 1.05 kg, 1 % are 0.7 kg.
WEEKLY: tuple[Asked, ...] = tuple(
    (lambda to=to, days=days: mass.needed_weekly_loss(GROWN, kg("70"), kg(to), days), worth)
    for to, days, worth in (
        ("70", 7, None), ("71", 7, None), ("69.3", 7, None), ("69.299", 7, WARNING),
        ("68.95", 7, WARNING), ("68.949", 7, STOP), ("67.9", 14, WARNING), ("67.89", 14, STOP),
        ("69.9", 1, None), ("69.85", 1, WARNING), ("69.84", 1, STOP),
    )
)  # fmt: skip
# 4.4, 5.7 and 6.7 % of the mass of today, in the last 24, 48 and 72 hours, to reach 90 kg.
LAST: tuple[Asked, ...] = tuple(
    (lambda now=now, hours=hours: last_days(now, hours), worth)
    for now, hours, worth in (
        ("90", 24, None), ("94.14", 24, None), ("94.15", 24, STOP), ("94.15", 0, STOP),
        ("94.15", 25, None), ("95.43", 48, None), ("95.45", 48, STOP), ("95.45", 49, None),
        ("96.46", 72, None), ("96.47", 72, STOP), ("99", 73, None), ("99", -1, None),
    )
)  # fmt: skip
# Less than 24 h to recover: 2 and 3 %.
SAME_DAY: tuple[Asked, ...] = tuple(
    (lambda now=now, recover=recover: last_days(now, 24, recover), worth)
    for now, recover, worth in (
        ("91.83", 23, None), ("91.84", 23, WARNING), ("92.78", 23, WARNING), ("92.79", 23, STOP),
        ("92.79", 24, None), ("90", 23, None),
    )
)  # fmt: skip
OTHERS: tuple[Asked, ...] = (
    (lambda: mass.mass_out_of_camp(GROWN, kg("69"), kg("60")), None),
    (lambda: mass.mass_out_of_camp(GROWN, kg("69.01"), kg("60")), WARNING),
    *(
        (lambda now=now: mass.morning_mass(GROWN, kg(now), (kg("69"), kg("71"))), worth)
        for now, worth in (
            ("70", None), ("75", None), ("68.6", None), ("68.59", WARNING), ("67.9", WARNING),
            ("67.89", STOP),
        )
    ),
    *(
        (lambda value=value: mass.urine_gravity(GROWN, Decimal(value)), worth)
        for value, worth in (
            ("1.000", None), ("1.020", None), ("1.021", WARNING), ("1.030", WARNING),
            ("1.031", WARNING), ("1.060", WARNING),
        )
    ),
    (lambda: mass.heavier_after_training(GROWN, kg("70"), kg("70")), None),
    (lambda: mass.heavier_after_training(GROWN, kg("70"), kg("69.9")), None),
    (lambda: mass.heavier_after_training(GROWN, kg("70"), kg("70.01")), WARNING),
    *(
        (lambda fat=fat: mass.floor_of_fat(GROWN, Decimal(fat), Decimal(7), source_key=OWN), worth)
        for fat, worth in (("7.1", None), ("7", STOP), ("6.9", STOP))
    ),
    *(
        (lambda least=least: mass.class_below_minimum(GROWN, kg("60"), least, "60 kg",
                                                      source_key=OWN), worth)
        for least, worth in ((60.0, None), (60.0000005, None), (60.01, STOP), (59.0, None))
    ),
    *(
        (lambda now=now: mass.fight_day_regain(GROWN, kg("60"), kg(now)), worth)
        for now, worth in (
            ("66", None), ("66.01", WARNING), ("69", WARNING), ("69.01", STOP), ("59", None),
        )
    ),
    *(
        (lambda intake=intake: energy.energy_availability_gate(
            GROWN, Decimal(intake), Decimal(500), Decimal(50)), worth)
        for intake, worth in (("2750", None), ("2749", NOTE), ("2000", NOTE), ("1999", WARNING))
    ),
    *(
        (lambda n=n, week=week: first_weeks.sessions_of_a_week(GROWN, week, n), worth)
        for week, n, worth in (
            (1, 3, None), (1, 4, WARNING), (2, 4, None), (2, 5, WARNING), (3, 9, None),
            (0, 9, None),
        )
    ),
    *(
        (lambda sets=sets: first_weeks.work_of_an_exercise(GROWN, sets, 10, Decimal("0.75")), worth)
        for sets, worth in ((4, None), (5, WARNING))
    ),
    *(
        (lambda who=who, days=days: concussion.symptoms_that_last(
            who, NOON - timedelta(days=days), NOON), worth)
        for who, days, worth in (
            (GROWN, 14, None), (GROWN, 14.01, WARNING), (YOUNG, 28, None), (YOUNG, 28.01, WARNING),
        )
    ),
)  # fmt: skip


@pytest.mark.parametrize(("ask", "worth"), [*WEEKLY, *LAST, *SAME_DAY, *OTHERS])
def test_a_limit_is_inside_and_what_is_past_it_is_told(
    ask: Callable[[], Finding | None], worth: Severity | None
) -> None:
    found = ask()
    assert (None if found is None else found.severity) == worth
    if found is not None:
        assert found.athlete == "a"
        assert found.sentence.startswith("Ada: ")


def test_what_is_past_a_limit_is_shown_past_it() -> None:
    found = mass.mass_out_of_camp(GROWN, kg("69.0001"), kg("60"))
    assert found is not None
    assert found.sentence == "Ada: 15.0002 % above the limit of the class out of camp."
    wet = mass.urine_gravity(GROWN, Decimal("1.031"))
    assert wet is not None
    assert "serious" in wet.sentence


def test_under_18_there_is_no_plan_to_lose_mass_at_all() -> None:
    asked = (
        mass.needed_weekly_loss(YOUNG, kg("70"), kg("69.99"), 99),
        mass.same_day_loss(YOUNG, kg("70"), kg("69.99")),
        mass.last_days_loss(YOUNG, kg("70"), kg("69.99"), hours_to_weigh_in=9, hours_to_recover=99),
    )
    for found in asked:
        assert found is not None
        assert (found.rule, found.severity, found.value) == (mass.MINOR, STOP, 17)
    assert mass.needed_weekly_loss(YOUNG, kg("70"), kg("70"), 9) is None
    assert mass.same_day_loss(YOUNG, kg("70"), kg("70")) is None
    young = mass.class_below_minimum(YOUNG, kg("60"), 61.0, "61 kg", source_key=OWN)
    assert young is not None
    assert "later event" not in young.advice


@pytest.mark.parametrize(
    ("body", "value", "waits"),
    [("college", "1.020", False), ("college", "1.021", True),
     ("high school", "1.025", False), ("high school", "1.026", True)],
)  # fmt: skip
def test_body_fat_is_not_assessed_with_dense_urine(body: str, value: str, waits: bool) -> None:
    found = mass.assessment_refused_until(Decimal(value), body, NOON)
    assert found == (NOON + timedelta(hours=24) if waits else None)


REFUSED: tuple[Callable[[], object], ...] = (
    lambda: mass.needed_weekly_loss(GROWN, kg("70"), kg("69"), 0),
    lambda: mass.morning_mass(GROWN, kg("70"), ()),
    lambda: mass.urine_gravity(GROWN, Decimal("0.999")),
    lambda: mass.urine_gravity(GROWN, Decimal("1.061")),
    lambda: energy.energy_band(Decimal(1), Decimal(0), Decimal(0)),
    lambda: first_weeks.share_of_conditioning(0, is_newcomer=True),
    lambda: first_weeks.work_of_an_exercise(GROWN, 0, 1, Decimal(1)),
    lambda: first_weeks.work_of_an_exercise(GROWN, 1, 0, Decimal(1)),
    lambda: first_weeks.work_of_an_exercise(GROWN, 1, 1, Decimal(0)),
    lambda: first_weeks.work_of_an_exercise(GROWN, 1, 1, Decimal("1.01")),
    lambda: illness(GROWN, (), temperature_c=Decimal("29.9")),
    lambda: illness(GROWN, (), temperature_c=Decimal("45.1")),
    lambda: exact(kg("0")),
    lambda: instant("at", NOON.replace(tzinfo=None)),
    lambda: last_barred_day(TODAY, 0),
    lambda: concussion.Course(0, NOON, NOON),
    lambda: concussion.Course(7, NOON, NOON),
    lambda: concussion.Course(1, NOON - timedelta(seconds=1), NOON),
    lambda: concussion.earliest(concussion.Course(3, NOON, NOON), 3),
    lambda: clearance_needed(
        GROWN, TODAY, is_active=True, has_disease=False, has_symptoms=False, is_hard=True,
        cleared_on=TODAY + timedelta(days=1),
    ),
    lambda: Settings((("fever", Decimal("38.1")),)),
    lambda: Settings((("hours a step", Decimal(23)),)),
    lambda: Settings((("fever", Decimal(-1)),)),
    lambda: Settings((("fever", Decimal("NaN")),)),
)  # fmt: skip


@pytest.mark.parametrize("ask", REFUSED)
def test_what_cannot_be_judged_is_refused(ask: Callable[[], object]) -> None:
    with pytest.raises(InvalidInput):
        ask()


def test_what_is_just_possible_is_judged() -> None:
    assert first_weeks.work_of_an_exercise(GROWN, 1, 1, Decimal(1)) is None
    assert illness(GROWN, (), temperature_c=Decimal(30)).may_train
    assert not illness(GROWN, (), temperature_c=Decimal(45)).may_train
    assert last_barred_day(TODAY, 1) == TODAY + timedelta(days=1)
    assert earliest_after(NOON) == NOON + timedelta(hours=24)
    assert exact(kg("0.1")) == Fraction(1, 10)
    for step in (1, 6):
        assert concussion.Course(step, NOON, NOON).step == step
    with pytest.raises(NotFound):
        Settings((("wrong", Decimal(1)),))
    strict = Settings((("fever", Decimal("37.5")), ("hours a step", Decimal(24))))
    assert (strict.of("fever").is_own, strict.of("hours a step").is_own) == (True, False)
    assert strict.of("fever").source.startswith("coach's setting, stricter than ")
