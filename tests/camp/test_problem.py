"""A camp is taken at its limits and refused just beyond them."""

from collections.abc import Callable
from dataclasses import replace

import pytest

from camp.camp_cases import athlete, camp, weekly_sessions
from squadwright.camp.problem import MOST_DAYS, CampAthlete, CampProblem, RoundsBefore
from squadwright.errors import InvalidInput

SESSIONS = weekly_sessions(2)
CAMP = camp(2, SESSIONS, athlete("one", SESSIONS))


def days(count: int) -> CampProblem:
    return replace(CAMP, days=count, sessions=(), athletes=())


def session(**more: object) -> CampProblem:
    changed = replace(SESSIONS[0], **more)  # type: ignore[arg-type]
    return replace(CAMP, sessions=(changed, *SESSIONS[1:]), athletes=())


def one(who: CampAthlete) -> CampProblem:
    return replace(CAMP, athletes=(who,))


WHO = athlete("one", SESSIONS)
Make = Callable[[], CampProblem]


@pytest.mark.parametrize(
    ("taken", "refused"),
    [
        (lambda: days(7), lambda: days(6)),
        (lambda: days(MOST_DAYS), lambda: days(MOST_DAYS + 1)),
        (lambda: session(day=0), lambda: session(day=-1)),
        (lambda: session(day=13), lambda: session(day=14)),
        (lambda: session(usual_rounds=3), lambda: session(usual_rounds=4)),
        (lambda: session(usual_rounds=1), lambda: session(usual_rounds=0)),
        (
            lambda: session(usual_rounds=0, is_shared=False),
            lambda: session(usual_rounds=-1, is_shared=False),
        ),
        (lambda: session(load_per_round=0.1), lambda: session(load_per_round=0.0)),
        (lambda: session(id="s2 again"), lambda: session(id=SESSIONS[1].id)),
        (
            lambda: one(athlete("one", SESSIONS, (0, True))),
            lambda: one(athlete("one", SESSIONS, (-1, True))),
        ),
        (
            lambda: one(athlete("one", SESSIONS, (41, True))),
            lambda: one(athlete("one", SESSIONS, (42, True))),
        ),
        (
            lambda: one(replace(WHO, mat_loads=(0.0,) * 14)),
            lambda: one(replace(WHO, mat_loads=(0.0,) * 13)),
        ),
        (
            lambda: one(replace(WHO, mat_loads=())),
            lambda: one(replace(WHO, mat_loads=(0.0,) * 13 + (-0.1,))),
        ),
        (lambda: one(replace(WHO, most_rounds=1)), lambda: one(replace(WHO, most_rounds=0))),
        (
            lambda: one(replace(WHO, before=RoundsBefore(0, 1))),
            lambda: one(replace(WHO, before=RoundsBefore(-1, 1))),
        ),
    ],
)
def test_a_limit_is_taken_and_what_lies_beyond_it_refused(taken: Make, refused: Make) -> None:
    taken()
    with pytest.raises(InvalidInput):
        refused()


@pytest.mark.parametrize(("count", "weeks"), [(7, 1), (8, 2), (13, 2), (14, 2), (15, 3)])
def test_the_last_week_counts_whether_it_is_whole_or_not(count: int, weeks: int) -> None:
    assert days(count).weeks == weeks


def test_sessions_of_an_athlete_stand_in_the_order_of_their_days() -> None:
    mixed = (SESSIONS[3], SESSIONS[0], SESSIONS[5])
    who = athlete("one", (SESSIONS[5], SESSIONS[0]))
    problem = camp(2, mixed, who)
    assert problem.sessions_of(who) == [(1, SESSIONS[0]), (2, SESSIONS[5])]
    assert problem.date_of(3).isoformat() == "2026-03-05"
