"""The club file: one club as JSON, read as a whole or not at all, written without loss."""

from dataclasses import MISSING, Field, fields, is_dataclass
from datetime import date
from json import dumps
from pathlib import Path
from typing import Any

from squadwright.exchange.calendar_mistakes import calendar_mistakes
from squadwright.exchange.complaint import Complaint, as_error, one_line
from squadwright.exchange.document import read_bytes, text_of
from squadwright.exchange.plausible import implausible
from squadwright.exchange.reading import adapter, read_strictly
from squadwright.exchange.references import broken_references
from squadwright.model.club import Club

PLACE = "the club file"


def read_club(source: str | bytes, *, today: date | None = None, file: str | None = None) -> Club:
    """The club a JSON text holds; InvalidInput names the first mistake and counts the others.

    ``today`` is the day on which ages and dates are judged, ``file`` the name of the file.
    """
    club, complaints = examine_club(source, today=today, file=file)
    if club is None or complaints:
        raise as_error(complaints, file=file or "FILE")
    return club


def read_club_file(path: Path, *, today: date | None = None) -> Club:
    """The club in a file."""
    return read_club(read_bytes(path), today=today, file=str(path))


def examine_club(
    source: str | bytes, *, today: date | None = None, file: str | None = None
) -> tuple[Club | None, list[Complaint]]:
    """The club, if it has the right form, and all that is wrong with it."""
    place = one_line(file) if file else PLACE
    text = source if isinstance(source, str) else text_of(source, place=place)
    club, complaints = read_strictly(Club, text, place=place)
    if club is not None:
        complaints = mistakes(club, today=today)
    return club, complaints


def mistakes(club: Club, *, today: date | None = None) -> list[Complaint]:
    """What cannot be right in a club that has the right form."""
    day = today or date.today()
    return [*broken_references(club), *calendar_mistakes(club), *implausible(club, today=day)]


def write_club(club: Club) -> str:
    """The club as JSON: fields in the model's order, two spaces, masses as typed.

    What is empty by default is left out; every other default is written, so that a file keeps
    its meaning when a default changes.
    """
    return write_document(Club, club)


def write_document(kind: type, value: Any, *, leave_out_empty: bool = True) -> str:
    """A frozen dataclass of the model as JSON text."""
    written = adapter(kind).dump_python((value,), mode="json")[0]
    if leave_out_empty:
        written = _without_empty(value, written)
    return dumps(written, indent=2, ensure_ascii=False) + "\n"


def _without_empty(value: Any, written: Any) -> Any:
    """Leave out every field that is empty and would be empty anyway."""
    if is_dataclass(value) and isinstance(written, dict):
        return {
            field.name: _without_empty(getattr(value, field.name), written[field.name])
            for field in fields(value)
            if not _is_empty_by_default(getattr(value, field.name), field)
        }
    if isinstance(value, tuple) and isinstance(written, list):
        return [_without_empty(inner, text) for inner, text in zip(value, written, strict=True)]
    return written


def _is_empty_by_default(value: Any, field: Field[Any]) -> bool:
    if field.default is MISSING or value != field.default:
        return False
    if is_dataclass(value):
        parts = [(getattr(value, f.name), f) for f in fields(value)]
        return all(part is False or _is_empty_by_default(part, f) for part, f in parts)
    return value is None or value in ("", ())
