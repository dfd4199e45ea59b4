"""The sources behind the formulas: ``sources.toml`` read once, looked up by key."""

import tomllib
from dataclasses import dataclass
from enum import StrEnum
from functools import cache
from importlib.resources import files

from squadwright.errors import NotFound


class Provenance(StrEnum):
    """How the numbers of a source reached this program."""

    READ = "read"
    SECOND_HAND = "second hand"
    MEMORY = "memory"
    ARITHMETIC = "arithmetic"


@dataclass(frozen=True)
class Source:
    """One entry of ``sources.toml``.

    ``authors`` is how the work is named in a sentence ("Sayers and others"); ``where`` holds
    journal, volume and pages or book and chapter; ``note`` says what was and was not seen.
    """

    key: str
    authors: str
    provenance: Provenance
    year: int | None = None
    title: str = ""
    where: str = ""
    doi: str = ""
    note: str = ""

    @property
    def label(self) -> str:
        """Authors and year, as used in a sentence."""
        return self.authors if self.year is None else f"{self.authors} {self.year}"

    @property
    def citation(self) -> str:
        """The whole entry on one line."""
        parts = [self.label, self.title, self.where, f"doi {self.doi}" if self.doi else ""]
        return ". ".join(part for part in parts if part) + f" [{self.provenance.value}]"


@cache
def all_sources() -> dict[str, Source]:
    """Every source by its key."""
    text = files("squadwright").joinpath("sources.toml").read_text(encoding="utf-8")
    return {key: _source(key, entry) for key, entry in tomllib.loads(text).items()}


def _source(key: str, entry: dict[str, str | int]) -> Source:
    year = entry.get("year")
    return Source(
        key=key,
        authors=str(entry["authors"]),
        provenance=Provenance(str(entry["provenance"])),
        year=None if year is None else int(year),
        title=str(entry.get("title", "")),
        where=str(entry.get("where", "")),
        doi=str(entry.get("doi", "")),
        note=str(entry.get("note", "")),
    )


def find_source(key: str) -> Source:
    """The source with this key; raise NotFound otherwise."""
    try:
        return all_sources()[key]
    except KeyError:
        raise NotFound(
            f"source {key!r} is not in sources.toml. Add it there, or correct the key."
        ) from None
