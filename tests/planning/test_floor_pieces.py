"""The floor that a block wants, worked out by hand from what its exercises need.

A bar is 2.2 m long (rules of the sport) by 1.8 m of depth; lanes start and end with 1.5 m (ours).
"""

from collections.abc import Sequence
from dataclasses import replace

import pytest

from squadwright.library import exercise
from squadwright.model.exercise import Exercise, Travel
from squadwright.model.plan import BarPlan, GroupLine, RunLine
from squadwright.model.room import CeilingZone, Door, LandingLane, Obstacle, Room, ThrowWall
from squadwright.model.routine import (
    Block,
    CountedIn,
    LaneRule,
    Rest,
    RestKind,
    Scheme,
    Step,
    Style,
)
from squadwright.planning.block_plan import BlockPlan
from squadwright.planning.floor import Piece, PieceKind, Rectangle
from squadwright.planning.floor_pieces import (
    FloorSettings,
    FloorTask,
    Needed,
    merged,
    needed_floor,
    room_problem,
)
from squadwright.planning.floor_plan import floor_plan
from squadwright.planning.personal import PersonalStep

ROOM = Room("r", "Room", ((0.0, 0.0), (20.0, 0.0), (20.0, 15.0), (0.0, 15.0)), 4.0)
PRESS = exercise("push-up")


def wanting(name: str = "x", **needs: object) -> Exercise:
    travel = needs.pop("travel", Travel.IN_PLACE)
    own = replace(PRESS.needs, clear_width_m=1.5, clear_length_m=2.0, ceiling_m=2.4)
    new = replace(own, **needs)  # type: ignore[arg-type]
    return replace(PRESS, id=name, name=name.title(), needs=new, travel=travel)  # type: ignore[arg-type]


def planned(
    block: Block,
    exercises: Sequence[Exercise],
    groups: Sequence[Sequence[str]] = (),
    **more: object,
) -> BlockPlan:
    """Everybody does the same exercises, under the keys of the block's steps."""
    athletes = {name for group in groups for name in group} or {"A"}
    steps = tuple(
        PersonalStep(label or f"{block.name} {n}", Step(e.id, FIVE, label), e)
        for n, (e, label) in enumerate(zip(exercises, ["a", "b", "c"], strict=False), start=1)
    )
    parts: dict[str, object] = {
        "block": block,
        "timed": None,
        "step_of": {},
        "versions": dict.fromkeys(sorted(athletes), steps),
        "rounds": {},
        "targets": {},
        "fittings": {},
        "missing": (),
        "bars": (),
        "bound": None,
        "groups": tuple(
            GroupLine(f"g{n}", tuple(group), "pair", block.name)
            for n, group in enumerate(groups, start=1)
        ),
    }
    return BlockPlan(**(parts | more))  # type: ignore[arg-type]


FIVE = Scheme(CountedIn.REPETITIONS, 5)
SETS = Block("S", Style.SETS, (Step("x", FIVE, "a"),))
COMPLEX = Block("C", Style.COMPLEX, (Step("x", FIVE, "a"),), waves=2)
CIRCUIT = Block("K", Style.CIRCUIT, (Step("x", FIVE, "a"), Step("y", FIVE, "b")))


def wanted(*plans: BlockPlan, **more: object) -> tuple[Needed, ...]:
    bars = tuple(bar for plan in plans for bar in plan.bars)
    parts: dict[str, object] = {"room": ROOM, "blocks": plans, "bars": bars, "run_sheet": ()}
    return needed_floor(FloorTask(**(parts | more)))  # type: ignore[arg-type]


def size(needed: Needed) -> tuple[float, float]:
    return needed.piece.width_m, needed.piece.depth_m


@pytest.mark.parametrize(
    ("wide", "long", "expected"),
    [
        (1.5, 2.0, (2.2, 1.8)),  # within the bar and the strips of 0.91 m on either side
        (4.02, 3.62, (2.2, 1.8)),
        (5.0, 3.62, (3.18, 1.8)),
        (4.02, 4.0, (2.2, 2.18)),
    ],
)
def test_a_bar_takes_its_length_or_what_the_exercise_wants_beyond_the_strips(
    wide: float, long: float, expected: tuple[float, float]
) -> None:
    bars = (BarPlan("b7", "Bar", 20.0, (), "C"), BarPlan("b8", "Bar", 20.0, (), "C"))
    light = wanting("light", ceiling_m=2.5)
    tall = wanting("tall", clear_width_m=wide, clear_length_m=long, ceiling_m=2.9)
    found = wanted(planned(COMPLEX, (light, tall), bars=bars))
    assert [size(n) for n in found] == [pytest.approx(expected)] * 2
    assert [(n.piece.id, n.holds, n.spot) for n in found] == [
        ("bar 1", ("b7",), "bar b7"),
        ("bar 2", ("b8",), "bar b8"),
    ]
    assert {(n.piece.ceiling_m, n.tallest, n.piece.kind) for n in found} == {
        (2.9, "Tall", PieceKind.BAR)
    }
    (bare,) = wanted(planned(COMPLEX, (), bars=bars[:1]))
    assert (size(bare), bare.piece.ceiling_m, bare.tallest) == ((2.2, 1.8), 0.0, "")


@pytest.mark.parametrize(
    ("with_stick", "stations"), [((), 0), (("A",), 1), (("A", "B"), 1), (("A", "B", "D"), 2)]
)
def test_sticks_take_a_station_for_each_that_work_at_once(
    with_stick: tuple[str, ...], stations: int
) -> None:
    """In two waves three sticks take two stations."""
    found = wanted(planned(COMPLEX, (PRESS,), with_stick=with_stick))
    assert [n.piece.id for n in found] == [f"stick {n}" for n in range(1, stations + 1)]
    lines = tuple(
        RunLine(0, 60, "g", s, None, "work", block=b)
        for s, b in (("stick 2", "C"), ("stick 5", "C"), ("stick 3", "D"), ("bar 1", "C"))
    )
    told = wanted(planned(COMPLEX, (PRESS,), with_stick=with_stick), run_sheet=lines)
    assert [n.piece.id for n in told] == (["stick 2", "stick 5"] if with_stick else [])


@pytest.mark.parametrize(
    ("needs", "people", "rest", "expected"),
    [
        ({}, 1, Rest(), (1.5, 2.0)),
        ({}, 3, Rest(), (2.0, 4.5)),
        ({"clear_width_m": 2.0, "clear_length_m": 1.0}, 2, Rest(), (2.0, 2.0)),
        ({}, 3, Rest(RestKind.PARTNER_WORKS), (1.5, 2.0)),
        ({"travel": Travel.FORWARD, "clear_length_m": 8.0}, 3, Rest(), (1.5, 8.0)),
    ],
)
def test_a_place_holds_all_who_work_at_once_side_by_side(
    needs: dict[str, object], people: int, rest: Rest, expected: tuple[float, float]
) -> None:
    block = replace(SETS, rest=rest)
    (found,) = wanted(planned(block, (wanting(**needs),), ["ABCD"[:people]]))
    assert size(found) == pytest.approx(expected)
    assert (found.piece.id, found.piece.clear_m) == ("place 1", 2.0)
    assert (found.piece.kind, found.piece.at_throw_wall) == (PieceKind.GROUP, False)


def test_a_throw_wants_its_width_for_each_at_the_wall_and_its_length_before_it() -> None:
    throw = wanting("throw", throw_wall=True, clear_width_m=2.0, clear_length_m=4.0)
    (found,) = wanted(planned(SETS, (throw, wanting()), ["AB"]))
    assert size(found) == (4.0, 4.0)
    assert (found.piece.kind, found.piece.at_throw_wall) == (PieceKind.THROW, True)
    assert (found.piece.throw_m, found.holds) == (4.0, ("g1",))
    (alone,) = wanted(planned(SETS, (throw,), ["A"]))
    assert size(alone) == (2.0, 4.0)


def test_a_lane_has_a_start_its_row_and_a_landing() -> None:
    """5 boxes 1.2 m apart are 6 m; with 1.5 m at either end 9 m. A jump of 7 m makes it 10 m."""
    lane = Block(
        "L", Style.LANES, (Step("x", FIVE, "a"),), lane=LaneRule(boxes=5, box_spacing_m=1.2)
    )
    (found,) = wanted(planned(lane, (wanting(),), ["ABC"]))
    assert size(found) == (1.5, 9.0)
    assert (found.piece.kind, found.piece.landing_m) == (PieceKind.LANE, 1.5)
    far = wanting(travel=Travel.FORWARD, clear_length_m=7.0)
    (longer,) = wanted(planned(lane, (far,), ["ABC"]))
    assert size(longer) == (1.5, 10.0)


def test_places_of_a_block_are_of_one_size_and_empty_groups_have_none() -> None:
    plan = planned(SETS, (wanting(),), ["AB", "CDE", "F"])
    versions = {a: steps for a, steps in plan.versions.items() if a != "F"} | {"F": ()}
    found = wanted(replace(plan, versions=versions))
    assert [(n.piece.id, n.holds) for n in found] == [("place 1", ("g1",)), ("place 2", ("g2",))]
    assert {size(n) for n in found} == {(2.0, 4.5)}
    assert wanted(replace(plan, versions={})) == ()


def test_a_station_of_a_circuit_holds_as_many_as_work_there_at_once() -> None:
    lines = (
        RunLine(0, 40, "g1", "a", "x", "work", block="K", athletes=("A", "B")),
        RunLine(0, 40, "g2", "a", "x", "work", block="K", athletes=("C",)),
        RunLine(60, 99, "g3", "a", "x", "work", block="K"),
        RunLine(0, 40, "g4", "a", "x", "rest", block="K", athletes=("D", "E")),
        RunLine(0, 40, "g5", "a", "x", "work", block="other", athletes=("F",)),
        RunLine(0, 40, "g6", "c", "x", "work", block="K", athletes=("G",)),
    )
    found = wanted(planned(CIRCUIT, (wanting(), wanting("y"))), run_sheet=lines)
    (at_a,) = found  # nobody works at b
    assert size(at_a) == (2.0, 4.5)
    assert (at_a.piece.id, at_a.holds, at_a.spot) == ("station a", ("a",), "K station a")
    assert at_a.piece.clear_m == pytest.approx(0.91)
    late = (RunLine(60, 99, "g3", "b", "y", "work, round 2", block="K"),)
    (at_b,) = wanted(planned(CIRCUIT, (wanting(), wanting("y"))), run_sheet=late)
    assert (at_b.piece.id, size(at_b)) == ("station b", (1.5, 2.0))


def test_one_piece_for_several_is_large_enough_for_each() -> None:
    pieces = (
        Piece("first", PieceKind.GROUP, 1.0, 4.0, clear_m=None, ceiling_m=3.0),
        Piece("second", PieceKind.LANE, 2.0, 3.0, clear_m=0.5, landing_m=1.5),
        Piece("third", PieceKind.THROW, 1.5, 2.0, clear_m=2.0, at_throw_wall=True, throw_m=2.0),
    )
    for order in (pieces, pieces[::-1]):
        found = merged(order)
        assert (found.id, found.width_m, found.depth_m) == (order[0].id, 2.0, 4.0)
        assert (found.clear_m, found.landing_m, found.throw_m) == (2.0, 1.5, 2.0)
        assert (found.ceiling_m, found.at_throw_wall) == (3.0, True)
    assert merged(pieces[:1]).clear_m is None
    assert merged(pieces[:2]).clear_m == 0.5


def test_the_room_of_a_club_is_turned_into_a_floor_corner_by_corner() -> None:
    room = replace(
        ROOM,
        obstacles=(Obstacle("o", 5.0, 6.0, 0.4, 0.8),),
        ceiling_zones=(
            CeilingZone("low", 1.0, 2.0, 3.0, 4.0, 3.9),
            CeilingZone("high", 0, 0, 1, 1, 4.0),
        ),
        throw_walls=(ThrowWall("w", (0.0, 0.0), (9.0, 0.0)),),
        doors=(Door("d", 0.0, 5.0, 1.2),),
        lanes=(LandingLane("l", 7.0, 1.0, 1.5, 8.0),),
    )
    found = room_problem(room, FloorSettings())
    (obstacle,), (low,), (lane,) = found.obstacles, found.low_ceilings, found.landing_lanes
    assert obstacle.place == pytest.approx(Rectangle(4.8, 5.6, 0.4, 0.8)) or (
        (obstacle.place.x_m, obstacle.place.y_m) == pytest.approx((4.8, 5.6))
    )
    assert obstacle.place.middle == pytest.approx((5.0, 6.0))
    assert (obstacle.place.width_m, obstacle.place.depth_m) == (0.4, 0.8)
    assert (low.name, low.place, low.ceiling_m) == ("low", Rectangle(1.0, 2.0, 3.0, 4.0), 3.9)
    assert lane.place == Rectangle(7.0, 1.0, 1.5, 8.0)
    assert (found.doors[0].middle, found.doors[0].width_m) == ((0.0, 5.0), 1.2)
    assert (found.safe_walls[0].start, found.safe_walls[0].end) == ((0.0, 0.0), (9.0, 0.0))
    assert (found.ceiling_m, found.pieces) == (4.0, ())


def laid(room: Room, *plans: BlockPlan) -> object:
    bars = tuple(bar for plan in plans for bar in plan.bars)
    return floor_plan(FloorTask(room, plans, bars, ()))


@pytest.mark.parametrize(
    ("ceiling_m", "zone_m", "zone_x", "expected"),
    [
        (3.0, 2.9, 0.0, ("under duct", 2.9)),
        (3.0, 3.0, 0.0, None),
        (2.9, 2.8, 0.0, ("under duct", 2.8)),
        (2.9, 2.8, 4.22, ("in this room", 2.9)),
        (3.0, 2.9, 4.22, None),
        (2.9, 3.5, 0.0, ("in this room", 2.9)),
    ],
)
def test_a_station_is_told_with_the_lowest_ceiling_over_it(
    ceiling_m: float, zone_m: float, zone_x: float, expected: tuple[str, float] | None
) -> None:
    """A room of 6 x 3.62 m holds one bar in its middle row; 3 m of height are wanted."""
    outline = ((0.0, 0.0), (4.02, 0.0), (4.02, 3.62), (0.0, 3.62))
    zone = CeilingZone("duct", zone_x, 0.0, 1.5, 3.62, zone_m)
    room = replace(ROOM, outline=outline, ceiling_m=ceiling_m, ceiling_zones=(zone,))
    bars = (BarPlan("b", "Bar", 20.0, (), "C"),)
    found = floor_plan(
        FloorTask(room, (planned(COMPLEX, (wanting(ceiling_m=3.0),), bars=bars),), bars, ())
    )
    assert len(found.plan.stations) == 1
    told = [(low.ceiling, low.ceiling_m) for low in found.low]
    assert told == ([] if expected is None else [expected])
    assert all((low.need_m, low.exercise, low.station) == (3.0, "X", "bar 1") for low in found.low)


def test_blocks_that_do_not_fit_side_by_side_have_the_floor_one_after_the_other() -> None:
    """Of 2 x 4.5 m two fit in 7 x 6.4 m, 0.91 m apart and not 2 m; of three two are laid."""
    outline = ((0.0, 0.0), (7.0, 0.0), (7.0, 6.4), (0.0, 6.4))
    room = replace(ROOM, outline=outline)
    two = planned(SETS, (wanting(),), ["ABC", "DEF"])
    three = planned(
        replace(SETS, name="T"),
        (wanting(travel=Travel.FORWARD, clear_width_m=2.0, clear_length_m=4.5),),
        ["A", "B", "C"],
    )
    found = floor_plan(FloorTask(room, (two, three), (), ()))
    assert found.closer
    by_block = {"S": 0, "T": 0}
    for station in found.plan.stations:
        by_block[station.block] += 1
    assert by_block == {"S": 2, "T": 2}
    (trouble,) = found.no_room
    assert (trouble.block, trouble.what, trouble.wanted, trouble.fits) == ("T", "places", 3, 2)
    assert "Set up 2 at once and work in 2 waves" in trouble.advice
    assert any("Each block has the floor to itself" in note for note in found.plan.notes)
    told = [note.split("The coach")[0] for note in found.plan.notes if "The coach stands" in note]
    assert told == ["S: ", "T: "]


def test_places_that_stand_for_the_whole_session_are_of_one_size_and_bars_keep_theirs() -> None:
    """Two of one block want 2 x 4.5 m, three of another 1.5 x 2 m: three places of 2 x 4.5 m."""
    bars = (BarPlan("b", "Bar", 20.0, (), "C"),)
    plans = (
        planned(COMPLEX, (wanting(),), bars=bars),
        planned(SETS, (wanting(),), ["ABC", "DEF"]),
        planned(replace(SETS, name="T"), (wanting(),), ["A", "B", "C"]),
    )
    found = floor_plan(FloorTask(ROOM, plans, bars, ()))
    assert found.no_room == ()
    sizes = {
        s.id: tuple(sorted((round(s.width_m, 2), round(s.depth_m, 2)))) for s in found.plan.stations
    }
    assert sizes == {
        "bar 1": (1.8, 2.2),
        **{f"place {n}": (2.0, 4.5) for n in (1, 2, 3)},
    }
    assert {s.id: s.holds for s in found.plan.stations} == {
        "bar 1": ("b",),
        "place 1": ("g1",),
        "place 2": ("g2",),
        "place 3": ("g3",),
    }
    assert {s.block for s in found.plan.stations} == {""}
    assert found.plan.notes[-1].startswith("The coach stands")
