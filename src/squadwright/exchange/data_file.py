"""Everything a club has as one value: the club, the diary of everybody, and all that was noted."""

from dataclasses import dataclass, field
from typing import Literal

from squadwright.exchange.club_file import examine_club, write_document
from squadwright.exchange.complaint import Complaint, as_error
from squadwright.exchange.document import parse_object, text_of
from squadwright.exchange.reading import read_strictly
from squadwright.model.club import Club
from squadwright.model.diary import DiaryEntry
from squadwright.model.record import RecordEvent

PLACE = "the data file"


@dataclass(frozen=True)
class DataFile:
    """The club, its diary by day, and the events of every session in the order of time."""

    club: Club
    diary: tuple[DiaryEntry, ...] = ()
    events: tuple[RecordEvent, ...] = ()
    data_version: Literal[1] = field(default=1)


def in_file_order(
    club: Club, diary: tuple[DiaryEntry, ...], events: tuple[RecordEvent, ...]
) -> DataFile:
    """Everything in one order, whatever order it was read in."""
    return DataFile(
        club,
        tuple(sorted(diary, key=lambda e: (e.day, e.written_at.isoformat(), e.id))),
        tuple(sorted(events, key=lambda e: (e.session, *e.order))),
    )


def write_data(data: DataFile) -> str:
    """Everything as JSON; what is empty by default is left out."""
    return write_document(DataFile, data)


def read_data_json(source: str | bytes, *, place: str = PLACE) -> DataFile:
    """Everything in a JSON text: a data file, or a club file, which has no diary and no events."""
    text = source if isinstance(source, str) else text_of(source, place=place)
    if "club" in parse_object(text, place=place):
        data, complaints = read_strictly(DataFile, text, place=place)
    else:
        club, complaints = examine_club(text, file=place)
        data = None if club is None else DataFile(club)
    return sound(data, complaints)


def sound(data: DataFile | None, complaints: list[Complaint]) -> DataFile:
    """The data in its order; the first complaint as an error where there is no data."""
    if data is None or complaints:
        raise as_error(complaints)
    return in_file_order(data.club, data.diary, data.events)
