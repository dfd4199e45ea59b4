"""Which blocks are run otherwise on less floor, by hand: common practice, no source."""

from dataclasses import replace

import pytest

from squadwright.model.plan import FloorPlan, GroupLine
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
from squadwright.planning.floor_plan import LaidOut, NoRoom
from squadwright.planning.less_floor import is_better, less_floor, places_that_fit

STEP = Step("deadlift", Scheme(CountedIn.REPETITIONS, 5))
COMPLEX = Block("C", Style.COMPLEX, (STEP,), work_s=100, changeover_s=20)
SETS = Block("S", Style.SETS, (STEP,))
KINDS = {
    "complex": COMPLEX,
    "sets": replace(SETS, name="C"),
    "partner works": replace(SETS, name="C", rest=Rest(RestKind.PARTNER_WORKS)),
    "lanes": Block("C", Style.LANES, (STEP,), lane=LaneRule()),
    "circuit": Block("C", Style.CIRCUIT, (STEP,)),
}


def planned(block: Block, *, waves: int = 0, groups: int = 0) -> BlockPlan:
    return BlockPlan(
        block=block,
        timed=None,
        step_of={},
        versions={},
        rounds={},
        targets={},
        fittings={},
        missing=(),
        bars=(),
        bound=None,
        groups=tuple(GroupLine(f"g{n}", ("A",), "pair", block.name) for n in range(groups)),
        waves=waves,
    )


def floor(*troubles: tuple[str, int, int]) -> LaidOut:
    return LaidOut(
        FloorPlan("r", "R"),
        tuple(NoRoom(block, "places", wanted, fits, "", "") for block, wanted, fits in troubles),
    )


@pytest.mark.parametrize(
    ("kind", "in_turns"),
    [
        ("complex", True),
        ("sets", False),
        ("partner works", True),
        ("lanes", True),
        ("circuit", False),
    ],
)
def test_only_where_people_take_turns_is_a_block_run_otherwise(kind: str, in_turns: bool) -> None:
    plans = [planned(KINDS[kind])]
    assert places_that_fit(floor(("C", 6, 4)), plans) == ({"C": 4} if in_turns else {})
    assert places_that_fit(floor(("C", 6, 0)), plans) == {}
    assert places_that_fit(floor(("D", 6, 4)), plans) == {}


def test_a_floor_is_better_that_leaves_fewer_places_out_in_all() -> None:
    two_out, one_out = floor(("C", 6, 5), ("D", 3, 2)), floor(("C", 6, 5))
    assert is_better(one_out, two_out)
    assert not is_better(two_out, one_out)
    assert not is_better(two_out, two_out)
    assert is_better(floor(), one_out)
    assert is_better(floor(("C", 9, 8)), floor(("C", 3, 1)))


def test_more_waves_make_a_round_longer_by_their_work_and_changeovers() -> None:
    """Each wave has 100 s of work and 20 s of change: two more are 240 s."""
    before, after = [planned(COMPLEX, waves=2)], [planned(COMPLEX, waves=4)]
    (found,) = less_floor(before, after, floor(("C", 6, 3)))
    assert (found.before, found.after, found.longer_s) == ("2 waves", "4 waves", 240)
    assert (found.block, found.what, found.wanted, found.fits) == ("C", "places", 6, 3)
    assert less_floor(before, before, floor(("C", 6, 3))) == ()
    assert less_floor(before, after, floor()) == ()


def test_fewer_groups_are_told_and_take_no_longer() -> None:
    before, after = [planned(SETS, groups=4)], [planned(SETS, groups=2)]
    (found,) = less_floor(before, after, floor(("S", 4, 2)))
    assert (found.before, found.after, found.longer_s) == ("4 groups", "2 groups", 0)
    assert less_floor(after, before, floor(("S", 4, 2))) == ()
    assert less_floor(before, before, floor(("S", 4, 2))) == ()


def test_a_block_that_is_not_run_any_more_is_left_out_and_the_next_is_told() -> None:
    before = [planned(COMPLEX, waves=2), planned(SETS, groups=4)]
    after = [planned(SETS, groups=3)]
    (found,) = less_floor(before, after, floor(("C", 6, 3), ("S", 4, 3)))
    assert found.block == "S"
