"""A club of 60 with five years behind it, all of it made up: the demo club, grown."""

from dataclasses import replace
from datetime import date, timedelta

from squadwright.demo import demo_club
from squadwright.model.athlete import Athlete, Event, JumpTest, MassReading, StrengthTest
from squadwright.model.club import Club
from squadwright.model.exercise import ReferenceLift
from squadwright.model.session import CheckIn, Presence, Session
from squadwright.units import kilograms

ATHLETES = 60
WEEKS = 5 * 52
LIFTS = (ReferenceLift.STRICT_PRESS, ReferenceLift.BACK_SQUAT, ReferenceLift.DEADLIFT)


def large_club(monday: date) -> Club:
    """60 athletes, each weighed weekly and tested every eighth week, three sessions a week."""
    small = demo_club(monday)
    athletes = tuple(_grown(small, number, monday) for number in range(ATHLETES))
    past = tuple(
        session
        for week in range(1, WEEKS + 1)
        for session in _week(small, athletes, monday - timedelta(weeks=week), week)
    )
    return replace(small, athletes=athletes, sessions=(*small.sessions, *past))


def _grown(small: Club, number: int, monday: date) -> Athlete:
    """One of the demo club, the first 14 themselves, with five years of readings."""
    model = small.athletes[number % len(small.athletes)]
    lap = number // len(small.athletes)
    usual = model.latest_body_mass_kg(monday) or 70.0
    is_tested = bool(model.tests)
    own = model if lap == 0 else replace(model, id=f"{model.id}-{lap}", name=f"{model.name} {lap}")
    return replace(
        own,
        body_mass=(
            *(
                MassReading(
                    kilograms(round(usual + (week % 7 - 3) / 10, 1)),
                    monday - timedelta(weeks=week),
                )
                for week in range(WEEKS, 1, -1)
            ),
            *model.body_mass,
        ),
        tests=(
            *(
                StrengthTest(lift, kilograms(40 + week % 5), 5, monday - timedelta(weeks=week))
                for week in range(WEEKS, 26, -8)
                for lift in LIFTS
                if is_tested
            ),
            *model.tests,
        ),
        jump_tests=(
            *(
                JumpTest("countermovement jump", 0.35, monday - timedelta(weeks=week), "mat")
                for week in range(WEEKS, 26, -8)
            ),
            *model.jump_tests,
        ),
        events=(
            *(
                Event(f"past-{week}", "League day", monday - timedelta(weeks=week))
                for week in range(WEEKS, 1, -6)
            ),
            *model.events,
        ),
    )


def _week(
    small: Club, athletes: tuple[Athlete, ...], monday: date, week: int
) -> tuple[Session, ...]:
    barbell, jumps = small.sessions[:2]
    return tuple(
        replace(
            model,
            id=f"{model.id}-{week}-{day}",
            held_on=monday + timedelta(days=day),
            athletes=tuple(a.id for a in athletes),
            check_ins=tuple(
                CheckIn(a.id, Presence.ABSENT if (n + week) % 9 == 0 else Presence.PRESENT)
                for n, a in enumerate(athletes)
            ),
            overrides=(),
        )
        for day, model in ((0, barbell), (2, jumps), (4, barbell))
    )
