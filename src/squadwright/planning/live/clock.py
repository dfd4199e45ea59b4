"""The clock of a running session, worked out afresh from the record: nothing counts ticks.

The clock is a place on the run sheet [s]. It runs with wall time from the last event that set it,
unless it is held, and no further than where heat stops it. A device that sleeps, dies or starts
again is right at once, because the place follows from the events and the time of day alone.
"""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from datetime import datetime

from squadwright.model.record import OF_THE_CLOCK, EventKind, RecordEvent, in_force


@dataclass(frozen=True)
class Clock:
    """Since ``since`` the clock stands at ``place_s``, or runs on from there.

    ``start`` is the event with which the session as it runs was started. Where heat stops it, the
    clock stands at ``stops_at_s``; work that begins after ``stop_from_s`` is not done.
    """

    place_s: float = 0.0
    since: datetime | None = None
    is_running: bool = False
    is_ended: bool = False
    start: RecordEvent | None = None
    stops_at_s: float | None = None
    stop_from_s: float = 0.0

    @property
    def is_started(self) -> bool:
        """Whether the session was started."""
        return self.start is not None

    def place_at(self, now: datetime) -> float:
        """The place on the run sheet at an instant [s]."""
        if not self.is_running or self.since is None:
            return self.place_s
        place_s = self.place_s + (now - self.since).total_seconds()
        return place_s if self.stops_at_s is None else min(place_s, self.stops_at_s)


def clock_of(events: Iterable[RecordEvent]) -> Clock:
    """The clock after all events of a record that are in force."""
    clock = Clock()
    for event in in_force(events):
        if event.kind in OF_THE_CLOCK:
            clock = _after(clock, event)
    return clock


def _after(clock: Clock, event: RecordEvent) -> Clock:
    if event.kind is EventKind.STARTED:
        # A second device that starts the same session does not set it back.
        if clock.is_started and not clock.is_ended:
            return clock
        begun = Clock(event.value or 0.0, event.at, is_running=True, start=event)
        return begun if clock.stops_at_s is None else _stopped(begun, begun.place_s)
    if event.kind is EventKind.HEAT_STOP and clock.stops_at_s is None:
        here = replace(clock, place_s=clock.place_at(event.at), since=event.at)
        return _stopped(here if clock.is_started else clock, event.value or 0.0)
    if event.kind is EventKind.HEAT_OVER and clock.stops_at_s is not None:
        here = replace(clock, place_s=clock.place_at(event.at), since=event.at)
        return replace(here, is_running=False, stops_at_s=None)
    if not clock.is_started:
        return clock
    here = replace(clock, place_s=clock.place_at(event.at), since=event.at)
    if event.kind is EventKind.MOVED:
        return _moved(here, event.value or 0.0)
    if event.kind is EventKind.HELD:
        return replace(here, is_running=False)
    if event.kind is EventKind.WENT_ON:
        return clock if clock.is_ended else replace(here, is_running=True)
    if event.kind is EventKind.ENDED:
        return replace(here, is_running=False, is_ended=True)
    if event.kind is EventKind.REOPENED and clock.is_ended:
        return replace(here, is_running=True, is_ended=False)
    return clock


def _stopped(clock: Clock, at_s: float) -> Clock:
    """Nobody is started after this, and the clock stands where the work under way ends."""
    return replace(clock, stops_at_s=max(at_s, clock.place_s), stop_from_s=clock.place_s)


def _moved(here: Clock, to_s: float) -> Clock:
    """To another place; where heat stops it, forward to the stop and never back."""
    if here.stops_at_s is None:
        return replace(here, place_s=to_s)
    return replace(here, place_s=min(max(to_s, here.place_s), here.stops_at_s))
