"""Query of the squad table: the last week of everybody, read at once."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, timedelta

from squadwright.model.club import Club
from squadwright.model.diary import DiaryEntry, DiaryKind
from squadwright.planning.daily_load import LoadDay
from squadwright.services.load import squad_load
from squadwright.services.unit_of_work import Keeper

WEEK_DAYS = 7
ANSWERS_DAYS = 14


@dataclass(frozen=True)
class SquadTable:
    """The last seven days of everybody, and the last answers of those who gave some."""

    club: Club
    days: Mapping[str, tuple[LoadDay, ...]]
    answers: Mapping[str, DiaryEntry]


def squad_table(keeper: Keeper, *, today: date) -> SquadTable:
    """The squad as it stands today."""
    load = squad_load(keeper, today - timedelta(days=WEEK_DAYS - 1), today)
    with keeper.reading() as store:
        told = store.diary.entries(
            kinds=[DiaryKind.WELLNESS], since=today - timedelta(days=ANSWERS_DAYS - 1), until=today
        )
    return SquadTable(load.club, load.days, {entry.athlete: entry for entry in told})
