"""What is cut, what is left and what kit would buy, worked out by hand on one small session.

100 s to arrive (60 at the least), 500 s of warm-up (480), 200 s of rehearsal; a complex of 3 rounds
of two waves of 60 s with 20 s between them, 480 s; 30 s; a drill of 2 sets of 20 s with 10 s of
rest, 50 s; spare time; 60 s to pack: 1420 s.
"""

from dataclasses import replace

import pytest

from planning.test_drills_by_hand import drills
from planning.test_run_sheet_by_hand import AFTER, ANN, BEFORE, BO, COMPLEX, DRILLS, sheet
from squadwright.errors import InvalidInput
from squadwright.planning.run_sheet import (
    BarUser,
    CircuitBlock,
    CircuitStation,
    Cut,
    CutKind,
    Drill,
    DrillBlock,
    DrillStyle,
    FixedPart,
    KitGain,
    KitPool,
    LateArrival,
    NotFitting,
    PartKind,
    RunSheetProblem,
    TimedExercise,
    WorkGroup,
    lay_out,
    solve_run_sheet,
)
from squadwright.planning.run_sheet.cuts import fewer_exercises, fewer_rounds
from squadwright.planning.run_sheet.kit_gains import (
    kit_gains,
    more_bars,
    more_pieces,
    more_station_kit,
    one_more_lane,
)
from squadwright.planning.run_sheet.retime import remaining

ROUND_3 = Cut(CutKind.ROUNDS, "A", "A: 3 to 2 rounds", 160)
ROUND_2 = Cut(CutKind.ROUNDS, "A", "A: 2 to 1 rounds", 160)
SET = Cut(CutKind.ROUNDS, "D", "D, d: 2 to 1 sets", 30)
PRESS = Cut(CutKind.EXERCISE, "A", "A: without press", 40)
WARMER = Cut(CutKind.WARM_UP, "warm-up", "warm-up from 8:20 to 8:00", 20)


def arrive(to: str, gained_s: int) -> Cut:
    kind = PartKind.ARRIVE.value
    return Cut(CutKind.PART, kind, f"{kind} from 1:40 to {to}", gained_s)


def not_fitting(slot_s: int) -> NotFitting:
    found = solve_run_sheet(sheet(slot_s))
    assert isinstance(found, NotFitting)
    return found


@pytest.mark.parametrize(
    ("slot_s", "cuts"),
    [
        (1419, (ROUND_3,)),
        (1260, (ROUND_3,)),
        (1259, (ROUND_3, ROUND_2)),
        (1100, (ROUND_3, ROUND_2)),
        (1099, (ROUND_3, ROUND_2, SET)),
        (1070, (ROUND_3, ROUND_2, SET)),
        (1050, (ROUND_3, ROUND_2, SET, arrive("1:20", 20))),
        (1030, (ROUND_3, ROUND_2, SET, arrive("1:00", 40))),
        # The press gains 40 s of which 20 are not needed: arriving has them back.
        (1010, (ROUND_3, ROUND_2, SET, arrive("1:20", 20), PRESS)),
        (970, (ROUND_3, ROUND_2, SET, arrive("1:00", 40), PRESS, WARMER)),
    ],
)
def test_cuts_come_in_their_order_and_no_more_of_them_than_needed(
    slot_s: int, cuts: tuple[Cut, ...]
) -> None:
    found = not_fitting(slot_s)
    assert found.cuts == cuts
    assert found.over_by_s == 1420 - slot_s
    assert found.least_s == 970
    assert found.solution is not None
    assert found.solution.makespan_s == 1420 - sum(cut.gained_s for cut in cuts) <= slot_s


def test_where_nothing_fits_the_least_is_said() -> None:
    found = not_fitting(969)
    assert (found.fit, found.other_fit, found.cuts, found.solution) == (None, None, (), None)
    assert found.message == (
        "Nothing fits into 16:09: with every cut allowed the session needs 16:10. Find 0:01 more, "
        "or hold another session."
    )


def test_the_other_order_keeps_rounds_while_parts_can_shrink() -> None:
    found = not_fitting(1400)
    assert found.message == "0:20 too long for 23:20. It fits with: A: 3 to 2 rounds (2:40)."
    assert found.other_fit is not None
    assert found.other_fit.cuts == (arrive("1:20", 20),)
    assert not_fitting(970).other_fit is not None
    alone = replace(sheet(1400), before=(FixedPart(PartKind.REHEARSAL, 800),))
    same = solve_run_sheet(alone)
    assert isinstance(same, NotFitting)
    assert (same.cuts, same.other_fit) == ((ROUND_3,), None)


def test_every_first_cut_is_offered_with_what_it_gains_alone() -> None:
    assert not_fitting(1400).options == (
        ROUND_3,
        SET,
        arrive("1:00", 40),
        replace(PRESS, gained_s=120),
        WARMER,
    )


CIRCUIT = CircuitBlock(
    "B",
    (CircuitStation("box", "jump", 2), CircuitStation("mat", "plank", 2)),
    tuple(WorkGroup(f"g{n}", (f"a{n}", f"b{n}")) for n in range(3)),
    *(30, 10, 2),
)


def test_rounds_go_down_to_the_fewest_and_sets_from_the_drill_with_most() -> None:
    assert fewer_rounds(replace(COMPLEX, rounds=2, minimum_rounds=2)) is None
    assert fewer_rounds(replace(COMPLEX, rounds=1)) is None
    assert fewer_rounds(replace(CIRCUIT, minimum_rounds=2)) is None
    taken = fewer_rounds(CIRCUIT)
    assert taken == (replace(CIRCUIT, rounds=1), "B: 2 to 1 rounds")
    three = drills(Drill("d", 2, 20), Drill("e", 3, 20), Drill("f", 3, 20))
    taken = fewer_rounds(three)
    assert taken is not None
    assert isinstance(taken[0], DrillBlock)
    assert [drill.sets for drill in taken[0].drills] == [2, 2, 3]
    assert taken[1] == "D, e: 3 to 2 sets"
    assert fewer_rounds(replace(three, minimum_sets=3)) is None


def test_exercises_go_from_the_end_if_they_may_and_one_stays() -> None:
    hinge, press = COMPLEX.exercises
    kept = TimedExercise("row", 10, can_be_cut=False)
    taken = fewer_exercises(replace(COMPLEX, exercises=(hinge, press, kept)))
    assert taken == (replace(COMPLEX, exercises=(hinge, kept)), "A: without press")
    assert fewer_exercises(replace(COMPLEX, exercises=(hinge,))) is None
    assert fewer_exercises(replace(COMPLEX, exercises=(kept, replace(kept, name="x")))) is None
    box, mat = CIRCUIT.stations
    taken = fewer_exercises(CIRCUIT)
    assert taken == (replace(CIRCUIT, stations=(box,)), "B: without plank")
    taken = fewer_exercises(replace(CIRCUIT, stations=(box, replace(mat, can_be_cut=False))))
    assert taken is not None
    assert taken[1] == "B: without jump"
    assert fewer_exercises(replace(CIRCUIT, stations=(box,))) is None
    two = drills(Drill("d", 2, 20), Drill("e", 3, 20, can_be_cut=False))
    taken = fewer_exercises(two)
    assert taken is not None
    assert isinstance(taken[0], DrillBlock)
    assert ([d.name for d in taken[0].drills], taken[1]) == (["e"], "D: without d")
    assert fewer_exercises(DRILLS) is None


def test_more_bars_make_fewer_waves() -> None:
    three = replace(COMPLEX, users=(ANN, BO, BarUser("cy", "g", "bar 1", 3)))
    # 3 rounds of 3, 2 or 1 turns of 80 s; rest between two of one wave.
    assert more_bars(three) == [KitGain("bar", 1, 240, 100), KitGain("bar", 2, 480, 20)]
    # One wave has to wait for the least rest: 2 x (60 + 60) + 80 s.
    assert more_bars(replace(three, minimum_rest_s=60))[1] == KitGain("bar", 2, 400, 60)
    assert more_bars(replace(three, minimum_rest_s=300)) == [
        # The last round is shorter by a turn, and by two.
        KitGain("bar", 1, 80, 300),
        KitGain("bar", 2, 160, 300),
    ]
    assert more_bars(replace(COMPLEX, users=(ANN,))) == []


def test_a_place_at_the_tight_stations_lets_groups_share() -> None:
    # Three turns of 40 s a round become two.
    assert more_station_kit(CIRCUIT) == [KitGain("place at box, mat", 1, 80)]
    roomy = replace(CIRCUIT, stations=(CIRCUIT.stations[0], CircuitStation("mat", "plank", 4)))
    assert more_station_kit(roomy) == [KitGain("place at box", 1, 80)]
    assert more_station_kit(replace(CIRCUIT, groups=CIRCUIT.groups[:2])) == []


def with_balls(groups: int, balls: int) -> DrillBlock:
    """One drill of 20 s with a ball."""
    return DrillBlock(
        "D",
        (Drill("d", 1, 20, kit=("ball",)),),
        tuple(WorkGroup(f"g{n}", (f"a{n}",)) for n in range(groups)),
        (KitPool("ball", balls),),
    )


@pytest.mark.parametrize(
    ("groups", "balls", "gains"),
    [
        (2, 1, [KitGain("ball", 1, 20)]),
        (3, 1, [KitGain("ball", 1, 20)]),
        # Three balls still make two turns, four make one.
        (4, 2, [KitGain("ball", 2, 20)]),
        (5, 2, [KitGain("ball", 1, 20)]),
        (2, 2, []),
    ],
)
def test_more_pieces_save_turns(groups: int, balls: int, gains: list[KitGain]) -> None:
    assert more_pieces(with_balls(groups, balls), 1.0) == gains


def test_one_more_lane_needs_two_people_in_each() -> None:
    lane = Drill("d", 2, 4, style=DrillStyle.LANE, gap_s=5)
    # Four in a line: 20 + 15 + 4 s; two in each: 10 + 5 + 4 s.
    four = drills(lane, members=("a", "b", "c", "d"))
    assert one_more_lane(four, 1.0) == [KitGain("lane", 1, 20)]
    assert one_more_lane(drills(lane, members=("a", "b", "c")), 1.0) == []
    assert one_more_lane(replace(four, drills=(lane, Drill("e", 1, 9))), 1.0) == []
    begun = replace(four, groups=(replace(four.groups[0], done=("d",)),))
    assert one_more_lane(begun, 1.0) == []


def test_kit_is_told_by_what_a_piece_gains() -> None:
    three = replace(COMPLEX, users=(ANN, BO, BarUser("cy", "g", "bar 1", 3)))
    asked = replace(sheet(3600), blocks=(with_balls(2, 1), three, CIRCUIT))
    assert [(gain.kit, gain.more, gain.gained_s) for gain in kit_gains(asked)] == [
        ("bar", 1, 240),
        ("bar", 2, 480),
        ("place at box, mat", 1, 80),
        ("ball", 1, 20),
    ]


ARRIVE, WARM_UP, REHEARSAL = PartKind.ARRIVE, PartKind.WARM_UP, PartKind.REHEARSAL
FINISH, SPARE, PACK = PartKind.FINISH, PartKind.SPARE, PartKind.PACK


@pytest.mark.parametrize(
    ("now_s", "before", "rounds", "after"),
    [
        (0, [(ARRIVE, 100, 60), (WARM_UP, 500, 480), (REHEARSAL, 200, 200)], [3, 2], (100, 60)),
        (50, [(ARRIVE, 50, 10), (WARM_UP, 500, 480), (REHEARSAL, 200, 200)], [3, 2], (100, 60)),
        (99, [(ARRIVE, 1, 0), (WARM_UP, 500, 480), (REHEARSAL, 200, 200)], [3, 2], (100, 60)),
        (100, [(WARM_UP, 500, 480), (REHEARSAL, 200, 200)], [3, 2], (100, 60)),
        (300, [(WARM_UP, 300, 280), (REHEARSAL, 200, 200)], [3, 2], (100, 60)),
        (600, [(REHEARSAL, 200, 200)], [3, 2], (100, 60)),
        (800, [], [3, 2], (100, 60)),
        # Rounds begin at 800, 960 and 1120 s; one under way is finished.
        (801, [(FINISH, 159, 159)], [2, 2], (100, 60)),
        (960, [], [2, 2], (100, 60)),
        (961, [(FINISH, 159, 159)], [1, 2], (100, 60)),
        (1121, [(FINISH, 159, 159)], [2], (100, 60)),
        (1279, [(FINISH, 1, 1)], [2], (100, 60)),
        (1280, [], [2], (100, 60)),
        (1310, [], [2], (100, 60)),
        (1311, [(FINISH, 49, 49)], [], (100, 60)),
        (1359, [(FINISH, 1, 1)], [], (100, 60)),
        (1360, [], [], (100, 60)),
        (1400, [], [], (60, 60)),
        (1460, [], [], (60,)),
        (1519, [], [], (1,)),
    ],
)
def test_what_is_left_at_a_moment(
    now_s: int,
    before: list[tuple[PartKind, int, int]],
    rounds: list[int],
    after: tuple[int, ...],
) -> None:
    left = remaining(sheet(3600), now_s=now_s, left_s=2000)
    assert [(p.kind, p.duration_s, p.shortest_s) for p in left.before] == before
    found = [b.drills[0].sets if isinstance(b, DrillBlock) else b.rounds for b in left.blocks]
    assert found == rounds
    assert tuple(part.duration_s for part in left.after) == after
    assert left.slot_s == 2000
    if before or rounds:
        lay_out(left)


def test_at_the_end_nothing_is_left() -> None:
    with pytest.raises(InvalidInput, match="1520 s is after everything planned"):
        remaining(sheet(3600), now_s=1520, left_s=2000)
    for now_s, left_s in ((-1, 10), (3601, 10), (0, 0), (0, 14_401)):
        with pytest.raises(InvalidInput):
            remaining(sheet(3600), now_s=now_s, left_s=left_s)
    remaining(sheet(3600), now_s=0, left_s=14_400)
    fixed = RunSheetProblem(900, BEFORE, (), AFTER)
    assert [p.kind for p in remaining(fixed, now_s=799, left_s=9).after] == [SPARE, PACK]


@pytest.mark.parametrize(
    ("now_s", "users"),
    [
        # Who works, in how many of the rounds that are left, and from which on.
        (801, {"ann": (None, 1), "bo": (1, 1), "cy": (None, 2)}),
        (961, {"ann": (None, 1), "bo": (0, 1), "cy": (None, 1)}),
    ],
)
def test_rounds_of_each_that_are_left(now_s: int, users: dict[str, tuple[int | None, int]]) -> None:
    block = remaining(sheet(3600), now_s=now_s, left_s=2000).blocks[0]
    assert not isinstance(block, CircuitBlock | DrillBlock)
    assert {u.athlete: (u.rounds, u.first_round) for u in block.users} == users
    few = replace(COMPLEX, minimum_rounds=3)
    (left, *_) = remaining(replace(sheet(3600), blocks=(few,)), now_s=now_s, left_s=2000).blocks
    assert left.minimum_rounds == left.rounds  # type: ignore[union-attr]


def test_rounds_of_a_circuit_that_are_left() -> None:
    # Rounds of three turns of 40 s begin at 800 and 920 s.
    asked = replace(sheet(3600), blocks=(CIRCUIT,))
    for now_s, rounds, finish in ((801, 1, 119), (920, 1, 0), (921, 0, 119)):
        left = remaining(asked, now_s=now_s, left_s=2000)
        assert [b.rounds for b in left.blocks] == ([rounds] if rounds else [])  # type: ignore[union-attr]
        assert sum(p.duration_s for p in left.before) == finish


def test_drills_that_are_left_group_by_group() -> None:
    """Two sets of d take 50 s, e follows for 20 s; two groups share the one ball of d."""
    of = (Drill("d", 2, 20, rest_s=10, kit=("ball",)), Drill("e", 1, 20, step=2))
    groups = (WorkGroup("g", ("ann",)), WorkGroup("h", ("bo",)))
    block = DrillBlock("D", of, groups, (KitPool("ball", 1),))
    asked = replace(sheet(3600), blocks=(block,))
    # Ann from 800 to 850 and 870 s, Bo from 850 to 900 and 920 s.
    for now_s, names, done, finish in (
        (800, ["d", "e"], [(), ()], 0),
        (801, ["d", "e"], [("d",), ()], 49),
        (850, ["d", "e"], [("d",), ()], 0),
        (851, ["e"], [("d", "e"), ("d",)], 49),
        (901, [], [], 19),
    ):
        left = remaining(asked, now_s=now_s, left_s=2000)
        found = [b for b in left.blocks if isinstance(b, DrillBlock)]
        assert [d.name for b in found for d in b.drills] == names, now_s
        assert [g.done for b in found for g in b.groups] == done, now_s
        assert sum(p.duration_s for p in left.before) == finish, now_s


@pytest.mark.parametrize(
    ("arrives_s", "now_s", "left"),
    [
        # Warm at 761 s, then 200 s of rehearsal alone.
        (281, 100, (181, 480, 200)),
        (281, 281, (0, 480, 200)),
        (281, 300, (0, 461, 200)),
        (281, 761, (0, 0, 200)),
        (281, 800, (0, 0, 161)),
        (281, 960, (0, 0, 1)),
        (281, 961, None),
        # Warm at 580 s, and then with the squad until 800 s.
        (100, 90, (10, 480, 220)),
        (100, 700, (0, 0, 100)),
        (100, 800, None),
    ],
)
def test_what_is_left_of_the_preparation_of_a_late_one(
    arrives_s: int, now_s: int, left: tuple[int, int, int] | None
) -> None:
    asked = remaining(sheet(3600, LateArrival("ann", arrives_s)), now_s=now_s, left_s=2000)
    found = [(late.arrives_s, late.warm_up_s, late.rehearsal_s) for late in asked.late]
    assert found == ([] if left is None else [left])


def test_a_late_one_who_rehearses_nothing_has_his_warm_up_left() -> None:
    asked = replace(sheet(3600, LateArrival("ann", 281)), before=BEFORE[:3])
    (late,) = remaining(asked, now_s=300, left_s=2000).late
    assert (late.warm_up_s, late.rehearsal_s) == (461, 0)
    assert remaining(asked, now_s=300, left_s=2000).least_warm_up_s == 280
