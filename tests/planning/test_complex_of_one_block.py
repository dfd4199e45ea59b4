"""A complex planned as a block: rest from the waves, where the late join, stations on the floor."""

from dataclasses import replace
from datetime import timedelta

import pytest

from planning.people import MONDAY, competes_in, person
from squadwright.demo import demo_club
from squadwright.library import exercise
from squadwright.model.athlete import StrengthTest
from squadwright.model.exercise import ReferenceLift
from squadwright.model.kit import Kit
from squadwright.model.routine import (
    Block,
    CountedIn,
    GroupKind,
    Rest,
    RestKind,
    Scheme,
    Step,
    Style,
)
from squadwright.model.session import OddSquad, Settings
from squadwright.planning.block_plan import BlockPlan, BlockTask, plan_block, stations_used
from squadwright.planning.personal import unswapped
from squadwright.units import kilograms

CLUB = demo_club(MONDAY)
BLOCK = Block(
    "Bar",
    Style.COMPLEX,
    (Step("split-stance-strict-press", Scheme(CountedIn.REPETITIONS_EACH_SIDE, 3), "P"),),
    rounds=4,
    work_s=30,
    changeover_s=20,
    rest=Rest(RestKind.PARTNER_WORKS),
    group_kind=GroupKind.WAVES,
    waves=2,
)


def planned(
    count: int,
    *,
    block: Block = BLOCK,
    ready_s: dict[str, int] | None = None,
    places: int | None = None,
    bars: int = 6,
    guests: int = 0,
    tapers: int = 0,
    **settings: object,
) -> BlockPlan:
    """So many tested lifters, the first before an event, the last guests; so many of the bars."""
    made = StrengthTest(ReferenceLift.STRICT_PRESS, kilograms(60), 5, MONDAY - timedelta(days=9))
    people = {
        f"P{n}": replace(
            person(
                f"P{n}",
                tests=(made,),
                kg=70 + n,
                is_guest=n >= count - guests,
                events=(competes_in(3),) if n < tapers else (),
            ),
            status="late" if ready_s and f"P{n}" in ready_s else "present",
        )
        for n in range(count)
    }
    session = replace(
        CLUB.sessions[0],
        overrides=(),
        check_ins=(),
        settings=Settings(**settings),  # type: ignore[arg-type]
    )
    kit: Kit = replace(CLUB.kit, bars=CLUB.kit.bars[:bars])
    return plan_block(
        BlockTask(
            block=block,
            club=replace(CLUB, kit=kit),
            session=session,
            people=people,
            versions=dict.fromkeys(people, unswapped(block, exercise)),
            lookup=exercise,
            starts_s=600,
            ready_s=ready_s or {},
            places=places,
        )
    )


@pytest.mark.parametrize(("lifters", "waves", "rest_s"), [(1, 1, 20), (2, 2, 70), (4, 2, 70)])
def test_the_rest_in_a_dose_is_what_the_waves_leave(
    lifters: int, waves: int, rest_s: float
) -> None:
    """30 s of work and 20 to change: 50 s a wave, less his own 30 s. One lifter is one wave."""
    found = planned(lifters)
    assert found.waves == waves
    for target in found.targets.values():
        assert target.problem is not None
        assert target.problem.rest_s == rest_s


@pytest.mark.parametrize(
    ("ready_s", "first"), [(500, 1), (600, 1), (601, 2), (700, 2), (701, 3), (900, 4)]
)
def test_a_late_one_joins_in_the_first_round_that_starts_when_he_is_ready(
    ready_s: int, first: int
) -> None:
    """The block starts at 600 s; in two waves a round begins every 100 s."""
    own = planned(2, ready_s={"P0": ready_s}).rounds["P0"]
    assert (own.first_round, own.rounds) == (first, 4 - first + 1)


def test_on_less_floor_there_are_more_waves_on_fewer_bars() -> None:
    free = planned(6)
    assert (free.waves, stations_used(free)) == (2, 3)
    for places, waves in ((3, 2), (2, 3)):
        found = planned(6, places=places)
        assert found.waves == waves
        assert stations_used(found) <= places
    none = planned(6, places=1)
    assert none.waves == 2  # more than four waves would be needed: the floor says so elsewhere


@pytest.mark.parametrize(
    ("lifters", "waves", "odd", "found"),
    [
        (5, 2, OddSquad.THREES, 3),
        (4, 2, OddSquad.THREES, 2),
        (5, 2, OddSquad.ONE_THREE, 2),
        (5, 1, OddSquad.THREES, 1),
        (9, 1, OddSquad.ONE_THREE, 2),
    ],
)
def test_waves_are_those_written_but_for_threes_and_too_few_bars(
    lifters: int, waves: int, odd: OddSquad, found: int
) -> None:
    """Six bars in the store: nine lifters need two waves."""
    plan = planned(lifters, block=replace(BLOCK, waves=waves), odd_squad=odd)
    assert plan.waves == found


def test_one_too_many_goes_in_turn_instead_of_a_third_wave() -> None:
    """Two bars in two waves have four places; a guest of two rounds goes after one of two."""
    five = planned(5, bars=2, guests=1, tapers=1)
    assert (five.waves, five.in_turn) == (2, {"P4": "P0"})
    assert (five.rounds["P4"].first_round, five.rounds["P4"].rounds) == (3, 2)
    without = planned(5, bars=2, guests=1)
    assert (without.waves, without.in_turn) == (3, {})
    fewer = planned(4, bars=2, guests=1, tapers=1)
    assert (fewer.waves, fewer.in_turn) == (2, {})
    less = planned(5, bars=3, guests=1, tapers=1, places=2)
    assert (less.waves, less.in_turn) == (2, {"P4": "P0"})


def test_a_box_is_chosen_for_each_step_under_the_bar_that_wants_one() -> None:
    """Intermediate lifters: 50 cm at most, of the foam boxes of 40, 50 and 60 cm."""
    step_up = Step("step-up-to-box", Scheme(CountedIn.REPETITIONS, 5), "U")
    found = planned(2, block=replace(BLOCK, steps=(*BLOCK.steps, step_up)))
    heights = {of: fitting.box and fitting.box.height_m for of, fitting in found.fittings.items()}
    assert heights == {("P0", "U"): 0.5, ("P1", "U"): 0.5}
    assert planned(2).fittings == {}
