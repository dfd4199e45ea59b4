"""Each fault about balls and boxes, raised by a plan spoiled in exactly that way."""

from dataclasses import replace
from datetime import date

import pytest

from planning.plan_changes import Case, change_athlete, change_exercise
from planning.verify.sound_plan import SOUND, TODAY
from planning.verify.spoiled import (
    Spoiled,
    found,
    group,
    line,
    lines_raised,
    lines_that_raise,
    piece,
)
from squadwright.library import exercise
from squadwright.model.athlete import MassReading
from squadwright.planning.verify import pieces
from squadwright.planning.verify.day import ON_HIS_OWN, read_day
from squadwright.planning.verify.pieces import (
    ball_and_box_are_named_where_needed,
    ball_ceiling_kg,
    ball_is_light_enough,
    ball_suits_the_exercise,
    box_is_sound,
    lands_on_box,
    there_are_enough_balls,
)
from squadwright.units import kilograms

ADA = "doses[0] (Ada Brink, A1)"
PASS, JUMP, ROW, PRESS_UP = (f"{ADA}.exercises[{n}]" for n in (3, 4, 5, 7))
UP = "Jump to box, step down"
NO_BALL = {"ball": None, "ball_kg": None}
NO_BOX = {"box": None, "box_height_m": None}
SLAM = {"ball": "slam-4", "ball_kg": 4.0}


def weighs(case: Case, athlete: str, mass_kg: str) -> Case:
    reading = MassReading(kilograms(mass_kg), TODAY)
    return change_athlete(case, athlete, body_mass=(reading,))


def throws(case: Case = SOUND, **changes: object) -> Case:
    return change_exercise(case, "A1", "B1", **changes)


HEAVIER = throws(ball_kg=4.0)
LIGHTER_MATE = weighs(HEAVIER, "A2", "54.9")
# Both pairs throw at once.
AT_ONCE = line(SOUND, 10, step="B1")
ONE_BALL = piece(AT_ONCE, "balls", "ball-3", count=1)
BOX_1 = piece(SOUND, "boxes", "box-1", maximum_body_mass=kilograms(70))

CASES = (
    *(
        Spoiled(
            f"step {key} with {changes}",
            ball_and_box_are_named_where_needed,
            change_exercise(SOUND, "A1", key, **changes),
            ((place, sentence),),
        )
        for key, place, changes, sentence in (
            ("B1", PASS, NO_BALL, "Standing chest pass needs a ball; it has None"),
            ("B1", PASS, {"ball": None}, "Standing chest pass needs a ball; it has None"),
            ("B1", PASS, {"ball_kg": None}, "Standing chest pass needs a ball; it has ball-3"),
            ("D2", PRESS_UP, {"ball": "ball-3"}, "Push-up needs no ball; it has ball-3"),
            ("D2", PRESS_UP, {"ball_kg": 3.0}, "Push-up needs no ball; it has None"),
            ("B2", JUMP, NO_BOX, f"{UP} needs a box; it has None"),
            (
                "B2",
                JUMP,
                {"box_height_m": None},
                f"{UP} needs a box; it has box-1",
            ),
            ("D2", PRESS_UP, {"box": "box-1"}, "Push-up needs no box; it has box-1"),
            ("D2", PRESS_UP, {"box_height_m": 0.3}, "Push-up needs no box; it has None"),
        )
    ),
    *(
        Spoiled(why, ball_suits_the_exercise, case, ((PASS, sentence),) if sentence else ())
        for why, case, sentence in (
            ("one that is not there", throws(ball="ball-9"), "ball-9 is not a ball in service"),
            ("half a gram off", throws(ball_kg=3.0004), ""),
            ("a gram off", throws(ball_kg=3.001), "ball-3 weighs 3 kg, not 3.001 kg"),
            ("a gram less", throws(ball_kg=2.999), "ball-3 weighs 3 kg, not 2.999 kg"),
            ("no mass", throws(ball_kg=None), "ball-3 weighs 3 kg, not None kg"),
            ("no ball", throws(**NO_BALL), ""),
            ("to a wall", throws(exercise="chest-pass-to-wall"), ""),
            (
                "to a wall, a ball that does not bounce",
                throws(exercise="chest-pass-to-wall", **SLAM),
                "slam-4 does not bounce",
            ),
            ("slammed", throws(exercise="overhead-slam", **SLAM), ""),
            (
                "slammed, a ball that bounces",
                throws(exercise="overhead-slam"),
                "ball-3 bounces",
            ),
        )
    ),
    Spoiled(
        "out of service",
        ball_suits_the_exercise,
        piece(SOUND, "balls", "ball-3", in_service=False),
        tuple(
            (f"doses[{n}] ({name}, A{n + 1}).exercises[3]", "ball-3 is not a ball in service")
            for n, name in enumerate(("Ada Brink", "Bo Calder", "Cil Dorn", "Dag Elster"))
        ),
    ),
    Spoiled(
        "not fit for walls, thrown at one",
        ball_suits_the_exercise,
        piece(throws(exercise="chest-pass-to-wall"), "balls", "ball-3", fit_for_walls=False),
        ((PASS, "ball-3 is not fit for walls"),),
    ),
    *(
        Spoiled(
            f"{ball_kg} kg at 70 kg of body mass",
            ball_is_light_enough,
            throws(ball_kg=ball_kg),
            ((PASS, "a ball of 4.001 kg; the most for Ada Brink, A1 is 4 kg"),)
            if ball_kg > 4.0005
            else (),
        )
        for ball_kg in (4.0, 4.0004, 4.001)
    ),
    Spoiled(
        "the lighter of two who catch it",
        ball_is_light_enough,
        LIGHTER_MATE,
        ((PASS, "a ball of 4 kg; the most for Bo Calder, A2 is 3 kg"),),
    ),
    Spoiled(
        "nobody catches it",
        ball_is_light_enough,
        change_exercise(LIGHTER_MATE, "A1", "B1", exercise="overhead-slam"),
    ),
    Spoiled(
        "her mate does something else",
        ball_is_light_enough,
        change_exercise(LIGHTER_MATE, "A2", "B1", exercise="overhead-pass"),
    ),
    Spoiled("a light one in another pair", ball_is_light_enough, weighs(HEAVIER, "A3", "54.9")),
    Spoiled("two pairs with two balls", there_are_enough_balls, AT_ONCE),
    Spoiled(
        "two pairs with one ball",
        there_are_enough_balls,
        ONE_BALL,
        (("run_sheet at 1500 s", "2 groups use ball-3; there are 1"),),
    ),
    Spoiled(
        "one after the other with one ball",
        there_are_enough_balls,
        line(ONE_BALL, 10, start_s=1560, end_s=1620),
    ),
    Spoiled(
        "a second too early with one ball",
        there_are_enough_balls,
        line(ONE_BALL, 10, start_s=1559, end_s=1620),
        (("run_sheet at 1559 s", "2 groups use ball-3; there are 1"),),
    ),
    Spoiled(
        "everyone on her own with one ball",
        there_are_enough_balls,
        group(piece(SOUND, "balls", "ball-3", count=1), 2, kind=ON_HIS_OWN),
        (("run_sheet at 1500 s", "2 groups use ball-3; there are 1"),),
    ),
    Spoiled(
        "a ball that is not there",
        there_are_enough_balls,
        change_exercise(ONE_BALL, "A1", "B1", ball="ball-9"),
        # Her mate still holds the one that is.
        (("run_sheet at 1500 s", "2 groups use ball-3; there are 1"),),
    ),
    *(
        Spoiled(why, box_is_sound, case, ((JUMP, sentence),) if sentence else ())
        for why, case, sentence in (
            (
                "not there",
                change_exercise(SOUND, "A1", "B2", box="box-9"),
                "box-9 is not a box in service",
            ),
            ("its other height", change_exercise(SOUND, "A1", "B2", box_height_m=0.5), ""),
            (
                "a height it has not",
                change_exercise(SOUND, "A1", "B2", box_height_m=0.4),
                "box-1 stands at 0.3, 0.5 m, not 0.4 m",
            ),
            ("no box", change_exercise(SOUND, "A1", "B2", **NO_BOX), ""),
            ("carries 70 kg", BOX_1, ""),
        )
    ),
    Spoiled(
        "out of service",
        box_is_sound,
        piece(change_exercise(SOUND, "A1", "B2", box="box-2"), "boxes", "box-2", in_service=False),
        ((JUMP, "box-2 is not a box in service"),),
    ),
    Spoiled(
        "not fit for landing",
        box_is_sound,
        piece(
            change_exercise(SOUND, "A1", "B2", box="box-2"), "boxes", "box-2", fit_for_landing=False
        ),
        ((JUMP, "box-2 is not fit for landing"),),
    ),
    Spoiled(
        "not fit for landing, with hands on it",
        box_is_sound,
        piece(
            change_exercise(SOUND, "A1", "B2", box="box-2", exercise="hands-on-box-push-up"),
            *("boxes", "box-2"),
            fit_for_landing=False,
        ),
    ),
    *(
        Spoiled(
            f"body mass {said}",
            box_is_sound,
            case,
            tuple((place, f"box-1 carries 70 kg; body mass {said}") for place in (JUMP, ROW)),
        )
        for said, case in (
            ("70.1 kg", weighs(BOX_1, "A1", "70.1")),
            ("unknown", change_athlete(BOX_1, "A1", body_mass=())),
        )
    ),
)


@pytest.mark.parametrize("spoiled", CASES, ids=str)
def test_a_plan_spoiled_in_one_way_has_exactly_that_fault(spoiled: Spoiled) -> None:
    assert found(spoiled) == spoiled.faults


def test_each_fault_about_pieces_is_raised_by_some_case(monkeypatch: pytest.MonkeyPatch) -> None:
    assert lines_raised(pieces, CASES, monkeypatch) == lines_that_raise(pieces)


@pytest.mark.parametrize(
    ("mass_kg", "grown_kg", "young_kg"),
    [
        (None, 3, 2),
        ("54.9", 3, 2),
        ("55", 4, 3),
        ("74.9", 4, 3),
        ("75", 6, 4),
        ("94.9", 6, 4),
        ("95", 6, 6),
    ],
)
def test_the_heaviest_ball_goes_by_body_mass_and_the_young_have_one_step_less(
    mass_kg: str | None, grown_kg: float, young_kg: float
) -> None:
    # The classes are the project's own (no published source).
    club = SOUND.club
    readings = () if mass_kg is None else (MassReading(kilograms(mass_kg), TODAY),)
    born = {16: date(2010, 3, 2), 15: date(2010, 3, 3)}
    for age, most_kg in ((16, grown_kg), (15, young_kg)):
        case = change_athlete(SOUND, "A1", body_mass=readings, birth_date=born[age])
        assert ball_ceiling_kg(read_day(case.club, case.session, case.plan), "A1") == most_kg
    assert replace(SOUND, club=club) == SOUND


def test_feet_that_come_down_on_a_box_or_from_one_ask_for_a_box_fit_for_landing() -> None:
    on = ("jump-to-box", "step-off-and-stick", "row-hop-over", "over-and-back-box-push-off")
    beside = ("over-and-back-box-jump", "seated-start-broad-jump", "squat-jump", "push-up")
    by_hand = ("hands-on-box-drive-push-up", "feet-on-box-hands-to-boxes", "fall-to-box-push-up")
    assert [lands_on_box(exercise(name)) for name in on] == [True] * 4
    assert [lands_on_box(exercise(name)) for name in (*beside, *by_hand)] == [False] * 7
