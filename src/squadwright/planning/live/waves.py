"""Into which wave an athlete was put on the floor, and where two assistants said different things.

Events stay in the record as they are. Where two devices put one athlete into different waves,
somebody is asked; his answer takes the others back.
"""

from collections.abc import Iterable
from dataclasses import dataclass

from squadwright.model.record import EventKind, RecordEvent, in_force, in_order


@dataclass(frozen=True)
class WaveChoice:
    """One of the waves an athlete was put into, and by whom last."""

    wave: int
    author: str
    device: str


@dataclass(frozen=True)
class WaveQuestion:
    """An athlete whom two devices have put into different waves."""

    athlete: str
    choices: tuple[WaveChoice, ...]


def wave_questions(events: Iterable[RecordEvent]) -> tuple[WaveQuestion, ...]:
    """Every athlete in two waves at once.

    A device that changes its mind asks nothing: its last word counts. Two who answer a question at
    the same moment may take back all there was; then the question stands again.
    """
    record = in_order(events)
    holding = {event.id for event in in_force(record)}
    takers: dict[str, set[str]] = {}
    for event in record:
        if event.takes_back:
            takers.setdefault(event.takes_back, set()).add(event.device)
    put = [event for event in record if event.kind is EventKind.INTO_WAVE]
    questions = []
    for athlete in sorted({event.athlete for event in put}):
        own = [event for event in put if event.athlete == athlete]
        held = [event for event in own if event.id in holding]
        # The last word of each device; where nothing holds, what others than its own took back.
        last = (
            {event.device: event for event in held}.values()
            if held
            else [event for event in own if takers.get(event.id, set()) - {event.device}]
        )
        choices = {
            _wave(event): WaveChoice(_wave(event), event.author, event.device) for event in last
        }
        if len(choices) > 1:
            questions.append(
                WaveQuestion(athlete, tuple(choices[wave] for wave in sorted(choices)))
            )
    return tuple(questions)


def against(events: Iterable[RecordEvent], athlete: str, wave: int) -> tuple[str, ...]:
    """Ids of the events that an answer for a wave takes back."""
    return tuple(
        event.id
        for event in in_force(events)
        if event.kind is EventKind.INTO_WAVE and event.athlete == athlete and _wave(event) != wave
    )


def is_in(events: Iterable[RecordEvent], athlete: str, wave: int) -> bool:
    """Whether an event that holds puts an athlete into a wave."""
    return any(
        event.kind is EventKind.INTO_WAVE and event.athlete == athlete and _wave(event) == wave
        for event in in_force(events)
    )


def _wave(event: RecordEvent) -> int:
    return int(event.value or 0)
