"""Damaged and hostile files made from a seed: what a device, a cable or an attacker may hand over.

Each is made from a sound file of its kind, or is a trap: zip bombs, entities, deep nesting, numbers
that are none, encodings that lie, heads of EDF that state what is not there.
"""

import io
import zipfile
from collections.abc import Callable
from random import Random

from heart_files import edf_bytes, rate_csv, rr_csv
from roster_files import csv_text, xlsx_bytes

NUMBERS = ("NaN", "inf", "-inf", "1e999", "9" * 400, "-0", "0x10", "١٢", "1_000", "--1", "=1+1")
PIECES = (b"\x00", b"\xff\xfe", b"\xef\xbb\xbf", b"\r\r\n", b'"', b"<!DOCTYPE a>", b"\x1a", b"'\t")
ENCODINGS = ("utf-16", "utf-16-le", "utf-32", "cp037", "shift_jis", "utf-7")
ENTITIES = b'<?xml version="1.0"?><!DOCTYPE a [<!ENTITY b "ha"><!ENTITY c "&b;&b;">]><a>&c;</a>'


def force_text() -> bytes:
    """A second of standing still on a plate."""
    return b"time (s),force (N)\n" + b"".join(b"%.3f,785.0\n" % (n / 200) for n in range(200))


def packed(name: str, content: bytes, count: int = 1) -> bytes:
    """A zip with one part, or the same part many times."""
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as package:
        for number in range(count):
            package.writestr(name if count == 1 else f"{number}{name}", content)
    return out.getvalue()


def with_part(name: str, content: bytes) -> bytes:
    """A workbook with one part in another's place."""
    out = io.BytesIO()
    with (
        zipfile.ZipFile(io.BytesIO(xlsx_bytes())) as source,
        zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as package,
    ):
        for part in source.infolist():
            if part.filename != name:
                package.writestr(part, source.read(part))
        package.writestr(name, content)
    return out.getvalue()


def _truncated(random: Random, sound: bytes) -> bytes:
    return sound[: random.randrange(len(sound))]


def _flipped(random: Random, sound: bytes) -> bytes:
    data = bytearray(sound)
    for _ in range(random.randint(1, 40)):
        data[random.randrange(len(data))] = random.randrange(256)
    return bytes(data)


def _spliced(random: Random, sound: bytes) -> bytes:
    at = random.randrange(len(sound))
    return sound[:at] + random.choice(PIECES) * random.randint(1, 50) + sound[at:]


def _number(random: Random, sound: bytes) -> bytes:
    word = random.choice(NUMBERS).encode()
    return sound.replace(random.choice((b"8", b"1", b"9", b"0")), word, random.randint(1, 20))


def _recoded(random: Random, sound: bytes) -> bytes:
    return sound.decode("latin-1").encode(random.choice(ENCODINGS), errors="replace")


def _lying_head(random: Random, _: bytes) -> bytes:
    """An EDF file whose head states other sizes than it has."""
    data = bytearray(edf_bytes())
    at, length = random.choice(((184, 8), (236, 8), (244, 8), (252, 4), (256 + 216, 8)))
    stated = random.choice(("99999999", "-1", "0", "1e9", "", "7", "NaN", "65536"))
    data[at : at + length] = stated[:length].ljust(length).encode()
    return bytes(data)


def _deep(random: Random, _: bytes) -> bytes:
    depth = random.choice((60, 5_000, 200_000))
    opening = random.choice((b"[", b'{"a":', b'[{"rr_ms":'))
    return opening * depth


def _bomb(random: Random, _: bytes) -> bytes:
    size = random.choice((1, 30, 200)) * 1_000_000
    name = random.choice(("xl/workbook.xml", "athletes.csv", "xl/sharedStrings.xml"))
    return packed(name, b" " * size, random.choice((1, 1, 3)))


def _entities(random: Random, _: bytes) -> bytes:
    return with_part(random.choice(("xl/sharedStrings.xml", "xl/workbook.xml")), ENTITIES)


def _many(random: Random, _: bytes) -> bytes:
    return packed("athletes.csv", b"id,name\r\na,b\r\n", random.choice((150, 3_000)))


def _wide(random: Random, _: bytes) -> bytes:
    return random.choice((b",", b";", b"\t", b'"', b"1,")) * random.choice((10_000, 2_000_000))


SOUND: tuple[Callable[[], bytes], ...] = (
    *(rr_csv, rate_csv, edf_bytes, force_text, xlsx_bytes),
    lambda: csv_text().encode(),
    lambda: b'{"club": {"name": "x"}, "diary": []}',
    lambda: packed("club.csv", b"name\r\nClub\r\n"),
)
WAYS = (
    *(_truncated, _flipped, _spliced, _number, _recoded, _lying_head),
    *(_deep, _bomb, _entities, _many, _wide),
)


def hostile(seed: int) -> tuple[str, bytes]:
    """What was done, and the file; the same seed gives the same."""
    random = Random(seed)
    way = WAYS[seed % len(WAYS)]
    return way.__name__.strip("_"), way(random, random.choice(SOUND)())
