"""What a device brings: events as JSON, each checked, all of them or none."""

from dataclasses import dataclass

from squadwright.exchange.complaint import as_error
from squadwright.exchange.document import text_of
from squadwright.exchange.reading import read_strictly
from squadwright.model.field import Count
from squadwright.model.record import RecordEvent

PLACE = "what the device sent"


@dataclass(frozen=True)
class Brought:
    """A message of a device: its events, and how many of the session it has seen."""

    after: Count
    events: tuple[RecordEvent, ...] = ()


def read_brought(source: bytes) -> tuple[tuple[RecordEvent, ...], int]:
    """The events a message holds, and after how many the device wants those of others."""
    brought, complaints = read_strictly(Brought, text_of(source, place=PLACE), place=PLACE)
    if brought is None:
        raise as_error(complaints)
    return brought.events, brought.after
