"""Malformed club files: one thing made wrong in a sound file, by a seed.

Each breaker gets a random source and a club file as plain JSON values; it gives the broken bytes
and the place the message must name, or None where the file as a whole is to blame.
"""

import json
import random
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import Any

Path = tuple[str | int, ...]
Broken = tuple[bytes, str | None]


@dataclass(frozen=True)
class Case:
    """One malformed file."""

    name: str
    data: bytes
    place: str | None


def malformed_clubs(text: str, count: int) -> Iterator[Case]:
    """So many malformed files, every breaker in turn, the same ones for the same text."""
    for number in range(count):
        breaker = BREAKERS[number % len(BREAKERS)]
        rng = random.Random(number)
        data, place = breaker(rng, json.loads(text))
        yield Case(f"{number:04d} {breaker.__name__}", data, place)


def dotted(path: Path) -> str:
    """A path as it is told: athletes[3].tests[0].load."""
    return "".join(f"[{p}]" if isinstance(p, int) else f".{p}" for p in path).lstrip(".")


def places(document: Any, path: Path = ()) -> Iterator[tuple[Path, Any]]:
    """Every value below the top, with its path."""
    inner = document.items() if isinstance(document, dict) else enumerate(document)
    for key, value in inner:
        yield (*path, key), value
        if isinstance(value, dict | list):
            yield from places(value, (*path, key))


def put(document: Any, path: Path, value: Any) -> Broken:
    """The file with one value replaced, and the place of it."""
    holder = document
    for step in path[:-1]:
        holder = holder[step]
    holder[path[-1]] = value
    return encoded(document), dotted(path)


def encoded(document: Any) -> bytes:
    return json.dumps(document, ensure_ascii=False).encode()


def any_of(rng: random.Random, document: Any, *names: str) -> Path:
    """The path of one value under one of these keys."""
    return rng.choice([path for path, _ in places(document) if path[-1] in names])


# What must be there, by the key that holds the list or object.
REQUIRED = {
    "athletes": ("id", "name", "birth_date", "sex", "level", "sport"),
    "tests": ("lift", "load", "repetitions", "taken_on"),
    "body_mass": ("reading", "taken_on"),
    "events": ("id", "name", "starts_on"),
    "restrictions": ("id", "author", "author_role", "starts_on"),
    "bars": ("id", "name", "mass"),
    "plates": ("id", "plate", "pairs"),
    "rooms": ("id", "name", "outline", "ceiling_m"),
    "week": ("id", "name", "day", "starts_at", "ends_at", "kind"),
    "routines": ("id", "version", "name", "aim", "blocks"),
    "sessions": ("id", "held_on", "starts_at", "minutes", "room", "routine", "athletes"),
}


def a_field_left_out(rng: random.Random, document: Any) -> Broken:
    candidates = [
        (*path, key)
        for path, value in places(document)
        if isinstance(value, dict) and len(path) > 1 and path[-2] in REQUIRED
        for key in REQUIRED[str(path[-2])]
        if key in value
    ]
    path = rng.choice(candidates)
    holder = document
    for step in path[:-1]:
        holder = holder[step]
    del holder[path[-1]]
    return encoded(document), dotted(path)


def a_value_of_another_kind(rng: random.Random, document: Any) -> Broken:
    path, value = rng.choice(list(places(document)))
    if isinstance(value, bool):
        wrong: list[Any] = [1, "true", [], {}]
    elif isinstance(value, str):
        wrong = [5, 2.5, True, ["a"], {"a": 1}]
    elif isinstance(value, int | float):
        wrong = [str(value), True, [1], {"a": 1}, f"{value} m"]
    elif isinstance(value, list):
        wrong = ["a", 5, True, {"a": 1}]
    else:
        wrong = ["a", 5, [1]]
    return put(document, path, rng.choice(wrong))


def a_key_nobody_knows(rng: random.Random, document: Any) -> Broken:
    objects = [path for path, value in places(document) if isinstance(value, dict)]
    key = rng.choice(["weight", "naam", "Name", "birthdate", "_id", "two words", "x\ny", "é" * 90])
    return encoded_with(document, (*rng.choice(objects), key)), None


def encoded_with(document: Any, path: Path) -> bytes:
    return put(document, path, 1)[0]


def a_mass_that_is_none(rng: random.Random, document: Any) -> Broken:
    wrong = ["x kg", "32,5 kg", "32.5", "32.5 stone", "-5 kg", "", "kg", "1e3 kg", "32.5kgs",
             "\u0663\u0662 kg", "32.12345 kg", "1234567 kg", "NaN kg", 32.5]  # fmt: skip
    path = any_of(rng, document, "load", "reading", "mass", "plate", "mass_limit", "stamped")
    return put(document, path, rng.choice(wrong))


def a_mass_beyond_reason(rng: random.Random, document: Any) -> Broken:
    path = any_of(rng, document, "reading", "mass", "plate", "mass_limit")
    return put(document, path, rng.choice(["0 kg", "0.01 kg", "900 kg", "2000 lb"]))


def a_date_that_is_none(rng: random.Random, document: Any) -> Broken:
    wrong = ["2026-02-30", "02/03/2026", "2026-3-2", "Monday", "", "2026-03-02T18:00:00", 20260302,
             "20260302", "1772409600", "0000-00-00", "+2026-03-02", " 2026-03-02"]  # fmt: skip
    names = ("birth_date", "taken_on", "starts_on", "held_on", "given_on", "until")
    return put(document, any_of(rng, document, *names), rng.choice(wrong))


def a_date_that_makes_no_sense(rng: random.Random, document: Any) -> Broken:
    index = rng.randrange(len(document["athletes"]))
    athlete: Path = ("athletes", index)
    field, value = rng.choice(
        [
            (("birth_date",), "2190-01-01"),
            (("birth_date",), "1890-01-01"),
            (("body_mass", 0, "taken_on"), "2190-01-01"),
            (("body_mass", 0, "taken_on"), "1951-01-01"),
            (("consents", 0, "given_on"), "2190-01-01"),
        ]
    )
    return put(document, (*athlete, *field), value)


def an_end_before_its_start(rng: random.Random, document: Any) -> Broken:
    if rng.random() < 0.5:
        path = any_of(rng, document["week"], "ends_at")
        return put(document, ("week", *path), "00:05")
    return put(document, any_of(rng, document, "until"), "1999-01-01")


def a_time_that_is_none(rng: random.Random, document: Any) -> Broken:
    wrong = ["25:00", "18:60", "6 pm", "18.00", "18:00Z", "18:00+02:00", "18:00:00.5", 1800, ""]
    return put(document, any_of(rng, document, "starts_at", "ends_at"), rng.choice(wrong))


def a_number_out_of_bounds(rng: random.Random, document: Any) -> Broken:
    name, wrong = rng.choice(
        [
            ("stature_m", [160, 0, -1.6, 1.6e300]),
            ("repetitions", [0, -5, 201, 10**30, 5.5]),
            ("minutes", [0, 4, 301, 1e6]),
            ("ceiling_m", [-3, 340]),
            ("late_minutes", [-1, 1001, 75]),
            ("score", [-1, 11]),
            ("rounds", [0, 1001]),
            ("training_age_years", [-1, 81]),
            ("pairs", [-1, 1001, 2.5]),
            ("target_probability", [0, 1, 90]),
            ("version", [0, -1]),
        ]
    )
    return put(document, any_of(rng, document, name), rng.choice(wrong))


def a_number_json_does_not_have(rng: random.Random, document: Any) -> Broken:
    path = any_of(rng, document, "stature_m", "ceiling_m", "minutes", "repetitions", "count")
    data, place = put(document, path, "@@")
    known = ["NaN", "Infinity", "-Infinity", "1e999", "9" * 5000]
    wrong = rng.choice([*known, "0x10", "1_000", ".5", "+5", "05"])
    return data.replace(b'"@@"', wrong.encode()), place if wrong in known else None


def a_size_in_centimetres(rng: random.Random, document: Any) -> Broken:
    boxes = document["kit"]["boxes"]
    index = rng.randrange(len(boxes))
    return put(document, ("kit", "boxes", index, "heights_m", 0), rng.choice([45, 0, 1.75]))


def a_word_that_is_not_allowed(rng: random.Random, document: Any) -> Broken:
    names = ("sex", "level", "lift", "priority", "author_role", "day", "style", "presence", "area")
    path = rng.choice(
        [
            p
            for p, value in places(document)
            if p[-1] in names and not (p[-1] == "level" and p[0] == "routines")
            if isinstance(value, str)
        ]
    )
    return put(document, path, rng.choice(["", "other", "MALE", "Strict Press", "mon", "a\nb"]))


def a_name_that_stands_for_nothing(rng: random.Random, document: Any) -> Broken:
    session: Path = ("sessions", rng.randrange(len(document["sessions"])))
    path = rng.choice(
        [
            (*session, "room"),
            (*session, "routine"),
            (*session, "staff", 0),
            (*session, "check_ins", 0, "athlete"),
            ("athletes", rng.randrange(14), "squad"),
            ("athletes", 13, "clearances", 0, "restriction"),
            ("week", 0, "squads", 0),
            ("routines", 0, "blocks", 0, "steps", rng.randrange(6), "exercise"),
        ]
    )
    return put(document, path, rng.choice(["nobody", "ropewalkk", "A99", "weights room"]))


def a_version_that_is_not_there(rng: random.Random, document: Any) -> Broken:
    return put(document, ("sessions", rng.randrange(2), "routine_version"), rng.randint(2, 9))


def an_athlete_nobody_knows(rng: random.Random, document: Any) -> Broken:
    session = rng.randrange(2)
    data, _ = put(document, ("sessions", session, "athletes", 3), rng.choice(["A99", "Sami"]))
    return data, f"sessions[{session}].athletes"


def two_of_one_id(rng: random.Random, document: Any) -> Broken:
    path = rng.choice(
        [
            p
            for p, _ in places(document)
            if p[-1] == "id" and len(p) > 2 and isinstance(p[-2], int) and p[-2] > 0
        ]
    )
    holder = document
    for step in path[:-2]:
        holder = holder[step]
    if path[-3] == "routines":
        holder[path[-2]]["version"] = holder[0]["version"]
    return put(document, path, holder[0]["id"])


def a_key_written_twice(rng: random.Random, document: Any) -> Broken:
    path, value = rng.choice([(p, v) for p, v in places(document) if isinstance(p[-1], str)])
    holder = document
    for step in path[:-1]:
        holder = holder[step]
    key = json.dumps(path[-1])
    holder["@@"] = 1
    again = f"{key}: {json.dumps(value, ensure_ascii=False)}"
    return encoded(document).replace(b'"@@": 1', again.encode()), dotted(path)


def a_text_cut_short(rng: random.Random, document: Any) -> Broken:
    data = encoded(document)
    return data[: rng.randrange(len(data))], None


def a_bracket_lost(rng: random.Random, document: Any) -> Broken:
    data = encoded(document)
    marks = [i for i, byte in enumerate(data) if byte in b"{}[]"]
    at = rng.choice(marks[:200])
    return data[:at] + data[at + 1 :], None


def bytes_that_are_no_text(rng: random.Random, document: Any) -> Broken:
    data = bytearray(encoded(document))
    for _ in range(rng.randint(1, 4)):
        data[rng.randrange(len(data))] = rng.choice([0xFF, 0xC0, 0xFE, 0x80])
    return bytes(data), None


def a_character_that_is_no_text(rng: random.Random, document: Any) -> Broken:
    path = any_of(rng, document, "name", "note", "id", "author")
    data, place = put(document, path, "@@")
    wrong = rng.choice([r"\u0000", r"a\u0007b", r"\ud800", r"\udfff", r"\u001b[31m", r"\u0085"])
    return data.replace(b"@@", wrong.encode()), place


def a_text_too_long_or_blank(rng: random.Random, document: Any) -> Broken:
    path = any_of(rng, document, "name", "sport", "author", "aim", "kind")
    return put(document, path, rng.choice(["", " ", "\n\t", "x" * 5000, "\u00a0"]))


def another_encoding(rng: random.Random, document: Any) -> Broken:
    text = json.dumps(document, ensure_ascii=False)
    codec = rng.choice(["utf-8-sig", "utf-16", "utf-32", "latin-1"])
    return text.encode(codec, errors="replace"), None


def no_object_at_all(rng: random.Random, document: Any) -> Broken:
    del document
    whole = [b"", b"   \n", b"[]", b"null", b"5", b'"club"', b"{}", b"{", b"}", b"[" * 100_000,
             b'{"a":' * 60 + b"1" + b"}" * 60, b"<club/>", b"name: club", b"\x00" * 100,
             b"SQLite format 3\x00", b'{"name": "x"} {}', b'{"name": "x",}', b"{'name': 'x'}",
             b'{"name": "x"} // mine']  # fmt: skip
    return rng.choice(whole), None


def another_version_of_the_file(rng: random.Random, document: Any) -> Broken:
    return put(document, ("format_version",), rng.choice([0, 2, "1", 1.5, True]))


def a_restriction_that_bars_nothing(rng: random.Random, document: Any) -> Broken:
    path = rng.choice([p for p, _ in places(document) if len(p) == 4 and p[2] == "restrictions"])
    holder = document
    for step in path:
        holder = holder[step]
    for key in ("demands", "body_areas", "all_training"):
        holder.pop(key, None)
    return encoded(document), dotted(path)


BREAKERS: tuple[Callable[[random.Random, Any], Broken], ...] = (
    a_field_left_out,
    a_value_of_another_kind,
    a_key_nobody_knows,
    a_mass_that_is_none,
    a_mass_beyond_reason,
    a_date_that_is_none,
    a_date_that_makes_no_sense,
    an_end_before_its_start,
    a_time_that_is_none,
    a_number_out_of_bounds,
    a_number_json_does_not_have,
    a_size_in_centimetres,
    a_word_that_is_not_allowed,
    a_name_that_stands_for_nothing,
    a_version_that_is_not_there,
    an_athlete_nobody_knows,
    two_of_one_id,
    a_key_written_twice,
    a_text_cut_short,
    a_bracket_lost,
    bytes_that_are_no_text,
    a_character_that_is_no_text,
    a_text_too_long_or_blank,
    another_encoding,
    no_object_at_all,
    another_version_of_the_file,
    a_restriction_that_bars_nothing,
)
