"""Query: who competes on a day, and the days on which somebody does."""

from dataclasses import dataclass
from datetime import date

from squadwright.errors import NotFound
from squadwright.model.athlete import Athlete, Event
from squadwright.model.club import Club
from squadwright.planning.gates.competing import barred_from_competing
from squadwright.services.clubs import load_club
from squadwright.services.unit_of_work import Keeper


@dataclass(frozen=True)
class Competitor:
    """One athlete with his event of the day."""

    athlete: Athlete
    name: str
    event: Event

    @property
    def barred(self) -> str:
        """Why he may not compete, as entries stand; empty where he may."""
        return barred_from_competing(self.athlete, self.event.starts_on)


@dataclass(frozen=True)
class EventDay:
    """A day of competition; ``competitors`` by name, one line for each event."""

    club: Club
    day: date
    competitors: tuple[Competitor, ...]


def event_day(keeper: Keeper, day: date) -> EventDay:
    """Who competes on a day; NotFound where nobody does."""
    return require_competition(load_club(keeper), day)


def require_competition(club: Club, day: date) -> EventDay:
    """Who competes on a day; NotFound where nobody does."""
    found = event_day_of(club, day)
    if not found.competitors:
        raise NotFound(f"Nobody competes on {day}. Enter an event on the page of an athlete")
    return found


def event_day_of(club: Club, day: date) -> EventDay:
    """Who competes on a day, maybe nobody."""
    names = club.shown_names()
    competitors = (
        Competitor(athlete, names[athlete.id], event)
        for athlete in club.athletes
        for event in athlete.events
        if event.starts_on == day
    )
    return EventDay(club, day, tuple(sorted(competitors, key=lambda c: c.name.casefold())))


def event_days(club: Club, *, since: date) -> tuple[EventDay, ...]:
    """The days from a day on, that day included, on which somebody competes."""
    days = {event.starts_on for athlete in club.athletes for event in athlete.events}
    return tuple(event_day_of(club, day) for day in sorted(days) if day >= since)
