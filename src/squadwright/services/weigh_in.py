"""Use case of the weigh-in of one event: what is known of it, and who asked the organiser."""

from dataclasses import replace
from datetime import date

from squadwright.errors import InvalidInput, NotFound
from squadwright.library.weigh_ins import weigh_in_rule
from squadwright.model.athlete import Athlete, Event
from squadwright.model.club import Club
from squadwright.model.event_weigh_in import EventWeighIn
from squadwright.services.club_changes import Changed, change_club, require_unchanged
from squadwright.services.squad import with_athlete
from squadwright.services.unit_of_work import Keeper

CHANGED_WEIGH_IN = "This weigh-in"
MOST_DAYS_BEFORE = 7


def event_of(athlete: Athlete, event_id: str) -> Event:
    """One event of an athlete; raises NotFound."""
    for event in athlete.events:
        if event.id == event_id:
            return event
    raise NotFound(f"{athlete.name} has no event {event_id!r} any more. Open his page afresh")


def set_weigh_in(
    keeper: Keeper,
    athlete_id: str,
    event_id: str,
    weigh_in: EventWeighIn,
    shown: str,
    *,
    today: date,
) -> Changed:
    """Keep what is known of a weigh-in; ``shown`` is the fingerprint of what was shown before."""

    def change(club: Club) -> Club:
        athlete = club.athlete(athlete_id)
        event = event_of(athlete, event_id)
        require_unchanged(event.weigh_in, shown, CHANGED_WEIGH_IN)
        _require_near(event, weigh_in)
        if weigh_in.rule:
            weigh_in_rule(weigh_in.rule).weigh_in(weigh_in.weigh_in)
        events = tuple(
            replace(each, weigh_in=weigh_in) if each.id == event_id else each
            for each in athlete.events
        )
        return with_athlete(club, replace(athlete, events=events))

    return change_club(keeper, change, today=today)


def _require_near(event: Event, weigh_in: EventWeighIn) -> None:
    """Refuse a weigh-in that lies far from its event."""
    if weigh_in.opens_at is None:
        return
    before = (event.starts_on - weigh_in.opens_at.date()).days
    if not 0 <= before <= MOST_DAYS_BEFORE:
        raise InvalidInput(
            "opens_day",
            f"{weigh_in.opens_at.date()} is not within {MOST_DAYS_BEFORE} days before the event "
            f"of {event.starts_on}",
            "Check the day of the weigh-in and that of the event",
        )
