"""What a run sheet is asked with: each number at both ends of its range, and what is refused."""

from collections.abc import Callable
from dataclasses import replace

import pytest

from squadwright.errors import InvalidInput
from squadwright.planning.run_sheet import (
    BarUser,
    CircuitBlock,
    CircuitStation,
    ComplexBlock,
    Drill,
    DrillBlock,
    DrillStyle,
    FixedPart,
    KitPool,
    LateArrival,
    PartKind,
    RunSheetProblem,
    TimedExercise,
    WorkGroup,
)
from squadwright.planning.run_sheet.blocks import one_after_the_other

HOURS_4 = 14_400
LIFT = TimedExercise("lift", 60)
ANN = BarUser("ann", "wave 1", "bar 1", 1)
PAIR = WorkGroup("pair", ("ann", "bo"))
STATION = CircuitStation("box", "jump", capacity=2)
COMPLEX = ComplexBlock("A", (LIFT,), (ANN,), 3)
CIRCUIT = CircuitBlock("B", (STATION,), (PAIR,), 30, 10, 2)
DRILL = Drill("throw", 3, 20)
LANE = Drill("row", 3, 20, style=DrillStyle.LANE, gap_s=1)
DRILLS = DrillBlock("C", (replace(DRILL, kit=("ball",)),), (PAIR,), (KitPool("ball", 1),))
WARM_UP = FixedPart(PartKind.WARM_UP, 600)
SPARE = FixedPart(PartKind.SPARE, 60)
ASKED = RunSheetProblem(3600, (WARM_UP,), (COMPLEX,), (SPARE,))
LATE = LateArrival("ann", 300)

RANGES = (
    (LIFT, "work_s", 1, HOURS_4),
    (ANN, "wave", 1, 20),
    (COMPLEX, "rounds", 1, 50),
    (COMPLEX, "change_s", 0, HOURS_4),
    (COMPLEX, "minimum_rest_s", 0, HOURS_4),
    (STATION, "capacity", 1, 100),
    (CIRCUIT, "work_s", 1, HOURS_4),
    (CIRCUIT, "move_s", 0, HOURS_4),
    (CIRCUIT, "rounds", 1, 50),
    (CIRCUIT, "round_rest_s", 0, HOURS_4),
    (DRILL, "sets", 1, 200),
    (DRILL, "set_s", 1, HOURS_4),
    (DRILL, "rest_s", 0, HOURS_4),
    (DRILL, "change_s", 0, HOURS_4),
    (DRILL, "return_s", 0, HOURS_4),
    (LANE, "gap_s", 1, HOURS_4),
    (replace(LANE, gap_s=0, clear_s=1), "clear_s", 1, HOURS_4),
    (DRILLS.pools[0], "count", 1, 1000),
    (DRILLS, "change_s", 0, HOURS_4),
    (SPARE, "duration_s", 0, HOURS_4),
    (SPARE, "minimum_s", 0, 60),
    (LATE, "arrives_s", 0, HOURS_4),
    (LATE, "warm_up_s", 0, HOURS_4),
    (LATE, "rehearsal_s", 0, HOURS_4),
    (ASKED, "slot_s", 1, HOURS_4),
    (ASKED, "block_gap_s", 0, HOURS_4),
)


def made(what: object, field: str, value: object) -> object:
    """The value set in a block that checks it."""
    changed = replace(what, **{field: value})  # type: ignore[type-var]
    if isinstance(changed, BarUser):
        return replace(COMPLEX, users=(changed,))
    return changed


@pytest.mark.parametrize(("what", "field", "low", "high"), RANGES)
def test_whole_numbers_from_the_least_to_the_most_are_taken(
    what: object, field: str, low: int, high: int
) -> None:
    made(what, field, low)
    made(what, field, high)
    for value in (low - 1, high + 1, low + 0.5, True):
        with pytest.raises(InvalidInput):
            made(what, field, value)


def test_rounds_of_one_user_lie_in_their_range() -> None:
    for more in ({"rounds": 0}, {"rounds": 50}, {"first_round": 1}, {"first_round": 50}):
        replace(COMPLEX, users=(replace(ANN, **more),))
    for more in ({"rounds": -1}, {"rounds": 51}, {"first_round": 0}, {"first_round": 51}):
        with pytest.raises(InvalidInput, match="rounds"):
            replace(COMPLEX, users=(replace(ANN, **more),))


BO = replace(ANN, athlete="bo")
TWIN = replace(PAIR, members=("c",))
ON_MATS = replace(DRILL, kit=("mat",))
REFUSED: tuple[tuple[str, Callable[[], object]], ...] = (
    ("A.exercises: is empty", lambda: replace(COMPLEX, exercises=())),
    ("A.users: is empty", lambda: replace(COMPLEX, users=())),
    ("pair.members: is empty", lambda: replace(PAIR, members=())),
    ("B.stations: is empty", lambda: replace(CIRCUIT, stations=())),
    ("B.groups: is empty", lambda: replace(CIRCUIT, groups=())),
    ("C.drills: is empty", lambda: replace(DRILLS, drills=())),
    ("C.groups: is empty", lambda: replace(DRILLS, groups=())),
    ("'ann' stands twice", lambda: replace(COMPLEX, users=(ANN, replace(ANN, bar="bar 2")))),
    ("bar 'bar 1' has two users in wave 1", lambda: replace(COMPLEX, users=(ANN, BO))),
    (
        "1 people, and the largest group has 2",
        lambda: replace(CIRCUIT, stations=(STATION, replace(STATION, name="mat", capacity=1))),
    ),
    ("'pair' names two groups", lambda: replace(CIRCUIT, groups=(PAIR, TWIN))),
    ("'ann' stands in two groups", lambda: replace(DRILLS, groups=(PAIR, replace(PAIR, name="q")))),
    ("'throw' stands twice", lambda: replace(DRILLS, drills=(DRILL, DRILL))),
    ("'mat' is not among the kit pools", lambda: replace(DRILLS, drills=(ON_MATS,))),
    ("0 s between starts in a lane", lambda: replace(LANE, gap_s=0)),
    (
        "has no meaning when one works",
        lambda: replace(DRILL, style=DrillStyle.IN_TURN, frees_kit_between_sets=True),
    ),
    ("0 s is not above 0", lambda: replace(ASKED, time_limit_s=0.0)),
    ("spare time stands before the work", lambda: replace(ASKED, before=(SPARE,))),
    (
        "may shrink to 480 s, below the least of 481 s",
        lambda: replace(ASKED, least_warm_up_s=481),
    ),
    (
        "may shrink to 479 s, below the least of 480 s",
        lambda: replace(ASKED, after=(replace(WARM_UP, minimum_s=479),)),
    ),
    (
        "479 s is below the least of 480 s",
        lambda: replace(ASKED, late=(replace(LATE, warm_up_s=479),)),
    ),
    (
        "59 s is below its length of 60 s",
        lambda: FixedPart(PartKind.REHEARSAL, 60, minimum_s=59),
    ),
)  # fmt: skip


@pytest.mark.parametrize(("words", "make"), REFUSED)
def test_what_cannot_be_timed_is_refused_with_its_reason(
    words: str, make: Callable[[], object]
) -> None:
    with pytest.raises(InvalidInput) as refused:
        make()
    assert words in str(refused.value)


def test_what_is_just_possible_is_taken() -> None:
    replace(ASKED, late=(replace(LATE, warm_up_s=480),), time_limit_s=0.001)
    replace(ASKED, before=(replace(WARM_UP, minimum_s=480),))
    replace(ASKED, before=(FixedPart(PartKind.ARRIVE, 60),), least_warm_up_s=900)
    FixedPart(PartKind.REHEARSAL, 60, minimum_s=60)
    replace(DRILL, frees_kit_between_sets=True)
    replace(CIRCUIT, groups=(PAIR, WorkGroup("alone", ("cy",))))
    replace(COMPLEX, users=(ANN, replace(BO, wave=2), BarUser("cy", "wave 1", "bar 2", 1)))
    # One who is done leaves his place to another.
    replace(COMPLEX, users=(replace(ANN, rounds=2), replace(BO, first_round=3)))
    with pytest.raises(InvalidInput, match="two users"):
        replace(COMPLEX, users=(replace(ANN, rounds=2), replace(BO, first_round=2)))


@pytest.mark.parametrize(
    ("kind", "length_s", "shortest_s"),
    [
        (PartKind.SPARE, 300, 0),
        (PartKind.WARM_UP, 600, 480),
        (PartKind.WARM_UP, 300, 300),
        (PartKind.REHEARSAL, 300, 300),
        (PartKind.FINISH, 300, 300),
        (PartKind.SET_UP, 300, 300),
        (PartKind.ARRIVE, 300, 60),
        (PartKind.ARRIVE, 30, 30),
        (PartKind.COOL_DOWN, 300, 60),
        (PartKind.PACK, 300, 60),
    ],
)
def test_how_far_a_part_may_shrink(kind: PartKind, length_s: int, shortest_s: int) -> None:
    assert FixedPart(kind, length_s).shortest_s == shortest_s
    kept = FixedPart(kind, length_s, minimum_s=length_s)
    assert kept.shortest_s == length_s


@pytest.mark.parametrize(
    ("first", "own", "of", "rounds"),
    [
        (1, None, 3, [1, 2, 3]),
        (2, None, 3, [2, 3]),
        (1, 2, 3, [1, 2]),
        (2, 2, 3, [2, 3]),
        (3, 2, 3, [3]),
        (4, 2, 3, []),
        (1, 0, 3, []),
    ],
)
def test_the_rounds_somebody_works_in(
    first: int, own: int | None, of: int, rounds: list[int]
) -> None:
    assert list(replace(ANN, first_round=first, rounds=own).works_in(of)) == rounds


def test_who_shares_a_place_begins_when_the_one_before_is_done() -> None:
    users = (
        replace(ANN, rounds=2),
        BO,
        BarUser("cy", "wave 1", "bar 1", 1, rounds=1),
        BarUser("di", "wave 2", "bar 1", 2),
        BarUser("ed", "wave 1", "bar 2", 1, first_round=4),
    )
    begins = {u.athlete: u.first_round for u in one_after_the_other(users, 6)}
    # Ann has rounds 1 and 2, Bo all that are left of 6, so that Cy finds none.
    assert begins == {"ann": 1, "bo": 3, "cy": 7, "di": 1, "ed": 4}
    asked_later = (replace(ANN, first_round=3, rounds=2), replace(BO, rounds=2))
    begins = {u.athlete: u.first_round for u in one_after_the_other(asked_later, 6)}
    assert begins == {"ann": 3, "bo": 1}
