"""Use cases of calendar files: the week out, fixtures in after they were looked at."""

from dataclasses import replace
from datetime import date, timedelta
from hashlib import sha256

from squadwright.camp.week import works_between
from squadwright.errors import NotFound
from squadwright.exchange.calendar_in import Difference, difference
from squadwright.exchange.calendar_out import PARTS, fixtures_calendar, week_calendar
from squadwright.model.athlete import Event
from squadwright.model.calendar import Fixture, monday_of
from squadwright.model.club import Club
from squadwright.services.club_changes import Changed, change_club
from squadwright.services.clubs import load_club
from squadwright.services.squad import with_athlete
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
        for old, now in found.changed:
            club = _events_along(club, old, now)
        return replace(club, fixtures=(*kept, *new))

    done = change_club(keeper, change, today=today)
    return done, seen[-1]


def events_of_fixture(club: Club, fixture: Fixture) -> tuple[tuple[str, str], ...]:
    """Athletes of whom a fixture is an event, by id, with A or B: known by its name and day."""
    return tuple(
        (athlete.id, event.priority.value)
        for athlete in club.athletes
        for event in athlete.events
        if (event.name, event.starts_on) == (fixture.name, fixture.starts_on)
    )


def _events_along(club: Club, old: Fixture, now: Fixture) -> Club:
    """The events that a fixture became go where it goes; the rule of a weigh-in stays."""
    if (old.name, old.starts_on) == (now.name, now.starts_on):
        return club
    whose = {athlete for athlete, _ in events_of_fixture(club, old)}
    for athlete in (each for each in club.athletes if each.id in whose):
        events = tuple(
            moved_event(event, now)
            if (event.name, event.starts_on) == (old.name, old.starts_on)
            else event
            for event in athlete.events
        )
        club = with_athlete(club, replace(athlete, events=events))
    return club


def moved_event(event: Event, fixture: Fixture) -> Event:
    """An event on the day of a fixture; hours of a weigh-in on another day are asked for again."""
    weigh_in = event.weigh_in if event.starts_on == fixture.starts_on else None
    return replace(event, name=fixture.name, starts_on=fixture.starts_on, weigh_in=weigh_in)


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
