"""Each fault about time and place, raised by a plan spoiled in exactly that way."""

from dataclasses import replace

import pytest

from planning.plan_changes import (
    Case,
    change_kit,
    check_in,
    with_line,
)
from planning.verify.sound_plan import DOSES, SHEET, SHOWN, SOUND
from planning.verify.spoiled import (
    Spoiled,
    found,
    line,
    lines_raised,
    lines_that_raise,
    piece,
    session,
)
from squadwright.model.kit import Box
from squadwright.model.plan import RunLine
from squadwright.model.session import CheckIn, Presence
from squadwright.planning.verify import run_sheet
from squadwright.planning.verify.run_sheet import (
    a_piece_of_kit_is_in_one_place,
    lines_are_for_people_of_the_plan,
    lines_are_in_order,
    lines_end_after_they_start,
    lines_lie_inside_the_slot,
    nobody_is_in_two_places,
    there_are_boxes_for_all_at_once,
    waves_take_turns_on_a_bar,
)

WAVE_1 = SHOWN[:2]
BOXES = tuple(Box(f"box-{n}", (0.3, 0.5)) for n in range(1, 5))
OTHER_HEIGHTS = tuple(Box(f"other-{n}", (0.4,)) for n in range(1, 5))


def helps(start_s: int, end_s: int, athlete: str = "A1") -> RunLine:
    return RunLine(start_s, end_s, "door", "door", None, "help", athletes=(athlete,))


def swapped(first: int) -> Case:
    lines = list(SHEET)
    lines[first], lines[first + 1] = lines[first + 1], lines[first]
    return SOUND.with_plan(run_sheet=tuple(lines))


def late(minutes: int, case: Case = SOUND) -> Case:
    return check_in(case, CheckIn("A1", Presence.LATE, late_minutes=minutes))


def all_jump_at_once() -> Case:
    """In the sets everybody jumps to a box of 0.3 m, each for herself."""
    doses = []
    for dose in DOSES:
        jump = replace(*(next(e for e in dose.exercises if e.step == "B2"),), step="D1", block="D")
        doses.append(
            replace(dose, exercises=tuple(jump if e.step == "D1" else e for e in dose.exercises))
        )
    return SOUND.with_plan(doses=tuple(doses))


BOTH_BALLS = line(SOUND, 10, kit=("ball-3",))
CASES = (
    Spoiled("two at one time", lines_are_in_order, swapped(9)),
    Spoiled(
        "one after a later one",
        lines_are_in_order,
        swapped(3),
        (("run_sheet[4]", "starts at 1000 s, after a line that starts at 1060 s"),),
    ),
    Spoiled("a second", lines_end_after_they_start, line(SOUND, 31, end_s=2401)),
    *(
        Spoiled(
            f"{end_s - 2400} s long",
            lines_end_after_they_start,
            line(SOUND, 31, end_s=end_s),
            (("run_sheet[31]", f"from 2400 s to {end_s} s"),),
        )
        for end_s in (2400, 2399)
    ),
    Spoiled("to the end of the slot", lines_lie_inside_the_slot, line(SOUND, 31, end_s=3600)),
    Spoiled(
        "over its end",
        lines_lie_inside_the_slot,
        line(SOUND, 31, end_s=3601),
        (("run_sheet[31]", "close from 2400 s to 3601 s; the slot is 0 to 3600 s"),),
    ),
    Spoiled(
        "before it, and no set-up",
        lines_lie_inside_the_slot,
        line(SOUND, 1, start_s=-1),
        (("run_sheet[1]", "arrive from -1 s to 360 s; the slot is 0 to 3600 s"),),
    ),
    Spoiled("45 minutes are left", lines_lie_inside_the_slot, session(SOUND, minutes_left=45)),
    Spoiled(
        "44 minutes are left",
        lines_lie_inside_the_slot,
        session(SOUND, minutes_left=44),
        (("run_sheet[31]", "close from 2400 s to 2700 s; the slot is 0 to 2640 s"),),
    ),
    Spoiled("for ALL", lines_are_for_people_of_the_plan, line(SOUND, 31, group="ALL")),
    Spoiled("for Everyone", lines_are_for_people_of_the_plan, line(SOUND, 31, group="Everyone")),
    Spoiled("for the Coach", lines_are_for_people_of_the_plan, line(SOUND, 31, group="Coach")),
    Spoiled("for WAVE 1", lines_are_for_people_of_the_plan, line(SOUND, 3, group="WAVE 1")),
    *(
        Spoiled(
            f"for {changes}",
            lines_are_for_people_of_the_plan,
            line(SOUND, 3, **changes),
            (("run_sheet[3]", sentence),),
        )
        for changes, sentence in (
            ({"group": "ghosts"}, "'ghosts' stands for nobody of the plan"),
            ({"block": "B"}, "'Wave 1' stands for nobody of the plan"),
            ({"athletes": ("A1", "A9")}, "A9 is not an athlete of the session"),
        )
    ),
    Spoiled("one after the other", nobody_is_in_two_places, with_line(SOUND, helps(1060, 1100))),
    Spoiled(
        "help from the last second of work",
        nobody_is_in_two_places,
        with_line(SOUND, helps(1059, 1100)),
        (
            (
                "run_sheet",
                f"{SHOWN[0]} has work (1000 to 1060 s) and help (1059 to 1100 s) at the same time",
            ),
        ),
    ),
    Spoiled(
        "work while all close",
        nobody_is_in_two_places,
        line(SOUND, 29, end_s=2401),
        tuple(
            (
                "run_sheet",
                f"{name} has work (2270 to 2401 s) and close (2400 to 2700 s) at the same time",
            )
            for name in WAVE_1
        ),
    ),
    Spoiled("work until all close", nobody_is_in_two_places, line(SOUND, 29, end_s=2400)),
    Spoiled("help while all close", nobody_is_in_two_places, with_line(SOUND, helps(2300, 2401))),
    Spoiled(
        "who comes late works while all warm up",
        nobody_is_in_two_places,
        late(1, with_line(SOUND, replace(helps(400, 500), activity="work"))),
    ),
    Spoiled(
        "who is on time works while all warm up",
        nobody_is_in_two_places,
        with_line(SOUND, replace(helps(400, 500), activity="work")),
        (
            (
                "run_sheet",
                f"{SHOWN[0]} has work (400 to 500 s) and warm-up (360 to 960 s) at the same time",
            ),
        ),
    ),
    Spoiled(
        "a second too early on both bars",
        waves_take_turns_on_a_bar,
        line(SOUND, 4, start_s=1059),
        (
            (
                "run_sheet",
                "bar-1 is used by Ada Brink, A1 until 1060 s and by Cil Dorn, A3 from 1059 s",
            ),
            (
                "run_sheet",
                "bar-2 is used by Bo Calder, A2 until 1060 s and by Dag Elster, A4 from 1059 s",
            ),
        ),
    ),
    Spoiled(
        "bars of no block, a second too early",
        waves_take_turns_on_a_bar,
        line(
            SOUND.with_plan(
                bars=(replace(SOUND.plan.bars[0], block=""),), run_sheet=SHEET[:9], groups=()
            ),
            *(4,),
            start_s=1059,
            athletes=("A3",),
        ).with_plan(
            run_sheet=(
                replace(SHEET[3], athletes=("A1",)),
                replace(SHEET[4], athletes=("A3",), start_s=1059),
            )
        ),
        (
            (
                "run_sheet",
                "bar-1 is used by Ada Brink, A1 until 1060 s and by Cil Dorn, A3 from 1059 s",
            ),
        ),
    ),
    Spoiled(
        "who has no bar may work at any time",
        waves_take_turns_on_a_bar,
        line(SOUND, 4, start_s=1059).with_plan(bars=()),
    ),
    Spoiled(
        "one ball with two pairs",
        a_piece_of_kit_is_in_one_place,
        BOTH_BALLS,
        (("run_sheet", "ball-3 is with Pair 1 until 1560 s and with Pair 2 from 1500 s"),),
    ),
    Spoiled(
        "one ball, handed on",
        a_piece_of_kit_is_in_one_place,
        line(BOTH_BALLS, 10, start_s=1560, end_s=1575),
    ),
    Spoiled(
        "one ball, handed on a second before",
        a_piece_of_kit_is_in_one_place,
        line(BOTH_BALLS, 10, start_s=1559, end_s=1575),
        (("run_sheet", "ball-3 is with Pair 1 until 1560 s and with Pair 2 from 1559 s"),),
    ),
    Spoiled("one pair twice", a_piece_of_kit_is_in_one_place, line(BOTH_BALLS, 10, group="Pair 1")),
    Spoiled(
        "a bar is another rule's",
        a_piece_of_kit_is_in_one_place,
        line(line(SOUND, 3, kit=("bar-1",)), 4, kit=("bar-1",), start_s=1059),
    ),
    Spoiled("two boxes of three", there_are_boxes_for_all_at_once, line(SOUND, 9, step="B2")),
    Spoiled(
        "each pair a box of 0.3 m, one there",
        there_are_boxes_for_all_at_once,
        change_kit(line(SOUND, 9, step="B2"), boxes=(BOXES[0], *OTHER_HEIGHTS)),
        (
            (
                "run_sheet at 1500 s",
                "2 use at once a box of 0.3 m or 0.5 m; there are 1",
            ),
        ),
    ),
    Spoiled(
        "one pair after the other, one there",
        there_are_boxes_for_all_at_once,
        change_kit(
            line(SOUND, 9, step="B2", start_s=1560, end_s=1570), boxes=(BOXES[0], *OTHER_HEIGHTS)
        ),
    ),
    Spoiled(
        "everybody a box, four there",
        there_are_boxes_for_all_at_once,
        change_kit(all_jump_at_once(), boxes=BOXES),
    ),
    Spoiled(
        "everybody a box, three there",
        there_are_boxes_for_all_at_once,
        change_kit(all_jump_at_once(), boxes=(*BOXES[:3], *OTHER_HEIGHTS)),
        (("run_sheet at 1980 s", "4 use at once a box of 0.3 m or 0.5 m; there are 3"),),
    ),
    Spoiled(
        "a row of three, two there",
        there_are_boxes_for_all_at_once,
        piece(SOUND, "boxes", "box-3", in_service=False),
        (("run_sheet at 1820 s", "1 rows of 3 boxes and 0 boxes; 2 are in service"),),
    ),
    Spoiled(
        "a row of three and a box beside it, four there",
        there_are_boxes_for_all_at_once,
        change_kit(line(SOUND, 15, end_s=1821), boxes=BOXES),
    ),
    Spoiled(
        "a row of three and a box beside it, three there",
        there_are_boxes_for_all_at_once,
        line(SOUND, 15, end_s=1821),
        (("run_sheet at 1820 s", "1 rows of 3 boxes and 1 boxes; 3 are in service"),),
    ),
)


@pytest.mark.parametrize("spoiled", CASES, ids=str)
def test_a_plan_spoiled_in_one_way_has_exactly_that_fault(spoiled: Spoiled) -> None:
    assert found(spoiled) == spoiled.faults


def test_each_fault_about_time_and_place_is_raised(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    assert lines_raised(run_sheet, CASES, monkeypatch) == lines_that_raise(run_sheet)
