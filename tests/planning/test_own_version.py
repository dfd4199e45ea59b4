"""Each athlete's own version against every choice of swaps, and what room and store lack."""

from dataclasses import replace
from datetime import date
from functools import cache
from itertools import product

import pytest

from squadwright.demo import demo_club
from squadwright.demo.premises import MAT_HALL, WEIGHTS_ROOM
from squadwright.library import exercise, routine
from squadwright.model.athlete import AuthorRole, Restriction
from squadwright.model.exercise import Demand, Exercise
from squadwright.model.kit import Ball, Box, Kit
from squadwright.model.muscles import BodyArea
from squadwright.model.room import Room
from squadwright.model.routine import Block, CountedIn, Rest, Scheme, Step, Style
from squadwright.model.session import Override, Pain, Swap
from squadwright.planning.attendance import PersonToday, people_today
from squadwright.planning.bar_flow import flow_breaks
from squadwright.planning.own_version import (
    CHOICES_TRIED,
    NO_BALL,
    NO_BOX,
    NO_BOX_EACH,
    NO_WALL,
    VersionTask,
    by_coach_s_word,
    own_versions,
    swap_problem,
    what_lacks,
)
from squadwright.planning.personal import PersonalStep, unswapped
from squadwright.planning.substitution import substitute
from squadwright.planning.substitution.barred import barred_by
from squadwright.units import kilograms

CLUB = demo_club(date(2026, 3, 2))
SESSION = CLUB.sessions[0]
ROPEWALK = routine("ropewalk").blocks[0]
TEN = Scheme(CountedIn.REPETITIONS, 10)


@cache
def person(name: str = "A09") -> PersonToday:
    found = next(p for p in people_today(CLUB, SESSION) if p.id == name)
    return replace(found, restrictions=(), pains=())


def task(
    *people: PersonToday, block: Block = ROPEWALK, room: Room = WEIGHTS_ROOM, **changes: object
) -> VersionTask:
    club = replace(CLUB, kit=replace(CLUB.kit, **changes))  # type: ignore[arg-type]
    return VersionTask(club, SESSION, room, block, people)


def held(*demands: Demand) -> tuple[Restriction, ...]:
    day = date(2026, 3, 2)
    return (Restriction("r", "Physio", AuthorRole.MEDICAL, day, demands=demands),)


HURT = {
    "overhead": replace(person(), restrictions=held(Demand.OVERHEAD)),
    "hinge": replace(person(), restrictions=held(Demand.HINGE_BELOW_KNEE)),
    "rack": replace(person(), restrictions=held(Demand.FRONT_RACK_HOLD)),
    "rack and hinge": replace(
        person(), restrictions=held(Demand.FRONT_RACK_HOLD, Demand.HINGE_BELOW_KNEE)
    ),
    "bar": replace(person(), restrictions=held(Demand.BARBELL)),
    "knee": replace(person(), pains=(Pain(BodyArea.KNEE, 4),)),
    "shoulder": replace(person(), pains=(Pain(BodyArea.SHOULDER, 6),)),
    "nothing": person(),
}


def all_options(
    mine: VersionTask, who: PersonToday, written: tuple[PersonalStep, ...]
) -> list[list[PersonalStep | None]]:
    """The step where he may do it, else its first swaps and nothing."""
    options: list[list[PersonalStep | None]] = []
    for place, step in enumerate(written):
        if not barred_by(step.exercise, who.restrictions, who.pains, who.athlete.level, who.age):
            options.append([step])
            continue
        choices = substitute(swap_problem(mine, who, written, place)).choices[:CHOICES_TRIED]
        swaps: list[PersonalStep | None] = [
            None
            if choice.exercise is None or choice.scheme is None
            else replace(
                step,
                step=replace(
                    step.step,
                    exercise=choice.exercise.id,
                    scheme=choice.scheme,
                    last_ends=choice.last_ends,
                ),
                exercise=choice.exercise,
                replaced=step.exercise,
                reason=choice.reason,
            )
            for choice in choices
        ]
        options.append([*swaps, None])
    return options


def said(steps: tuple[PersonalStep, ...]) -> tuple[str, ...]:
    """Exercise, amount and last end of each step."""
    return tuple(f"{s.step.exercise} {s.step.scheme} {s.step.last_ends}" for s in steps)


@pytest.mark.parametrize("hurt", HURT)
def test_no_choice_of_swaps_gives_up_fewer_steps_or_takes_better_swaps(hurt: str) -> None:
    """Of all that flow: the fewest steps given up, then the best places in the lists of swaps."""
    who = HURT[hurt]
    mine = task(who)
    written = unswapped(ROPEWALK, exercise)
    found = own_versions(mine)[who.id]
    options = all_options(mine, who, written)
    ranks: list[tuple[int, int]] = []
    chosen: dict[tuple[str, ...], tuple[int, int]] = {}
    for places in product(*(range(len(option)) for option in options)):
        version = [option[place] for option, place in zip(options, places, strict=True)]
        steps = tuple(step for step in version if step is not None)
        if steps and not flow_breaks([s.step for s in steps], exercise):
            rank = (version.count(None), sum(places))
            ranks.append(rank)
            key = said(steps)
            chosen[key] = min(rank, chosen.get(key, rank))
    if not ranks:
        assert found == ()
        return
    assert chosen[said(found)] == min(ranks)


def in_sets(*ids: str) -> Block:
    steps = tuple(Step(i, TEN, label=str(n)) for n, i in enumerate(ids, start=1))
    return Block("S", Style.SETS, steps, rest=Rest())


def test_outside_a_complex_who_keeps_nothing_of_the_block_leaves_it() -> None:
    """A sore knee makes no jump: what is left of a block of jumps is not what it is for."""
    knee = HURT["knee"]
    jumps = in_sets("broad-jump-and-stick")
    assert own_versions(task(knee, block=jumps, room=MAT_HALL))[knee.id] == ()
    mixed = in_sets("broad-jump-and-stick", "strict-press")
    found = own_versions(task(knee, block=mixed, room=MAT_HALL))[knee.id]
    assert "strict-press" in [step.exercise.id for step in found]
    assert all(step.exercise.landings == () for step in found)
    well = own_versions(task(person(), block=jumps, room=MAT_HALL))[person().id]
    assert [step.exercise.id for step in well] == ["broad-jump-and-stick"]


def test_the_coach_s_swap_keeps_a_block_and_where_the_bar_ends() -> None:
    word = Override("A09", "to learn it", swaps=(Swap("1", "strict-press"),))
    session = replace(SESSION, overrides=(word,))
    block = in_sets("push-up")
    mine = replace(task(person(), block=block), session=session)
    (step,) = by_coach_s_word(mine, person(), unswapped(block, exercise))
    assert (step.exercise.id, step.step.last_ends) == ("strict-press", None)
    assert step.reason == "coach's word: to learn it"
    assert own_versions(mine)["A09"] == (step,)
    in_complex = replace(
        block,
        style=Style.COMPLEX,
        steps=(Step("deadlift", TEN, label="1"), Step("hang-power-clean", TEN, label="2")),
    )
    mine = replace(
        mine,
        block=in_complex,
        session=replace(session, overrides=(replace(word, swaps=(Swap("2", "front-squat"),)),)),
    )
    _, second = by_coach_s_word(mine, person(), unswapped(in_complex, exercise))
    assert second.step.last_ends is not None  # lowered to where the deadlift takes it


def needing(name: str, **needs: object) -> Exercise:
    old = exercise("push-up")
    return replace(old, id=name, needs=replace(old.needs, **needs))  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("needs", "kit", "room", "lack"),
    [
        ({}, Kit(), WEIGHTS_ROOM, None),
        ({"throw_wall": True}, Kit(), WEIGHTS_ROOM, NO_WALL),
        ({"throw_wall": True}, Kit(), MAT_HALL, None),
        ({"ball": True}, Kit(), MAT_HALL, NO_BALL),
        ({"ball": True}, Kit(balls=(Ball("b", kilograms(6)),)), MAT_HALL, None),
        ({"ball": True}, Kit(balls=(Ball("b", kilograms("6.1")),)), MAT_HALL, NO_BALL),
        (
            {"ball": True},
            Kit(balls=(Ball("b", kilograms(2), in_service=False),)),
            MAT_HALL,
            NO_BALL,
        ),
        ({"boxes": 1}, Kit(boxes=(Box("x", (0.3,)),)), MAT_HALL, None),
        ({"boxes": 2}, Kit(boxes=(Box("x", (0.3,)),)), MAT_HALL, NO_BOX),
        ({"box_row": True}, Kit(), MAT_HALL, NO_BOX),
        ({"box_row": True}, Kit(boxes=(Box("x", (0.3,)),)), MAT_HALL, None),
        ({"boxes": 1}, Kit(boxes=(Box("x", (0.3,), in_service=False),)), MAT_HALL, NO_BOX),
        ({"boxes": 1}, Kit(boxes=(Box("x", (0.3,), fit_for_landing=False),)), MAT_HALL, NO_BOX),
    ],
)
def test_what_room_or_store_lacks_is_named(
    needs: dict[str, object], kit: Kit, room: Room, lack: str | None
) -> None:
    heavy = replace(
        person(), athlete=replace(person().athlete, body_mass=person("A09").athlete.body_mass)
    )
    assert heavy.body_mass_kg is not None
    assert heavy.body_mass_kg >= 75  # a ball of up to 6 kg
    mine = VersionTask(
        replace(CLUB, kit=kit), SESSION, room, in_sets("push-up"), (heavy, person("A01"))
    )
    assert what_lacks(mine, heavy, needing("x", **needs)) == lack


@pytest.mark.parametrize(
    ("boxes", "lack"),
    [
        ((Box("x", (0.3,)), Box("y", (0.3,))), None),
        ((Box("x", (0.3,)),), NO_BOX_EACH),
        ((Box("x", (0.3,)), Box("y", (0.2,))), NO_BOX_EACH),
        ((Box("x", (0.3,)), Box("y", (0.3,), in_service=False)), NO_BOX_EACH),
        ((Box("x", (0.3,)), Box("y", (0.3,), fit_for_landing=False)), NO_BOX_EACH),
        ((Box("x", (0.9,)),), NO_BOX_EACH),
    ],
)
def test_under_a_bar_there_is_a_box_like_his_for_each(
    boxes: tuple[Box, ...], lack: str | None
) -> None:
    mine = task(person(), person("A01"), boxes=boxes)
    assert what_lacks(mine, person(), needing("x", boxes=1)) == lack


def test_a_swap_by_word_that_flows_needs_no_word_on_its_end() -> None:
    """Deadlift to deadlift from the hang; a press ends at the rack and nothing lifts the bar."""
    steps = (Step("deadlift", TEN, label="1"), Step("hang-power-clean", TEN, label="2"))
    block = Block("X", Style.COMPLEX, steps)
    for new, last_ends in (("romanian-deadlift", None), ("shrug", None), ("strict-press", True)):
        word = Override("A09", "why", swaps=(Swap("2", new),))
        mine = replace(task(person(), block=block), session=replace(SESSION, overrides=(word,)))
        _, second = by_coach_s_word(mine, person(), unswapped(block, exercise))
        assert (second.step.last_ends is not None) is bool(last_ends)
    stuck = (Step("front-squat", TEN, label="1"), Step("front-squat", TEN, label="2"))
    up = Block("X", Style.COMPLEX, stuck)
    word = Override("A09", "why", swaps=(Swap("2", "deadlift"),))
    mine = replace(task(person(), block=up), session=replace(SESSION, overrides=(word,)))
    _, second = by_coach_s_word(mine, person(), unswapped(up, exercise))
    assert second.step.last_ends is None
