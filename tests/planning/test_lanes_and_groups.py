"""Lanes and groups of a block, and the kit each group gets, on made-up people and stores."""

from dataclasses import replace

import pytest

from planning.people import MONDAY, group, person
from planning.test_drills_of_a_block import BOX_JUMP, FOAM, JUMP, ROW, THROW, block, boxes, step
from squadwright.demo import demo_club
from squadwright.errors import NoSolution
from squadwright.library import exercise
from squadwright.model.exercise import Exercise, Sides
from squadwright.model.kit import Ball, Kit
from squadwright.model.routine import (
    Block,
    CountedIn,
    Facing,
    GroupKind,
    LaneRule,
    Rest,
    RestKind,
    Scheme,
    Step,
    Style,
)
from squadwright.model.session import OddSquad, Settings
from squadwright.planning.drill_block import ROW_POOL, DrillTask, timed_block
from squadwright.planning.drill_groups import IN_TURNS, drill_groups, fit_kit, rows_of_boxes
from squadwright.planning.personal import PersonalStep, unswapped
from squadwright.planning.run_sheet.blocks import Drill, DrillBlock, DrillStyle, LaneWay
from squadwright.units import kilograms

CLUB = demo_club(MONDAY)


def lane(rule: LaneRule, written: Step, name: str | Exercise) -> Drill:
    made = block(written, style=Style.LANES, lane=rule, rest=Rest(RestKind.SECONDS, 30))
    his = PersonalStep("L", written, exercise(name) if isinstance(name, str) else name)
    versions = {"P": (his,), "Q": (his,)}
    timed, _ = timed_block(
        DrillTask(made, (group("g", "P", "Q"),), versions, {}, boxes(9), exercise)
    )
    assert isinstance(timed, DrillBlock)
    (drill,) = timed.drills
    assert drill.kit == ((ROW_POOL,) if rule.boxes else ())
    assert [(pool.name, pool.count) for pool in timed.pools] == (
        [(ROW_POOL, 9 // rule.boxes)] if rule.boxes else []
    )
    return drill


def passes(counted: CountedIn, **more: object) -> Step:
    return Step(ROW, Scheme(counted, 3, 2), "L", **more)  # type: ignore[arg-type]


FOUR = LaneRule(boxes=4, free_boxes_between=2, start_gap_s=5, box_spacing_m=1.5)


@pytest.mark.parametrize(
    ("rule", "counted", "timing", "way"),
    [
        # Four boxes of 1.8 s, three times: 21.6 s, 22 and 3 to get in place, a third of it 9.
        # Clear after three boxes: 5.4 s. Six metres back at 1.3 m/s: 4.6 s.
        (FOUR, CountedIn.PASSES_ONE_WAY, (9, 6, 5), LaneWay.WALK_BACK),
        # With 18 m of sprint in 4.5 s: 26.1 s, 27 and 3, a third 10; six metres back in 1.5 s.
        (
            replace(FOUR, sprint_back=True),
            CountedIn.PASSES_ONE_WAY,
            (10, 6, 2),
            LaneWay.SPRINT_BACK,
        ),
        # Down and back: 43.2 s, 44 and 3, a third 15.7; the lane is free when he is back.
        (FOUR, CountedIn.PASSES_DOWN_AND_BACK, (16, 16, 0), LaneWay.DOWN_AND_BACK),
    ],
)
def test_a_pass_along_a_row_in_seconds(
    rule: LaneRule, counted: CountedIn, timing: tuple[int, int, int], way: LaneWay
) -> None:
    drill = lane(rule, passes(counted), ROW)
    assert (drill.set_s, drill.clear_s, drill.return_s) == timing
    assert (drill.way, drill.sets, drill.gap_s, drill.rest_s) == (way, 6, 5, 30)
    assert (drill.style, drill.turns_round) == (DrillStyle.LANE, False)


def test_a_lane_without_boxes_has_a_start_for_each_set() -> None:
    """Three broad jumps of 4 s: 12 s and 3; clear after three of them, 12 s."""
    drill = lane(LaneRule(), step(JUMP, 3, 2, "L"), JUMP)
    assert (drill.sets, drill.set_s, drill.clear_s, drill.return_s) == (2, 15, 12, 0)


@pytest.mark.parametrize("counted", [c for c in CountedIn if "passes" not in c])
def test_only_passes_down_and_back_come_back_along_the_lane(counted: CountedIn) -> None:
    written = Step("hop", Scheme(counted, 6, 2), "L")
    each_side = replace(exercise(JUMP), sides=Sides.EACH if "side" in counted else Sides.BOTH)
    assert lane(LaneRule(), written, each_side).way is LaneWay.WALK_BACK


def test_facing_changes_where_it_is_written() -> None:
    changed = passes(CountedIn.PASSES_ONE_WAY, facing=Facing.CHANGED_EVERY_OTHER_SET)
    assert lane(FOUR, changed, ROW).turns_round


ROWS = block(passes(CountedIn.PASSES_ONE_WAY), style=Style.LANES, lane=LaneRule(boxes=4))


@pytest.mark.parametrize(("count", "rows"), [(4, 1), (7, 1), (8, 2)])
def test_as_many_rows_as_there_are_boxes_for(count: int, rows: int) -> None:
    kit = boxes(count)
    out = (replace(FOAM, id="x", in_service=False), replace(FOAM, id="y", fit_for_landing=False))
    assert rows_of_boxes(ROWS, replace(kit, boxes=(*kit.boxes, *out))) == rows


def test_a_row_that_cannot_be_built_says_how_many_boxes_it_wants() -> None:
    with pytest.raises(NoSolution, match="wants 4 boxes in a row and 3 sound boxes are in the"):
        rows_of_boxes(ROWS, boxes(3))
    with pytest.raises(NoSolution, match="or find 1 more"):
        rows_of_boxes(ROWS, boxes(3))
    assert rows_of_boxes(block(step(JUMP)), boxes(0)) is None
    no_box = block(step(JUMP), style=Style.LANES, lane=LaneRule(boxes=0))
    assert rows_of_boxes(no_box, boxes(0)) is None


def sizes(count: int, made: Block, kit: Kit = CLUB.kit, **more: object) -> list[int]:
    people = {f"P{n}": person(f"P{n}", kg=60 + n) for n in range(count)}
    settings = more.pop("settings", Settings())
    found = drill_groups(made, people, settings, kit, **more)  # type: ignore[arg-type]
    assert sorted(a for line in found for a in line.athletes) == sorted(people)
    return sorted(len(line.athletes) for line in found)


PAIRS = block(step(JUMP), group_kind=GroupKind.PAIRS)
CIRCUIT = block(step(JUMP), step(THROW), style=Style.CIRCUIT)
LANES = block(step(JUMP), style=Style.LANES, lane=LaneRule(longest_line=3))


@pytest.mark.parametrize(
    ("count", "made", "found"),
    [
        (0, PAIRS, []),
        (1, PAIRS, [1]),
        (3, block(step(JUMP)), [3]),  # everyone on his own
        (3, block(step(JUMP), step(THROW), style=Style.CIRCUIT), [3]),
        (4, CIRCUIT, [2, 2]),
        (5, CIRCUIT, [2, 3]),
        (6, CIRCUIT, [3, 3]),
        (5, replace(CIRCUIT, group_kind=GroupKind.PAIRS), [2, 3]),
        (6, replace(CIRCUIT, group_kind=GroupKind.THREES), [3, 3]),
        (6, replace(PAIRS, group_kind=GroupKind.THREES), [3, 3]),
        (6, LANES, [3, 3]),
        (7, LANES, [2, 2, 3]),
    ],
)
def test_how_many_stand_together(count: int, made: Block, found: list[int]) -> None:
    assert sizes(count, made) == found


@pytest.mark.parametrize(
    ("count", "kit", "found"), [(9, 8, [4, 5]), (11, 8, [5, 6]), (10, 4, [10]), (10, 8, [5, 5])]
)
def test_lines_grow_to_the_rows_there_are(count: int, kit: int, found: list[int]) -> None:
    assert sizes(count, ROWS, boxes(kit)) == found


def test_lines_and_stations_of_more_than_ten_are_refused() -> None:
    with pytest.raises(NoSolution, match="11 athletes on 1 rows of 4 boxes make lines of 11"):
        sizes(11, ROWS, boxes(4))
    with pytest.raises(NoSolution, match="21 athletes at 2 stations make groups of 11"):
        sizes(21, CIRCUIT)


@pytest.mark.parametrize(
    ("count", "odd", "found"),
    [
        (9, OddSquad.ONE_THREE, [2, 2, 2, 3]),
        (9, OddSquad.THREES, [3, 3, 3]),
        (8, OddSquad.THREES, [2, 2, 2, 2]),
    ],
)
def test_an_odd_squad_is_divided_as_the_coach_wants(
    count: int, odd: OddSquad, found: list[int]
) -> None:
    assert sizes(count, PAIRS, settings=Settings(odd_squad=odd)) == found


@pytest.mark.parametrize(
    ("count", "made", "places", "found"),
    [
        (6, PAIRS, 2, [3, 3]),
        (5, PAIRS, 2, [2, 3]),
        (6, PAIRS, 1, [6]),
        (10, PAIRS, 1, [10]),
        (6, CIRCUIT, 1, [3, 3]),
    ],
)
def test_on_less_floor_there_are_as_many_groups_as_places(
    count: int, made: Block, places: int, found: list[int]
) -> None:
    assert sizes(count, made, places=places) == found


def test_more_than_ten_in_a_group_are_not_made_for_the_floor_and_rows_are_not_more() -> None:
    assert max(sizes(12, PAIRS, places=1)) == 2
    assert sizes(6, ROWS, boxes(4), places=2) == [6]
    people = {f"P{n}": person(f"P{n}") for n in range(4)}
    for places, kind in ((2, IN_TURNS), (None, "pair")):
        found = drill_groups(PAIRS, people, Settings(), CLUB.kit, places=places)
        assert {line.kind for line in found} == {kind}
        assert {line.lane for line in found} == {None}
    lanes = drill_groups(LANES, people, Settings(), CLUB.kit)
    assert [(line.name, line.lane) for line in lanes] == [("lane 1", 1), ("lane 2", 2)]


def fitted(
    made: Block, kit: Kit, **kg: float
) -> tuple[dict[tuple[str, str], str | None], set[str]]:
    """Ball of each, and who has nothing that fits."""
    people = {name: person(name, kg=mass) for name, mass in kg.items()}
    versions = dict.fromkeys(people, unswapped(made, exercise))
    groups = (group("g", *people),)
    found, missing = fit_kit(made, groups, versions, people, kit)
    return {of: each.ball for of, each in found.items()}, {name for name, _ in missing}


def test_the_lightest_catcher_decides_the_ball_of_a_group() -> None:
    kit = Kit(balls=(Ball("b3", kilograms(3)), Ball("b6", kilograms(6))))
    made = block(step(THROW, label="T"), group_kind=GroupKind.PAIRS)
    assert fitted(made, kit, P=90.0, Q=90.0)[0] == {("P", "T"): "b6", ("Q", "T"): "b6"}
    assert fitted(made, kit, P=90.0, Q=54.0)[0] == {("P", "T"): "b3", ("Q", "T"): "b3"}
    assert fitted(made, Kit(), P=90.0, Q=54.0) == ({}, {"P", "Q"})


def test_the_stations_of_a_circuit_each_want_a_box_of_their_own() -> None:
    two = (step(BOX_JUMP, label="X"), step(BOX_JUMP, label="Y"))
    for style, lacking in ((Style.SETS, set()), (Style.CIRCUIT, {"P"})):
        assert fitted(block(*two, style=style), boxes(1), P=80.0)[1] == lacking
    assert fitted(block(*two, style=Style.CIRCUIT), boxes(2), P=80.0)[1] == set()
