"""Names that look alike: the same person entered twice, or two of one name."""

from collections.abc import Iterable
from difflib import SequenceMatcher
from typing import Protocol, TypeVar
from unicodedata import category, normalize

# Our estimate: one letter wrong or missing in a name of eight, two in a long one.
ALIKE_FROM = 0.88


class Named(Protocol):
    """Whoever has a name: an athlete, or a line of a file."""

    @property
    def name(self) -> str:
        """The name as written."""


Somebody = TypeVar("Somebody", bound=Named)


def alike(name: str, others: Iterable[Somebody]) -> tuple[Somebody, ...]:
    """Those whose name reads like ``name``, the nearest first.

    Letter case, accents, marks, spaces and the order of the words make no difference; one or two
    wrong letters do not either.
    """
    wanted = _ways(name)
    found = [(_likeness(wanted, _ways(other.name)), other) for other in others]
    near = sorted((pair for pair in found if pair[0] >= ALIKE_FROM), key=lambda pair: -pair[0])
    return tuple(other for _, other in near)


def _likeness(one: tuple[str, str], other: tuple[str, str]) -> float:
    pairs = [(a, b) for a, b in zip(one, other, strict=True) if a and b]
    return max((_ratio(a, b) for a, b in pairs), default=0.0)


def _ratio(one: str, other: str) -> float:
    """How much of two texts is the same; 0 where it is seen sooner that it is too little."""
    most = 2 * min(len(one), len(other)) / (len(one) + len(other))
    if most < ALIKE_FROM:
        return 0.0
    matcher = SequenceMatcher(None, one, other, autojunk=False)
    return matcher.ratio() if matcher.quick_ratio() >= ALIKE_FROM else 0.0


def _ways(name: str) -> tuple[str, str]:
    """A name without accents and case, run together; and with its words in order."""
    plain = normalize("NFKD", name).casefold()
    bare = (c for c in plain if category(c) not in ("Mn", "Cf"))
    words = "".join(c if c.isalnum() else " " for c in bare).split()
    return "".join(words), " ".join(sorted(words))
