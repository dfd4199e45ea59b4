"""Use case of the weigh-in of an event, for one or all who go there, and who asked about it."""

from collections.abc import Collection
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
    raise NotFound(f"{athlete.name} has no event {event_id!r} any more. Open the page afresh")


def same_events(club: Club, athlete_id: str, event: Event) -> tuple[tuple[Athlete, Event], ...]:
    """The same event of others: of one name and day, with a limit of mass."""
    name = " ".join(event.name.casefold().split())
    return tuple(
        (athlete, other)
        for athlete in club.athletes
        if athlete.id != athlete_id
        for other in athlete.events
        if other.mass_limit is not None
        and other.starts_on == event.starts_on
        and " ".join(other.name.casefold().split()) == name
    )


def shown_of(club: Club, athlete_id: str, event: Event) -> tuple[object, ...]:
    """What a form of a weigh-in is filled from: his own, and what others of the event have."""
    others = same_events(club, athlete_id, event)
    return (event.weigh_in, *((a.id, e.id, e.weigh_in) for a, e in others))


def set_weigh_in(
    keeper: Keeper,
    athlete_id: str,
    event_id: str,
    weigh_in: EventWeighIn,
    shown: str,
    *,
    today: date,
    also: Collection[str] = (),
) -> Changed:
    """Keep what is known of a weigh-in; ``shown`` is the fingerprint of what was shown before.

    ``also`` are others of the same event for whom it is kept in the same step: one question to
    the organiser is one answer for all of them. Each keeps his own limit.
    """

    def change(club: Club) -> Club:
        event = event_of(club.athlete(athlete_id), event_id)
        require_unchanged(shown_of(club, athlete_id, event), shown, CHANGED_WEIGH_IN)
        _require_near(event, weigh_in)
        if weigh_in.rule:
            weigh_in_rule(weigh_in.rule).weigh_in(weigh_in.weigh_in)
        others = {a.id: e.id for a, e in same_events(club, athlete_id, event) if a.id in also}
        if unknown := sorted(set(also) - set(others)):
            raise InvalidInput(
                "also", f"{unknown[0]!r} is not at {event.name}", "Choose among those shown"
            )
        for who, of in ((athlete_id, event_id), *others.items()):
            club = _with_weigh_in(club, who, of, weigh_in)
        return club

    return change_club(keeper, change, today=today)


def _with_weigh_in(club: Club, athlete_id: str, event_id: str, weigh_in: EventWeighIn) -> Club:
    athlete = club.athlete(athlete_id)
    events = tuple(
        replace(each, weigh_in=weigh_in) if each.id == event_id else each for each in athlete.events
    )
    return with_athlete(club, replace(athlete, events=events))


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
