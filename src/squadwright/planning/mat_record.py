"""What was noted at the mats, put together: bouts ahead and over, weigh-ins, who is finished.

``static/js/event_day_record.js`` does the same on a device that has no network.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import datetime, time, timedelta

from squadwright.model.record import OF_A_COMPETITOR, EventKind, RecordEvent, in_force
from squadwright.planning.mat_side import CallSettings

SAME_BOUT = timedelta(minutes=3)
"""Two devices that see a bout end within this time saw the same one, a default of ours."""


@dataclass(frozen=True)
class Bout:
    """A bout that is over; ``noted`` are the events that say so, one from each device."""

    ended_at: datetime
    noted: tuple[RecordEvent, ...]


@dataclass(frozen=True)
class OnTheDay:
    """One athlete in one event: what was noted of him and still holds."""

    bouts: tuple[Bout, ...] = ()
    ahead: RecordEvent | None = None
    weighs: RecordEvent | None = None
    has_weighed: bool = False
    is_over: bool = False

    @property
    def weighs_at(self) -> time | None:
        """When he weighs in, as it was noted at the mats."""
        if self.weighs is None or self.weighs.value is None:
            return None
        return time(*divmod(int(self.weighs.value), 60))


NOTHING_NOTED = OnTheDay()


@dataclass(frozen=True)
class MatRecord:
    """A day of competition as noted; ``athletes`` by the ids of athlete and event."""

    settings: CallSettings = field(default_factory=CallSettings)
    athletes: Mapping[tuple[str, str], OnTheDay] = field(default_factory=dict)

    def of(self, athlete: str, event: str) -> OnTheDay:
        """What was noted of an athlete in an event, maybe nothing."""
        return self.athletes.get((athlete, event), NOTHING_NOTED)


def mat_record(events: Iterable[RecordEvent]) -> MatRecord:
    """What the events of a day come to, whichever devices they are from and however they came."""
    settings, athletes = CallSettings(), dict[tuple[str, str], OnTheDay]()
    for event in in_force(events):
        value = int(event.value or 0)
        if event.kind is EventKind.WARM_FROM:
            settings = replace(settings, bouts_ahead=value)
        elif event.kind is EventKind.BOUT_TAKES:
            settings = replace(settings, minutes_a_bout=value)
        elif event.kind in OF_A_COMPETITOR:
            key = (event.athlete, event.words)
            athletes[key] = _after(athletes.get(key, NOTHING_NOTED), event)
    return MatRecord(settings, athletes)


def _after(known: OnTheDay, event: RecordEvent) -> OnTheDay:
    match event.kind:
        case EventKind.BOUTS_AHEAD:
            return replace(known, ahead=event)
        case EventKind.BOUT_OVER:
            # What was ahead is behind: the next bouts ahead are said anew.
            bouts = _with_bout(known.bouts, event)
            is_new = len(bouts) > len(known.bouts)
            return replace(known, bouts=bouts, ahead=None if is_new else known.ahead)
        case EventKind.WEIGHS_AT:
            return replace(known, weighs=event)
        case EventKind.HAS_WEIGHED:
            return replace(known, has_weighed=True)
        case _:
            return replace(known, is_over=True)


def _with_bout(bouts: Sequence[Bout], event: RecordEvent) -> tuple[Bout, ...]:
    last = bouts[-1] if bouts else None
    is_same = (
        last is not None
        and event.at - last.ended_at <= SAME_BOUT
        and event.device not in {noted.device for noted in last.noted}
    )
    if last is None or not is_same:
        return (*bouts, Bout(event.at, (event,)))
    return (*bouts[:-1], Bout(last.ended_at, (*last.noted, event)))


def bouts_fought(events: Iterable[RecordEvent], athlete: str, event: str) -> int | None:
    """How many bouts an athlete fought in an event; None where nothing was noted of him."""
    noted = mat_record(events).of(athlete, event)
    return None if noted == NOTHING_NOTED else len(noted.bouts)
