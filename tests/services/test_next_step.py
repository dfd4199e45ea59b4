"""What comes next in a session: from the last load to the next, whose word it is, what is held."""

from dataclasses import replace
from datetime import timedelta
from pathlib import Path

import pytest

from lived_sessions import (
    EASY,
    FAILED,
    FIRST,
    HARD,
    MONDAY,
    SECOND,
    THIRD,
    Noted,
    club_of_mondays,
    live,
    lived,
    plan_of,
    save,
)
from squadwright.config import sqlite_url
from squadwright.model.record import EventKind
from squadwright.planning.kit.loads import side_masses
from squadwright.planning.kit_in_service import GRAMS, plate_sizes, usable_bars
from squadwright.services.clubs import load_club
from squadwright.services.coach_override import OWN_LOAD, Place, Wanted, set_override
from squadwright.services.next_step import NextStep, next_steps, next_with_same_routine
from squadwright.storage.database import Database
from squadwright.storage.keeper import SqlKeeper
from squadwright.units import kilograms


@pytest.fixture(scope="module")
def keeper(tmp_path_factory: pytest.TempPathFactory) -> SqlKeeper:
    """The club of three Mondays, the first of them lived."""
    folder: Path = tmp_path_factory.mktemp("mondays")
    made = SqlKeeper(Database(sqlite_url(folder / "club.sqlite3")))
    made.initialise()
    lived(made)
    return made


def steps_of(keeper: SqlKeeper, session: str) -> dict[str, NextStep]:
    return {s.dose.athlete: s for s in next_steps(keeper, session, today=MONDAY).steps}


def test_one_up_one_back_and_each_from_his_own_last_session(keeper: SqlKeeper) -> None:
    steps = steps_of(keeper, SECOND)
    before = {dose.athlete: dose.load_kg for dose in plan_of(keeper, FIRST).doses}
    assert steps[EASY].dose.progress == "up"
    assert steps[FAILED].dose.progress == "back"
    assert steps[HARD].dose.progress in ("hold", "back")
    for step in steps.values():
        if step.last is not None:
            assert step.last.session == FIRST
            assert step.last.load_kg == before[step.dose.athlete]
            assert step.sessions == 1
            assert step.other is None


def test_every_next_load_can_be_built_from_the_store(keeper: SqlKeeper) -> None:
    club = load_club(keeper)
    sizes = tuple((size.mass_g, size.pairs) for size in plate_sizes(club.kit))
    sides = set(side_masses(sizes, 200_000))
    buildable = {
        round(bar.mass.kg * GRAMS) + 2 * side for bar in usable_bars(club.kit) for side in sides
    }
    for step in steps_of(keeper, SECOND).values():
        assert step.dose.load_kg is not None
        assert round(step.dose.load_kg * GRAMS) in buildable


def test_the_coachs_word_wins_and_what_the_tool_would_give_stands_beside_it(
    keeper: SqlKeeper,
) -> None:
    own = steps_of(keeper, SECOND)[EASY].dose
    place = Place(SECOND, EASY, own.block)
    wanted = Wanted(OWN_LOAD, "fight week", load=kilograms("17"))
    set_override(keeper, place, wanted, today=MONDAY)
    step = steps_of(keeper, SECOND)[EASY]
    assert step.word is not None
    assert step.word.reason == "fight week"
    assert step.dose.load_kg == pytest.approx(17.0)
    assert step.dose.progress == "back"
    assert step.own is not None
    assert step.own.load_kg == own.load_kg
    assert step.own.progress == "up"
    # Whom the coach said nothing of has no word beside his load.
    assert steps_of(keeper, SECOND)[FAILED].word is None


def test_the_next_session_with_the_same_routine_is_found() -> None:
    club = club_of_mondays()
    first, third = club.session(FIRST), club.session(THIRD)
    assert next_with_same_routine(club, first) == club.session(SECOND)
    assert next_with_same_routine(club, third) is None
    other = replace(
        first, id="other", held_on=MONDAY + timedelta(days=1), routine=club.routines[1].id
    )
    assert other.routine != first.routine
    grown = replace(club, sessions=(*club.sessions, other))
    assert next_with_same_routine(grown, first) == club.session(SECOND)


def test_after_two_easy_sessions_without_a_heavier_plate_more_work_is_proposed(
    tmp_path: Path,
) -> None:
    """A store of two plates for each bar: nothing heavier than the bar and those can be built."""
    made = SqlKeeper(Database(sqlite_url(tmp_path / "club.sqlite3")))
    made.initialise()
    club = club_of_mondays()
    plates = tuple(replace(p, pairs=6) for p in club.kit.plates if p.plate.kg == 1.25)
    long_slots = tuple(replace(s, minutes=120) for s in club.sessions)
    save(made, replace(club, kit=replace(club.kit, plates=plates), sessions=long_slots))
    easy = Noted(EventKind.RESERVE, "A04", value=6.0)
    live(made, FIRST, easy)
    live(made, SECOND, easy)
    step = steps_of(made, THIRD)["A04"]
    assert step.dose.two_for_two
    assert step.dose.progress == "hold", step.dose.progress_reason
    assert step.other is not None
    assert step.other.work.rounds == step.dose.rounds + 1
    assert step.other.chance >= 0.9
    # Nothing is changed by itself.
    assert plan_of(made, THIRD).dose_of("A04") == step.dose


def test_a_session_without_a_plan_says_why(tmp_path: Path) -> None:
    made = SqlKeeper(Database(sqlite_url(tmp_path / "club.sqlite3")))
    made.initialise()
    club = club_of_mondays()
    save(made, replace(club, sessions=(replace(club.session(FIRST), minutes=5),)))
    found = next_steps(made, FIRST, today=MONDAY)
    assert found.steps == ()
    assert found.shown.trouble
