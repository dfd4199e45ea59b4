"""A file is taken as one JSON object in UTF-8, or refused before its meaning is looked at."""

import os
from pathlib import Path

import pytest

from squadwright.errors import InvalidInput, NotFound
from squadwright.exchange import document
from squadwright.exchange.club_file import read_club, read_club_file
from squadwright.exchange.document import parse_object, read_bytes, text_of, write_text


@pytest.mark.parametrize(
    ("data", "told"),
    [
        (b"", "is empty"),
        (b" \n\t ", "is empty"),
        (b"\xef\xbb\xbf{}", "starts with a byte-order mark"),
        ("{}".encode("utf-16"), r"is not UTF-8 text \(byte 1 of 6\)"),
        (b'{"name": "D\xf3nal"}', r"is not UTF-8 text \(byte 12 of 17\)"),
    ],
)
def test_bytes_that_are_no_plain_utf8_are_refused(data: bytes, told: str) -> None:
    with pytest.raises(InvalidInput, match=f"^quay.json: {told}"):
        text_of(data, place="quay.json")


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("[]", "quay.json: holds a list, not an object"),
        ("null", "quay.json: holds null, not an object"),
        ('"x"', "quay.json: holds 'x', not an object"),
        ("{", "quay.json: is not JSON: .* at line 1 column 2"),
        ('{"a": 1,\n "b": }', "quay.json: is not JSON: Expecting value at line 2 column 7"),
        ('{"a": "x', "quay.json: is not JSON: Unterminated string starting at line 1 column 7"),
        ('{"a": 1} {}', "quay.json: is not JSON: Extra data at line 1 column 10"),
        ('{"a": NaN}', "a: NaN is no number a file can hold"),
        ('{"a": [1, -Infinity]}', r"a\[1\]: -Infinity is no number a file can hold"),
        ('{"a": 1e999}', "a: 1e999 is no number a file can hold"),
        ('{"a": ' + "7" * 41 + "}", "a: a number of 41 digits is no number a file can hold"),
        ('{"a": ' + "7" * 5000 + "}", "a: a number of 5000 digits is no number"),
        ('{"a": {"b": 1, "c": 2, "b": 1}}', "a.b: is written twice"),
        ('{"a": [{}, {"b": 1, "b": 1}]}', r"a\[1\].b: is written twice"),
        ('{"a": "\\u0000"}', r"a: '\\x00' holds U\+0000, which is no character"),
        ('{"a": "\\ud800"}', r"a: '\\ud800' holds U\+D800, which is no character"),
        ('{"\\u0007": 1}', r"\['\\x07'\]: '\\x07' holds U\+0007"),
        ("[" * 100_000, "quay.json: is nested more than 50 levels deep"),
        ('{"a":' * 51 + "1" + "}" * 51, "quay.json: is nested more than 50 levels deep"),
    ],
)
def test_a_text_that_is_no_sound_object_is_refused(text: str, told: str) -> None:
    with pytest.raises(InvalidInput, match=f"^{told}") as caught:
        parse_object(text, place="quay.json")
    assert str(caught.value).isprintable()


def test_nesting_up_to_the_limit_is_taken() -> None:
    deep = '{"a":' * 50 + "1" + "}" * 50
    assert parse_object(deep, place="quay.json")["a"]


def test_line_breaks_tabs_and_letters_of_any_script_are_taken() -> None:
    text = '{"a": "two\\nlines\\t中文 \\ud83d\\ude42"}'
    assert parse_object(text, place="quay.json") == {"a": "two\nlines\t中文 🙂"}


def test_a_file_that_is_missing_a_folder_or_a_device_is_refused(tmp_path: Path) -> None:
    with pytest.raises(NotFound, match="there is no such file"):
        read_bytes(tmp_path / "none.json")
    with pytest.raises(InvalidInput, match="is a folder"):
        read_bytes(tmp_path)
    with pytest.raises(InvalidInput, match="is not a plain file"):
        read_bytes(Path(os.devnull))
    with pytest.raises(InvalidInput, match="cannot be read"):
        read_bytes(tmp_path / ("x" * 5000))


def test_a_file_above_the_limit_is_refused_unread(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / "club.json"
    with path.open("wb") as stream:
        stream.truncate(document.LARGEST_FILE_BYTES + 1)
    with pytest.raises(InvalidInput, match=r"holds 100\.0 MB; the limit is 100 MB"):
        read_club_file(path)
    monkeypatch.setattr(document, "LARGEST_FILE_BYTES", 10)
    path.write_bytes(b'{"a": "0123456789"}')
    with pytest.raises(InvalidInput, match="the limit is"):
        read_bytes(path)


def test_a_name_of_two_lines_is_told_on_one(tmp_path: Path) -> None:
    path = tmp_path / "two\nlines.json"
    path.write_text("{", encoding="utf-8")
    with pytest.raises(InvalidInput) as caught:
        read_club_file(path)
    assert r"two\nlines.json: is not JSON" in str(caught.value)
    assert str(caught.value).isprintable()


def test_a_file_is_written_as_a_whole_and_for_its_owner_only(tmp_path: Path) -> None:
    path = tmp_path / "club.json"
    path.write_text("before", encoding="utf-8")
    write_text(path, "après\n")
    assert path.read_bytes() == "après\n".encode()
    assert path.stat().st_mode & 0o077 == 0
    assert [p.name for p in tmp_path.iterdir()] == ["club.json"]
    with pytest.raises(InvalidInput, match="cannot be written"):
        write_text(tmp_path / "no folder" / "club.json", "x")


def test_the_smallest_club_is_a_name() -> None:
    assert read_club('{"name": "The Quay"}').name == "The Quay"
