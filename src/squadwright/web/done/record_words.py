"""The events of a record as words."""

from collections.abc import Mapping

from squadwright.model.plan import Plan, exercise_names
from squadwright.model.record import VALUE_OF, EventKind, RecordEvent
from squadwright.printing.people import exercise_name
from squadwright.services.done import SessionDone
from squadwright.web.done.contexts import EventLine
from squadwright.web.wording import capital, clock_text, number_text

SITE = "site"


def event_lines(found: SessionDone) -> tuple[EventLine, ...]:
    """The whole record, the earliest first; what does not hold any more is marked."""
    held = {event.id for event in found.held}
    names = found.club.shown_names()
    exercises = _exercises(found.plan)
    by_id = {event.id: event for event in found.events}
    return tuple(
        EventLine(
            clock=f"{event.at.astimezone():%H:%M:%S}",
            what=capital(_words(event, names, exercises, by_id)),
            author=_author(event),
            is_taken_back=event.id not in held and not event.takes_back,
        )
        for event in found.events
    )


def _exercises(plan: Plan | None) -> dict[str, str]:
    return exercise_names(plan) if plan else {}


def _author(event: RecordEvent) -> str:
    """Who wrote it, and on which device; a device without an author is named by itself."""
    device = "on the site" if event.device == SITE else f"device {event.device[:8]}"
    return f"{event.author}, {device}" if event.author else device


def _words(
    event: RecordEvent,
    names: Mapping[str, str],
    exercises: dict[str, str],
    by_id: Mapping[str, RecordEvent],
) -> str:
    if event.takes_back:
        other = by_id.get(event.takes_back)
        what = _words(other, names, exercises, by_id) if other else "an event"
        return f"taken back: {what}" if other is None or not other.takes_back else "brought back"
    parts = [_said(event)]
    if event.kind is EventKind.SWAPPED:
        parts = [_swapped(event, exercise_name(exercises, event.exercise))]
    elif event.exercise:
        parts.append(exercise_name(exercises, event.exercise))
    if event.round:
        parts.append(f"round {event.round}")
    who = f"{names.get(event.athlete, event.athlete)}: " if event.athlete else ""
    return f"{who}{', '.join(filter(None, parts))}"


def _swapped(event: RecordEvent, name: str) -> str:
    return f"{event.words} instead of {name}" if event.words else f"{name} as planned again"


def _said(event: RecordEvent) -> str:
    """The kind with its value and words; what an incident says is kept apart."""
    if event.kind is EventKind.INCIDENT:
        return "incident (its note is kept apart)"
    if event.kind is EventKind.REVIEW:
        return "review accepted"
    value = ""
    if event.value is not None:
        unit = VALUE_OF[event.kind][0]
        if unit == "second of the run sheet":
            value = f"at {clock_text(event.value)} of the run sheet"
        else:
            value = f"{number_text(event.value)} {unit}"
    return " ".join(filter(None, (event.kind.value, value, event.words)))
