"""Clearances, private limits, lifting under 18, heat and suspensions at their limits.

The limits and their sources stand on the page of the gates; here each is written out once more.
"""

from dataclasses import replace
from datetime import UTC, date, datetime, timedelta
from decimal import Decimal

import pytest

from planning.verify.sound_plan import CLUB, SESSION, TODAY, person
from squadwright.model.medical import Medical, MedicalClearance, PrivateLimit, Suspension
from squadwright.model.plan import RunLine, Severity
from squadwright.planning.gates import concussion, private_limit
from squadwright.planning.gates.activity import a_year_after, clearance_needed
from squadwright.planning.gates.gate import Caps, gate_of
from squadwright.planning.gates.heat import heat, heat_row, heat_row_of_minors, is_hot
from squadwright.planning.gates.heat_stop import end_of_work_s, stops_from_c
from squadwright.planning.gates.subject import Subject
from squadwright.planning.gates.suspension import standing_on
from squadwright.planning.gates.young_lifters import (
    LiftingToday,
    before_a_strength_test,
    lifting_under_18,
    why_no_load,
)

GROWN, YOUNG = Subject("a", "Ada", 18), Subject("a", "Ada", 17)
NOTE, WARNING, STOP = Severity.NOTE, Severity.WARNING, Severity.STOP
NOON = datetime(2026, 3, 2, 12, tzinfo=UTC)


@pytest.mark.parametrize(
    ("day", "months", "until"),
    [
        (date(2025, 3, 2), 12, date(2026, 3, 2)),
        (date(2024, 2, 29), 12, date(2025, 2, 28)),
        (date(2025, 8, 31), 1, date(2025, 9, 30)),
        (date(2025, 12, 31), 2, date(2026, 2, 28)),
        (date(2023, 12, 30), 2, date(2024, 2, 29)),
        (date(2025, 11, 5), 1, date(2025, 12, 5)),
        (date(2025, 12, 5), 1, date(2026, 1, 5)),
    ],
)
def test_so_many_months_later(day: date, months: int, until: date) -> None:
    assert a_year_after(day, months=months) == until


# Active, known disease, symptoms, hard work, cleared so many days ago.
@pytest.mark.parametrize(
    ("active", "disease", "symptoms", "hard", "cleared", "worth"),
    [
        (True, False, False, True, None, None),
        (True, False, True, False, 0, STOP),
        (False, False, True, False, 0, STOP),
        (False, False, False, False, None, NOTE),
        (False, True, False, False, None, STOP),
        (False, True, False, False, 0, None),
        (True, True, False, False, None, None),
        (True, True, False, True, None, STOP),
        (True, True, False, True, 365, None),
        (True, True, False, True, 366, STOP),
    ],
)
def test_who_needs_a_clearance(
    active: bool, disease: bool, symptoms: bool, hard: bool, cleared: int | None,
    worth: Severity | None,
) -> None:  # fmt: skip
    found = clearance_needed(
        GROWN,
        TODAY,
        is_active=active,
        has_disease=disease,
        has_symptoms=symptoms,
        is_hard=hard,
        cleared_on=None if cleared is None else TODAY - timedelta(days=cleared),
    )
    assert (None if found is None else found.severity) == worth


@pytest.mark.parametrize("stopped", [False, True])
@pytest.mark.parametrize("plan", [False, True])
@pytest.mark.parametrize("note", [False, True])
def test_a_private_limit_tells_what_holds_and_what_is_wanted(
    stopped: bool, plan: bool, note: bool
) -> None:
    found = private_limit.private_limit(
        GROWN, has_weight_plan=plan, is_stopped=stopped, has_note=note
    )
    worth = [(each.rule, each.severity) for each in found]
    assert worth == [
        *([(private_limit.RULE, STOP)] if stopped else []),
        *([(private_limit.NO_PLAN, STOP)] if plan else []),
        (private_limit.RULE, NOTE),
        *([] if note else [(private_limit.NOTE_WANTED, WARNING)]),
    ]


@pytest.mark.parametrize(("given", "wanted"), [(-40, False), (-41, True), (-9, False), (1, True)])
def test_a_note_counts_from_a_month_before_the_declaration(given: int, wanted: bool) -> None:
    declared = TODAY - timedelta(days=9)
    note = MedicalClearance(
        "n", "Dr Fell", "L 1", TODAY + timedelta(days=given), (private_limit.NOTE_WANTED,)
    )
    medical = Medical(private_limit=PrivateLimit(declared, "Herself"), clearances=(note,))
    gate = gate_of(CLUB, replace(person("A1"), medical=medical), SESSION)
    rules = [each.rule for each in gate.findings]
    assert (private_limit.NOTE_WANTED in rules) == wanted
    assert private_limit.RULE in rules


def lifting(**changes: object) -> LiftingToday:
    usual = LiftingToday(Decimal("0.5"), 2, 3, True, "Coach", True)
    return replace(usual, **changes)  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("today", "worth"),
    [
        (lifting(), []),
        (lifting(share_of_maximum=Decimal("0.60")), []),
        (lifting(share_of_maximum=Decimal("0.61")), [WARNING]),
        (lifting(share_of_maximum=Decimal("0.80"), is_beginner=False), []),
        (lifting(share_of_maximum=Decimal("0.81"), is_beginner=False), [WARNING]),
        (lifting(sets=3), [WARNING]),
        (lifting(sets=4, is_beginner=False), []),
        (lifting(sets=5, is_beginner=False), [WARNING]),
        (lifting(days_this_week=4), [WARNING]),
        (lifting(step_of_load=Decimal("0.10")), []),
        (lifting(step_of_load=Decimal("0.11")), [WARNING]),
        (lifting(has_consent=False), [STOP]),
        (lifting(has_consent=False, share_of_maximum=Decimal(0)), [WARNING]),
        (lifting(supervisor=" "), [STOP]),
        (lifting(has_technique=False), [STOP]),
        (lifting(has_technique=False, share_of_maximum=Decimal(0)), [NOTE]),
        (lifting(is_day_after_lifting=True), [WARNING]),
    ],
)
def test_lifting_under_18(today: LiftingToday, worth: list[Severity]) -> None:
    assert [each.severity for each in lifting_under_18(YOUNG, today)] == worth
    assert lifting_under_18(GROWN, today) == ()


def test_what_comes_before_a_load_and_before_a_test_of_the_young() -> None:
    said = {
        (consent, technique): why_no_load(has_consent=consent, has_technique=technique)
        for consent in (True, False)
        for technique in (True, False)
    }
    assert said[True, True] == ""
    assert "technique" in said[True, False]
    assert "consent" in said[False, True] == said[False, False]
    asked = {"has_consent": True, "has_technique": True, "is_growth_checked": True}
    assert before_a_strength_test(**asked) == ()
    for name in asked:
        assert len(before_a_strength_test(**(asked | {name: False}))) == 1


# 82, 86 and 90 degF are 27.8, 30 and 32.2 degC; for minors 24, 26 and 29 degC.
@pytest.mark.parametrize(
    ("globe_c", "row", "row_of_minors"),
    [
        ("23.9", 1, 1),
        ("24.0", 1, 2),
        ("25.9", 1, 2),
        ("26.0", 1, 3),
        ("27.7", 1, 3),
        ("27.8", 2, 3),
        ("29.0", 2, 3),
        ("29.1", 2, 4),
        ("30.0", 2, 4),
        ("30.1", 3, 4),
        ("32.2", 3, 4),
        ("32.3", 4, 4),
    ],
)
def test_the_row_of_the_heat(globe_c: str, row: int, row_of_minors: int) -> None:
    value = Decimal(globe_c)
    assert (heat_row(value), heat_row_of_minors(value)) == (row, row_of_minors)
    assert is_hot(GROWN, value) == (row > 1)
    assert is_hot(YOUNG, value) == (row > 1 or row_of_minors > 1)


def test_who_stops_in_a_hot_session_and_who_in_one_that_is_meant_to_be_hot() -> None:
    def worth(globe_c: str, **known: bool) -> list[Severity]:
        found = heat(GROWN, Decimal(globe_c), is_used_to_heat=True, **known)
        return [each.severity for each in found]

    assert worth("27.7") == worth("27.7", has_weight_plan=True) == []
    assert worth("27.7", has_weight_plan=True, is_heat_session=True) == [STOP]
    assert worth("27.8") == [NOTE]
    assert worth("27.8", has_weight_plan=True) == [NOTE, STOP]
    assert worth("27.8", has_had_heat_illness=True) == [NOTE, STOP]
    assert worth("30.1") == [WARNING]
    assert worth("32.3") == [STOP]


def test_from_which_reading_on_heat_stops_somebody() -> None:
    new, used = person("A1"), replace(person("A1"), medical=Medical(is_used_to_heat=True))
    young = replace(new, birth_date=date(2008, 3, 3))
    ill = replace(used, medical=replace(used.medical, has_had_heat_illness=True))
    found = [stops_from_c(CLUB, he, SESSION) for he in (new, used, young, ill)]
    assert found == [30.1, 32.3, 26.0, 27.8]


def test_work_under_way_ends_where_the_last_of_it_does() -> None:
    lines = [
        RunLine(start_s, end_s, "g", "", None, activity)
        for start_s, end_s, activity in ((0, 60, "work"), (30, 90, "work, hard"), (30, 99, "help"))
    ]
    ends = {place: end_of_work_s(lines, place) for place in (0, 29.5, 30, 59, 60, 90)}
    assert ends == {0: 60, 29.5: 60, 30: 90, 59: 90, 60: 90, 90: 90}
    assert end_of_work_s(lines, 95) == 95


@pytest.mark.parametrize(("written", "share", "left"), [(4, "0.5", 2), (3, "0.5", 1), (1, "0.5", 1),
                                                       (0, "0.5", 0), (5, "1", 5)])  # fmt: skip
def test_a_share_of_the_rounds_leaves_one_at_least(written: int, share: str, left: int) -> None:
    assert Caps(Decimal(share)).rounds(written) == left


def test_what_suspensions_bar_together() -> None:
    def held(contact: int | None, event: int | None, *needs: str) -> Suspension:
        days = [None if n is None else TODAY + timedelta(days=n) for n in (contact, event)]
        return Suspension("s", "Board", "as written", *days, needs=needs, is_open=bool(needs))

    for held_by, contact, event, free in (
        ((held(0, None),), True, True, 1),
        ((held(-1, None),), False, False, 0),
        ((held(-1, 0),), False, True, 1),
        ((held(-9, None), held(2, None)), True, True, 3),
        ((held(2, 5), held(3, None)), True, True, 6),
        ((held(-1, None, "scan"),), True, True, None),
    ):
        standing = standing_on(TODAY, held_by)
        assert (standing.no_contact, standing.no_competition) == (contact, event)
        day = None if free is None else TODAY + timedelta(days=free)
        assert standing.first_free_day == day
        assert standing.last_barred_day == (None if day is None else day - timedelta(days=1))
    given = MedicalClearance("c", "Dr Fell", "L 1", TODAY, ("scan",))
    assert not standing_on(TODAY, (held(-1, None, "scan"),), (given,)).no_contact


@pytest.mark.parametrize(
    ("worse", "minutes", "mild"), [(2, 59, True), (3, 59, False), (2, 60, False), (0, 1, True)]
)
def test_mild_and_brief_symptoms_let_the_first_steps_go_on(
    worse: int, minutes: int, mild: bool
) -> None:
    told = concussion.Symptoms(NOON, worse, minutes)
    began = NOON - timedelta(days=1)
    course = concussion.Course(3, began, began)
    assert told.is_mild == mild
    after = concussion.after_symptoms(course, told)
    assert after == (course if mild else replace(course, began_at=NOON, last_symptoms_at=NOON))
    # From step 4 on any symptom leads back to step 3.
    back = concussion.after_symptoms(replace(course, step=4), told)
    assert (back.step, back.began_at) == (3, NOON)
