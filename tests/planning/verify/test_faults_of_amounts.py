"""Each fault about amounts, raised by a plan spoiled in exactly that way."""

from dataclasses import replace
from datetime import date, timedelta

import pytest

from planning.plan_changes import (
    Case,
    change_athlete,
    change_dose,
    change_exercise,
    change_settings,
    check_in,
)
from planning.verify.sound_plan import SOUND, TODAY
from planning.verify.spoiled import (
    Spoiled,
    block,
    found,
    lines_raised,
    lines_that_raise,
    medical,
    says,
)
from squadwright.library import exercise
from squadwright.model.athlete import Event, Priority
from squadwright.model.medical import FirstWeeks
from squadwright.model.session import CheckIn, Override, Presence
from squadwright.planning.verify import amounts
from squadwright.planning.verify.amounts import (
    coach_rounds_are_a_ceiling,
    contacts_are_counted_right,
    gates_leave_a_share_of_the_rounds,
    guests_do_little,
    landings_of,
    rounds_are_those_of_the_routine,
    sets_and_repetitions_are_those_of_the_routine,
    the_young_jump_less,
    throws_are_counted_right,
    who_competes_soon_does_less,
    who_must_lose_fast_does_less,
)
from squadwright.units import kilograms

ADA, BO = "doses[0] (Ada Brink, A1)", "doses[1] (Bo Calder, A2)"
CIL, DAG = "doses[2] (Cil Dorn, A3)", "doses[3] (Dag Elster, A4)"


def rounds(case: Case, count: int, first: int = 1) -> Case:
    return change_dose(case, "A1", rounds=count, first_round=first)


def competes(case: Case, days: int, priority: Priority = Priority.A) -> Case:
    event = Event("meet", "Meet", TODAY + timedelta(days=days), priority)
    return change_athlete(case, "A1", events=(event,))


def weighs(case: Case, limit_kg: str, days: int = 10) -> Case:
    """70 kg may lose 0.15 kg a day."""
    event = Event("meet", "Meet", TODAY + timedelta(days=days), Priority.B, kilograms(limit_kg))
    return change_athlete(case, "A1", events=(event,))


def weeks(case: Case, number: int, *, is_newcomer: bool) -> Case:
    """In her nth week, from 1, on its last day."""
    began = TODAY - timedelta(days=7 * number - 1)
    return medical(case, "A1", first_weeks=FirstWeeks(began, is_newcomer))


def word(count: int | None = None, name: str = "") -> Override:
    return Override("A1", "the coach saw it", rounds=count, block=name)


def born(year: int, month: int, day: int) -> Case:
    return change_athlete(SOUND, "A1", birth_date=date(year, month, day))


LESS = rounds(SOUND, 2)
FEWER = ((ADA, "2 rounds; the others do 3"),)
TOO_MANY = ((ADA, "a guest with 3 rounds, more than 2"),)
GUEST = change_athlete(SOUND, "A1", guest_until=TODAY)
TEN = rounds(block(SOUND, "A", rounds=10), 7)
FIFTEEN = born(2010, 3, 3)

CASES = (
    *(
        Spoiled(f"rounds {first} to {first + n - 1}", rounds_are_those_of_the_routine, case, faults)
        for n, first, faults in (
            (3, 1, ()),
            (2, 1, FEWER),
            (2, 2, FEWER),
            (3, 0, ((ADA, "rounds 0 to 2; A has 3"),)),
            (0, 1, ((ADA, "rounds 1 to 0; A has 3"),)),
            (
                *(4, 1),
                (
                    (ADA, "rounds 1 to 4; A has 3"),
                    (BO, "3 rounds; the others do 4"),
                    (CIL, "3 rounds; the others do 4"),
                    (DAG, "3 rounds; the others do 4"),
                ),
            ),
        )
        for case in (rounds(SOUND, n, first),)
    ),
    Spoiled(
        "who does nothing is not counted",
        rounds_are_those_of_the_routine,
        change_dose(SOUND, "A1", exercises=(), rounds=9),
    ),
    *(
        Spoiled(f"fewer: {why}", rounds_are_those_of_the_routine, case)
        for why, case in (
            ("late", check_in(LESS, CheckIn("A1", Presence.LATE, late_minutes=1))),
            ("a guest", rounds(GUEST, 2)),
            ("in her first weeks", weeks(LESS, 1, is_newcomer=True)),
            ("by the coach's word", says(LESS, word(2))),
            ("competes in 7 days", competes(LESS, 7)),
            ("has to lose fast", weighs(LESS, "60")),
        )
    ),
    *(
        Spoiled(f"fewer: {why}", rounds_are_those_of_the_routine, case, FEWER)
        for why, case in (
            ("the coach said nothing of rounds", says(LESS, word())),
            ("the coach meant another block", says(LESS, word(2, "B"))),
            ("competes in 8 days", competes(LESS, 8)),
            ("weighs in and need not lose fast", weighs(LESS, "69")),
        )
    ),
    *(
        Spoiled(
            f"competes in {days} days", who_competes_soon_does_less, competes(SOUND, days), faults
        )
        for days in (-1, 0, 7, 8)
        for faults in (
            ((ADA, f"competes in {days} days: 3 rounds, more than 2"),) if days in (0, 7) else (),
        )
    ),
    Spoiled("soon, does 2 of 3", who_competes_soon_does_less, competes(LESS, 3)),
    Spoiled(
        "soon, an event that does not matter much",
        who_competes_soon_does_less,
        competes(SOUND, 3, Priority.B),
    ),
    Spoiled(
        "soon, by the coach's word", who_competes_soon_does_less, says(competes(SOUND, 3), word(3))
    ),
    Spoiled(
        "soon, the coach said nothing of rounds",
        who_competes_soon_does_less,
        says(competes(SOUND, 3), word()),
        ((ADA, "competes in 3 days: 3 rounds, more than 2"),),
    ),
    Spoiled(
        "soon, one round is always left",
        who_competes_soon_does_less,
        change_settings(competes(rounds(SOUND, 1), 3), taper_rounds_fraction=0.0),
    ),
    Spoiled(
        "soon, two rounds where one is left",
        who_competes_soon_does_less,
        change_settings(competes(LESS, 3), taper_rounds_fraction=0.1),
        ((ADA, "competes in 3 days: 2 rounds, more than 1"),),
    ),
    Spoiled(
        "soon, in a block of one round",
        who_competes_soon_does_less,
        block(competes(SOUND, 3), "A", rounds=1),
    ),
    Spoiled("0.15 kg a day", who_must_lose_fast_does_less, weighs(SOUND, "68.5")),
    Spoiled(
        "more than 0.15 kg a day",
        who_must_lose_fast_does_less,
        weighs(SOUND, "68.49"),
        (
            (ADA, "weighs in soon: 3 rounds, more than 1"),
            (f"{ADA}.exercises[5]", "weighs in soon: 2 sets, more than 1"),
            (f"{ADA}.exercises[6]", "weighs in soon: 3 sets, more than 1"),
            (f"{ADA}.exercises[7]", "weighs in soon: 2 sets, more than 1"),
        ),
    ),
    Spoiled(
        "half of everything, whatever the coach said",
        who_must_lose_fast_does_less,
        says(
            change_exercise(
                change_exercise(
                    change_exercise(weighs(rounds(SOUND, 2), "60"), "A1", "C1", sets=1),
                    *("A1", "D1"),
                    sets=1,
                ),
                *("A1", "D2"),
                sets=1,
            ),
            word(2),
        ),
        ((ADA, "weighs in soon: 2 rounds, more than 1"),),
    ),
    *(
        Spoiled(
            f"week {n}, newcomer {new}, {count} rounds",
            gates_leave_a_share_of_the_rounds,
            case,
            said,
        )
        for n, new, count, most in (
            *((1, True, 1, 1), (1, True, 2, 1), (2, True, 2, 2), (2, True, 3, 2)),
            *((3, True, 3, 2), (4, True, 3, 2), (5, True, 3, 3)),
            *((1, False, 2, 1), (2, False, 3, 2), (3, False, 3, 3)),
        )
        for case in (weeks(rounds(SOUND, count), n, is_newcomer=new),)
        for said in (
            ((ADA, f"{count} rounds; the gates leave {most} of 3"),) if count > most else (),
        )
    ),
    Spoiled("7 of 10 are 70 %", gates_leave_a_share_of_the_rounds, weeks(TEN, 2, is_newcomer=True)),
    Spoiled(
        "8 of 10 are more than 70 %",
        gates_leave_a_share_of_the_rounds,
        weeks(rounds(TEN, 8), 2, is_newcomer=True),
        ((ADA, "8 rounds; the gates leave 7 of 10"),),
    ),
    Spoiled(
        "first weeks, in a block of one round",
        gates_leave_a_share_of_the_rounds,
        block(weeks(SOUND, 1, is_newcomer=True), "A", rounds=1),
    ),
    Spoiled(
        "the coach set 2 of 3",
        coach_rounds_are_a_ceiling,
        says(SOUND, word(2)),
        ((ADA, "3 rounds; the coach set 2"),),
    ),
    Spoiled("the coach set 3", coach_rounds_are_a_ceiling, says(SOUND, word(3))),
    Spoiled(
        "the coach set 2 of another block", coach_rounds_are_a_ceiling, says(SOUND, word(2, "B"))
    ),
    Spoiled(
        "the coach set 0 of a block of one",
        coach_rounds_are_a_ceiling,
        says(block(SOUND, "A", rounds=1), word(0)),
    ),
    Spoiled("a guest with 2", guests_do_little, rounds(GUEST, 2)),
    Spoiled(
        "a guest with 3", guests_do_little, GUEST, ((ADA, "a guest with 3 rounds, more than 2"),)
    ),
    Spoiled("a guest by the coach's word", guests_do_little, says(GUEST, word(3))),
    Spoiled(
        "a guest of whose rounds the coach said nothing",
        guests_do_little,
        says(GUEST, word()),
        TOO_MANY,
    ),
    Spoiled(
        "a guest where the coach allows 3", guests_do_little, change_settings(GUEST, guest_rounds=3)
    ),
    Spoiled("a guest in a block of one round", guests_do_little, block(GUEST, "A", rounds=1)),
    *(
        Spoiled(
            f"step {key} with {changes}",
            sets_and_repetitions_are_those_of_the_routine,
            change_exercise(SOUND, "A1", key, **changes),
            ((f"{ADA}.exercises[{place}]", sentence),) if sentence else (),
        )
        for key, place, changes, sentence in (
            ("1", 0, {"repetitions_per_set": 4}, "4 repetitions a set; the routine has 5"),
            ("1", 0, {"repetitions_per_set": 6}, "6 repetitions a set; the routine has 5"),
            ("D2", 7, {"repetitions_per_set": 17}, "17 repetitions a set; the routine has 16"),
            ("C1", 5, {"repetitions_per_set": 2}, "2 repetitions a set; the routine has 6"),
            ("1", 0, {"sets": 2}, "2 sets; the routine has 1"),
            ("B1", 3, {"sets": 2}, "2 sets; the routine has 1"),
            ("D1", 6, {"sets": 4}, "4 sets; the routine has 3"),
            ("D1", 6, {"sets": 0}, "0 sets; the routine has 3"),
            ("D1", 6, {"sets": 1}, ""),
            ("1", 0, {"exercise": "snatch-grip-deadlift", "repetitions_per_set": 9}, ""),
        )
    ),
    Spoiled(
        "sets of two rounds",
        sets_and_repetitions_are_those_of_the_routine,
        block(change_exercise(SOUND, "A1", "D1", sets=6), "D", rounds=2),
    ),
    Spoiled(
        "more than the sets of two rounds",
        sets_and_repetitions_are_those_of_the_routine,
        block(change_exercise(SOUND, "A1", "D1", sets=7), "D", rounds=2),
        ((f"{ADA}.exercises[6]", "7 sets; the routine has 6"),),
    ),
    Spoiled(
        "a contact too many in an exercise",
        contacts_are_counted_right,
        change_exercise(SOUND, "A1", "C1", contacts=13),
        ((f"{ADA}.exercises[5]", "13 contacts; counted again: 12"),),
    ),
    Spoiled(
        "contacts where there are none",
        contacts_are_counted_right,
        change_exercise(SOUND, "A1", "D2", contacts=1),
        ((f"{ADA}.exercises[7]", "1 contacts; counted again: 0"),),
    ),
    *(
        Spoiled(
            f"{total} contacts in all",
            contacts_are_counted_right,
            change_dose(SOUND, "A1", contacts=total),
            ((ADA, f"{total} contacts; the run sheet has 35"),),
        )
        for total in (34, 36)
    ),
    Spoiled(
        "a throw too many in an exercise",
        throws_are_counted_right,
        change_exercise(SOUND, "A1", "B1", throws=7),
        ((f"{ADA}.exercises[3]", "7 throws; counted again: 6"),),
    ),
    *(
        Spoiled(
            f"{total} throws in all",
            throws_are_counted_right,
            change_dose(SOUND, "A1", throws=total),
            ((ADA, f"{total} throws; the run sheet has 12"),),
        )
        for total in (11, 13)
    ),
    Spoiled(
        "work in a block that is none is not counted",
        throws_are_counted_right,
        change_dose(change_exercise(SOUND, "A1", "B1", block="Nowhere"), "A1", throws=0),
    ),
    # Half of 3 sets are 2, of 2 sets 1; press-ups are no jumps.
    Spoiled(
        "15, all sets",
        the_young_jump_less,
        FIFTEEN,
        (
            (f"{ADA}.exercises[5]", "age 15: 2 sets of jumps, more than 1"),
            (f"{ADA}.exercises[6]", "age 15: 3 sets of jumps, more than 2"),
        ),
    ),
    Spoiled(
        "15, half of them",
        the_young_jump_less,
        change_exercise(change_exercise(FIFTEEN, "A1", "C1", sets=1), "A1", "D1", sets=2),
    ),
    Spoiled("16 today", the_young_jump_less, born(2010, 3, 2)),
    Spoiled(
        "15, one set is always left",
        the_young_jump_less,
        change_settings(
            change_exercise(change_exercise(FIFTEEN, "A1", "C1", sets=1), "A1", "D1", sets=1),
            youth_contacts_fraction=0.0,
        ),
    ),
)


@pytest.mark.parametrize("spoiled", CASES, ids=str)
def test_a_plan_spoiled_in_one_way_has_exactly_that_fault(spoiled: Spoiled) -> None:
    assert found(spoiled) == spoiled.faults


def test_each_fault_about_amounts_is_raised_by_some_case(monkeypatch: pytest.MonkeyPatch) -> None:
    assert lines_raised(amounts, CASES, monkeypatch) == lines_that_raise(amounts)


def test_an_exercise_that_lands_on_hands_alone_has_no_contact() -> None:
    names = ("push-up", "clap-push-up", "feet-on-box-hands-to-boxes", "over-and-back-ball-push-up")
    assert [landings_of(exercise(name)) for name in names] == [0, 0, 0, 0]


def test_landings_of_the_feet_are_added_up_and_those_at_each_box_of_a_row() -> None:
    # By the descriptions of the exercises: each foot or both together meeting floor or box.
    counts = {"squat-jump": 1, "over-and-back-box-push-off": 4, "depth-jump": 2}
    rows = {"row-hop-over": 1, "row-onto-and-off": 2, "row-up-gap-up-back-over": 5}
    assert {name: landings_of(exercise(name)) for name in counts} == counts
    assert {name: landings_of(exercise(name)) for name in rows} == rows


def test_sets_of_a_swapped_exercise_are_its_own() -> None:
    swapped = change_exercise(SOUND, "A1", "D1", exercise="tuck-jump", sets=9)
    each = Spoiled("swapped", sets_and_repetitions_are_those_of_the_routine, swapped)
    assert found(replace(each)) == ()
