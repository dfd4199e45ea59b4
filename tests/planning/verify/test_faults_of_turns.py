"""Each fault about turns, rest and warmth, raised by a plan spoiled in exactly that way."""

from dataclasses import replace

import pytest

from planning.plan_changes import (
    Case,
    change_dose,
    change_settings,
    check_in,
    with_line,
)
from planning.verify.sound_plan import DOSES, SHEET, SHOWN, SOUND
from planning.verify.spoiled import (
    Spoiled,
    block,
    found,
    line,
    lines_raised,
    lines_that_raise,
    without_lines,
)
from squadwright.model.plan import RunLine
from squadwright.model.routine import Rest, RestKind
from squadwright.model.session import CheckIn, Presence
from squadwright.planning.verify import turns
from squadwright.planning.verify.turns import (
    all_work_on_the_sheet_is_in_a_dose,
    everybody_is_warm_before_work,
    nobody_starts_before_he_is_here,
    rest_is_long_enough,
    rounds_on_the_sheet_are_those_of_the_dose,
    sets_on_the_sheet_are_those_of_the_dose,
)

WAVE_1, WAVE_2 = SHOWN[:2], SHOWN[2:]
ADA = f"doses[0] ({SHOWN[0]})"


def helps(start_s: int, end_s: int, athlete: str = "A1") -> RunLine:
    return RunLine(start_s, end_s, "door", "door", None, "help", athletes=(athlete,))


def late(minutes: int, case: Case = SOUND) -> Case:
    return check_in(case, CheckIn("A1", Presence.LATE, late_minutes=minutes))


def circuit_dose(*without: str) -> Case:
    """Her dose is the circuit alone."""
    own = tuple(e for e in DOSES[0].exercises if e.step in ("B1", "B2") and e.step not in without)
    return change_dose(SOUND, "A1", exercises=own, block="B", rounds=2)


def rests(name: str, rest: Rest) -> Case:
    return block(SOUND, name, rest=rest)


def too_short(rest_s: int, owed_s: int, *at: tuple[int, str]) -> tuple[tuple[str, str], ...]:
    return tuple(
        (f"run_sheet at {at_s} s", f"{name} rests {rest_s} s; the routine owes {owed_s} s")
        for at_s, name in at
    )


SECOND_ROUND = (*((1180, name) for name in WAVE_1), *((1240, name) for name in WAVE_2))
# Pair 1 does the press-ups between its first two sets of jumps.
BETWEEN = with_line(SOUND, replace(SHEET[27], start_s=2005, end_s=2035))

CASES = (
    Spoiled(
        "a round missing",
        rounds_on_the_sheet_are_those_of_the_dose,
        without_lines(SOUND, 5),
        tuple(
            (
                f"doses[{n}] ({name})",
                "step 1: works in rounds 1, 3 of the sheet; the dose says 1, 2, 3",
            )
            for n, name in enumerate(WAVE_1)
        ),
    ),
    Spoiled(
        "a round twice",
        rounds_on_the_sheet_are_those_of_the_dose,
        line(SOUND, 5, round=1, athletes=("A1",)),
        (
            (ADA, "step 1: works in rounds 1, 1, 3 of the sheet; the dose says 1, 2, 3"),
            (
                f"doses[1] ({SHOWN[1]})",
                "step 1: works in rounds 1, 3 of the sheet; the dose says 1, 2, 3",
            ),
        ),
    ),
    Spoiled(
        "joins in round 2",
        rounds_on_the_sheet_are_those_of_the_dose,
        change_dose(line(SOUND, 3, athletes=("A2",)), "A1", first_round=2, rounds=2),
    ),
    Spoiled(
        "none at all",
        rounds_on_the_sheet_are_those_of_the_dose,
        change_dose(without_lines(SOUND, 3, 5, 7), "A2", exercises=()),
        ((ADA, "step 1: works in rounds none of the sheet; the dose says 1, 2, 3"),),
    ),
    Spoiled("a circuit", rounds_on_the_sheet_are_those_of_the_dose, circuit_dose()),
    Spoiled(
        "a round of one station missing",
        rounds_on_the_sheet_are_those_of_the_dose,
        line(circuit_dose(), 15, athletes=("A2",)),
        ((ADA, "step B2: works in rounds 1 of the sheet; the dose says 1, 2"),),
    ),
    Spoiled(
        "a set missing",
        sets_on_the_sheet_are_those_of_the_dose,
        line(SOUND, 21, athletes=("A2",)),
        ((f"{ADA}.exercises[6]", "2 turns on the sheet; the dose asks for 3 a round"),),
    ),
    Spoiled(
        "a pass missing",
        sets_on_the_sheet_are_those_of_the_dose,
        line(SOUND, 17, athletes=("A2", "A3", "A4")),
        ((f"{ADA}.exercises[5]", "3 turns on the sheet; the dose asks for 4 a round"),),
    ),
    Spoiled(
        "three sets of three in two rounds",
        sets_on_the_sheet_are_those_of_the_dose,
        block(SOUND, "D", rounds=2),
    ),
    Spoiled(
        "six sets of three in two rounds",
        sets_on_the_sheet_are_those_of_the_dose,
        block(
            SOUND.with_plan(
                run_sheet=(*SHEET, *(replace(SHEET[n], athletes=("A1",)) for n in (21, 23, 25)))
            ),
            *("D",),
            rounds=2,
        ),
    ),
    Spoiled(
        "six sets of three in one round",
        sets_on_the_sheet_are_those_of_the_dose,
        SOUND.with_plan(
            run_sheet=(*SHEET, *(replace(SHEET[n], athletes=("A1",)) for n in (21, 23, 25)))
        ),
        ((f"{ADA}.exercises[6]", "6 turns on the sheet; the dose asks for 3 a round"),),
    ),
    Spoiled(
        "a station that her dose leaves out",
        all_work_on_the_sheet_is_in_a_dose,
        circuit_dose("B1").with_plan(run_sheet=SHEET[9:17]),
        tuple(
            (f"run_sheet[{n}]", "Ada Brink, A1 works at step B1, which is not in the dose")
            for n in (0, 4)
        ),
    ),
    Spoiled(
        "a complex that her dose leaves out",
        all_work_on_the_sheet_is_in_a_dose,
        circuit_dose().with_plan(run_sheet=SHEET[:9]),
        tuple(
            (f"run_sheet[{n}]", "Ada Brink, A1 works at step A, which is not in the dose")
            for n in (3, 5, 7)
        ),
    ),
    Spoiled(
        "a part of the complex",
        all_work_on_the_sheet_is_in_a_dose,
        change_dose(SOUND, "A1", exercises=DOSES[0].exercises[1:]),
    ),
    Spoiled("a second short", rest_is_long_enough, rests("A", Rest(seconds=121))),
    Spoiled(
        "two seconds short",
        rest_is_long_enough,
        rests("A", Rest(seconds=122)),
        too_short(
            *(120, 122),
            *((1180, SHOWN[0]), (1180, SHOWN[1]), (1240, SHOWN[2]), (1240, SHOWN[3])),
        ),
    ),
    Spoiled("twice", rest_is_long_enough, rests("A", Rest(RestKind.WORK_TO_REST, ratio=2.0))),
    Spoiled(
        "a little more than twice the work",
        rest_is_long_enough,
        rests("A", Rest(RestKind.WORK_TO_REST, ratio=2.04)),
        too_short(120, 122, *SECOND_ROUND),
    ),
    Spoiled(
        "while the partner works",
        rest_is_long_enough,
        rests("A", Rest(RestKind.PARTNER_WORKS, seconds=600, ratio=9)),
    ),
    Spoiled("a circuit owes none", rest_is_long_enough, rests("B", Rest(seconds=600))),
    Spoiled(
        "between sets",
        rest_is_long_enough,
        rests("D", Rest(seconds=62)),
        too_short(60, 62, *((2060, name) for name in SHOWN)),
    ),
    Spoiled(
        "another step between the first two sets",
        rest_is_long_enough,
        block(BETWEEN, "D", rest=Rest(seconds=62)),
        too_short(
            *(60, 62),
            *((2140, SHOWN[0]), (2140, SHOWN[1]), (2060, SHOWN[2]), (2060, SHOWN[3])),
        ),
    ),
    Spoiled(
        "the same step of the other pair between them",
        rest_is_long_enough,
        block(
            with_line(SOUND, replace(SHEET[27], start_s=2005, end_s=2035, group="Pair 2")),
            *("D",),
            rest=Rest(seconds=62),
        ),
        too_short(
            *(60, 62),
            *((2060, SHOWN[0]), (2060, SHOWN[1]), (2140, SHOWN[2]), (2140, SHOWN[3])),
        ),
    ),
    Spoiled(
        "warm for the least",
        everybody_is_warm_before_work,
        change_settings(SOUND, least_warm_up_minutes=10),
    ),
    Spoiled(
        "warm for less",
        everybody_is_warm_before_work,
        change_settings(SOUND, least_warm_up_minutes=11),
        tuple(
            (
                "run_sheet",
                f"{name} has warmed up 600 s before the first work; the least is 660 s",
            )
            for name in SHOWN
        ),
    ),
    Spoiled("warm just before work", everybody_is_warm_before_work, line(SOUND, 2, end_s=1000)),
    Spoiled(
        "still warming up when work begins",
        everybody_is_warm_before_work,
        line(SOUND, 2, end_s=1001),
        tuple(
            (
                "run_sheet",
                f"{name} has warmed up 0 s before the first work; the least is 480 s",
            )
            for name in WAVE_1
        ),
    ),
    Spoiled(
        "late, the warm-up of all is not hers",
        everybody_is_warm_before_work,
        late(10),
        (
            (
                "run_sheet",
                "Ada Brink, A1 has warmed up 0 s before the first work; the least is 480 s",
            ),
        ),
    ),
    Spoiled(
        "late, warm on her own",
        everybody_is_warm_before_work,
        late(8, with_line(SOUND, replace(helps(500, 980), activity="warm-up"))),
    ),
    Spoiled(
        "late, on her own in two parts and a second short",
        everybody_is_warm_before_work,
        late(
            8,
            with_line(
                with_line(SOUND, replace(helps(500, 700), activity="warm-up")),
                replace(helps(700, 979), activity="warm-up"),
            ),
        ),
        (
            (
                "run_sheet",
                "Ada Brink, A1 has warmed up 479 s before the first work; the least is 480 s",
            ),
        ),
    ),
    Spoiled(
        "nothing to do",
        everybody_is_warm_before_work,
        SOUND.with_plan(run_sheet=(SHEET[0], SHEET[1])),
    ),
    # 17 minutes are 1020 s.
    Spoiled(
        "here at once",
        nobody_starts_before_he_is_here,
        late(17, line(SOUND, 3, start_s=1020)),
    ),
    Spoiled(
        "a second before she is here",
        nobody_starts_before_he_is_here,
        late(17, line(SOUND, 3, start_s=1019)),
        (("run_sheet", "Ada Brink, A1 has a line at 1019 s and comes at 1020 s"),),
    ),
    Spoiled(
        "late with nothing to do",
        nobody_starts_before_he_is_here,
        late(17).with_plan(run_sheet=SHEET[:3]),
    ),
)


@pytest.mark.parametrize("spoiled", CASES, ids=str)
def test_a_plan_spoiled_in_one_way_has_exactly_that_fault(spoiled: Spoiled) -> None:
    assert found(spoiled) == spoiled.faults


def test_each_fault_about_turns_is_raised_by_some_case(monkeypatch: pytest.MonkeyPatch) -> None:
    assert lines_raised(turns, CASES, monkeypatch) == lines_that_raise(turns)
