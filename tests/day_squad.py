"""The fourteen of the demo club as athletes whom nothing keeps from any test, and a day before."""

from dataclasses import replace
from datetime import UTC, date, datetime

from healthy import healthy
from lived_sessions import save
from squadwright.model.athlete import Athlete
from squadwright.model.diary import TestResult
from squadwright.services.clubs import load_club
from squadwright.services.diary import Told, write_diary
from squadwright.services.unit_of_work import Keeper

FIVE = (
    "countermovement_jump",
    "seated_chest_throw",
    "grip_strength",
    "jacket_chin_up_hold",
    "shuttle_20_m",
)


def make_all_fit(keeper: Keeper) -> tuple[str, ...]:
    """Store the club with everybody grown and cleared; gives their ids."""
    club = load_club(keeper)
    save(keeper, replace(club, athletes=tuple(map(grown_and_cleared, club.athletes))))
    return tuple(athlete.id for athlete in club.athletes)


def grown_and_cleared(athlete: Athlete) -> Athlete:
    """The same athlete as one whom nothing keeps from any test."""
    return replace(
        athlete,
        birth_date=min(athlete.birth_date, date(2000, 1, 1)),
        restrictions=(),
        clearances=(),
        medical=healthy(athlete),
    )


def had_a_day(keeper: Keeper, athlete: str, day: date) -> None:
    """A day on which he held his chin up before he jumped 40 cm."""
    hold = TestResult("jacket_chin_up_hold", 40.0, "s", "stopwatch", place=1)
    jump = TestResult("countermovement_jump", 40.0, "cm", "force plate, impulse", place=2)
    write_diary(
        keeper,
        [Told(athlete, day, hold), Told(athlete, day, jump)],
        author="Coach",
        today=day,
        now=datetime(2026, 2, 2, 18, tzinfo=UTC),
    )
