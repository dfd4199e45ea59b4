"""The line that says what changed: told once, and only ours."""

import base64
import json

import pytest
from starlette.requests import Request

from site_server import Browse
from squadwright.web.note import LONGEST_WORDS, NOTE_COOKIE, ChangedLine, read_note, write_note
from squadwright.web.page import see_other


def request_with(value: str) -> Request:
    cookie = f"{NOTE_COOKIE}={value}".encode()
    return Request({"type": "http", "headers": [(b"cookie", cookie)]})


def packed(value: object) -> str:
    return base64.urlsafe_b64encode(json.dumps(value).encode()).decode().rstrip("=")


@pytest.mark.parametrize("undo", ["", "/today/undo/3"])
def test_a_line_comes_back_as_it_was_told(undo: str) -> None:
    line = ChangedLine("Zo\N{LATIN SMALL LETTER E WITH DIAERESIS}: 42.5 kg; bar 2 is free", undo)
    assert read_note(request_with(write_note(line))) == line


def test_a_long_line_is_cut_where_it_can_be_seen() -> None:
    line = read_note(request_with(write_note(ChangedLine("a" * 5000))))
    assert line is not None
    assert len(line.words) == LONGEST_WORDS
    assert line.words.endswith("\N{HORIZONTAL ELLIPSIS}")


@pytest.mark.parametrize(
    "value",
    ["", "!", "a", packed([]), packed(3), packed([1, 2]), packed({"a": 1}), "W1tb" * 900, "_w"],
)
def test_what_is_not_ours_is_as_if_nothing_were_told(browse: Browse, value: str) -> None:
    assert read_note(request_with(value)) is None
    browse.client.cookies.set(NOTE_COOKIE, value)
    assert browse.get("/patterns").status_code == 200


def test_undo_never_leads_to_another_site() -> None:
    assert read_note(request_with(packed(["x", "//gym.example"]))) == ChangedLine("x", "")
    for path, undo in (("https://gym.example", ""), ("/", "//gym.example")):
        with pytest.raises(ValueError, match="is not a path of this site"):
            see_other(path, changed="x", undo=undo)


def test_words_of_the_line_are_never_read_as_markup(browse: Browse) -> None:
    browse.client.cookies.set(NOTE_COOKIE, packed(["<b>bold</b>", ""]))
    assert "<b>bold</b>" not in browse.get("/patterns").text
