"""The line that says, once and on the next page, what a write changed."""

import base64
import binascii
import json
from dataclasses import dataclass

from starlette.requests import Request

from squadwright.web.security import is_own_path

NOTE_COOKIE = "squadwright_changed"
LONGEST_WORDS = 600


@dataclass(frozen=True)
class ChangedLine:
    """What changed, and where to send a POST that takes it back (empty: it cannot be)."""

    words: str
    undo: str = ""


def write_note(line: ChangedLine) -> str:
    """The line as the value of a cookie."""
    words = line.words
    if len(words) > LONGEST_WORDS:
        words = f"{words[: LONGEST_WORDS - 1]}\N{HORIZONTAL ELLIPSIS}"
    written = json.dumps([words, line.undo]).encode()
    return base64.urlsafe_b64encode(written).decode().rstrip("=")


def read_note(request: Request) -> ChangedLine | None:
    """The line a request brings back; None where there is none, or it is not ours."""
    value = request.cookies.get(NOTE_COOKIE, "")
    try:
        words, undo = json.loads(base64.urlsafe_b64decode(value + "=" * (-len(value) % 4)))
    except (binascii.Error, ValueError, TypeError, RecursionError):
        return None
    if not isinstance(words, str) or not isinstance(undo, str):
        return None
    return ChangedLine(words, undo if is_own_path(undo) else "")
