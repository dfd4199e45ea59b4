"""An id for something new: made from its name, and not taken yet."""

import re
from collections.abc import Container
from unicodedata import normalize


def id_words(name: str, longest: int) -> str:
    """A name in the letters of an id: "Long pier" is "long-pier"; empty where it has none."""
    plain = normalize("NFKD", name).encode("ascii", "ignore").decode().casefold().replace("'", "")
    return re.sub(r"[^a-z0-9]+", "-", plain).strip("-")[:longest].strip("-")


def free_id(start: str, taken: Container[str]) -> str:
    """An id as it starts, or with the first number from 2 that makes it one of its own."""
    number, found = 2, start
    while found in taken:
        found, number = f"{start}-{number}", number + 1
    return found
