"""Drills of a block as the run sheet times them, their kit, and who stands in which group."""

from collections.abc import Mapping
from dataclasses import replace

import pytest

from planning.people import MONDAY, group
from squadwright.demo import demo_club
from squadwright.library import exercise
from squadwright.model.kit import Ball, Box, Kit
from squadwright.model.plan import GroupLine
from squadwright.model.routine import (
    Alternation,
    Block,
    CountedIn,
    GroupKind,
    Rest,
    RestKind,
    Scheme,
    Step,
    Style,
)
from squadwright.planning.box import BoxChoice
from squadwright.planning.drill_block import (
    CHANGE_S,
    SET_OVERHEAD_S,
    DrillTask,
    set_seconds,
    timed_block,
)
from squadwright.planning.drill_groups import Fitting
from squadwright.planning.personal import PersonalStep, unswapped
from squadwright.planning.run_sheet.blocks import (
    CircuitBlock,
    Drill,
    DrillBlock,
    DrillStyle,
)
from squadwright.units import kilograms

CLUB = demo_club(MONDAY)
JUMP, THROW, BOX_JUMP, ROW = (
    "broad-jump-and-stick",
    "tall-kneeling-chest-pass",
    "seated-start-jump-to-box",
    "row-onto-and-off",
)
FOAM = CLUB.kit.boxes[0]


def boxes(count: int) -> Kit:
    return Kit(boxes=tuple(replace(FOAM, id=f"f{n}") for n in range(count)))


def step(name: str, count: int = 5, sets: int = 1, label: str = "") -> Step:
    return Step(name, Scheme(CountedIn.REPETITIONS, count, sets), label)


def block(*steps: Step, style: Style = Style.SETS, **more: object) -> Block:
    return Block("B", style, steps, **more)  # type: ignore[arg-type]


def personal(made: Block, *names: str) -> dict[str, tuple[PersonalStep, ...]]:
    return dict.fromkeys(names, unswapped(made, exercise))


def task(
    made: Block,
    groups: tuple[GroupLine, ...] = (group("g", "P", "Q"),),
    fittings: Mapping[tuple[str, str], Fitting] | None = None,
    versions: Mapping[str, tuple[PersonalStep, ...]] | None = None,
    kit: Kit = CLUB.kit,
) -> DrillTask:
    names = [name for line in groups for name in line.athletes]
    return DrillTask(
        made, groups, versions or personal(made, *names), fittings or {}, kit, exercise
    )


def drilled(a_task: DrillTask) -> dict[str, Drill]:
    timed, _ = timed_block(a_task)
    assert isinstance(timed, DrillBlock)
    return {drill.name: drill for drill in timed.drills}


def test_a_set_lasts_as_long_as_the_slowest_version_and_a_little() -> None:
    """Broad jumps of 4 s: two of them 8 s, three 12 s."""
    made = block(step(JUMP, 2, label="J"))
    slow = (replace(personal(made, "P")["P"][0], step=step(JUMP, 3, label="J")),)
    both = task(made, versions={**personal(made, "P"), "Q": slow})
    assert set_seconds(both, "J") == 12 + SET_OVERHEAD_S
    assert set_seconds(task(made), "J") == 8 + SET_OVERHEAD_S
    assert set_seconds(task(made), "none") == SET_OVERHEAD_S


@pytest.mark.parametrize(
    ("rest", "kind", "name", "style", "rest_s", "change_s"),
    [
        (Rest(RestKind.SECONDS, 40), GroupKind.ALONE, JUMP, DrillStyle.TOGETHER, 40, 0),
        (Rest(RestKind.SECONDS, 40), GroupKind.PAIRS, JUMP, DrillStyle.TOGETHER, 40, 0),
        (Rest(RestKind.SECONDS, 40), GroupKind.PAIRS, BOX_JUMP, DrillStyle.IN_TURN, 40, CHANGE_S),
        (Rest(RestKind.SECONDS, 40), GroupKind.THREES, BOX_JUMP, DrillStyle.IN_TURN, 40, CHANGE_S),
        (Rest(RestKind.SECONDS, 40), GroupKind.ALONE, BOX_JUMP, DrillStyle.TOGETHER, 40, 0),
        (Rest(RestKind.PARTNER_WORKS), GroupKind.ALONE, JUMP, DrillStyle.IN_TURN, 0, CHANGE_S),
        (Rest(RestKind.PARTNER_WORKS), GroupKind.PAIRS, THROW, DrillStyle.BOTH_THROW, 0, CHANGE_S),
        (Rest(RestKind.WORK_TO_REST, ratio=1.5), GroupKind.PAIRS, JUMP, DrillStyle.TOGETHER, 35, 0),
    ],
)
def test_how_a_group_shares_a_drill(
    rest: Rest, kind: GroupKind, name: str, style: DrillStyle, rest_s: int, change_s: int
) -> None:
    """Five broad jumps of 4 s and 3 s to get in place: 23 s, and one and a half of it 34.5."""
    made = block(step(name, 5, 2, "S"), rest=rest, group_kind=kind)
    (drill,) = drilled(task(made)).values()
    assert (drill.style, drill.rest_s, drill.change_s) == (style, rest_s, change_s)
    assert drill.sets == 2


def test_both_throw_only_where_everybody_throws_to_a_partner_who_catches() -> None:
    made = block(step(THROW, 5, 2, "S"), rest=Rest(RestKind.PARTNER_WORKS))
    his = personal(made, "P")["P"][0]
    chest = exercise(THROW)
    for changed in (
        replace(chest, needs=replace(chest.needs, partner=False)),
        replace(chest, catches_per_repetition=0),
    ):
        versions = {"P": (his,), "Q": (replace(his, exercise=changed),)}
        (drill,) = drilled(task(made, versions=versions)).values()
        assert drill.style is DrillStyle.IN_TURN


def test_a_circuit_has_a_place_for_the_largest_group_at_each_station() -> None:
    """Five broad jumps of 4 s are longer than five throws of 2.5 s."""
    made = block(step(JUMP, 5, label="J"), step(THROW, 5, label="T"), style=Style.CIRCUIT, rounds=3)
    groups = (group("g", "P", "Q", "R"), group("h", "S"))
    timed, step_of = timed_block(task(made, groups))
    assert isinstance(timed, CircuitBlock)
    assert (timed.work_s, timed.move_s, timed.round_rest_s) == (23, made.changeover_s, 60)
    assert [(s.name, s.capacity) for s in timed.stations] == [("J", 3), ("T", 3)]
    assert step_of == {"J": "J", "T": "T"}
    given = replace(made, work_s=40, rest=Rest(RestKind.PARTNER_WORKS))
    timed, _ = timed_block(task(given, groups))
    assert isinstance(timed, CircuitBlock)
    assert (timed.work_s, timed.round_rest_s) == (40, 0)


THREE = (step(JUMP, 2, 3, "J"), step(THROW, 5, 2, "T"), step("squat", 5, 1, "S"))


def order(alternation: Alternation, rounds: int = 1) -> list[tuple[str, int]]:
    made = block(*THREE, alternation=alternation, rounds=rounds)
    return [(name, drill.sets) for name, drill in drilled(task(made)).items()]


def test_sets_in_the_order_as_written_in_turn_or_lower_and_upper() -> None:
    """Jumps and squats are lower, throws are upper."""
    assert order(Alternation.AS_WRITTEN) == [("J", 3), ("T", 2), ("S", 1)]
    assert order(Alternation.AS_WRITTEN, 2) == [("J", 6), ("T", 4), ("S", 2)]
    assert order(Alternation.IN_TURN) == [
        ("J set 1", 1),
        ("T set 1", 1),
        ("S set 1", 1),
        ("J set 2", 1),
        ("T set 2", 1),
        ("J set 3", 1),
    ]
    assert order(Alternation.LOWER_THEN_UPPER) == [
        ("J set 1", 1),
        ("T set 1", 1),
        ("J set 2", 1),
        ("T set 2", 1),
        ("J set 3", 1),
        ("S set 1", 1),
    ]


def test_sets_with_nothing_between_them_are_one_stretch() -> None:
    made = block(*THREE[:2], alternation=Alternation.IN_TURN)
    many = replace(made, steps=(step(JUMP, 2, 4, "J"), step(THROW, 5, 2, "T")))
    assert [(n, d.sets) for n, d in drilled(task(many)).items()] == [
        ("J set 1", 1),
        ("T set 1", 1),
        ("J set 2", 1),
        ("T set 2", 1),
        ("J set 3 to 4", 2),
    ]


def test_a_step_that_nobody_does_is_not_timed_and_one_group_leaves_it_out() -> None:
    made = block(*THREE)
    whole = personal(made, "P")["P"]
    groups = (group("g", "P"), group("h", "Q"))
    timed, _ = timed_block(task(made, groups, versions={"P": whole[:2], "Q": whole[:1]}))
    assert isinstance(timed, DrillBlock)
    assert [drill.name for drill in timed.drills] == ["J", "T"]
    assert {g.name: g.done for g in timed.groups} == {"g": (), "h": ("T",)}


@pytest.mark.parametrize(
    ("alternation", "leaves_out", "change"),
    [
        (Alternation.AS_WRITTEN, True, 20),
        (Alternation.IN_TURN, True, 60),
        (Alternation.IN_TURN, False, 20),
    ],
)
def test_where_drills_take_turns_a_group_that_leaves_one_out_still_gets_its_rest(
    alternation: Alternation, leaves_out: bool, change: int
) -> None:
    made = block(*THREE[:2], alternation=alternation)
    whole = personal(made, "P")["P"]
    versions = {"P": whole, "Q": whole[:1] if leaves_out else whole}
    timed, _ = timed_block(task(made, (group("g", "P"), group("h", "Q")), versions=versions))
    assert isinstance(timed, DrillBlock)
    assert timed.change_s == change


def in_box(box: Box = FOAM) -> Fitting:
    return Fitting(box=BoxChoice(box, 0.4, ""))


def test_boxes_are_a_pool_and_where_too_few_drills_may_change_places() -> None:
    made = block(step(JUMP, label="J"), step(BOX_JUMP, label="X"))
    groups = tuple(group(f"g{n}", name) for n, name in enumerate("PQR"))
    boxes = (FOAM, replace(FOAM, id="f2"), replace(FOAM, id="f3", fit_for_landing=False))
    for count, steps in ((2, [1, 2]), (3, [1, 1])):
        fittings = {(name, "X"): in_box() for name in "PQR"[:count]}
        timed, _ = timed_block(task(made, groups, fittings, kit=Kit(boxes=boxes)))
        assert isinstance(timed, DrillBlock)
        assert [(pool.name, pool.count) for pool in timed.pools] == [("box 40/50/60 cm", 2)]
        assert sorted({drill.step for drill in timed.drills}) == sorted(set(steps))
    turns = replace(made, alternation=Alternation.IN_TURN)
    timed, _ = timed_block(task(turns, groups, fittings, kit=Kit(boxes=boxes)))
    assert isinstance(timed, DrillBlock)
    assert [drill.step for drill in timed.drills] == [1, 2]


def test_groups_with_another_box_have_a_drill_of_their_own() -> None:
    made = block(step(BOX_JUMP, label="X"))
    groups = (group("g", "P"), group("h", "Q"), group("i", "R"))
    wood = replace(CLUB.kit.boxes[2])
    fittings = {("P", "X"): in_box(), ("Q", "X"): in_box(wood)}
    timed, step_of = timed_block(task(made, groups, fittings))
    assert isinstance(timed, DrillBlock)
    names = {drill.name: drill.kit for drill in timed.drills}
    assert names == {
        "X (free)": (),
        "X (box 30 cm)": ("box 30 cm",),
        "X (box 40/50/60 cm)": ("box 40/50/60 cm",),
    }
    assert set(step_of.values()) == {"X"}
    done = {g.name: set(g.done) for g in timed.groups}
    assert done["g"] == {"X (free)", "X (box 30 cm)"}
    assert done["i"] == {"X (box 30 cm)", "X (box 40/50/60 cm)"}


@pytest.mark.parametrize(("count", "pools"), [(1, [("ball b", 1)]), (2, [])])
def test_a_ball_that_more_groups_want_than_there_are_is_a_pool(
    count: int, pools: list[tuple[str, int]]
) -> None:
    made = block(step(THROW, label="T"))
    groups = (group("g", "P"), group("h", "Q"))
    kit = Kit(balls=(Ball("b", kilograms(3), count),))
    fittings = {(name, "T"): Fitting("b", 3.0) for name in "PQ"}
    timed, _ = timed_block(task(made, groups, fittings, kit=kit))
    assert isinstance(timed, DrillBlock)
    assert [(pool.name, pool.count) for pool in timed.pools] == pools
    assert timed.drills[0].kit == tuple(name for name, _ in pools)
