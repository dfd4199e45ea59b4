"""Use cases of calendar files: the week out, fixtures in after they were looked at."""

from dataclasses import replace
from datetime import date, timedelta
from hashlib import sha256

from squadwright.camp.week import works_between
from squadwright.errors import NotFound
from squadwright.exchange.calendar_in import Difference, difference
from squadwright.exchange.calendar_out import PARTS, fixtures_calendar, week_calendar
from squadwright.model.calendar import Fixture, monday_of
from squadwright.model.club import Club
from squadwright.services.club_changes import Changed, change_club
from squadwright.services.clubs import load_club
from squadwright.services.unit_of_work import Keeper

# A calendar holds the weeks before and after this one: one season (our choice).
WEEKS_BEFORE, WEEKS_AFTER = 4, 26


def week_file(keeper: Keeper, *, today: date) -> bytes:
    """Half a year of the week with closures and events, as iCalendar."""
    club = load_club(keeper)
    monday = monday_of(today)
    first = monday - timedelta(weeks=WEEKS_BEFORE)
    last = monday + timedelta(weeks=WEEKS_AFTER, days=-1)
    with keeper.reading() as store:
        touches = store.touches(PARTS)
    return week_calendar(club, works_between(club, first, last), touches)


def fixtures_file(keeper: Keeper) -> bytes:
    """The fixtures that were taken in, as iCalendar."""
    with keeper.reading() as store:
        touches = store.touches(PARTS)
    return fixtures_calendar(load_club(keeper), touches)


def take_fixtures(keeper: Keeper, data: bytes, *, today: date) -> tuple[Changed, Difference]:
    """Store what a calendar file changes in the fixtures."""
    seen: list[Difference] = []

    def change(club: Club) -> Club:
        found = difference(club.fixtures, data, today=today)
        seen.append(found)
        gone = {fixture.key for fixture in found.gone}
        after = {now.key: now for _, now in found.changed}
        kept = tuple(after.get(f.key, f) for f in club.fixtures if f.key not in gone)
        new = tuple(replace(f, id=_own_id(f)) for f in found.new)
        return replace(club, fixtures=(*kept, *new))

    done = change_club(keeper, change, today=today)
    return done, seen[-1]


def remove_fixture(keeper: Keeper, fixture_id: str, *, today: date) -> Changed:
    """Take one fixture out."""

    def change(club: Club) -> Club:
        if all(fixture.id != fixture_id for fixture in club.fixtures):
            raise NotFound("There is no such fixture; it may have been taken out")
        return replace(club, fixtures=tuple(f for f in club.fixtures if f.id != fixture_id))

    return change_club(keeper, change, today=today)


def _own_id(fixture: Fixture) -> str:
    """The same id for the same date of a calendar, so that it is the same taken in again."""
    own = "\n".join(filter(None, fixture.key))
    return f"fixture-{sha256(own.encode()).hexdigest()[:16]}"
