"""What a device of the hall is shown of a session, by its role.

Why somebody may not do something is between him, the coach and medical staff: an assistant sees
what he must not do, a wall screen not even that.
"""

from collections.abc import Iterable
from dataclasses import replace

from squadwright.model.device import DeviceRole
from squadwright.model.record import OF_THE_CLOCK, EventKind, RecordEvent
from squadwright.planning.restriction_words import bars_words
from squadwright.services.running import Running, held_in
from squadwright.web.hall import Visitor
from squadwright.web.live.contexts import EmergencyView
from squadwright.web.live.sheet import FloorSheet, floor_sheet

# What a wall screen is told: what sets its clock, and who takes part.
FOR_THE_WALL = OF_THE_CLOCK | {
    EventKind.TAKEN_BACK,
    EventKind.ATHLETE_STOPPED,
    EventKind.ATHLETE_WENT_ON,
    EventKind.OUT,
    EventKind.INTO_WAVE,
    EventKind.SWAPPED,
}

STOP_AND_GO = (EventKind.ATHLETE_STOPPED, EventKind.ATHLETE_WENT_ON)


def sheet_for(run: Running, guest: Visitor) -> FloorSheet:
    """The document of a running session as somebody may see it."""
    sheet = floor_sheet(run)
    if guest.is_coach:
        return sheet
    if guest.role is DeviceRole.WALL:
        return for_the_wall(sheet)
    people = tuple(replace(each, may_not=barred_words(run, each.id)) for each in sheet.people)
    return replace(sheet, people=people)


def for_the_wall(sheet: FloorSheet) -> FloorSheet:
    """The document without what anybody must not do: a hall full of people reads it."""
    people = tuple(replace(each, may_not=(), swaps=(), heat_stop_c=None) for each in sheet.people)
    return replace(sheet, people=people)


def barred_words(run: Running, athlete_id: str) -> tuple[str, ...]:
    """What an athlete must not do on the day, without any reason."""
    held = held_in(run, athlete_id)
    return tuple(bars_words(restriction) for restriction in held)


def emergency_for(view: EmergencyView, run: Running, guest: Visitor) -> EmergencyView:
    """What is needed when somebody is hurt, as somebody may see it."""
    if guest.is_coach:
        return view
    restricted = tuple(
        (each.shown_name, "; ".join(words))
        for each in run.plan.attendance
        if (words := barred_words(run, each.athlete))
    )
    return replace(view, restricted=restricted)


def events_for(events: Iterable[RecordEvent], guest: Visitor) -> tuple[RecordEvent, ...]:
    """What was noted, as somebody may see it."""
    if guest.is_coach:
        return tuple(events)
    if guest.role is not DeviceRole.WALL:
        # A device may say that it is another one; so what an incident was stays with the coach.
        return tuple(event for event in events if event.kind is not EventKind.INCIDENT)
    return tuple(_for_the_hall(event) for event in events if event.kind in FOR_THE_WALL)


def _for_the_hall(event: RecordEvent) -> RecordEvent:
    """A hall full of people is not told for what somebody has stopped."""
    return replace(event, words="") if event.kind in STOP_AND_GO else event
