"""The record of a session or of a day of competition: an append-only log of what happened.

Each event has an id of its own, is made on a device with the device's clock, and is never changed.
Devices exchange events in any order and as often as they like: a record is a set, put in order by
time. Taking one back is an event as well.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, datetime
from enum import StrEnum

from squadwright.errors import InvalidInput
from squadwright.model.field import Count, Identifier, Label, Note, Tally


class EventKind(StrEnum):
    """What can happen on the floor."""

    STARTED = "started"
    MOVED = "moved on the sheet"
    HELD = "held"
    WENT_ON = "went on"
    ENDED = "ended"
    REOPENED = "reopened"
    HEAT_READ = "heat read"
    HEAT_STOP = "stops for heat"
    HEAT_OVER = "heat is over"
    TIME_LEFT = "minutes left"
    REPETITIONS_LOST = "repetitions lost"
    LOAD_CHANGED = "load changed"
    FAULT = "fault"
    ATHLETE_STOPPED = "athlete stopped"
    ATHLETE_WENT_ON = "athlete went on"
    JOINED_LATE = "joined late"
    SWAPPED = "exercise swapped"
    BAR_OUT = "bar out of use"
    INTO_WAVE = "into wave"
    INCIDENT = "incident"
    OUT = "out until cleared"
    EFFORT = "session effort"
    RESERVE = "repetitions in reserve"
    REMARK = "remark"
    REVIEW = "review"
    BOUTS_AHEAD = "bouts ahead"
    BOUT_OVER = "bout over"
    WEIGHS_AT = "weighs in at"
    HAS_WEIGHED = "has weighed in"
    DAY_OVER = "finished for the day"
    WARM_FROM = "warms up from"
    BOUT_TAKES = "a bout takes"
    TAKEN_BACK = "taken back"


OF_THE_CLOCK = frozenset(
    {
        EventKind.STARTED,
        EventKind.MOVED,
        EventKind.HELD,
        EventKind.WENT_ON,
        EventKind.ENDED,
        EventKind.REOPENED,
        EventKind.HEAT_STOP,
        EventKind.HEAT_OVER,
    }
)
FOR_HEAT = "heat"
"""The words of somebody's stop that the heat of the day asked for, not he himself."""
NOT_THERE = "was not there"
"""The words of the remark that somebody with a dose did not come."""
OF_AN_ATHLETE = frozenset(
    {
        EventKind.REPETITIONS_LOST,
        EventKind.LOAD_CHANGED,
        EventKind.FAULT,
        EventKind.ATHLETE_STOPPED,
        EventKind.ATHLETE_WENT_ON,
        EventKind.JOINED_LATE,
        EventKind.SWAPPED,
        EventKind.INTO_WAVE,
        EventKind.OUT,
        EventKind.EFFORT,
        EventKind.RESERVE,
    }
)
# At the mats: of an athlete's event, whose id stands in ``words``; then what holds for everybody.
OF_A_COMPETITOR = frozenset(
    {
        EventKind.BOUTS_AHEAD,
        EventKind.BOUT_OVER,
        EventKind.WEIGHS_AT,
        EventKind.HAS_WEIGHED,
        EventKind.DAY_OVER,
    }
)
AT_THE_MATS = OF_A_COMPETITOR | {EventKind.WARM_FROM, EventKind.BOUT_TAKES}
# What ``value`` counts, with its limits.
VALUE_OF: dict[EventKind, tuple[str, float, float]] = {
    EventKind.STARTED: ("second of the run sheet", -14_400, 14_400),
    EventKind.MOVED: ("second of the run sheet", -14_400, 14_400),
    EventKind.HEAT_READ: ("degC WBGT", -20, 60),
    EventKind.HEAT_STOP: ("second of the run sheet", -14_400, 14_400),
    EventKind.TIME_LEFT: ("minutes", 1, 240),
    EventKind.INTO_WAVE: ("wave", 1, 9),
    EventKind.REPETITIONS_LOST: ("repetitions", 1, 200),
    EventKind.LOAD_CHANGED: ("kg", 0, 600),
    EventKind.EFFORT: ("points of 10", 0, 10),
    EventKind.RESERVE: ("repetitions", 0, 30),
    EventKind.BOUTS_AHEAD: ("bouts", 0, 12),
    EventKind.WEIGHS_AT: ("minutes after midnight", 0, 1439),
    EventKind.WARM_FROM: ("bouts", 1, 12),
    EventKind.BOUT_TAKES: ("minutes", 1, 60),
}
_DAY = "event-day-"


@dataclass(frozen=True)
class RecordEvent:
    """One thing that happened.

    ``at`` is an instant with its offset from UTC, ``number`` the device's own count of events.
    ``value`` is what ``VALUE_OF`` says of the kind; ``takes_back`` is the id of another event.
    """

    id: Identifier
    session: Identifier
    device: Identifier
    number: Tally
    at: datetime
    kind: EventKind
    author: Label = ""
    athlete: Label = ""
    round: Count = 0
    exercise: Label = ""
    value: float | None = None
    words: Note = ""
    takes_back: Label = ""

    def __post_init__(self) -> None:
        if self.at.tzinfo is None:
            raise self._wrong("at", f"{self.at} has no offset from UTC", "Write 18:00:00+01:00")
        if self.kind in OF_AN_ATHLETE | OF_A_COMPETITOR and not self.athlete:
            raise self._wrong("athlete", "is missing", "Name the athlete it happened to")
        if self.kind in OF_A_COMPETITOR and not self.words:
            raise self._wrong("words", "names no event", "Give the id of the event")
        if (self.kind is EventKind.TAKEN_BACK) != bool(self.takes_back):
            raise self._wrong(
                "takes_back",
                f"{self.takes_back!r} does not go with {self.kind.value!r}",
                "Name the event that is taken back, and only there",
            )
        self._check_value()

    def _check_value(self) -> None:
        known = VALUE_OF.get(self.kind)
        if known is None:
            if self.value is not None:
                raise self._wrong("value", f"{self.kind.value!r} has no value", "Leave it out")
            return
        unit, low, high = known
        if self.value is None or not low <= self.value <= high:
            raise self._wrong(
                "value",
                f"{self.value} {unit} is outside {low:g} to {high:g} {unit}",
                "Check the number",
            )

    def _wrong(self, field: str, problem: str, advice: str) -> InvalidInput:
        return InvalidInput(f"events.{field}", f"event {self.id}: {problem}", advice)

    @property
    def order(self) -> tuple[datetime, str, int, str]:
        """Its place in the record: by time; at one instant by device and its own count."""
        return (self.at, self.device, self.number, self.id)


def record_of_day(day: date) -> str:
    """Under which id the record of a day of competition is kept, where a session has its own."""
    return f"{_DAY}{day.isoformat()}"


def day_of_record(session: str) -> date | None:
    """The day of competition a record is of; None where it is of a session."""
    if not session.startswith(_DAY):
        return None
    try:
        day = date.fromisoformat(session.removeprefix(_DAY))
    except ValueError:
        return None
    return day if record_of_day(day) == session else None


def in_order(events: Iterable[RecordEvent]) -> tuple[RecordEvent, ...]:
    """A record in the order of time, each event once, however often it was sent."""
    each = {event.id: event for event in events}
    return tuple(sorted(each.values(), key=lambda event: event.order))


def in_force(events: Iterable[RecordEvent]) -> tuple[RecordEvent, ...]:
    """What is left when everything taken back is left out, in order.

    Taking back the taking back brings the first event back. Whatever was taken back by two
    devices at once needs both of them to be taken back. Who is out until cleared stays out: that
    is never taken back, only cleared in the register.
    """
    ordered = in_order(events)
    takers: dict[str, list[RecordEvent]] = {}
    for event in ordered:
        if event.takes_back:
            takers.setdefault(event.takes_back, []).append(event)
    decided: dict[str, bool] = {}
    for event in reversed(ordered):
        # A taker usually comes later and is decided before what it takes back.
        _decide(event.id, takers, decided)
    return tuple(
        e for e in ordered if e.kind is EventKind.OUT or (decided[e.id] and not e.takes_back)
    )


def stop_of(own: Iterable[RecordEvent]) -> RecordEvent | None:
    """With what an athlete has stopped for good, from his own events in order; None: he works.

    Who is out until cleared does not go on by a tap.
    """
    found: RecordEvent | None = None
    for event in own:
        if event.kind is EventKind.OUT:
            return found or event
        if event.kind is EventKind.ATHLETE_STOPPED:
            found = event
        elif event.kind is EventKind.ATHLETE_WENT_ON:
            found = None
    return found


def _decide(event_id: str, takers: dict[str, list[RecordEvent]], decided: dict[str, bool]) -> None:
    """Whether an event holds: nothing that holds takes it back; of a ring nothing holds."""
    waiting = [event_id]
    while waiting:
        at = waiting[-1]
        if at in decided:
            waiting.pop()
            continue
        open_ones = [t.id for t in takers.get(at, ()) if t.id not in decided]
        if any(t in waiting for t in open_ones):
            decided[at] = False
            waiting.pop()
        elif open_ones:
            waiting.extend(open_ones)
        else:
            decided[at] = not any(decided[t.id] for t in takers.get(at, ()))
            waiting.pop()
