"""A JSON document as bytes: read within limits, before anything looks at what it means."""

import json
import math
import os
import re
import tempfile
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from squadwright.errors import InvalidInput, NotFound
from squadwright.exchange.complaint import Location, dotted, one_line, shown

LARGEST_FILE_BYTES = 100_000_000
DEEPEST_NESTING = 50
LONGEST_NUMBER = 40

WRITE_UTF8 = "Save it as UTF-8 text"

# Control characters other than tab and line feed, and halves of a surrogate pair.
_NO_TEXT = re.compile("[\x00-\x08\x0b-\x1f\x7f-\x9f\ud800-\udfff]")


class _Object(dict[str, Any]):
    """A JSON object that remembers a key written twice."""

    repeated: str | None = None


def read_bytes(path: Path) -> bytes:
    """The bytes of a file, refused if it is missing, no file, or larger than the limit."""
    place = one_line(str(path))
    try:
        if path.is_dir():
            raise InvalidInput(place, "is a folder", "Name the JSON file inside it")
        if not path.exists():
            raise NotFound(f"{place}: there is no such file. Check its name and folder")
        if not path.is_file():
            raise InvalidInput(place, "is not a plain file", "Name a JSON file")
        size = path.stat().st_size
        if size > LARGEST_FILE_BYTES:
            raise _too_large(place, size)
        with path.open("rb") as stream:
            data = stream.read(LARGEST_FILE_BYTES + 1)
    except (OSError, ValueError) as error:
        if isinstance(error, InvalidInput):
            raise
        reason = getattr(error, "strerror", None) or str(error)
        raise InvalidInput(
            place, f"cannot be read ({reason})", "Check the name and the right to read it"
        ) from error
    if len(data) > LARGEST_FILE_BYTES:
        raise _too_large(place, len(data))
    return data


def _too_large(place: str, size: int) -> InvalidInput:
    return InvalidInput(
        place,
        f"holds {size / 1e6:.1f} MB; the limit is {LARGEST_FILE_BYTES / 1e6:.0f} MB",
        "Take out what is not needed",
    )


def text_of(data: bytes, *, place: str) -> str:
    """The bytes as text: UTF-8 without a byte-order mark, not empty."""
    if data.startswith(b"\xef\xbb\xbf"):
        raise InvalidInput(place, "starts with a byte-order mark", f"{WRITE_UTF8} without one")
    try:
        text = data.decode("utf-8")
    except UnicodeDecodeError as error:
        raise InvalidInput(
            place, f"is not UTF-8 text (byte {error.start + 1} of {len(data)})", WRITE_UTF8
        ) from error
    if not text.strip():
        raise InvalidInput(place, "is empty", "Give a file with one JSON object in it")
    return text


def parse_object(text: str, *, place: str) -> dict[str, Any]:
    """The text as one JSON object; keys written twice, NaN and what is no JSON are refused."""
    try:
        document = json.loads(
            text,
            object_pairs_hook=_object,
            parse_constant=_NoNumber,
            parse_float=_finite,
            parse_int=_short_integer,
        )
    except json.JSONDecodeError as error:
        raise InvalidInput(
            place,
            f"is not JSON: {error.msg.removesuffix(' at')} at line {error.lineno} "
            f"column {error.colno}",
            "Correct it there, or write the file again with `squadwright export`",
        ) from error
    except RecursionError as error:
        raise _too_deep(place) from error
    if not isinstance(document, dict):
        raise InvalidInput(
            place, f"holds {shown(document)}, not an object", "Start it with { and end it with }"
        )
    _refuse_unsound_parts(document, place)
    return document


@dataclass(frozen=True)
class _NoNumber:
    """Stands where the file has a number that none of its fields can hold."""

    written: str


def _object(pairs: list[tuple[str, Any]]) -> _Object:
    made = _Object(pairs)
    if len(made) != len(pairs):
        seen: set[str] = set()
        for key, _ in pairs:
            if key in seen:
                made.repeated = key
                break
            seen.add(key)
    return made


def _finite(digits: str) -> float | _NoNumber:
    value = float(digits)
    return value if math.isfinite(value) else _NoNumber(digits)


def _short_integer(digits: str) -> int | _NoNumber:
    if len(digits) > LONGEST_NUMBER:
        return _NoNumber(f"a number of {len(digits)} digits")
    return int(digits)


def _too_deep(place: str) -> InvalidInput:
    return InvalidInput(
        place,
        f"is nested more than {DEEPEST_NESTING} levels deep",
        "Take out the brackets that hold nothing",
    )


def _refuse_unsound_parts(document: dict[str, Any], place: str) -> None:
    """Walk the whole document once: depth, keys written twice, characters that are no text."""
    waiting: list[tuple[Location, Any]] = [((), document)]
    while waiting:
        location, value = waiting.pop()
        if len(location) > DEEPEST_NESTING:
            raise _too_deep(place)
        if isinstance(value, _Object) and value.repeated is not None:
            raise InvalidInput(
                dotted((*location, value.repeated)),
                "is written twice",
                "Keep one of the two, so that it is clear which counts",
            )
        if isinstance(value, _NoNumber):
            raise InvalidInput(
                dotted(location),
                f"{one_line(value.written)[:LONGEST_NUMBER]} is no number a file can hold",
                "Write a plain number",
            )
        if isinstance(value, str):
            _refuse_what_is_no_text(value, location)
        elif isinstance(value, dict):
            for key in value:
                _refuse_what_is_no_text(key, (*location, key))
            waiting.extend(((*location, key), inner) for key, inner in reversed(value.items()))
        elif isinstance(value, list):
            waiting.extend(
                ((*location, index), inner) for index, inner in reversed([*enumerate(value)])
            )


def _refuse_what_is_no_text(text: str, location: Location) -> None:
    found = _NO_TEXT.search(text)
    if found is not None:
        raise InvalidInput(
            dotted(location),
            f"{shown(text)} holds U+{ord(found.group()):04X}, which is no character of a text",
            "Take it out; letters, line breaks and tabs may stand there",
        )


def write_text(path: Path, text: str) -> None:
    """Write a text file as a whole, readable by its owner only."""
    write_file(path, text.encode())


def write_file(path: Path, data: bytes) -> None:
    """Write a file as a whole, readable by its owner only: it may hold health data."""
    try:
        number, draft = tempfile.mkstemp(prefix=f".{path.name}.", dir=path.absolute().parent)
        try:
            with open(number, "wb") as stream:
                stream.write(data)
            os.replace(draft, path)
        except BaseException:
            Path(draft).unlink(missing_ok=True)
            raise
    except OSError as error:
        raise InvalidInput(
            one_line(str(path)),
            f"cannot be written ({error.strerror})",
            "Check the folder and your rights",
        ) from error
