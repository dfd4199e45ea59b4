"""Use cases after a session: effort and reserve at the door, the review, and taking each back.

What is noted here goes into the record like what a device notes. Nothing in it is changed: a
correction takes the earlier event back and adds a new one. The events of one write carry one
mark, by which the write can be taken back as a whole.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from secrets import token_hex

from squadwright.errors import InvalidInput, NotFound
from squadwright.model.effort import RESERVES
from squadwright.model.record import VALUE_OF, EventKind, RecordEvent, in_force
from squadwright.planning.live.review import LONGEST_LINE, Review
from squadwright.services.record import exchange, record_of
from squadwright.services.unit_of_work import Keeper

DEVICE = "site"
AUTHOR = "Coach"
AT_THE_DOOR = (EventKind.EFFORT, EventKind.RESERVE)


@dataclass(frozen=True)
class Noted:
    """A write to the record: the mark that takes it back; empty where it said nothing new."""

    mark: str


def note_at_door(
    keeper: Keeper,
    session_id: str,
    athlete: str,
    kind: EventKind,
    value: int,
    *,
    now: datetime,
) -> Noted:
    """Note how hard the session was for somebody, or what he had in reserve."""
    if kind not in AT_THE_DOOR:
        raise InvalidInput("kind", f"{kind.value!r} is not asked at the door", "Ask for the effort")
    unit, low, high = VALUE_OF[kind]
    most = high if kind is EventKind.EFFORT else max(RESERVES)
    if not low <= value <= most:
        raise InvalidInput(
            kind.value, f"{value} {unit} is outside {low:g} to {most:g} {unit}", "Choose a number"
        )
    record = record_of(keeper, session_id)
    held = [e for e in in_force(record) if e.kind is kind and e.athlete == athlete]
    if [event.value for event in held] == [float(value)]:
        return Noted("")
    new = Batch(session_id, record, now)
    for event in held:
        new.add(EventKind.TAKEN_BACK, takes_back=event.id)
    new.add(kind, athlete=athlete, value=float(value))
    return new.stored(keeper)


def accept_review(keeper: Keeper, session_id: str, review: Review, *, now: datetime) -> Noted:
    """Keep the review in the coach's words, in place of an earlier one."""
    lines = {"work": review.work, "trouble": review.trouble, "change": review.change}
    tidy = {name: " ".join(line.split()) for name, line in lines.items()}
    for name, line in tidy.items():
        if len(line) > LONGEST_LINE:
            problem = f"has {len(line)} characters, at most {LONGEST_LINE} fit"
            raise InvalidInput(f"review.{name}", problem, "Shorten it")
    kept = Review(**tidy)
    if not any(tidy.values()):
        raise InvalidInput("review.work", "is empty, as are the others", "Write one line at least")
    record = record_of(keeper, session_id)
    held = [event for event in in_force(record) if event.kind is EventKind.REVIEW]
    if [event.words for event in held] == [kept.words]:
        return Noted("")
    new = Batch(session_id, record, now)
    for event in held:
        new.add(EventKind.TAKEN_BACK, takes_back=event.id)
    new.add(EventKind.REVIEW, words=kept.words)
    return new.stored(keeper)


def take_back_noted(keeper: Keeper, session_id: str, mark: str, *, now: datetime) -> Noted:
    """Take back a whole write by its mark; taking that back again brings it back."""
    record = record_of(keeper, session_id)
    theirs = [event for event in record if event.id.startswith(f"{DEVICE}-{mark}-")]
    if not mark or not theirs:
        raise NotFound(f"Nothing in the record has the mark {mark!r}. Load the page afresh")
    takers = {event.takes_back for event in record}
    if all(event.id in takers for event in theirs):
        return Noted("")
    new = Batch(session_id, record, now)
    for event in reversed(theirs):
        new.add(EventKind.TAKEN_BACK, takes_back=event.id)
    return new.stored(keeper)


class Batch:
    """Events of one write, numbered on from those the site has noted before."""

    def __init__(self, session_id: str, record: Sequence[RecordEvent], now: datetime) -> None:
        self.mark = token_hex(8)
        self._session, self._now = session_id, now
        self._number = sum(event.device == DEVICE for event in record)
        self._events: list[RecordEvent] = []

    def add(
        self,
        kind: EventKind,
        *,
        athlete: str = "",
        value: float | None = None,
        words: str = "",
        takes_back: str = "",
        round: int = 0,
        at: datetime | None = None,
    ) -> None:
        """One more event, written by the coach on his own page; ``at`` another moment than now."""
        place = len(self._events) + 1
        self._events.append(
            RecordEvent(
                id=f"{DEVICE}-{self.mark}-{place}",
                session=self._session,
                device=DEVICE,
                number=self._number + place,
                at=at or self._now,
                kind=kind,
                author=AUTHOR,
                athlete=athlete,
                round=round,
                value=value,
                words=words,
                takes_back=takes_back,
            )
        )

    @property
    def holds_any(self) -> bool:
        """Whether there is anything to put into the record."""
        return bool(self._events)

    @property
    def events(self) -> tuple[RecordEvent, ...]:
        """What was added."""
        return tuple(self._events)

    def stored(self, keeper: Keeper) -> Noted:
        """Put them into the record, all of them or none."""
        exchange(keeper, self._session, self._events, after=0)
        return Noted(self.mark)
