"""Addresses of the pages around and after an event."""

from datetime import date
from urllib.parse import quote

from squadwright.model.athlete import Athlete
from squadwright.planning.close_events import close_pairs

CLOSE = "/camp/close-events"
BACK = "/camp/return"
REVIEW = "/camp/review"


def close_path(athlete: str, event: str) -> str:
    """Two events of an athlete that are close, by the id of the first."""
    return _path(CLOSE, athlete, event)


def back_path(athlete: str, event: str) -> str:
    """The week after an event."""
    return _path(BACK, athlete, event)


def review_path(athlete: str, event: str) -> str:
    """The camp that led to an event."""
    return _path(REVIEW, athlete, event)


def event_links(athlete: Athlete, today: date) -> tuple[tuple[str, str], ...]:
    """The ways from an athlete: close events ahead, and the last event that is over."""
    links = [
        (f"{first.name} and {second.name}: close together", close_path(athlete.id, first.id))
        for first, second in close_pairs(athlete.events)
        if second.starts_on >= today
    ]
    over = [event for event in athlete.events if event.starts_on <= today]
    if over:
        last = max(over, key=lambda event: event.starts_on)
        links += [
            (f"The way back after {last.name}", back_path(athlete.id, last.id)),
            (f"Review the camp for {last.name}", review_path(athlete.id, last.id)),
        ]
    return tuple(links)


def _path(start: str, athlete: str, event: str) -> str:
    return f"{start}/{quote(athlete, safe='')}/{quote(event, safe='')}"
