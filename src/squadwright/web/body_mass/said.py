"""A sentence of a gate as pages show it."""

from dataclasses import dataclass


@dataclass(frozen=True)
class Said:
    """A sentence of a gate, with its source."""

    severity: str
    words: str
    advice: str
    source: str
