"""What was done in the week before a camp, from the record, limits its first week and is told."""

from dataclasses import replace
from datetime import timedelta
from pathlib import Path

import pytest

from lived_sessions import (
    FAILED,
    FIRST,
    MONDAY,
    WEEK,
    Noted,
    club_of_mondays,
    live,
    save,
)
from squadwright.camp.problem import RoundsBefore
from squadwright.config import sqlite_url
from squadwright.model.calendar import Closure
from squadwright.model.record import EventKind, RecordEvent
from squadwright.printing.camp_words import camp_words
from squadwright.services.camp import CampView, camp_view
from squadwright.services.camp_record import rounds_before
from squadwright.services.record import exchange, record_of
from squadwright.storage.database import Database
from squadwright.storage.keeper import SqlKeeper

NEXT = MONDAY + WEEK
ALONE = ("mon-barbell",)
"""The one strength slot of the week that is kept, so that sums can be made by hand."""


@pytest.fixture(scope="module")
def keeper(tmp_path_factory: pytest.TempPathFactory) -> SqlKeeper:
    """Two athletes, a session of four rounds in their week; one of them stops in the second."""
    folder: Path = tmp_path_factory.mktemp("before")
    made = SqlKeeper(Database(sqlite_url(folder / "club.sqlite3")))
    made.initialise()
    club = club_of_mondays(1)
    people = tuple(a for a in club.athletes if a.id in ("A01", FAILED))
    session = replace(club.sessions[0], athletes=tuple(a.id for a in people))
    club = replace(club, athletes=people, sessions=(session,))
    week = tuple(s for s in club.week if s.id in ALONE)
    save(made, replace(club, week=week, closures=(), travel=(), slot_changes=()))
    live(made, FIRST, Noted(EventKind.ATHLETE_STOPPED, FAILED, 2))
    return made


def view_of(keeper: SqlKeeper) -> CampView:
    return camp_view(keeper, today=NEXT + timedelta(days=2))


def test_rounds_of_the_week_before_are_those_on_record(keeper: SqlKeeper) -> None:
    with keeper.reading() as store:
        club = store.load_club()
    assert club is not None
    found = rounds_before(keeper, club, NEXT, today=NEXT)
    assert found["A01"] == RoundsBefore(4, 1)
    assert found[FAILED] == RoundsBefore(1, 1)
    assert rounds_before(keeper, club, MONDAY, today=MONDAY) == {}
    assert rounds_before(keeper, club, NEXT + WEEK, today=NEXT + WEEK) == {}
    shut = replace(club, closures=(Closure("c", "fire", MONDAY, MONDAY),))
    assert rounds_before(keeper, shut, NEXT, today=NEXT) == {}


def test_a_session_that_is_not_on_record_counts_with_its_usual_rounds(keeper: SqlKeeper) -> None:
    with keeper.reading() as store:
        club = store.load_club()
    assert club is not None
    week = (*club.week, *(s for s in club_of_mondays().week if s.id == "wed-plyometric"))
    found = rounds_before(keeper, replace(club, week=week), NEXT, today=NEXT)
    alone = found[FAILED].rounds - 1
    assert found[FAILED] == RoundsBefore(1 + alone, 1, 1)
    assert found["A01"] == RoundsBefore(4 + alone, 1, 1)
    assert alone > 0


def test_the_first_week_rises_from_them_and_the_reasons_say_so(keeper: SqlKeeper) -> None:
    """One done, so three at most (the coach's rise is two) of four."""
    view = view_of(keeper)
    words = camp_words(view)
    assert view.solution is not None
    assert words is not None
    number, athlete = view.athlete(FAILED)
    assert athlete.before == RoundsBefore(1, 1)
    assert view.solution.rounds[number][0] == 3
    assert words.athletes[number].reasons[0] == (
        "One round done in the week before, from the record of one session: the first week rises "
        "to 3 of 4 at most."
    )
    whole, _ = view.athlete("A01")
    assert view.solution.rounds[whole][0] == 4
    assert not any("in the week before" in each for each in words.athletes[whole].reasons)


def test_what_is_taken_out_of_the_record_counts_no_more(keeper: SqlKeeper) -> None:
    [stop] = [e for e in record_of(keeper, FIRST) if e.kind is EventKind.ATHLETE_STOPPED]
    back = RecordEvent(
        "back", FIRST, "phone", 200, stop.at, EventKind.TAKEN_BACK, takes_back=stop.id
    )
    exchange(keeper, FIRST, [back], after=0)
    view = view_of(keeper)
    number, athlete = view.athlete(FAILED)
    assert view.solution is not None
    assert athlete.before == RoundsBefore(4, 1)
    assert view.solution.rounds[number][0] == 4
