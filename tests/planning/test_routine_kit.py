"""What is said of the kit, the slot and the room of a routine, from what a trial came to."""

from dataclasses import replace
from typing import Any

import pytest

from planning.test_run_sheet_by_hand import ANN, BO, COMPLEX, sheet
from planning.verify.sound_plan import HALL, SESSION
from squadwright.model.athlete import Level
from squadwright.model.kit import Ball, Bar, Box, Kit, OtherKit, PlatePair
from squadwright.model.plan import BarPlan, BarUser, FloorPlan, GroupLine, Severity, StationPlace
from squadwright.model.routine import Block, CountedIn, LaneRule, Routine, Scheme, Step, Style
from squadwright.planning.block_plan import BlockPlan
from squadwright.planning.box import BoxChoice
from squadwright.planning.drill_groups import Fitting
from squadwright.planning.floor_plan import LaidOut, Low, NoRoom
from squadwright.planning.routine_check.finding import minutes_text
from squadwright.planning.routine_check.kit import kit_needed
from squadwright.planning.routine_check.slot import fits_the_room, fits_the_slot, length
from squadwright.planning.routine_check.trial import Trial, Tried
from squadwright.planning.run_sheet import CircuitBlock, CircuitStation, WorkGroup, lay_out
from squadwright.units import kilograms

BALLS = (
    Ball("b3", kilograms(3), 4),
    Ball("b3-too", kilograms(3), 1),
    Ball("s3", kilograms(3), 2, bounces=False),
)
EVERYTHING = Kit(
    bars=(Bar("bar", "Bar", kilograms(20)),),
    plates=(PlatePair("p", kilograms(5), 1),),
    balls=BALLS,
    other=(OtherKit("m", "Thin Mats", 1), OtherKit("r", "Pull-up BAR", 1)),
)


NO_MATS = "It wants mats, and the store has none."


def routine(*names: str, style: Style = Style.SETS, **more: Any) -> Routine:
    steps = tuple(Step(name, Scheme(CountedIn.REPETITIONS, 4)) for name in names)
    return Routine("r", 1, "R", "aim", (Block("M", style, steps, **more),))


def trial(*names: str, kit: Kit = EVERYTHING, **more: Any) -> Trial:
    return Trial(routine(*names), 4, Level.NOVICE, kit, SESSION, **more)


def tried(block: Block, **found: Any) -> BlockPlan:
    usual: dict[str, Any] = {"fittings": {}, "missing": (), "bars": (), "groups": ()}
    return BlockPlan(
        block=block,
        timed=None,
        step_of={},
        versions={},
        rounds={},
        targets={},
        bound=None,
        **(usual | found),
    )


def said(asked: Trial, *blocks: BlockPlan, **more: Any) -> str:
    (found,) = kit_needed(asked, Tried(blocks, **more))
    is_short = found.severity is Severity.WARNING
    assert bool(found.advice) == is_short
    return found.sentence


@pytest.mark.parametrize(
    ("name", "need", "lack", "words"),
    [
        ("push-up", "none", {}, ""),
        (
            "hands-land-on-plates-push-up",
            "plates for the hands",
            {"plates": ()},
            "It wants plates for the hands, and the store has none.",
        ),
        ("hip-bridge", "mats", {"other": EVERYTHING.other[1:]}, NO_MATS),
        (
            "pull-up",
            "a fixed bar",
            {"other": EVERYTHING.other[:1]},
            "It wants a fixed bar, and the store has none.",
        ),
        ("deadlift", "none", {"bars": ()}, "It wants a bar, and the store has none in service."),
    ],
)  # fmt: skip
def test_what_is_wanted_and_not_there_is_named(
    name: str, need: str, lack: dict[str, Any], words: str
) -> None:
    there = " The store has it all." if need != "none" else ""
    assert said(trial(name)) == f"Kit for 4 athletes: {need}.{there}"
    if lack:
        without = replace(EVERYTHING, **lack)
        assert said(trial(name, kit=without)) == f"Kit for 4 athletes: {need}. {words}"
        # What nobody wants may be lacking.
        assert said(trial("push-up", kit=without)) == "Kit for 4 athletes: none."
        (family,) = lack
        broken = tuple(replace(each, in_service=False) for each in getattr(EVERYTHING, family))
        out = replace(EVERYTHING, **{family: broken})
        assert words in said(trial(name, kit=out))


def test_bars_are_counted_with_the_waves_they_take() -> None:
    def bar(name: str, *waves: int) -> BarPlan:
        return BarPlan(name, name, 20, tuple(BarUser("a", w, 0, 0, ()) for w in waves))

    block = Block("A", Style.COMPLEX, routine("deadlift").blocks[0].steps, waves=2)
    three = tried(block, bars=(bar("1", 1, 2), bar("2", 1), bar("3", 1)))
    two = tried(block, bars=(bar("1", 1, 2, 3), bar("2", 1)))
    none = tried(routine("squat").blocks[0])
    asked = trial("push-up")
    assert said(asked, none, two, three).startswith("Kit for 4 athletes: 3 bars in 3 waves.")
    assert said(asked, tried(block, bars=(bar("1", 1),))).startswith(
        "Kit for 4 athletes: 1 bar in 1 wave."
    )


def test_balls_are_counted_by_group_and_by_the_block_that_needs_most() -> None:
    block = routine("standing-chest-pass").blocks[0]
    groups = (GroupLine("1", ("a", "b"), "pair", "M"), GroupLine("2", ("c", "d"), "pair", "M"))
    one_each = {(who, "k"): Fitting("b3", 3.0) for who in "abcd"}
    pairs = tried(block, groups=groups, fittings=one_each)
    alone = tried(block, fittings={("a", "k"): Fitting("b3", 3.0), ("b", "k"): Fitting("s3", 3.0)})
    more = tried(
        block, fittings={("a", "k"): Fitting("b3-too", 3.0), ("a", "l"): Fitting("b3-too", 3.0)}
    )
    asked = trial("push-up")
    assert said(asked, pairs).startswith("Kit for 4 athletes: 2 balls that bounce of 3 kg.")
    assert said(asked, alone).startswith(
        "Kit for 4 athletes: 1 ball that does not bounce of 3 kg, 1 ball that bounces of 3 kg."
    )
    # Two kinds alike are counted together.
    assert "3 balls that bounce of 3 kg" in said(asked, pairs, more)
    bare = tried(block, fittings={("a", "k"): Fitting()})
    assert said(asked, bare) == "Kit for 4 athletes: none."


def test_boxes_are_counted_by_kind_and_rows_by_their_length() -> None:
    def on(*names: str) -> dict[tuple[str, str], Fitting]:
        boxes = [Box(name, (0.3,) if name < "x" else (0.5, 0.6)) for name in names]
        return {(f"a{n}", "k"): Fitting(box=BoxChoice(b, 0.3, "")) for n, b in enumerate(boxes)}

    block = routine("jump-to-box").blocks[0]
    rows = replace(block, style=Style.LANES, lane=LaneRule(boxes=4))
    floor = replace(block, style=Style.LANES, lane=LaneRule())
    asked = trial("push-up")
    assert said(asked, tried(block, fittings=on("a", "b", "b", "x"))).startswith(
        "Kit for 4 athletes: 2 box 30 cm, 1 box 50/60 cm."
    )
    assert said(asked, tried(rows, fittings=on("a"))).startswith(
        "Kit for 4 athletes: 4 boxes in a row."
    )
    assert said(asked, tried(floor, fittings=on("a"))).startswith(
        "Kit for 4 athletes: 1 box 30 cm."
    )


def test_what_fits_nobody_is_told_with_how_many_lack_it() -> None:
    lacking = tried(routine("squat").blocks[0], missing=(("a", "M 1"), ("b", "M 1"), ("a", "M 2")))
    assert said(trial("push-up"), lacking, no_kit_for=("B",)) == (
        "Kit for 4 athletes: none. There is no ball or box that fits for B; 2 have no ball or box "
        "that fits in M 1 of M; 1 have no ball or box that fits in M 2 of M."
    )


@pytest.mark.parametrize(
    ("seconds", "text"), [(0, "0:00"), (59, "0:59"), (60, "1:00"), (125.4, "2:05")]
)
def test_seconds_as_minutes(seconds: float, text: str) -> None:
    assert minutes_text(seconds) == text


def plan_of(timed: object, style: Style = Style.COMPLEX) -> BlockPlan:
    block = Block("A", style, routine("squat").blocks[0].steps)
    return replace(tried(block), timed=timed)  # type: ignore[arg-type]


def test_how_long_the_work_takes_is_told_by_round_and_in_all() -> None:
    asked = sheet(3600)
    waves, drill = plan_of(COMPLEX), plan_of(asked.blocks[1], Style.SETS)
    (found,) = length(trial("squat"), Tried((waves, drill), lay_out(asked)))
    # 480 s of the complex and 50 s of drills; between two rounds 100 s, between two sets 10 s.
    assert found.sentence == (
        "One round is 1:00 of work, 2 waves. All the work takes 8:50 with 4 athletes."
    )
    assert found.why[:3] == (
        "A: 8:00.",
        "A: 0:50.",
        "Rest between rounds or sets: 0:10 or more.",
    )
    alone = replace(COMPLEX, users=(ANN,), rounds=1)
    one = lay_out(replace(asked, blocks=(alone,)))
    (found,) = length(trial("squat"), Tried((plan_of(alone),), one))
    assert found.sentence.startswith("One round is 1:00 of work. All the work takes 1:20")
    assert len(found.why) == 2
    (found,) = length(trial("squat"), Tried((waves, drill, drill), lay_out(asked)))
    assert found.sentence.startswith("All the work takes")


def test_a_circuit_tells_its_stations() -> None:
    stations = (CircuitStation("box", "jump"),)
    block = CircuitBlock("B", stations, (WorkGroup("g", ("ann",)),), 30, 15, 2)
    laid = lay_out(replace(sheet(3600), blocks=(block,)))
    (found,) = length(trial("squat"), Tried((plan_of(block, Style.CIRCUIT),), laid))
    assert found.sentence.startswith("Each station is 0:30 of work and 0:15 to move.")


def test_what_cannot_be_timed_says_why_and_nothing_of_the_slot() -> None:
    trouble = Tried(trouble="30 lifters on 6 bars.")
    (found,) = length(trial("squat"), trouble)
    assert (found.severity, found.sentence) == (
        Severity.WARNING,
        "It cannot be run so: 30 lifters on 6 bars.",
    )
    assert list(fits_the_slot(trial("squat"), trouble)) == []


@pytest.mark.parametrize(
    ("minutes", "sentence"),
    [
        (25, "It fits 25 minutes with 1:20 to spare."),
        (24, "It fits 24 minutes with 0:20 to spare."),
    ],
)
def test_what_is_left_of_the_slot(minutes: int, sentence: str) -> None:
    # All of it takes 1420 s.
    asked = replace(trial("squat"), session=replace(SESSION, minutes=minutes))
    (found,) = fits_the_slot(asked, Tried((), lay_out(sheet(3600))))
    assert (found.severity, found.sentence, found.advice) == (Severity.NOTE, sentence, "")
    over = Tried((), lay_out(sheet(3600)), over_s=80, cuts=("A round", "The press"))
    (found,) = fits_the_slot(asked, over)
    assert found.sentence == f"It needs 23:40 and the slot has {minutes} minutes: 1:20 too long."
    assert found.advice == "It would fit with: A round; The press."
    (found,) = fits_the_slot(asked, replace(over, cuts=()))
    assert found.advice == "Take rounds or exercises out, or find more minutes."


def test_nothing_to_spare_is_said_so() -> None:
    just = lay_out(replace(sheet(3600), blocks=(replace(COMPLEX, users=(ANN, BO), rounds=2),)))
    assert just.makespan_s == 800 + 320 + 60
    longer = lay_out(replace(sheet(3600), blocks=(COMPLEX,), block_gap_s=0))
    assert longer.makespan_s == 1340
    even = lay_out(replace(sheet(3600), before=sheet(3600).before[:2], blocks=(COMPLEX,)))
    # 100 + 480 + 60 s with nothing but arriving before the work: 640 s; 20 s more are 11 minutes.
    assert even.makespan_s == 640
    asked = replace(trial("squat"), session=replace(SESSION, minutes=11))
    (found,) = fits_the_slot(asked, Tried((), replace(even, makespan_s=660)))
    assert found.sentence == "It fits 11 minutes with nothing to spare."


def test_the_room_is_told_with_what_does_not_fit() -> None:
    assert list(fits_the_room(trial("squat"), Tried(), HALL)) == []
    (none,) = fits_the_room(trial("squat"), Tried(), None)
    assert "no room yet" in none.sentence
    places = FloorPlan("hall", "Hall", (StationPlace("1", 0, 0, 1, 1),))
    (fits,) = fits_the_room(trial("squat"), Tried(floor=LaidOut(places)), HALL)
    assert fits.sentence == "Hall has room for 4 athletes: 1 place with their clear space."
    assert fits.why == ("Placed to scale with clear strips and walkways.",)
    low = Low("bar 1", "under the duct", 2.4, 2.8, "Press")
    trouble = LaidOut(
        places,
        no_room=(NoRoom("A", "places", 3, 2, "Too small.", "Do."),),
        no_wall=("B",),
        low=(low, replace(low, station="bar 2"), replace(low, ceiling="by the door")),
    )
    found = list(fits_the_room(trial("squat"), Tried(floor=trouble), HALL))
    assert [f.sentence for f in found] == [
        "Hall: of 3 places for A, 2 fit.",
        "Hall has no wall that is safe for throws, and B wants one.",
        "Press wants 2.8 m of height; under the duct there are 2.4 m.",
        "Press wants 2.8 m of height; by the door there are 2.4 m.",
    ]
    assert {f.severity for f in found} == {Severity.WARNING}
