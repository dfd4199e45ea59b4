"""A block looked back on: what was planned and done, what changed, and refusals in words."""

from dataclasses import replace
from datetime import UTC, date, datetime, timedelta
from pathlib import Path

import pytest

from lived_sessions import (
    FAILED,
    FIRST,
    FIRST_MONDAY,
    MONDAY,
    SECOND,
    THIRD,
    WEEK,
    club_of_mondays,
    live,
    save,
)
from squadwright.config import sqlite_url
from squadwright.errors import InvalidInput
from squadwright.learning.finished import Finished, Template
from squadwright.model.athlete import StrengthTest
from squadwright.model.exercise import ReferenceLift
from squadwright.printing.block_words import block_words, finished_words
from squadwright.services.block_review import (
    BlockReview,
    BlockWanted,
    Share,
    block_review,
    change_of,
)
from squadwright.storage.database import Database
from squadwright.storage.keeper import SqlKeeper
from squadwright.units import kilograms

TODAY = MONDAY + 2 * WEEK
NOW = datetime(2026, 3, 16, 23, 0, tzinfo=UTC)


@pytest.fixture(scope="module")
def keeper(tmp_path_factory: pytest.TempPathFactory) -> SqlKeeper:
    """Two of three Mondays lived; the third is today, and nothing is noted of it."""
    folder: Path = tmp_path_factory.mktemp("block")
    made = SqlKeeper(Database(sqlite_url(folder / "club.sqlite3")))
    made.initialise()
    save(made, club_of_mondays())
    live(made, FIRST, *FIRST_MONDAY)
    live(made, SECOND)
    return made


def review_of(keeper: SqlKeeper, since: date, until: date, routine: str = "") -> BlockReview:
    return block_review(keeper, BlockWanted(since, until, routine), today=TODAY, now=NOW)


def test_what_was_planned_and_done_adds_up(keeper: SqlKeeper) -> None:
    review = review_of(keeper, MONDAY, TODAY)
    assert [line.session.id for line in review.sessions] == [FIRST, SECOND, THIRD]
    assert [line.session.id for line in review.recorded] == [FIRST, SECOND]
    # By hand: 14 athletes, three rounds each, twice.
    assert review.rounds == Share(84, 84)
    assert review.came == Share(28, 28)
    assert {(line.came, line.rounds) for line in review.athletes} == {(Share(2, 2), Share(6, 6))}
    # 13 with a load and a test, twice; one of them lost repetitions once.
    [finished] = review.templates
    assert (finished.finished, finished.count) == (25, 26)
    assert review.left_out == 0


def test_a_session_outside_the_days_or_of_another_routine_counts_for_nothing(
    keeper: SqlKeeper,
) -> None:
    [line] = review_of(keeper, MONDAY + timedelta(days=1), MONDAY + WEEK).sessions
    assert line.session.id == SECOND
    club = club_of_mondays()
    other = next(r.id for r in club.routines if r.id != club.session(FIRST).routine)
    empty = review_of(keeper, MONDAY, TODAY, other)
    assert (empty.sessions, empty.athletes, empty.templates) == ((), (), ())
    assert block_words(empty).summary == ("0 of 0 sessions recorded.",)


def test_two_sessions_show_no_change_of_anybody(keeper: SqlKeeper) -> None:
    words = block_words(review_of(keeper, MONDAY, TODAY))
    assert {row.cells[2] for row in words.athletes} == {"too few sessions to tell"}
    assert [row.cells[1:] for row in words.sessions][-1] == ("not recorded", "not recorded")
    assert words.compared == ()


@pytest.mark.parametrize(
    ("finished", "count", "said"),
    [
        (11, 12, "11 of 12 finished; in the long run between 70 % and 98 %."),
        (7, 7, "7 of 7 finished: too few to tell."),
        (0, 8, "0 of 8 finished; in the long run between 0 % and 25 %."),
    ],
)
def test_a_share_is_said_with_its_bounds_or_not_at_all(
    finished: int, count: int, said: str
) -> None:
    """Bounds by Wilson's formula worked out apart (z = 1.645): 11 of 12 gives 0.695 and 0.981,
    0 of 8 gives 0 and 0.253.
    """
    words = finished_words(Finished(Template("Ropewalk", 4, 75), finished, count))
    assert words == f"Ropewalk, 4 rounds, 75 s rest: {said}"


def five_at(kg: str, day: date) -> StrengthTest:
    return StrengthTest(ReferenceLift.STRICT_PRESS, kilograms(kg), 5, day)


def test_a_test_changed_only_by_more_than_the_error_of_both(keeper: SqlKeeper) -> None:
    small = change_of(five_at("50", MONDAY), five_at("52.5", TODAY)).fraction
    large = change_of(five_at("50", MONDAY), five_at("70", TODAY)).fraction
    assert small.middle == pytest.approx(0.05)
    assert small.low < 0 < small.high
    assert large.low > 0
    club = club_of_mondays()
    athletes = tuple(
        replace(a, tests=(five_at("50", MONDAY - WEEK), five_at("70", MONDAY + WEEK)))
        if a.id == FAILED
        else a
        for a in club.athletes
    )
    save(keeper, replace(club, athletes=athletes))
    [line] = review_of(keeper, MONDAY, TODAY).tests
    assert (line.change.since, line.change.until) == (MONDAY - WEEK, MONDAY + WEEK)
    assert review_of(keeper, MONDAY + 2 * WEEK, TODAY).tests == ()
    save(keeper, club)


@pytest.mark.parametrize(
    ("days", "told"),
    [(-1, "is before"), (366, "367 days are more than 366 days")],
)
def test_days_that_cannot_be_used_are_told(days: int, told: str) -> None:
    with pytest.raises(InvalidInput, match=told):
        BlockWanted(MONDAY, MONDAY + timedelta(days=days))
    assert BlockWanted(MONDAY, MONDAY + timedelta(days=365))
