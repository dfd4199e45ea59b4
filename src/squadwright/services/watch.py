"""Queries of the watch on one athlete: load, body mass, answers and tests over the last weeks."""

from dataclasses import dataclass
from datetime import date, timedelta

from squadwright.model.athlete import Athlete
from squadwright.model.club import Club
from squadwright.model.diary import DiaryEntry, DiaryKind
from squadwright.planning.daily_load import LoadDay
from squadwright.services.body_composition import entries_within
from squadwright.services.body_mass import MassOf, mass_of
from squadwright.services.load import squad_load
from squadwright.services.unit_of_work import Keeper

DAYS = 42
TEST_DAYS = 730


@dataclass(frozen=True)
class Watched:
    """One athlete over the last six weeks; tests over two years. ``days`` end today."""

    club: Club
    athlete: Athlete
    today: date
    days: tuple[LoadDay, ...]
    mass: MassOf
    answers: tuple[DiaryEntry, ...]
    tests: tuple[DiaryEntry, ...]


def watch_of(keeper: Keeper, athlete_id: str, *, today: date) -> Watched:
    """What is known of an athlete; raises NotFound."""
    first = today - timedelta(days=DAYS - 1)
    load = squad_load(keeper, first, today, of=[athlete_id])
    athlete = load.club.athlete(athlete_id)
    with keeper.reading() as store:
        answers = store.diary.entries(
            of=[athlete_id], kinds=[DiaryKind.WELLNESS], since=first, until=today
        )
        tests = store.diary.entries(
            of=[athlete_id],
            kinds=[DiaryKind.TEST],
            since=today - timedelta(days=TEST_DAYS),
            until=today,
        )
        assessed = entries_within(store, athlete_id, today=today)
    return Watched(
        club=load.club,
        athlete=athlete,
        today=today,
        days=load.days[athlete_id],
        mass=mass_of(load.club, athlete, today=today, assessed=assessed),
        answers=answers,
        tests=tests,
    )
