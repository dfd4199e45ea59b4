"""Use case: events of several athletes entered at once, in one step."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date
from secrets import token_hex

from squadwright.errors import InvalidInput
from squadwright.model.athlete import Athlete, Event, Priority
from squadwright.model.club import Club
from squadwright.planning.gates.competing import ONLY_STAFF, suspended_on
from squadwright.services.club_changes import Changed, change_club
from squadwright.services.squad import with_athlete
from squadwright.services.unit_of_work import Keeper

MOST_DAYS_AHEAD = 730


@dataclass(frozen=True)
class NewEvent:
    """One event to come of one athlete."""

    athlete: str
    name: str
    starts_on: date
    priority: Priority


def add_events(keeper: Keeper, events: Sequence[NewEvent], *, today: date) -> Changed:
    """Keep every event or none; InvalidInput names the field that is wrong."""
    if not events:
        raise InvalidInput("Dates", "no date is given", "Enter the day of at least one event")
    for event in events:
        _require_day(event, today)

    def change(club: Club) -> Club:
        for event in events:
            athlete = club.athlete(event.athlete)
            if any((e.starts_on, e.name) == (event.starts_on, event.name) for e in athlete.events):
                raise InvalidInput(
                    f"day-{event.athlete}",
                    f"{athlete.name} has {event.name} on {event.starts_on} already",
                    "Give another day or name, or leave it empty",
                )
            require_not_suspended(athlete, event.starts_on, f"day-{event.athlete}")
            new = Event(f"e{token_hex(5)}", event.name, event.starts_on, event.priority)
            club = with_athlete(club, replace(athlete, events=(*athlete.events, new)))
        return club

    return change_club(keeper, change, today=today)


def require_not_suspended(athlete: Athlete, day: date, field: str) -> None:
    """InvalidInput for an event on a day on which he is suspended."""
    suspended = suspended_on(athlete, day)
    if suspended is not None:
        raise InvalidInput(
            field,
            f"on {day} {athlete.name} is {suspended.words}",
            f"Give a later day. {ONLY_STAFF}",
        )


def _require_day(event: NewEvent, today: date) -> None:
    ahead = (event.starts_on - today).days
    if not 0 <= ahead <= MOST_DAYS_AHEAD:
        raise InvalidInput(
            f"day-{event.athlete}",
            f"{event.starts_on} is not within the next {MOST_DAYS_AHEAD} days",
            "Give a day to come",
        )
