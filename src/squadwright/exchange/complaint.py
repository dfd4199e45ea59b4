"""A complaint about a file: where, what is wrong, what to do. Several become one error."""

from collections.abc import Sequence
from dataclasses import dataclass

from squadwright.errors import InvalidInput

Location = tuple[str | int, ...]

LONGEST_SHOWN = 60


@dataclass(frozen=True)
class Complaint:
    """One thing that is wrong with a file, in words."""

    place: str
    problem: str
    advice: str

    def __str__(self) -> str:
        return f"{self.place}: {self.problem}. {self.advice}"


def dotted(location: Location) -> str:
    """A place as a path: ``athletes[3].tests[0].load``."""
    path = ""
    for step in location:
        if isinstance(step, int):
            path += f"[{step}]"
            continue
        key = step if step.isidentifier() and len(step) <= LONGEST_SHOWN else f"[{shown(step)}]"
        path += f".{key}" if path else key
    return path


def one_line(text: str) -> str:
    """A text with everything that is not printable (a line break) written as an escape."""
    return "".join(c if c.isprintable() else c.encode("unicode_escape").decode() for c in text)


def shown(value: object) -> str:
    """A value as it stands in the file, on one line and cut if it is long."""
    if isinstance(value, dict):
        return "an object"
    if isinstance(value, list | tuple):
        return "a list"
    if value is None:
        return "null"
    if isinstance(value, bool):
        return str(value).lower()
    text = repr(value)
    return text if len(text) <= LONGEST_SHOWN else f"{text[:LONGEST_SHOWN]}..."


def as_error(complaints: Sequence[Complaint], *, file: str = "FILE") -> InvalidInput:
    """The first complaint as an error that also counts the others."""
    first, others = complaints[0], len(complaints) - 1
    advice = first.advice
    if others:
        advice += f" (and {others} more; run `squadwright check {one_line(file)}` to see all)"
    return InvalidInput(first.place, first.problem, advice)
