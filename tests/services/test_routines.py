"""Routines are added, changed, copied, put away and moved on; a stored version never changes."""

from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest

from services.fakes import FakeKeeper, FakeStore
from squadwright.config import sqlite_url
from squadwright.demo import demo_club
from squadwright.errors import Conflict, InvalidInput, NotFound
from squadwright.exchange.routine_file import write_routine
from squadwright.library import routine as shelf
from squadwright.model.club import Club
from squadwright.model.routine import Routine
from squadwright.model.session import Override, Swap
from squadwright.services import routines
from squadwright.services.club_changes import fingerprint, take_back
from squadwright.services.unit_of_work import Keeper
from squadwright.storage.database import Database
from squadwright.storage.keeper import SqlKeeper

MONDAY = date(2026, 3, 2)
LATER = date(2026, 6, 1)


@pytest.fixture(params=["in memory", "on SQLite"])
def keeper(request: pytest.FixtureRequest, tmp_path: Path) -> Keeper:
    club = demo_club(MONDAY)
    if request.param == "in memory":
        return FakeKeeper(FakeStore(club), is_ready=True)
    made = SqlKeeper(Database(sqlite_url(tmp_path / "club.sqlite3")))
    made.initialise()
    with made.writing() as store:
        store.save_club(club)
    return made


def club_of(keeper: Keeper) -> Club:
    with keeper.reading() as store:
        club = store.load_club()
    assert club is not None
    return club


def saved(keeper: Keeper, name: str, **fields: object) -> routines.Saved:
    now = routines.current_routine(club_of(keeper), name)
    changed: Routine = replace(now, **fields)  # type: ignore[arg-type]
    return routines.save_routine(keeper, name, changed, fingerprint(now), today=MONDAY)


def versions(keeper: Keeper, name: str) -> list[int]:
    return [r.version for r, _ in routines.versions_of(club_of(keeper), name)]


def test_a_new_routine_has_an_id_made_from_its_name(keeper: Keeper) -> None:
    first = routines.add_routine(
        keeper, replace(shelf("ropewalk"), name="Lóng Pier!"), today=MONDAY
    )
    second = routines.add_routine(
        keeper, replace(shelf("ropewalk"), name="Long pier"), today=MONDAY
    )
    assert (first.routine.id, first.routine.version) == ("long-pier", 1)
    assert second.routine.id == "long-pier-2"


def test_a_changed_routine_that_a_session_uses_is_the_next_version_beside_it(
    keeper: Keeper,
) -> None:
    done = saved(keeper, "ropewalk", aim="grip")
    assert done.routine.version == 2
    assert versions(keeper, "ropewalk") == [2, 1]
    club = club_of(keeper)
    assert club.session("monday-barbell").routine_version == 1
    assert club.routine("ropewalk", 1).aim != "grip"


def test_a_version_that_no_session_uses_gives_way(keeper: Keeper) -> None:
    saved(keeper, "ropewalk", aim="grip")
    saved(keeper, "ropewalk", aim="grip and trunk")
    assert versions(keeper, "ropewalk") == [3, 1]


def test_a_version_that_was_taken_back_is_never_given_other_content(keeper: Keeper) -> None:
    first = saved(keeper, "ropewalk", aim="grip")
    take_back(keeper, first.changed.step, today=MONDAY)
    assert versions(keeper, "ropewalk") == [1]
    again = saved(keeper, "ropewalk", aim="legs")
    assert again.routine.version == 3
    assert versions(keeper, "ropewalk") == [3, 1]


def test_saving_without_a_change_makes_no_version(keeper: Keeper) -> None:
    assert saved(keeper, "ropewalk").routine.version == 1


def test_a_form_filled_over_an_older_routine_is_refused(keeper: Keeper) -> None:
    seen = fingerprint(routines.current_routine(club_of(keeper), "ropewalk"))
    saved(keeper, "ropewalk", aim="grip")
    with pytest.raises(InvalidInput, match="changed somewhere else"):
        routines.save_routine(keeper, "ropewalk", shelf("ropewalk"), seen, today=MONDAY)
    assert versions(keeper, "ropewalk") == [2, 1]


def test_sessions_to_come_move_to_the_newest_version_and_past_ones_stay(keeper: Keeper) -> None:
    saved(keeper, "ropewalk", aim="grip")
    done = routines.move_sessions(keeper, "ropewalk", today=MONDAY)
    assert [s.id for s in done.sessions] == ["monday-barbell"]
    assert club_of(keeper).session("monday-barbell").routine_version == 2
    take_back(keeper, done.changed.step, today=MONDAY)
    assert club_of(keeper).session("monday-barbell").routine_version == 1
    with pytest.raises(Conflict, match="No session to come"):
        routines.move_sessions(keeper, "ropewalk", today=LATER)


def test_a_session_whose_swap_has_no_step_any_more_is_not_moved(keeper: Keeper) -> None:
    club = club_of(keeper)
    swap = Override("A01", "sore", swaps=(Swap("6", "push-press"),))
    session = replace(club.session("monday-barbell"), overrides=(swap,))
    with keeper.writing() as store:
        store.save_club(replace(club, sessions=(session, club.sessions[1])))
    block = shelf("ropewalk").blocks[0]
    saved(keeper, "ropewalk", blocks=(replace(block, steps=block.steps[:5]),))
    with pytest.raises(InvalidInput, match="swap in step '6'"):
        routines.move_sessions(keeper, "ropewalk", today=MONDAY)


def test_a_routine_that_a_session_to_come_uses_is_not_removed(keeper: Keeper) -> None:
    with pytest.raises(Conflict, match="Monday barbell on 2026-03-02"):
        routines.remove_routine(keeper, "ropewalk", today=MONDAY)


def test_a_routine_that_was_used_is_put_away_and_can_be_brought_back(keeper: Keeper) -> None:
    done = routines.remove_routine(keeper, "ropewalk", today=LATER)
    assert done.routine.is_put_away
    assert versions(keeper, "ropewalk") == [2, 1]
    back = routines.bring_back(keeper, "ropewalk", today=LATER)
    assert not back.routine.is_put_away
    assert back.routine.version == 3


def test_a_routine_that_nobody_used_is_removed_and_undo_brings_it_back(keeper: Keeper) -> None:
    added = routines.copy_routine(keeper, shelf("bell-buoy"), today=MONDAY)
    done = routines.remove_routine(keeper, added.routine.id, today=MONDAY)
    with pytest.raises(NotFound):
        routines.current_routine(club_of(keeper), added.routine.id)
    take_back(keeper, done.changed.step, today=MONDAY)
    assert routines.current_routine(club_of(keeper), added.routine.id) == added.routine


def test_copies_are_named_apart(keeper: Keeper) -> None:
    names = [
        routines.copy_routine(keeper, shelf("ropewalk"), today=MONDAY).routine.name
        for _ in range(3)
    ]
    assert names == ["Ropewalk copy", "Ropewalk copy 2", "Ropewalk copy 3"]


def test_a_new_name_is_a_new_version(keeper: Keeper) -> None:
    done = routines.rename_routine(keeper, "ropewalk", "Long rope", today=MONDAY)
    assert (done.routine.id, done.routine.version, done.routine.name) == (
        "ropewalk",
        2,
        "Long rope",
    )


def test_a_routine_file_is_taken_in_as_a_routine_of_its_own(keeper: Keeper) -> None:
    done = routines.take_in_routine(keeper, write_routine(shelf("bell-buoy")), today=MONDAY)
    assert done.routine.id == "bell-buoy"
    assert done.routine.blocks == shelf("bell-buoy").blocks
    with pytest.raises(InvalidInput):
        routines.take_in_routine(keeper, "{}", today=MONDAY)
