"""A routine tried with invented athletes: what the store has nothing for, and what is cut."""

from dataclasses import replace
from datetime import date
from typing import Any

import pytest

from planning.verify.sound_plan import CLUB, HALL, KIT, SESSION, person
from squadwright.errors import InvalidInput
from squadwright.model.athlete import Level, MassReading
from squadwright.model.kit import Ball, Kit
from squadwright.model.routine import Block, CountedIn, Routine, Scheme, Step, Style
from squadwright.model.session import CheckIn, Override
from squadwright.planning.routine_check.trial import (
    MOST_ATHLETES,
    Trial,
    slot_of,
    try_routine,
    usual_mass_kg,
)
from squadwright.units import kilograms


def block(name: str, *exercises: str, sets: int = 1) -> Block:
    steps = tuple(Step(each, Scheme(CountedIn.REPETITIONS, 5, sets)) for each in exercises)
    return Block(name, Style.SETS, steps)


def trial(*blocks: Block, athletes: int = 4, kit: Kit = KIT, **more: Any) -> Trial:
    routine = Routine("r", 1, "R", "aim", blocks)
    return Trial(routine, athletes, Level.NOVICE, kit, more.pop("session", slot_of(60)), **more)


def with_balls(*balls: Ball) -> Kit:
    return replace(KIT, balls=balls)


@pytest.mark.parametrize(
    ("kit", "fits"),
    [
        # At 70 kg a ball of 4 kg is the heaviest.
        (with_balls(Ball("b", kilograms(4))), True),
        (with_balls(Ball("b", kilograms("4.01"))), False),
        (with_balls(Ball("b", kilograms(3), in_service=False)), False),
        (with_balls(Ball("b", kilograms(3), bounces=False)), True),
        (with_balls(), False),
        (with_balls(Ball("b", kilograms(9)), Ball("c", kilograms(2))), True),
    ],
)
def test_a_block_is_done_where_a_ball_is_light_enough(kit: Kit, fits: bool) -> None:
    passes, jumps = block("P", "forward-scoop-throw"), block("J", "squat-jump")
    both = try_routine(trial(passes, jumps, kit=kit))
    assert [plan.block.name for plan in both.blocks] == (["P", "J"] if fits else ["J"])
    assert both.no_kit_for == (() if fits else ("P",))
    alone = try_routine(trial(passes, kit=kit))
    assert bool(alone.trouble) == (not fits)
    assert (alone.laid_out is None) == (not fits)
    # One exercise that can be done is enough for its block.
    mixed = try_routine(trial(block("P", "forward-scoop-throw", "push-up"), kit=kit))
    assert mixed.no_kit_for == ()


def test_a_block_is_done_where_a_box_is_low_enough() -> None:
    jumps = block("B", "jump-to-box")
    assert try_routine(trial(jumps)).no_kit_for == ()
    none = replace(KIT, boxes=())
    assert try_routine(trial(jumps, kit=none)).no_kit_for == ("B",)
    high = replace(KIT, boxes=tuple(replace(b, heights_m=(2.0,)) for b in KIT.boxes))
    assert try_routine(trial(jumps, kit=high)).no_kit_for == ("B",)


def test_cuts_are_looked_for_in_a_squad_that_is_not_too_large() -> None:
    long = block("J", "squat-jump", "push-up", sets=20)
    for athletes, is_looked_for in ((16, True), (17, False)):
        found = try_routine(trial(long, athletes=athletes, session=slot_of(30)))
        assert found.over_s > 0
        assert bool(found.cuts) == is_looked_for
    fits = try_routine(trial(block("J", "squat-jump")))
    assert (fits.over_s, fits.cuts, fits.trouble) == (0, (), "")


def test_how_much_it_is_too_long_is_what_it_takes_beyond_the_slot() -> None:
    long = block("J", "squat-jump", sets=20)
    found = try_routine(trial(long, session=slot_of(30)))
    assert found.laid_out is not None
    assert found.over_s == found.laid_out.makespan_s - 30 * 60


def test_a_floor_is_laid_out_in_a_room_alone() -> None:
    jumps = block("J", "squat-jump")
    assert try_routine(trial(jumps)).floor is None
    assert try_routine(trial(jumps, room=HALL)).floor is not None
    passes = trial(block("P", "forward-scoop-throw"), kit=with_balls(), room=HALL)
    assert try_routine(passes).floor is None


def test_the_usual_mass_is_the_middle_one_of_those_known() -> None:
    def weighing(*masses: str) -> tuple[Any, ...]:
        readings = (MassReading(kilograms(m), date(2026, 1, 1)) for m in masses)
        return tuple(replace(person("A1"), body_mass=(reading,)) for reading in readings)

    unknown = replace(person("A1"), body_mass=())
    assert usual_mass_kg((*weighing("60", "80", "61.4"), unknown)) == 61
    assert usual_mass_kg(weighing("60", "80")) == 70
    assert usual_mass_kg((unknown,)) == 70.0
    twice = replace(unknown, body_mass=(*weighing("90")[0].body_mass, *weighing("50")[0].body_mass))
    assert usual_mass_kg((twice,)) == 50


def test_a_slot_like_a_session_has_its_parts_and_nobody_in_it() -> None:
    words = (Override("A1", "w"),)
    asked = replace(SESSION, check_ins=(CheckIn("A1"),), overrides=words, arrive_minutes=9)
    like = slot_of(45, asked)
    assert (like.minutes, like.arrive_minutes, like.athletes) == (45, 9, ())
    assert (like.check_ins, like.overrides) == ((), ())
    assert slot_of(45).minutes == 45


@pytest.mark.parametrize("athletes", [1, MOST_ATHLETES])
def test_one_athlete_and_the_most_are_tried(athletes: int) -> None:
    assert trial(block("J", "squat-jump"), athletes=athletes).athletes == athletes
    for wrong in (0, MOST_ATHLETES + 1):
        with pytest.raises(InvalidInput):
            trial(block("J", "squat-jump"), athletes=wrong)
    assert CLUB.kit is KIT


@pytest.mark.parametrize("athletes", [1, 4, 5])
def test_as_many_work_as_were_asked_for(athletes: int) -> None:
    found = try_routine(trial(block("J", "squat-jump"), athletes=athletes))
    assert found.laid_out is not None
    at_work = {who for entry in found.laid_out.entries for who in entry.athletes}
    assert len(at_work) == athletes
