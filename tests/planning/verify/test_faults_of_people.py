"""Each fault about people, raised by a plan spoiled in exactly that way."""

from dataclasses import replace

import pytest

from planning.plan_changes import change_athlete, check_in
from planning.verify.sound_plan import SOUND, TODAY, planned
from planning.verify.spoiled import (
    Spoiled,
    attendance,
    found,
    group,
    line,
    lines_raised,
    lines_that_raise,
    with_attendance,
    with_doses,
)
from squadwright.model.athlete import AuthorRole, Restriction
from squadwright.model.plan import AttendanceLine
from squadwright.model.session import CheckIn, Presence
from squadwright.planning.verify import people
from squadwright.planning.verify.people import (
    attendance_agrees_with_the_check_in,
    doses_are_for_athletes_of_the_session,
    everybody_has_one_attendance_line,
    everybody_who_trains_is_accounted_for,
    no_two_names_are_shown_alike,
    who_is_out_does_no_work,
)

FIRST = SOUND.plan.attendance[0]
ALL_BARRED = Restriction("rest", "Doctor", AuthorRole.MEDICAL, TODAY, all_training=True)
LATE = check_in(SOUND, CheckIn("A1", Presence.LATE, late_minutes=5))
ABSENT = check_in(SOUND, CheckIn("A1", Presence.ABSENT))
# Away, and nothing in the plan is for her any more.
AWAY = ABSENT.with_plan(
    doses=ABSENT.plan.doses[1:],
    bars=tuple(
        replace(b, wave_users=tuple(u for u in b.wave_users if u.athlete != "A1"))
        for b in ABSENT.plan.bars
    ),
    groups=tuple(
        replace(g, athletes=tuple(a for a in g.athletes if a != "A1")) for g in ABSENT.plan.groups
    ),
)
DOSE = ABSENT.plan.doses[0]
BREATHES = planned("9", "seated-breathing-drill", 1)


CASES = (
    Spoiled("as it should be", everybody_has_one_attendance_line, SOUND),
    Spoiled(
        "one has none",
        everybody_has_one_attendance_line,
        SOUND.with_plan(attendance=SOUND.plan.attendance[:-1]),
        (("attendance", "Dag Elster, A4 has 0 lines, not 1"),),
    ),
    Spoiled(
        "one has two",
        everybody_has_one_attendance_line,
        with_attendance(SOUND, FIRST),
        (("attendance", "Ada Brink, A1 has 2 lines, not 1"),),
    ),
    Spoiled(
        "a stranger has one",
        everybody_has_one_attendance_line,
        with_attendance(SOUND, AttendanceLine("A9", "Nobody", "present")),
        (("attendance", "A9 has a line and is not an athlete of the session"),),
    ),
    Spoiled(
        "here on time, said to be late",
        attendance_agrees_with_the_check_in,
        attendance(SOUND, 0, status="late", late_minutes=5),
        (
            (
                "attendance[0]",
                "Ada Brink, A1 is 'late', 5 min late; the check-in and the restrictions say "
                "'present', 0 min",
            ),
        ),
    ),
    Spoiled(
        "late, as said",
        attendance_agrees_with_the_check_in,
        attendance(LATE, 0, status="late", late_minutes=5),
    ),
    Spoiled(
        "later than said",
        attendance_agrees_with_the_check_in,
        attendance(LATE, 0, status="late", late_minutes=4),
        (
            (
                "attendance[0]",
                "Ada Brink, A1 is 'late', 4 min late; the check-in and the restrictions say "
                "'late', 5 min",
            ),
        ),
    ),
    Spoiled(
        "late by no minute is on time",
        attendance_agrees_with_the_check_in,
        check_in(SOUND, CheckIn("A1", Presence.LATE)),
    ),
    Spoiled(
        "minutes of one who is here on time do not count",
        attendance_agrees_with_the_check_in,
        check_in(SOUND, CheckIn("A1", Presence.PRESENT, late_minutes=5)),
    ),
    Spoiled(
        "absent goes before barred",
        attendance_agrees_with_the_check_in,
        attendance(change_athlete(ABSENT, "A1", restrictions=(ALL_BARRED,)), 0, status="absent"),
    ),
    Spoiled(
        "barred goes before late, and has no minutes",
        attendance_agrees_with_the_check_in,
        attendance(
            change_athlete(LATE, "A1", restrictions=(ALL_BARRED,)), 0, status="not training"
        ),
    ),
    Spoiled(
        "a line of a stranger is not asked",
        attendance_agrees_with_the_check_in,
        with_attendance(SOUND, AttendanceLine("A9", "Nobody", "late", 3)),
    ),
    Spoiled(
        "names that differ in case and space",
        no_two_names_are_shown_alike,
        attendance(SOUND, 1, shown_name=" ADA BRINK "),
        (("attendance", "A1 and A2 are both shown as ' ADA BRINK '"),),
    ),
    Spoiled(
        "one athlete under one name twice",
        no_two_names_are_shown_alike,
        with_attendance(SOUND, FIRST),
    ),
    Spoiled("away, with nothing to do", who_is_out_does_no_work, AWAY),
    Spoiled(
        "away, with breathing",
        who_is_out_does_no_work,
        with_doses(AWAY, replace(DOSE, load_kg=None, exercises=(BREATHES,))),
    ),
    Spoiled(
        "away, with a load",
        who_is_out_does_no_work,
        with_doses(AWAY, replace(DOSE, exercises=(BREATHES,))),
        (("doses[3] (Ada Brink, A1)", "is absent and has a load of 40 kg"),),
    ),
    Spoiled(
        "away, with exercises",
        who_is_out_does_no_work,
        with_doses(AWAY, replace(DOSE, load_kg=None, exercises=(BREATHES, DOSE.exercises[0]))),
        (("doses[3] (Ada Brink, A1)", "is absent and has deadlift"),),
    ),
    Spoiled(
        "away, with an exercise that nobody knows",
        who_is_out_does_no_work,
        with_doses(AWAY, replace(DOSE, exercises=(planned("9", "flying", 1),))),
        (("doses[3] (Ada Brink, A1)", "is absent and has a load of 40 kg and flying"),),
    ),
    Spoiled(
        "away, with a bar",
        who_is_out_does_no_work,
        AWAY.with_plan(bars=ABSENT.plan.bars),
        (("bars[0].wave_users[0]", "Ada Brink, A1 is out and has bar bar-1"),),
    ),
    Spoiled(
        "away, in a group",
        who_is_out_does_no_work,
        group(AWAY, 4, athletes=("A1", "A2", "A3", "A4")),
        (("groups[4]", "Ada Brink, A1 is out and in Line"),),
    ),
    *(
        Spoiled(
            f"away, with a line by {by}",
            who_is_out_does_no_work,
            line(AWAY, 3, **changes),
            (("run_sheet[3]", "Ada Brink, A1 is out and has a line"),),
        )
        for by, changes in (
            ("her name", {"group": "Ada Brink"}),
            ("her id", {"group": "A1"}),
            ("her place among others", {"athletes": ("A1", "A2")}),
        )
    ),
    Spoiled(
        "no dose and no help",
        everybody_who_trains_is_accounted_for,
        SOUND.with_plan(doses=SOUND.plan.doses[:3]),
        (("doses", "Dag Elster, A4 trains, has no dose and does not help"),),
    ),
    Spoiled(
        "no dose, and helps",
        everybody_who_trains_is_accounted_for,
        attendance(SOUND, 3, note="A4 helps and watches").with_plan(doses=SOUND.plan.doses[:3]),
    ),
    Spoiled("no dose, and away", everybody_who_trains_is_accounted_for, AWAY),
    Spoiled(
        "a dose of a stranger",
        doses_are_for_athletes_of_the_session,
        SOUND.with_plan(doses=(*SOUND.plan.doses[:3], replace(DOSE, athlete="A9"))),
        (("doses[3]", "A9 is not an athlete of the session"),),
    ),
    Spoiled(
        "a second dose of one block",
        doses_are_for_athletes_of_the_session,
        with_doses(SOUND, DOSE),
        (("doses[4]", "Ada Brink, A1 has a second dose"),),
    ),
    Spoiled(
        "a dose of another block, one of another exercise",
        doses_are_for_athletes_of_the_session,
        with_doses(SOUND, replace(DOSE, block="D"), replace(DOSE, exercise="deadlift")),
    ),
)


@pytest.mark.parametrize("spoiled", CASES, ids=str)
def test_a_plan_spoiled_in_one_way_has_exactly_that_fault(spoiled: Spoiled) -> None:
    assert found(spoiled) == spoiled.faults


def test_each_fault_about_people_is_raised_by_some_case(monkeypatch: pytest.MonkeyPatch) -> None:
    assert lines_raised(people, CASES, monkeypatch) == lines_that_raise(people)
