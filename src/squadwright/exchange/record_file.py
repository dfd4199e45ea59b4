"""What a device brings, or saves to a file: events as JSON, each checked, all or none."""

from dataclasses import dataclass
from typing import Literal

from squadwright.exchange.complaint import as_error
from squadwright.exchange.document import text_of
from squadwright.exchange.reading import read_strictly
from squadwright.model.field import Identifier, Label, Tally
from squadwright.model.record import RecordEvent

PLACE = "what the device sent"


@dataclass(frozen=True)
class Brought:
    """A message of a device: its events, how many of the session it has seen, and its own name."""

    after: Tally
    events: tuple[RecordEvent, ...] = ()
    device: Label = ""


@dataclass(frozen=True)
class DeviceRecord:
    """The record of a session as a device saves it to a file."""

    session: Identifier
    events: tuple[RecordEvent, ...]
    device: Label = ""
    format_version: Literal[1] = 1


def read_device_record(source: bytes, *, place: str) -> DeviceRecord:
    """What stands in a file that a device has saved; nothing of it where anything is wrong."""
    record, complaints = read_strictly(DeviceRecord, text_of(source, place=place), place=place)
    if record is None:
        raise as_error(complaints)
    return record


def read_brought(source: bytes) -> Brought:
    """What a device brings, and after how many events it wants those of others."""
    brought, complaints = read_strictly(Brought, text_of(source, place=PLACE), place=PLACE)
    if brought is None:
        raise as_error(complaints)
    return brought
