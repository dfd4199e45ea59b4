"""The bytes of a text file as text, whatever program wrote it: UTF-8, UTF-16 or cp1252."""

import re

from squadwright.errors import InvalidInput

_BINARY = re.compile(r"[\x00-\x08\x0e-\x1f]")


def decoded_text(name: str, data: bytes, *, problem: str, advice: str) -> str:
    """Text with or without a mark of its order at the head; InvalidInput for what is no text."""
    for encoding in _encodings(data):
        try:
            text = data.decode(encoding)
        except UnicodeDecodeError:
            continue
        if _BINARY.search(text) is None:
            return text.removeprefix("\ufeff")
    raise InvalidInput("The file", f"({name[:60]}) {problem}", advice)


def _encodings(data: bytes) -> tuple[str, ...]:
    if data.startswith((b"\xff\xfe", b"\xfe\xff")):
        return ("utf-16",)
    head = data[:400]
    if len(head) >= 4 and head[1::2].count(0) > len(head) // 4:
        return ("utf-16-le",)
    if len(head) >= 4 and head[::2].count(0) > len(head) // 4:
        return ("utf-16-be",)
    return ("utf-8-sig", "cp1252")
