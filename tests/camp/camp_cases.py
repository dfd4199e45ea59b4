"""Camps for tests: the demo club's, and small ones made up."""

from datetime import date
from functools import cache

from squadwright.camp.of_club import CampInputs, camp_of_club
from squadwright.camp.problem import (
    CampAthlete,
    CampEvent,
    CampProblem,
    CampRules,
    CampSession,
    RoundsBefore,
    TimeOff,
)
from squadwright.camp.response import prior_draws
from squadwright.demo import demo_club
from squadwright.planning.dose.draws import SEED

MONDAY = date(2026, 3, 2)


@cache
def demo_camp(draws: int = 200, seed: int = SEED) -> CampProblem:
    """Fourteen athletes, twelve weeks, every event of the demo club, one timetable."""
    inputs = CampInputs(draws=draws, seed=seed)
    return camp_of_club(demo_club(MONDAY), MONDAY, inputs=inputs)


def weekly_sessions(weeks: int, *, days: tuple[int, ...] = (0, 2, 4)) -> tuple[CampSession, ...]:
    """Shared sessions of three rounds on the same days of each week."""
    return tuple(
        CampSession(f"s{7 * week + day}", "Barbell", 7 * week + day, 3, 3, 90.0)
        for week in range(weeks)
        for day in days
    )


def athlete(
    name: str,
    sessions: tuple[CampSession, ...],
    *events: tuple[int, bool],
    off: tuple[int, ...] = (),
    returns_on: int | None = None,
    most_rounds: int | None = None,
    before: int | None = None,
) -> CampAthlete:
    """An athlete with events of (day, is it a main one) and days off."""
    return CampAthlete(
        name,
        name,
        tuple(
            CampEvent(f"e{day}", f"Event {day}", day, is_main, 1.0 if is_main else 0.3)
            for day, is_main in events
        ),
        tuple(session.id for session in sessions),
        prior_draws(name, 300.0, 50),
        off=tuple(TimeOff(day, "travel") for day in off),
        returns_on=returns_on,
        most_rounds=most_rounds,
        before=None if before is None else RoundsBefore(before, 3),
    )


def camp(
    weeks: int,
    sessions: tuple[CampSession, ...],
    *athletes: CampAthlete,
    rules: CampRules | None = None,
) -> CampProblem:
    """A camp from the demo Monday."""
    return CampProblem(MONDAY, 7 * weeks, sessions, athletes, rules or CampRules())
