"""One round more, or less rest: only where plates hold him, both were easy, and it fits."""

from dataclasses import replace

import pytest

from learning.histories import CAPACITIES, PRESSES, day, history, trial
from squadwright.learning.fit import fit
from squadwright.learning.forecast import forecast
from squadwright.learning.other_step import (
    LEAST_REST_S,
    OtherKind,
    Room,
    other_step,
)

LOAD_KG = 30.0
EASY = (trial(7, LOAD_KG, reserve=5.0), trial(14, LOAD_KG, reserve=5.0))
LEARNED = fit(history(*EASY)).on(day(21))
ROOM = Room(
    load_kg=LOAD_KG,
    target_kg=35.0,
    next_kg=32.5,
    target_probability=0.9,
    spare_s=300,
    round_s=180,
)


def proposed(room: Room = ROOM, trials: tuple = EASY, work: object = PRESSES):  # type: ignore[no-untyped-def, type-arg]
    return other_step(trials, LEARNED, work, CAPACITIES, room)  # type: ignore[arg-type]


def test_a_round_comes_first_and_its_chance_is_that_of_the_forecast() -> None:
    found = proposed()
    assert found is not None
    assert found.kind is OtherKind.ROUND
    assert found.work == replace(PRESSES, rounds=5)
    assert found.chance == forecast(LEARNED, found.work, LOAD_KG, CAPACITIES).completes
    assert found.chance >= ROOM.target_probability


@pytest.mark.parametrize("room", [replace(ROOM, spare_s=179), replace(ROOM, round_s=0)])
def test_without_time_for_a_round_it_is_less_rest(room: Room) -> None:
    found = proposed(room)
    assert found is not None
    assert found.kind is OtherKind.REST
    assert (found.work.rounds, found.work.rest_s) == (PRESSES.rounds, PRESSES.rest_s - 15)


def test_rest_that_turns_or_partners_set_cannot_be_made_shorter() -> None:
    assert proposed(replace(ROOM, spare_s=0, sets_rest=False)) is None
    short = replace(PRESSES, rest_s=LEAST_REST_S + 14)
    assert proposed(replace(ROOM, spare_s=0), work=short) is None


@pytest.mark.parametrize(
    "room",
    [
        # The dose would not bear the next load: it is his strength that holds him, not the plates.
        replace(ROOM, target_kg=31.0),
        # A step up was found for him.
        replace(ROOM, load_kg=32.5, target_kg=35.0),
    ],
)
def test_nothing_is_proposed_where_plates_do_not_hold_him(room: Room) -> None:
    assert proposed(room) is None


def test_a_store_with_nothing_heavier_holds_him_too() -> None:
    assert proposed(replace(ROOM, next_kg=None, target_kg=LOAD_KG)) is not None


@pytest.mark.parametrize(
    "last",
    [
        trial(14, LOAD_KG, reserve=1.0),
        trial(14, LOAD_KG),
        trial(14, LOAD_KG, clean=3, lost=1),
    ],
)
def test_two_easy_sessions_running_are_asked_for(last: object) -> None:
    assert proposed(trials=(EASY[0], last)) is None
    assert proposed(trials=EASY[1:]) is None


def test_what_is_not_likely_enough_is_not_proposed() -> None:
    assert proposed(replace(ROOM, target_probability=1.0, load_kg=LOAD_KG + 20)) is None
    heavy = replace(ROOM, load_kg=44.0, target_kg=44.0, next_kg=None)
    chance = forecast(LEARNED, replace(PRESSES, rounds=5), 44.0, CAPACITIES).completes
    assert chance < 0.9
    assert proposed(heavy, trials=tuple(replace(t, load_kg=44.0) for t in EASY)) is None


def test_on_more_than_he_lifted_last_time_nothing_is_added() -> None:
    heavier = replace(ROOM, load_kg=LOAD_KG + 0.5, next_kg=33.0)
    assert proposed(heavier) is None
    assert proposed(replace(ROOM, load_kg=LOAD_KG + 0.04)) is not None
