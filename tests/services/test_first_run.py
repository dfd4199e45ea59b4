"""The first day: each step known by what the club holds, each stored whole or not at all."""

from dataclasses import replace
from datetime import date, time

import pytest

from services.fakes import FakeKeeper, FakeStore
from squadwright.demo import demo_club
from squadwright.errors import Conflict, InvalidInput, NotFound
from squadwright.library.starting_stores import kit_of, starting_store
from squadwright.model.club import Club
from squadwright.model.room import Obstacle
from squadwright.planning.plan import make_plan
from squadwright.planning.verify import verify_plan
from squadwright.services.club_changes import take_back
from squadwright.services.clubs import present_club
from squadwright.services.first_run import (
    RoomEntry,
    first_session,
    first_steps,
    found_club,
    look_at_squad,
    shelf_for,
    take_kit,
    take_room,
    take_routine,
    take_squad,
)
from squadwright.units import MassUnit

MONDAY = date(2026, 3, 2)
KG = MassUnit.KILOGRAM
TWELVE = "\n".join(
    f"{name}, {1996 + n}, {'fm'[n % 2]}, {('novice', 'intermediate', 'intermediate')[n % 3]}, "
    f"{55 + 3 * n}, {25 + 2.5 * n}"
    for n, name in enumerate(
        (
            *("Ada Fenn", "Bodo Krast", "Cleo Vint", "Dag Ruhl", "Elke Sorn", "Finn Abery"),
            *("Gita Lohm", "Hugo Prast", "Ines Quell", "Jory Tamm", "Kaia Ubel", "Lars Wick"),
        )
    )
)


@pytest.fixture
def keeper() -> FakeKeeper:
    return FakeKeeper(FakeStore(), is_ready=True)


def club_of(keeper: FakeKeeper) -> Club:
    club = present_club(keeper)
    assert club is not None
    return club


def take_twelve(keeper: FakeKeeper) -> None:
    _, code = look_at_squad(club_of(keeper), TWELVE, unit=KG, today=MONDAY)
    assert take_squad(keeper, TWELVE, unit=KG, sport="wrestling", code=code, today=MONDAY)


def walk_to(keeper: FakeKeeper, routine: str) -> None:
    """All steps before the session."""
    found_club(keeper, "Slate Yard")
    take_twelve(keeper)
    store = starting_store("six-bars")
    take_kit(keeper, kit_of(store, store.counts), today=MONDAY)
    take_room(keeper, RoomEntry("Hall", 12, 9, 4.0, column=(6.0, 4.5)), today=MONDAY)
    take_routine(keeper, routine, today=MONDAY)


def test_every_step_is_done_in_turn_and_the_plan_holds_all_twelve(keeper: FakeKeeper) -> None:
    assert present_club(keeper) is None
    walk_to(keeper, "slate-yard")
    assert first_steps(club_of(keeper)).next_step() == "session"
    stored = first_session(keeper, MONDAY, time(18, 0), 60, coach="Head coach", today=MONDAY)
    club = club_of(keeper)
    assert first_steps(club).next_step() is None
    plan = make_plan(club, stored.session)
    assert verify_plan(club, stored.session, plan) == ()
    assert {d.athlete for d in plan.doses} == {a.id for a in club.athletes}
    assert plan.session.staff == ("Head coach",)
    assert club.rooms[0].obstacles == (Obstacle("column", 6.0, 4.5),)


def test_a_club_is_begun_once(keeper: FakeKeeper) -> None:
    found_club(keeper, "Slate Yard")
    with pytest.raises(Conflict, match="There is a club already: Slate Yard"):
        found_club(keeper, "Other")


def test_the_squad_is_taken_only_as_it_was_looked_at(keeper: FakeKeeper) -> None:
    found_club(keeper, "Slate Yard")
    _, code = look_at_squad(club_of(keeper), TWELVE, unit=KG, today=MONDAY)
    other = f"{TWELVE}\nMads Yoll, 2001, m"
    assert take_squad(keeper, other, unit=KG, sport="judo", code=code, today=MONDAY) is None
    in_pounds = MassUnit.POUND
    assert take_squad(keeper, TWELVE, unit=in_pounds, sport="judo", code=code, today=MONDAY) is None
    assert club_of(keeper).athletes == ()


def test_a_squad_with_a_line_to_mend_is_not_taken(keeper: FakeKeeper) -> None:
    found_club(keeper, "Slate Yard")
    with pytest.raises(InvalidInput, match=r"line 13, sex is missing"):
        take_squad(
            keeper, f"{TWELVE}\nMads Yoll, 2001", unit=KG, sport="judo", code="", today=MONDAY
        )
    with pytest.raises(InvalidInput, match="there is no name in it"):
        take_squad(keeper, "\n \n", unit=KG, sport="judo", code="", today=MONDAY)
    assert club_of(keeper).athletes == ()


def test_the_squad_taken_can_be_taken_back(keeper: FakeKeeper) -> None:
    found_club(keeper, "Slate Yard")
    _, code = look_at_squad(club_of(keeper), TWELVE, unit=KG, today=MONDAY)
    done = take_squad(keeper, TWELVE, unit=KG, sport="judo", code=code, today=MONDAY)
    assert done is not None
    take_back(keeper, done.step, today=MONDAY)
    assert club_of(keeper).athletes == ()


def test_a_store_without_anything_counts_as_done(keeper: FakeKeeper) -> None:
    found_club(keeper, "Slate Yard")
    take_kit(keeper, kit_of(starting_store("nothing"), {}), today=MONDAY)
    assert first_steps(club_of(keeper)).kit


def test_outdoors_has_grass_and_a_high_sky(keeper: FakeKeeper) -> None:
    found_club(keeper, "Slate Yard")
    room = take_room(keeper, RoomEntry("Field", 40, 20, None), today=MONDAY).club.rooms[0]
    assert (room.surface, room.ceiling_m, room.note) == ("grass", 20.0, "Outdoors.")


def test_a_column_outside_the_room_is_refused(keeper: FakeKeeper) -> None:
    found_club(keeper, "Slate Yard")
    with pytest.raises(InvalidInput, match="a column 13 m along and 4 m across is outside 12 x 9"):
        take_room(keeper, RoomEntry("Hall", 12, 9, 4.0, column=(13, 4)), today=MONDAY)


def test_a_room_of_the_first_day_keeps_the_rules_of_every_room(keeper: FakeKeeper) -> None:
    found_club(keeper, "Slate Yard")
    take_room(keeper, RoomEntry("Hall", 12, 9, 4.0, column=(5, 4)), today=MONDAY)
    with pytest.raises(InvalidInput, match="there is a room 'hall' already"):
        take_room(keeper, RoomEntry("hall", 10, 8, 4.0), today=MONDAY)
    with pytest.raises(InvalidInput, match="column is not inside Annexe"):
        take_room(keeper, RoomEntry("Annexe", 12, 9, 4.0, column=(0, 4)), today=MONDAY)
    assert [(room.id, room.name) for room in club_of(keeper).rooms] == [("hall", "Hall")]


def test_a_session_before_the_other_steps_is_refused_and_stores_nothing(
    keeper: FakeKeeper,
) -> None:
    found_club(keeper, "Slate Yard")
    take_twelve(keeper)
    with pytest.raises(Conflict, match="The kit is missing"):
        first_session(keeper, MONDAY, time(18, 0), 60, coach="Head coach", today=MONDAY)
    assert club_of(keeper).staff == ()


def test_no_step_works_without_a_club(keeper: FakeKeeper) -> None:
    with pytest.raises(NotFound):
        take_room(keeper, RoomEntry("Hall", 12, 9, 4.0), today=MONDAY)
    with pytest.raises(NotFound):
        take_squad(keeper, TWELVE, unit=KG, sport="judo", code="", today=MONDAY)


def test_what_suits_squad_and_store_stands_first_on_the_shelf() -> None:
    club = replace(demo_club(MONDAY), sessions=())
    first = shelf_for(club, today=MONDAY)[0]
    assert first.suits
    assert first.routine.level == "intermediate"
    bare = replace(club, kit=kit_of(starting_store("nothing"), {}))
    without = [c for c in shelf_for(bare, today=MONDAY) if c.suits]
    assert without
    assert all("no kit" in choice.routine.fits for choice in without)
    young = replace(club, athletes=(club.athlete("A12"),))
    assert all("youth" in c.routine.fits for c in shelf_for(young, today=MONDAY) if c.suits)
    lanes = next(c for c in shelf_for(bare, today=MONDAY) if c.routine.id == "tide-lanes")
    assert {"balls", "boxes", "a wall for throws"} <= set(lanes.lacks)


def test_a_squad_of_novices_is_offered_nothing_above_it() -> None:
    club = replace(demo_club(MONDAY), sessions=())
    novices = replace(club, athletes=tuple(a for a in club.athletes if a.level == "novice"))
    assert {c.routine.level for c in shelf_for(novices, today=MONDAY) if c.suits} == {"novice"}
